//! Labels between figures: in "6000 mm OD 323.9 mm wall 10 mm" they belong to the figure behind, in "323.9 OD 10 wall 6 m" to the one
//! before. A whole run is settled at once, so that no size is shifted.

use super::{Label, label_word};
use crate::units::LengthUnit;
use crate::units::written::{Decimal, WrittenLength, scan_length};

/// Where the labels of a run belong.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Side {
    /// To the figure before them.
    Before,
    /// To the figure behind them.
    Behind,
    /// Both are possible.
    Open,
}

/// Words that only ever follow their figure: "6 m long".
const FOLLOWING: [&str; 8] = ["long", "lg", "wide", "thick", "thk", "high", "tall", "deep"];

/// Settles the run that starts with a figure that ends at `end`; `joined` where it is the last of several sizes. The byte is where
/// the run ends.
pub(super) fn settled(
    text: &str,
    written: WrittenLength,
    mut end: usize,
    habit: Decimal,
    joined: bool,
) -> (Side, usize) {
    let mut figures = vec![written];
    let mut labels = Vec::new();
    while let Some((label, start, stop)) = label_word(text, end, figures[figures.len() - 1]) {
        let gap = &text[stop..];
        let next = gap.trim_start_matches([' ', '=', ':']);
        let at = stop + gap.len() - next.len();
        let figure = next.starts_with(|sign: char| sign.is_ascii_digit() || sign == '.');
        let scanned = scan_length(text, at, habit, None, false).filter(|_| figure);
        let following = FOLLOWING
            .iter()
            .any(|word| text[start..stop].eq_ignore_ascii_case(word));
        // A word that follows its figure, or one with its figure before it and none behind it, settles all before it.
        let (Some((written, after)), false) = (scanned, following) else {
            return (Side::Before, stop);
        };
        if gap[..at - stop].contains(['=', ':']) {
            return (Side::Behind, end);
        }
        if matches!(label, Label::Further(_)) {
            break;
        }
        labels.push(label);
        figures.push(written);
        end = after;
    }
    (side(&figures, &labels, joined), end)
}

fn side(figures: &[WrittenLength], labels: &[Label], joined: bool) -> Side {
    let ([first, behind @ ..], [before @ .., last]) = (figures, figures) else {
        return Side::Before;
    };
    let unit = figures.iter().rev().find_map(|figure| figure.unit);
    let mm = |figure: &WrittenLength| {
        let unit = figure.unit.or(unit).unwrap_or(LengthUnit::Mm);
        figure.figure.value * unit.m() * 1e3
    };
    let read = |own: &[WrittenLength], left: &WrittenLength| {
        let sizes: Vec<(Label, f64)> = labels.iter().copied().zip(own.iter().map(mm)).collect();
        is_possible(&sizes, mm(left))
    };
    // "48 x 0.075 ID 20 OD 60": the labels are of more sizes, not of the last of these.
    let alone = !joined || labels.len() < 2;
    let long = |figure: &WrittenLength| matches!(figure.unit, Some(LengthUnit::M | LengthUnit::Ft));
    let round = |label: &Label| matches!(label, Label::Outside | Label::Inside | Label::Wall);
    match (alone && read(before, last), read(behind, first)) {
        (true, false) => Side::Before,
        (false, true) => Side::Behind,
        (false, false) => Side::Open,
        // Length, width and height make the same box in any order.
        (true, true) if long(last) || !labels.iter().any(round) => Side::Before,
        (true, true) if long(first) && !behind.iter().any(long) => Side::Behind,
        (true, true) => Side::Open,
    }
}

/// Whether a piece can have these sizes and one more, mm: the inside is smaller than the outside, a wall is the smallest of all and a
/// length by that name the largest.
fn is_possible(sizes: &[(Label, f64)], left: f64) -> bool {
    let of = |label: Label| {
        sizes
            .iter()
            .find(|(own, _)| *own == label)
            .map(|(_, mm)| *mm)
    };
    let (outside, inside) = (of(Label::Outside), of(Label::Inside));
    let below = |one: Option<f64>, other: Option<f64>, times: f64| match (one, other) {
        (Some(one), Some(other)) => one * times < other,
        _ => true,
    };
    let thin = |size: Option<f64>| below(size, Some(left), 1.0);
    below(inside, outside, 1.0)
        && below(of(Label::Wall), outside, 2.0)
        && below(of(Label::Wall), inside, 1.0)
        && thin(of(Label::Wall))
        && thin(of(Label::Thickness))
        && of(Label::Length).is_none_or(|length| length >= left)
}
