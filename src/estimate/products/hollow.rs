//! Hollow sections: HSS6x4x1/4, HSS6.625x0.280, RHS 60x40x4, SHS 80x5, CHS 193.7x6, "Square tube 40x40x3".
//!
//! Source: AISC (weights of HSS with nominal wall and an outside corner of 2 t), EN 10219-2 (the same corner up to 6 mm) and
//! EN 10210-2 (hot finished: outside 1.5 t, inside 1 t). Where nothing says hot or cold the cold rule is used and the
//! difference to the heavier hot-finished one is on the upper side.

use super::inches::inches;
use super::scan::{Chain, Dim, Scene, Unit};
use super::words::Classes;
use super::{Product, STEEL_KG_M3, TUBE, show, trailing_length};
use crate::units::{Length, M_PER_IN};

/// Words for square or rectangular tube that need no other.
const BOXES: &[&str] = &[
    "quadratrohr",
    "vierkantrohr",
    "rechteckrohr",
    "formrohr",
    "profilrohr",
    "hohlprofil",
    "rhs",
    "shs",
    "koker",
    "kokerprofiel",
];

/// A hollow section named at this token.
pub fn named(scene: &Scene, at: usize, hint: Option<bool>) -> Option<Product> {
    let word = scene.word(at)?;
    let open = BOXES.contains(&word);
    let tube = matches!(
        word,
        "tube" | "tubes" | "tubo" | "tubos" | "rohr" | "tubing" | "tuyau"
    ) || (matches!(word, "section" | "sections")
        && at > 0
        && matches!(scene.word(at - 1), Some("hollow" | "box")));
    if !(open || tube || matches!(word, "hss" | "chs")) {
        return None;
    }
    let mut next = at + 1;
    while scene.word(next).is_some_and(|word| {
        matches!(
            word,
            "tube"
                | "tubing"
                | "square"
                | "sq"
                | "stl"
                | "rect"
                | "rectangular"
                | "carré"
                | "cuadrado"
                | "cuadrada"
                | "rectangulaire"
                | "steel"
                | "dia"
                | "od"
                | "round"
        )
    }) || scene.sign(next, '-')
        || scene.sign(next, ',')
        || scene.sign(next, ':')
    {
        next += 1;
    }
    let chain = scene.chain(next)?;
    if !chain.clean {
        return None;
    }
    let round = word == "chs" || (tube && scene.classes.any(Classes::ROUND));
    if round {
        return ring(scene, &chain, "CHS", hint);
    }
    let long = |dim: &Dim| matches!(dim.unit, Some(Unit::Foot | Unit::Metre));
    let sized = chain.dims.len() - usize::from(chain.dims.last().is_some_and(long));
    if word == "hss" && sized == 2 {
        // AISC names round sections by decimals; "HSS 4x1/4" could be a square one written short.
        let decimal = chain.dims[0].number.decimals || scene.classes.any(Classes::ROUND);
        return decimal.then(|| ring(scene, &chain, "HSS", hint)).flatten();
    }
    rectangle(scene, &chain, word, hint)
}

/// Largest outside size and wall of a hollow section or pipe in inches: pipe is made to 48 in, AISC has walls to 1 in for
/// rectangles and ASME B36.10M to 2.344 in for pipe. A bare name with more is metric.
const INCH_OUTSIDE: f64 = 48.0;
/// Smallest outside size and wall in millimetres (precision tube; common practice, no source).
const METRIC_LEAST: (f64, f64) = (6.0, 0.5);
/// The same of a section called HSS, a North American name: CSA G40.20 starts at 25.4 mm (from memory).
const METRIC_HSS: (f64, f64) = (25.0, 1.5);

/// Thickest bare wall of a pipe in inches.
pub(super) const PIPE_WALL_IN: f64 = 2.5;

fn least(word: &str) -> (f64, f64) {
    if word == "hss" {
        METRIC_HSS
    } else {
        METRIC_LEAST
    }
}

/// The first `needed` sizes of a chain in metres (the wall last), with whether they are inches. None where nothing tells.
pub(super) fn sizes(
    chain: &Chain,
    needed: usize,
    hint: Option<bool>,
    thickest_in: f64,
    least_mm: (f64, f64),
) -> Option<(Vec<f64>, bool)> {
    let section = chain.dims.get(..needed)?;
    if section
        .iter()
        .any(|dim| !dim.unit_in(&[Unit::Inch, Unit::Millimetre]))
    {
        return None;
    }
    let largest = section.iter().map(Dim::value).fold(0.0, f64::max);
    let wall = section.last()?.value();
    let possible = |inch| {
        if inch {
            largest <= INCH_OUTSIDE && wall <= thickest_in
        } else {
            largest >= least_mm.0 && wall >= least_mm.1
        }
    };
    let inch = inches(section, chain.dims.get(needed), hint, possible)?;
    let scale = if inch { M_PER_IN } else { 1e-3 };
    (!inch || largest <= INCH_OUTSIDE).then(|| {
        (
            section.iter().map(|dim| dim.value() * scale).collect(),
            inch,
        )
    })
}

fn rectangle(scene: &Scene, chain: &Chain, word: &str, hint: Option<bool>) -> Option<Product> {
    let short = word == "shs" && chain.dims.len() == 2;
    let needed = if short { 2 } else { 3 };
    let (length, length_unclear) = trailing_length(chain, needed)?;
    let (metres, inch) = sizes(chain, needed, hint, 1.0, least(word))?;
    let (h, b, t) = match metres[..] {
        [side, t] => (side, side, t),
        [h, b, t] => (h, b, t),
        _ => return None,
    };
    if t * 2.5 > h.min(b)
        || t <= 0.0
        || h.max(b) > 6.0 * h.min(b)
        || h.max(b) > 1.0
        || (word == "shs" && h != b)
    {
        return None;
    }
    let number = |value: f64| (0..scene.tokens.len()).any(|at| scene.value(at) == Some(value));
    let hot = number(10_210.0) || scene.says(&["hot", "hf"]);
    let cold = inch || number(10_219.0) || scene.says(&["cold", "cf"]);
    let mass = |corner: f64| {
        (2.0 * t * (h + b - 2.0 * t) - (4.0 - std::f64::consts::PI) * corner * t * t) * STEEL_KG_M3
    };
    // Corner radii squared, outside less inside: 2^2 - 1^2 cold (EN 10219 up to 6 mm, AISC), 1.5^2 - 1^2 hot (EN 10210).
    let (cold_mass, hot_mass) = (mass(3.0), mass(1.25));
    let kg_per_m = if hot && !cold { hot_mass } else { cold_mass };
    let family = match (word, inch, h == b) {
        ("hss", _, _) | (_, true, _) => "HSS",
        (_, false, true) => "SHS",
        (_, false, false) => "RHS",
    };
    let written = |value: f64| {
        if inch {
            show::inches(value / M_PER_IN)
        } else {
            show::figure(value * 1e3)
        }
    };
    let gap = if inch { "" } else { " " };
    let designation = format!("{family}{gap}{}x{}x{}", written(h), written(b), written(t));
    let mut product = Product {
        length,
        length_unclear,
        outline: Some((Length::from_m(h), Length::from_m(b))),
        working: format!(
            "{designation} by its sides, wall and rounded corners: {}",
            show::per_metre(kg_per_m)
        ),
        source: if inch {
            "AISC HSS: nominal wall, outside corner 2 t"
        } else {
            "EN 10219-2 and EN 10210-2: rule of the section"
        },
        extrapolated: true,
        ..Product::steel(family, "hollow section", designation, kg_per_m, TUBE)
    };
    if !hot && !cold {
        product.make_high += hot_mass / cold_mass - 1.0;
    }
    Some(product)
}

/// A round hollow section by outside diameter and wall.
fn ring(scene: &Scene, chain: &Chain, family: &'static str, hint: Option<bool>) -> Option<Product> {
    let (length, length_unclear) = trailing_length(chain, 2)?;
    let (metres, inch) = sizes(chain, 2, hint, PIPE_WALL_IN, least(&family.to_lowercase()))?;
    let (od, wall) = (metres[0], metres[1]);
    // A tube named by nominal size or with a second outside size is none of these.
    if wall * 2.2 > od || od > 2.5 || scene.word(chain.end) == Some("id") {
        return None;
    }
    let kg_per_m = std::f64::consts::PI * (od - wall) * wall * STEEL_KG_M3;
    let written = |value: f64| show::figure(value / if inch { M_PER_IN } else { 1e-3 });
    let designation = format!("{family} {}x{}", written(od), written(wall));
    Some(Product {
        length,
        length_unclear,
        outline: Some((Length::from_m(od), Length::from_m(od))),
        working: format!(
            "{designation} by outside diameter and wall: {}",
            show::per_metre(kg_per_m)
        ),
        source: "rule of EN 10220 and ASME B36.10M: pi (D - t) t at 7,850 kg/m3",
        extrapolated: true,
        ..Product::steel(family, "hollow section", designation, kg_per_m, TUBE)
    })
}
