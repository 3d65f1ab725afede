//! The published masses of the reference sheet, row by row: recognise(designation) gives each within its tolerance.

use super::testing::recognise;
use super::{KG_M_PER_LB_FT, Measure};
use serde::Deserialize;

/// Published masses of sections, plates and bars with the percent by which the rule may miss them.
const CHECKS: &str = include_str!("../../tables/products/section-checks.csv");

#[derive(Deserialize)]
struct Check {
    family: String,
    designation: String,
    dim_unit: String,
    mass_kg_m: f64,
    tolerance_pct: Option<f64>,
    source: String,
}

#[test]
fn every_published_section_is_recognised_with_its_mass() {
    let rows: Vec<Check> = csv::Reader::from_reader(CHECKS.as_bytes())
        .deserialize()
        .map(|row| row.expect("a row"))
        .collect();
    assert_eq!(rows.len(), 154);
    let mut wrong = Vec::new();
    for row in &rows {
        let metric = row.dim_unit == "mm";
        let Some(product) = recognise(&row.designation, Some(metric)) else {
            wrong.push(format!(
                "{} {}: not recognised",
                row.family, row.designation
            ));
            continue;
        };
        let Measure::PerLength { kg_per_m } = product.measure else {
            wrong.push(format!("{}: {:?}", row.designation, product.measure));
            continue;
        };
        // The sheet rounds lb/ft to three figures and kg/m to two places.
        let tolerance = row.tolerance_pct.unwrap_or(0.0) / 100.0 + 0.003;
        if (kg_per_m / row.mass_kg_m - 1.0).abs() > tolerance {
            wrong.push(format!(
                "{} {}: {kg_per_m:.3} against {} ({})",
                row.family, row.designation, row.mass_kg_m, row.source
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn the_makers_tolerance_holds_every_published_mass() {
    for row in csv::Reader::from_reader(CHECKS.as_bytes())
        .deserialize::<Check>()
        .map(|row| row.expect("a row"))
    {
        let product = recognise(&row.designation, Some(row.dim_unit == "mm")).expect("recognised");
        let Measure::PerLength { kg_per_m } = product.measure else {
            panic!("{}", row.designation)
        };
        let (low, high) = (
            kg_per_m * (1.0 - product.make_low),
            kg_per_m * (1.0 + product.make_high),
        );
        assert!(
            (low * 0.999..=high * 1.001).contains(&row.mass_kg_m),
            "{}: {low}..{high} {}",
            row.designation,
            row.mass_kg_m
        );
        assert!(
            !product.source.is_empty() && !product.working.is_empty(),
            "{}",
            row.designation
        );
    }
}

#[test]
fn the_factors_are_those_of_the_reference() {
    // 1.48816 kg/m in one lb/ft (NIST Handbook 44, Appendix C).
    assert!((KG_M_PER_LB_FT - 1.488_164).abs() < 1e-6);
}
