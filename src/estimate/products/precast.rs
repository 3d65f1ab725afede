//! Precast concrete by name: reinforced pipe by wall class, manhole risers, box culverts.
//!
//! Sources: ASTM C76 (wall A D/12 and thicker in small sizes, B D/12 + 1 in, C D/12 + 1-3/4 in), ASTM C478, DIN 4034-1, ASTM C1577
//! (span x rise x thickness); walls row by row in the table, beyond it by their rule. Reinforced concrete at 150 lb/ft3.

mod stuff;

use super::measured::{Measured, Role, measured};
use super::scan::{Kind, Scene, Unit};
use super::words::{self, Classes};
use super::{Product, show};
use crate::tables::products::precast_wall;
use crate::units::{Length, M_PER_IN};
use std::f64::consts::PI;

/// Reinforced concrete, kg/m3: 150 lb/ft3 (method, section 1).
const CONCRETE_KG_M3: f64 = 2_403.0;
/// Making tolerance of precast pieces (method, section 1).
const MAKE: f64 = 0.04;
/// What the joint of a pipe adds at most (a producer's table against the rule of the barrel).
const JOINT: f64 = 0.026;
/// ASTM C478 lets a riser's wall be one twelfth of the inside: so much lighter than the usual wall.
const THIN_RISER: f64 = 0.22;
/// Slabs of small culverts are thicker than their walls: so much is possible where no thickness is stated (from memory).
const THICK_SLAB: f64 = 0.15;
/// Parts of the same systems whose form is another.
const OTHER_FORM: &[&str] = &[
    "cone",
    "cones",
    "konus",
    "slab",
    "slabs",
    "lid",
    "lids",
    "taper",
    "tapered",
    "top",
    "bottom",
    "flat",
    "eccentric",
    "concentric",
    "elliptical",
    "arch",
    "end",
    "flared",
    "tee",
    "wye",
    "headwall",
    "wingwall",
    "half",
    "u",
    "lined",
];

/// The one precast product that a description names.
pub fn find(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    let part = |word: &str| {
        !matches!(word, "riser" | "risers" | "collar")
            && words::classes(word).any(Classes::ACCESSORY.and(Classes::MADE).and(Classes::PLATE))
    };
    let parts = scene
        .tokens
        .iter()
        .any(|token| matches!(&token.kind, Kind::Word(word) if part(word)));
    if parts || scene.says(OTHER_FORM) || stuff::is_other(scene) {
        return None;
    }
    if is_riser(scene) {
        riser(scene, hint)
    } else if is_culvert(scene) {
        culvert(scene, hint)
    } else {
        pipe(scene, hint)
    }
}

fn is_riser(scene: &Scene) -> bool {
    scene.says(&["schachtring", "schachtringe", "brunnenring", "brunnenringe"])
        || scene.says(&["manhole", "mh"])
            && scene.says(&[
                "riser", "risers", "ring", "rings", "section", "sections", "barrel", "barrels",
            ])
}

fn is_culvert(scene: &Scene) -> bool {
    scene.says(&["box"]) && scene.says(&["culvert", "culverts"])
        || scene.says(&["rahmendurchlass", "dalot", "dalots"])
}

/// The one size of a role; the error says that two differ.
fn of_role(sizes: &[Measured], role: Role) -> Result<Option<Measured>, ()> {
    let mut of = sizes.iter().filter(|size| size.role == Some(role));
    let first = of.next().copied();
    if of.next().is_some() {
        Err(())
    } else {
        Ok(first)
    }
}

/// A tube of concrete between inside diameter and wall: kg/m and outside diameter.
fn ring(inside: Length, wall: Length) -> (f64, Length) {
    let area = PI * (inside + wall).m() * wall.m();
    (area * CONCRETE_KG_M3, inside + wall * 2.0)
}

fn in_text(length: Length) -> String {
    show::inches(length.inches())
}

/// A figure of the table in metres.
fn scale(unit: &str) -> f64 {
    if unit == "in" { M_PER_IN } else { 1e-3 }
}

/// pi (D + t) t x 150 lb/ft3 with the wall of its class; where none is stated B, the usual one, with A and C as bounds.
fn pipe(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    let reinforced = scene.says(&["reinforced"]) && scene.says(stuff::CONCRETE);
    if !(scene.says(&["rcp"]) || reinforced && scene.classes.any(Classes::PIPE)) {
        return None;
    }
    let sizes = measured(scene);
    if of_role(&sizes, Role::Outside).ok()?.is_some() {
        return None;
    }
    let beside = |size: &Measured| {
        let named = |at: Option<usize>| {
            at.and_then(|at| scene.word(at))
                .is_some_and(|word| matches!(word, "rcp" | "pipe" | "pipes"))
        };
        size.beside.into_iter().any(named)
    };
    let inside_in = sizes.iter().find_map(|size| {
        let inch = size.dim.unit == Some(Unit::Inch)
            || (size.dim.unit.is_none() && beside(size) && hint != Some(true));
        let plausible = (12.0..=144.0).contains(&size.dim.value());
        (inch && plausible && matches!(size.role, None | Some(Role::Inside)))
            .then(|| size.dim.value())
    })?;
    let inside = Length::from_in(inside_in);
    let by_class = |class: &str| {
        let row = precast_wall(&format!("pipe wall {class}"), inside_in, "in");
        let rule = inside_in / 12.0
            + match class {
                "A" => 0.0,
                "B" => 1.0,
                _ => 1.75,
            };
        (Length::from_in(row.map_or(rule, |row| row.wall)), row)
    };
    let class = wall_class(scene);
    let stated = of_role(&sizes, Role::Wall)
        .ok()?
        .and_then(|size| size.length(Some(M_PER_IN)));
    let ((wall, row), name) = match (class, stated) {
        (Some(class), _) => (by_class(class), format!("wall {class}")),
        (None, Some(wall)) => ((wall, None), format!("wall {} in", in_text(wall))),
        (None, None) => (by_class("B"), "wall B".to_string()),
    };
    let (kg_per_m, outside) = ring(inside, wall);
    let designation = format!("RCP {} in {name}", show::figure(inside_in));
    let mut product = Product {
        length: along(&sizes),
        outline: Some((outside, outside)),
        working: format!(
            "{designation} is {} in outside: {}",
            show::figure(outside.inches()),
            show::per_metre(kg_per_m)
        ),
        source: row.map_or("ASTM C76 wall rule", |row| row.source.as_str()),
        extrapolated: row.is_none(),
        ..concrete_product("RCP", designation, kg_per_m)
    };
    product.make_high += JOINT;
    if class.is_none() && stated.is_none() {
        let [light, heavy] = ["A", "C"].map(|class| ring(inside, by_class(class).0).0);
        product.make_low = (1.0 - (1.0 - MAKE) * light / kg_per_m).min(0.45);
        product.make_high = ((1.0 + MAKE + JOINT) * heavy / kg_per_m - 1.0).min(0.45);
        product
            .working
            .push_str("; its wall class is not stated, A to C are possible");
    }
    Some(product)
}

/// "wall B", "B wall".
fn wall_class(scene: &Scene) -> Option<&'static str> {
    (0..scene.tokens.len()).find_map(|at| {
        let letter = |word: &str| {
            ["A", "B", "C"]
                .into_iter()
                .find(|class| class.eq_ignore_ascii_case(word))
        };
        match (scene.word(at)?, scene.word(scene.after_joiner(at + 1))?) {
            ("wall", class) | (class, "wall") => letter(class),
            _ => None,
        }
    })
}

/// The length along the piece: by its label, else the one in feet or metres.
fn along(sizes: &[Measured]) -> Option<Length> {
    let long = |size: &&Measured| {
        size.role.is_none() && matches!(size.dim.unit, Some(Unit::Foot | Unit::Metre))
    };
    let labelled = of_role(sizes, Role::Length).ok()?;
    labelled
        .or_else(|| sizes.iter().rfind(long).copied())?
        .length(None)
}

/// Metres a unit of the bare figures: millimetres from 200 up; below, inches of a US list or beside an inch or foot mark.
fn bare_unit(sizes: &[Measured], hint: Option<bool>) -> Option<f64> {
    let us = sizes
        .iter()
        .any(|size| matches!(size.dim.unit, Some(Unit::Inch | Unit::Foot)));
    let bare = sizes
        .iter()
        .filter(|size| size.dim.unit.is_none())
        .map(|size| size.dim.value());
    let largest = bare.fold(0.0, f64::max);
    if largest >= 200.0 && !us {
        Some(1e-3)
    } else if us || hint == Some(false) {
        Some(M_PER_IN)
    } else {
        None
    }
}

/// A ring of a shaft: inside diameter, height, and the wall of the table where none is stated.
fn riser(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    let sizes = measured(scene);
    if of_role(&sizes, Role::Outside).ok()?.is_some() {
        return None;
    }
    let bare = bare_unit(&sizes, hint);
    let mut inside = of_role(&sizes, Role::Inside).ok()?;
    let mut wall = of_role(&sizes, Role::Wall).ok()?;
    let mut height = of_role(&sizes, Role::Length).ok()?;
    for size in sizes.iter().filter(|size| size.role.is_none()) {
        let thin = |inside: Measured| {
            size.length(bare)
                .zip(inside.length(bare))
                .is_some_and(|(one, all)| one.m() * 5.0 <= all.m())
        };
        let slot = match inside {
            None => &mut inside,
            Some(inside) if wall.is_none() && thin(inside) => &mut wall,
            Some(_) if height.is_none() => &mut height,
            Some(_) => return None,
        };
        *slot = Some(*size);
    }
    let within = inside?.length(bare)?;
    let metric = inside?.dim.unit.map_or(bare == Some(1e-3), |unit| {
        !matches!(unit, Unit::Inch | Unit::Foot)
    });
    let unit = if metric { "mm" } else { "in" };
    let named = (within.m() / scale(unit)).round();
    let row = precast_wall("manhole riser", named, unit);
    let (stated, usual) = (
        wall.and_then(|wall| wall.length(bare)),
        row.map(|row| Length::from_m(row.wall * scale(unit))),
    );
    // ASTM C478: the wall of the C76 pipe B is the usual one.
    let rule = (!metric).then(|| Length::from_in(named / 12.0 + 1.0));
    let wall = stated.or(usual).or(rule)?;
    if !(0.6..=3.7).contains(&within.m()) || wall.m() * 5.0 > within.m() {
        return None;
    }
    let (kg_per_m, outside) = ring(within, wall);
    let designation = format!(
        "manhole riser {} {unit} wall {} {unit}",
        show::figure(named),
        show::figure(wall.m() / scale(unit))
    );
    let make_low = if stated.is_none() { THIN_RISER } else { MAKE };
    Some(Product {
        length: height.and_then(|height| height.length(bare)),
        outline: Some((outside, outside)),
        working: format!(
            "{designation} by inside and wall: {}",
            show::per_metre(kg_per_m)
        ),
        source: match (row, stated) {
            (Some(row), None) => row.source.as_str(),
            _ => "rule of the ring, reinforced concrete at 150 lb/ft3",
        },
        extrapolated: row.is_none() || stated.is_some(),
        make_low,
        ..concrete_product("manhole riser", designation, kg_per_m)
    })
}

/// Span x rise x thickness, with a haunch of the wall's thickness in each corner.
fn culvert(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    let sizes = measured(scene);
    let free: Vec<&Measured> = sizes.iter().filter(|size| size.role.is_none()).collect();
    let (first, second) = (free.first()?, free.get(1)?);
    let bare = bare_unit(&sizes, hint);
    // The name counts span and rise in feet: "8x4x8" is 8 ft by 4 ft by 8 in.
    let wide = |size: &Measured| match bare {
        Some(M_PER_IN) if size.dim.value() <= 16.0 => size.length(Some(12.0 * M_PER_IN)),
        _ => size.length(bare),
    };
    let (span, rise) = (wide(first)?, wide(second)?);
    let usual = precast_wall("box culvert", (span.inches() * 10.0).round() / 10.0, "in");
    let labelled = of_role(&sizes, Role::Wall)
        .ok()?
        .map(|wall| wall.length(bare));
    let third = free.get(2).map(|size| (size, size.length(bare)));
    let is_wall = |length: Length| length.m() * 4.0 <= span.m().min(rise.m());
    let (wall, rest) = match (labelled, third) {
        (Some(wall), _) => (Some(wall?), 2),
        // A bare third figure may be a length in feet; the thickness that belongs to the span is meant.
        (None, Some((size, Some(length)))) if size.dim.unit.is_none() && bare == Some(M_PER_IN) => {
            usual.filter(|row| (row.wall - length.inches()).abs() < 0.01)?;
            (Some(length), 3)
        }
        (None, Some((_, Some(length)))) if is_wall(length) => (Some(length), 3),
        _ => (None, 2),
    };
    let stated = wall.is_some();
    let wall = wall.or_else(|| usual.map(|row| Length::from_in(row.wall)))?;
    if !(0.6..=5.0).contains(&span.m())
        || !(0.5..=5.0).contains(&rise.m())
        || !is_wall(wall)
        || wall.m() < 0.07
    {
        return None;
    }
    let labelled = of_role(&sizes, Role::Length).ok()?;
    let length = labelled
        .as_ref()
        .or(free.get(rest).copied())
        .and_then(|size| match size.dim.unit {
            None if bare == Some(M_PER_IN) => None,
            _ => size.length(bare),
        });
    let (width, height) = (span + wall * 2.0, rise + wall * 2.0);
    let area = width.m() * height.m() - span.m() * rise.m() + 2.0 * wall.m().powi(2);
    let kg_per_m = area * CONCRETE_KG_M3;
    let feet = bare != Some(1e-3)
        && first
            .dim
            .unit
            .is_none_or(|unit| matches!(unit, Unit::Inch | Unit::Foot));
    let designation = if feet {
        format!(
            "box culvert {}x{} ft wall {} in",
            show::figure(span.inches() / 12.0),
            show::figure(rise.inches() / 12.0),
            in_text(wall)
        )
    } else {
        format!(
            "box culvert {}x{} mm wall {} mm",
            show::figure(span.mm()),
            show::figure(rise.mm()),
            show::figure(wall.mm())
        )
    };
    let make_high = if stated { MAKE } else { MAKE + THICK_SLAB };
    Some(Product {
        length,
        outline: Some((height, width)),
        working: format!(
            "{designation} by its section: {}",
            show::per_metre(kg_per_m)
        ),
        source: "ASTM C1577 names span, rise and thickness; its section with four haunches at 150 lb/ft3",
        extrapolated: true,
        make_high,
        ..concrete_product("box culvert", designation, kg_per_m)
    })
}

fn concrete_product(family: &'static str, designation: String, kg_per_m: f64) -> Product {
    Product {
        material: Some("reinforced concrete"),
        ..Product::steel(family, "concrete pipe", designation, kg_per_m, MAKE)
    }
}
