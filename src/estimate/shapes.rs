//! Shapes: volume, how it answers to each size, outline. One file a family.
//! Comes in: sizes of a piece. Goes out: a solid, or what is impossible about the sizes.

mod block;
mod cylinder;
mod pipe;
mod tube;

use crate::understand::{Size1, Sizes};
use crate::units::{Length, Volume};

/// A shape with all its sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct Solid {
    /// Plain word (`plate`, `pipe`).
    pub shape: &'static str,
    /// Volume of material, the void subtracted.
    pub volume: Volume,
    /// Volume of the outline without the void.
    pub filled: Volume,
    /// No void and no corner missing.
    pub solid: bool,
    /// Each size with its name and sensitivity `d ln V / d ln x`.
    pub terms: Vec<Term>,
    /// Outline: length, width, height.
    pub outline: [Length; 3],
    /// The formula in the names of the terms, as a clerk writes it.
    pub formula: &'static str,
    /// One-sided bias of the formula: how far the true volume may be below and above, relative.
    pub bias: (f64, f64),
}

/// A size of a shape.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Term {
    /// Its name in the formula.
    pub name: &'static str,
    /// The size.
    pub size: Size1,
    /// `d ln V / d ln x`.
    pub sensitivity: f64,
}

/// Why sizes make no solid.
#[derive(Clone, Debug, PartialEq)]
pub enum NoSolid {
    /// A size is missing: which.
    Missing(&'static str),
    /// The sizes contradict each other: how.
    Impossible(String),
}

/// The solid that a line's sizes make. `shape` is what its goods are taken as (`plate`, `box`, `cylinder`, `pipe`,
/// `rectangular tube`, or empty when nothing says); an outside diameter makes a round shape of all but a
/// rectangular tube.
pub fn solid(shape: &str, sizes: &Sizes) -> Result<Solid, NoSolid> {
    if shape == "pipe" {
        return pipe::pipe(sizes);
    }
    if sizes.outside.is_some() && shape != "rectangular tube" {
        return if sizes.inside.is_some() || sizes.wall.is_some() {
            pipe::pipe(sizes)
        } else {
            cylinder::cylinder(sizes)
        };
    }
    match shape {
        "cylinder" => Err(NoSolid::Missing("diameter")),
        "rectangular tube" => tube::tube(sizes),
        "" if sizes.wall.is_some() && sizes.width.is_some() && sizes.height.is_some() => {
            tube::tube(sizes)
        }
        "plate" => block::block("plate", sizes),
        _ => block::block("box", sizes),
    }
}

/// Round goods given by their height stand; those given by their length lie.
fn round_outline(sizes: &Sizes, outside: Length, length: Length) -> [Length; 3] {
    let stands = sizes.length.is_none() && sizes.height.is_some();
    if stands {
        [outside, outside, length]
    } else {
        [length, outside, outside]
    }
}

fn need(size: Option<Size1>, name: &'static str) -> Result<Size1, NoSolid> {
    size.ok_or(NoSolid::Missing(name))
}

fn term(name: &'static str, size: Size1, sensitivity: f64) -> Term {
    Term {
        name,
        size,
        sensitivity,
    }
}

#[cfg(test)]
mod testing {
    use crate::understand::Size1;
    use crate::units::Length;

    /// A size in inches, written to the hundredth.
    pub(super) fn inches(value: f64) -> Option<Size1> {
        Some(Size1 {
            length: Length::from_in(value),
            half_digit: Length::from_in(0.005),
            fine: true,
        })
    }
}
