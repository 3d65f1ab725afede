//! Angles: L4x4x1/2, L100x100x10, and the words for them. No mass is in the name: thickness x (leg + leg - thickness).
//!
//! Source: ASTM A6 (AISC table) for inch sizes; EN 10056-1 for metric ones, whose root fillet makes the published mass up to
//! 1.5 % more than the sharp-cornered rule (one-sided tolerance).

use super::inches::inches;
use super::scan::{Scene, Unit};
use super::{KG_M_PER_LB_FT, Product, SECTION, STEEL_KG_M3, show, trailing_length};
use crate::tables::products::{inch_angle, mm};
use crate::units::Length;

/// Words that say "angle" in delivery lists.
const WORDS: &[&str] = &[
    "angle",
    "angles",
    "angular",
    "angulares",
    "ángulo",
    "angulo",
    "winkel",
    "winkelstahl",
    "winkelprofil",
    "cornière",
    "cornières",
    "corniere",
    "cornieres",
    "angolare",
    "angolari",
    "cantoneira",
    "hoekstaal",
    "hoeklijn",
    "rsa",
    "l",
];
/// Words that may stand between that and the sizes.
const BETWEEN: &[&str] = &[
    "iron",
    "steel",
    "bar",
    "equal",
    "unequal",
    "section",
    "profil",
    "profile",
    "ms",
    "hr",
    "egal",
    "égale",
    "gleichschenklig",
];
/// How much the fillets add to the rule at most (reference table of published angles: 0 to 1.5 %).
const FILLETS: f64 = 0.015;

/// An angle named at this token.
pub fn named(scene: &Scene, at: usize, hint: Option<bool>) -> Option<Product> {
    let word = scene.word(at)?;
    if !WORDS.contains(&word) {
        return None;
    }
    let mut next = at + 1;
    while scene.word(next).is_some_and(|word| BETWEEN.contains(&word))
        || scene.sign(next, '-')
        || scene.sign(next, ',')
        || scene.sign(next, ':')
    {
        next += 1;
    }
    let chain = scene.chain(next)?;
    if !chain.clean {
        return None;
    }
    let dims = chain.dims.get(..3)?;
    let (length, length_unclear) = trailing_length(&chain, 3)?;
    let [a, b, t] = [dims[0].value(), dims[1].value(), dims[2].value()];
    let (long, short) = (a.max(b), a.min(b));
    if t <= 0.0 || t * 2.5 > short || long > 3.0 * short {
        return None;
    }
    let section = &chain.dims[..3];
    if section
        .iter()
        .any(|dim| !dim.unit_in(&[Unit::Inch, Unit::Millimetre]))
    {
        return None;
    }
    // Legs from 12 to 15 are neither; a metric file has no bare inches.
    let possible = |inch| {
        if inch {
            long <= 12.0 && hint != Some(true)
        } else {
            long >= 15.0
        }
    };
    let mut product = if inches(section, chain.dims.get(3), hint, possible)? {
        inch(long, short, t)
    } else {
        metric(long, short, t)
    }?;
    (product.length, product.length_unclear) = (length, length_unclear);
    Some(product)
}

fn inch(long: f64, short: f64, t: f64) -> Option<Product> {
    let row = inch_angle(long, short, t);
    let lb_ft = row.map_or(t * (long + short - t) * 3.4028, |row| row.mass_lb_ft);
    // No angle is thinner than 1/8 in or has a leg above 12 in; less or more is a sheet profile or another unit.
    if !(0.12..=1.5).contains(&t) || long > 12.0 {
        return None;
    }
    let kg_per_m = lb_ft * KG_M_PER_LB_FT;
    let designation = format!(
        "L{}x{}x{}",
        show::inches(long),
        show::inches(short),
        show::inches(t)
    );
    let mut product = Product {
        outline: Some((Length::from_in(long), Length::from_in(short))),
        working: format!(
            "{designation} has {} lb/ft ({})",
            show::figure(lb_ft),
            show::per_metre(kg_per_m)
        ),
        source: row.map_or(
            "ASTM A6: thickness x (leg + leg - thickness) at 490 lb/ft3",
            |row| row.source.as_str(),
        ),
        extrapolated: row.is_none(),
        ..Product::steel("L", "section", designation, kg_per_m, SECTION)
    };
    if row.is_none() {
        product.make_high += FILLETS;
    }
    Some(product)
}

/// Legs and root radius of equal angles, mm (EN 10056-1, from memory; they give the areas of the library's table).
const ROOTS: &[(f64, f64)] = &[
    (20.0, 3.5),
    (25.0, 3.5),
    (30.0, 5.0),
    (40.0, 6.0),
    (45.0, 7.0),
    (50.0, 7.0),
    (60.0, 8.0),
    (70.0, 9.0),
    (80.0, 10.0),
    (90.0, 11.0),
    (100.0, 12.0),
    (120.0, 13.0),
    (150.0, 16.0),
    (200.0, 18.0),
];

fn metric(long: f64, short: f64, t: f64) -> Option<Product> {
    if !(2.0..=35.0).contains(&t) || long > 300.0 {
        return None;
    }
    let root = ROOTS
        .iter()
        .find(|(leg, _)| long == short && *leg == long)
        .map(|(_, root)| *root);
    // A root radius and two of half of it at the toes.
    let corners = root.map_or(0.0, |root| {
        (1.0 - std::f64::consts::FRAC_PI_4) * root * root / 2.0
    });
    let kg_per_m = (t * (long + short - t) + corners) * 1e-6 * STEEL_KG_M3;
    let designation = format!(
        "L{}x{}x{}",
        show::figure(long),
        show::figure(short),
        show::figure(t)
    );
    let mut product = Product {
        outline: Some((mm(long), mm(short))),
        working: format!(
            "{designation} by its legs and thickness: {}",
            show::per_metre(kg_per_m)
        ),
        source: "EN 10056-1: thickness x (leg + leg - thickness) and its corners, radii from memory, at 7,850 kg/m3",
        extrapolated: true,
        ..Product::steel("L", "section", designation, kg_per_m, SECTION)
    };
    if root.is_none() {
        product.make_high += FILLETS;
    }
    Some(product)
}
