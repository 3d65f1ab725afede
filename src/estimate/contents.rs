//! Goods that state how much they are: so much a metre, a volume that comes loose, a liquid in a known container.

use super::draft::{Draft, Unit};
use super::materials::{self, Found, Vocabulary};
use super::products::Container;
use super::range::{Doubt, together};
use super::words::{Named, Words, length_in_words};
use super::{Estimate, Evidence, NoEstimate, Step};
use crate::tables::materials::Material;
use crate::understand::Item;
use crate::units::written::{Decimal, scan_figure};
use crate::units::{Mass, MassRange, Volume};

/// A liquid's part of its container where no fill is stated (method, section 1; common practice, no source).
pub(super) const LIQUID_FILL: (f64, f64, f64) = (0.95, 0.98, 1.0);

/// Heaviest mass per metre of anything sold by length: the heaviest rolled section is 1,377 kg/m (ASTM A6, W14x925, from memory).
const HEAVIEST_KG_M: f64 = 2_000.0;

/// "1.35 kg/m" in the description of goods whose length is stated: the supplier's own mass per length.
pub(super) fn by_stated_mass_per_length(item: &Item, words: &Words) -> Option<Estimate> {
    let per_metre = stated_mass_per_metre(&item.description)?;
    // What is wound up is the goods' length; a size column of a reel is a side of the reel.
    let length = length_in_words(&item.description)
        .or(item.sizes.length)
        .filter(|_| words.product.is_none())?;
    let mass = Mass::from_kg(per_metre * length.length.m());
    let doubt = together(&[
        Doubt::of_making(0.05, 0.05),
        Doubt::of_size(length, 1.0, false),
    ]);
    let step = Step {
        what: "one piece".to_string(),
        formula: "mass per metre x length".to_string(),
        inputs: vec![
            ("mass per metre".to_string(), per_metre),
            ("length".to_string(), length.length.m()),
        ],
        result: mass.kg(),
        unit: "kg",
        source: "mass per length in the description".to_string(),
    };
    let material = match &words.material {
        Named::Known(material, _) => Some(*material),
        _ => None,
    };
    Some(
        Draft {
            evidence: Evidence::Product,
            shape: None,
            product: None,
            material,
            goods: words.goods_name(),
            piece: MassRange::around(mass, doubt.low, doubt.high),
            block: None,
            solid: false,
            outline: None,
            steps: vec![step],
            working: format!(
                "{per_metre} kg/m in the description x {:.1} m",
                length.length.m()
            ),
        }
        .finish(item),
    )
}

/// Words that make a mass per length one that something may carry, not one that it has.
const CAPACITY: &[&str] = &[
    "load",
    "loads",
    "loading",
    "capacity",
    "max",
    "maximum",
    "swl",
    "wll",
    "rated",
    "rating",
    "breaking",
    "last",
    "lasten",
    "traglast",
    "tragkraft",
    "nutzlast",
    "belastung",
    "charge",
    "capacité",
    "capacite",
    "carga",
    "capacidad",
    "capacidade",
    "portata",
    "carico",
    "belasting",
    "draagvermogen",
    "obciążenie",
    "udźwig",
    "nosnost",
    "zatížení",
    "荷重",
];

/// The figure before `kg/m`, where it is the mass of the goods.
fn stated_mass_per_metre(description: &str) -> Option<f64> {
    let lower = description.to_lowercase();
    let (at, unit) = ["kg/mtr", "kg/m", "kg / m"]
        .iter()
        .find_map(|unit| Some((lower.find(unit)?, unit)))?;
    // "kg/m2" and "kg/m^2" are masses per area, "kg/min" is a flow.
    let after = lower.get(at + unit.len()..)?;
    if after.starts_with(|sign: char| sign.is_alphanumeric() || matches!(sign, '^' | '²' | '³')) {
        return None;
    }
    if lower
        .split(|sign: char| !sign.is_alphabetic())
        .any(|word| CAPACITY.contains(&word))
    {
        return None;
    }
    let before = lower.get(..at)?.trim_end();
    let start = before
        .rfind(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | ',')))
        .map_or(0, |at| {
            at + before[at..].chars().next().map_or(1, char::len_utf8)
        });
    let (figure, _) = scan_figure(before, start, Decimal::Unclear, false)?;
    let plausible = figure.value > 0.0 && figure.value <= HEAVIEST_KG_M;
    (plausible && !figure.unclear).then_some(figure.value)
}

/// Gravel, sand, soil and the like by the volume in the description, at the loose density of the materials table. A liquid comes in
/// something that weighs too, so a volume of it alone gives nothing.
pub(super) fn by_volume(item: &Item, words: &Words) -> Option<Estimate> {
    let volume = words.volume.filter(|_| item.sizes.is_empty())?;
    let Named::Known(material, word) = &words.material else {
        return None;
    };
    materials::is_bulk(material)
        .then(|| of_volume(item, words, material, word, volume, Unit::Piece))
}

/// Bulk and wood by a quantity that is a volume, whatever sizes the boards have.
pub(super) fn by_amount(
    item: &Item,
    words: &Words,
    amount: Volume,
) -> Result<Estimate, &'static str> {
    let Named::Known(material, word) = &words.material else {
        return Err("the quantity is a volume and the material is not stated");
    };
    let woody = matches!(material.group, "wood" | "engineered wood");
    if !woody && !materials::is_bulk(material) {
        return Err("the quantity is a volume, and only bulk and wood are known by volume");
    }
    Ok(of_volume(item, words, material, word, amount, Unit::Line))
}

/// A volume at the density of its material.
fn of_volume(
    item: &Item,
    words: &Words,
    material: &'static Material,
    word: &str,
    volume: Volume,
    unit: Unit,
) -> Estimate {
    let loose = if materials::is_bulk(material) {
        "loose "
    } else {
        ""
    };
    let mass = material.density * volume;
    let doubt = Doubt::of_material(material);
    let step = Step {
        what: "the volume stated".to_string(),
        formula: format!("volume x {loose}density"),
        inputs: vec![
            ("volume".to_string(), volume.m3()),
            ("loose density".to_string(), material.density.kg_m3()),
        ],
        result: mass.kg(),
        unit: "kg",
        source: format!(
            "{} ({word}): {}, {}",
            material.name, material.source, material.basis
        ),
    };
    Draft {
        evidence: Evidence::Shape,
        shape: Some("bulk"),
        product: None,
        material: Some(material),
        goods: words.goods_name(),
        piece: MassRange::around(mass, doubt.low, doubt.high),
        block: None,
        solid: false,
        outline: None,
        steps: vec![step],
        working: format!("{:.2} m3 of {loose}{}", volume.m3(), material.name),
    }
    .finish_by(item, unit)
}

/// A stated contents in a known container: its liquid by volume, or nothing to go by but the container.
pub(super) fn contained(
    item: &Item,
    container: &Container,
    vocabulary: &Vocabulary,
) -> Result<Estimate, NoEstimate> {
    let goods = container_goods(container);
    let Found::Known { material, word } =
        vocabulary.of_contents(item.material.as_deref(), &item.description)
    else {
        return Err(NoEstimate {
            why: format!("what is in the {} is not stated", container.designation),
            impossible: false,
            goods: Some(goods),
            upper: None,
            outline: Some(container.outline),
        });
    };
    let contents = material.density * container.capacity;
    let fill = Doubt::of_band(LIQUID_FILL.0, LIQUID_FILL.1, LIQUID_FILL.2);
    let doubt = together(&[Doubt::of_material(material), fill]);
    let net = MassRange::around(contents * LIQUID_FILL.1, doubt.low, doubt.high);
    let piece = net.plus(container.tare);
    let steps = vec![
        Step {
            what: "contents of one container".to_string(),
            formula: "capacity x fill x density".to_string(),
            inputs: vec![
                ("capacity".to_string(), container.capacity.m3()),
                ("fill".to_string(), LIQUID_FILL.1),
                ("density".to_string(), material.density.kg_m3()),
            ],
            result: net.likely.kg(),
            unit: "kg",
            source: format!(
                "{} ({}): {}, {}; {}",
                material.name, word, material.source, material.basis, container.source
            ),
        },
        Step {
            what: "one container, full".to_string(),
            formula: "contents + tare".to_string(),
            inputs: vec![
                ("contents".to_string(), net.likely.kg()),
                ("tare".to_string(), container.tare.likely.kg()),
            ],
            result: piece.likely.kg(),
            unit: "kg",
            source: container.source.to_string(),
        },
    ];
    let working = format!(
        "{} of {}, {:.0} to 100 % full, with its tare",
        container.designation,
        material.name,
        LIQUID_FILL.0 * 100.0
    );
    Ok(Draft {
        evidence: Evidence::Product,
        shape: None,
        product: Some(container.designation.clone()),
        material: Some(material),
        goods: Some(goods),
        piece,
        block: None,
        solid: false,
        outline: Some(container.outline),
        steps,
        working,
    }
    .finish(item))
}

fn container_goods(container: &Container) -> &'static str {
    match container.kind {
        "drum" => "drum",
        "tote" => "intermediate bulk container",
        _ => "can",
    }
}
