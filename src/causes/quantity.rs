//! `quantity`: the weight stands for another number of pieces than the line counts.
//!
//! Possible when another number is there: in the description ("60 PCS") or as a package count. D = n'/n x E. Either the line
//! has n' pieces and the weight is right, or it has the n that are counted and weighs n/n' times as much: the heavier counts.

use super::{Candidate, Hypothesis, Slip};
use crate::units::show;

/// A description that counts other pieces than the quantity column is itself half of the slip, so that it is this many times
/// as likely as on other lines; a package count stands on most lines and says nothing (invented, no source).
const COUNTED_TWICE: f64 = 8.0;

/// See the module.
pub(super) struct Quantity;

impl Hypothesis for Quantity {
    fn kind(&self) -> &'static str {
        "quantity"
    }

    fn ask(&self) -> &'static str {
        "ask how many pieces the weight is for"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let counted = f64::from(slip.pieces.max(1));
        let described = slip.counts.iter().map(|number| (*number, COUNTED_TWICE));
        let packages = slip.packages.map(|number| (number, 1.0));
        described
            .chain(packages)
            .filter(|(number, _)| *number > 0 && *number != slip.pieces)
            .map(|(number, odds)| {
                let change = f64::from(number) / counted;
                let reading = format!("the weight of {} pieces", show::figure(f64::from(number)));
                let candidate = if change > 1.0 {
                    Candidate::of_estimate(slip.declared, change, reading)
                } else {
                    Candidate::of_weight(slip.declared / change, reading)
                };
                candidate.odds(odds)
            })
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn another_number_of_pieces() {
        check(
            "quantity",
            &[
                // Geometry x 7,850 kg/m3: a plate of 1 m x 0.5 m x 10 mm weighs 39.25 kg.
                "Floor plate 36 pcs | steel | 24 | 1000 x 500 x 10 mm | 1,413 kg",
                "Floor plate 24 pcs | steel | 36 | 1000 x 500 x 10 mm | 942 kg",
                // EN 10365: UB 203x133x25 of 6 m, 150.6 kg a piece.
                "UB 203x133x25, 7 pcs | - | 4 | l 6000 mm | 1,054 kg",
                // Half of the pieces, which kilograms for pounds would explain as well: the count is on paper.
                "Floor plate 12 pcs | steel | 24 | 1000 x 500 x 10 mm | 452 kg",
            ],
            &[
                // The number is the line's own.
                "Floor plate 36 pcs | steel | 36 | 1000 x 500 x 10 mm | 942 kg",
                // No other number is there.
                "Floor plate | steel | 24 | 1000 x 500 x 10 mm | 1,413 kg",
                // The other number does not explain it; a decimal point does.
                "Floor plate 36 pcs | steel | 24 | 1000 x 500 x 10 mm | 9,420 kg",
            ],
        );
    }
}
