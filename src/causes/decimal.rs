//! `decimal`: the decimal sign stands one or two places off.
//!
//! Always possible: D = 10^+-1 or 10^+-2 times E. A thousand is not here: that is `ton-scale`, which also wins where both fit.

use super::{Candidate, Hypothesis, Slip};
use crate::units::show;

/// See the module.
pub(super) struct Decimal;

impl Hypothesis for Decimal {
    fn kind(&self) -> &'static str {
        "decimal"
    }

    fn ask(&self) -> &'static str {
        "ask where the decimal sign stands"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        [0.01, 0.1, 10.0, 100.0]
            .into_iter()
            .map(|factor| {
                let reading = format!(
                    "{} {}",
                    show::figure(slip.figure * factor),
                    slip.unit.symbol()
                );
                Candidate::of_weight(slip.declared * factor, reading)
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn a_place_off() {
        check(
            "decimal",
            &[
                // Geometry x 7,850 kg/m3: 48 gussets of 450 x 300 x 15 mm weigh 763 kg.
                "Gusset plate | steel | 48 | 450 x 300 x 15 mm | 7,630 kg",
                // EN 10365: UB 203x133x25, 12 pieces of 6 m weigh 1,807 kg.
                "UB 203x133x25 | - | 12 | l 6000 mm | 180.7 kg",
                // The same, two places.
                "UB 203x133x25 | - | 1 | l 6000 mm | 15,060 kg",
                // AISC Manual: W10x33, 33 lb/ft x 20 ft x 3 = 1,980 lb.
                "W10X33 | - | 3 | l 20 ft | 198 lb",
            ],
            &[
                // A thousand is a ton.
                "UB 203x133x25 | - | 3 | l 6000 mm | 0.452 kg",
                // Ten pieces: either may be, and one piece for all is the commoner slip.
                "UB 203x133x25 | - | 10 | l 6000 mm | 150.6 kg",
                // Five times.
                "UB 203x133x25 | - | 3 | l 6000 mm | 2,259 kg",
                // Kilograms for pounds.
                "UB 203x133x25 | - | 3 | l 6000 mm | 452 lb",
            ],
        );
    }
}
