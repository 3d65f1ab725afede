//! Plates and bars by name: PL1/2x48x96, RB 1, SQ 1, HEX 3/4, FB 1/4x4, "Round bar 50", "Flachstahl 100x10".
//!
//! Source: rule of the section at 7,850 kg/m3 (490 lb/ft3); trade sheets bill flats 1.4 % higher.

use super::inches::inches;
use super::scan::{Chain, Dim, Kind, Scene, Unit};
use super::words::Classes;
use super::{BAR, LONGEST_BARE, Measure, Product, STEEL_KG_M3, show};
use crate::units::{Length, M_PER_IN, Mass, MassRange};

/// Plate over its theoretical mass (method, section 1: plate -0/+5 %).
const PLATE_OVER: f64 = 0.05;

/// Whether the sizes of a plate or bar are inches. A word "mm" anywhere counts as the file's sign.
fn in_inches(chain: &Chain, needed: usize, hint: Option<bool>, scene: &Scene) -> Option<bool> {
    let section = chain.dims.get(..needed)?;
    let hint = if scene.says(&["mm"]) {
        Some(true)
    } else {
        hint
    };
    let largest = section.iter().map(Dim::value).fold(0.0, f64::max);
    let smallest = section.iter().map(Dim::value).fold(f64::MAX, f64::min);
    // Below 6 mm it is wire or shim; above 4 in thick nothing is rolled: then the other unit is meant, and nothing says so.
    let possible = |inch| match (inch, hint, needed) {
        (true, Some(true) | None, _) => false,
        (true, Some(false), _) => largest <= 480.0 && smallest <= 4.0,
        (false, Some(metric), _) => metric && (needed > 1 || largest >= 6.0),
        // A plate of 500 x 500 and more, a bar of more than 12: millimetres.
        (false, None, 1) => largest > 12.0,
        (false, None, _) => largest >= 500.0 || (needed == 2 && largest >= 40.0 && smallest >= 3.0),
    };
    inches(section, chain.dims.get(needed), hint, possible)
}

/// The sizes as the trade writes them.
fn written(dims: &[Dim], inch: bool) -> String {
    let show = if inch { show::inches } else { show::figure };
    let figures: Vec<String> = dims.iter().map(|dim| show(dim.value())).collect();
    figures.join("x")
}

/// A plate named at this token: `PL1/2x12` by the metre, `PL1/2x48x96` as a piece (the smallest size is the thickness).
pub fn plate(scene: &Scene, at: usize, hint: Option<bool>) -> Option<Product> {
    let chain = scene.chain(scene.after_joiner(at + 1))?;
    if !chain.clean || !(2..=3).contains(&chain.dims.len()) {
        return None;
    }
    let section = chain.dims.get(..2)?;
    if !section
        .iter()
        .all(|dim| dim.unit_in(&[Unit::Inch, Unit::Millimetre]))
    {
        return None;
    }
    let inch = in_inches(&chain, chain.dims.len(), hint, scene)?;
    let scale = if inch { M_PER_IN } else { 1e-3 };
    let in_metres = |dim: &Dim| match dim.unit {
        Some(Unit::Foot | Unit::Metre | Unit::Centimetre) => dim.length().map(Length::m),
        _ => Some(dim.value() * scale),
    };
    let mut metres: Vec<f64> = chain.dims.iter().map(in_metres).collect::<Option<_>>()?;
    let written = written(&chain.dims, inch);
    let designation = format!("PL{}{}", written, if inch { "" } else { " mm" });
    // A third figure beside an equal one is a side: nobody cuts a plate 14 in by 14 ft.
    let length_unclear = matches!(chain.dims[..], [one, two, three]
        if may_be_longer(&three, inch) && three.value() != one.value() && three.value() != two.value());
    if length_unclear {
        metres.truncate(2);
    }
    metres.sort_by(f64::total_cmp);
    let (&thickness, &width) = (metres.first()?, metres.get(1)?);
    if !(0.000_5..=0.3).contains(&thickness) || thickness > width || width > 5.0 {
        return None;
    }
    let (measure, length) = match metres.get(2) {
        Some(&length) => {
            let nominal = Mass::from_kg(thickness * width * length * STEEL_KG_M3);
            (
                Measure::PerPiece {
                    piece: MassRange {
                        low: nominal,
                        likely: nominal,
                        high: nominal * (1.0 + PLATE_OVER),
                    },
                },
                Some(length),
            )
        }
        None => (
            Measure::PerLength {
                kg_per_m: thickness * width * STEEL_KG_M3,
            },
            None,
        ),
    };
    Some(Product {
        measure,
        make_low: 0.0,
        make_high: PLATE_OVER,
        length: length.map(Length::from_m),
        length_unclear,
        outline: Some((Length::from_m(thickness), Length::from_m(width))),
        working: format!("{designation} by thickness and width at 7,850 kg/m3"),
        source: "steel plate at 490 lb/ft3 (7,850 kg/m3)",
        extrapolated: true,
        ..Product::steel("PL", "plate", designation, 0.0, 0.0)
    })
}

#[derive(Clone, Copy)]
struct Shape {
    family: &'static str,
    goods: &'static str,
    /// Area over the square of the size; 1 for flats, whose two sizes are multiplied.
    factor: f64,
    flat: bool,
    /// Names a bar without any other word.
    plain: bool,
}

fn shape(word: &str) -> Option<Shape> {
    let of = |family, goods, factor, flat, plain| {
        Some(Shape {
            family,
            goods,
            factor,
            flat,
            plain,
        })
    };
    let round = std::f64::consts::FRAC_PI_4;
    match word {
        "rundstahl" | "rundeisen" => of("round", "round bar", round, false, true),
        "rb" | "round" | "rd" => of("round", "round bar", round, false, false),
        "vierkantstahl" => of("square", "square bar", 1.0, false, true),
        "sq" | "square" => of("square", "square bar", 1.0, false, false),
        "sechskantstahl" => of("hex", "hexagonal bar", 0.866_025, false, true),
        "hex" | "hexagon" | "hexagonal" => of("hex", "hexagonal bar", 0.866_025, false, false),
        "oct" | "octagon" => of("octagon", "round bar", 0.828_427, false, false),
        "flachstahl" => of("flat", "flat bar", 1.0, true, true),
        "fb" | "fl" | "flat" => of("flat", "flat bar", 1.0, true, false),
        _ => None,
    }
}

/// A bar named at this token.
pub fn named(scene: &Scene, at: usize, hint: Option<bool>) -> Option<Product> {
    let shape = shape(scene.word(at)?)?;
    // Hollow or threaded bars, wire and reinforcement are other things; tubes and pipes have their own names.
    let other = scene.classes.any(
        Classes::TUBE
            .and(Classes::PIPE)
            .and(Classes::REBAR)
            .and(Classes::RAIL)
            .and(Classes::LUMBER)
            .and(Classes::PANEL),
    );
    if other
        || scene.says(&[
            "hollow",
            "threaded",
            "perforated",
            "deformed",
            "hss",
            "angle",
            "channel",
            "rod-end",
            "section",
            "head",
            "box",
        ])
    {
        return None;
    }
    // Short names stand alone or beside "bar": HEX 3/4 in a list of screws is no bar.
    if !(shape.plain || scene.classes.any(Classes::BAR) || alone(scene, at)) {
        return None;
    }
    let mut next = scene.after_joiner(at + 1);
    while scene.word(next).is_some_and(|word| {
        matches!(
            word,
            "bar" | "bars" | "steel" | "dia" | "diam" | "diameter" | "ms" | "hr" | "stock"
        )
    }) {
        next = scene.after_joiner(next + 1);
    }
    let chain = scene.chain(next)?;
    let needed = if shape.flat { 2 } else { 1 };
    let section = chain.dims.get(..needed)?;
    if !chain.clean
        || chain.dims.len() > needed + 1
        || !section
            .iter()
            .all(|dim| dim.unit_in(&[Unit::Inch, Unit::Millimetre]))
    {
        return None;
    }
    let inch = in_inches(&chain, needed, hint, scene)?;
    let scale = if inch { M_PER_IN } else { 1e-3 };
    let metres: Vec<f64> = section.iter().map(|dim| dim.value() * scale).collect();
    let (width, thickness) = match metres[..] {
        [size] => (size, size),
        [a, b] => (a.max(b), a.min(b)),
        _ => return None,
    };
    if !(0.002..=0.6).contains(&width)
        || thickness < 0.001_5
        || (shape.flat && width < 1.2 * thickness)
    {
        return None;
    }
    let kg_per_m = shape.factor * width * thickness * STEEL_KG_M3;
    let written = written(section, inch);
    let designation = format!(
        "{} {} {}",
        shape.goods,
        written,
        if inch { "in" } else { "mm" }
    );
    let last = chain.dims.get(needed);
    let length_unclear = last.is_some_and(|dim| may_be_longer(dim, inch));
    Some(Product {
        length: last
            .filter(|_| !length_unclear)
            .and_then(|dim| last_size(dim, scale)),
        length_unclear,
        outline: Some((Length::from_m(thickness), Length::from_m(width))),
        working: format!(
            "{designation} by its section at 7,850 kg/m3: {}",
            show::per_metre(kg_per_m)
        ),
        source: "rule of the section, steel at 490 lb/ft3 (7,850 kg/m3)",
        extrapolated: true,
        ..Product::steel(shape.family, shape.goods, designation, kg_per_m, BAR)
    })
}

/// Whether a bare last figure may be a length in another unit than the section's: behind inches feet, behind millimetres metres
/// up to 24 (the longest stock length; common practice, no source).
fn may_be_longer(dim: &Dim, inch: bool) -> bool {
    dim.bare_up_to(if inch { LONGEST_BARE } else { 24.0 })
}

/// The length behind the section, in the section's own unit where it has none: `Flat bar 100x12x600`.
fn last_size(dim: &Dim, scale: f64) -> Option<Length> {
    dim.length().or_else(|| {
        dim.unit
            .is_none()
            .then(|| Length::from_m(dim.value() * scale))
    })
}

/// No other word stands in the description than units and plain qualities.
fn alone(scene: &Scene, at: usize) -> bool {
    scene
        .tokens
        .iter()
        .enumerate()
        .all(|(place, token)| match &token.kind {
            Kind::Word(word) => {
                place == at
                    || matches!(
                        word.as_str(),
                        "mm" | "in"
                            | "inch"
                            | "dia"
                            | "diameter"
                            | "steel"
                            | "ms"
                            | "hr"
                            | "cr"
                            | "crs"
                            | "hrs"
                            | "stock"
                            | "pcs"
                            | "l"
                            | "lg"
                            | "long"
                            | "ft"
                            | "m"
                            | "a"
                    )
            }
            _ => true,
        })
}
