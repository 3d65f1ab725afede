//! `ton-scale`: a figure in tons read as kilograms or pounds, or the other way.
//!
//! Always possible: D = E / 1,000, / 2,000 or / 2,240 and the inverses (tonne, short ton, long ton; NIST Handbook 44, App. C),
//! carried into the unit that the figure is read in, so that tonnes under a heading of pounds count too. Preferred over a
//! decimal place where both fit.

use super::{Candidate, Hypothesis, Slip};
use crate::understand::MassUnit;
use crate::units::show;

const TONS: [MassUnit; 3] = [MassUnit::Tonne, MassUnit::ShortTon, MassUnit::LongTon];
const SMALL: [MassUnit; 2] = [MassUnit::Kg, MassUnit::Lb];

/// Part of the prior for a conversion the wrong way, which nobody's template prints (invented, no source).
const WRONG_WAY: f64 = 0.1;

/// See the module.
pub(super) struct TonScale;

impl Hypothesis for TonScale {
    fn kind(&self) -> &'static str {
        "ton-scale"
    }

    fn ask(&self) -> &'static str {
        "ask whether tons or a smaller unit were meant"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let others: &[MassUnit] = if TONS.contains(&slip.unit) {
            &SMALL
        } else {
            &TONS
        };
        let read_as = others.iter().map(|other| {
            let reading = format!("{} {}", show::figure(slip.figure), in_words(*other));
            Candidate::of_weight(slip.declared * (other.kg() / slip.unit.kg()), reading)
        });
        let converted = others.iter().map(|other| {
            let reading = format!(
                "a weight converted the wrong way between {} and {}",
                slip.unit.symbol(),
                other.symbol()
            );
            Candidate::of_weight(slip.declared * (slip.unit.kg() / other.kg()), reading)
                .odds(WRONG_WAY)
        });
        read_as.chain(converted).collect()
    }
}

fn in_words(unit: MassUnit) -> &'static str {
    match unit {
        MassUnit::ShortTon => "short tons",
        MassUnit::LongTon => "long tons",
        other => other.symbol(),
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn tons_and_pounds() {
        check(
            "ton-scale",
            &[
                // EN 10365: PFC 200x90x30 is 29.7 kg/m; 18 pieces of 6 m weigh 3,208 kg.
                "PFC 200x90x30 | - | 18 | l 6000 mm | 3,208 t",
                // The same in tonnes under a heading of kilograms.
                "PFC 200x90x30 | - | 18 | l 6000 mm | 3.208 kg",
                // AISC Manual: W10x33, 33 lb/ft x 40 ft x 10 = 13,200 lb = 6.6 short tons.
                "W10X33 | - | 10 | l 40 ft | 6.6 lb",
                // The same converted twice.
                "W10X33 | - | 1 | l 40 ft | 2,640,000 lb",
            ],
            &[
                // A hundred is a decimal point.
                "PFC 200x90x30 | - | 18 | l 6000 mm | 32.08 kg",
                // Pounds in tonnes: no ton is missing.
                "PFC 200x90x30 | - | 18 | l 6000 mm | 3,208 lb",
                // Sizes in centimetres under a heading of millimetres: a thousand times, and the weight is right.
                "Steel sheet | steel | 63 | 250 x 125 x 0.1 mm | 1,545 kg",
                // 600 pieces, the weight of one.
                "Gusset plate | steel | 600 | 450 x 300 x 15 mm | 15.9 kg",
            ],
        );
    }
}
