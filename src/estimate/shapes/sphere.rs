//! Sphere `pi / 6 x diameter^3`; hollow sphere by outside and inside, outside and wall, or inside and wall.

use super::{NoSolid, Solid, inside_outside, made, need, term};
use crate::understand::{Size1, Sizes};
use std::f64::consts::PI;

pub(super) fn sphere(sizes: &Sizes, hollow: bool) -> Result<Solid, NoSolid> {
    let (d, i) = match (sizes.outside, sizes.inside, sizes.wall) {
        (Some(outside), None, None) if !hollow => {
            let d = outside.length.m();
            return Ok(made(
                "sphere",
                "pi / 6 x diameter^3",
                PI / 6.0 * d.powi(3),
                vec![term("diameter", outside, 3.0)],
                [outside.length; 3],
            ));
        }
        (outside, inside, wall) => inside_outside(outside, inside, wall)?,
    };
    let cubes = d.powi(3) - i.powi(3);
    let squares = d * d - i * i;
    let (formula, terms) = match (sizes.outside, sizes.inside, sizes.wall) {
        (Some(outside), Some(inside), _) => (
            "pi / 6 x (outside^3 - inside^3)",
            vec![
                term("outside", outside, 3.0 * d.powi(3) / cubes),
                term("inside", inside, -3.0 * i.powi(3) / cubes),
            ],
        ),
        (Some(outside), None, Some(wall)) => (
            "pi / 6 x (outside^3 - (outside - 2 x wall)^3)",
            vec![
                term("outside", outside, 3.0 * d * squares / cubes),
                term("wall", wall, 3.0 * i * i * (d - i) / cubes),
            ],
        ),
        (_, inside, wall) => {
            let (inside, wall): (Size1, Size1) =
                (need(inside, "inside diameter")?, need(wall, "wall")?);
            (
                "pi / 6 x ((inside + 2 x wall)^3 - inside^3)",
                vec![
                    term("inside", inside, 3.0 * i * squares / cubes),
                    term("wall", wall, 3.0 * d * d * (d - i) / cubes),
                ],
            )
        }
    };
    let outside = crate::units::Length::from_m(d);
    Ok(made(
        "hollow sphere",
        formula,
        PI / 6.0 * cubes,
        terms,
        [outside; 3],
    )
    .hollow_in(PI / 6.0 * d.powi(3)))
}
