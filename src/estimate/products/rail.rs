//! Rails: 115RE is pounds per YARD, 60E1 kilograms per metre.
//!
//! Source: AREMA sections, EN 13674-1 profiles, DIN 536-1 and ASTM A759 crane rails, row by row in the table.

use super::scan::{Scene, Unit};
use super::words::Classes;
use super::{OTHER, Product, show};
use crate::tables::products::{mm, rail};
use crate::units::KG_PER_LB;

/// kg/m in one pound per yard: exact.
pub(super) const KG_M_PER_LB_YD: f64 = KG_PER_LB / 0.9144;
/// A rail named at this token.
pub fn named(scene: &Scene, at: usize) -> Option<Product> {
    if scene.classes.any(Classes::TRACK_PART) {
        return None;
    }
    let said = scene.classes.any(Classes::RAIL);
    if let Some(number) = scene.number(at) {
        return if number.fraction {
            None
        } else {
            number_first(scene, at, number.value, said)
        };
    }
    let word = scene.word(at)?;
    let figures = scene.after_joiner(at + 1);
    let number = scene.value(figures)?;
    let letter = if word == "bs" {
        scene.glued_word(figures + 1)
    } else {
        None
    };
    let end = figures + 1 + usize::from(letter.is_some());
    let glued = figures == at + 1 && scene.tokens.get(figures).is_some_and(|token| token.glued);
    let known = match word {
        "uic" => true,
        "bs" => letter.is_some(),
        // Short: grades, blocks and part numbers look like them.
        "s" | "r" | "a" | "cr" => said && glued,
        _ => false,
    };
    if !known || !scene.ends(end) {
        return None;
    }
    listed(&format!(
        "{}{}{}",
        word.to_uppercase(),
        show::figure(number),
        letter.unwrap_or("").to_uppercase()
    ))
}

fn number_first(scene: &Scene, at: usize, number: f64, said: bool) -> Option<Product> {
    let glued = scene.tokens.get(at + 1).is_some_and(|token| token.glued);
    match scene.word(at + 1) {
        // 60E1: kilograms per metre, rounded.
        Some("e") if glued => {
            let version = scene
                .value(at + 2)
                .filter(|_| scene.tokens.get(at + 2).is_some_and(|token| token.glued))?;
            let name = format!("{}E{}", show::figure(number), show::figure(version));
            let fits = (30.0..=76.0).contains(&number)
                && (1.0..=9.0).contains(&version)
                && scene.ends(at + 3);
            fits.then(|| {
                listed(&name).unwrap_or_else(|| {
                    by_number(name, number, "EN 13674-1: the first number is kg per metre")
                })
            })
        }
        // Two letters stand glued to their number: "Rail 60 as per drawing" names no rail, and 60AS is kilograms per metre.
        Some(word @ ("re" | "ra" | "asce" | "cr"))
            if (glued && word == "re") || (said && (glued || word == "asce")) =>
        {
            let name = format!("{}{}", show::figure(number), word.to_uppercase());
            let fits = (60.0..=175.0).contains(&number) && scene.ends(at + 2);
            fits.then(|| {
                listed(&name).unwrap_or_else(|| {
                    by_number(
                        name,
                        number * KG_M_PER_LB_YD,
                        "AREMA and ASTM A759: the number is pounds per yard",
                    )
                })
            })
        }
        _ if said => stated(scene, at, number),
        _ => None,
    }
}

/// "54 kg/m rail", "115 lb/yd rail": the mass per length is stated. A plain "115 lb" may be the weight of a piece.
fn stated(scene: &Scene, at: usize, number: f64) -> Option<Product> {
    let (unit, end) = scene.unit(at + 1)?;
    let per = scene.word(end.checked_sub(1)?)?;
    match (unit, per) {
        (Unit::Kilogram, "m") if (15.0..=105.0).contains(&number) => Some(by_number(
            format!("rail {} kg/m", show::figure(number)),
            number,
            "mass per metre as described",
        )),
        (Unit::Pound, "yd" | "yard") if (30.0..=175.0).contains(&number) => Some(by_number(
            format!("rail {} lb/yd", show::figure(number)),
            number * KG_M_PER_LB_YD,
            "mass per yard as described",
        )),
        _ => None,
    }
}

fn listed(name: &str) -> Option<Product> {
    let row = rail(name)?;
    Some(Product {
        outline: row
            .height_mm
            .zip(row.width_mm)
            .map(|(height, width)| (mm(height), mm(width))),
        working: format!(
            "rail {name} has {} in the table of rails",
            show::per_metre(row.mass_kg_m)
        ),
        source: row.source.as_str(),
        ..Product::steel("rail", "rail", row.name.clone(), row.mass_kg_m, OTHER)
    })
}

fn by_number(name: String, kg_per_m: f64, source: &'static str) -> Product {
    Product {
        working: format!("{name} by its number: {}", show::per_metre(kg_per_m)),
        source,
        extrapolated: true,
        ..Product::steel("rail", "rail", name, kg_per_m, OTHER)
    }
}
