//! Dressed softwood lumber: a 2x10 is 1-1/2 x 9-1/4 in. Only the true section comes from here; density is the material's.
//!
//! Source: PS 20 American Softwood Lumber Standard, row by row. Timbers of 5 in and more ship green unless said dry: their green
//! (larger) size is taken, the safe side.

use super::scan::{Dim, Kind, Scene, Unit};
use super::words::Classes;
use super::{Measure, OTHER, Product, show};
use crate::tables::products::dressed;
use crate::units::Length;

/// The one nominal lumber size a description names. Believed with a word for softwood, with S4S, or with a length in feet:
/// `2x10x16'`; never beside a word for steel, panels, parts, packages or undressed wood. A length in feet alone is the form of
/// many goods (a block, a machine), so the measure says whether the words spoke of lumber.
pub fn find(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    if scene.classes.any(
        Classes::STEEL
            .and(Classes::PANEL)
            .and(Classes::ACCESSORY)
            .and(Classes::MADE)
            .and(Classes::UNDRESSED),
    ) {
        return None;
    }
    // A crate of pine is measured over its outside.
    if scene.says(&[
        "crate", "crated", "crates", "box", "boxes", "boxed", "case", "cases",
    ]) {
        return None;
    }
    let said = scene.classes.any(Classes::LUMBER);
    let mut found: Option<Product> = None;
    for at in 0..scene.tokens.len() {
        let first = scene.starts(at) && scene.number(at).is_some();
        if !first
            || at
                .checked_sub(1)
                .is_some_and(|before| scene.tokens[before].kind == Kind::Times)
        {
            continue;
        }
        let Some(product) = size_at(scene, at, said, hint) else {
            continue;
        };
        match &found {
            Some(other) if other.designation != product.designation => return None,
            _ => found = Some(product),
        }
    }
    found
}

fn size_at(scene: &Scene, at: usize, said: bool, hint: Option<bool>) -> Option<Product> {
    let chain = scene.chain(at)?;
    let (one, two) = (chain.dims.first()?, chain.dims.get(1)?);
    let third = chain.dims.get(2).copied();
    let inch = |dim: &Dim| dim.unit_in(&[Unit::Inch]) && !dim.number.decimals;
    if !inch(one) || !inch(two) || chain.dims.len() > 3 || !chain.clean {
        return None;
    }
    // "2x10-16'": the length behind a dash or a blank.
    let behind = chain.end + usize::from(scene.sign(chain.end, '-'));
    let length = third.or_else(|| {
        let number = scene.number(behind)?;
        let (unit, _) = scene.unit(behind + 1)?;
        (unit == Unit::Foot).then_some(Dim {
            number,
            unit: Some(unit),
        })
    });
    let feet = length.is_some_and(|dim| dim.unit == Some(Unit::Foot));
    let marked = feet || one.unit.is_some() || two.unit.is_some();
    // "10x10 Fichte" counts in centimetres: in a metric file only a foot or inch mark is believed.
    if !(feet || said)
        || (hint == Some(true) && !marked)
        || third.is_some_and(|dim| !dim.unit_in(&[Unit::Foot, Unit::Millimetre, Unit::Metre]))
    {
        return None;
    }
    let (thin, wide) = (one.value().min(two.value()), one.value().max(two.value()));
    let (thickness, width) = true_section(scene, thin, wide)?;
    let name = format!("{}x{}", show::inches(thin), show::inches(wide));
    let length = length.and_then(|dim| match (dim.unit, dim.value()) {
        // Lumber is sold by even feet: a third number without a unit is feet where it can be.
        (None, feet) if (6.0..=24.0).contains(&feet) && hint != Some(true) => {
            Some(Length::from_in(feet * 12.0))
        }
        _ => dim.length(),
    });
    Some(Product {
        measure: Measure::Dressed {
            thickness: Length::from_in(thickness),
            width: Length::from_in(width),
            said: said || scene.says(&["kd", "sdry"]),
        },
        material: None,
        length,
        outline: Some((Length::from_in(thickness), Length::from_in(width))),
        working: format!(
            "a dressed {name} is {} x {} in",
            show::inches(thickness),
            show::inches(width)
        ),
        source: "PS 20 American Softwood Lumber Standard",
        ..Product::steel("lumber", "lumber", name, 0.0, OTHER)
    })
}

/// Dressed thickness and width, in.
fn true_section(scene: &Scene, thin: f64, wide: f64) -> Option<(f64, f64)> {
    let green = scene.classes.any(Classes::GREEN);
    if thin >= 5.0 {
        let dry = !green && is_dry(scene);
        let side = |nominal| {
            dressed("timber", nominal).map(|row| if dry { row.dry_in } else { row.green_in })
        };
        return Some((side(thin)?, side(wide)?));
    }
    let pick = |side, nominal| {
        dressed(side, nominal).map(|row| if green { row.green_in } else { row.dry_in })
    };
    Some((pick("thickness", thin)?, pick("width", wide)?))
}

fn is_dry(scene: &Scene) -> bool {
    scene.says(&["kd", "dry", "sdry", "mc"])
}
