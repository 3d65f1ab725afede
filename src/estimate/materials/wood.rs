//! Wood weighs by its moisture: the row for dried, green or treated wood where the words say so and the table has one. Where they
//! do not, the row of the species reaches from dried to green.

use super::fold::Folded;
use super::index::INDEX;
use crate::tables::materials::words::Kind;
use crate::tables::materials::{Material, by_name};

/// The row that fits the condition the text names; the material itself where the text or the table has none.
/// Green and treated wood never get a lighter row: the larger density plans the safer lift.
pub fn in_condition(material: &'static Material, text: &Folded) -> &'static Material {
    if material.group != "wood" {
        return material;
    }
    let (green, treated) = rows(material.name);
    let row = match condition(text) {
        Some(Kind::Treated) => treated,
        Some(Kind::Green) => green,
        Some(Kind::Seasoned) => return dried(material.name).and_then(by_name).unwrap_or(material),
        _ => None,
    };
    row.and_then(by_name)
        .filter(|row| row.density >= material.density)
        .unwrap_or(material)
}

/// Whether the row stands for woods of any species.
pub fn is_generic(material: &Material) -> bool {
    matches!(material.name, "wood" | "softwood" | "hardwood")
}

/// Treated, green, dried or nothing said. Wood dried after treatment weighs like dried wood; of wood called dried and treated
/// nobody says which came last, and treated wood is the heavier.
fn condition(text: &Folded) -> Option<Kind> {
    let mut found = None;
    for at in 0..text.tokens.len() {
        let word = text.word(at);
        let after_heat = at
            .checked_sub(1)
            .is_some_and(|before| INDEX.is(text.word(before), &[Kind::Heat]));
        if INDEX.is(word, &[Kind::Dried]) {
            return Some(Kind::Seasoned);
        } else if INDEX.is(word, &[Kind::Treated]) && !after_heat {
            found = Some(Kind::Treated);
        } else if INDEX.is(word, &[Kind::Seasoned]) {
            found = found.or(Some(Kind::Seasoned));
        } else if INDEX.is(word, &[Kind::Green])
            && !after_heat
            && !INDEX.is(text.word(at + 1), &[Kind::Heat])
            && found != Some(Kind::Treated)
        {
            found = Some(Kind::Green);
        }
    }
    found
}

/// Name of the row for dried wood of that species.
fn dried(name: &str) -> Option<&'static str> {
    match name {
        "Douglas fir" => Some("Douglas fir KD"),
        "hem-fir" => Some("hem-fir KD"),
        "oak" => Some("oak KD"),
        "red oak" => Some("red oak KD"),
        "softwood" => Some("softwood KD"),
        "southern pine" => Some("southern pine KD"),
        "spruce-pine-fir" => Some("spruce-pine-fir KD"),
        "white oak" => Some("white oak KD"),
        _ => None,
    }
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
    use crate::tables::materials::all;

    #[test]
    fn each_condition_row_exists() {
        for material in all().iter().filter(|material| material.group == "wood") {
            let (green, treated) = rows(material.name);
            for name in green.iter().chain(&treated).chain(&dried(material.name)) {
                assert!(
                    by_name(name).is_some_and(|row| row.group == "wood"),
                    "{}: {name}",
                    material.name
                );
            }
        }
    }
}
