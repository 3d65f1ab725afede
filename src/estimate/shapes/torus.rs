//! Torus: a round section bent to a closed ring, by Pappus' rule: its area times the way of its centre.

use super::{NoSolid, Solid, made, need, term};
use crate::estimate::details::Details;
use crate::understand::Sizes;
use crate::units::Length;
use std::f64::consts::PI;

pub(super) fn torus(sizes: &Sizes, details: &Details, hollow: bool) -> Result<Solid, NoSolid> {
    let outside = need(sizes.outside, "outside diameter")?;
    let d = outside.length.m();
    let outline = |section: f64| [outside.length, outside.length, Length::from_m(section)];
    let Some(section) = details.section else {
        let inside = need(sizes.inside, "diameter of the section")?;
        let i = inside.length.m();
        if i >= d {
            return Err(NoSolid::Impossible(
                "the inside diameter is not below the outside diameter".to_string(),
            ));
        }
        if hollow || sizes.wall.is_some() {
            return Err(NoSolid::Missing("diameter of the section"));
        }
        return Ok(made(
            "torus",
            "pi^2 / 32 x (outside - inside)^2 x (outside + inside)",
            PI * PI / 32.0 * (d - i).powi(2) * (d + i),
            vec![
                term("outside", outside, d * (2.0 / (d - i) + 1.0 / (d + i))),
                term("inside", inside, i * (1.0 / (d + i) - 2.0 / (d - i))),
            ],
            outline((d - i) / 2.0),
        ));
    };
    let s = section.length.m();
    if 2.0 * s > d {
        return Err(NoSolid::Impossible(
            "the section is more than half of the outside diameter".to_string(),
        ));
    }
    let filled = PI * PI / 4.0 * s * s * (d - s);
    let of_outside = term("outside", outside, d / (d - s));
    let Some(wall) = sizes.wall else {
        if hollow {
            return Err(NoSolid::Missing("wall"));
        }
        return Ok(made(
            "torus",
            "pi^2 / 4 x section^2 x (outside - section)",
            filled,
            vec![of_outside, term("section", section, 2.0 - s / (d - s))],
            outline(s),
        ));
    };
    let t = wall.length.m();
    if 2.0 * t > s {
        return Err(NoSolid::Impossible(
            "the wall is more than half of the section".to_string(),
        ));
    }
    Ok(made(
        "hollow torus",
        "pi^2 x (section - wall) x wall x (outside - section)",
        PI * PI * (s - t) * t * (d - s),
        vec![
            of_outside,
            term("section", section, s / (s - t) - s / (d - s)),
            term("wall", wall, (s - 2.0 * t) / (s - t)),
        ],
        outline(s),
    )
    .hollow_in(filled))
}
