//! The estimate of one line: the best kind of evidence its words and sizes give, with the working.

use super::materials::{self, Found};
use super::products::{self, Container, Measure, Product};
use super::range::{Doubt, together};
use super::shapes::{self, NoSolid, Solid};
use super::{Estimate, Evidence, NoEstimate, Step};
use crate::tables::goods::{self, Goods, GoodsWord};
use crate::tables::materials::Material;
use crate::tables::packages;
use crate::understand::{Item, Size1, Sizes, described, sizes};
use crate::units::written::{Decimal, scan_figure};
use crate::units::{Length, LengthUnit, Mass, MassRange, Volume};

/// Density that no goods on a dock exceed but tungsten and gold: lead, kg/m3 (materials table).
const LEAD_KG_M3: f64 = 11_340.0;
/// Fill of an outline about whose form nothing is known (common practice, no source).
const UNKNOWN_FORM: (f64, f64, f64) = (0.02, 0.3, 1.0);
/// A liquid's part of its container where no fill is stated (method, section 1; common practice, no source).
const LIQUID_FILL: (f64, f64, f64) = (0.95, 0.98, 1.0);
/// A metal piece thinner than this part of its width is a plate, whatever it is called.
const THIN: f64 = 0.125;

/// What the words of a line say.
struct Words {
    goods: Option<GoodsWord>,
    product: Option<Product>,
    material: Named,
}

/// The material, or why none.
enum Named {
    Known(&'static Material, String),
    Unknown(String, Vec<&'static str>),
    Nothing,
}

/// Estimates one line. `metric` says whether the file's signs are metric (`Some(true)`), US (`Some(false)`) or neither.
///
/// # Errors
/// Why there is no estimate: what is missing, with the nearest thing known.
pub fn line(item: &Item, metric: Option<bool>) -> Result<Estimate, NoEstimate> {
    let words = words(item, metric);
    if let Some(estimate) = by_stated_mass_per_length(item, &words) {
        return Ok(estimate);
    }
    if let Some(container) = products::container(&item.description) {
        return contained(item, &container, &words);
    }
    match &words.product {
        Some(product) => standard(item, product, &words),
        None => shaped(item, &words),
    }
}

fn words(item: &Item, metric: Option<bool>) -> Words {
    let product = products::recognise(&item.description, metric);
    let goods = goods::in_description(&item.description);
    let material = material(item, product.as_ref(), goods);
    Words {
        goods,
        product,
        material,
    }
}

fn material(item: &Item, product: Option<&Product>, goods: Option<GoodsWord>) -> Named {
    if let Some(text) = &item.material {
        match materials::in_column(text) {
            Found::Known { material, word } => {
                return Named::Known(materials::in_condition(material, &item.description), word);
            }
            Found::Unknown { word, nearest } => {
                // A grade the table does not know stands beside words it does: the words are evidence, the grade is not.
                return match materials::in_description(&item.description, product.is_some()) {
                    Found::Known { material, word } => Named::Known(material, word),
                    _ => Named::Unknown(word, nearest),
                };
            }
            Found::Nothing => {}
        }
    }
    match materials::in_description(&item.description, product.is_some()) {
        Found::Known { material, word } => return Named::Known(material, word),
        Found::Unknown { word, nearest } => return Named::Unknown(word, nearest),
        Found::Nothing => {}
    }
    let implied = product
        .and_then(|product| product.material)
        .or(goods.and_then(|word| word.material));
    match implied.and_then(crate::tables::materials::by_name) {
        Some(material) => {
            let said = if product.is_some() {
                "implied by the standard"
            } else {
                "implied by the kind of goods"
            };
            Named::Known(material, said.to_string())
        }
        None => Named::Nothing,
    }
}

impl Words {
    fn goods_name(&self) -> Option<&'static str> {
        let product = self
            .product
            .as_ref()
            .and_then(|product| goods::by_name(product.goods));
        product
            .or(self.goods.map(|word| word.goods))
            .map(|goods| goods.name.as_str())
    }
}

/// "1.35 kg/m" in the description of goods whose length is stated: the supplier's own mass per length.
fn by_stated_mass_per_length(item: &Item, words: &Words) -> Option<Estimate> {
    let per_metre = stated_mass_per_metre(&item.description)?;
    let length = item
        .sizes
        .length
        .or_else(|| wound_length(&item.description))
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
    Some(finish(
        item,
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
        },
    ))
}

/// The length of what is wound up ("500 m", "1500 FT"): no side of the load, so no size of the line.
fn wound_length(description: &str) -> Option<Size1> {
    let found = described::read(description, Decimal::Unclear);
    let single = found
        .chains
        .iter()
        .filter(|chain| chain.parts.len() == 1)
        .filter_map(|chain| chain.parts.first());
    let long =
        single.filter(|part| matches!(part.written.unit, Some(LengthUnit::M | LengthUnit::Ft)));
    long.filter_map(|part| sizes::size(part.written, None))
        .next()
}

/// The figure before `kg/m`.
fn stated_mass_per_metre(description: &str) -> Option<f64> {
    let lower = description.to_lowercase();
    let at = ["kg/m", "kg / m", "kg/mtr"]
        .iter()
        .find_map(|unit| lower.find(unit))?;
    let after = lower
        .get(at..)?
        .trim_start_matches("kg")
        .trim_start_matches([' ', '/']);
    // "kg/m2" is a mass per area.
    if after
        .trim_start_matches("mtr")
        .trim_start_matches('m')
        .starts_with(['2', '3', '²', '³'])
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
    (figure.value > 0.0 && !figure.unclear).then_some(figure.value)
}

/// A stated contents in a known container: its liquid by volume, or nothing to go by but the container.
fn contained(item: &Item, container: &Container, words: &Words) -> Result<Estimate, NoEstimate> {
    let goods = container_goods(container);
    let Named::Known(material, word) = &words.material else {
        return Err(NoEstimate {
            why: format!("what is in the {} is not stated", container.designation),
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
                "{} ({}): {}; {}",
                material.name, word, material.source, container.source
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
    Ok(finish(
        item,
        Draft {
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
        },
    ))
}

fn container_goods(container: &Container) -> &'static str {
    match container.kind {
        "drum" => "drum",
        "tote" => "intermediate bulk container",
        _ => "can",
    }
}

/// A standard product by its nominal mass, or by its true section and the material's density.
fn standard(item: &Item, product: &Product, words: &Words) -> Result<Estimate, NoEstimate> {
    let sizes = product_sizes(item, product);
    let dressed = matches!(product.measure, Measure::Dressed { .. });
    // The third figure of "2x10x16" is the product's own length, in feet.
    let stated = sizes.length.map(|size| size.length);
    let length = if dressed {
        product.length.or(stated)
    } else {
        stated.or(product.length)
    };
    let outline = outline_of(product, length);
    let goods = words.goods_name();
    let no = |why: String| NoEstimate {
        why,
        goods,
        upper: None,
        outline,
    };
    if let (Named::Known(material, _), Some("carbon steel")) = (&words.material, product.material)
        && material.group != "metal"
    {
        return Err(no(format!(
            "{} is a steel product and the line says {}",
            product.designation, material.name
        )));
    }
    let making = Doubt::of_making(product.make_low, product.make_high);
    let mut steps = Vec::new();
    let (piece, working) = match product.measure {
        Measure::PerLength { kg_per_m } => {
            let length = length
                .ok_or_else(|| no(format!("{}: the length is not stated", product.designation)))?;
            let ratio = density_ratio(product, &words.material);
            let mass = Mass::from_kg(kg_per_m * ratio * length.m());
            let size = sizes
                .length
                .map_or(Doubt::default(), |size| Doubt::of_size(size, 1.0, false));
            let doubt = together(&[making, size]);
            steps.push(Step {
                what: "one piece".to_string(),
                formula: "mass per metre x length".to_string(),
                inputs: vec![
                    ("mass per metre".to_string(), kg_per_m * ratio),
                    ("length".to_string(), length.m()),
                ],
                result: mass.kg(),
                unit: "kg",
                source: product.source.to_string(),
            });
            (
                MassRange::around(mass, doubt.low, doubt.high),
                product.working.clone(),
            )
        }
        Measure::PerPiece { piece } => {
            steps.push(Step {
                what: "one piece".to_string(),
                formula: "as the standard states it".to_string(),
                inputs: Vec::new(),
                result: piece.likely.kg(),
                unit: "kg",
                source: product.source.to_string(),
            });
            (piece, product.working.clone())
        }
        Measure::PerArea { kg_per_m2 } => {
            let width = sizes.width.map(|size| size.length);
            let (length, width) = length.zip(width).ok_or_else(|| {
                no(format!(
                    "{}: length and width are not stated",
                    product.designation
                ))
            })?;
            let mass = Mass::from_kg(kg_per_m2 * length.m() * width.m());
            steps.push(Step {
                what: "one piece".to_string(),
                formula: "mass per area x length x width".to_string(),
                inputs: vec![
                    ("mass per area".to_string(), kg_per_m2),
                    ("length".to_string(), length.m()),
                    ("width".to_string(), width.m()),
                ],
                result: mass.kg(),
                unit: "kg",
                source: product.source.to_string(),
            });
            (
                MassRange::around(mass, making.low, making.high),
                product.working.clone(),
            )
        }
        Measure::Dressed { thickness, width } => {
            let length = length
                .ok_or_else(|| no(format!("{}: the length is not stated", product.designation)))?;
            let (material, word) = match &words.material {
                Named::Known(material, word) => (*material, word.clone()),
                // Dressed softwood of no stated species: the table's wide row.
                _ => (
                    crate::tables::materials::by_name("softwood")
                        .ok_or_else(|| no("the species is not stated".to_string()))?,
                    "species not stated".to_string(),
                ),
            };
            let volume = Volume::from_m3(thickness.m() * width.m() * length.m());
            let mass = material.density * volume;
            let doubt = together(&[making, Doubt::of_material(material)]);
            steps.push(Step {
                what: "one piece, dressed".to_string(),
                formula: "thickness x width x length x density".to_string(),
                inputs: vec![
                    ("thickness".to_string(), thickness.m()),
                    ("width".to_string(), width.m()),
                    ("length".to_string(), length.m()),
                    ("density".to_string(), material.density.kg_m3()),
                ],
                result: mass.kg(),
                unit: "kg",
                source: format!(
                    "{}; {} ({word}): {}",
                    product.source, material.name, material.source
                ),
            });
            (
                MassRange::around(mass, doubt.low, doubt.high),
                format!("{}; {}", product.working, material.name),
            )
        }
    };
    let material = match &words.material {
        Named::Known(material, _) => Some(*material),
        _ => product.material.and_then(crate::tables::materials::by_name),
    };
    let block = outline
        .zip(material)
        .map(|(sides, material)| material.high * box_of(sides));
    Ok(finish(
        item,
        Draft {
            evidence: Evidence::Product,
            shape: None,
            product: Some(product.designation.clone()),
            material,
            goods,
            piece,
            block,
            solid: false,
            outline,
            steps,
            working,
        },
    ))
}

/// A stainless or aluminium section has the standard's section and its own density.
fn density_ratio(product: &Product, material: &Named) -> f64 {
    let own = product.material.and_then(crate::tables::materials::by_name);
    match (own, material) {
        (Some(own), Named::Known(material, _))
            if own.name != material.name && material.group == "metal" =>
        {
            material.density.kg_m3() / own.density.kg_m3()
        }
        _ => 1.0,
    }
}

/// Sizes of a product line: the length of the line where the product has none of its own.
fn product_sizes(item: &Item, product: &Product) -> Sizes {
    let mut sizes = item.sizes;
    // Posts, rings and panels are sometimes given by height.
    if sizes.length.is_none()
        && matches!(
            product.measure,
            Measure::PerLength { .. } | Measure::Dressed { .. }
        )
    {
        sizes.length = sizes.height.filter(|_| sizes.width.is_none());
    }
    sizes
}

fn outline_of(product: &Product, length: Option<Length>) -> Option<[Length; 3]> {
    let section = match product.measure {
        Measure::Dressed { thickness, width } => Some((thickness, width)),
        _ => product.outline,
    };
    section
        .zip(length)
        .map(|((height, width), length)| [length, width, height])
}

fn box_of(sides: [Length; 3]) -> Volume {
    Volume::from_m3(sides.iter().map(|side| side.m()).product())
}

/// Volume of the shape and density of the material; an envelope where the form is not known.
fn shaped(item: &Item, words: &Words) -> Result<Estimate, NoEstimate> {
    let goods = words.goods_name();
    let kind = words.goods.map(|word| word.goods);
    let material = match &words.material {
        Named::Known(material, _) => Some(*material),
        _ => None,
    };
    let own = !item.sizes.is_empty();
    let sizes = if own { item.sizes } else { item.package_sizes };
    let (shape, thin) = shape_of(words, &sizes, material);
    let solid = match shapes::solid(shape, &sizes) {
        Ok(solid) => solid,
        Err(NoSolid::Impossible(how)) => {
            return Err(NoEstimate {
                why: format!("the sizes cannot be: {how}"),
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
        let upper = Mass::from_kg(LEAD_KG_M3 * upper_box(&solid).m3()) * units_of(item, own);
        return Err(NoEstimate {
            why,
            goods,
            upper: Some(upper),
            outline: Some(solid.outline),
        });
    };
    // Outer sizes of a package tell nothing of the form inside; so do sizes of goods whose form is not their outline.
    let formless = !own || (shape.is_empty() && !thin && solid.shape == "box");
    let estimate = if formless {
        envelope(item, kind, material, &solid, own)
    } else {
        whole(item, words, kind, material, &solid)
    };
    Ok(estimate)
}

/// Packages where the sizes are the package's, else pieces.
fn units_of(item: &Item, own: bool) -> f64 {
    f64::from(if own {
        item.pieces
    } else {
        item.packages.unwrap_or(1)
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

fn whole(
    item: &Item,
    words: &Words,
    kind: Option<&'static Goods>,
    material: &'static Material,
    solid: &Solid,
) -> Estimate {
    let (make_low, make_high) = kind.map_or((0.02, 0.02), |kind| (kind.make_low, kind.make_high));
    let fill = kind.and_then(|kind| {
        // A fill of a kind whose shape is known belongs to its envelope, except where the shape itself is not solid.
        (kind.name == "threaded rod").then_some((
            kind.fill_low?,
            kind.fill_likely?,
            kind.fill_high?,
        ))
    });
    let (low, likely, high) = fill.unwrap_or((1.0, 1.0, 1.0));
    let nominal = kind.is_some_and(|kind| {
        matches!(
            kind.name.as_str(),
            "plate"
                | "sheet"
                | "flat bar"
                | "round bar"
                | "square bar"
                | "rebar"
                | "pipe"
                | "plastic pipe"
                | "hollow section"
                | "section"
                | "lumber"
                | "panel"
                | "glass"
        )
    });
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
    finish(
        item,
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
        },
    )
}

/// Bounds, not a guess: from the form's lowest fill to the solid box at upper sizes and highest density.
fn envelope(
    item: &Item,
    kind: Option<&'static Goods>,
    material: &'static Material,
    solid: &Solid,
    own: bool,
) -> Estimate {
    let fill = kind.and_then(|kind| Some((kind.fill_low?, kind.fill_likely?, kind.fill_high?)));
    let (low, likely, _) = fill.unwrap_or(UNKNOWN_FORM);
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
                "{}: {}; fill by kind of goods: common practice, no source",
                material.name, material.source
            ),
        },
    ];
    let named = kind.map_or("form not known", |kind| kind.name.as_str());
    let mut estimate = finish(
        item,
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
                "only an outline ({named}) of {}: bounds from {:.0} % to a solid block, not an estimate",
                material.name,
                low * 100.0
            ),
        },
    );
    let units = units_of(item, own);
    estimate.line = estimate.piece.times(units);
    estimate.block = estimate
        .block
        .map(|block| block / f64::from(item.pieces) * units);
    estimate
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

struct Draft {
    evidence: Evidence,
    shape: Option<&'static str>,
    product: Option<String>,
    material: Option<&'static Material>,
    goods: Option<&'static str>,
    piece: MassRange,
    block: Option<Mass>,
    solid: bool,
    outline: Option<[Length; 3]>,
    steps: Vec<Step>,
    working: String,
}

/// From one piece to the whole line: pieces with errors common to all, and the tare of the packages.
fn finish(item: &Item, draft: Draft) -> Estimate {
    let pieces = f64::from(item.pieces);
    let mut steps = draft.steps;
    if item.pieces > 1 {
        steps.push(Step {
            what: "the whole line".to_string(),
            formula: "one piece x pieces".to_string(),
            inputs: vec![
                ("one piece".to_string(), draft.piece.likely.kg()),
                ("pieces".to_string(), pieces),
            ],
            result: draft.piece.likely.kg() * pieces,
            unit: "kg",
            source: "the line's number of pieces".to_string(),
        });
    }
    Estimate {
        evidence: draft.evidence,
        shape: draft.shape,
        product: draft.product,
        material: draft.material.map(|material| material.name),
        group: draft.material.map(|material| material.group),
        goods: draft.goods,
        piece: draft.piece,
        line: draft.piece.times(pieces),
        tare: tare(item, draft.goods),
        block: draft.block.map(|block| block * pieces),
        solid: draft.solid,
        outline: draft.outline,
        steps,
        working: draft.working,
    }
}

/// Tare of the line's packages: stated, or by the kind of package. Drums and the like have theirs in the estimate already.
fn tare(item: &Item, goods: Option<&str>) -> MassRange {
    if let Some(stated) = item.tare {
        return MassRange {
            low: stated,
            likely: stated,
            high: stated,
        };
    }
    let counted = f64::from(item.packages.unwrap_or(1));
    match item.packed_as {
        Some(name) if goods != Some(name) => packages::tare(name).times(counted),
        _ => MassRange {
            low: Mass::ZERO,
            likely: Mass::ZERO,
            high: Mass::ZERO,
        },
    }
}
