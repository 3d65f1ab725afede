//! Flat glass by its nominal thickness, and sheet metal by gauge: mass per area, and the sides of the pane or sheet.
//!
//! Sources: glass fabricators' data and 2.5 kg/m2 a millimetre; Manufacturers' Standard Gauge, Galvanized Sheet Gauge, US Standard
//! Gauge for stainless, Brown and Sharpe for aluminium: a gauge number alone is no thickness. Row by row in the tables.

use super::scan::{Chain, Dim, Kind, Scene, Unit};
use super::words::Classes;
use super::{KG_M2_PER_PSF, Measure, Product, show};
use crate::tables::products::{gauge, glass_pane};
use crate::units::{Length, M_PER_IN};

/// An inch pane is made up to 6 % thinner than its name (1/4 in is 6 mm), thickness and cutting included.
const GLASS: (f64, f64) = (0.08, 0.05);
/// Spacer and seal of an insulating unit beside its lites (common practice, no source).
const SPACER: f64 = 0.06;
/// Thickness tolerance of thin sheet (ASTM A568, from memory).
const SHEET: f64 = 0.08;
/// Glass of thicknesses that the table does not have, kg/m2 a millimetre: panes named in inches at 157 lb/ft3 (fabricator's data),
/// in millimetres at 2,500 kg/m3 (EN 572-1, from memory).
pub(super) const GLASS_KG_M2_MM: (f64, f64) = (2.515, 2.5);

/// The sides of a pane or sheet: the two largest sizes of the one chain that has two sides. Bare figures of a US list up to 16
/// are feet where they can be a sheet ("4x8"), else inches; from 100 up millimetres where nothing speaks for inches.
fn sides(scene: &Scene, hint: Option<bool>) -> Option<(Length, Length)> {
    let follows = |at: usize| {
        at > 0
            && scene
                .tokens
                .get(at - 1)
                .is_some_and(|token| token.kind == Kind::Times)
    };
    let mut found = None;
    let chains = (0..scene.tokens.len())
        .filter(|at| !follows(*at) || scene.chain(*at).is_some_and(|chain| chain.dims.len() == 2));
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

/// The one pane or insulating unit that a description names.
pub fn glass(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    if !scene.says(GLASS_WORDS) || scene.says(OTHER_GLASS) || scene.classes.any(Classes::MADE) {
        return None;
    }
    let double = scene.says(&[
        "igu",
        "igus",
        "insulating",
        "insulated",
        "double",
        "doppio",
        "doble",
        "isolierglas",
        "vetrocamera",
    ]);
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
            // Of a unit without its build-up the lites are not known: two of the thinner common make would be light.
            if double {
                return None;
            }
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

/// The one thickness, and whether it is in inches: a fraction, millimetres by their mark, or the smallest of three sizes.
fn thickness(scene: &Scene) -> Option<(f64, bool)> {
    let mut found: Option<(f64, bool)> = None;
    for at in 0..scene.tokens.len() {
        let Some(number) = scene.number(at) else {
            continue;
        };
        let unit = scene.unit(at + 1).map(|(unit, _)| unit);
        let here = match unit {
            Some(Unit::Millimetre) if (2.0..=40.0).contains(&number.value) => (number.value, false),
            Some(Unit::Inch) | None if number.fraction && number.value <= 1.5 => {
                (number.value, true)
            }
            Some(Unit::Inch) if number.value == 1.0 => (1.0, true),
            _ => continue,
        };
        if found.is_some_and(|other| other != here) {
            return None;
        }
        found = Some(here);
    }
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
    let number = gauge_number(scene)?;
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
        sides(scene, hint.or(Some(false))),
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

fn gauge_number(scene: &Scene) -> Option<f64> {
    let gauge = |at: usize| matches!(scene.word(at), Some("ga" | "gauge" | "gage" | "gge"));
    let mut found = None;
    for at in (0..scene.tokens.len()).filter(|at| gauge(*at)) {
        let before = at.checked_sub(1).and_then(|before| scene.value(before));
        let number = before.or_else(|| scene.value(scene.after_joiner(at + 1)))?;
        if found.is_some_and(|other| other != number) {
            return None;
        }
        found = Some(number);
    }
    found
}

fn by_area(
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
