//! Pipe, tube and ring: `pi x (outside - wall) x wall x length`, by outside and wall, outside and inside, or inside and wall.

use super::{NoSolid, Solid, need, term};
use crate::understand::Sizes;
use crate::units::{Length, Volume};
use std::f64::consts::PI;

pub(super) fn pipe(sizes: &Sizes) -> Result<Solid, NoSolid> {
    // A ring is given by its height, a coil by its width.
    let length = need(sizes.length.or(sizes.height).or(sizes.width), "length")?;
    let l = length.length.m();
    let mm = |length: Length| (length.mm() * 10.0).round() / 10.0;
    let (outside, volume, terms, formula) = match (sizes.outside, sizes.inside, sizes.wall) {
        (Some(outside), Some(inside), _) => {
            let (d, i) = (outside.length.m(), inside.length.m());
            if i >= d {
                return Err(NoSolid::Impossible(format!(
                    "the inside diameter ({} mm) is not below the outside diameter ({} mm)",
                    mm(inside.length),
                    mm(outside.length)
                )));
            }
            let area = d * d - i * i;
            let terms = vec![
                term("outside", outside, 2.0 * d * d / area),
                term("inside", inside, -2.0 * i * i / area),
                term("length", length, 1.0),
            ];
            (
                outside.length,
                PI / 4.0 * area * l,
                terms,
                "pi / 4 x (outside^2 - inside^2) x length",
            )
        }
        (Some(outside), None, Some(wall)) => {
            let (d, t) = (outside.length.m(), wall.length.m());
            if 2.0 * t > d {
                return Err(NoSolid::Impossible(format!(
                    "the wall ({} mm) is more than half of the outside diameter ({} mm)",
                    mm(wall.length),
                    mm(outside.length)
                )));
            }
            let terms = vec![
                term("outside", outside, d / (d - t)),
                term("wall", wall, (d - 2.0 * t) / (d - t)),
                term("length", length, 1.0),
            ];
            (
                outside.length,
                PI * (d - t) * t * l,
                terms,
                "pi x (outside - wall) x wall x length",
            )
        }
        (None, Some(inside), Some(wall)) => {
            let (i, t) = (inside.length.m(), wall.length.m());
            let terms = vec![
                term("inside", inside, i / (i + t)),
                term("wall", wall, (i + 2.0 * t) / (i + t)),
                term("length", length, 1.0),
            ];
            (
                inside.length + wall.length * 2.0,
                PI * (i + t) * t * l,
                terms,
                "pi x (inside + wall) x wall x length",
            )
        }
        (Some(_), None, None) => return Err(NoSolid::Missing("inside diameter or wall")),
        (None, Some(_), None) => return Err(NoSolid::Missing("outside diameter or wall")),
        (None, None, _) => return Err(NoSolid::Missing("outside diameter")),
    };
    Ok(Solid {
        shape: "pipe",
        volume: Volume::from_m3(volume),
        filled: Volume::from_m3(PI / 4.0 * outside.m().powi(2) * l),
        solid: false,
        terms,
        outline: super::round_outline(sizes, outside, length.length),
        formula,
        bias: (0.0, 0.0),
    })
}

#[cfg(test)]
mod tests {
    use super::super::testing::inches;
    use super::super::{NoSolid, solid};
    use crate::understand::Sizes;

    fn pounds_at(sizes: &Sizes, lb_ft3: f64) -> f64 {
        solid("pipe", sizes).map_or(0.0, |pipe| pipe.volume.m3() / 0.3048f64.powi(3) * lb_ft3)
    }

    #[test]
    fn pipes_of_the_standards() {
        // ASME B36.10M: NPS 6 schedule 40, 6.625 x 0.280 in, 18.99 lb/ft (rule 10.69 (D - t) t at 490 lb/ft3).
        let steel = Sizes {
            outside: inches(6.625),
            wall: inches(0.28),
            length: inches(12.0),
            ..Sizes::default()
        };
        assert!((pounds_at(&steel, 490.0) - 18.99).abs() < 0.03);
        // ASTM C76 wall B, 36 in: wall 4 in, pi (ID + t) t / 144 x 150 = 523.6 lb/ft.
        let concrete = Sizes {
            inside: inches(36.0),
            wall: inches(4.0),
            length: inches(12.0),
            ..Sizes::default()
        };
        assert!((pounds_at(&concrete, 150.0) - 523.6).abs() < 0.1);
        // The same pipe by outside and inside.
        let by_diameters = Sizes {
            outside: inches(44.0),
            inside: inches(36.0),
            length: inches(12.0),
            ..Sizes::default()
        };
        assert!((pounds_at(&by_diameters, 150.0) - pounds_at(&concrete, 150.0)).abs() < 1e-9);
    }

    #[test]
    fn sizes_that_cannot_be() {
        let wide = Sizes {
            outside: inches(4.0),
            inside: inches(5.0),
            length: inches(12.0),
            ..Sizes::default()
        };
        assert!(matches!(solid("pipe", &wide), Err(NoSolid::Impossible(_))));
        let thick = Sizes {
            outside: inches(4.0),
            wall: inches(3.0),
            length: inches(12.0),
            ..Sizes::default()
        };
        assert!(matches!(solid("pipe", &thick), Err(NoSolid::Impossible(_))));
    }
}
