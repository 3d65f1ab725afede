//! Pipe, ring and coil: the area of a ring by outside and wall, outside and inside, or inside and wall, times the length. A coil's
//! fill is that of its kind of goods.

use super::{NoSolid, Solid, Term, inside_outside, made, need, round_outline, term};
use crate::understand::Sizes;
use crate::units::Length;
use std::f64::consts::PI;

/// A ring: its area, m2, how it answers to its sizes, and the formula.
pub(super) struct Annulus {
    pub outside: Length,
    pub area: f64,
    pub terms: Vec<Term>,
    pub formula: &'static str,
}

pub(super) fn annulus(sizes: &Sizes) -> Result<Annulus, NoSolid> {
    let (d, i) = inside_outside(sizes.outside, sizes.inside, sizes.wall)?;
    let squares = d * d - i * i;
    let t = (d - i) / 2.0;
    let (terms, formula) = match (sizes.outside, sizes.inside, sizes.wall) {
        (Some(outside), Some(inside), _) => (
            vec![
                term("outside", outside, 2.0 * d * d / squares),
                term("inside", inside, -2.0 * i * i / squares),
            ],
            "pi / 4 x (outside^2 - inside^2)",
        ),
        (Some(outside), None, wall) => (
            vec![
                term("outside", outside, d / (d - t)),
                term("wall", need(wall, "wall")?, (d - 2.0 * t) / (d - t)),
            ],
            "pi x (outside - wall) x wall",
        ),
        (None, inside, wall) => (
            vec![
                term("inside", need(inside, "inside diameter")?, i / (i + t)),
                term("wall", need(wall, "wall")?, (i + 2.0 * t) / (i + t)),
            ],
            "pi x (inside + wall) x wall",
        ),
    };
    Ok(Annulus {
        outside: sizes.outside.map_or(Length::from_m(d), |size| size.length),
        area: PI / 4.0 * squares,
        terms,
        formula,
    })
}

pub(super) fn pipe(sizes: &Sizes) -> Result<Solid, NoSolid> {
    long("pipe", "length", sizes)
}

/// A ring is given by its height.
pub(super) fn ring(sizes: &Sizes) -> Result<Solid, NoSolid> {
    long("ring", "height", sizes)
}

/// A coil is given by its width.
pub(super) fn coil(sizes: &Sizes) -> Result<Solid, NoSolid> {
    long("coil", "width", sizes)
}

fn long(shape: &'static str, along: &'static str, sizes: &Sizes) -> Result<Solid, NoSolid> {
    let length = need(sizes.length.or(sizes.height).or(sizes.width), along)?;
    let ring = annulus(sizes)?;
    let l = length.length.m();
    let mut terms = ring.terms;
    terms.push(term(along, length, 1.0));
    let solid = made(
        shape,
        &format!("{} x {along}", ring.formula),
        ring.area * l,
        terms,
        round_outline(sizes, ring.outside, length.length),
    );
    Ok(solid.hollow_in(PI / 4.0 * ring.outside.m().powi(2) * l))
}

#[cfg(test)]
mod tests {
    use super::super::testing::inches;
    use super::super::{NoSolid, solid};
    use crate::estimate::details::Details;
    use crate::understand::Sizes;

    fn pounds_at(sizes: &Sizes, lb_ft3: f64) -> f64 {
        solid("pipe", sizes, &Details::default())
            .map_or(0.0, |pipe| pipe.volume.m3() / 0.3048f64.powi(3) * lb_ft3)
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
        assert!(matches!(
            solid("pipe", &wide, &Details::default()),
            Err(NoSolid::Impossible(_))
        ));
        let thick = Sizes {
            outside: inches(4.0),
            wall: inches(3.0),
            length: inches(12.0),
            ..Sizes::default()
        };
        assert!(matches!(
            solid("pipe", &thick, &Details::default()),
            Err(NoSolid::Impossible(_))
        ));
    }
}
