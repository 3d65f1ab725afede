//! `material`: the goods are of another material than stated, or the weight was worked out with another.
//!
//! Possible with shape evidence, where a density was used: D = rho'/rho x E for a material of the same group or of a near name
//! whose band does not meet the stated one's. The line would then weigh what is declared. As the supplier may as well mean
//! that only the weight was worked out wrongly, a plan never goes below the estimate for the stated material. Nearly any factor
//! is some pair of materials, so the prior is shared: most of it by everyday materials and near names, the rest by the others.

use super::{Candidate, Hypothesis, Slip};
use crate::estimate::Evidence;
use crate::tables::materials::{self, Material as Row};

/// Materials that deliveries mix up; of those that weigh the same the commonest (common practice, no source).
const EVERYDAY: [&str; 12] = [
    "aluminium",
    "brass",
    "carbon steel",
    "cast iron",
    "concrete",
    "copper",
    "HDPE",
    "lightweight concrete",
    "oak",
    "pine",
    "PVC",
    "reinforced concrete",
];
/// Their part of the prior (invented, no source).
const EVERYDAY_PART: f64 = 0.75;
/// Least likeness of two names that may be mixed up, of 1 (common practice, no source).
const NEAR_NAME: f64 = 0.7;

/// See the module.
pub(super) struct Material;

impl Hypothesis for Material {
    fn kind(&self) -> &'static str {
        "material"
    }

    fn ask(&self) -> &'static str {
        "ask what the goods are made of"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let Some(own) = slip
            .material
            .filter(|_| slip.evidence == Some(Evidence::Shape))
        else {
            return Vec::new();
        };
        let unlike = |other: &&&'static Row| other.low > own.high || other.high < own.low;
        let (likely, rare): (Vec<&Row>, Vec<&Row>) = materials::all()
            .iter()
            .filter(unlike)
            .copied()
            .filter(|other| other.group == own.group || near(own, other))
            .partition(|other| EVERYDAY.contains(&other.name) || near(own, other));
        let of = |rows: Vec<&Row>, part: f64| -> Vec<Candidate> {
            let odds = part / rows.len().max(1) as f64;
            let one = |other: &Row| {
                let reading = format!("the weight of {} instead of {}", other.name, own.name);
                Candidate::of_estimate(
                    slip.declared,
                    other.density.kg_m3() / own.density.kg_m3(),
                    reading,
                )
                .odds(odds)
            };
            rows.into_iter().map(one).collect()
        };
        [of(likely, EVERYDAY_PART), of(rare, 1.0 - EVERYDAY_PART)].concat()
    }
}

fn near(own: &Row, other: &Row) -> bool {
    strsim::normalized_damerau_levenshtein(&own.name.to_lowercase(), &other.name.to_lowercase())
        >= NEAR_NAME
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn another_material() {
        check(
            "material",
            &[
                // Geometry x 2,700 kg/m3 (EN 1999-1-1) would be 389 kg; x 7,850 kg/m3 it is 1,130 kg.
                "Sheet | aluminium | 12 | 2000 x 1000 x 6 mm | 1,130 kg",
                // The other way round.
                "Sheet | steel | 12 | 2000 x 1000 x 6 mm | 389 kg",
                // EN 1991-1-1, A.1: normal concrete 2,400 kg/m3, lightweight concrete of class LC 1.8 at 1,750 kg/m3.
                "Wall unit 1500x1000x150 | concrete | 8 | 1500 x 1000 x 150 mm | 3,150 kg",
            ],
            &[
                // A rolled section has its weight from its name: no density was used.
                "UB 203x133x25 | - | 3 | l 6000 mm | 155 kg",
                // Seventy times is no material.
                "Sheet | aluminium | 1 | 2000 x 1000 x 6 mm | 2,300 kg",
                // Kilograms for pounds.
                "Sheet | steel | 12 | 2000 x 1000 x 6 mm | 1,130 lb",
            ],
        );
    }
}
