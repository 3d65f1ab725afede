//! What a description says of a piece's form beyond its six sizes: flange and web, top, bend, openings, ends, fill.
//! Comes in: the item's further sizes and its words. Goes out: details that the shapes read. A detail that is not stated is
//! left out, never guessed.

mod fill;

pub use fill::Fill;

use super::shapes::ends::Ends;
use crate::tables::phrases::{Word, words};
use crate::understand::described::Further;
use crate::understand::{Item, Size1};
use crate::units::Length;

/// Sizes and figures that only some shapes have.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Details {
    /// Depth of a section.
    pub depth: Option<Size1>,
    /// Width of its flange.
    pub flange: Option<Size1>,
    /// Thickness of its flange.
    pub flange_thickness: Option<Size1>,
    /// Thickness of its web.
    pub web: Option<Size1>,
    /// Radius at the root of a flange, or of a bend's centre line.
    pub radius: Option<Size1>,
    /// Diameter or side at the top; thin end of a wedge.
    pub top: Option<Size1>,
    /// The other side at the top.
    pub top_width: Option<Size1>,
    /// Diameter of what a torus is bent from.
    pub section: Option<Size1>,
    /// Openings: width and height of each; a height of none where it is not stated.
    pub openings: Vec<(Size1, Option<Size1>)>,
    /// How many there are of each opening.
    pub times: u32,
    /// Angle of a bend, degrees.
    pub angle: Option<f64>,
    /// Bend radius over the nominal size: 1.5 for long, 1 for short radius (ASME B16.9, from memory).
    pub bend: Option<f64>,
    /// Form of a tank's ends.
    pub ends: Option<Ends>,
    /// What the words say of the contents.
    pub fill: Fill,
    /// How high the liquid stands in a tank.
    pub level: Option<Size1>,
    /// The words say that it is hollow.
    pub hollow: bool,
}

/// A bare figure below this is in another unit than the list's.
const SMALLEST: Length = Length::from_m(0.000_5);

/// The details of a line.
pub fn of(item: &Item) -> Details {
    let found = words(&item.description);
    let says = |any: &[&str]| found.iter().any(|word| any.contains(&word.plain.as_str()));
    let mut details = Details {
        angle: angle(&found),
        bend: bend(&found),
        ends: ends(&found),
        fill: fill::fill(&item.description),
        times: openings(&found),
        hollow: says(&[
            "hollow", "hohl", "creux", "creuse", "hueco", "hueca", "cavo", "cava",
        ]),
        ..Details::default()
    };
    for size in &item.further_sizes {
        if size.size.length < SMALLEST {
            continue;
        }
        let slot = match size.which {
            Further::Depth => &mut details.depth,
            Further::Flange => {
                details.flange_thickness = details.flange_thickness.or(size.second);
                &mut details.flange
            }
            Further::FlangeThickness => &mut details.flange_thickness,
            Further::Web => &mut details.web,
            Further::Radius => &mut details.radius,
            Further::Top => {
                details.top_width = details.top_width.or(size.second);
                &mut details.top
            }
            Further::Section => &mut details.section,
            Further::Opening => {
                details.openings.push((size.size, size.second));
                continue;
            }
            Further::Level => &mut details.level,
        };
        *slot = slot.or(Some(size.size));
    }
    details
}

impl Details {
    /// The same with every size times `ratio`: sizes in another unit.
    pub fn scaled(&self, ratio: f64) -> Details {
        let times = |size: Size1| Size1 {
            length: size.length * ratio,
            half_digit: size.half_digit * ratio,
            fine: size.fine,
        };
        let of = |size: Option<Size1>| size.map(times);
        let opening = |(width, height): &(Size1, Option<Size1>)| (times(*width), of(*height));
        Details {
            depth: of(self.depth),
            flange: of(self.flange),
            flange_thickness: of(self.flange_thickness),
            web: of(self.web),
            radius: of(self.radius),
            top: of(self.top),
            top_width: of(self.top_width),
            section: of(self.section),
            openings: self.openings.iter().map(opening).collect(),
            level: of(self.level),
            ..self.clone()
        }
    }
}

fn figure(word: &str) -> Option<f64> {
    word.parse().ok().filter(|value: &f64| value.is_finite())
}

/// "90 deg", "45°".
fn angle(found: &[Word]) -> Option<f64> {
    let unit = |word: &str| {
        matches!(
            word,
            "°" | "º" | "deg" | "degs" | "degree" | "degrees" | "grad"
        )
    };
    let at = |(at, word): (usize, &Word)| {
        let next = found.get(at + 1).map_or("", |word| word.plain.as_str());
        let glued = word.plain.find(|sign: char| !sign.is_ascii_digit());
        let (digits, rest) = word.plain.split_at(glued.unwrap_or(word.plain.len()));
        let degrees = figure(digits)?;
        (unit(rest) || rest.is_empty() && unit(next)).then_some(degrees)
    };
    let angle = found.iter().enumerate().find_map(at)?;
    (angle > 0.0 && angle <= 180.0).then_some(angle)
}

/// "long radius", "LR": 1.5 times the nominal size; "short radius", "SR": once (ASME B16.9, from memory).
fn bend(found: &[Word]) -> Option<f64> {
    found.iter().enumerate().find_map(|(at, word)| {
        let next = found.get(at + 1).map_or("", |word| word.plain.as_str());
        match (word.plain.as_str(), next) {
            ("long", "radius" | "rad") | ("lr", _) => Some(1.5),
            ("short", "radius" | "rad") | ("sr", _) => Some(1.0),
            _ => None,
        }
    })
}

fn ends(found: &[Word]) -> Option<Ends> {
    let end = |word: &str| {
        matches!(
            word,
            "end"
                | "ends"
                | "head"
                | "heads"
                | "ended"
                | "bottom"
                | "boden"
                | "boeden"
                | "fond"
                | "fonds"
        )
    };
    found.iter().enumerate().find_map(|(at, word)| {
        let next = found.get(at + 1).map_or("", |word| word.plain.as_str());
        match word.plain.as_str() {
            "flat" if end(next) => Some(Ends::Flat),
            "dished" | "domed" => Some(Ends::DISHED),
            "torispherical" => Some(Ends::DISHED),
            "klopper" | "kloepper" | "klopperboden" | "kloepperboden" => Some(Ends::DISHED),
            "elliptical" | "ellipsoidal" | "semielliptical" => Some(Ends::Elliptical),
            "hemispherical" | "hemisphere" => Some(Ends::Hemispherical),
            _ => None,
        }
    })
}

/// How many openings: the figure before the word.
fn openings(found: &[Word]) -> u32 {
    let at = |word: &Word| matches!(word.plain.as_str(), "opening" | "openings");
    let before = found
        .iter()
        .position(at)
        .and_then(|at| found.get(at.checked_sub(1)?));
    before
        .and_then(|word| word.plain.parse().ok())
        .unwrap_or(1)
        .max(1)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn found(text: &str) -> Vec<Word> {
        words(text)
    }

    #[test]
    fn words_say_angle_bend_and_ends() {
        for (text, expected) in [
            ("elbow 90 deg", Some(90.0)),
            ("elbow 45°", Some(45.0)),
            ("elbow 22 degrees", Some(22.0)),
            ("elbow 90", None),
            ("elbow 400 deg", None),
        ] {
            assert_eq!(angle(&found(text)), expected, "{text}");
        }
        assert_eq!(bend(&found("elbow 90 deg LR")), Some(1.5));
        assert_eq!(bend(&found("elbow short radius")), Some(1.0));
        assert_eq!(bend(&found("elbow R 305")), None);
        assert_eq!(ends(&found("tank, flat ends")), Some(Ends::Flat));
        assert_eq!(ends(&found("tank with dished ends")), Some(Ends::DISHED));
        assert_eq!(ends(&found("tank on a flat bed")), None);
        assert_eq!(openings(&found("panel with 2 openings 900 x 2100")), 2);
        assert_eq!(openings(&found("panel, opening 900 x 2100")), 1);
    }
}
