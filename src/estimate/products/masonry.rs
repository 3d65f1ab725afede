//! Concrete masonry units and bricks by the piece: a unit's name is its nominal size, 3/8 in more each way than it is.
//!
//! Source: ASTM C90 density classes and lists of brick weights, row by row in the table; other units by the rule of the true size.

use super::scan::{Scene, Unit};
use super::words::Classes;
use super::{Measure, Product, show};
use crate::tables::products::{MasonryUnit, masonry};
use crate::units::{Length, Mass, MassRange};

/// Density classes of ASTM C90, heaviest first.
const CLASSES: [&str; 3] = ["normal", "medium", "lightweight"];
/// Other stuff than the table's, or a load of many.
const NOT_ONE: &[&str] = &[
    "fire",
    "firebrick",
    "refractory",
    "engineering",
    "insulating",
    "glass",
    "silica",
    "magnesia",
    "alumina",
    "paver",
    "pavers",
    "paving",
    "aac",
    "aerated",
    "cube",
    "cubes",
    "cap",
    "bond",
    "lintel",
    "retaining",
    "barrier",
    "split",
];

/// The one masonry unit or brick that a description names. Of a pallet it must say how many are on it; of a cube nothing does.
pub fn find(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    if scene.says(NOT_ONE)
        || scene
            .classes
            .any(Classes::MADE.and(Classes::STEEL).and(Classes::LUMBER))
        || scene.classes.any(Classes::PACKED) && !pack_of_many(scene)
    {
        return None;
    }
    if scene.says(&[
        "brick",
        "bricks",
        "ziegel",
        "brique",
        "briques",
        "ladrillo",
        "ladrillos",
        "mattone",
        "mattoni",
    ]) {
        brick(scene)
    } else {
        unit(scene, hint)
    }
}

/// "Pallet of 500 modular bricks": a whole number behind the package that is no size and no weight.
fn pack_of_many(scene: &Scene) -> bool {
    let packed = |at: usize| {
        scene
            .word(at)
            .is_some_and(|word| super::words::classes(word).any(Classes::PACKED))
    };
    let count = |at: usize| {
        scene
            .value(at)
            .is_some_and(|value| value.fract() == 0.0 && value > 1.0)
            && scene.unit(at + 1).is_none()
            && scene
                .word(at + 1)
                .is_some_and(|_| scene.glued_word(at + 1).is_none())
    };
    let packs: Vec<usize> = (0..scene.tokens.len()).filter(|at| packed(*at)).collect();
    matches!(packs[..], [at] if scene.word(at + 1) == Some("of") && count(at + 2))
}

fn brick(scene: &Scene) -> Option<Product> {
    let named: Vec<&'static MasonryUnit> = masonry()
        .iter()
        .filter(|row| row.class.is_empty())
        .filter(|row| {
            row.name
                .split(' ')
                .next()
                .is_some_and(|name| scene.says(&[name.to_lowercase().as_str()]))
        })
        .collect();
    let [row] = named[..] else { return None };
    Some(piece(&[row], row.name.clone(), false))
}

/// "CMU 8x8x16 normal weight", "8 in hollow concrete block": the width names it. Without a density class all three are possible.
fn unit(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    let cmu = scene.says(&["cmu", "cmus"]);
    let block = scene.says(&["block", "blocks"]) && scene.says(&["hollow", "masonry"]);
    if !(cmu || block) {
        return None;
    }
    let kind = if scene.says(&["solid"]) {
        "solid"
    } else {
        "hollow"
    };
    let mut found: Option<f64> = None;
    for at in (0..scene.tokens.len()).filter(|at| scene.number(*at).is_some()) {
        let Some(chain) = scene.chain(at).filter(|chain| chain.dims.len() == 3) else {
            continue;
        };
        let marked = chain.dims.iter().any(|dim| dim.unit == Some(Unit::Inch));
        let inches = chain.dims.iter().all(|dim| dim.unit_in(&[Unit::Inch]))
            && (marked || hint != Some(true));
        // The trade writes width x height x length.
        let [width, 8.0, 16.0] = chain.values()[..] else {
            return None;
        };
        if !inches || found.is_some() {
            return None;
        }
        found = Some(width);
    }
    let name = format!("CMU {}x8x16 {kind}", show::figure(found?));
    let said = |class: &&str| match *class {
        "lightweight" => scene.says(&["lightweight", "lw", "light"]),
        "medium" => scene.says(&["medium", "mw"]),
        _ => scene.says(&["normal", "nw", "heavy", "heavyweight"]),
    };
    let classes: Vec<&str> = CLASSES.into_iter().filter(said).collect();
    let classes = match classes[..] {
        [] => &CLASSES[..],
        [_] => &classes[..],
        _ => return None,
    };
    let rows: Vec<&'static MasonryUnit> = classes
        .iter()
        .filter_map(|class| {
            masonry()
                .iter()
                .find(|row| row.name == name && row.class == *class)
        })
        .collect();
    let open = rows.len() > 1;
    (!rows.is_empty()).then(|| piece(&rows, name, open))
}

/// A piece of one of these rows; likely the first, the heaviest.
fn piece(rows: &[&'static MasonryUnit], designation: String, open: bool) -> Product {
    let first = rows[0];
    let low = rows
        .iter()
        .map(|row| row.mass_low_lb)
        .fold(f64::MAX, f64::min);
    let brick = first.class.is_empty();
    let class = match (brick, open) {
        (true, _) => String::new(),
        (false, true) => ", density class not stated".to_string(),
        (false, false) => format!(", {} weight", first.class),
    };
    let size = [first.width_in, first.height_in, first.length_in]
        .map(show::inches)
        .join(" x ");
    Product {
        measure: Measure::PerPiece {
            piece: MassRange {
                low: Mass::from_lb(low),
                likely: Mass::from_lb(first.mass_lb),
                high: Mass::from_lb(first.mass_high_lb),
            },
        },
        material: Some(if brick {
            "brick"
        } else {
            "concrete masonry unit"
        }),
        length: Some(Length::from_in(first.length_in)),
        outline: Some((
            Length::from_in(first.height_in),
            Length::from_in(first.width_in),
        )),
        working: format!("{designation}{class} is truly {size} in"),
        source: first.source.as_str(),
        ..Product::steel("masonry", "block", designation, 0.0, 0.0)
    }
}
