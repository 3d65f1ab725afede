//! British and Australian serial sizes: the last number of UB 203x133x25 and of 310UB40.4 is kg/m.
//!
//! Source: BS 4-1 and EN 10365 (serial sizes); AS/NZS 3679.1 (the Australian form, from memory).

use super::scan::{Chain, Scene, Unit};
use super::{Product, SECTION, show, trailing_length};
use crate::tables::products::{mm, serial};

fn family(word: &str) -> Option<&'static str> {
    Some(match word {
        "ub" | "ukb" => "UB",
        "uc" | "ukc" => "UC",
        "pfc" | "ukpfc" => "PFC",
        "ubp" | "ukbp" => "UBP",
        "rsj" => "RSJ",
        _ => return None,
    })
}

/// A serial size named at this token: name first, name last, or the Australian form.
pub fn named(scene: &Scene, at: usize) -> Option<Product> {
    if let Some(family) = scene.word(at).and_then(family) {
        return british(family, &scene.chain(scene.after_joiner(at + 1))?);
    }
    let depth = scene.number(at)?;
    if let Some(family) = scene.glued_word(at + 1).and_then(family) {
        let mass = scene
            .number(at + 2)
            .filter(|_| scene.tokens.get(at + 2).is_some_and(|token| token.glued))?;
        return scene
            .ends(at + 3)
            .then(|| australian(family, depth.value, mass.value))
            .flatten();
    }
    // "203x133x25 UB": the chain must end in the name.
    let chain = scene.chain(at)?;
    let family = scene.word(chain.end).and_then(family)?;
    british(
        family,
        &Chain {
            clean: scene.ends(chain.end + 1),
            ..chain
        },
    )
}

fn british(family: &'static str, chain: &Chain) -> Option<Product> {
    let [depth, width, mass] = [
        *chain.dims.first()?,
        *chain.dims.get(1)?,
        *chain.dims.get(2)?,
    ];
    let (length, length_unclear) = trailing_length(chain, 3)?;
    let whole = [depth, width]
        .iter()
        .all(|dim| !dim.number.fraction && dim.unit_in(&[Unit::Millimetre]));
    if !chain.clean
        || !whole
        || mass.number.fraction
        || !mass.unit_in(&[Unit::Kilogram])
        || !sensible(depth.value(), width.value(), mass.value())
    {
        return None;
    }
    let row = serial(family, depth.value(), width.value(), mass.value());
    let [h, b, kg] = [depth, width, mass].map(|dim| show::figure(dim.value()));
    let designation = format!("{family} {h}x{b}x{kg}");
    Some(Product {
        length,
        length_unclear,
        outline: Some((mm(depth.value()), mm(width.value()))),
        working: format!("the last number of {designation} is {kg} kg/m"),
        source: row.map_or("BS 4-1 and EN 10365: the last number is kg/m", |row| {
            row.source.as_str()
        }),
        extrapolated: row.is_none(),
        ..Product::steel(family, "section", designation, mass.value(), SECTION)
    })
}

fn australian(family: &'static str, depth: f64, mass: f64) -> Option<Product> {
    // AS/NZS 3679.1 range of depths and masses, from memory: 75 PFC 5.9 to 610 UB 125.
    if !(75.0..=610.0).contains(&depth)
        || !(5.0..=160.0).contains(&mass)
        || !matches!(family, "UB" | "UC" | "PFC" | "UBP")
    {
        return None;
    }
    let designation = format!("{}{family}{}", show::figure(depth), show::figure(mass));
    Some(Product {
        working: format!(
            "the last number of {designation} is {} kg/m",
            show::figure(mass)
        ),
        source: "AS/NZS 3679.1: the last number is kg/m",
        extrapolated: true,
        ..Product::steel(family, "section", designation, mass, SECTION)
    })
}

/// The mean thickness behind the mass is one that is rolled: 3.5 to 60 mm over web and two flanges.
fn sensible(depth: f64, width: f64, kg_per_m: f64) -> bool {
    let thickness = kg_per_m / 0.007_85 / (depth + 2.0 * width);
    (70.0..=1_100.0).contains(&depth)
        && (38.0..=430.0).contains(&width)
        && (3.5..=70.0).contains(&thickness)
}
