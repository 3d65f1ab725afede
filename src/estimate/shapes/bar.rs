//! Hexagonal bar by the size across its flats, square bar by its side.

use super::{NoSolid, Solid, made, need, term};
use crate::understand::{Size1, Sizes};
use crate::units::Length;

/// `3^0.5 / 2 x across flats^2 x length`: six triangles.
pub(super) fn hexagonal(sizes: &Sizes) -> Result<Solid, NoSolid> {
    let (flats, length) = across_and_length(sizes, "size across the flats")?;
    let f = flats.length.m();
    let corners = Length::from_m(2.0 * f / 3f64.sqrt());
    Ok(made(
        "hexagonal bar",
        "3^0.5 / 2 x across flats^2 x length",
        3f64.sqrt() / 2.0 * f * f * length.length.m(),
        vec![
            term("across flats", flats, 2.0),
            term("length", length, 1.0),
        ],
        [length.length, corners, flats.length],
    ))
}

/// `side^2 x length`; a box where width and height are both stated.
pub(super) fn square(sizes: &Sizes) -> Result<Solid, NoSolid> {
    if sizes.length.is_some() && sizes.width.is_some() && sizes.height.is_some() {
        return super::block::block("square bar", sizes);
    }
    let (side, length) = across_and_length(sizes, "side")?;
    let a = side.length.m();
    Ok(made(
        "square bar",
        "side^2 x length",
        a * a * length.length.m(),
        vec![term("side", side, 2.0), term("length", length, 1.0)],
        [length.length, side.length, side.length],
    ))
}

/// The size across, which may stand as a diameter, and the length. Of three sides the smallest is the one across the flats; of
/// two without a diameter the longer one is the length.
fn across_and_length(sizes: &Sizes, across: &'static str) -> Result<(Size1, Size1), NoSolid> {
    if sizes.wall.is_some() || sizes.inside.is_some() {
        return Err(NoSolid::Missing("volume of its void"));
    }
    let mut sides: Vec<Size1> = [sizes.length, sizes.width, sizes.height]
        .into_iter()
        .flatten()
        .collect();
    if let Some(outside) = sizes.outside {
        return Ok((
            outside,
            need(sizes.length.or(sides.first().copied()), "length")?,
        ));
    }
    sides.sort_by(|one, other| one.length.m().total_cmp(&other.length.m()));
    match sides.as_slice() {
        [side, .., length] => Ok((*side, *length)),
        _ if sizes.length.is_some() => Err(NoSolid::Missing(across)),
        _ => Err(NoSolid::Missing("length")),
    }
}
