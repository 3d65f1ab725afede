//! Volume of the shape times density of the material; an envelope where the form is not known.

use super::details::{self, Details};
use super::draft::{Draft, Unit, box_of};
use super::form::{self, Form};
use super::range::{Doubt, together};
use super::shapes::{self, NoSolid, Solid};
use super::unclear;
use super::vessel::{holds, vessel};
use super::words::{Named, Words};
use super::{Estimate, Evidence, NoEstimate, OUTLINE, Step};
use crate::tables::goods::{self, Goods};
use crate::tables::materials::Material;
use crate::understand::{Item, Size1, Sizes};
use crate::units::{Length, Mass, MassRange, Volume};

/// Density that goods on a dock do not exceed, kg/m3: lead (materials table). Mercury, tungsten and uranium do, and come with
/// their material stated.
pub const LEAD_KG_M3: f64 = 11_340.0;
/// Fill of an outline about whose form nothing is known (common practice, no source).
const UNKNOWN_FORM: (f64, f64, f64) = (0.02, 0.3, 1.0);

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
    let details = details::of(item);
    let form = form::of(words, &sizes, material);
    let (solid, missing) = match outlined(&form, &sizes, &details) {
        Ok(found) => found,
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
    if missing.is_none() && matches!(solid.shape, "tank" | "drum") && own {
        return vessel(item, words, kind, material, &form, &solid, &details);
    }
    let walled = sizes.wall.or(sizes.inside).is_some() || details.hollow;
    if walled && holds(item, words, &details) {
        return Err(NoEstimate {
            why: "the contents and ends of a hollow piece are weighed of a tank or drum only"
                .to_string(),
            impossible: false,
            goods,
            upper: None,
            outline: Some(solid.outline),
        });
    }
    // Outer sizes of a package tell nothing of the form inside; so do sizes of goods whose form is not their outline, and words
    // that are not understood beside the name of a solid.
    let odd = kind.is_some_and(|kind| kind.fill_low.is_some());
    let outline_only =
        form.shape.is_empty() && !form.thin && solid.solid && (solid.shape == "box" || odd);
    let doubtful = solid.solid && form::may_be_other(&item.description, words, material);
    let formless = !own || missing.is_some() || outline_only || doubtful;
    let estimate = if formless {
        let doubt = match missing {
            Some(name) => format!("; the {name} is not stated"),
            None if doubtful => "; the words may mean other goods than the solid".to_string(),
            None => String::new(),
        };
        envelope(item, kind, material, &solid, own, &doubt)
    } else {
        let (piece, fill, steps) = of_solid(words, kind, material, &solid, &form);
        whole(item, kind, material, &solid, piece, fill, steps)
    };
    Ok(estimate)
}

/// The solid of the form; or, where a size that only this shape has is missing, that of the outline alone, with what is missing.
fn outlined(
    form: &Form,
    sizes: &Sizes,
    details: &Details,
) -> Result<(Solid, Option<&'static str>), NoSolid> {
    match shapes::solid(form.shape, sizes, details) {
        Err(NoSolid::Missing(name)) if !form.shape.is_empty() => {
            let plain = matches!(
                form.shape,
                "box"
                    | "plate"
                    | "cylinder"
                    | "pipe"
                    | "rectangular tube"
                    | "hexagonal bar"
                    | "square bar"
            );
            match shapes::solid("", sizes, &Details::default()) {
                Ok(outline) if !plain => Ok((outline, Some(name))),
                _ => Err(NoSolid::Missing(name)),
            }
        }
        found => found.map(|solid| (solid, None)),
    }
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

/// Mass of one piece of a shape whose sizes are all known, the part of the shape that is material, and the steps.
pub(super) fn of_solid(
    words: &Words,
    kind: Option<&'static Goods>,
    material: &'static Material,
    solid: &Solid,
    form: &Form,
) -> (MassRange, f64, Vec<Step>) {
    let (make_low, make_high) = kind.map_or((0.02, 0.02), |kind| (kind.make_low, kind.make_high));
    let fill = kind.filter(|kind| !kind.filled).and_then(fill_of);
    let (low, likely, high) = fill.unwrap_or((1.0, 1.0, 1.0));
    let nominal = kind.is_some_and(|kind| kind.nominal);
    let mut doubts = vec![
        Doubt::of_material(material),
        Doubt::of_band(low, likely, high),
        Doubt::of_making(make_low, make_high),
        Doubt::of_band(1.0 - solid.bias.0, 1.0, 1.0 + solid.bias.1),
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
        Named::Known(known, word) if *known == material => word.as_str(),
        _ => "implied by the kind of goods",
    };
    let mut steps = vec![
        volume_step(solid, kind, form),
        mass_step(material, word, solid.volume, likely, mass),
    ];
    if likely < 1.0 {
        steps[1].source = format!(
            "{}; part of the outline that is material: common practice, no source",
            steps[1].source
        );
    }
    let piece = MassRange::around(mass, doubt.low, doubt.high);
    (piece, likely, steps)
}

/// The estimate of a shape whose sizes are all known, from the mass of one piece and its steps.
pub(super) fn whole(
    item: &Item,
    kind: Option<&'static Goods>,
    material: &'static Material,
    solid: &Solid,
    piece: MassRange,
    fill: f64,
    steps: Vec<Step>,
) -> Estimate {
    Draft {
        evidence: Evidence::Shape,
        shape: Some(solid.shape),
        product: None,
        material: Some(material),
        goods: kind.map(|kind| kind.name.as_str()),
        piece,
        block: Some(material.high * upper_box(solid)),
        solid: solid.solid && fill >= 1.0,
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
    doubt: &str,
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
        outline_step(solid.outline, doubt),
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
        shape: Some(OUTLINE),
        product: None,
        material: Some(material),
        goods: kind.map(|kind| kind.name.as_str()),
        piece,
        block: Some(upper),
        solid: false,
        outline: Some(solid.outline),
        steps,
        working: format!(
            "only an outline{what} ({named}) of {}: bounds from {:.0} % to a solid block, not an estimate{doubt}",
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

fn outline_step(outline: [Length; 3], doubt: &str) -> Step {
    let names = ["length", "width", "height"].map(String::from);
    Step {
        what: "volume of the outline".to_string(),
        formula: "length x width x height".to_string(),
        inputs: names.into_iter().zip(outline.map(Length::m)).collect(),
        result: box_of(outline).m3(),
        unit: "m3",
        source: format!("geometry{doubt}"),
    }
}

fn volume_step(solid: &Solid, kind: Option<&Goods>, form: &Form) -> Step {
    let sizes = solid
        .terms
        .iter()
        .map(|term| (term.name, term.size.length.m()));
    let inputs = sizes.chain(solid.numbers.iter().copied());
    let as_solid = solid.solid && kind.is_some_and(|kind| kind.name == form::SHAPED);
    Step {
        what: format!(
            "volume of one {}{}",
            solid.shape,
            if as_solid { ", taken as solid" } else { "" }
        ),
        formula: solid.formula.clone(),
        inputs: inputs
            .map(|(name, value)| (name.to_string(), value))
            .collect(),
        result: solid.volume.m3(),
        unit: "m3",
        source: format!("{}{}", solid.source, form.from),
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
