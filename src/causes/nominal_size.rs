//! `nominal-size`: nominal and actual size mixed up.
//!
//! Possible for lumber and pipe. A dressed 2x10 is 1-1/2 x 9-1/4 in (PS 20), so a weight worked out with the name is
//! D = 20/13.9 E; an NPS 1 pipe is 1.315 in outside (ASME B36.10M), so D = (NPS - wall) / (outside - wall) E. Sizes in columns
//! may themselves be nominal: then the weight is right, D = dressed / nominal x E, and the line weighs what is declared.

use super::{Candidate, Hypothesis, Slip};
use crate::estimate::Evidence;
use crate::tables::goods;
use crate::tables::products::dressed;
use crate::units::written::{Decimal, scan_figure};
use std::f64::consts::PI;

/// Nominal sizes of softwood lumber, in (PS 20).
const NOMINAL: [f64; 14] = [
    1.0, 1.25, 1.5, 2.0, 2.5, 3.0, 3.5, 4.0, 5.0, 6.0, 8.0, 10.0, 12.0, 14.0,
];
/// How near a size must be to a dressed or nominal one, in: millimetres are rounded (common practice, no source).
const NEAR: f64 = 0.04;

/// See the module.
pub(super) struct NominalSize;

impl Hypothesis for NominalSize {
    fn kind(&self) -> &'static str {
        "nominal-size"
    }

    fn ask(&self) -> &'static str {
        "ask whether nominal or true sizes were used"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        match (
            slip.evidence,
            slip.goods
                .and_then(goods::by_name)
                .map(|goods| goods.name.as_str()),
        ) {
            (Some(Evidence::Product), Some("lumber")) => by_name(slip, lumber(slip)),
            (Some(Evidence::Product), Some("pipe")) => by_name(slip, pipe(slip)),
            (Some(Evidence::Shape), _) if is_wood(slip) => by_sizes(slip),
            _ => Vec::new(),
        }
    }
}

fn by_name(slip: &Slip, change: Option<f64>) -> Vec<Candidate> {
    let worked_out =
        |change: f64| Candidate::of_weight(slip.declared / change, "the weight of nominal sizes");
    change
        .filter(|change| *change > 0.0 && change.is_finite())
        .map(worked_out)
        .into_iter()
        .collect()
}

/// Nominal over dressed section of a product named `2x10`.
fn lumber(slip: &Slip) -> Option<f64> {
    let (thin, wide) = slip.product.as_deref()?.split_once('x')?;
    let [_, height, width] = slip.outline?;
    let nominal =
        |text: &str| scan_figure(text, 0, Decimal::Point, false).map(|(figure, _)| figure.value);
    Some(nominal(thin)? * nominal(wide)? / (height.inches() * width.inches()))
}

/// A pipe of nominal instead of actual diameter, with the same wall, for a product named `NPS 1 SCH 40`.
fn pipe(slip: &Slip) -> Option<f64> {
    let (nominal, _) = scan_figure(
        slip.product.as_deref()?.strip_prefix("NPS ")?,
        0,
        Decimal::Point,
        false,
    )?;
    let [length, outside, _] = slip.outline?;
    let density = slip.material?.density.kg_m3();
    let (outside, area) = (outside.m(), slip.piece.kg() / (density * length.m()));
    // area = pi (outside - wall) wall, solved for the wall.
    let root = (outside * outside - 4.0 * area / PI).max(0.0).sqrt();
    let wall = (outside - root) / 2.0;
    Some((nominal.value * crate::units::M_PER_IN - wall) / (outside - wall))
}

fn is_wood(slip: &Slip) -> bool {
    slip.material
        .is_some_and(|material| material.group == "wood")
}

fn by_sizes(slip: &Slip) -> Vec<Candidate> {
    let (Some(width), Some(height)) = (slip.sizes.width, slip.sizes.height) else {
        return Vec::new();
    };
    let (one, other) = (width.length.inches(), height.length.inches());
    let (thin, wide) = (one.min(other), one.max(other));
    let mut found = Vec::new();
    if let Some((thick, across)) = nominal_of(thin, wide) {
        let change = thick * across / (thin * wide);
        found.push(Candidate::of_weight(
            slip.declared / change,
            "the weight of nominal sizes",
        ));
    }
    if let Some((thick, across)) = dressed_of(thin, wide) {
        found.push(Candidate::of_estimate(
            slip.declared,
            thick * across / (thin * wide),
            "the weight of dressed sizes",
        ));
    }
    found
}

fn sides(thin: f64) -> (&'static str, &'static str) {
    if thin > 4.0 {
        ("timber", "timber")
    } else {
        ("thickness", "width")
    }
}

/// The nominal size whose dressed size this is.
fn nominal_of(thin: f64, wide: f64) -> Option<(f64, f64)> {
    let is = |side: &str, nominal: f64, actual: f64| {
        let near = |value: f64| (value - actual).abs() <= NEAR;
        dressed(side, nominal).is_some_and(|row| near(row.dry_in) || near(row.green_in))
    };
    let (first, second) = sides(thin);
    let one = |side: &str, actual: f64| {
        NOMINAL
            .into_iter()
            .find(|nominal| is(side, *nominal, actual))
    };
    Some((one(first, thin)?, one(second, wide)?))
}

/// The dressed size of a size that is a nominal one.
fn dressed_of(thin: f64, wide: f64) -> Option<(f64, f64)> {
    let nominal = |actual: f64| {
        NOMINAL
            .into_iter()
            .find(|nominal| (nominal - actual).abs() <= NEAR)
    };
    let (thin, wide) = (nominal(thin)?, nominal(wide)?);
    let (first, second) = if thin >= 5.0 {
        ("timber", "timber")
    } else {
        ("thickness", "width")
    };
    Some((dressed(first, thin)?.dry_in, dressed(second, wide)?.dry_in))
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn nominal_and_actual() {
        check(
            "nominal-size",
            &[
                // ASME B36.10M: NPS 1/2 schedule 40 is 0.84 x 0.109 in, 0.85 lb/ft; with 1/2 in outside 0.455 lb/ft x 210 ft.
                "PIPE 1/2 SCH 40 | - | 10 | l 21 ft | 95.6 lb",
                // NPS 3/4: 1.05 x 0.113 in, 1.13 lb/ft; with 3/4 in outside 0.77 lb/ft x 210 ft.
                "PIPE 3/4 SCH 40 | - | 10 | l 21 ft | 161 lb",
                // PS 20: 1x2 is dressed 3/4 x 1-1/2 in, so that nominal sizes give 1.78 times; oak at 753 kg/m3 (USDA Wood
                // Handbook, Table 5-3a): 8 ft weigh 1.33 kg. In tonnes, as kilograms for pounds would fit wood's wide range too.
                "Stake | oak | 200 | 96 x 1.5 x 0.75 in | 0.474 t",
            ],
            &[
                // NPS 14 and up are 14 in outside: nominal is actual.
                "PIPE 14 SCH 40 | - | 1 | l 21 ft | 900 lb",
                // Steel plate of the same sizes.
                "Flat bar | steel | 200 | 96 x 1.5 x 0.75 in | 4.95 t",
                // A tenth.
                "PIPE 1/2 SCH 40 | - | 3 | l 21 ft | 5.36 lb",
            ],
        );
    }
}
