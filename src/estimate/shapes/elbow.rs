//! Pipe bend: the area of its ring times the way of its centre line (Pappus).

use super::pipe::annulus;
use super::{NoSolid, Solid, made, need, term};
use crate::estimate::details::Details;
use crate::tables::products;
use crate::understand::{Size1, Sizes};
use crate::units::Length;
use std::f64::consts::PI;

/// How near an outside diameter must be to that of a nominal pipe, relative.
const SAME: f64 = 0.005;

pub(super) fn elbow(sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    let ring = annulus(sizes)?;
    let angle = details.angle.ok_or(NoSolid::Missing("angle of the bend"))?;
    let radius = need(
        details
            .radius
            .or_else(|| nominal(details.bend?, ring.outside)),
        "radius of the bend",
    )?;
    let (d, r) = (ring.outside.m(), radius.length.m());
    // "R 1.5 D" states no length.
    if r < d / 2.0 {
        return Err(NoSolid::Missing("radius of the bend"));
    }
    let way = PI * r * angle / 180.0;
    let mut terms = ring.terms;
    terms.push(term("bend radius", radius, 1.0));
    let (wide, narrow) = (r + d / 2.0, r - d / 2.0);
    let turn = angle.to_radians();
    let outline = if angle <= 90.0 {
        [wide - narrow * turn.cos(), wide * turn.sin()]
    } else {
        [wide - wide * turn.cos(), wide]
    };
    let [along, across] = outline.map(|side| Length::from_m(side.max(d)));
    let formula = format!("{} x pi x bend radius x angle / 180", ring.formula);
    let solid = made(
        "elbow",
        &formula,
        ring.area * way,
        terms,
        [along, across, ring.outside],
    );
    Ok(Solid {
        numbers: vec![("angle", angle)],
        source: if details.radius.is_some() {
            "geometry"
        } else {
            "geometry; bend radius of a long or short radius elbow: ASME B16.9, from memory"
        },
        ..solid.hollow_in(PI / 4.0 * d * d * way)
    })
}

/// The centre line's radius of a butt-welding elbow: `times` the nominal size in inches (ASME B16.9, from memory), the nominal size from the
/// outside diameter (ASME B36.10M).
fn nominal(times: f64, outside: Length) -> Option<Size1> {
    let near = |pipe: &&products::Pipe| (pipe.od_in / outside.inches() - 1.0).abs() < SAME;
    let pipe = products::pipes().iter().find(near)?;
    Some(Size1 {
        length: Length::from_in(times * pipe.nps),
        half_digit: Length::ZERO,
        fine: true,
    })
}
