//! `net-for-gross`: net and gross exchanged, or one written for the other.
//!
//! Possible when both are stated or the packaging's tare is known. Where a net weight above the gross stands beside it, the
//! larger is the gross if their difference can be the packaging; else the weight is short of its tare, or has it although it
//! is called net. Matters where the packaging is a good part of the whole (crates, reels, drums).

use super::{Candidate, Hypothesis, Slip};
use crate::understand::WeightKind;
use crate::units::Mass;

/// Packaging of no known kind is at most this part of the gross weight: a steel drum is a tenth, a cable reel up to a fifth
/// (common practice, no source).
const MOST_TARE: f64 = 0.2;
/// A known packaging may weigh this many times the upper end of its range before it is no longer the explanation
/// (common practice, no source).
const TARE_MARGIN: f64 = 1.5;

/// See the module.
pub(super) struct NetForGross;

impl Hypothesis for NetForGross {
    fn kind(&self) -> &'static str {
        "net-for-gross"
    }

    fn ask(&self) -> &'static str {
        "ask which weight is net and which is gross"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let exchanged = |other: Mass| Candidate {
            factor: of_net_and_packaging(slip),
            ..Candidate::of_weight(other, "net and gross exchanged")
        };
        let tare = slip.tare.likely;
        let found = match (slip.kind, slip.net, slip.gross) {
            (WeightKind::Gross, Some(net), _) if is_packaging(slip, net, slip.declared) => {
                exchanged(net)
            }
            (WeightKind::Net, _, Some(gross)) if is_packaging(slip, slip.declared, gross) => {
                exchanged(gross)
            }
            (WeightKind::Gross, None, _) if tare.kg() > 0.0 => {
                Candidate::of_weight(slip.declared + tare, "the net weight")
            }
            (WeightKind::Net, _, None) if tare.kg() > 0.0 && !slip.declared.fits(tare) => {
                Candidate::of_weight(slip.declared - tare, "the gross weight")
            }
            _ => return Vec::new(),
        };
        vec![found]
    }
}

/// Where the expected weight is the stated net and the packaging: exchanged, the net is the other one, and so is what to expect.
fn of_net_and_packaging(slip: &Slip) -> f64 {
    match (slip.evidence, slip.net) {
        (None, Some(net)) => (slip.declared + slip.tare.likely) / (net + slip.tare.likely),
        _ => 1.0,
    }
}

/// Whether `larger - smaller` can be the packaging of the line.
fn is_packaging(slip: &Slip, larger: Mass, smaller: Mass) -> bool {
    let known = slip.tare.high * TARE_MARGIN;
    let most = if known.kg() > 0.0 {
        known
    } else {
        larger * MOST_TARE
    };
    !larger.fits(smaller) && (larger - smaller).fits(most)
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::{check, gross_below_net};

    #[test]
    fn one_for_the_other() {
        check(
            "net-for-gross",
            &[
                // Geometry x 7,850 kg/m3: 1 plate of 1 m x 0.5 m x 10 mm weighs 39 kg; the pallet (15 to 32 kg) is left out.
                "Floor plate | steel | 1 in 1 pallet | 1000 x 500 x 10 mm | 39.2 kg gross",
                // The same with the pallet in it and called net.
                "Floor plate | steel | 1 in 1 pallet | 1000 x 500 x 10 mm | 61.3 kg net",
                // Two plates.
                "Floor plate | steel | 2 in 2 pallet | 1000 x 500 x 10 mm | 122 kg net",
            ],
            &[
                // Nothing is packed.
                "Floor plate | steel | 1 | 1000 x 500 x 10 mm | 61.3 kg net",
                // Ten times.
                "Floor plate | steel | 1 in 1 pallet | 1000 x 500 x 10 mm | 613 kg gross",
                // The weight of one of 40.
                "Floor plate | steel | 40 in 1 pallet | 1000 x 500 x 10 mm | 39.2 kg gross",
            ],
        );
    }

    #[test]
    fn gross_below_the_net_beside_it() {
        // 911.3 and 935 kg differ by a pallet (15 to 32 kg, packaging table); 1,034 and 1,279.8 kg by five; four
        // drums of 721 kg by 93 kg (steel drums 15 to 27 kg each); 424 kg is 935 lb; 700 and 900 kg differ by too much for any.
        for (gross, net, pallet, kind) in [
            (911.3, 935.0, true, Some("net-for-gross")),
            (887.0, 912.0, false, Some("net-for-gross")),
            (2_443.2, 2_458.0, false, Some("net-for-gross")),
            (721.2, 814.2, false, Some("net-for-gross")),
            (1_034.0, 1_279.8, true, Some("digits")),
            (700.0, 900.0, false, None),
            (424.0, 911.0, true, Some("kg-lb")),
            (93.1, 911.0, true, Some("decimal")),
            (500.0, 911.0, true, None),
        ] {
            assert_eq!(
                gross_below_net(gross, net, pallet)
                    .first()
                    .map(|cause| cause.kind),
                kind,
                "{gross} {net}"
            );
        }
    }
}
