//! A standard product by its nominal mass, or by its true section and the material's density.

use super::draft::{Draft, box_of};
use super::products::{Measure, Product};
use super::range::{Doubt, together};
use super::words::{Named, Words};
use super::{Estimate, Evidence, NoEstimate, Step};
use crate::tables::materials::by_name;
use crate::understand::{Item, Sizes};
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
    // The third figure of "2x10x16" is the product's own length, in feet.
    let dressed = matches!(product.measure, Measure::Dressed { .. });
    let length = if dressed {
        product.length.or(stated)
    } else {
        stated.or(product.length)
    };
    let outline = outline_of(product, length);
    let no = |why: String| NoEstimate {
        why,
        impossible: false,
        goods: words.goods_name(),
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
    let piece = piece(product, words, &sizes, length)
        .map_err(|missing| no(format!("{}: {missing}", product.designation)))?;
    let material = match &words.material {
        Named::Known(material, _) => Some(*material),
        _ => product.material.and_then(by_name),
    };
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
    .finish(item))
}

/// The mass of one piece; the error says which size is missing.
fn piece(
    product: &Product,
    words: &Words,
    sizes: &Sizes,
    length: Option<Length>,
) -> Result<Piece, &'static str> {
    let long = || length.ok_or("the length is not stated");
    match product.measure {
        Measure::PerLength { kg_per_m } => Ok(by_length(product, words, sizes, kg_per_m, long()?)),
        Measure::PerPiece { piece } => Ok(Piece {
            mass: piece,
            step: step(
                "as the standard states it",
                Vec::new(),
                piece.likely,
                product.source.to_string(),
            ),
            working: product.working.clone(),
        }),
        Measure::PerArea { kg_per_m2 } => {
            let width = sizes.width.ok_or("the width is not stated")?.length;
            Ok(by_area(product, kg_per_m2, long()?, width))
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

fn by_length(
    product: &Product,
    words: &Words,
    sizes: &Sizes,
    kg_per_m: f64,
    length: Length,
) -> Piece {
    let kg_per_m = kg_per_m * density_ratio(product, &words.material);
    let mass = Mass::from_kg(kg_per_m * length.m());
    let size = sizes
        .length
        .map_or(Doubt::default(), |size| Doubt::of_size(size, 1.0, false));
    let doubt = together(&[Doubt::of_making(product.make_low, product.make_high), size]);
    let inputs = vec![("mass per metre", kg_per_m), ("length", length.m())];
    Piece {
        mass: MassRange::around(mass, doubt.low, doubt.high),
        step: step(
            "mass per metre x length",
            inputs,
            mass,
            product.source.to_string(),
        ),
        working: product.working.clone(),
    }
}

fn by_area(product: &Product, kg_per_m2: f64, length: Length, width: Length) -> Piece {
    let mass = Mass::from_kg(kg_per_m2 * length.m() * width.m());
    let making = Doubt::of_making(product.make_low, product.make_high);
    let inputs = vec![
        ("mass per area", kg_per_m2),
        ("length", length.m()),
        ("width", width.m()),
    ];
    Piece {
        mass: MassRange::around(mass, making.low, making.high),
        step: step(
            "mass per area x length x width",
            inputs,
            mass,
            product.source.to_string(),
        ),
        working: product.working.clone(),
    }
}

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
            by_name("softwood").ok_or("the species is not stated")?,
            "species not stated",
        ),
    };
    let mass = material.density * Volume::from_m3(thickness.m() * width.m() * length.m());
    let doubt = together(&[
        Doubt::of_making(product.make_low, product.make_high),
        Doubt::of_material(material),
    ]);
    let inputs = vec![
        ("thickness", thickness.m()),
        ("width", width.m()),
        ("length", length.m()),
        ("density", material.density.kg_m3()),
    ];
    let source = format!(
        "{}; {} ({word}): {}",
        product.source, material.name, material.source
    );
    Ok(Piece {
        mass: MassRange::around(mass, doubt.low, doubt.high),
        step: step("thickness x width x length x density", inputs, mass, source),
        working: format!("{}; {}", product.working, material.name),
    })
}

/// A stainless or aluminium section has the standard's section and its own density.
fn density_ratio(product: &Product, material: &Named) -> f64 {
    let own = product.material.and_then(by_name);
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
        Measure::Dressed {
            thickness, width, ..
        } => Some((thickness, width)),
        _ => product.outline,
    };
    section
        .zip(length)
        .map(|((height, width), length)| [length, width, height])
}
