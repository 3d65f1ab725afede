//! Sheet metal by gauge: mass per area; and the sides of a sheet or pane.
//!
//! Sources: Manufacturers' Standard Gauge, Galvanized Sheet Gauge, US Standard
//! Gauge for stainless, Brown and Sharpe for aluminium: a gauge number alone is no thickness. Row by row in the tables.

use super::scan::{Chain, Dim, Kind, Scene, Token, Unit};
use super::words::Classes;
use super::{KG_M2_PER_PSF, Measure, Product, show};
use crate::tables::packages;
use crate::tables::products::gauge;
use crate::units::{Length, M_PER_IN};

/// Thickness tolerance of thin sheet (ASTM A568, from memory).
const SHEET: f64 = 0.08;
/// The sides of a pane or sheet: the two largest sizes of the one chain that has two sides. Bare figures of a US list up to 16
/// are feet where they can be a sheet ("4x8"), else inches; from 100 up millimetres where nothing speaks for inches.
pub(super) fn sides(scene: &Scene, hint: Option<bool>) -> Option<(Length, Length)> {
    let times = |token: &Token| token.kind == Kind::Times;
    let before = |at: usize| scene.tokens.get(at.checked_sub(1)?);
    let mut found = None;
    let chains = (0..scene.tokens.len()).filter(|at| !before(*at).is_some_and(times));
    for chain in chains.filter_map(|at| scene.chain(at)) {
        let Some(sides) = sides_of(&chain, hint) else {
            continue;
        };
        if found.is_some_and(|other| other != sides) {
            return None;
        }
        found = Some(sides);
    }
    found
}

fn sides_of(chain: &Chain, hint: Option<bool>) -> Option<(Length, Length)> {
    if !(2..=3).contains(&chain.dims.len()) {
        return None;
    }
    let covering = chain.dims.last().and_then(|dim| dim.unit);
    let us = chain
        .dims
        .iter()
        .any(|dim| dim.number.fraction || matches!(dim.unit, Some(Unit::Inch | Unit::Foot)));
    let small = |dim: &Dim| dim.value() <= 16.0 && dim.value() >= 2.0 && !dim.number.fraction;
    let sheet = chain.dims.len() == 2 && chain.dims.iter().all(small);
    let metres = |dim: &Dim| {
        let bare = match covering {
            Some(Unit::Foot) if dim.unit.is_none() => return Some(dim.value() * 12.0 * M_PER_IN),
            Some(Unit::Metre) if dim.unit.is_none() => return Some(dim.value()),
            _ if us || (hint == Some(false) && dim.value() < 500.0) => M_PER_IN,
            Some(Unit::Millimetre) => 1e-3,
            None if sheet && hint == Some(false) => 12.0 * M_PER_IN,
            None if dim.value() >= 100.0 || hint == Some(true) => 1e-3,
            _ => return None,
        };
        let bare = if sheet && covering.is_none() && hint == Some(false) {
            12.0 * M_PER_IN
        } else {
            bare
        };
        dim.unit
            .map_or(Some(dim.value() * bare), |_| dim.length().map(Length::m))
    };
    let mut all: Vec<f64> = chain.dims.iter().map(metres).collect::<Option<_>>()?;
    all.sort_by(|one, other| other.total_cmp(one));
    // A pane or sheet is at least 0.2 m wide and at most 15 m long (common practice, no source).
    let plausible = all[1] >= 0.2 && all[0] <= 15.0 && all.get(2).is_none_or(|thin| *thin < 0.1);
    plausible.then(|| (Length::from_m(all[0]), Length::from_m(all[1])))
}

/// Words beside a gauge number that make it something else than a plain sheet, or another gauge.
const OTHER_GAUGED: &[&str] = &[
    "stud",
    "studs",
    "track",
    "deck",
    "decking",
    "roof",
    "roofing",
    "corrugated",
    "perforated",
    "expanded",
    "purlin",
    "purlins",
    "girt",
    "duct",
    "nail",
    "nails",
    "hinge",
    "swg",
    "bwg",
    "awg",
    "birmingham",
    "tread",
    "siding",
    "panel",
    "panels",
    "strip",
    "coil",
    "coils",
    "copper",
    "brass",
];

/// The one sheet of a gauge number that a description names.
pub fn gauged(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    let sheet = scene.says(&[
        "sheet", "sheets", "blech", "tole", "tôle", "chapa", "lamiera",
    ]);
    let other = Classes::ACCESSORY
        .and(Classes::MADE)
        .and(Classes::TUBE)
        .and(Classes::PIPE)
        .and(Classes::LUMBER)
        .and(Classes::LINED);
    if !sheet || scene.says(OTHER_GAUGED) || scene.classes.any(other) {
        return None;
    }
    let (number, named) = gauge_number(scene)?;
    let (kind, material) = if scene.says(&["stainless", "ss", "inox", "edelstahl"]) {
        ("stainless sheet", "stainless steel")
    } else if scene.says(&["aluminium", "aluminum", "alu", "alum"]) {
        ("aluminium sheet", "aluminium")
    } else if scene.classes.any(Classes::GALVANISED) {
        ("galvanised sheet", "galvanised steel")
    } else {
        ("sheet", "carbon steel")
    };
    let row = gauge(kind, number)?;
    let designation = format!("{kind} {} ga", show::figure(number));
    let mut product = by_area(
        designation.clone(),
        "sheet",
        row.mass_psf * KG_M2_PER_PSF,
        material,
        // Gauge numbers are of the inch system.
        sides(&scene.without(&named), hint.or(Some(false))),
        Length::from_in(row.thickness_in),
    );
    (product.make_low, product.make_high) = (SHEET, SHEET);
    product.working = format!(
        "{designation} is {} in thick: {:.2} lb/ft2",
        show::figure(row.thickness_in),
        row.mass_psf
    );
    product.source = row.source.as_str();
    Some(product)
}

/// The gauge number, and the places of the tokens that name it, with the `x` beside them. Where a number stands on either side of
/// the word, the one that ends a chain of two ("4x12 ga 7") is a side; else both may be the gauge, and there is none.
fn gauge_number(scene: &Scene) -> Option<(f64, Vec<usize>)> {
    let gauge = |at: usize| matches!(scene.word(at), Some("ga" | "gauge" | "gage" | "gge"));
    let times = |at: usize| {
        scene
            .tokens
            .get(at)
            .is_some_and(|token| token.kind == Kind::Times)
    };
    let mut found = None;
    let mut named = Vec::new();
    for word in (0..scene.tokens.len()).filter(|at| gauge(*at)) {
        let before = word.checked_sub(1).filter(|at| scene.value(*at).is_some());
        let after = scene.after_joiner(word + 1);
        // A figure with its unit, with more sizes or with a word for pieces behind it is no gauge.
        let counts = scene.word(after + 1).and_then(packages::of_word).is_some();
        let sized = scene.unit(after + 1).is_some() || times(after + 1) || counts;
        let behind = Some(after).filter(|at| scene.value(*at).is_some() && !sized);
        let at = match (before, behind) {
            (Some(before), Some(behind)) => {
                let joined = before.checked_sub(1).is_some_and(times);
                let pair = joined && (0..before).filter(|at| times(*at)).count() == 1;
                pair.then_some(behind)?
            }
            (before, behind) => before.or(behind)?,
        };
        let number = scene.value(at)?;
        if found.is_some_and(|other| other != number) {
            return None;
        }
        found = Some(number);
        let (first, last) = (word.min(at), word.max(at));
        named.extend(first..=last);
        named.extend([last + 1].into_iter().filter(|at| times(*at)));
        named.extend(first.checked_sub(1).filter(|at| times(*at)));
    }
    found.map(|number| (number, named))
}

pub(super) fn by_area(
    designation: String,
    goods: &'static str,
    kg_per_m2: f64,
    material: &'static str,
    sides: Option<(Length, Length)>,
    thickness: Length,
) -> Product {
    Product {
        measure: Measure::PerArea { kg_per_m2 },
        material: Some(material),
        length: sides.map(|(length, _)| length),
        outline: sides.map(|(_, width)| (thickness, width)),
        working: format!("{designation} has {kg_per_m2:.1} kg/m2"),
        ..Product::steel(goods, goods, designation, 0.0, 0.0)
    }
}

#[cfg(test)]
mod tests {
    use crate::estimate::products::testing::{US, recognise};
    use crate::units::Length;

    /// Gauge and sides in inches; no sides where the sizes leave them open.
    #[test]
    fn a_gauge_is_no_side() {
        for (text, gauge, sides) in [
            (
                "Steel sheet 48\" x 144\" x 10 ga",
                "10",
                Some((144.0, 48.0)),
            ),
            ("Steel sheet 48 x 96 x 16 ga", "16", Some((96.0, 48.0))),
            ("Steel sheet 4 x 8 x 16 ga", "16", Some((96.0, 48.0))),
            ("Steel sheet 16 ga x 48 x 96", "16", Some((96.0, 48.0))),
            ("Steel sheet 16ga 4x8", "16", Some((96.0, 48.0))),
            ("Steel sheet gauge 16, 48 x 96", "16", Some((96.0, 48.0))),
            ("Steel sheet 4x12 ga 7", "7", Some((144.0, 48.0))),
            ("Steel sheet 4x12 ga", "12", None),
            (
                "Steel sheet 48 x 96 x 16 ga 4 pcs",
                "16",
                Some((96.0, 48.0)),
            ),
        ] {
            let found = recognise(text, US).unwrap_or_else(|| panic!("{text}"));
            assert_eq!(found.designation, format!("sheet {gauge} ga"), "{text}");
            let inches = |length: Length| length.inches().round();
            let width = found.outline.map(|(_, width)| inches(width));
            assert_eq!(found.length.map(inches).zip(width), sides, "{text}");
        }
    }

    #[test]
    fn of_two_numbers_that_may_be_the_gauge_none_is() {
        for text in [
            "Steel sheet 16 ga 10",
            "Steel sheet 48 x 96 x 12 ga 7",
            "Steel sheet 48\" x 96\" x 12 ga 7",
            "Steel sheet 10 ga or 12 ga 4x8",
        ] {
            assert_eq!(
                recognise(text, US).map(|found| found.designation),
                None,
                "{text}"
            );
        }
    }
}
