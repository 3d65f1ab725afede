//! `piece-for-line`: the weight of one piece, or of one package, stands where the line's weight should.
//!
//! Possible when the figure is read as the line's and there is more than one piece or package: D = E / pieces, or
//! E / packages. Suppliers fill a total column from the article master, which knows one piece. A figure read as a package's
//! may likewise be one piece's: D = E x packages / pieces.

use super::{Candidate, Hypothesis, Slip};
use crate::understand::Basis;
use crate::units::show;

/// See the module.
pub(super) struct PieceForLine;

impl Hypothesis for PieceForLine {
    fn kind(&self) -> &'static str {
        "piece-for-line"
    }

    fn ask(&self) -> &'static str {
        "ask whether the figure is the weight of one or of all"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let pieces = f64::from(slip.pieces);
        let packages = f64::from(slip.packages.unwrap_or(1));
        let one_of = |number: f64, what: &str| {
            (number > 1.0).then(|| {
                let reading = format!("the weight of one of {} {what}", show::figure(number));
                Candidate::of_weight(slip.declared * number, reading)
            })
        };
        let found = match slip.of {
            Basis::Line => [one_of(pieces, "pieces"), one_of(packages, "packages")],
            Basis::Package if packages >= 1.0 => {
                [one_of(pieces / packages, "pieces of a package"), None]
            }
            _ => [None, None],
        };
        found.into_iter().flatten().collect()
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn one_piece_for_all() {
        check(
            "piece-for-line",
            &[
                // EN 10365: UB 203x133x25, 25.1 kg/m x 6 m.
                "UB 203x133x25 | - | 12 | l 6000 mm | 150.6 kg",
                // Geometry x 7,850 kg/m3: one round bar of 25 mm and 4 m is 15.4 kg.
                "Round bar | steel | 80 | od 25 l 4000 mm | 15.4 kg",
                // AISC Manual: HSS6x6x1/4 is 19.02 lb/ft, 40 ft are 761 lb.
                "HSS6X6X1/4 | - | 6 | l 40 ft | 761 lb",
                // One of three crates with four plates of 157 kg each (geometry x 7,850 kg/m3).
                "Floor plate | steel | 12 in 3 crates | 2000 x 1000 x 10 mm | 660 kg gross",
            ],
            &[
                // A single piece has no other.
                "UB 203x133x25 | - | 1 | l 6000 mm | 12.6 kg",
                // The piece's weight under a piece's heading is right.
                "UB 203x133x25 | - | 12 | l 6000 mm | 1,807 kg each",
                // Pounds and kilograms: 2.2, not 12.
                "UB 203x133x25 | - | 12 | l 6000 mm | 1,807 lb",
                // A decimal point: 12 pieces, a factor of 10.
                "UB 203x133x25 | - | 12 | l 6000 mm | 180.7 kg",
            ],
        );
    }
}
