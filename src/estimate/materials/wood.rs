//! Wood weighs by its moisture: the row for green, treated or dry wood where the words say so.

use super::fold::Folded;
use super::index::GRAMMAR;
use crate::tables::materials::words::Kind;
use crate::tables::materials::{Material, Materials};
use std::collections::HashMap;

/// How far dry wood of one species may be from its table density: the least of the 15 to 25 % by which average shipping weights
/// (Oregon State University) leave the Wood Handbook's density at 12 % moisture (Eq. 4-14).
const DRY: f64 = 0.15;

/// For each species the row of its dry wood: the same density, and a band without green wood.
pub type DryRows = HashMap<&'static str, &'static Material>;

/// The rows of dry wood for a table. They live as long as the program, like the table's own.
pub fn dry_rows(table: &Materials) -> DryRows {
    let species = table
        .all()
        .iter()
        .filter(|material| is_of_unstated_moisture(material) && !is_mixed(material));
    let dry = species.map(|material| {
        let row = Material {
            name: format!("{} dry", material.name).leak(),
            low: material.low.max(material.density * (-DRY).exp()),
            high: material.high.min(material.density * DRY.exp()),
            source: format!(
                "{}; dry: 15 % either way, shipping weights of Oregon State University against Wood Handbook Eq. 4-14",
                material.source
            )
            .leak(),
            synonyms: Vec::new(),
            ..**material
        };
        (material.name, &*Box::leak(Box::new(row)))
    });
    dry.collect()
}

/// Whether the row stands for a wood of which nobody said whether it is dry, green or treated.
pub fn is_of_unstated_moisture(material: &Material) -> bool {
    let named = [" green", " dry"]
        .iter()
        .any(|end| material.name.ends_with(end));
    material.group == "wood" && !named && !material.name.starts_with("treated ")
}

/// The row that fits the condition the text names; the material itself where the text or the table has none.
/// Never a row of lower density: the larger one plans the safer lift.
pub fn in_condition(
    table: &Materials,
    dry_rows: &DryRows,
    material: &'static Material,
    text: &Folded,
) -> &'static Material {
    if material.group != "wood" {
        return material;
    }
    let (green, treated) = rows(material.name);
    let row = match condition(text) {
        Some(Kind::Treated) => treated.and_then(|name| table.by_name(name)),
        Some(Kind::Green) => green.and_then(|name| table.by_name(name)),
        Some(_) => dry_rows.get(material.name).copied(),
        None => None,
    };
    row.filter(|row| row.density >= material.density)
        .unwrap_or(material)
}

/// Whether the row stands for woods of several species, whose densities differ more than those of one.
fn is_mixed(material: &Material) -> bool {
    is_generic(material) || matches!(material.name, "cedar" | "pine" | "spruce")
}

/// Whether the row stands for woods of any species.
pub fn is_generic(material: &Material) -> bool {
    matches!(material.name, "wood" | "softwood" | "hardwood")
}

/// Words before "dry" that make it an order for the store.
const KEEP: [&str; 8] = [
    "keep", "kept", "store", "stored", "stay", "stays", "must", "remain",
];

/// Treated, green, dry or none of them. Wood dried after treatment weighs like untreated dry wood; wood dried before it is as
/// heavy as the treatment left it, and green wood that is to be dried is green.
fn condition(text: &Folded) -> Option<Kind> {
    let mut found = None;
    // "Keep dry" is how to store it, not what it is.
    let kept = |at: usize| {
        let before = at.checked_sub(1).map_or("", |before| text.word(before));
        KEEP.iter().any(|keep| keep.eq_ignore_ascii_case(before))
    };
    for at in 0..text.tokens.len() {
        let word = text.word(at);
        let after_heat = at
            .checked_sub(1)
            .is_some_and(|before| GRAMMAR.is(text.word(before), &[Kind::Heat]));
        if GRAMMAR.is(word, &[Kind::Dried]) {
            return Some(Kind::Dry);
        } else if GRAMMAR.is(word, &[Kind::Treated]) && !after_heat {
            found = Some(Kind::Treated);
        } else if GRAMMAR.is(word, &[Kind::Green])
            && !after_heat
            && !GRAMMAR.is(text.word(at + 1), &[Kind::Heat])
        {
            found = found
                .filter(|kind| *kind == Kind::Treated)
                .or(Some(Kind::Green));
        } else if GRAMMAR.is(word, &[Kind::Dry]) && !kept(at) {
            found = found.or(Some(Kind::Dry));
        }
    }
    found
}

/// Names of the rows for green and for treated wood of that species.
fn rows(name: &str) -> (Option<&'static str>, Option<&'static str>) {
    match name {
        "Douglas fir" => (Some("Douglas fir green"), Some("treated softwood")),
        "southern pine" | "longleaf pine" => {
            (Some("southern pine green"), Some("treated southern pine"))
        }
        "hem-fir" | "western hemlock" => (Some("hem-fir green"), Some("treated softwood")),
        "oak" | "red oak" | "white oak" => (Some("oak green"), None),
        "ash lumber" | "aspen" | "basswood" | "beech" | "birch" | "black locust" | "cherry"
        | "dark red meranti" | "elm" | "hard maple" | "hardwood" | "hickory" | "mahogany"
        | "maple" | "red alder" | "soft maple" | "teak" | "walnut" | "yellow poplar" => {
            (Some("hardwood green"), None)
        }
        // The dense tropical woods have no green row; the rest of the group is softwood or not stated.
        "balsa" | "ipe" | "ironbark" | "keruing" => (None, None),
        _ => (Some("softwood green"), Some("treated softwood")),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tables::materials::{all, by_name};

    #[test]
    fn each_condition_row_exists() {
        for material in all().iter().filter(|material| material.group == "wood") {
            let (green, treated) = rows(material.name);
            for name in green.iter().chain(&treated) {
                assert!(
                    by_name(name).is_some_and(|row| row.group == "wood"),
                    "{}: {name}",
                    material.name
                );
            }
        }
    }
}
