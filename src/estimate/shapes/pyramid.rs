//! Pyramid on a rectangle and its frustum, triangular prism and wedge.

use super::{NoSolid, Solid, made, need, term};
use crate::estimate::details::Details;
use crate::understand::Sizes;

/// A wedge whose thin end is not stated: how much more it may be than one that runs out to an edge (common practice, no
/// source).
const BLUNT: f64 = 0.2;

/// `length x width x height / 3`; with a top, the mean of its sections.
pub(super) fn pyramid(sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    no_void(sizes, details)?;
    let length = need(sizes.length, "length of the base")?;
    let width = need(sizes.width, "width of the base")?;
    let height = need(sizes.height, "height")?;
    let (l, w, h) = (length.length.m(), width.length.m(), height.length.m());
    let outline = [length.length, width.length, height.length];
    let Some(top) = details.top else {
        return Ok(made(
            "pyramid",
            "length x width x height / 3",
            l * w * h / 3.0,
            vec![
                term("length", length, 1.0),
                term("width", width, 1.0),
                term("height", height, 1.0),
            ],
            outline,
        ));
    };
    let square = details.top_width.is_none();
    if square && length.length != width.length {
        return Err(NoSolid::Missing("width of the top"));
    }
    let top_width = details.top_width.unwrap_or(top);
    let (p, q) = (top.length.m(), top_width.length.m());
    if p > l || q > w {
        return Err(NoSolid::Impossible(
            "the top is wider than the base".to_string(),
        ));
    }
    // Six times the mean section.
    let six = 2.0 * l * w + l * q + p * w + 2.0 * p * q;
    let mut terms = vec![
        term("length", length, l * (2.0 * w + q) / six),
        term("width", width, w * (2.0 * l + p) / six),
    ];
    let formula = if square {
        terms.push(term(
            "top",
            top,
            (p * (w + 2.0 * q) + q * (l + 2.0 * p)) / six,
        ));
        "height / 6 x (2 x length x width + (length + width) x top + 2 x top^2)"
    } else {
        terms.push(term("top length", top, p * (w + 2.0 * q) / six));
        terms.push(term("top width", top_width, q * (l + 2.0 * p) / six));
        "height / 6 x (2 x length x width + length x top width + top length x width + 2 x top length x top width)"
    };
    terms.push(term("height", height, 1.0));
    Ok(made(
        "pyramid frustum",
        formula,
        h / 6.0 * six,
        terms,
        outline,
    ))
}

/// Triangle `width x height / 2` times the length; a wedge with a thin end is a box and half of the rest.
pub(super) fn prism(
    shape: &'static str,
    sizes: &Sizes,
    details: &Details,
) -> Result<Solid, NoSolid> {
    no_void(sizes, details)?;
    let length = need(sizes.length, "length")?;
    let width = need(sizes.width, "width")?;
    let height = need(sizes.height, "height")?;
    let (l, w, h) = (length.length.m(), width.length.m(), height.length.m());
    let outline = [length.length, width.length, height.length];
    let sides = |of_height: f64| {
        vec![
            term("length", length, 1.0),
            term("width", width, 1.0),
            term("height", height, of_height),
        ]
    };
    match details.top.filter(|_| shape == "wedge") {
        Some(thin) => {
            let e = thin.length.m();
            if e > h {
                return Err(NoSolid::Impossible(
                    "the thin end is thicker than the thick one".to_string(),
                ));
            }
            let mut terms = sides(h / (h + e));
            terms.push(term("thin end", thin, e / (h + e)));
            Ok(made(
                shape,
                "length x width x (height + thin end) / 2",
                l * w * (h + e) / 2.0,
                terms,
                outline,
            ))
        }
        None => {
            let solid = made(
                shape,
                "length x width x height / 2",
                l * w * h / 2.0,
                sides(1.0),
                outline,
            );
            Ok(if shape == "wedge" {
                solid.biased(0.0, BLUNT)
            } else {
                solid
            })
        }
    }
}

/// These have no formula for a void, and a void is never ignored.
fn no_void(sizes: &Sizes, details: &Details) -> Result<(), NoSolid> {
    if details.hollow || sizes.wall.is_some() || sizes.inside.is_some() {
        Err(NoSolid::Missing("volume of its void"))
    } else {
        Ok(())
    }
}
