//! Drums, pails, totes (what they weigh empty and hold) and bags of a stated weight.
//!
//! Source: containers table, row by row. The fill is not known here: shell and contents are added elsewhere.

use super::scan::{Kind, Scene, Unit};
use super::words::Classes;
use super::{Measure, OTHER, Product, drums, show};
use crate::tables::products::{container as listed, containers, pallet as listed_pallet};
use crate::units::{Length, M3_PER_US_GALLON, Mass, MassRange, Volume};

/// A drum, pail or tote named in a description.
#[derive(Clone, Debug, PartialEq)]
pub struct Container {
    /// `drum`, `pail` or `tote`.
    pub kind: &'static str,
    /// Tidy name (`55 gal steel drum`).
    pub designation: String,
    /// Mass empty, one container.
    pub tare: MassRange,
    /// Capacity: the larger of the nominal and the stated one.
    pub capacity: Volume,
    /// Outside: length, width, height; the diameter twice for a round one.
    pub outline: [Length; 3],
    /// Standard or table.
    pub source: &'static str,
}

/// The container a description names: "GEAR OIL 55 GAL DRUMS", "200 L drum", "IBC 1000 L". None without a capacity that the
/// table knows. Steel or plastic widens to both where the words do not say.
pub(super) fn container(scene: &Scene) -> Option<Container> {
    let kind = match (
        scene.classes.any(Classes::DRUM),
        scene.says(&["pail", "pails", "bucket", "buckets"]),
        scene.says(&["ibc", "ibcs", "tote", "totes"]),
    ) {
        (true, false, false) => "drum",
        (false, true, false) => "pail",
        (false, false, true) => "tote",
        _ => return None,
    };
    if scene.relation.is_some()
        || scene.says(&[
            "pump",
            "lid",
            "lids",
            "dolly",
            "trolley",
            "rack",
            "lifter",
            "heater",
            "liner",
            "liners",
            "empty-return",
            "brake",
        ])
    {
        return None;
    }
    let gallons = capacity(scene)?;
    let stuff = match (
        scene.says(&["steel", "metal"]),
        scene.says(&["plastic", "poly", "hdpe"]),
    ) {
        (true, false) => "steel",
        (false, true) => "plastic",
        _ => "any",
    };
    let stuff_of_table = if kind == "tote" { "any" } else { stuff };
    let row = match listed(kind, stuff_of_table, gallons) {
        Some(row) => row,
        None => return by_rule(kind, stuff, gallons),
    };
    let pounds = |low: f64, likely: f64, high: f64| MassRange {
        low: Mass::from_lb(low),
        likely: Mass::from_lb(likely),
        high: Mass::from_lb(high),
    };
    let whole = Container {
        kind,
        designation: designation(kind, stuff, row.capacity_us_gal),
        tare: pounds(row.tare_low_lb, row.tare_lb, row.tare_high_lb),
        capacity: Volume::from_m3(row.capacity_us_gal.max(gallons) * M3_PER_US_GALLON),
        outline: [row.across_in, row.width_in, row.height_in].map(Length::from_in),
        source: row.source.as_str(),
    };
    if kind != "drum" || stuff != "steel" {
        return Some(whole);
    }
    // Of the drums that the stated gauge leaves, the heaviest is likely.
    let drums = drums::by_gauge(scene, row.capacity_us_gal);
    let heaviest = drums
        .iter()
        .copied()
        .max_by(|one, other| one.tare_lb.total_cmp(&other.tare_lb));
    Some(match heaviest {
        Some(drum) => Container {
            tare: drums.iter().fold(
                pounds(drum.tare_low_lb, drum.tare_lb, drum.tare_high_lb),
                |tare, row| MassRange {
                    low: tare.low.min(Mass::from_lb(row.tare_low_lb)),
                    high: tare.high.max(Mass::from_lb(row.tare_high_lb)),
                    ..tare
                },
            ),
            source: drum.source.as_str(),
            ..whole
        },
        None => whole,
    })
}

fn designation(kind: &str, stuff: &str, gallons: f64) -> String {
    let stuff = match stuff {
        "any" => String::new(),
        _ if kind == "tote" => String::new(),
        stuff => format!("{stuff} "),
    };
    format!("{} gal {stuff}{kind}", show::figure(gallons))
}

/// Capacities that the rule may be carried to, US gallons: pails, drums and totes as they are made (common practice, no source).
const BY_RULE: [(&str, f64, f64); 3] = [
    ("pail", 2.0, 8.0),
    ("drum", 13.0, 110.0),
    ("tote", 110.0, 400.0),
];
/// How far a shell worked out from another size may be off, relative (common practice, no source).
const SHELL: f64 = 0.3;

/// A container that the table has in other sizes only: the shell of the nearest size by the power 2/3 of the capacity, its sides by
/// the power 1/3.
fn by_rule(kind: &'static str, stuff: &'static str, gallons: f64) -> Option<Container> {
    let (_, least, most) = BY_RULE.into_iter().find(|(name, ..)| *name == kind)?;
    if !(least..=most).contains(&gallons) {
        return None;
    }
    let stuff_of_table = if kind == "tote" { "any" } else { stuff };
    let far = |row: &crate::tables::products::Container| (row.capacity_us_gal / gallons).ln().abs();
    let row = containers()
        .iter()
        .filter(|row| row.kind == kind && row.stuff == stuff_of_table)
        .min_by(|one, other| far(one).total_cmp(&far(other)))?;
    let ratio = gallons / row.capacity_us_gal;
    let shell = ratio.powf(2.0 / 3.0);
    Some(Container {
        kind,
        designation: designation(kind, stuff, (gallons * 10.0).round() / 10.0),
        tare: MassRange {
            low: Mass::from_lb(row.tare_low_lb * shell * (1.0 - SHELL)),
            likely: Mass::from_lb(row.tare_lb * shell),
            high: Mass::from_lb(row.tare_high_lb * shell * (1.0 + SHELL)),
        },
        capacity: Volume::from_m3(gallons * M3_PER_US_GALLON),
        outline: [row.across_in, row.width_in, row.height_in]
            .map(|side| Length::from_in(side * ratio.cbrt())),
        source: "not in the table: shell of the nearest size by the power 2/3 of the capacity (common practice, no source)",
    })
}

/// Words that an empty pallet's description consists of.
const PALLET_WORDS: &[&str] = &[
    "pallet",
    "pallets",
    "palette",
    "paletten",
    "palettes",
    "palet",
    "palets",
    "paleta",
    "palety",
    "europalette",
    "europaletten",
    "europalet",
    "europallet",
    "europallets",
    "bancale",
    "bancali",
    "epal",
    "eur",
    "euro",
    "gma",
    "wood",
    "wooden",
    "holz",
    "bois",
    "madera",
    "legno",
    "plastic",
    "empty",
    "leer",
    "leere",
    "vide",
    "vides",
    "vacio",
    "vacía",
    "vuoto",
    "vuoti",
    "puste",
    "leeg",
    "new",
    "used",
    "neu",
    "gebraucht",
    "neuf",
    "way",
    "stringer",
    "mm",
    "in",
    "heat",
    "treated",
    "ht",
    "grade",
    "a",
    "b",
    "returned",
    "return",
    "stack",
    "of",
];

/// Empty pallets as goods: nothing else is spoken of, and the words say which pallet it is.
pub fn pallet(scene: &Scene) -> Option<Product> {
    let words = || {
        scene.tokens.iter().filter_map(|token| match &token.kind {
            Kind::Word(word) => Some(word.as_str()),
            _ => None,
        })
    };
    let is_pallet = words().any(|word| {
        word.starts_with("pal") || word.starts_with("europal") || word.starts_with("bancal")
    });
    if !is_pallet || !words().all(|word| PALLET_WORDS.contains(&word)) {
        return None;
    }
    let euro =
        scene.says(&["epal", "eur", "euro"]) || words().any(|word| word.starts_with("europal"));
    let sides =
        (0..scene.tokens.len()).find_map(|at| scene.chain(at).filter(|chain| chain.dims.len() > 1));
    let sized = |one: f64, other: f64| {
        sides.as_ref().is_none_or(|chain| {
            chain.values().starts_with(&[one, other]) || chain.values().starts_with(&[other, one])
        })
    };
    let empty = scene.says(&[
        "empty", "leer", "leere", "vide", "vides", "vuoto", "vuoti", "puste", "leeg", "new",
        "used", "gma",
    ]);
    let name = if scene.says(&["plastic"]) && sides.is_some() && sized(48.0, 40.0) && empty {
        "plastic pallet"
    } else if euro && sized(1200.0, 800.0) {
        "EPAL pallet"
    } else if empty && sides.is_some() && sized(48.0, 40.0) {
        "GMA pallet"
    } else {
        return None;
    };
    let row = listed_pallet(name)?;
    Some(Product {
        measure: Measure::PerPiece {
            piece: MassRange {
                low: Mass::from_kg(row.mass_low_kg),
                likely: Mass::from_kg(row.mass_kg),
                high: Mass::from_kg(row.mass_high_kg),
            },
        },
        material: None,
        length: Some(Length::from_mm(row.length_mm)),
        outline: Some((
            Length::from_mm(row.height_mm),
            Length::from_mm(row.width_mm),
        )),
        working: format!("{name}, empty"),
        source: row.source.as_str(),
        ..Product::steel("pallet", "pallet", name.to_string(), 0.0, 0.0)
    })
}

/// The one stated capacity, US gallons.
fn capacity(scene: &Scene) -> Option<f64> {
    let mut found: Option<f64> = None;
    for at in 0..scene.tokens.len() {
        let (Some(value), Some(word)) = (scene.value(at), scene.word(scene.after_joiner(at + 1)))
        else {
            continue;
        };
        let gallons = match word {
            "gal" | "gals" | "gallon" | "gallons" | "usg" => value,
            "l" | "lt" | "ltr" | "litre" | "litres" | "liter" | "liters" => {
                value * 1e-3 / M3_PER_US_GALLON
            }
            _ => continue,
        };
        match found {
            Some(other) if (other / gallons - 1.0).abs() > 0.06 => return None,
            Some(_) => {}
            None => found = Some(gallons),
        }
    }
    found
}

/// A bag whose net weight stands in the description: "PORTLAND CEMENT 94 LB BAGS". Paper weighs 0.3 lb (from memory).
pub fn bag(scene: &Scene) -> Option<Product> {
    if !scene.classes.any(Classes::BAG) || scene.classes.any(Classes::PACKED.and(Classes::MADE)) {
        return None;
    }
    let mut found: Option<(f64, Unit)> = None;
    for at in 0..scene.tokens.len() {
        let (Some(value), Some((unit, after))) = (scene.value(at), scene.unit(at + 1)) else {
            continue;
        };
        let beside =
            scene.word(scene.after_joiner(after)).is_some_and(is_bag) || behind_bag(scene, at);
        if !matches!(unit, Unit::Pound | Unit::Kilogram) || after != at + 2 {
            continue;
        }
        if !beside || found.is_some_and(|other| other != (value, unit)) {
            return None;
        }
        found = Some((value, unit));
    }
    let (value, unit) = found?;
    let net = if unit == Unit::Pound {
        Mass::from_lb(value)
    } else {
        Mass::from_kg(value)
    };
    // The number on a bulk bag is what it may carry, not what it holds.
    if !(1.0..=60.0).contains(&net.kg()) {
        return None;
    }
    let paper = Mass::from_lb(0.3);
    let designation = format!(
        "bag {} {}",
        show::figure(value),
        if unit == Unit::Pound { "lb" } else { "kg" }
    );
    Some(Product {
        measure: Measure::PerPiece {
            piece: MassRange {
                low: net * (1.0 - OTHER),
                likely: net + paper,
                high: net * (1.0 + OTHER) + paper,
            },
        },
        material: None,
        working: format!("{designation} holds its stated net weight"),
        source: "stated net weight of the bag; filling within 2 % (common practice, no source)",
        ..Product::steel("bag", "bag", designation.clone(), 0.0, OTHER)
    })
}

/// "sack of 25 kg", "bags x 94 lb", "sac de 35 kg": the figure stands behind the word for the bag.
fn behind_bag(scene: &Scene, at: usize) -> bool {
    let joins = |at: usize| {
        scene.tokens[at].kind == Kind::Times
            || matches!(
                scene.word(at),
                Some("of" | "de" | "di" | "da" | "à" | "a" | "zu" | "von" | "van" | "po")
            )
    };
    let Some(before) = at.checked_sub(1) else {
        return false;
    };
    let word = if joins(before) {
        before.checked_sub(1)
    } else {
        Some(before)
    };
    word.and_then(|word| scene.word(word)).is_some_and(is_bag)
}

fn is_bag(word: &str) -> bool {
    super::words::classes(word).any(Classes::BAG)
}
