//! `line-for-piece`: the weight of the whole line stands where the weight of one piece or package should.
//!
//! Possible when there is more than one piece or package: read as a piece's the figure is multiplied, and D = pieces x E, or
//! packages x E. The same happens inside the supplier's own sheet, where the total column multiplies a line's weight again;
//! then the figure is read as the line's.

use super::{Candidate, Hypothesis, Slip};
use crate::understand::Basis;
use crate::units::show;

/// Part of the prior for a multiplication inside the supplier's sheet (invented, no source).
const MULTIPLIED_BEFORE: f64 = 0.5;

/// See the module.
pub(super) struct LineForPiece;

impl Hypothesis for LineForPiece {
    fn kind(&self) -> &'static str {
        "line-for-piece"
    }

    fn ask(&self) -> &'static str {
        "ask whether the figure is already the weight of all"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let all = |number: u32, what: &str, odds: f64| {
            (number > 1).then(|| {
                let reading = format!(
                    "the weight of all {} {what} multiplied once more",
                    show::figure(f64::from(number))
                );
                Candidate::of_weight(slip.declared / f64::from(number), reading).odds(odds)
            })
        };
        let packages = slip.packages.unwrap_or(1);
        let found = match slip.of {
            Basis::Piece => [all(slip.pieces, "pieces", 1.0), None],
            Basis::Package => [all(packages, "packages", 1.0), None],
            Basis::Line => [
                all(slip.pieces, "pieces", MULTIPLIED_BEFORE),
                all(packages, "packages", MULTIPLIED_BEFORE),
            ],
            _ => [None, None],
        };
        found.into_iter().flatten().collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn all_pieces_for_one() {
        check(
            "line-for-piece",
            &[
                // EN 10365: UB 203x133x25, 25.1 kg/m x 6 m x 12 = 1,807 kg.
                "UB 203x133x25 | - | 12 | l 6000 mm | 1,807 kg each",
                // The same multiplied in the supplier's sheet.
                "UB 203x133x25 | - | 12 | l 6000 mm | 21,686 kg",
                // Geometry x 7,850 kg/m3: 5 plates of 157 kg.
                "Floor plate | steel | 5 | 2000 x 1000 x 10 mm | 785 kg each",
                // AISC Manual: W10x33, 33 lb/ft x 20 ft x 4 = 2,640 lb.
                "W10X33 | - | 4 | l 20 ft | 2,640 lb each",
            ],
            &[
                // One piece.
                "UB 203x133x25 | - | 1 | l 6000 mm | 1,807 kg each",
                // Ten times: a decimal point.
                "UB 203x133x25 | - | 12 | l 6000 mm | 18,072 kg",
                // The opposite slip.
                "UB 203x133x25 | - | 12 | l 6000 mm | 150.6 kg",
            ],
        );
    }
}
