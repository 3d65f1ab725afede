//! Panel with openings: the face less its openings, times the thickness.

use super::{NoSolid, Solid, made, need, term};
use crate::estimate::details::Details;
use crate::understand::Sizes;

/// Names of the openings' sides in the formula.
const NAMES: [(&str, &str); 3] = [
    ("opening width", "opening height"),
    ("second opening width", "second opening height"),
    ("third opening width", "third opening height"),
];

pub(super) fn panel(sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    let sides = [
        ("length", need(sizes.length, "length")?),
        ("width", need(sizes.width, "width")?),
        ("height", need(sizes.height, "height or thickness")?),
    ];
    let outline = sides.map(|(_, size)| size.length);
    // The smallest side is the thickness, wherever it stands.
    let mut sorted = sides;
    sorted.sort_by(|(_, one), (_, other)| other.length.m().total_cmp(&one.length.m()));
    let [(long, first), (wide, second), (thin, thickness)] = sorted;
    let (a, b, t) = (first.length.m(), second.length.m(), thickness.length.m());
    if details.openings.len() > NAMES.len() {
        return Err(NoSolid::Missing("area of so many openings together"));
    }
    if details.openings.is_empty() {
        return Err(NoSolid::Missing("size of the openings"));
    }
    let times = f64::from(details.times);
    if times > 1.0 && details.openings.len() > 1 {
        return Err(NoSolid::Missing("number of each of the openings"));
    }
    let mut open = 0.0;
    let mut parts = String::new();
    let mut terms = Vec::new();
    for ((width, height), (across, up)) in details.openings.iter().zip(NAMES) {
        let height = need(*height, "height of the opening")?;
        let area = times * width.length.m() * height.length.m();
        open += area;
        let count = if times > 1.0 { "openings x " } else { "" };
        parts.push_str(&format!(" - {count}{across} x {up}"));
        terms.push((across, *width, area));
        terms.push((up, height, area));
    }
    let face = a * b - open;
    let biggest = |side: f64| {
        details.openings.iter().any(|(one, other)| {
            let of = |side: f64| side * (1.0 + 1e-9);
            let (one, other) = (one.length.m(), other.map_or(0.0, |other| other.length.m()));
            one.min(other) > of(side) || one.max(other) > of(a)
        })
    };
    if face <= 0.0 || biggest(b) {
        return Err(NoSolid::Impossible(
            "the openings are larger than the panel".to_string(),
        ));
    }
    let mut named = vec![
        term(long, first, a * b / face),
        term(wide, second, a * b / face),
        term(thin, thickness, 1.0),
    ];
    named.extend(
        terms
            .into_iter()
            .map(|(name, size, area)| term(name, size, -area / face)),
    );
    let formula = format!("({long} x {wide}{parts}) x {thin}");
    let solid = made("panel with openings", &formula, face * t, named, outline);
    Ok(Solid {
        numbers: if times > 1.0 {
            vec![("openings", times)]
        } else {
            Vec::new()
        },
        ..solid.hollow_in(a * b * t)
    })
}
