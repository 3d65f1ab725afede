//! Drums, pails, totes (what they weigh empty and hold) and bags of a stated weight.
//!
//! Source: containers table, row by row. The fill is not known here: shell and contents are added elsewhere.

use super::scan::{Scene, Unit};
use super::words::Classes;
use super::{Measure, OTHER, Product, show};
use crate::tables::products::container as listed;
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
    let row = listed(kind, if kind == "tote" { "any" } else { stuff }, gallons)?;
    let name = if stuff == "any" || kind == "tote" {
        kind.to_string()
    } else {
        format!("{stuff} {kind}")
    };
    Some(Container {
        kind,
        designation: format!("{} gal {name}", show::figure(row.capacity_us_gal)),
        tare: MassRange {
            low: Mass::from_lb(row.tare_low_lb),
            likely: Mass::from_lb(row.tare_lb),
            high: Mass::from_lb(row.tare_high_lb),
        },
        capacity: Volume::from_m3(row.capacity_us_gal.max(gallons) * M3_PER_US_GALLON),
        outline: [row.across_in, row.width_in, row.height_in].map(Length::from_in),
        source: row.source.as_str(),
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
        let beside = scene.word(scene.after_joiner(after)).is_some_and(is_bag)
            || at
                .checked_sub(1)
                .is_some_and(|before| scene.word(before).is_some_and(is_bag));
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

fn is_bag(word: &str) -> bool {
    super::words::classes(word).any(Classes::BAG)
}
