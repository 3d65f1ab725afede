//! `per-length`: the weight of one metre or one foot stands where the weight of the piece or the line should.
//!
//! Possible when a length is known and the goods are long (plates and blocks are not sold by the metre): D = E / length in metres (kilograms) or feet (pounds), of every piece; a figure read as
//! the line's may also be the metre of one piece, D = E / (length x pieces). Section and cable tables give kg/m and lb/ft, and
//! somebody copies that column.

use super::{Candidate, Hypothesis, Slip};
use crate::understand::{Basis, MassUnit};
use crate::units::M_PER_IN;

/// Goods at least this many times as long as wide are weighed by the metre (common practice, no source).
const LONG: f64 = 4.0;

/// See the module.
pub(super) struct PerLength;

impl Hypothesis for PerLength {
    fn kind(&self) -> &'static str {
        "per-length"
    }

    fn ask(&self) -> &'static str {
        "ask whether the figure is the weight of a length"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let wide = slip.sizes.width.map(|size| size.length);
        let long = slip
            .length()
            .filter(|length| wide.is_none_or(|wide| (wide * LONG).fits(*length)));
        let Some(length) = long else {
            return Vec::new();
        };
        let (number, name) = match slip.unit {
            MassUnit::Kg => (length.m(), "metre"),
            MassUnit::Lb => (length.m() / (12.0 * M_PER_IN), "foot"),
            _ => return Vec::new(),
        };
        let pieces = f64::from(slip.pieces);
        let mut found = vec![Candidate::of_weight(
            slip.declared * number,
            format!("the weight of one {name} of every piece"),
        )];
        if slip.of == Basis::Line && slip.pieces > 1 {
            found.push(Candidate::of_weight(
                slip.declared * number * pieces,
                format!("the weight of one {name} of one piece"),
            ));
        }
        found
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn one_metre_or_foot() {
        check(
            "per-length",
            &[
                // EN 10365: UB 203x133x25 is 25.1 kg/m; 4 pieces of 7.5 m.
                "UB 203x133x25 | - | 4 | l 7500 mm | 25.1 kg",
                // The same under a heading of the piece's weight.
                "UB 203x133x25 | - | 4 | l 7500 mm | 25.1 kg each",
                // AISC Manual: W10x33 is 33 lb/ft; 30 ft.
                "W10X33 | - | 8 | l 30 ft | 33 lb each",
                // UIC 861-3: 60E1 is 60.21 kg/m; 18 m.
                "Rail 60E1 | - | 1 | l 18000 mm | 60.2 kg",
            ],
            &[
                // No length is stated.
                "55 gal steel drum, diesel | diesel | 4 | - | 60 kg",
                // Of one piece, not of one metre (7 pieces of 12 m).
                "UB 203x133x25 | - | 7 | l 12000 mm | 301 kg",
                // In tonnes nobody writes a metre's weight.
                "UB 203x133x25 | - | 4 | l 7500 mm | 0.0251 t",
                // Pounds for kilograms on goods 2.2 m long would fit both ways: kilograms are commoner.
                "Flat bar | steel | 40 | 2200 x 100 x 10 mm | 691 lb",
                // A plate is not sold by the metre (3 m; its third is aluminium's weight).
                "Base plate | steel | 8 | 3000 x 1500 x 10 mm | 942 kg",
            ],
        );
    }
}
