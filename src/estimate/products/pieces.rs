//! Pieces that a list names whole: an empty freight container, a gas cylinder, a bundle of shingles.
//!
//! Source: pieces table, row by row. A container counts as empty, and a cylinder as known, only where every word and figure of the
//! description is one that says so: a loaded container is ten times an empty one.

use super::scan::{Kind, Scene};
use super::{Measure, Product, volume};
use crate::tables::products::{Piece, pieces};
use crate::units::{Length, M_PER_IN, Mass, MassRange};

/// Words for a freight container.
const CONTAINER: &[&str] = &[
    "container",
    "containers",
    "seecontainer",
    "frachtcontainer",
    "leercontainer",
    "conteneur",
    "conteneurs",
    "contenedor",
    "contenedores",
];
/// What makes a container one for freight, beside its length.
const FREIGHT: &[&str] = &[
    "iso",
    "freight",
    "shipping",
    "sea",
    "intermodal",
    "seecontainer",
    "frachtcontainer",
];
/// What says that nothing is in it.
const EMPTY: &[&str] = &[
    "empty",
    "empties",
    "leercontainer",
    "tare",
    "leer",
    "leere",
    "leerer",
    "vide",
    "vides",
    "vacio",
    "vacío",
    "vacios",
    "vacíos",
    "leeg",
    "lege",
];
/// High cube: a foot higher.
const HIGH: &[&str] = &["hc", "hq", "high"];
/// What else may stand beside it without making it another thing.
const PLAIN: &[&str] = &[
    "cube", "dry", "van", "box", "gp", "dv", "dc", "standard", "std", "general", "purpose", "ft",
    "foot", "feet", "fuß", "fuss", "new", "used", "steel", "x",
];
/// What follows the word for a container where something is in it; another word behind it names a part ("container lock").
const WITH: &[&str] = &[
    "with",
    "loaded",
    "full",
    "of",
    "containing",
    "stuffed",
    "holding",
    "said",
    "fcl",
    "mit",
    "beladen",
    "voll",
    "avec",
    "chargé",
    "con",
    "cargado",
];

/// Words of a cylinder of oxygen and nothing else.
const OXYGEN: &[&str] = &[
    "oxygen",
    "cylinder",
    "cylinders",
    "bottle",
    "bottles",
    "gas",
    "compressed",
    "steel",
    "industrial",
    "full",
    "empty",
    "returned",
    "cu",
    "cubic",
    "ft",
    "foot",
    "feet",
    "cft",
    "cuft",
    "m",
    "un",
    "x",
];
/// The United Nations' number of compressed oxygen (from memory).
const UN_OXYGEN: f64 = 1072.0;
/// Molar mass of oxygen, kg/mol (IUPAC).
pub(super) const OXYGEN_KG_MOL: f64 = 0.031_998;
/// Gas constant, J/(mol K) (SI, exact to the digits given).
const GAS_CONSTANT: f64 = 8.314_462_618;
/// The trade measures gas in cylinders at one atmosphere and 70 F (from memory): Pa and K.
const ATMOSPHERE: f64 = 101_325.0;
const SEVENTY_F: f64 = 294.261;
/// A cubic foot, m3.
const FT3: f64 = 1_728.0 * M_PER_IN * M_PER_IN * M_PER_IN;

/// Other goods named by shingles, and shingles heavier or lighter than any bundle of the table.
const NO_BUNDLE: &[&str] = &[
    "cedar",
    "wood",
    "wooden",
    "shake",
    "shakes",
    "slate",
    "metal",
    "steel",
    "copper",
    "aluminum",
    "aluminium",
    "zinc",
    "tin",
    "tile",
    "tiles",
    "clay",
    "concrete",
    "cement",
    "solar",
    "plastic",
    "rubber",
    "nail",
    "nails",
    "starter",
    "ridge",
    "hip",
    "cap",
    "caps",
    "vent",
    "felt",
    "underlayment",
    "adhesive",
    "cutter",
    "granules",
    "hook",
    "hooks",
    "waste",
    "scrap",
];

/// The piece that a description names.
pub fn find(scene: &Scene) -> Option<Product> {
    empty_container(scene)
        .or_else(|| oxygen(scene))
        .or_else(|| shingles(scene))
}

/// What the freight container that a description begins with may weigh with its load, where nothing says that it is empty.
pub fn loaded_container(scene: &Scene) -> Option<Mass> {
    let word = container_at(scene)?;
    let part = scene
        .word(word + 1)
        .is_some_and(|next| ![EMPTY, HIGH, PLAIN, WITH].concat().contains(&next));
    if part || empty_container(scene).is_some() {
        return None;
    }
    pieces("freight container")
        .filter_map(|row| row.gross_lb)
        .reduce(f64::max)
        .map(Mass::from_lb)
}

fn words(scene: &Scene) -> impl Iterator<Item = &str> {
    scene.tokens.iter().filter_map(|token| match &token.kind {
        Kind::Word(word) => Some(word.as_str()),
        _ => None,
    })
}

/// The length of a freight container that stands at a place, ft: "20 ft", "20'", "40HC".
fn feet(scene: &Scene, at: usize) -> Option<f64> {
    let value = scene.value(at)?;
    let marked = scene.sign(at + 1, '\'')
        || matches!(
            scene.word(at + 1),
            Some("ft" | "foot" | "feet" | "fuß" | "fuss")
        )
        || matches!(
            scene.glued_word(at + 1),
            Some("gp" | "dv" | "dc" | "hc" | "hq")
        );
    marked.then_some(value)
}

/// Where the word of a freight container stands; before it nothing but what belongs to its name.
fn container_at(scene: &Scene) -> Option<usize> {
    let at = (0..scene.tokens.len()).find(|at| {
        scene
            .word(*at)
            .is_some_and(|word| CONTAINER.contains(&word))
    })?;
    let known = |word: &str| [EMPTY, FREIGHT, HIGH, PLAIN].concat().contains(&word);
    let head = (0..at).all(|at| scene.word(at).is_none_or(known));
    let freight = scene.says(FREIGHT)
        || (0..scene.tokens.len())
            .any(|at| feet(scene, at).is_some_and(|feet| [20.0, 40.0].contains(&feet)));
    (head && freight).then_some(at)
}

/// "20 ft container empty": one length, a word for empty, and nothing that may be in it.
fn empty_container(scene: &Scene) -> Option<Product> {
    container_at(scene)?;
    let known = [CONTAINER, FREIGHT, EMPTY, HIGH, PLAIN].concat();
    let mut numbers =
        (0..scene.tokens.len()).filter(|at| matches!(scene.tokens[*at].kind, Kind::Number(_)));
    let (length, more) = (feet(scene, numbers.next()?)?, numbers.next());
    if more.is_some() || !scene.says(EMPTY) || !words(scene).all(|word| known.contains(&word)) {
        return None;
    }
    // One that is not called high may be high all the same.
    let rows: Vec<&Piece> = pieces("freight container")
        .filter(|row| row.size == Some(length))
        .filter(|row| !scene.says(HIGH) || row.name.ends_with("high cube"))
        .collect();
    let name = rows.last()?.name.as_str();
    let name = if scene.says(HIGH) {
        name.to_string()
    } else {
        format!("{length} ft")
    };
    whole(
        &rows,
        "freight container",
        format!("{name} freight container, empty"),
    )
}

/// "Oxygen cylinder, 244 cu ft": the cylinder and the gas in it. Whether it is full is not known unless the words say so.
fn oxygen(scene: &Scene) -> Option<Product> {
    let named = scene.says(&["oxygen"])
        && scene.says(&["cylinder", "cylinders", "bottle", "bottles"])
        && words(scene).all(|word| OXYGEN.contains(&word));
    let cubic_feet = volume::volume(scene).filter(|_| named)?.m3() / FT3;
    let row = pieces("gas cylinder").find(|row| {
        row.size
            .is_some_and(|size| (cubic_feet / size - 1.0).abs() < 0.01)
    })?;
    // Other figures than the volume: how many there are at the front of a plural, the 3 of ft3, the number of the gas.
    let several = scene.says(&["cylinders", "bottles"]);
    let explained = (0..scene.tokens.len()).all(|at| {
        let before = at.checked_sub(1).and_then(|before| scene.word(before));
        let beside = matches!(
            scene.word(at + 1),
            Some("cu" | "cubic" | "ft" | "cft" | "cuft" | "m")
        );
        match (&scene.tokens[at].kind, before) {
            (Kind::Number(number), Some("ft" | "m")) => number.value == 3.0,
            (Kind::Number(number), Some("un")) => number.value == UN_OXYGEN,
            (Kind::Number(_), _) => beside || at == 0 && several,
            _ => true,
        }
    });
    if !explained {
        return None;
    }
    let designation = format!("{} ft3 oxygen cylinder", row.size?);
    let product = whole(&[row], "gas cylinder", designation)?;
    if scene.says(&["empty"]) {
        return Some(product);
    }
    let gas = gas(row.size?, OXYGEN_KG_MOL);
    let Measure::PerPiece { piece } = product.measure else {
        return None;
    };
    let least = if scene.says(&["full"]) {
        gas
    } else {
        Mass::ZERO
    };
    Some(Product {
        measure: Measure::PerPiece {
            piece: MassRange {
                low: piece.low + least,
                likely: piece.likely + gas,
                high: piece.high + gas,
            },
        },
        working: format!(
            "{}: cylinder {:.0} kg, gas {:.1} kg",
            product.designation,
            piece.likely.kg(),
            gas.kg()
        ),
        ..product
    })
}

/// Mass of a gas by the cubic feet it has at 70 F and one atmosphere, as an ideal gas.
pub(super) fn gas(cubic_feet: f64, kg_per_mol: f64) -> Mass {
    let density = ATMOSPHERE * kg_per_mol / (GAS_CONSTANT * SEVENTY_F);
    Mass::from_kg(cubic_feet * FT3 * density)
}

/// A bundle of asphalt shingles; a line that counts no bundles is not about one.
fn shingles(scene: &Scene) -> Option<Product> {
    if !scene.says(&["shingle", "shingles"]) || scene.says(NO_BUNDLE) {
        return None;
    }
    let strip = scene.says(&["tab"]);
    let laminated = scene.says(&["architectural", "laminated", "laminate", "dimensional"]);
    let name = match (strip, laminated) {
        (true, false) => "3-tab",
        (false, true) => "architectural",
        _ => "any",
    };
    let row = pieces("shingle bundle").find(|row| row.name == name)?;
    let designation = match name {
        "any" => "bundle of asphalt shingles".to_string(),
        name => format!("bundle of {name} asphalt shingles"),
    };
    Some(Product {
        material: Some("asphalt shingles"),
        ..whole(&[row], "shingle bundle", designation)?
    })
}

/// The range over these rows, most likely the heaviest.
fn whole(rows: &[&'static Piece], goods: &'static str, designation: String) -> Option<Product> {
    let over = |figure: fn(&Piece) -> f64, pick: fn(f64, f64) -> f64| {
        rows.iter()
            .map(|row| figure(row))
            .reduce(pick)
            .map(Mass::from_lb)
    };
    let heaviest = rows
        .iter()
        .max_by(|one, other| one.mass_lb.total_cmp(&other.mass_lb))?;
    let inches = |side: Option<f64>| side.map(Length::from_in);
    Some(Product {
        measure: Measure::PerPiece {
            piece: MassRange {
                low: over(|row| row.mass_low_lb, f64::min)?,
                likely: Mass::from_lb(heaviest.mass_lb),
                high: over(|row| row.mass_high_lb, f64::max)?,
            },
        },
        material: None,
        length: inches(heaviest.length_in),
        outline: inches(heaviest.height_in).zip(inches(heaviest.width_in)),
        working: designation.clone(),
        source: heaviest.source.as_str(),
        ..Product::steel(goods, goods, designation, 0.0, 0.0)
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Payloads of the reference sheet: 28,310, 26,730 and 26,620 kg (forwarders' tables, on file).
    #[test]
    fn gross_less_tare_is_the_published_payload() {
        for (name, payload) in [
            ("20 ft", 28_310.0),
            ("40 ft", 26_730.0),
            ("40 ft high cube", 26_620.0),
        ] {
            let row = pieces("freight container")
                .find(|row| row.name == name)
                .expect(name);
            let found = Mass::from_lb(row.gross_lb.expect(name) - row.mass_lb).kg();
            assert!((found / payload - 1.0).abs() < 0.005, "{name}: {found}");
        }
    }
}
