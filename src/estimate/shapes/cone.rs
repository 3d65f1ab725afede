//! Cone and its frustum, solid or with a wall. A wall is taken as measured level, as concrete cones are drawn; measured square
//! to the slope, as rolled plate is, it weighs more: a one-sided bias.

use super::{NoSolid, Solid, made, need, term};
use crate::estimate::details::Details;
use crate::understand::Sizes;
use std::f64::consts::PI;

/// `pi / 12 x diameter^2 x height`.
pub(super) fn cone(sizes: &Sizes, details: &Details, hollow: bool) -> Result<Solid, NoSolid> {
    if details.top.is_some() {
        return frustum(sizes, details, hollow);
    }
    let diameter = need(sizes.outside, "diameter at the base")?;
    let height = need(sizes.height.or(sizes.length), "height")?;
    let (d, h) = (diameter.length.m(), height.length.m());
    let outline = [diameter.length, diameter.length, height.length];
    let filled = PI / 12.0 * d * d * h;
    let Some(wall) = sizes.wall else {
        if hollow || sizes.inside.is_some() {
            return Err(NoSolid::Missing("wall"));
        }
        return Ok(made(
            "cone",
            "pi / 12 x diameter^2 x height",
            filled,
            vec![term("diameter", diameter, 2.0), term("height", height, 1.0)],
            outline,
        ));
    };
    let t = wall.length.m();
    let i = d - 2.0 * t;
    if i < 0.0 {
        return Err(too_thick("diameter"));
    }
    let f = d * d - i.powi(3) / d;
    let solid = made(
        "hollow cone",
        "pi / 12 x height x (diameter^2 - (diameter - 2 x wall)^3 / diameter)",
        PI / 12.0 * h * f,
        vec![
            term(
                "diameter",
                diameter,
                (2.0 * d * d - 3.0 * i * i + i.powi(3) / d) / f,
            ),
            term("wall", wall, 6.0 * i * i * t / d / f),
            term("height", height, 1.0),
        ],
        outline,
    );
    Ok(solid.hollow_in(filled).biased(0.0, slope(d, 0.0, h)))
}

/// `pi / 12 x (bottom^2 + bottom x top + top^2) x height`; with a wall `pi x wall x ((bottom + top) / 2 - wall) x height`.
pub(super) fn frustum(sizes: &Sizes, details: &Details, hollow: bool) -> Result<Solid, NoSolid> {
    let bottom = need(sizes.outside, "diameter at the base")?;
    let top = need(details.top, "diameter at the top")?;
    let height = need(sizes.height.or(sizes.length), "height")?;
    let (b, u, h) = (bottom.length.m(), top.length.m(), height.length.m());
    let widest = bottom.length.max(top.length);
    let outline = [widest, widest, height.length];
    let squares = b * b + b * u + u * u;
    let filled = PI / 12.0 * squares * h;
    let Some(wall) = sizes.wall else {
        if hollow || sizes.inside.is_some() {
            return Err(NoSolid::Missing("wall"));
        }
        return Ok(made(
            "frustum",
            "pi / 12 x (bottom^2 + bottom x top + top^2) x height",
            filled,
            vec![
                term("bottom", bottom, b * (2.0 * b + u) / squares),
                term("top", top, u * (b + 2.0 * u) / squares),
                term("height", height, 1.0),
            ],
            outline,
        ));
    };
    let t = wall.length.m();
    if 2.0 * t > b.min(u) {
        return Err(too_thick("smaller diameter"));
    }
    let mean = (b + u) / 2.0 - t;
    let solid = made(
        "hollow frustum",
        "pi x wall x ((bottom + top) / 2 - wall) x height",
        PI * t * mean * h,
        vec![
            term("bottom", bottom, b / 2.0 / mean),
            term("top", top, u / 2.0 / mean),
            term("wall", wall, 1.0 - t / mean),
            term("height", height, 1.0),
        ],
        outline,
    );
    Ok(solid.hollow_in(filled).biased(0.0, slope(b, u, h)))
}

/// How much longer the slope is than the height, relative.
fn slope(bottom: f64, top: f64, height: f64) -> f64 {
    ((bottom - top) / 2.0 / height).hypot(1.0) - 1.0
}

fn too_thick(of: &str) -> NoSolid {
    NoSolid::Impossible(format!("the wall is more than half of the {of}"))
}
