//! Volume of the shape times density of the material; an envelope where the form is not known.

use super::draft::{Draft, Unit, box_of};
use super::range::{Doubt, together};
use super::shapes::{self, NoSolid, Solid};
use super::unclear;
use super::words::{Named, Words};
use super::{Estimate, Evidence, NoEstimate, Step};
use crate::tables::goods::{self, Goods};
use crate::tables::materials::Material;
use crate::understand::{Item, Size1, Sizes};
use crate::units::{Length, Mass, MassRange, Volume};

/// Density that goods on a dock do not exceed, kg/m3: lead (materials table). Mercury, tungsten and uranium do, and come with
/// their material stated.
pub const LEAD_KG_M3: f64 = 11_340.0;
/// Fill of an outline about whose form nothing is known (common practice, no source).
const UNKNOWN_FORM: (f64, f64, f64) = (0.02, 0.3, 1.0);
/// A metal piece without a word for its kind that is thinner than this part of its width is a plate (common practice, no source).
const THIN: f64 = 0.125;

/// Volume of the shape and density of the material; an envelope where the form is not known.
pub(super) fn shaped(item: &Item, words: &Words) -> Result<Estimate, NoEstimate> {
    let goods = words.goods_name();
    let material = match &words.material {
        Named::Known(material, _) => Some(*material),
        _ => None,
    };
    let kind = words
        .goods
        .map(|word| word.goods)
        .or_else(|| by_group(material?));
    if let Some(why) = unclear::unit(item, kind) {
        return Err(NoEstimate {
            why: why.to_string(),
            impossible: false,
            goods,
            upper: None,
            outline: None,
        });
    }
    let own = !item.sizes.is_empty();
    let sizes = if own { item.sizes } else { item.package_sizes };
    let (shape, thin) = shape_of(words, &sizes, material);
    let solid = match shapes::solid(shape, &sizes) {
        Ok(solid) => solid,
        Err(NoSolid::Impossible(how)) => {
            return Err(NoEstimate {
                why: format!("the sizes cannot be: {how}"),
                impossible: true,
                goods,
                upper: None,
                outline: outline(&sizes),
            });
        }
        Err(NoSolid::Missing(name)) => {
            let why = if sizes.is_empty() {
                "no size is stated".to_string()
            } else {
                format!("the {name} is not stated")
            };
            return Err(NoEstimate {
                why,
                impossible: false,
                goods,
                upper: None,
                outline: outline(&sizes),
            });
        }
    };
    let Some(material) = material else {
        let why = match &words.material {
            Named::Unknown(word, nearest) if nearest.is_empty() => {
                format!("the material \"{word}\" is not in the materials table")
            }
            Named::Unknown(word, nearest) => {
                format!(
                    "the material \"{word}\" is not in the materials table; the nearest it has: {}",
                    nearest.join(", ")
                )
            }
            _ => "the material is not stated".to_string(),
        };
        let unit = if own { Unit::Piece } else { Unit::Package };
        let upper = Mass::from_kg(LEAD_KG_M3 * upper_box(&solid).m3()) * unit.number(item);
        return Err(NoEstimate {
            why,
            impossible: false,
            goods,
            upper: Some(upper),
            outline: Some(solid.outline),
        });
    };
    // Outer sizes of a package tell nothing of the form inside; so do sizes of goods whose form is not their outline.
    let odd = kind.is_some_and(|kind| kind.fill_low.is_some());
    let formless =
        !own || (shape.is_empty() && !thin && solid.solid && (solid.shape == "box" || odd));
    let estimate = if formless {
        envelope(item, kind, material, &solid, own)
    } else {
        whole(item, words, kind, material, &solid)
    };
    Ok(estimate)
}

/// What goods without a word of their own are taken as, by their material.
fn by_group(material: &Material) -> Option<&'static Goods> {
    goods::by_name(match material.group {
        "wood" => "lumber",
        "engineered wood" => "panel",
        "concrete and masonry" => "concrete",
        "stone and soil" => "stone",
        _ => return None,
    })
}

/// The shape that words and sizes say, and whether the piece is a thin one of metal.
fn shape_of(words: &Words, sizes: &Sizes, material: Option<&Material>) -> (&'static str, bool) {
    let word = words
        .goods
        .map(|word| word.shape)
        .filter(|shape| !shape.is_empty());
    if let Some(shape) = word {
        return (shape, false);
    }
    let named = words.goods.is_some();
    let thin = sizes
        .height
        .zip(sizes.width)
        .is_some_and(|(height, width)| height.length.m() <= THIN * width.length.m());
    match material.map(|material| material.group) {
        Some("metal") if thin && !named => ("plate", true),
        Some("wood" | "engineered wood") if !named => ("box", false),
        _ => ("", false),
    }
}

/// Volume of a shape whose sizes are all known, times density.
pub(super) fn whole(
    item: &Item,
    words: &Words,
    kind: Option<&'static Goods>,
    material: &'static Material,
    solid: &Solid,
) -> Estimate {
    let (make_low, make_high) = kind.map_or((0.02, 0.02), |kind| (kind.make_low, kind.make_high));
    let fill = kind.filter(|kind| !kind.filled).and_then(fill_of);
    let (low, likely, high) = fill.unwrap_or((1.0, 1.0, 1.0));
    let nominal = kind.is_some_and(|kind| kind.nominal);
    let mut doubts = vec![
        Doubt::of_material(material),
        Doubt::of_band(low, likely, high),
        Doubt::of_making(make_low, make_high),
        Doubt {
            low: solid.bias.0 / 2.0,
            high: (1.0 + solid.bias.1).ln() / 2.0,
        },
    ];
    doubts.extend(
        solid
            .terms
            .iter()
            .map(|term| Doubt::of_size(term.size, term.sensitivity, nominal)),
    );
    let doubt = together(&doubts);
    let mass = material.density * solid.volume * likely;
    let word = match &words.material {
        Named::Known(_, word) => word.as_str(),
        _ => "",
    };
    let mut steps = vec![
        volume_step(solid),
        mass_step(material, word, solid.volume, likely, mass),
    ];
    if likely < 1.0 {
        steps[1].source = format!(
            "{}; part of the outline that is material: common practice, no source",
            steps[1].source
        );
    }
    Draft {
        evidence: Evidence::Shape,
        shape: Some(solid.shape),
        product: None,
        material: Some(material),
        goods: kind.map(|kind| kind.name.as_str()),
        piece: MassRange::around(mass, doubt.low, doubt.high),
        block: Some(material.high * upper_box(solid)),
        solid: solid.solid && likely >= 1.0,
        outline: Some(solid.outline),
        steps,
        working: format!(
            "{} of {}: {} = {:.4} m3, x {:.0} kg/m3",
            solid.shape,
            material.name,
            solid.formula,
            solid.volume.m3(),
            material.density.kg_m3()
        ),
    }
    .finish(item)
}

/// Lowest, likely and highest part of the outline that is material.
fn fill_of(kind: &Goods) -> Option<(f64, f64, f64)> {
    Some((kind.fill_low?, kind.fill_likely?, kind.fill_high?))
}

/// Bounds, not a guess: from the form's lowest fill to the solid box at upper sizes and highest density.
fn envelope(
    item: &Item,
    kind: Option<&'static Goods>,
    material: &'static Material,
    solid: &Solid,
    own: bool,
) -> Estimate {
    let (low, likely, _) = kind.and_then(fill_of).unwrap_or(UNKNOWN_FORM);
    let box_volume = box_of(solid.outline);
    let upper = material.high * upper_box(solid);
    let piece = MassRange {
        low: material.low * box_volume * low,
        likely: (material.density * box_volume * likely).min(upper),
        high: upper,
    };
    let steps = vec![
        volume_step(solid),
        Step {
            what: "likely mass in the outline".to_string(),
            formula: "volume x fill x density".to_string(),
            inputs: vec![
                ("volume".to_string(), box_volume.m3()),
                ("fill".to_string(), likely),
                ("density".to_string(), material.density.kg_m3()),
            ],
            result: (material.density * box_volume * likely).kg(),
            unit: "kg",
            source: format!(
                "{}: {}, {}; fill by kind of goods: common practice, no source",
                material.name, material.source, material.basis
            ),
        },
    ];
    let named = kind.map_or("form not known", |kind| kind.name.as_str());
    let what = if own { "" } else { " of one package" };
    Draft {
        evidence: Evidence::Envelope,
        shape: Some("outline"),
        product: None,
        material: Some(material),
        goods: kind.map(|kind| kind.name.as_str()),
        piece,
        block: Some(upper),
        solid: false,
        outline: Some(solid.outline),
        steps,
        working: format!(
            "only an outline{what} ({named}) of {}: bounds from {:.0} % to a solid block, not an estimate",
            material.name,
            low * 100.0
        ),
    }
    .finish_by(item, if own { Unit::Piece } else { Unit::Package })
}

/// The outline at sizes half a digit above the written ones.
fn upper_box(solid: &Solid) -> Volume {
    let widen = |side: Length| {
        let term = solid.terms.iter().find(|term| term.size.length == side);
        side + term.map_or(Length::ZERO, |term| term.size.half_digit.min(side * 0.05))
    };
    box_of(solid.outline.map(widen))
}

fn volume_step(solid: &Solid) -> Step {
    Step {
        what: format!("volume of one {}", solid.shape),
        formula: solid.formula.to_string(),
        inputs: solid
            .terms
            .iter()
            .map(|term| (term.name.to_string(), term.size.length.m()))
            .collect(),
        result: solid.volume.m3(),
        unit: "m3",
        source: "geometry".to_string(),
    }
}

fn mass_step(material: &Material, word: &str, volume: Volume, fill: f64, mass: Mass) -> Step {
    let mut inputs = vec![
        ("volume".to_string(), volume.m3()),
        ("density".to_string(), material.density.kg_m3()),
    ];
    let mut formula = "volume x density".to_string();
    if fill < 1.0 {
        inputs.push(("fill".to_string(), fill));
        formula.push_str(" x fill");
    }
    Step {
        what: "mass of one piece".to_string(),
        formula,
        inputs,
        result: mass.kg(),
        unit: "kg",
        source: format!(
            "{} ({word}): {}, {}",
            material.name, material.source, material.basis
        ),
    }
}

fn outline(sizes: &Sizes) -> Option<[Length; 3]> {
    let side = |size: Option<Size1>| size.map(|size| size.length);
    if let Some(outside) = side(sizes.outside) {
        let length = side(sizes.length.or(sizes.height).or(sizes.width))?;
        return Some([length, outside, outside]);
    }
    Some([
        side(sizes.length)?,
        side(sizes.width)?,
        side(sizes.height).unwrap_or(Length::ZERO),
    ])
}
