//! Rolled shapes whose name ends in their mass per length: W12x26 (lb/ft), W310x39 (kg/m), their channels, piles and tees.
//!
//! Source: ASTM A6/A6M nominal weights as tabulated by AISC; metric twins by CISC (the first number above 60 means mm and kg/m).

use super::scan::{Scene, Unit};
use super::{KG_M_PER_LB_FT, Product, SECTION, show, trailing_length};
use crate::tables::products::{InchSection, inch_sections};
use crate::units::Length;

/// Inch depths and their metric names (CISC section tables).
const TWINS: &[(f64, f64)] = &[
    (3.0, 75.0),
    (4.0, 100.0),
    (5.0, 130.0),
    (6.0, 150.0),
    (7.0, 180.0),
    (8.0, 200.0),
    (9.0, 230.0),
    (10.0, 250.0),
    (12.0, 310.0),
    (13.0, 330.0),
    (14.0, 360.0),
    (15.0, 380.0),
    (16.0, 410.0),
    (18.0, 460.0),
    (20.0, 510.0),
    (21.0, 530.0),
    (24.0, 610.0),
    (27.0, 690.0),
    (30.0, 760.0),
    (33.0, 840.0),
    (36.0, 920.0),
    (40.0, 1000.0),
    (44.0, 1100.0),
];

/// Depths of European bearing piles, mm (EN 10365, from memory): their last number is kg/m too.
const EUROPEAN_PILES: &[f64] = &[200.0, 220.0, 260.0, 305.0, 320.0, 360.0, 400.0];

/// Family of the name, family of the table, and how many of the pieces make one of the table's (a tee is half a beam).
fn family(word: &str) -> Option<(&'static str, &'static str, f64)> {
    Some(match word {
        "w" => ("W", "W", 1.0),
        "m" => ("M", "M", 1.0),
        "s" => ("S", "S", 1.0),
        "hp" => ("HP", "HP", 1.0),
        "c" => ("C", "C", 1.0),
        "mc" => ("MC", "MC", 1.0),
        "wt" => ("WT", "W", 2.0),
        "mt" => ("MT", "M", 2.0),
        "st" => ("ST", "S", 2.0),
        _ => return None,
    })
}

/// A shape named at this token.
pub fn named(scene: &Scene, at: usize, hint: Option<bool>) -> Option<Product> {
    let (name, table, parts) = family(scene.word(at)?)?;
    let figures = scene.after_joiner(at + 1);
    let chain = scene.chain(figures)?;
    let (depth, mass) = (*chain.dims.first()?, *chain.dims.get(1)?);
    let (length, length_unclear) = trailing_length(&chain, 2)?;
    let metric = depth.value() > 60.0;
    let masses = if metric {
        [Unit::Kilogram; 1]
    } else {
        [Unit::Pound; 1]
    };
    let depths = if metric { Unit::Millimetre } else { Unit::Inch };
    if !chain.clean
        || depth.number.fraction
        || mass.number.fraction
        || !mass.unit_in(&masses)
        || !depth.unit_in(&[depths])
    {
        return None;
    }
    // M12x10 and M4x6 are screws; the beam's name is believed with a broken weight, away from metric files.
    if name == "M" && !metric && (!mass.number.decimals || hint == Some(true)) {
        return None;
    }
    let glued = scene.tokens.get(at + 1).is_some_and(|token| token.glued);
    let mut product = if metric {
        metric_shape(name, table, parts, depth.value(), mass.value(), glued)?
    } else {
        inch_shape(name, table, parts, depth.value(), mass.value(), glued)?
    };
    (product.length, product.length_unclear) = (length, length_unclear);
    Some(product)
}

fn inch_shape(
    name: &'static str,
    table: &'static str,
    parts: f64,
    depth: f64,
    mass: f64,
    glued: bool,
) -> Option<Product> {
    let row = inch_sections(table, depth * parts)
        .iter()
        .find(|row| (row.mass_lb_ft - mass * parts).abs() < 1e-6);
    let kg_per_m = mass * KG_M_PER_LB_FT;
    let designation = format!("{name}{}x{}", show::figure(depth), show::figure(mass));
    let working = format!(
        "the last number of {designation} is {} lb/ft ({})",
        show::figure(mass),
        show::per_metre(kg_per_m)
    );
    match row {
        Some(row) => Some(Product {
            outline: Some(outline(row, parts)),
            working,
            source: row.source.as_str(),
            ..Product::steel(name, "section", designation, kg_per_m, SECTION)
        }),
        // C, S and M are short words: bolts, grades and part numbers look like them. Only their table is believed.
        None if glued && matches!(name, "W" | "WT" | "HP" | "MC") => {
            plausible(inch_sections(table, depth * parts), mass * parts).then(|| Product {
                working,
                source: "ASTM A6/A6M: the last number is the nominal weight per foot",
                extrapolated: true,
                ..Product::steel(name, "section", designation, kg_per_m, SECTION)
            })
        }
        None => None,
    }
}

fn metric_shape(
    name: &'static str,
    table: &'static str,
    parts: f64,
    depth: f64,
    mass: f64,
    glued: bool,
) -> Option<Product> {
    let rows = twin(depth, parts).map_or(&[][..], |inches| inch_sections(table, inches));
    let row = rows
        .iter()
        .find(|row| (row.mass_lb_ft * KG_M_PER_LB_FT / parts - mass).abs() <= 0.6);
    let designation = format!("{name}{}x{}", show::figure(depth), show::figure(mass));
    let working = format!(
        "the last number of {designation} is {} kg/m",
        show::figure(mass)
    );
    let rule = name == "HP" && EUROPEAN_PILES.contains(&depth) && (30.0..=250.0).contains(&mass)
        || matches!(name, "W" | "HP") && plausible(rows, mass / KG_M_PER_LB_FT);
    match row {
        Some(row) => Some(Product {
            outline: Some(outline(row, parts)),
            working,
            source: "CISC section tables: metric name of the ASTM A6 shape",
            ..Product::steel(name, "section", designation, mass, SECTION)
        }),
        None if (glued || name == "HP") && rule => Some(Product {
            working,
            source: "CISC section tables and EN 10365: the last number is kg/m",
            extrapolated: true,
            ..Product::steel(name, "section", designation, mass, SECTION)
        }),
        None => None,
    }
}

/// Nominal inch depth of the whole shape behind a metric depth; a tee is named by half of it, rounded to 5 mm.
fn twin(depth: f64, parts: f64) -> Option<f64> {
    TWINS
        .iter()
        .find(|(_, metric)| (metric / parts - depth).abs() <= if parts > 1.0 { 2.5 } else { 0.0 })
        .map(|(inches, _)| *inches)
}

/// Between four fifths of the lightest and 1.15 times the heaviest shape of that depth: more is a slip of the pen or another thing.
fn plausible(rows: &[&InchSection], lb_ft: f64) -> bool {
    let (low, high) = rows.iter().fold((f64::MAX, 0.0f64), |(low, high), row| {
        (low.min(row.mass_lb_ft), high.max(row.mass_lb_ft))
    });
    (low * 0.8..=high * 1.15).contains(&lb_ft)
}

fn outline(row: &InchSection, parts: f64) -> (Length, Length) {
    (
        Length::from_in(row.depth_in / parts),
        Length::from_in(row.width_in),
    )
}
