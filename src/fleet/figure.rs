//! Figures as a register writes them: "3,000", "3 000", "1'200", "16 1/2", "15 ft 9 in".
//! Never guesses: a figure that reads two ways is refused.

use crate::tables::register_headings::{fold, meaning};
use crate::units::{KG_PER_LB, LB_PER_SHORT_TON, M_PER_IN};

/// A unit of mass or length as a heading or a cell states it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Unit {
    /// Its short name in the table.
    pub name: &'static str,
    /// Kilograms or metres in one of it.
    pub factor: f64,
    /// Whether it is a unit of mass.
    pub mass: bool,
}

/// Why a text is no usable size.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Refused {
    /// It is no figure with a unit.
    Unreadable,
    /// "2.500 kg" may be two and a half or two thousand five hundred.
    TwoWays,
    /// Nothing states a unit.
    NoUnit,
    /// A unit of the other kind (kilograms for a length).
    WrongUnit,
    /// A ton of 2,000 or 2,240 lb.
    WhichTon,
}

/// The unit that a text names, if it names exactly one.
pub(super) fn unit(text: &str) -> Option<Unit> {
    let name = match text.trim() {
        "'" | "′" => "ft",
        "\"" | "″" | "''" => "in",
        "#" => "lb",
        other => {
            let folded = fold(other);
            meaning("mass-unit", &folded).or_else(|| meaning("length-unit", &folded))?
        }
    };
    let (factor, mass) = match name {
        "kg" => (1.0, true),
        "t" => (1_000.0, true),
        "lb" => (KG_PER_LB, true),
        "short-ton" => (LB_PER_SHORT_TON * KG_PER_LB, true),
        "which-ton" => (f64::NAN, true),
        "mm" => (0.001, false),
        "cm" => (0.01, false),
        "m" => (1.0, false),
        "in" => (M_PER_IN, false),
        "ft" => (12.0 * M_PER_IN, false),
        _ => return None,
    };
    Some(Unit { name, factor, mass })
}

/// A size in kilograms or metres from a cell's text; `heading` is the unit of its column, which the cell's own goes before.
pub(super) fn size(text: &str, heading: Option<Unit>, mass: bool) -> Result<f64, Refused> {
    match parts(text).as_slice() {
        [(number, "")] => value(number, heading.ok_or(Refused::NoUnit)?, mass),
        [(number, word)] => value(number, unit(word).ok_or(Refused::Unreadable)?, mass),
        [(feet, foot), (inches, inch)] => {
            let (foot, inch) = (unit(foot), unit(inch));
            match (foot, inch) {
                (Some(foot), Some(inch)) if foot.name == "ft" && inch.name == "in" => {
                    Ok(value(feet, foot, mass)? + value(inches, inch, mass)?)
                }
                _ => Err(Refused::Unreadable),
            }
        }
        _ => Err(Refused::Unreadable),
    }
}

/// A size from a cell that holds a number.
pub(super) fn numeric(number: f64, heading: Option<Unit>, mass: bool) -> Result<f64, Refused> {
    scaled(number, heading.ok_or(Refused::NoUnit)?, mass)
}

fn scaled(number: f64, unit: Unit, mass: bool) -> Result<f64, Refused> {
    if unit.mass != mass {
        Err(Refused::WrongUnit)
    } else if unit.factor.is_nan() {
        Err(Refused::WhichTon)
    } else {
        Ok(number * unit.factor)
    }
}

fn value(text: &str, unit: Unit, mass: bool) -> Result<f64, Refused> {
    let number = match figure(text).ok_or(Refused::Unreadable)? {
        Figure::Sure(number) => number,
        // One separator with three digits behind it: large units are written with decimals, small ones in thousands.
        // A comma between metres, or a full stop between kilograms, may be either.
        Figure::Either { thousands, .. }
            if text.contains(',') && ["lb", "kg", "mm", "cm", "in"].contains(&unit.name) =>
        {
            thousands
        }
        Figure::Either { decimal, .. }
            if text.contains('.') && ["m", "t", "ft", "in", "short-ton"].contains(&unit.name) =>
        {
            decimal
        }
        Figure::Either { .. } => return Err(Refused::TwoWays),
    };
    scaled(number, unit, mass)
}

/// Splits a text into figures and the words behind each.
fn parts(text: &str) -> Vec<(&str, &str)> {
    let mut parts = Vec::new();
    let mut rest = text.trim();
    while !rest.is_empty() {
        let (number, behind) = rest.split_at(figure_end(rest));
        let next = behind
            .find(|c: char| c.is_ascii_digit())
            .unwrap_or(behind.len());
        let (word, after) = behind.split_at(next);
        parts.push((number.trim(), word.trim()));
        rest = after;
    }
    parts
}

/// Length in bytes of the figure that a text starts with.
fn figure_end(text: &str) -> usize {
    for (at, c) in text.char_indices() {
        let behind = text.get(at + c.len_utf8()..).unwrap_or("");
        let goes_on = match c {
            '-' | '−' => at == 0,
            '\'' | '’' => thousand(behind),
            _ => c.is_ascii_digit() || ".,/½¼¾⅛⅜⅝⅞".contains(c) || c.is_whitespace(),
        };
        if !goes_on {
            return at;
        }
    }
    text.len()
}

/// Three digits and no fourth.
fn thousand(text: &str) -> bool {
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    digits == 3
}

enum Figure {
    Sure(f64),
    Either { thousands: f64, decimal: f64 },
}

fn figure(text: &str) -> Option<Figure> {
    let text = spelled_out(text);
    let (sign, text) = match text.strip_prefix(['-', '−']) {
        Some(rest) => (-1.0, rest.trim().to_string()),
        None => (1.0, text),
    };
    if text.contains('/') {
        let (whole, fraction) = text.rsplit_once(' ').unwrap_or(("0", &text));
        let (over, under) = fraction.split_once('/')?;
        let under = digits(under).filter(|under| *under > 0.0)?;
        return Some(Figure::Sure(
            sign * (digits(whole)? + digits(over)? / under),
        ));
    }
    let groups: Vec<&str> = text.split([' ', '\'', '’']).collect();
    if groups.len() > 1 {
        let joined = grouped(&groups)?;
        return Some(Figure::Sure(sign * decimal(&joined)?));
    }
    let marks = text.chars().filter(|c| ".,".contains(*c)).count();
    let last = text.rfind(['.', ',']);
    match (marks, last) {
        (0, _) => Some(Figure::Sure(sign * digits(&text)?)),
        (1, Some(at)) => {
            let (before, after) = (&text[..at], &text[at + 1..]);
            let either = sign * decimal(&text)?;
            let grouped = thousand(after)
                && after.len() == 3
                && before.len() <= 3
                && !before.starts_with('0')
                && !before.is_empty();
            Some(if grouped {
                Figure::Either {
                    thousands: sign * digits(&format!("{before}{after}"))?,
                    decimal: either,
                }
            } else {
                Figure::Sure(either)
            })
        }
        (_, Some(at)) => {
            let mark = text[at..].chars().next()?;
            let other = if mark == '.' { ',' } else { '.' };
            if text.contains(other) {
                let groups: Vec<&str> = text.split(other).collect();
                Some(Figure::Sure(sign * decimal(&grouped(&groups)?)?))
            } else {
                let groups: Vec<&str> = text.split(mark).collect();
                Some(Figure::Sure(sign * digits(&grouped(&groups)?)?))
            }
        }
        _ => None,
    }
}

/// Other spaces as plain ones, vulgar fractions spelled out.
fn spelled_out(text: &str) -> String {
    let mut plain = String::new();
    for c in text.trim().chars() {
        match c {
            '½' => plain.push_str(" 1/2"),
            '¼' => plain.push_str(" 1/4"),
            '¾' => plain.push_str(" 3/4"),
            '⅛' => plain.push_str(" 1/8"),
            '⅜' => plain.push_str(" 3/8"),
            '⅝' => plain.push_str(" 5/8"),
            '⅞' => plain.push_str(" 7/8"),
            c if c.is_whitespace() => plain.push(' '),
            c => plain.push(c),
        }
    }
    plain.trim().to_string()
}

/// Groups of thousands joined: the first of one to three digits, each other of three (the last may carry decimals).
fn grouped(groups: &[&str]) -> Option<String> {
    let (first, others) = groups.split_first()?;
    let sound = !first.is_empty()
        && first.len() <= 3
        && first.chars().all(|c| c.is_ascii_digit())
        && others
            .iter()
            .enumerate()
            .all(|(at, group)| thousand(group) && (at + 1 == others.len() || group.len() == 3));
    sound.then(|| groups.concat())
}

fn digits(text: &str) -> Option<f64> {
    let plain = !text.is_empty() && text.chars().all(|c| c.is_ascii_digit());
    plain.then(|| text.parse().ok()).flatten()
}

/// A figure with at most one decimal mark, point or comma.
fn decimal(text: &str) -> Option<f64> {
    let plain = text.replace(',', ".");
    let sound = plain.chars().any(|c| c.is_ascii_digit())
        && plain.chars().all(|c| c.is_ascii_digit() || c == '.');
    sound.then(|| plain.parse().ok()).flatten()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Ways of writing that the register must read; from the spreadsheets the trade sends, common practice, no source.
    #[test]
    fn written_sizes() {
        let inch = unit("in");
        let lb = unit("lb");
        for (text, heading, mass, si) in [
            ("3,000", lb, true, 3_000.0 * KG_PER_LB),
            ("3 000", lb, true, 3_000.0 * KG_PER_LB),
            ("3\u{202f}000 kg", lb, true, 3_000.0),
            ("1'200", unit("kg"), true, 1_200.0),
            ("1.250,5 kg", None, true, 1_250.5),
            ("1,250.5 kg", None, true, 1_250.5),
            ("2.5t", None, true, 2_500.0),
            ("2,5 t", None, true, 2_500.0),
            ("1.500 m", None, false, 1.5),
            ("16 1/2", inch, false, 16.5 * M_PER_IN),
            ("16½ in", None, false, 16.5 * M_PER_IN),
            ("1/2 in", None, false, 0.5 * M_PER_IN),
            ("15 ft 9 in", None, false, 189.0 * M_PER_IN),
            ("15' 9\"", None, false, 189.0 * M_PER_IN),
            ("15'9 1/2\"", None, false, 189.5 * M_PER_IN),
            ("24\"", None, false, 24.0 * M_PER_IN),
            ("24.125", inch, false, 24.125 * M_PER_IN),
            ("-5", lb, true, -5.0 * KG_PER_LB),
            ("1 234 567 kg", None, true, 1_234_567.0),
        ] {
            let read = size(text, heading, mass);
            assert!(
                read.is_ok_and(|read| (read - si).abs() < 1e-9 * si.abs()),
                "{text}: {read:?}, not {si}"
            );
        }
    }

    #[test]
    fn what_is_refused() {
        let kg = unit("kg");
        for (text, heading, mass, why) in [
            ("3000", None, true, Refused::NoUnit),
            ("2.500", kg, true, Refused::TwoWays),
            ("1,500 m", None, false, Refused::TwoWays),
            ("2.500 mm", None, false, Refused::TwoWays),
            ("24 kg", None, false, Refused::WrongUnit),
            ("3 tons", None, true, Refused::WhichTon),
            ("24-36", unit("in"), false, Refused::Unreadable),
            ("24 in (610 mm)", None, false, Refused::Unreadable),
            ("about 24 in", None, false, Refused::Unreadable),
            ("3,00,00 kg", None, true, Refused::Unreadable),
            ("30 00 kg", None, true, Refused::Unreadable),
            ("1/0 in", None, false, Refused::Unreadable),
            ("", kg, true, Refused::Unreadable),
            ("½¼/ in", None, false, Refused::Unreadable),
        ] {
            assert_eq!(size(text, heading, mass), Err(why), "{text}");
        }
    }
}
