//! Masses: a figure, perhaps with its unit, perhaps not a weight at all.

use super::words::{approximate, says_approximate};
use super::{Decimal, Figure, fold, scan_figure};
use crate::tables::headings::{self, Role};
use crate::tables::phrases::words;
use crate::units::MassUnit;
use crate::units::spelling::{self, MassSpelling};

/// What the words of the cell itself say that a weight is of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Of {
    /// One piece ("each").
    Piece,
    /// One package ("/ctn"; `@` in East Asian lists).
    Package,
    /// The line ("total").
    Line,
}

/// What a weight cell's text says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MassText {
    /// A figure greater than zero, with what stands beside it.
    Figure {
        /// The figure.
        figure: Figure,
        /// Unit beside it.
        unit: Option<MassSpelling>,
        /// "approx.", "ca.", "~".
        approximate: bool,
        /// "each", "@", "total".
        of: Option<Of>,
        /// Gross (`true`) or net, where the cell says so.
        gross: Option<bool>,
    },
    /// Blank, a dash, "TBA" and the like.
    NotStated,
    /// Zero.
    Zero,
    /// A minus sign or brackets: a return or a credit.
    Negative,
    /// Two figures where one is expected (`450-500`), unless they are one weight in two units.
    TwoFigures,
    /// A spreadsheet program's error kept as text (`#REF!`).
    Error,
    /// Nothing that reads as a weight.
    NotAWeight,
}

/// Reads a whole cell as a mass.
pub fn mass(text: &str, habit: Decimal) -> MassText {
    read(text, habit, true)
}

/// Reads a text as a mass; `twice` allows it to stand there in a second unit too.
fn read(text: &str, habit: Decimal, twice: bool) -> MassText {
    let folded = fold(text);
    let rest = folded.trim().trim_start_matches('\'').trim();
    if crate::tables::row_words::is_not_stated(rest) {
        return MassText::NotStated;
    }
    if is_error(rest) {
        return MassText::Error;
    }
    let mut beside = Beside::default();
    let (about, rest) = approximate(rest);
    beside.approximate = about;
    let inner = rest
        .strip_prefix('(')
        .and_then(|rest| rest.strip_suffix(')'));
    let Some(start) = inner
        .unwrap_or(rest)
        .find(|sign: char| sign.is_ascii_digit())
    else {
        return MassText::NotAWeight;
    };
    let (before, rest) = split_before(inner.unwrap_or(rest), start);
    let mut before = before.trim();
    let minus = before.ends_with('-');
    before = before.trim_end_matches(['-', '+', ' ']);
    if let Some(rest) = before.strip_suffix('@') {
        beside.of = Some(Of::Package);
        before = rest;
    }
    if !beside.take(before, true) {
        return MassText::NotAWeight;
    }
    let Some((figure, end)) = heaviest(rest, habit) else {
        return MassText::NotAWeight;
    };
    let glued = rest
        .get(end..)
        .is_some_and(|after| after.starts_with(char::is_alphabetic));
    let after = rest.get(end..).unwrap_or("").trim();
    let (unit, left) = unit_before(after);
    beside.unit = unit.or(beside.unit);
    if left.contains(|sign: char| sign.is_ascii_digit()) {
        // "4.10E+08" is a name that a spreadsheet program took for a number.
        if glued && unit.is_none() {
            return MassText::NotAWeight;
        }
        if !(twice && same_in_another_unit(figure, beside.unit, left, habit)) {
            return MassText::TwoFigures;
        }
    } else if left.starts_with('-') || after.starts_with('-') {
        return MassText::Negative;
    } else if !beside.take(left, false) {
        return MassText::NotAWeight;
    }
    if figure.value == 0.0 {
        return MassText::Zero;
    }
    if minus || inner.is_some() {
        return MassText::Negative;
    }
    MassText::Figure {
        figure,
        unit: beside.unit,
        approximate: beside.approximate,
        of: beside.of,
        gross: beside.gross,
    }
}

/// An error that a spreadsheet program shows: `#REF!`, in Spanish `#¡REF!`, or `Err:502`.
fn is_error(text: &str) -> bool {
    text.strip_prefix('#').is_some_and(|name| {
        name.starts_with(|sign: char| sign.is_alphabetic() || "¡¿".contains(sign))
    }) || text
        .get(..4)
        .is_some_and(|start| start.eq_ignore_ascii_case("err:"))
}

/// The figure at the start of a text. One that can be read in two ways counts as the heavier until somebody asks: 2.500
/// may be two and a half tonnes.
fn heaviest(text: &str, habit: Decimal) -> Option<(Figure, usize)> {
    let (mut figure, end) = scan_figure(text, 0, habit, true)?;
    if figure.unclear {
        for habit in [Decimal::Point, Decimal::Comma] {
            let (reading, _) = scan_figure(text, 0, habit, true)?;
            if reading.value > figure.value {
                figure = Figure {
                    unclear: true,
                    ..reading
                };
            }
        }
    }
    Some((figure, end))
}

/// The text before the first digit at `start`, and the figure: a point or comma after a blank belongs to the figure.
fn split_before(text: &str, start: usize) -> (&str, &str) {
    let (before, rest) = text.split_at(start);
    match before.strip_suffix(['.', ',']) {
        Some(shorter) if !shorter.ends_with(char::is_alphabetic) => text.split_at(shorter.len()),
        _ => (before, rest),
    }
}

/// What the words around the figure say.
#[derive(Default)]
struct Beside {
    unit: Option<MassSpelling>,
    approximate: bool,
    of: Option<Of>,
    gross: Option<bool>,
}

impl Beside {
    /// Takes the words of a text; false when one of them does not belong beside a weight. Before the figure only
    /// kilograms and pounds are units: "T 5" may be a mark.
    fn take(&mut self, text: &str, before: bool) -> bool {
        let plain = |sign: char| sign.is_alphanumeric() || " ./,;:()[]*#-=".contains(sign);
        if !text.chars().all(plain) {
            return false;
        }
        let found = words(text);
        let mut at = 0;
        while let Some(word) = found.get(at) {
            let spelled = spelling::mass(&word.raw);
            let leads = matches!(
                spelled,
                Some(MassSpelling::Known(MassUnit::Kg | MassUnit::Lb))
            ) && word.raw != "#";
            if spelled.is_some()
                && if before {
                    leads && self.unit.is_none()
                } else {
                    self.unit == spelled
                }
            {
                self.unit = spelled;
                at += 1;
            } else if let Some((taken, _)) =
                headings::at(&found, at).filter(|(_, roles)| self.says(roles))
            {
                at += taken;
            } else if says_approximate(word) {
                self.approximate = true;
                at += 1;
            } else if matches!(word.plain.as_str(), "/" | "*" | "theo" | "theoretical") {
                at += 1;
            } else {
                return false;
            }
        }
        true
    }

    /// Takes what a heading's words say about a weight; false when they speak of anything else.
    fn says(&mut self, roles: &[Role]) -> bool {
        let weighs = |role: &Role| {
            matches!(
                role,
                Role::Weight
                    | Role::AmbiguousWt
                    | Role::Gross
                    | Role::Net
                    | Role::Piece
                    | Role::PerPackage
                    | Role::WholeLine
                    | Role::Quantity
            )
        };
        // "12 pcs" counts pieces; "12 kg pcs" and "12 kg ea" speak of one.
        let counts = self.unit.is_none() && roles.contains(&Role::Quantity);
        if roles.is_empty() || counts || !roles.iter().all(weighs) {
            return false;
        }
        for role in roles {
            match role {
                Role::Gross => self.gross = Some(true),
                Role::Net => self.gross = Some(false),
                Role::Piece | Role::Quantity => self.of = Some(Of::Piece),
                Role::PerPackage => self.of = Some(Of::Package),
                Role::WholeLine => self.of = Some(Of::Line),
                _ => {}
            }
        }
        true
    }
}

/// `1,234.5 kg (2,721.6 lb)`: the second figure is the first in another unit, to their last digits and one in a thousand.
fn same_in_another_unit(
    figure: Figure,
    unit: Option<MassSpelling>,
    left: &str,
    habit: Decimal,
) -> bool {
    // "1 lb 8 oz" has nothing between its figures: they add up.
    let Some(left) = left
        .strip_prefix(['/', '(', '[', '='])
        .map(|left| left.trim_matches([')', ']', ' ']))
    else {
        return false;
    };
    let known = |spelled: Option<MassSpelling>| {
        spelled
            .and_then(|spelled| spelled.unit(None))
            .map(MassUnit::kg)
    };
    let MassText::Figure {
        figure: other,
        unit: other_unit,
        ..
    } = read(left, habit, false)
    else {
        return false;
    };
    let (Some(one), Some(two)) = (known(unit), known(other_unit)) else {
        return false;
    };
    let slack = figure.half_digit * one + other.half_digit * two + 0.001 * figure.value * one;
    one != two && (figure.value * one - other.value * two).abs() <= slack
}

/// The longest unit spelling at the start of `after`, and what follows it.
fn unit_before(after: &str) -> (Option<MassSpelling>, &str) {
    let longest = spelling::longest_mass();
    let ends: Vec<usize> = after
        .char_indices()
        .chain([(after.len(), ' ')])
        .take_while(|(at, _)| *at <= longest)
        .filter(|(at, sign)| *at > 0 && !sign.is_alphanumeric())
        .map(|(at, _)| at)
        .collect();
    for end in ends.into_iter().rev() {
        let word = after[..end].trim_end_matches([',', ';', ':']);
        if let Some(unit) = spelling::mass(word) {
            return (Some(unit), after[end..].trim_start());
        }
    }
    // "#" may stand directly before other words.
    match after.strip_prefix('#') {
        Some(rest) => (spelling::mass("#"), rest.trim_start()),
        None => (None, after),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::MassUnit;

    #[test]
    fn masses_as_typed() {
        for (text, value, unit) in [
            ("39,767#", 39_767.0, Some(MassUnit::Lb)),
            ("1,020 KGS", 1_020.0, Some(MassUnit::Kg)),
            ("0.92 t", 0.92, Some(MassUnit::Tonne)),
            ("approx. 450", 450.0, None),
            ("ca. 450 kg", 450.0, Some(MassUnit::Kg)),
            ("16,359.30", 16_359.3, None),
            ("@25.3", 25.3, None),
            ("1.2 short tons", 1.2, Some(MassUnit::ShortTon)),
            ("850 lbs gross", 850.0, Some(MassUnit::Lb)),
            ("12 000 kg", 12_000.0, Some(MassUnit::Kg)),
        ] {
            match mass(text, Decimal::Point) {
                MassText::Figure {
                    figure,
                    unit: found,
                    ..
                } => {
                    assert_eq!(figure.value, value, "{text}");
                    assert_eq!(found.and_then(|spelled| spelled.unit(None)), unit, "{text}");
                }
                other => panic!("{text}: {other:?}"),
            }
        }
    }

    #[test]
    fn what_is_no_weight() {
        for (text, expected) in [
            ("", MassText::NotStated),
            ("TBA", MassText::NotStated),
            ("-", MassText::NotStated),
            ("n/a", MassText::NotStated),
            ("X", MassText::NotStated),
            ("#REF!", MassText::Error),
            ("0", MassText::Zero),
            ("0.00 kg", MassText::Zero),
            ("-12", MassText::Negative),
            ("(1,200)", MassText::Negative),
            ("49.03-", MassText::Negative),
            ("450-500", MassText::TwoFigures),
            ("26kgs/30.5kgs", MassText::TwoFigures),
            ("see note", MassText::NotAWeight),
            ("2 pallets", MassText::NotAWeight),
        ] {
            assert_eq!(mass(text, Decimal::Point), expected, "{text}");
        }
    }

    /// A minute was not enough for this cell when every figure was compared with all that stood behind it.
    #[test]
    fn a_long_row_of_figures_is_two_figures() {
        for part in ["7/", "7 kg / ", "1 234 ", "1,234 lb (", "6ft"] {
            let text = part.repeat(30_000);
            let found = mass(&text, Decimal::Point);
            assert!(
                matches!(found, MassText::TwoFigures | MassText::NotAWeight),
                "{part}: {found:?}"
            );
        }
    }
}
