//! A standard product by its nominal mass, or by its true section and the material's density.

use super::draft::{Draft, Unit, box_of};
use super::products::{Measure, Product};
use super::range::{Doubt, together};
use super::words::{Named, Words, length_in_words, sizes_in_columns};
use super::{Estimate, Evidence, NoEstimate, Step, unclear};
use crate::tables::materials::Material;
use crate::understand::{Item, Size1, Sizes};
use crate::units::{Length, Mass, MassRange, Volume};

/// One piece of a product, with how it was worked out.
struct Piece {
    mass: MassRange,
    step: Step,
    working: String,
}

/// Estimates a line that names a standard product.
///
/// # Errors
/// Which size is missing, or why the product cannot be what the line says.
pub(super) fn standard(
    item: &Item,
    product: &Product,
    words: &Words,
) -> Result<Estimate, NoEstimate> {
    let sizes = product_sizes(item, product);
    let stated = sizes.length.map(|size| size.length);
    // The third figure of "2x10x16" is feet, whatever a column makes of it.
    let own_first = !sizes_in_columns(item) || matches!(product.measure, Measure::Dressed { .. });
    let length = if own_first {
        product.length.or(stated)
    } else {
        stated.or(product.length)
    };
    let outline = outline_of(product, length).or_else(|| sheet_outline(product, &sizes));
    let no = |why: String| NoEstimate {
        why,
        impossible: false,
        goods: words.goods_name(),
        upper: None,
        outline,
    };
    if let (Named::Known(material, _), Some(own)) = (
        &words.material,
        product
            .material
            .and_then(|name| words.vocabulary.table.by_name(name)),
    ) && !is_alike(own, material)
    {
        return Err(no(format!(
            "{} is made of {} and the line says {}",
            product.designation, own.name, material.name
        )));
    }
    let piece = piece(product, words, &sizes, length, own_first)
        .map_err(|missing| no(format!("{}: {missing}", product.designation)))?;
    let material = match &words.material {
        Named::Known(material, _) => Some(*material),
        _ => product
            .material
            .and_then(|name| words.vocabulary.table.by_name(name)),
    };
    // "27 bundles of 26 shingles": a bundle is the piece.
    let bundles = product.goods == "shingle bundle" && item.packages.is_some();
    let unit = if bundles { Unit::Package } else { Unit::Piece };
    Ok(Draft {
        evidence: Evidence::Product,
        shape: None,
        product: Some(product.designation.clone()),
        material,
        goods: words.goods_name(),
        piece: piece.mass,
        block: outline
            .zip(material)
            .map(|(sides, material)| material.high * box_of(sides)),
        solid: false,
        outline,
        steps: vec![piece.step],
        working: piece.working,
    }
    .finish_by(item, unit))
}

/// The mass of one piece; the error says which size is missing.
fn piece(
    product: &Product,
    words: &Words,
    sizes: &Sizes,
    length: Option<Length>,
    own_first: bool,
) -> Result<Piece, &'static str> {
    let long = || {
        length.ok_or(if product.length_unclear {
            "its last figure may be feet, inches or metres; the length is not stated"
        } else {
            "the length is not stated"
        })
    };
    let making = Doubt::of_making(product.make_low, product.make_high);
    match product.measure {
        Measure::PerLength { kg_per_m } => {
            let length = long()?;
            // How far the length may be off, where it is the one of the line; feet and inches make it differ in the last bit.
            let same = |size: &Size1| (size.length.m() / length.m() - 1.0).abs() < 1e-9;
            let size = sizes
                .length
                .filter(same)
                .map_or(Doubt::default(), |size| Doubt::of_size(size, 1.0, false));
            Ok(nominal(
                product,
                words,
                "mass per metre x length",
                vec![("mass per metre", kg_per_m), ("length", length.m())],
                together(&[making, size]),
            ))
        }
        Measure::PerPiece { piece } => Ok(nominal(
            product,
            words,
            "mass of the standard piece",
            vec![("mass of the standard piece", piece.likely.kg())],
            Doubt::of_band(piece.low.kg(), piece.likely.kg(), piece.high.kg()),
        )),
        Measure::PerArea { kg_per_m2 } => {
            let own = product.outline.map(|(_, width)| width);
            let stated = sizes.width.map(|size| size.length);
            let width = if own_first {
                own.or(stated)
            } else {
                stated.or(own)
            };
            // Bare sides of a pane or sheet that its name cannot tell apart ("4x8") are feet as well as inches.
            let open = own_first && own.is_none() && matches!(product.goods, "glass" | "sheet");
            let width = width
                .filter(|_| !open)
                .ok_or("its sides are not stated with their unit")?;
            Ok(nominal(
                product,
                words,
                "mass per area x length x width",
                vec![
                    ("mass per area", kg_per_m2),
                    ("length", long()?.m()),
                    ("width", width.m()),
                ],
                making,
            ))
        }
        Measure::Dressed {
            thickness, width, ..
        } => by_section(product, words, thickness, width, long()?),
    }
}

fn step(formula: &str, inputs: Vec<(&str, f64)>, result: Mass, source: String) -> Step {
    Step {
        what: "one piece".to_string(),
        formula: formula.to_string(),
        inputs: inputs
            .into_iter()
            .map(|(name, value)| (name.to_string(), value))
            .collect(),
        result: result.kg(),
        unit: "kg",
        source,
    }
}

/// The nominal mass: the product of the inputs, times the ratio of densities where the line says another metal than the
/// standard's.
fn nominal(
    product: &Product,
    words: &Words,
    formula: &str,
    mut inputs: Vec<(&str, f64)>,
    doubt: Doubt,
) -> Piece {
    let mut formula = formula.to_string();
    let mut source = product.source.to_string();
    let mut working = product.working.clone();
    if product.extrapolated {
        working.push_str("; by the rule, not from a table");
    }
    if let Some((ratio, material)) = density_ratio(product, words) {
        formula.push_str(" x density ratio");
        inputs.push(("density ratio", ratio));
        source = format!(
            "{source}; {}: {}, {}",
            material.name, material.source, material.basis
        );
        working = format!(
            "{working}; x {ratio:.3} for the density of {}",
            material.name
        );
    }
    let mass = Mass::from_kg(inputs.iter().map(|(_, value)| value).product());
    Piece {
        mass: MassRange::around(mass, doubt.low, doubt.high),
        step: step(&formula, inputs, mass, source),
        working,
    }
}

/// A dressed timber of nominal 5 in, in: from there on lumber is sold green unless said to be dry (PS 20, from memory).
const THINNEST_TIMBER: f64 = 4.5;

/// Dressed lumber: true section, density and moisture of the species; the table's wide row where none is stated.
fn by_section(
    product: &Product,
    words: &Words,
    thickness: Length,
    width: Length,
    length: Length,
) -> Result<Piece, &'static str> {
    let (material, word) = match &words.material {
        Named::Known(material, word) => (*material, word.as_str()),
        _ => (
            words
                .vocabulary
                .table
                .by_name("softwood")
                .ok_or("the species is not stated")?,
            "species not stated",
        ),
    };
    // Of a timber whose moisture nobody states the green wood is likely, and the dry one possible.
    let timber = |_: &&Material| thickness.inches() >= THINNEST_TIMBER;
    let green = words.vocabulary.green(material).filter(timber);
    let (low, material) = (material.low, green.unwrap_or(material));
    let mass = material.density * Volume::from_m3(thickness.m() * width.m() * length.m());
    let doubt = together(&[
        Doubt::of_making(product.make_low, product.make_high),
        Doubt::of_band(low.kg_m3(), material.density.kg_m3(), material.high.kg_m3()),
    ]);
    let inputs = vec![
        ("thickness", thickness.m()),
        ("width", width.m()),
        ("length", length.m()),
        ("density", material.density.kg_m3()),
    ];
    let source = format!(
        "{}; {} ({word}): {}, {}",
        product.source, material.name, material.source, material.basis
    );
    Ok(Piece {
        mass: MassRange::around(mass, doubt.low, doubt.high),
        step: step("thickness x width x length x density", inputs, mass, source),
        working: format!("{}; {}", product.working, material.name),
    })
}

/// A stainless or aluminium section has the standard's section and its own density: how much denser it is. None where the
/// material is the standard's own.
fn density_ratio(product: &Product, words: &Words) -> Option<(f64, &'static Material)> {
    let own = product
        .material
        .and_then(|name| words.vocabulary.table.by_name(name))?;
    match &words.material {
        // Galvanised and weathering steel have the density of carbon steel.
        Named::Known(material, _)
            if own.density != material.density && material.group == "metal" =>
        {
            Some((material.density.kg_m3() / own.density.kg_m3(), *material))
        }
        _ => None,
    }
}

/// Whether a product of one material may be what a line of the other says: the same group, wood and boards of
/// wood, or its shorter name (gypsum of gypsum board).
fn is_alike(own: &Material, said: &Material) -> bool {
    let group = |material: &Material| match material.group {
        "engineered wood" => "wood",
        group => group,
    };
    group(own) == group(said) || own.name.contains(said.name)
}

/// Sizes of a product line. Those of columns are the line's. Those of the description are the figures of the product's own
/// name, so that its section must not become its length: "L 80x80x8 6000", "HEX BAR 2 x 12'".
fn product_sizes(item: &Item, product: &Product) -> Sizes {
    let mut sizes = item.sizes;
    if matches!(
        product.measure,
        Measure::PerArea { .. } | Measure::PerPiece { .. }
    ) {
        return sizes;
    }
    // Posts and rings are sometimes given by height.
    if sizes.length.is_none() {
        sizes.length = sizes.height.filter(|_| sizes.width.is_none());
    }
    if !sizes_in_columns(item) {
        let across = section(product).map_or(Length::ZERO, |(height, width)| height.max(width));
        // "REBAR 15M 6 m": the name is no length of 15 m.
        let name = product.designation.strip_suffix('M');
        let metres = name.and_then(|name| name.parse::<f64>().ok());
        let rest = match metres {
            Some(_) => item.description.replacen(&product.designation, "", 1),
            None => item.description.clone(),
        };
        sizes.length = sizes
            .length
            .filter(|size| {
                size.length > across
                    && metres != Some(size.length.m())
                    && !product.length_unclear
                    && !unclear::length(item)
            })
            .or_else(|| length_in_words(&rest));
    }
    sizes
}

/// Height and width of the section, where known.
fn section(product: &Product) -> Option<(Length, Length)> {
    match product.measure {
        Measure::Dressed {
            thickness, width, ..
        } => Some((thickness, width)),
        _ => product.outline,
    }
}

/// The sides of a sheet whose product names only its thickness.
fn sheet_outline(product: &Product, sizes: &Sizes) -> Option<[Length; 3]> {
    let side = |size: Option<Size1>| size.map(|size| size.length);
    matches!(product.measure, Measure::PerArea { .. })
        .then(|| {
            Some([
                side(sizes.length)?,
                side(sizes.width)?,
                side(sizes.height).unwrap_or(Length::ZERO),
            ])
        })
        .flatten()
}

fn outline_of(product: &Product, length: Option<Length>) -> Option<[Length; 3]> {
    section(product)
        .zip(length)
        .map(|((height, width), length)| [length, width, height])
}
