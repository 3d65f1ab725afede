//! Tank and drum: a round shell with two ends, and what it holds. With flat ends the length is the whole one; with others it is that
//! of the shell between them, which is the heavier reading where a list means the whole.

use super::ends::Ends;
use super::{NoSolid, Solid, inside_outside, made, need, round_outline, term};
use crate::estimate::details::Details;
use crate::understand::{Size1, Sizes};
use crate::units::Length;
use std::f64::consts::PI;

/// Slices in which a partly filled tank is added up.
const SLICES: u32 = 4_000;
/// A drum of shell and flat ends alone: chimes, hoops and fittings add 13 to 17 % (trade figures, design notes on products).
const CHIMES: f64 = 0.17;

/// A tank's inside.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Room {
    /// Inside diameter, m.
    pub diameter: f64,
    /// Length of the round part inside, m.
    pub length: f64,
    /// Form of the ends.
    pub ends: Ends,
    /// It stands on one end.
    pub stands: bool,
}

struct Given {
    outside: f64,
    inside: f64,
    length: Size1,
    ends: Ends,
}

fn given(shape: &str, sizes: &Sizes, details: &Details) -> Result<Given, NoSolid> {
    need(sizes.wall.or(sizes.inside.and(sizes.outside)), "wall")?;
    let (outside, inside) = inside_outside(sizes.outside, sizes.inside, sizes.wall)?;
    let length = need(sizes.length.or(sizes.height).or(sizes.width), "length")?;
    // A drum has flat ends, a tank may have any.
    let ends = details
        .ends
        .or((shape == "drum").then_some(Ends::Flat))
        .ok_or(NoSolid::Missing("form of the ends (flat, dished)"))?;
    Ok(Given {
        outside,
        inside,
        length,
        ends,
    })
}

/// Volume of the shell and the ends of a tank, m3.
fn material(outside: f64, inside: f64, length: f64, ends: Ends) -> (f64, f64) {
    let wall = (outside - inside) / 2.0;
    (
        PI * (outside - wall) * wall * length,
        2.0 * ends.material(inside, wall),
    )
}

pub(super) fn tank(
    shape: &'static str,
    sizes: &Sizes,
    details: &Details,
) -> Result<Solid, NoSolid> {
    let Given {
        outside,
        inside,
        length,
        ends,
    } = given(shape, sizes, details)?;
    let l = length.length.m();
    let wall = (outside - inside) / 2.0;
    if ends == Ends::Flat && 2.0 * wall > l {
        return Err(NoSolid::Impossible(
            "the two ends are thicker than the tank is long".to_string(),
        ));
    }
    let (shell, caps) = material(outside, inside, l, ends);
    let volume = shell + caps;
    // The ends have no short formula: their answer to each size by a small step to both sides.
    let answer = |outside: f64, inside: f64, of: f64| {
        let (shell, caps) = material(outside, inside, l, ends);
        (shell + caps - volume) / volume * of
    };
    let step = 1e-6;
    let slope = |o: f64, i: f64| {
        let (o, i) = (o * step, i * step);
        (answer(outside + o, inside + i, 1.0) - answer(outside - o, inside - i, 1.0)) / 2.0 / step
    };
    let (terms, formula) = match (sizes.outside, sizes.inside, sizes.wall) {
        (Some(d), Some(i), _) => (
            vec![
                term("outside", d, slope(outside, 0.0)),
                term("inside", i, slope(0.0, inside)),
            ],
            "pi / 4 x (outside^2 - inside^2) x length + ends",
        ),
        (Some(d), None, Some(t)) => (
            vec![
                term("outside", d, slope(outside, outside)),
                term("wall", t, slope(0.0, -2.0 * wall)),
            ],
            "pi x (outside - wall) x wall x length + ends",
        ),
        (_, i, t) => (
            vec![
                term("inside", need(i, "inside diameter")?, slope(inside, inside)),
                term("wall", need(t, "wall")?, slope(2.0 * wall, 0.0)),
            ],
            "pi x (inside + wall) x wall x length + ends",
        ),
    };
    let mut terms = terms;
    terms.push(term("length", length, shell / volume));
    let over = 2.0 * (ends.depth(inside) + if ends == Ends::Flat { 0.0 } else { wall });
    let whole = Length::from_m(l + over);
    let outline = round_outline(sizes, Length::from_m(outside), whole);
    let room = Room::of(inside, wall, l, ends, false).volume();
    // The length may be the whole one, and "dished" may be deeper or flatter.
    let shorter = material(outside, inside, (l - over).max(0.0), ends).0 / shell;
    let other = |ends: Ends| (shell + material(outside, inside, l, ends).1) / volume - 1.0;
    let dished = ends == Ends::DISHED;
    let solid = made(shape, formula, volume, terms, outline)
        .hollow_in(room + volume)
        .biased(
            (1.0 - shorter) * shell / volume
                + if dished { -other(Ends::FLATTEST) } else { 0.0 }.max(0.0),
            if shape == "drum" {
                CHIMES
            } else if dished {
                other(Ends::Elliptical).max(0.0)
            } else {
                0.0
            },
        );
    Ok(Solid {
        numbers: vec![("ends", caps)],
        ..solid
    })
}

/// The inside of a tank or drum.
///
/// # Errors
/// Which size is missing, or what contradicts.
pub fn room(shape: &str, sizes: &Sizes, details: &Details) -> Result<Room, NoSolid> {
    let given = given(shape, sizes, details)?;
    let wall = (given.outside - given.inside) / 2.0;
    let stands = sizes.length.is_none() && sizes.height.is_some();
    Ok(Room::of(
        given.inside,
        wall,
        given.length.length.m(),
        given.ends,
        stands,
    ))
}

impl Room {
    fn of(diameter: f64, wall: f64, length: f64, ends: Ends, stands: bool) -> Room {
        let flat = ends == Ends::Flat;
        Room {
            diameter,
            length: if flat { length - 2.0 * wall } else { length },
            ends,
            stands,
        }
    }

    /// What it holds, m3.
    pub fn volume(self) -> f64 {
        PI / 4.0 * self.diameter.powi(2) * self.length + 2.0 * self.ends.volume(self.diameter)
    }

    /// How high a liquid can stand in it, m.
    pub fn height(self) -> f64 {
        if self.stands {
            self.length + 2.0 * self.ends.depth(self.diameter)
        } else {
            self.diameter
        }
    }

    /// Volume below a level of `level` m above the lowest point inside, m3: slices across the axis, of which each is wetted in full
    /// (standing) or up to the level (lying).
    pub fn below(self, level: f64) -> f64 {
        let level = level.clamp(0.0, self.height());
        let depth = self.ends.depth(self.diameter);
        let r = self.diameter / 2.0;
        let sum = |from: f64, to: f64, area: &dyn Fn(f64) -> f64| {
            let width = (to - from).max(0.0) / f64::from(SLICES);
            let middle = |at: u32| from + (f64::from(at) + 0.5) * width;
            (0..SLICES).map(|at| area(middle(at))).sum::<f64>() * width
        };
        let end = |x: f64| self.ends.radius_at(self.diameter, x);
        if self.stands {
            let disc = |x: f64| PI * end(x).powi(2);
            let bottom = sum((depth - level).max(0.0), depth, &disc);
            let shell = PI * r * r * (level - depth).clamp(0.0, self.length);
            let top = sum(0.0, (level - depth - self.length).max(0.0), &disc);
            bottom + shell + top
        } else {
            let wetted = |radius: f64| segment(radius, level - (r - radius));
            wetted(r) * self.length + 2.0 * sum(0.0, depth, &|x| wetted(end(x)))
        }
    }
}

/// Area of a circle of radius `r` below the height `h` above its lowest point.
fn segment(r: f64, h: f64) -> f64 {
    let h = h.clamp(0.0, 2.0 * r);
    if r <= 0.0 {
        return 0.0;
    }
    r * r * (1.0 - h / r).clamp(-1.0, 1.0).acos() - (r - h) * (h * (2.0 * r - h)).max(0.0).sqrt()
}
