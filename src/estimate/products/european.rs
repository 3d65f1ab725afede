//! European sections named by one number: IPE 300, HEA 200 (= HE 200 A), UPN 160. The mass comes from the table only.
//!
//! Source: EN 10365:2017 and Euronorm 53-62, row by row in the table.

use super::scan::{Chain, Scene, Unit};
use super::{Product, SECTION, show};
use crate::tables::products::{EuropeanSection, european, mm};
use crate::units::Length;

fn family(word: &str) -> Option<&'static str> {
    Some(match word {
        "ipe" => "IPE",
        "ipn" | "inp" => "IPN",
        "hea" | "ipbl" => "HEA",
        "heb" | "ipb" => "HEB",
        "hem" | "ipbv" => "HEM",
        "upn" | "unp" => "UPN",
        "upe" => "UPE",
        _ => return None,
    })
}

fn wide_flange(letter: &str) -> Option<&'static str> {
    Some(match letter {
        "a" => "HEA",
        "b" => "HEB",
        "m" => "HEM",
        _ => return None,
    })
}

/// A European section named at this token.
pub fn named(scene: &Scene, at: usize) -> Option<Product> {
    let word = scene.word(at)?;
    let next = scene.after_joiner(at + 1);
    let (family, figures, after) = if let Some(family) = family(word) {
        (family, next, None)
    } else if word != "he" {
        return None;
    } else if let Some(family) = scene.word(next).and_then(wide_flange) {
        // HE A 200, HE-A 200.
        (family, scene.after_joiner(next + 1), None)
    } else {
        // HE 200 A, HE200-A.
        let letter = scene.after_joiner(next + 1);
        (
            scene.word(letter).and_then(wide_flange)?,
            next,
            Some(letter + 1),
        )
    };
    let number = scene.number(figures)?;
    if number.fraction || number.decimals {
        return None;
    }
    let row = european(family, number.value)?;
    let length = match after {
        Some(end) => scene.ends(end).then_some(None)?,
        None => {
            let chain = scene.chain(figures)?;
            // A letter behind the number names a lighter or heavier relative: IPE 200 A, IPE 200 O.
            let relative = scene
                .word(chain.end)
                .is_some_and(|word| matches!(word, "a" | "aa" | "o" | "v" | "r"))
                && scene.ends(chain.end + 1);
            if !chain.clean || relative {
                return None;
            }
            rest(row, &chain)?
        }
    };
    let designation = format!("{family} {}", show::figure(number.value));
    Some(Product {
        length,
        outline: Some((mm(row.depth_mm), mm(row.width_mm))),
        working: format!(
            "{designation} has {} in the table of sections",
            show::per_metre(row.mass_kg_m)
        ),
        source: row.source.as_str(),
        ..Product::steel(family, "section", designation, row.mass_kg_m, SECTION)
    })
}

/// What may follow the number in one chain: the section's own sizes, then a length. Anything else is another thing.
fn rest(row: &EuropeanSection, chain: &Chain) -> Option<Option<Length>> {
    let mut length = None;
    for (place, dim) in chain.dims.iter().enumerate() {
        let own = [
            row.depth_mm,
            row.width_mm,
            row.web_mm,
            row.flange_mm,
            row.mass_kg_m,
        ];
        let own_size = dim.unit_in(&[Unit::Millimetre, Unit::Kilogram])
            && own.iter().any(|size| (size - dim.value()).abs() < 0.3);
        let named = place == 0 && dim.unit_in(&[Unit::Millimetre]);
        if named || own_size {
            continue;
        }
        if length.is_some() || place + 1 != chain.dims.len() {
            return None;
        }
        length = Some(dim.length().filter(|length| length.m() >= 0.5)?);
    }
    Some(length)
}
