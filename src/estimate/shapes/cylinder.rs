//! Cylinder and round bar: `pi / 4 x diameter^2 x length`; sensitivities 2 and 1.

use super::{NoSolid, Solid, made, need, term};
use crate::understand::Sizes;
use std::f64::consts::PI;

pub(super) fn cylinder(sizes: &Sizes) -> Result<Solid, NoSolid> {
    let diameter = need(sizes.outside, "diameter")?;
    // A drum, reel or disc is given by diameter and height or width.
    let length = need(sizes.length.or(sizes.height).or(sizes.width), "length")?;
    let d = diameter.length.m();
    Ok(made(
        "cylinder",
        "pi / 4 x diameter^2 x length",
        PI / 4.0 * d * d * length.length.m(),
        vec![term("diameter", diameter, 2.0), term("length", length, 1.0)],
        super::round_outline(sizes, diameter.length, length.length),
    ))
}

#[cfg(test)]
mod tests {
    use super::super::solid;
    use super::super::testing::inches;
    use crate::estimate::details::Details;
    use crate::understand::Sizes;

    #[test]
    fn a_round_bar_of_the_handbook() {
        // AISC Manual: steel round of d inches weighs 2.67 d^2 lb/ft at 490 lb/ft3; 2 in: 10.69 lb/ft.
        let bar = solid(
            "cylinder",
            &Sizes {
                outside: inches(2.0),
                length: inches(12.0),
                ..Sizes::default()
            },
            &Details::default(),
        )
        .expect("a bar");
        let pounds = bar.volume.m3() / 0.3048f64.powi(3) * 490.0;
        assert!((pounds - 10.69).abs() < 0.005, "{pounds}");
    }
}
