//! Wire rope by its diameter: six strands, fibre or steel core.
//!
//! Source: 6x19 table (fibre core 1.68 d^2 lb/ft, steel core a tenth more). Rope is no solid rod, which would weigh 2.67 d^2.

use super::scan::{Scene, Unit};
use super::words::Classes;
use super::{KG_M_PER_LB_FT, Product, TUBE, show};
use crate::units::{Length, M_PER_IN};

/// lb/ft over the square of the diameter in inches.
pub(super) const FIBRE_CORE: f64 = 1.68;
const STEEL_CORE: f64 = 1.85;

/// The one wire rope that a description names. Without a word for its core a steel one, the heavier, is likely.
pub fn find(scene: &Scene) -> Option<Product> {
    let rope = scene.says(&["rope", "ropes"]) && scene.says(&["wire", "steel"])
        || scene.says(&["drahtseil", "drahtseile", "stahlseil"]);
    let other = scene.says(&[
        "sling",
        "slings",
        "clip",
        "clips",
        "thimble",
        "socket",
        "stainless",
        "grip",
        "end",
        "synthetic",
    ]);
    if !rope || other || scene.classes.any(Classes::MADE) {
        return None;
    }
    let mut found: Option<(f64, bool)> = None;
    for at in (0..scene.tokens.len()).filter(|at| !is_strands(scene, *at)) {
        let Some((dim, _)) = scene.size(at) else {
            continue;
        };
        let here = match dim.unit {
            Some(Unit::Millimetre) if (2.0..=80.0).contains(&dim.value()) => (dim.value(), false),
            Some(Unit::Inch) | None if dim.number.fraction || dim.unit.is_some() => {
                (dim.value(), true)
            }
            _ => continue,
        };
        if found.is_some_and(|other| other != here) {
            return None;
        }
        found = Some(here);
    }
    let (size, inch) = found.filter(|(size, inch)| !inch || *size <= 3.0)?;
    let diameter = Length::from_m(size * if inch { M_PER_IN } else { 1e-3 });
    let fibre = scene.says(&["fc", "fibre", "fiber", "hemp"]);
    let factor = if fibre { FIBRE_CORE } else { STEEL_CORE };
    let kg_per_m = factor * diameter.inches().powi(2) * KG_M_PER_LB_FT;
    let core = if fibre { "fibre core" } else { "steel core" };
    let unit = if inch { "in" } else { "mm" };
    let shown = if inch {
        show::inches(size)
    } else {
        show::figure(size)
    };
    let designation = format!("wire rope {shown} {unit} {core}");
    let mut product = Product {
        working: format!("{designation}: {}", show::per_metre(kg_per_m)),
        source: "6x19 wire rope table (trade table, on file); steel core from memory",
        extrapolated: true,
        ..Product::steel("wire rope", "cable", designation, kg_per_m, TUBE)
    };
    // A fibre core makes it a tenth lighter.
    if !fibre && !scene.says(&["iwrc", "steelcore"]) {
        product.make_low += 0.10;
    }
    Some(product)
}

/// The figures of "6x19" count strands and wires.
fn is_strands(scene: &Scene, at: usize) -> bool {
    let chain = |at: usize| {
        scene.chain(at).is_some_and(|chain| {
            chain.dims.len() == 2
                && chain
                    .dims
                    .iter()
                    .all(|dim| dim.unit.is_none() && !dim.number.fraction)
        })
    };
    chain(at) || at >= 2 && chain(at - 2)
}
