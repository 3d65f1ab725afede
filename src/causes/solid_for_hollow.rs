//! `solid-for-hollow`: the weight was worked out from the outside sizes, as if the piece were solid.
//!
//! Possible when the estimate subtracts a void: D = V(solid) / V x E, for a shape with an inside or a wall, and for standard
//! pipe and hollow sections from their outline. The piece itself is as drawn, so that the line would weigh D / c.

use super::{Candidate, Hypothesis, Slip};
use crate::estimate::{Evidence, shapes};
use crate::tables::goods;
use std::f64::consts::FRAC_PI_4;

/// See the module.
pub(super) struct SolidForHollow;

impl Hypothesis for SolidForHollow {
    fn kind(&self) -> &'static str {
        "solid-for-hollow"
    }

    fn ask(&self) -> &'static str {
        "ask whether the hollow was left out of the sum"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let changes = match slip.evidence {
            Some(Evidence::Shape) => of_shape(slip),
            Some(Evidence::Product) => of_product(slip),
            _ => Vec::new(),
        };
        changes
            .into_iter()
            .filter(|change| *change > 1.0 && change.is_finite())
            .map(|change| {
                Candidate::of_weight(slip.declared / change, "the weight of a solid piece")
            })
            .collect()
    }
}

fn of_shape(slip: &Slip) -> Vec<f64> {
    let solid = slip
        .shape
        .and_then(|shape| shapes::solid(shape, &slip.sizes, &slip.details).ok());
    solid
        .filter(|solid| !solid.solid)
        .map(|solid| solid.filled / solid.volume)
        .into_iter()
        .collect()
}

/// A round or a rectangular bar of the outline: a square outline may be either.
fn of_product(slip: &Slip) -> Vec<f64> {
    let density = slip.material.map(|material| material.density);
    let shape = slip
        .goods
        .and_then(goods::by_name)
        .map_or("", |goods| goods.shape.as_str());
    let (Some(density), Some([length, width, height])) = (density, slip.outline) else {
        return Vec::new();
    };
    let bar = density.kg_m3() * length.m() * width.m() * height.m() / slip.piece.kg();
    match shape {
        "pipe" => vec![bar * FRAC_PI_4],
        "rectangular tube" if width == height => vec![bar, bar * FRAC_PI_4],
        "rectangular tube" => vec![bar],
        _ => Vec::new(),
    }
}

#[cfg(test)]
mod tests {
    use crate::causes::testing::check;

    #[test]
    fn hollow_taken_as_solid() {
        check(
            "solid-for-hollow",
            &[
                // pi/4 x 0.1683^2 m2 x 6 m x 7,850 kg/m3 = 1,048 kg a pipe.
                "Seamless pipe | steel | 16 | od 168.3 wall 7.1 l 6000 mm | 16,765 kg",
                // The same pipe by its name.
                "Seamless pipe 168.3x7.1 | steel | 16 | l 6000 mm | 16,765 kg",
                // pi/4 x 1.2^2 m2 x 0.5 m x 2,400 kg/m3 (EN 1991-1-1, A.1) = 1,357 kg a ring.
                "Concrete ring | concrete | 4 | od 1200 id 1000 l 500 mm | 5,429 kg",
                // AISC Manual: HSS6x6x1/4; solid it would be 36 in2 x 480 in x 0.2836 lb/in3 = 4,900 lb.
                "HSS6X6X1/4 | - | 1 | l 40 ft | 4,900 lb",
            ],
            &[
                // A plate has no void.
                "Floor plate | steel | 1 | 2000 x 1000 x 10 mm | 967 kg",
                // A rolled section has none either.
                "UB 203x133x25 | - | 1 | l 6000 mm | 583 kg",
                // A pipe ten times too heavy.
                "Seamless pipe | steel | 16 | od 168.3 wall 7.1 l 6000 mm | 27,096 kg",
                // The weight of one of sixteen.
                "Seamless pipe | steel | 16 | od 168.3 wall 7.1 l 6000 mm | 169.4 kg",
            ],
        );
    }
}
