//! Flat glass by its nominal thickness: one pane, or an insulating unit whose lites and gaps are stated.
//!
//! Sources: glass fabricators' data and 2.5 kg/m2 a millimetre, row by row in the table.

use super::scan::{Kind, Number, Scene, Unit};
use super::sheet::{by_area, sides};
use super::words::Classes;
use super::{Product, show};
use crate::tables::products::glass_pane;
use crate::units::Length;

/// An inch pane is made up to 6 % thinner than its name (1/4 in is 6 mm), thickness and cutting included.
const GLASS: (f64, f64) = (0.08, 0.05);
/// Spacer and seal of an insulating unit beside its lites (common practice, no source).
const SPACER: f64 = 0.06;
/// Glass of thicknesses that the table does not have, kg/m2 a millimetre: panes named in inches at 157 lb/ft3 (fabricator's data),
/// in millimetres at 2,500 kg/m3 (EN 572-1, from memory).
pub(super) const GLASS_KG_M2_MM: (f64, f64) = (2.515, 2.5);

const GLASS_WORDS: &[&str] = &[
    "glass",
    "glas",
    "floatglas",
    "isolierglas",
    "verre",
    "vitrage",
    "vidrio",
    "vetro",
    "vetrocamera",
    "vidro",
    "szkło",
    "igu",
    "igus",
    "glazing",
];
const OTHER_GLASS: &[&str] = &[
    "fiber",
    "fibre",
    "wool",
    "block",
    "blocks",
    "brick",
    "bead",
    "beads",
    "cullet",
    "bottle",
    "bottles",
    "jar",
    "jars",
    "mat",
    "cloth",
    "door",
    "doors",
    "window",
    "windows",
    "fused",
    "borosilicate",
    "boro",
    "tube",
    "tubing",
    "gypsum",
    "board",
    "mosaic",
    "laine",
    "wolle",
    "foam",
    "cellular",
];

/// Words for a unit of several lites or plies.
const SEVERAL: &[&str] = &[
    "igu",
    "igus",
    "insulating",
    "insulated",
    "double",
    "triple",
    "treble",
    "quadruple",
    "twin",
    "dual",
    "doppio",
    "doble",
    "triplo",
    "isolierglas",
    "vetrocamera",
    "glazed",
    "glazing",
    "sealed",
    "unit",
    "units",
    "panes",
    "lites",
    "plies",
    "layers",
];

/// Factors up to this before a thickness are a number of lites (common practice, no source).
const MOST_LITES: f64 = 20.0;

fn is_glass(scene: &Scene) -> bool {
    scene.says(GLASS_WORDS) && !scene.says(OTHER_GLASS) && !scene.classes.any(Classes::MADE)
}

/// Whether a description names glass of several lites or plies without saying which: one thickness would be a part of its weight.
pub fn of_several(scene: &Scene) -> bool {
    if !is_glass(scene) || build_up(scene).is_some() {
        return false;
    }
    let tokens = 0..scene.tokens.len();
    let thick: Vec<usize> = tokens
        .clone()
        .filter(|at| thick(scene, *at).is_some())
        .collect();
    let times = |at: usize| {
        scene
            .tokens
            .get(at)
            .is_some_and(|token| token.kind == Kind::Times)
    };
    let factor = |at: usize| {
        let whole = |number: Number| number.value.fract() == 0.0 && number.value <= MOST_LITES;
        at >= 2 && times(at - 1) && scene.number(at - 2).is_some_and(whole)
    };
    scene.says(SEVERAL)
        || tokens.clone().any(|at| scene.sign(at, '+'))
        || thick.len() > 1
        || thick.into_iter().any(factor)
}

/// The one pane, or insulating unit whose lites and gaps are stated, that a description names.
pub fn glass(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    if !is_glass(scene) || of_several(scene) {
        return None;
    }
    let built = build_up(scene);
    let (lites, inch, name) = match built {
        Some((layers, inch)) => {
            let shown: Vec<String> = layers.iter().map(|layer| shown(*layer, inch)).collect();
            let lites = layers.into_iter().step_by(2).collect::<Vec<_>>();
            (
                lites,
                inch,
                format!("insulating glass unit {}", shown.join("-")),
            )
        }
        None => {
            let (thick, inch) = thickness(scene)?;
            (
                vec![thick],
                inch,
                format!("float glass {}", shown(thick, inch)),
            )
        }
    };
    let unit = if inch { "in" } else { "mm" };
    let rows: Vec<_> = lites.iter().map(|lite| glass_pane(*lite, unit)).collect();
    let (millimetres, rule) = if inch {
        (25.4, GLASS_KG_M2_MM.0)
    } else {
        (1.0, GLASS_KG_M2_MM.1)
    };
    let mass_of = |lite: &f64| {
        glass_pane(*lite, unit).map_or(lite * millimetres * rule, |row| row.mass_kg_m2)
    };
    let kg_per_m2 = lites.iter().map(mass_of).sum();
    let designation = format!("{name} {unit}");
    let thick = match built_thickness(scene) {
        Some(all) => Length::from_mm(all * millimetres),
        None => Length::from_mm(lites.iter().sum::<f64>() * millimetres),
    };
    let mut product = by_area(
        designation,
        "glass",
        kg_per_m2,
        "glass",
        sides(scene, hint),
        thick,
    );
    (product.make_low, product.make_high) = (
        GLASS.0,
        GLASS.1 + if lites.len() > 1 { SPACER } else { 0.0 },
    );
    product.source = rows
        .first()
        .copied()
        .flatten()
        .map_or("EN 572-1 density: 2.5 kg/m2 a millimetre", |row| {
            row.source.as_str()
        });
    product.extrapolated = rows.iter().any(Option::is_none);
    Some(product)
}

fn shown(size: f64, inch: bool) -> String {
    if inch {
        show::inches(size)
    } else {
        show::figure(size)
    }
}

/// Lites and gaps of an insulating unit in turn, "6-16-6", "1/4-1/2-1/4", "4/16Ar/4", and whether they are inches.
fn build_up(scene: &Scene) -> Option<(Vec<f64>, bool)> {
    (0..scene.tokens.len()).find_map(|at| {
        let mut layers = Vec::new();
        let (mut next, mut fractions) = (at, 0);
        loop {
            let number = scene.number(next)?;
            fractions += usize::from(number.fraction);
            layers.push(number.value);
            next += 1;
            while scene.glued_word(next).is_some_and(|word| {
                matches!(word, "ar" | "a" | "air" | "argon" | "kr" | "mm" | "gap")
            }) || scene.sign(next, '"')
            {
                next += 1;
            }
            if !(scene.sign(next, '-') || scene.sign(next, '/')) {
                break;
            }
            next += 1;
        }
        let inch = fractions == layers.len();
        let metric = fractions == 0 && layers.iter().all(|layer| (3.0..=27.0).contains(layer));
        (matches!(layers.len(), 3 | 5) && (inch || metric)).then_some((layers, inch))
    })
}

fn built_thickness(scene: &Scene) -> Option<f64> {
    build_up(scene).map(|(layers, _)| layers.iter().sum())
}

/// The thickness that a number is by its unit or fraction, and whether it is in inches.
fn thick(scene: &Scene, at: usize) -> Option<(f64, bool)> {
    let number = scene.number(at)?;
    match scene.unit(at + 1).map(|(unit, _)| unit) {
        Some(Unit::Millimetre) if (2.0..=40.0).contains(&number.value) => {
            Some((number.value, false))
        }
        Some(Unit::Inch) | None if number.fraction && number.value <= 1.5 => {
            Some((number.value, true))
        }
        Some(Unit::Inch) if number.value == 1.0 => Some((1.0, true)),
        _ => None,
    }
}

/// The one thickness, and whether it is in inches: a fraction, millimetres by their mark, or the smallest of three sizes.
fn thickness(scene: &Scene) -> Option<(f64, bool)> {
    let found = (0..scene.tokens.len()).find_map(|at| thick(scene, at));
    found.or_else(|| {
        let three = |at: usize| scene.chain(at).filter(|chain| chain.dims.len() == 3);
        let chain = (0..scene.tokens.len()).find_map(three)?;
        let metric = chain
            .dims
            .iter()
            .all(|dim| dim.unit_in(&[Unit::Millimetre]));
        let thin = chain.values().into_iter().fold(f64::MAX, f64::min);
        (metric
            && (3.0..=25.0).contains(&thin)
            && chain.values().into_iter().fold(0.0, f64::max) >= 200.0)
            .then_some((thin, false))
    })
}

#[cfg(test)]
mod tests {
    use super::super::{named, testing::recognise};

    #[test]
    fn glass_of_several_lites_is_not_one_pane() {
        for text in [
            "Triple glazing 6 mm 1000x2000 mm",
            "Laminated glass 6 mm + 6 mm 1000x2000 mm",
            "Laminated glass 6 mm and 6 mm 1000x2000 mm",
            "glass 2 x 6 mm 1000x2000 mm",
            "sealed glass unit 6 mm 2 panes 1000x2000 mm",
            "glass 1/4 + 1/4 lami 48 x 96",
            "double glazed glass 6 mm 1000x2000 mm",
            "glass 3 x 1/4\" 48 x 96",
        ] {
            let found = named(text, None);
            assert_eq!(found.product, None, "{text}");
            assert!(found.several_lites, "{text}");
        }
    }

    #[test]
    fn one_pane_and_a_stated_build_up_stay() {
        for (text, designation) in [
            ("Float glass 6 mm 1000x2000 mm", "float glass 6 mm"),
            ("Glass 6 mm x 1000 mm x 2000 mm", "float glass 6 mm"),
            ("Glass 48 x 96 x 1/4", "float glass 1/4 in"),
            (
                "Double glazing 6-16-6 1000x2000 mm",
                "insulating glass unit 6-16-6 mm",
            ),
        ] {
            let found = recognise(text, None).map(|product| product.designation);
            assert_eq!(found.as_deref(), Some(designation), "{text}");
        }
    }
}
