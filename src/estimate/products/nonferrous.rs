//! Pipe that is not steel: copper water tube, PVC pipe, ductile iron.
//!
//! Sources: ASTM B88 (outside is nominal + 1/8 in), ASTM D1785 (the listed wall is the minimum, the average 6 % more), AWWA C151
//! (barrel; bell and cement lining add 5 to 15 %).

use super::pipe::{Schedule, inch_size, nominal, only, schedule};
use super::scan::{Kind, Scene};
use super::words::Classes;
use super::{KG_M_PER_LB_FT, Product, TUBE, show};
use crate::tables::products::{copper, ductile, pipe};
use crate::units::Length;

/// Fittings, assemblies and coatings are no plain pipe.
const NOT_A_PIPE: Classes = Classes::ACCESSORY.and(Classes::MADE).and(Classes::PLATE);

/// Mass of a ring, lb/ft, over (D - t) t in square inches: pi x 12 x density. Copper at 558 lb/ft3, PVC at 1.40 g/cm3, ductile iron
/// at 440.8 lb/ft3.
pub(super) const COPPER: f64 = 12.18;
pub(super) const PVC: f64 = 1.908;
pub(super) const DUCTILE: f64 = 9.617;
/// Average over listed (minimum) wall of PVC pipe (tolerance +12 %, -0: ASTM D1785).
pub(super) const PVC_WALL: f64 = 1.06;

/// The one pipe of these substances that a description names.
pub fn find(scene: &Scene) -> Option<Product> {
    if scene.classes.any(NOT_A_PIPE) {
        return None;
    }
    match (
        scene.classes.any(Classes::COPPER),
        scene.classes.any(Classes::PVC),
        scene.classes.any(Classes::DUCTILE)
            || (scene.says(&["di"]) && scene.classes.any(Classes::PIPE)),
    ) {
        (true, false, false) => copper_tube(scene),
        (false, true, false) => pvc(scene),
        (false, false, true) => ductile_iron(scene),
        _ => None,
    }
}

/// The one size in inches: with its mark, or written as a fraction.
fn inches(scene: &Scene) -> Option<f64> {
    let sizes: Vec<f64> = (0..scene.tokens.len())
        .filter_map(|at| {
            inch_size(scene, at).or_else(|| {
                let number = scene.number(at)?;
                let chained = at > 0
                    && scene
                        .tokens
                        .get(at - 1)
                        .is_some_and(|token| token.kind == Kind::Times);
                (number.fraction && !chained && scene.unit(at + 1).is_none())
                    .then_some(number.value)
            })
        })
        .collect();
    only(&sizes)
}

/// 12.18 (D - t) t lb/ft at 558 lb/ft3.
fn copper_tube(scene: &Scene) -> Option<Product> {
    if scene.says(&["od", "acr", "cable", "lined", "nickel", "insulated"]) {
        return None;
    }
    let kind = (0..scene.tokens.len()).find_map(|at| {
        match (scene.word(at)?, scene.word(scene.after_joiner(at + 1))?) {
            ("type", "k") => Some("K"),
            ("type", "l") => Some("L"),
            ("type", "m") => Some("M"),
            _ => None,
        }
    })?;
    let nominal = inches(scene)?;
    let row = copper(nominal, kind)?;
    let od = nominal + 0.125;
    let lb_ft = row
        .mass_lb_ft
        .unwrap_or(COPPER * (od - row.wall_in) * row.wall_in);
    let designation = format!("copper tube {} in type {kind}", show::inches(nominal));
    Some(pipe_of(
        "copper tube",
        designation,
        lb_ft,
        od,
        "copper",
        row.source.as_str(),
        row.mass_lb_ft.is_none(),
    ))
}

/// 1.908 (D - t) t lb/ft with the average wall, 1.06 of the listed minimum (tolerance +12 %, -0: ASTM D1785).
fn pvc(scene: &Scene) -> Option<Product> {
    let Schedule::One(place, schedule @ ("40" | "80")) = schedule(scene) else {
        return None;
    };
    if scene.says(&["foam", "cellular", "dwv", "conduit", "cpvc"]) {
        return None;
    }
    let nps = nominal(scene, place)?;
    let row = pipe(nps, schedule).filter(|_| nps <= 12.0)?;
    let wall = row.wall_in * PVC_WALL;
    let lb_ft = PVC * (row.od_in - wall) * wall;
    let designation = format!("PVC {} in SCH {schedule}", show::inches(nps));
    Some(pipe_of(
        "PVC pipe",
        designation,
        lb_ft,
        row.od_in,
        "PVC",
        "ASTM D1785 sizes, average wall, 1.40 g/cm3",
        true,
    ))
}

/// 9.617 (D - t) t lb/ft at 440.8 lb/ft3, not the density of steel.
fn ductile_iron(scene: &Scene) -> Option<Product> {
    let class = (0..scene.tokens.len()).find_map(|at| {
        let word = scene.word(at)?;
        matches!(word, "pc" | "class" | "cl").then(|| scene.value(scene.after_joiner(at + 1)))?
    })?;
    let nominal = inches(scene)?;
    let row = ductile(nominal, class)?;
    let lb_ft = row
        .mass_lb_ft
        .unwrap_or(DUCTILE * (row.od_in - row.wall_in) * row.wall_in);
    let designation = format!(
        "ductile iron pipe {} in class {}",
        show::inches(nominal),
        show::figure(class)
    );
    let mut product = pipe_of(
        "ductile iron pipe",
        designation,
        lb_ft,
        row.od_in,
        "ductile iron",
        row.source.as_str(),
        row.mass_lb_ft.is_none(),
    );
    product.make_high += 0.15;
    product
        .working
        .push_str("; bell and cement lining may add 5 to 15 %");
    Some(product)
}

fn pipe_of(
    family: &'static str,
    designation: String,
    lb_ft: f64,
    od_in: f64,
    material: &'static str,
    source: &'static str,
    extrapolated: bool,
) -> Product {
    let kg_per_m = lb_ft * KG_M_PER_LB_FT;
    let od = Length::from_in(od_in);
    Product {
        material: Some(material),
        outline: Some((od, od)),
        working: format!(
            "{designation} is {} in outside: {}",
            show::figure(od_in),
            show::per_metre(kg_per_m)
        ),
        source,
        extrapolated,
        ..Product::steel(family, "pipe", designation, kg_per_m, TUBE)
    }
}
