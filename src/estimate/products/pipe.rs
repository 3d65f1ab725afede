//! Steel pipe: by nominal size and schedule (NPS is not the outside diameter below 14 in), or by outside diameter and wall.
//!
//! Source: ASME B36.10M sizes, row by row in the table; mass by the ring rule 10.69 (D - t) t lb/ft, which the published plain-end
//! weights follow within 0.2 %.

use super::scan::{Chain, Kind, Scene, Token, Unit};
use super::words::Classes;
use super::{NOT_BARE_STEEL, PIPE, Product, STEEL_KG_M3, TUBE, hollow, show, trailing_length};
use crate::tables::products::{Pipe, milli, pipe, pipes};
use crate::units::Length;

/// Schedules of ASME B36.10M.
const SCHEDULES: &[(f64, &str)] = &[
    (5.0, "5"),
    (10.0, "10"),
    (20.0, "20"),
    (30.0, "30"),
    (40.0, "40"),
    (60.0, "60"),
    (80.0, "80"),
    (100.0, "100"),
    (120.0, "120"),
    (140.0, "140"),
    (160.0, "160"),
];
/// Smallest outside diameter and wall of pipe in millimetres: EN 10220 starts at 10.2 mm; walls below 1 mm are tube's (from memory).
const LEAST_MM: (f64, f64) = (10.0, 1.0);
/// Words that may stand between a nominal size and its schedule.
const BETWEEN: &[&str] = &[
    "pipe",
    "pipes",
    "nom",
    "nominal",
    "nps",
    "steel",
    "black",
    "blk",
    "galv",
    "galvanized",
    "erw",
    "smls",
    "seamless",
    "cs",
    "carbon",
    "pvc",
    "grade",
    "bore",
];

/// The one steel pipe a description names.
pub fn find(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    if scene.classes.any(NOT_BARE_STEEL.and(Classes::PLATE)) {
        return None;
    }
    match schedule(scene) {
        Schedule::None => by_diameter(scene, hint),
        Schedule::Doubtful => None,
        Schedule::One(place, schedule) => by_schedule(scene, place, schedule),
    }
}

/// What a description says about the schedule.
pub(super) enum Schedule {
    /// Nothing.
    None,
    /// Two that differ, or a stainless one (10S).
    Doubtful,
    /// The place of its first token, and its name.
    One(usize, &'static str),
}

pub(super) fn schedule(scene: &Scene) -> Schedule {
    let mut found: Option<(usize, &'static str)> = None;
    let piping = scene.classes.any(Classes::PIPE);
    for at in 0..scene.tokens.len() {
        let Some(word) = scene.word(at) else { continue };
        let name = match word {
            "sch" | "sched" | "schedule" => {
                let figures = scene.after_joiner(at + 1);
                let Some(number) = scene.value(figures) else {
                    continue;
                };
                if !scene.ends(figures + 1) {
                    return Schedule::Doubtful;
                }
                match SCHEDULES.iter().find(|(value, _)| *value == number) {
                    Some((_, name)) => name,
                    None => return Schedule::Doubtful,
                }
            }
            "std" if piping && scene.starts(at) => "STD",
            "xs" | "xh" if piping && scene.starts(at) => "XS",
            "xxs" | "xxh" if piping && scene.starts(at) => "XXS",
            _ => continue,
        };
        match found {
            // "SCH 40 STD" is one wall up to NPS 10, "XS" and 80 up to NPS 8: the size decides later, so the number counts.
            Some((_, first))
                if first != name
                    && !matches!((first, name), ("40", "STD") | ("80", "XS") | ("160", _)) =>
            {
                return Schedule::Doubtful;
            }
            Some(_) => {}
            None => found = Some((at, name)),
        }
    }
    found.map_or(Schedule::None, |(at, name)| Schedule::One(at, name))
}

fn by_schedule(scene: &Scene, place: usize, schedule: &'static str) -> Option<Product> {
    let nps = nominal(scene, place)?;
    let row = pipe(nps, schedule)?;
    if contradicts(scene, row) {
        return None;
    }
    let (od, wall) = (Length::from_in(row.od_in), Length::from_in(row.wall_in));
    let kg_per_m = ring(od, wall);
    let name = if schedule.starts_with(|sign: char| sign.is_ascii_digit()) {
        format!("SCH {schedule}")
    } else {
        schedule.to_string()
    };
    let designation = format!("NPS {} {name}", show::inches(nps));
    Some(Product {
        length: chain_length(scene),
        outline: Some((od, od)),
        working: format!(
            "{designation} is {} in outside with a wall of {} in: {}",
            show::figure(row.od_in),
            show::figure(row.wall_in),
            show::per_metre(kg_per_m)
        ),
        source: row.source.as_str(),
        ..Product::steel("pipe", "pipe", designation, kg_per_m, PIPE)
    })
}

/// The nominal size in inches: after NPS, DN or NB, with an inch mark, else beside the schedule or the word pipe.
pub(super) fn nominal(scene: &Scene, place: usize) -> Option<f64> {
    let places = 0..scene.tokens.len();
    let named: Vec<f64> = places
        .clone()
        .filter_map(|at| match scene.word(at)? {
            "nps" => scene
                .value(scene.after_joiner(at + 1))
                .filter(|nps| is_nominal(*nps)),
            "dn" => scene.value(scene.after_joiner(at + 1)).and_then(by_dn),
            "nb" => at
                .checked_sub(1)
                .and_then(|before| scene.value(before))
                .and_then(by_dn),
            _ => None,
        })
        .collect();
    if !named.is_empty() {
        return only(&named);
    }
    let marked: Vec<f64> = places
        .clone()
        .filter_map(|at| inch_size(scene, at))
        .filter(|nps| is_nominal(*nps))
        .collect();
    if !marked.is_empty() {
        return only(&marked);
    }
    let beside: Vec<f64> = places
        .filter(|at| plain_size(scene, *at, place))
        .filter_map(|at| scene.value(at))
        .filter(|nps| is_nominal(*nps))
        .collect();
    only(&beside)
}

/// A number with an inch mark that is not the second size of a chain, an outside diameter or a length.
pub(super) fn inch_size(scene: &Scene, at: usize) -> Option<f64> {
    let number = scene.number(at)?;
    let (unit, after) = scene.unit(at + 1)?;
    let other = matches!(
        scene.word(after),
        Some("od" | "wall" | "thk" | "long" | "lg" | "wide" | "id" | "o")
    );
    (unit == Unit::Inch && !other && !follows(scene, at, |kind| *kind == Kind::Times))
        .then_some(number.value)
}

/// A number without a unit directly before the schedule, or directly after the word pipe.
fn plain_size(scene: &Scene, at: usize, schedule: usize) -> bool {
    if scene.number(at).is_none()
        || scene.unit(at + 1).is_some()
        || follows(scene, at, |kind| *kind == Kind::Times)
    {
        return false;
    }
    let mut next = scene.after_joiner(at + 1);
    while next < schedule && scene.word(next).is_some_and(|word| BETWEEN.contains(&word)) {
        next = scene.after_joiner(next + 1);
    }
    let piped = follows(
        scene,
        at,
        |kind| matches!(kind, Kind::Word(word) if word == "pipe" || word == "pipes"),
    );
    let alone = !matches!(
        scene.tokens.get(at + 1).map(|token| &token.kind),
        Some(Kind::Word(_))
    );
    let number_of_schedule = at > 0 && at <= schedule + 2 && at > schedule;
    !number_of_schedule && (next == schedule || (piped && alone))
}

fn follows(scene: &Scene, at: usize, is: impl Fn(&Kind) -> bool) -> bool {
    at.checked_sub(1)
        .and_then(|before| scene.tokens.get(before))
        .is_some_and(|token: &Token| is(&token.kind))
}

fn is_nominal(nps: f64) -> bool {
    pipes().iter().any(|row| milli(row.nps) == milli(nps))
}

fn by_dn(dn: f64) -> Option<f64> {
    pipes().iter().find(|row| row.dn == dn).map(|row| row.nps)
}

pub(super) fn only(values: &[f64]) -> Option<f64> {
    let first = *values.first()?;
    values
        .iter()
        .all(|value| milli(*value) == milli(first))
        .then_some(first)
}

/// A chain of outside diameter and wall beside the name must say the same.
fn contradicts(scene: &Scene, row: &Pipe) -> bool {
    chains(scene).any(|(_, chain)| {
        let [od, wall] = [0, 1].map(|at| chain.dims.get(at));
        let (Some(od), Some(wall)) = (od, wall) else {
            return false;
        };
        if !od.number.decimals || !wall.number.decimals {
            return false;
        }
        let scale = if od.value() > 60.0 { 25.4 } else { 1.0 };
        (od.value() / scale / row.od_in - 1.0).abs() > 0.01
            || (wall.value() / scale / row.wall_in - 1.0).abs() > 0.04
    })
}

/// Chains of two or more sizes with the place where they start.
fn chains(scene: &Scene) -> impl Iterator<Item = (usize, Chain)> + '_ {
    (0..scene.tokens.len())
        .filter(|at| {
            scene.number(*at).is_some() && !follows(scene, *at, |kind| *kind == Kind::Times)
        })
        .filter_map(|at| scene.chain(at).map(|chain| (at, chain)))
        .filter(|(_, chain)| chain.dims.len() >= 2)
}

/// A last size of a chain that is a length by its unit: `6" SCH 40 x 21'`.
fn chain_length(scene: &Scene) -> Option<Length> {
    chains(scene).find_map(|(_, chain)| {
        let last = chain.dims.last()?;
        if last.unit == Some(Unit::Inch) {
            None
        } else {
            last.length().filter(|length| length.m() >= 0.5)
        }
    })
}

/// "Seamless pipe 60.3x3.6", "PIPE 4.500 OD X .237 WALL X 21'". A whole diameter may be a nominal one and is believed only with a
/// word for the outside diameter.
fn by_diameter(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    let round = scene.classes.any(Classes::TUBE) && scene.classes.any(Classes::ROUND);
    if !(scene.classes.any(Classes::PIPE) || round) || scene.says(&["dn"]) {
        return None;
    }
    let mut all = chains(scene);
    let (_, chain) = all.next()?;
    if all.next().is_some() || !chain.clean {
        return None;
    }
    let outside = chain.dims.first()?.number.decimals || scene.classes.any(Classes::ROUND);
    let (length, length_unclear) = trailing_length(&chain, 2)?;
    let (metres, inch) = hollow::sizes(&chain, 2, hint, hollow::PIPE_WALL_IN, LEAST_MM)?;
    let (od, wall) = (*metres.first()?, *metres.get(1)?);
    if !outside || wall * 2.2 > od || od > 2.5 || wall > 0.1 || wall * 200.0 < od {
        return None;
    }
    let kg_per_m = ring(Length::from_m(od), Length::from_m(wall));
    let unit = if inch { 0.0254 } else { 1e-3 };
    let designation = format!(
        "pipe {}x{} {}",
        show::figure(od / unit),
        show::figure(wall / unit),
        if inch { "in" } else { "mm" }
    );
    Some(Product {
        length,
        length_unclear,
        outline: Some((Length::from_m(od), Length::from_m(od))),
        working: format!(
            "{designation} by outside diameter and wall: {}",
            show::per_metre(kg_per_m)
        ),
        source: "rule of ASME B36.10M and EN 10220: pi (D - t) t at 7,850 kg/m3",
        extrapolated: true,
        ..Product::steel("pipe", "pipe", designation, kg_per_m, TUBE)
    })
}

fn ring(od: Length, wall: Length) -> f64 {
    std::f64::consts::PI * (od - wall).m() * wall.m() * STEEL_KG_M3
}
