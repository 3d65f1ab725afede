//! `size-unit`: the sizes, or one of them, are in another unit than they were read in.
//!
//! Possible with shape evidence: D = c x E where c is the change of the volume when all sizes, the length alone, everything but
//! the length, or the thickness alone were in, ft, mm, cm or m. Also for a standard product, whose mass goes with the length
//! alone. The weight would then be right, so that the line would weigh what is declared, and the estimate is wrong. Half of the
//! prior goes to all sizes at once, the rest to the others; each half is divided by the number of its ways.

use super::slip::LONGEST_PIECE;
use super::{Candidate, Hypothesis, Slip};
use crate::estimate::details::Details;
use crate::estimate::{Evidence, shapes};
use crate::understand::{Size1, Sizes};
use crate::units::LengthUnit;

const UNITS: [LengthUnit; 5] = [
    LengthUnit::Mm,
    LengthUnit::Cm,
    LengthUnit::M,
    LengthUnit::In,
    LengthUnit::Ft,
];
/// Thinnest piece that corrected sizes may make, m (common practice, no source).
const THINNEST: f64 = 0.000_1;

/// See the module.
pub(super) struct SizeUnit;

/// Which of the sizes are in another unit.
#[derive(Clone, Copy)]
enum Which {
    All,
    Length,
    Section,
    Thickness,
}

impl Hypothesis for SizeUnit {
    fn kind(&self) -> &'static str {
        "size-unit"
    }

    fn ask(&self) -> &'static str {
        "ask in which unit the sizes are"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let ways: &[Which] = match slip.evidence {
            Some(Evidence::Shape) => &[Which::All, Which::Length, Which::Section, Which::Thickness],
            Some(Evidence::Product) => &[Which::Length],
            _ => return Vec::new(),
        };
        let others = ways
            .iter()
            .flat_map(|which| UNITS.map(|unit| (*which, unit)));
        others
            .filter_map(|(which, unit)| candidate(slip, which, unit))
            .collect()
    }
}

fn candidate(slip: &Slip, which: Which, unit: LengthUnit) -> Option<Candidate> {
    // All sizes in another unit is the usual slip, one of them alone a rarer one (invented, no source).
    let (first, what, odds) = match which {
        Which::All => (first_of(&slip.sizes)?, "sizes", 1.0 / 8.0),
        Which::Length => (slip.sizes.length?, "a length", 1.0 / 24.0),
        Which::Section => (first_of(&section(&slip.sizes))?, "a section", 1.0 / 24.0),
        Which::Thickness => (slip.sizes.height?, "a thickness", 1.0 / 24.0),
    };
    let ratio = unit.m() / written_in(first).filter(|written| *written != unit)?.m();
    let sizes = scaled(&slip.sizes, which, ratio);
    let factor = match slip.evidence {
        Some(Evidence::Product) => ratio,
        _ => {
            let details = match which {
                Which::All | Which::Section => slip.details.scaled(ratio),
                Which::Length | Which::Thickness => slip.details.clone(),
            };
            let volume = |sizes: &Sizes, details: &Details| {
                shapes::solid(slip.shape?, sizes, details)
                    .ok()
                    .map(|solid| solid.volume)
            };
            volume(&sizes, &details)? / volume(&slip.sizes, &slip.details)?
        }
    };
    let possible = sizes
        .all()
        .iter()
        .flatten()
        .all(|size| (THINNEST..=LONGEST_PIECE.m()).contains(&size.length.m()));
    let reading = format!("the weight of {what} in {}", unit.symbol());
    let candidate = Candidate {
        sizes: Some(sizes),
        ..Candidate::of_estimate(slip.declared, factor, reading)
    };
    possible.then(|| candidate.odds(odds))
}

/// The unit that a size was written in, as its last stated digit tells: half a digit is half a unit, a decimal part of it, or
/// a half, quarter, ... of an inch. None where the size came from a name.
fn written_in(size: Size1) -> Option<LengthUnit> {
    let half = size.half_digit.m();
    let is = |part: f64| (half / part - 1.0).abs() < 1e-6;
    let decimal = (0..6).find_map(|places| {
        let digit = 0.5 * 10f64.powi(-places);
        UNITS.into_iter().find(|unit| is(digit * unit.m()))
    });
    decimal.or_else(|| {
        (1..7)
            .any(|power| is(LengthUnit::In.m() * 0.5f64.powi(power + 1)))
            .then_some(LengthUnit::In)
    })
}

fn first_of(sizes: &Sizes) -> Option<Size1> {
    sizes.all().into_iter().flatten().next()
}

fn section(sizes: &Sizes) -> Sizes {
    Sizes {
        length: None,
        ..*sizes
    }
}

fn scaled(sizes: &Sizes, which: Which, ratio: f64) -> Sizes {
    let times = |size: Option<Size1>| {
        size.map(|size| Size1 {
            length: size.length * ratio,
            half_digit: size.half_digit * ratio,
            fine: size.fine,
        })
    };
    match which {
        Which::Length => Sizes {
            length: times(sizes.length),
            ..*sizes
        },
        Which::Thickness => Sizes {
            height: times(sizes.height),
            ..*sizes
        },
        Which::Section => Sizes {
            length: sizes.length,
            ..scaled(sizes, Which::All, ratio)
        },
        Which::All => Sizes {
            length: times(sizes.length),
            width: times(sizes.width),
            height: times(sizes.height),
            outside: times(sizes.outside),
            inside: times(sizes.inside),
            wall: times(sizes.wall),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::causes::testing::check;
    use crate::units::Length;

    #[test]
    fn a_last_digit_tells_the_unit() {
        // Arithmetic: half of a millimetre, of a centimetre, of a tenth of a metre, of an inch, of a 16th of an inch, of a foot.
        for (half_m, unit) in [
            (0.000_5, Some(LengthUnit::Mm)),
            (0.005, Some(LengthUnit::Cm)),
            (0.05, Some(LengthUnit::M)),
            (0.0127, Some(LengthUnit::In)),
            (0.0254 / 32.0, Some(LengthUnit::In)),
            (0.1524, Some(LengthUnit::Ft)),
            (0.0, None),
        ] {
            let size = Size1 {
                length: Length::from_m(1.0),
                half_digit: Length::from_m(half_m),
                fine: true,
            };
            assert_eq!(written_in(size), unit, "{half_m}");
        }
    }

    #[test]
    fn sizes_in_another_unit() {
        check(
            "size-unit",
            &[
                // USDA Wood Handbook, Table 5-3a: southern pine about 600 kg/m3 treated; a post of 3.5 x 3.5 x 96 in is 11.5 kg.
                "Treated pine post | treated pine | 36 | 2438 x 3.5 x 3.5 in | 430 kg",
                // Geometry x 7,850 kg/m3: 30 x 20 x 2 in are 154 kg; as millimetres they are 9 g.
                "Base plate | steel | 4 | 30 x 20 x 2 mm | 617 kg",
                // A thickness of 1/2 in (12.7 mm) read as 0.5 mm: 2 x 1 m x 12.7 mm weighs 199 kg.
                "Floor plate | steel | 3 | 2000 x 1000 x 0.5 mm | 598 kg",
                // Millimetres under a heading of centimetres: 600 x 400 x 30 mm of steel are 56.5 kg, as centimetres 56 t.
                "Packing plate | steel | 11 | 600 x 400 x 30 cm | 622 kg",
            ],
            &[
                // Ten times is a decimal point before it is one length in another unit.
                "Floor plate | steel | 3 | 2000 x 1000 x 10 mm | 4,710 kg",
                // A thousand is a ton as long as the goods as written can be lifted.
                "Floor plate | steel | 3 | 2000 x 1000 x 10 mm | 0.471 kg",
                // Twice is no unit of length.
                "Floor plate | steel | 3 | 2000 x 1000 x 10 mm | 942 kg",
            ],
        );
    }
}
