//! Reinforcing bar: #5 (eighths of an inch), No. 16 (soft metric), T16 and 16 mm (metric), 15M (Canadian).
//! The four systems share numbers and differ up to eleven times, so a bar is recognised only beside a word for reinforcement,
//! and a number that two systems share only with a sign of which.
//!
//! Source: ASTM A615/A615M, EN 10080 / BS 4449, CSA G30.18, row by row in the table.

use super::scan::{Kind, Scene, Token, Unit};
use super::words::Classes;
use super::{Product, TUBE, show};
use crate::tables::products::{Rebar, mm, rebars};
use crate::units::Length;

/// Two names of one bar ("#5 (16 mm)") agree within this much.
const SAME_BAR: f64 = 0.03;
/// What a line of reinforcement must not be about: chairs, couplers, mesh, other substances.
const NOT_A_BAR: Classes = Classes::ACCESSORY
    .and(Classes::MADE)
    .and(Classes::FOREIGN)
    .and(Classes::PLATE);

struct Found {
    bar: &'static Rebar,
    name: String,
    length: Option<Length>,
}

/// The one reinforcing bar a description names.
pub fn find(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    let said = scene.classes.any(Classes::REBAR);
    if !(said || scene.classes.any(Classes::BAR)) || scene.classes.any(NOT_A_BAR) {
        return None;
    }
    let mut found = Vec::new();
    for at in 0..scene.tokens.len() {
        found.extend(bar_at(scene, at, said, hint)?);
    }
    let first = found.first()?;
    if found
        .iter()
        .any(|other| (other.bar.mass_kg_m / first.bar.mass_kg_m - 1.0).abs() > SAME_BAR)
    {
        return None;
    }
    let length = found
        .iter()
        .find_map(|found| found.length)
        .or_else(|| cut_length(scene));
    let bar = first.bar;
    Some(Product {
        length,
        outline: Some((mm(bar.diameter_mm), mm(bar.diameter_mm))),
        working: format!(
            "reinforcing bar {} has {} in the table",
            first.name,
            show::per_metre(bar.mass_kg_m)
        ),
        source: bar.source.as_str(),
        extrapolated: false,
        ..Product::steel("rebar", "rebar", first.name.clone(), bar.mass_kg_m, TUBE)
    })
}

/// A bar named at this token. The outer none: what stands here can be two bars, so nothing is recognised at all.
fn bar_at(scene: &Scene, at: usize, said: bool, hint: Option<bool>) -> Option<Option<Found>> {
    if scene.sign(at, '#') {
        return if said {
            inch_sign(scene, at + 1, hint)
        } else {
            Some(None)
        };
    }
    if let Some(word) = scene.word(at) {
        let figures = scene.after_joiner(at + 1);
        let glued = scene.tokens.get(at + 1).is_some_and(|token| token.glued);
        return Some(match word {
            "no" | "nr" if said => return numbered(scene, scene.after_joiner(figures), hint),
            "t" | "h" | "y" if glued && scene.starts(at) => metric(scene, at + 1),
            "b" | "n" | "k" if glued && said && scene.starts(at) => metric(scene, at + 1),
            "dia" | "diam" | "diameter" | "phi" if said => metric(scene, figures),
            _ => None,
        });
    }
    if !said || after_times(scene, at) || scene.number(at).is_none() {
        return Some(None);
    }
    let number = scene.number(at)?;
    // 15M: a capital letter glued to the number, and not a length.
    if let Some(Token {
        kind: Kind::Word(word),
        glued: true,
        capitals: true,
    }) = scene.tokens.get(at + 1)
        && word == "m"
    {
        let long = matches!(
            scene.word(at + 2),
            Some("long" | "lg" | "length" | "lengths" | "lang")
        );
        return Some(if long || !scene.ends(at + 2) {
            None
        } else {
            bar(
                "canada",
                number.value,
                format!("{}M", show::figure(number.value)),
                None,
            )
        });
    }
    Some(match scene.unit(at + 1) {
        Some((Unit::Millimetre, _)) if scene.starts(at) => metric(scene, at),
        Some((Unit::Inch, _)) if number.value <= 1.0 => inch_bar(scene, at, number.value * 8.0),
        None if number.fraction && number.value <= 1.0 => inch_bar(scene, at, number.value * 8.0),
        Some((Unit::Foot, _)) | None => None,
        _ => None,
    })
}

/// `#5`. In a metric file a number that is also a diameter in millimetres can be either.
fn inch_sign(scene: &Scene, at: usize, hint: Option<bool>) -> Option<Option<Found>> {
    let Some(number) = scene
        .value(at)
        .filter(|_| scene.tokens.get(at).is_some_and(|token| token.glued))
    else {
        return Some(None);
    };
    if hint == Some(true) && row("metric", number).is_some() {
        return None;
    }
    Some(inch_bar(scene, at, number))
}

/// `No. 16`: soft metric only with a metric sign, inch only where no soft metric bar has that number or the file is in inches.
fn numbered(scene: &Scene, at: usize, hint: Option<bool>) -> Option<Option<Found>> {
    let Some(number) = scene.value(at) else {
        return Some(None);
    };
    let soft = rebars().iter().find(|bar| bar.soft_metric == Some(number));
    let inch = row("inch", number);
    match (soft, inch, hint) {
        (Some(bar), _, Some(true)) => Some(Some(Found {
            bar,
            name: format!("No. {} (soft metric)", show::figure(number)),
            length: tail(scene, at),
        })),
        (_, Some(_), Some(false)) | (None, Some(_), None) => Some(inch_bar(scene, at, number)),
        (Some(_), _, _) => None,
        _ => Some(None),
    }
}

fn inch_bar(scene: &Scene, at: usize, number: f64) -> Option<Found> {
    bar(
        "inch",
        number,
        format!("#{}", show::figure(number)),
        tail(scene, at),
    )
}

fn metric(scene: &Scene, at: usize) -> Option<Found> {
    let number = scene.number(at).filter(|number| !number.fraction)?;
    let millimetres = match scene.unit(at + 1) {
        Some((Unit::Millimetre, _)) => true,
        Some((Unit::Inch | Unit::Foot, _)) => false,
        _ => scene.ends(at + 1),
    };
    millimetres.then(|| {
        bar(
            "metric",
            number.value,
            format!("{} mm", show::figure(number.value)),
            tail(scene, at),
        )
    })?
}

fn row(system: &str, number: f64) -> Option<&'static Rebar> {
    rebars()
        .iter()
        .find(|bar| bar.system == system && bar.number == number)
}

fn bar(system: &str, number: f64, name: String, length: Option<Length>) -> Option<Found> {
    row(system, number).map(|bar| Found { bar, name, length })
}

/// The length behind the size: `#5 x 20'`, `T16 x 12000`.
fn tail(scene: &Scene, at: usize) -> Option<Length> {
    let chain = scene.chain(at)?;
    if chain.dims.len() == 2 {
        chain.dims.last()?.length()
    } else {
        None
    }
}

/// A length joined by `x` behind the word: `#4 rebar x 20'`.
fn cut_length(scene: &Scene) -> Option<Length> {
    (0..scene.tokens.len())
        .filter(|at| after_times(scene, *at))
        .find_map(|at| scene.chain(at)?.dims.first()?.length())
        .filter(|length| length.m() >= 0.5)
}

fn after_times(scene: &Scene, at: usize) -> bool {
    at > 0
        && matches!(
            scene.tokens.get(at - 1),
            Some(Token {
                kind: Kind::Times,
                ..
            })
        )
}
