//! `kg-lb`: the figure stands in the other of the two units, or was converted the wrong way.
//!
//! Possible when the figure is read in kilograms or pounds. A pound is 0.45359237 kg, so D = 2.20462 E where pounds are read
//! as kilograms and D = E / 2.20462 the other way: a supplier's system prints one unit and the heading, the template or the
//! site's default says the other. The inverse (a right figure converted once more, away from its unit) is rarer.

use super::{Candidate, Hypothesis, Slip};
use crate::understand::MassUnit;
use crate::units::{KG_PER_LB, show};

/// Part of the prior for a conversion the wrong way (invented, no source).
const WRONG_WAY: f64 = 0.2;

/// See the module.
pub(super) struct KgLb;

impl Hypothesis for KgLb {
    fn kind(&self) -> &'static str {
        "kg-lb"
    }

    fn ask(&self) -> &'static str {
        "ask whether the figure is in that unit"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let (other, ratio) = match slip.unit {
            MassUnit::Kg => (MassUnit::Lb, KG_PER_LB),
            MassUnit::Lb => (MassUnit::Kg, 1.0 / KG_PER_LB),
            _ => return Vec::new(),
        };
        vec![
            Candidate::of_weight(
                slip.declared * ratio,
                format!("{} {}", show::figure(slip.figure), other.symbol()),
            ),
            Candidate::of_weight(
                slip.declared / ratio,
                "a weight converted the wrong way between kg and lb",
            )
            .odds(WRONG_WAY),
        ]
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn kilograms_and_pounds() {
        check(
            "kg-lb",
            &[
                // AISC Manual: W10x33 is 33 lb/ft; 8 pieces of 30 ft weigh 7,920 lb = 3,592 kg.
                "W10X33 | - | 8 | l 30 ft | 3,592 lb",
                // EN 10365: UB 203x133x25 is 25.1 kg/m; 10 pieces of 6 m weigh 1,506 kg = 3,320 lb.
                "UB 203x133x25 | - | 10 | l 6000 mm | 3,320 kg",
                // Geometry x 7,850 kg/m3 (EN 10365): plates of 2 x 1 m x 10 mm weigh 157 kg; 5 weigh 785 kg.
                "Floor plate | steel | 5 | 2000 x 1000 x 10 mm | 785 lb",
                // ASTM C76 and 150 lb/ft3: OD 30, ID 24 in, 8 ft weighs 2,121 lb = 962 kg.
                "Concrete pipe | reinforced concrete | 1 | od 30 id 24 l 96 in | 962 lb",
            ],
            &[
                // Two pieces, the weight of one: a factor of 2, not 2.2 (UB 203x133x25, as above).
                "UB 203x133x25 | - | 2 | l 6000 mm | 150.6 kg",
                // Ten times the weight.
                "UB 203x133x25 | - | 10 | l 6000 mm | 15,060 kg",
                // Written in tonnes: the unit cannot be exchanged for pounds (0.683 t is 1,506 kg / 2.2).
                "UB 203x133x25 | - | 10 | l 6000 mm | 0.683 t",
                // A factor of 1.55 that no exchange of units explains.
                "UB 203x133x25 | - | 3 | l 6000 mm | 700 kg",
            ],
        );
    }
}
