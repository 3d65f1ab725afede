//! Counts: a whole number of things, perhaps with what is counted behind it.

use super::words::approximate;
use super::{Decimal, fold, scan_figure};
use crate::tables::row_words;

/// Most things that a line can count.
const MOST: f64 = 10_000_000.0;

/// A count as written.
#[derive(Clone, Debug, PartialEq)]
pub struct WrittenCount {
    /// How many, dozens and pairs already counted out.
    pub number: u32,
    /// What is counted, as written; blank when nothing is said or when it was a dozen and the like.
    pub unit: String,
    /// How many each of them holds ("20 ctns of 12").
    pub each: Option<u32>,
    /// `24.000` where nothing tells thousands from decimals.
    pub unclear: bool,
}

/// How many pieces a unit of count stands for: pair 2, dozen 12, gross 144 (common practice, no source); 1 for any other.
pub fn multiple(unit: &str) -> u32 {
    match unit.trim().trim_end_matches('.').to_lowercase().as_str() {
        "pair" | "pairs" | "pr" | "prs" | "paar" | "paire" | "paires" | "par" | "pares" => 2,
        "doz" | "dozen" | "dozens" | "dz" | "dzn" | "dutzend" | "docena" | "docenas" => 12,
        "gro" | "gross" => 144,
        _ => 1,
    }
}

/// Reads a whole cell as a count; none when it is no whole number above zero, or when it holds more than one figure that
/// are not "so many of so many".
pub fn count(text: &str, habit: Decimal) -> Option<WrittenCount> {
    let folded = fold(text);
    let mut rest = folded.trim().trim_start_matches('\'').trim();
    if row_words::is_not_stated(rest) {
        return None;
    }
    rest = approximate(rest).1;
    if let Some(inner) = rest
        .strip_prefix('(')
        .and_then(|rest| rest.strip_suffix(')'))
    {
        rest = inner.trim();
    }
    rest = rest.strip_prefix(['x', 'X']).unwrap_or(rest).trim_start();
    let (figure, end) = scan_figure(rest, 0, habit, true)?;
    let (unit, each) = counted(rest.get(end..)?.trim())?;
    let number = figure.value * f64::from(multiple(unit));
    (number.fract() == 0.0 && (1.0..=MOST).contains(&number)).then(|| WrittenCount {
        number: number as u32,
        unit: if multiple(unit) > 1 {
            String::new()
        } else {
            unit.to_string()
        },
        each,
        unclear: figure.unclear,
    })
}

/// What stands behind the number: the unit, and how many each holds.
fn counted(after: &str) -> Option<(&str, Option<u32>)> {
    let Some(digit) = after.find(|sign: char| sign.is_ascii_digit()) else {
        let unit = after.trim_matches(['(', ')', '*', ' ', ';', ':', ',']);
        // "2/case" says how many a case holds, "10 %" and "10+" say something else.
        let plain = unit
            .chars()
            .all(|sign| sign.is_alphanumeric() || matches!(sign, '.' | ' ' | '(' | ')'));
        return plain.then_some((unit, None));
    };
    let (words, number) = after.split_at(digit);
    let (unit, joint) = words.trim().rsplit_once(' ')?;
    let number =
        number.trim_end_matches(|sign: char| sign.is_alphabetic() || matches!(sign, ' ' | '.'));
    let of = matches!(
        joint.to_lowercase().as_str(),
        "of" | "x" | "@" | "à" | "zu" | "je"
    );
    let each = number.parse().ok().filter(|each| of && *each > 0)?;
    Some((unit.trim(), Some(each)))
}
