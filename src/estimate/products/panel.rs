//! Sheet goods for building: plywood, OSB and gypsum board by thickness.
//!
//! Source: the APA panel weight table and makers' gypsum data, row by row; the band of panels is -8/+10 % (method, section 1),
//! for gypsum board -22 % (light boards: 1.25 psf against 1.6 psf). A code's design load is not a shipping weight.

use super::scan::{Kind, Scene, Unit};
use super::words::Classes;
use super::{KG_M2_PER_PSF, Measure, Product, show};
use crate::tables::products::panel;

/// The association's rule for thicknesses that the table does not have, lb/ft3.
pub(super) const PLYWOOD_LB_FT3: f64 = 36.0;
pub(super) const OSB_LB_FT3: f64 = 40.0;

/// Panels of another density or make than the table's.
const OTHER_PANELS: &[&str] = &[
    "birch",
    "marine",
    "hardwood",
    "oak",
    "maple",
    "phenolic",
    "film",
    "faced",
    "bamboo",
    "glass",
    "dens",
    "cement",
    "mdf",
    "lightweight",
    "particleboard",
    "chipboard",
    "hardboard",
    "melamine",
    "lumber",
    "boxes",
    "box",
    "screws",
];

/// The one panel a description names.
pub fn find(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    if !scene.classes.any(Classes::PANEL)
        || scene
            .classes
            .any(Classes::ACCESSORY.and(Classes::MADE).and(Classes::STEEL))
            && !only_sheet(scene)
    {
        return None;
    }
    if scene.says(OTHER_PANELS) {
        return None;
    }
    let kind = match (
        scene.says(&["plywood", "ply"]),
        scene.says(&["osb"]),
        scene.says(&["gypsum", "drywall", "plasterboard", "gwb"]),
    ) {
        (true, false, false) => "plywood",
        (false, true, false) => "OSB",
        (false, false, true) => "gypsum board",
        _ => return None,
    };
    let (thickness_in, metric) = thickness(scene, hint)?;
    let row = panel(kind, thickness_in).or_else(|| {
        (metric && kind == "gypsum board")
            .then(|| nearest(thickness_in))
            .flatten()
    });
    let psf = match (row, kind) {
        (Some(row), _) => row.mass_psf,
        (None, "plywood") => thickness_in / 12.0 * PLYWOOD_LB_FT3,
        (None, "OSB") => thickness_in / 12.0 * OSB_LB_FT3,
        (None, _) => return None,
    };
    let kg_per_m2 = psf * KG_M2_PER_PSF;
    let size = if metric {
        format!("{} mm", show::figure((thickness_in * 254.0).round() / 10.0))
    } else {
        format!("{} in", show::inches(thickness_in))
    };
    let designation = format!("{kind} {size}");
    let (make_low, make_high) = if kind == "gypsum board" {
        (0.22, 0.05)
    } else {
        (0.08, 0.10)
    };
    Some(Product {
        family: kind,
        goods: "panel",
        measure: Measure::PerArea { kg_per_m2 },
        make_low,
        make_high,
        material: Some(kind),
        working: format!("{designation} has {kg_per_m2:.1} kg/m2 ({psf:.1} lb/ft2)"),
        source: row.map_or(
            "panel association rule: 36 lb/ft3 plywood, 40 lb/ft3 OSB",
            |row| row.source.as_str(),
        ),
        extrapolated: row.is_none(),
        ..Product::steel("panel", "panel", designation.clone(), 0.0, 0.0)
    })
}

/// Of the words for steel and parts only "sheet" and "pipe"-less ones are harmless here: "PLYWOOD SHEET 18 mm".
fn only_sheet(scene: &Scene) -> bool {
    scene.tokens.iter().all(|token| match &token.kind {
        Kind::Word(word) => {
            word == "sheet"
                || !super::words::classes(word)
                    .any(Classes::ACCESSORY.and(Classes::MADE).and(Classes::STEEL))
        }
        _ => true,
    })
}

/// Metric gypsum boards are the inch ones rounded: 9.5, 12.5, 15.9 mm.
fn nearest(thickness_in: f64) -> Option<&'static crate::tables::products::Panel> {
    [0.375, 0.5, 0.625]
        .into_iter()
        .find(|size| (size - thickness_in).abs() < 0.012)
        .and_then(|size| panel("gypsum board", size))
}

/// Thickness in inches, and whether it was written in millimetres.
fn thickness(scene: &Scene, hint: Option<bool>) -> Option<(f64, bool)> {
    let mut found: Option<(f64, bool)> = None;
    for at in 0..scene.tokens.len() {
        let Some(number) = scene.number(at) else {
            continue;
        };
        let unit = scene.unit(at + 1).map(|(unit, _)| unit);
        let here = match unit {
            Some(Unit::Millimetre) if (3.0..=40.0).contains(&number.value) => {
                (number.value / 25.4, true)
            }
            Some(Unit::Inch) | None if number.fraction && number.value < 1.5 => {
                (number.value, false)
            }
            _ => continue,
        };
        match found {
            Some(other) if (other.0 - here.0).abs() > 0.002 => return None,
            _ => found = Some(here),
        }
    }
    found.or_else(|| {
        // "18x1220x2440", "2440 x 1220 x 18": the smallest of three, beside two that are clearly millimetres.
        let chain = (0..scene.tokens.len())
            .find_map(|at| scene.chain(at).filter(|chain| chain.dims.len() == 3))?;
        let mut values = chain.values();
        values.sort_by(f64::total_cmp);
        let metric = chain
            .dims
            .iter()
            .all(|dim| dim.unit_in(&[Unit::Millimetre]))
            && hint != Some(false);
        match values[..] {
            [thin, middle, _] if metric && (3.0..=40.0).contains(&thin) && middle >= 600.0 => {
                Some((thin / 25.4, true))
            }
            _ => None,
        }
    })
}
