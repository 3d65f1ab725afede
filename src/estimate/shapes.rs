//! Shapes: volume, how it answers to each size, outline. One file a family.
//! Comes in: sizes of a piece and details of its form. Goes out: a solid, or what is missing or impossible about the sizes.

mod bar;
mod block;
mod cone;
mod cylinder;
mod elbow;
pub mod ends;
mod panel;
mod pipe;
mod pyramid;
mod section;
mod sphere;
pub mod tank;
#[cfg(test)]
mod tests;
mod torus;
mod tube;

pub(super) use section::{FILLETS, flanged_area};

use super::details::Details;
use crate::understand::{Size1, Sizes};
use crate::units::{Length, Volume};

/// The shapes with a name of their own, each of which [`solid`] knows.
pub const NAMES: [&str; 29] = [
    "angle",
    "box",
    "channel",
    "coil",
    "cone",
    "cylinder",
    "drum",
    "elbow",
    "frustum",
    "hexagonal bar",
    "hollow cone",
    "hollow frustum",
    "hollow sphere",
    "hollow torus",
    "I section",
    "panel with openings",
    "pipe",
    "plate",
    "prism",
    "pyramid",
    "pyramid frustum",
    "rectangular tube",
    "ring",
    "sphere",
    "square bar",
    "tank",
    "tee",
    "torus",
    "wedge",
];

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
    /// Figures of the formula that are no sizes: an angle in degrees, a number, the volume of a tank's ends in m3.
    pub numbers: Vec<(&'static str, f64)>,
    /// Outline: length, width, height.
    pub outline: [Length; 3],
    /// The formula in the names of the terms and numbers, as a clerk writes it.
    pub formula: String,
    /// Where the formula and what it takes for granted come from.
    pub source: &'static str,
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

/// The solid that a line's sizes make. `shape` is what its goods are taken as: one of [`NAMES`], or empty when nothing says.
/// Of a box, plate, cylinder or nothing an outside diameter makes a round shape, and openings are taken out of a plate or box.
///
/// # Errors
/// Which size is missing, or how the sizes contradict each other.
pub fn solid(shape: &str, sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    let hollow = details.hollow;
    match shape {
        "pipe" => pipe::pipe(sizes),
        "ring" => pipe::ring(sizes),
        "coil" => pipe::coil(sizes),
        "rectangular tube" => tube::tube(sizes),
        "sphere" => sphere::sphere(sizes, hollow),
        "hollow sphere" => sphere::sphere(sizes, true),
        "cone" => cone::cone(sizes, details, hollow),
        "hollow cone" => cone::cone(sizes, details, true),
        "frustum" => cone::frustum(sizes, details, hollow),
        "hollow frustum" => cone::frustum(sizes, details, true),
        "pyramid" | "pyramid frustum" => pyramid::pyramid(sizes, details),
        "prism" => pyramid::prism("prism", sizes, details),
        "wedge" => pyramid::prism("wedge", sizes, details),
        "torus" => torus::torus(sizes, details, hollow),
        "hollow torus" => torus::torus(sizes, details, true),
        "hexagonal bar" => bar::hexagonal(sizes),
        "square bar" => bar::square(sizes),
        "I section" => section::i_section(sizes, details),
        "channel" => section::channel(sizes, details),
        "tee" => section::tee(sizes, details),
        "angle" => section::angle(sizes, details),
        "elbow" => elbow::elbow(sizes, details),
        "tank" => tank::tank("tank", sizes, details),
        "drum" => tank::tank("drum", sizes, details),
        "panel with openings" => panel::panel(sizes, details),
        _ if sizes.outside.is_some() && sizes.inside.or(sizes.wall).is_some() => pipe::pipe(sizes),
        _ if sizes.outside.is_some() => cylinder::cylinder(sizes),
        "cylinder" => Err(NoSolid::Missing("diameter")),
        "" if sizes.wall.is_some() && sizes.width.is_some() && sizes.height.is_some() => {
            tube::tube(sizes)
        }
        "plate" | "box" if !details.openings.is_empty() => panel::panel(sizes, details),
        "plate" => block::block("plate", sizes),
        _ => block::block("box", sizes),
    }
}

/// A solid without a void, exactly by its formula.
fn made(
    shape: &'static str,
    formula: &str,
    m3: f64,
    terms: Vec<Term>,
    outline: [Length; 3],
) -> Solid {
    Solid {
        shape,
        volume: Volume::from_m3(m3),
        filled: Volume::from_m3(m3),
        solid: true,
        terms,
        numbers: Vec::new(),
        outline,
        formula: formula.to_string(),
        source: "geometry",
        bias: (0.0, 0.0),
    }
}

impl Solid {
    /// With a void: its outline alone holds `filled` m3.
    fn hollow_in(self, filled: f64) -> Solid {
        Solid {
            filled: Volume::from_m3(filled),
            solid: false,
            ..self
        }
    }

    /// The true volume may be so much below and above the formula's, relative.
    fn biased(self, low: f64, high: f64) -> Solid {
        Solid {
            bias: (low, high),
            ..self
        }
    }
}

/// Outside and inside diameter, m, of two of outside, inside and wall.
fn inside_outside(
    outside: Option<Size1>,
    inside: Option<Size1>,
    wall: Option<Size1>,
) -> Result<(f64, f64), NoSolid> {
    let mm = |length: Length| (length.mm() * 10.0).round() / 10.0;
    match (outside, inside, wall) {
        (Some(outside), Some(inside), _) if inside.length >= outside.length => {
            Err(NoSolid::Impossible(format!(
                "the inside diameter ({} mm) is not below the outside diameter ({} mm)",
                mm(inside.length),
                mm(outside.length)
            )))
        }
        (Some(outside), None, Some(wall)) if wall.length * 2.0 > outside.length => {
            Err(NoSolid::Impossible(format!(
                "the wall ({} mm) is more than half of the outside diameter ({} mm)",
                mm(wall.length),
                mm(outside.length)
            )))
        }
        (Some(outside), Some(inside), _) => Ok((outside.length.m(), inside.length.m())),
        (Some(outside), None, Some(wall)) => {
            let d = outside.length.m();
            Ok((d, d - 2.0 * wall.length.m()))
        }
        (None, Some(inside), Some(wall)) => {
            let i = inside.length.m();
            Ok((i + 2.0 * wall.length.m(), i))
        }
        (Some(_), None, None) => Err(NoSolid::Missing("inside diameter or wall")),
        (None, Some(_), None) => Err(NoSolid::Missing("outside diameter or wall")),
        (None, None, _) => Err(NoSolid::Missing("outside diameter")),
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
