//! Lengths: millimetres to yards, feet with inches and fractions in all their spellings.

use super::words::{approximate, names_a_size};
use super::{Decimal, Figure, fold, scan_figure};
use crate::units::{LengthUnit, spelling};

/// A length as written; the unit is the one beside the figure, if any (feet with inches count as inches).
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WrittenLength {
    /// The figure.
    pub figure: Figure,
    /// The unit written beside it.
    pub unit: Option<LengthUnit>,
}

impl WrittenLength {
    /// The length, with the unit beside the figure or else `default`; `None` when neither is known.
    pub fn in_unit(self, default: Option<LengthUnit>) -> Option<crate::units::Length> {
        let unit = self.unit.or(default);
        unit.map(|unit| unit.length(self.figure.value))
    }
}

/// Reads the length that starts at byte `at` of a folded text; gives the byte after it. With `default` feet,
/// `12-6 1/2` is twelve feet six and a half inches. `spaced` is for cells that hold nothing else: blanks may stand between
/// groups of digits, and between feet and inches without a mark (`6' 3`).
pub fn scan_length(
    text: &str,
    at: usize,
    habit: Decimal,
    default: Option<LengthUnit>,
    spaced: bool,
) -> Option<(WrittenLength, usize)> {
    let (figure, end) = scan_figure(text, at, habit, spaced)?;
    if let Some((unit, after)) = unit_at(text, end) {
        if unit == LengthUnit::Ft
            && let Some((inches, after)) = inches_after(text, after, habit, spaced)
        {
            return Some((feet_and_inches(figure, inches), after));
        }
        return Some((
            WrittenLength {
                figure,
                unit: Some(unit),
            },
            after,
        ));
    }
    let feet = default == Some(LengthUnit::Ft);
    if (feet || (spaced && default == Some(LengthUnit::In)))
        && figure.value.fract() == 0.0
        && text.as_bytes().get(end) == Some(&b'-')
        && let Some((inches, after)) = scan_figure(text, end + 1, habit, false)
        && inches.value < 12.0
        && (feet || inches.fraction)
    {
        // Under inches it can be nothing else but a range, which a size column seldom holds: said to be unclear.
        let inches = Figure {
            unclear: inches.unclear || !feet,
            ..inches
        };
        return Some((feet_and_inches(figure, inches), after));
    }
    Some((WrittenLength { figure, unit: None }, end))
}

fn feet_and_inches(feet: Figure, inches: Figure) -> WrittenLength {
    let unclear = feet.unclear || inches.unclear;
    let figure = Figure {
        value: feet.value * 12.0 + inches.value,
        fine: true,
        unclear,
        ..inches
    };
    WrittenLength {
        figure,
        unit: Some(LengthUnit::In),
    }
}

/// The inches after a foot mark: `-6 1/2"`, ` 3in`, `3`, `-0 1/2"`. Without an inch mark they must follow closely.
fn inches_after(text: &str, at: usize, habit: Decimal, alone: bool) -> Option<(Figure, usize)> {
    let bytes = text.as_bytes();
    let mut start = at;
    while matches!(bytes.get(start), Some(b' ' | b'-')) {
        start += 1;
    }
    let spaced = bytes.get(at..start)?.contains(&b' ');
    let (inches, end) = scan_figure(text, start, habit, false)?;
    if inches.value >= 12.0 {
        return None;
    }
    match unit_at(text, end) {
        Some((LengthUnit::In, after)) => Some((inches, after)),
        Some(_) => None,
        None => {
            let closed = !bytes
                .get(end)
                .is_some_and(|byte| byte.is_ascii_alphanumeric());
            let last = alone && text.get(end..).is_some_and(|rest| rest.trim().is_empty());
            (closed && (!spaced || inches.fraction || last)).then_some((inches, end))
        }
    }
}

/// The unit of length at byte `at`, at most one blank away; gives the byte after it.
fn unit_at(text: &str, at: usize) -> Option<(LengthUnit, usize)> {
    let bytes = text.as_bytes();
    // "20-ft", "40-inch"; other units are not written so: "5-M" is a mark.
    if bytes.get(at) == Some(&b'-') && bytes.get(at + 1).is_some_and(u8::is_ascii_alphabetic) {
        return unit_at(text, at + 1)
            .filter(|(unit, _)| matches!(unit, LengthUnit::In | LengthUnit::Ft));
    }
    let start = if bytes.get(at) == Some(&b' ') {
        at + 1
    } else {
        at
    };
    match bytes.get(start)? {
        b'"' => return Some((LengthUnit::In, start + 1)),
        b'\'' => return Some((LengthUnit::Ft, start + 1)),
        _ => {}
    }
    let rest = text.get(start..)?;
    let letters = rest
        .find(|sign: char| !sign.is_alphabetic())
        .unwrap_or(rest.len());
    let end = start + letters;
    // "10 m2" and "4 M24" are not lengths; "12 in." is. `x` after a unit ("6mx2m") is a separator, not a letter of it.
    if bytes.get(end).is_some_and(u8::is_ascii_digit) {
        // "6ft3in" has its inches at once behind, "6ft3" is a volume.
        let inches = rest[letters..].trim_start_matches(|sign: char| {
            sign.is_ascii_digit() || matches!(sign, '.' | ' ' | '-' | '/')
        });
        if spelling::length(&rest[..letters]) == Some(LengthUnit::Ft)
            && (inches.starts_with('"')
                || inches
                    .get(..2)
                    .is_some_and(|word| word.eq_ignore_ascii_case("in")))
        {
            return Some((LengthUnit::Ft, end));
        }
        let word = rest[..letters].strip_suffix(['x', 'X'])?;
        return spelling::length(word).map(|unit| (unit, start + word.len()));
    }
    // The point of "12ft.6in" is that of the foot.
    let dotted =
        bytes.get(end) == Some(&b'.') && !bytes.get(end + 1).is_some_and(u8::is_ascii_alphabetic);
    // "mt." is a metre behind a size, "mt" a tonne.
    let end = if dotted { end + 1 } else { end };
    let word = &text[start..end];
    let unit = spelling::length(word).or_else(|| spelling::length(word.trim_end_matches('.')))?;
    Some((unit, end))
}

/// Reads a whole cell as one length. The name of a size may stand before or after it (`L=6000`, `Ø 60`, `21' long`), and
/// "approx."; anything left over is no length.
pub fn length(text: &str, habit: Decimal, default: Option<LengthUnit>) -> Option<WrittenLength> {
    let text = fold(text);
    let (_, text) = approximate(text.trim().trim_start_matches('\''));
    let start = text.find(|sign: char| sign.is_ascii_digit())?;
    // ".280" begins with its point, "Lg.280" does not.
    let before = text.get(..start)?;
    let point = before.ends_with(['.', ','])
        && !before
            .trim_end_matches(['.', ','])
            .ends_with(char::is_alphabetic);
    let start = if point { start - 1 } else { start };
    let (written, end) = scan_length(text, start, habit, default, true)?;
    let rest = text.get(end..)?.trim();
    let (_, rest) = approximate(rest.strip_prefix('.').unwrap_or(rest).trim_start());
    (names_a_size(text.get(..start)?) && names_a_size(rest)).then_some(written)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn lengths_as_typed() {
        let feet = Some(LengthUnit::Ft);
        for (text, default, inches) in [
            ("20'-0\"", feet, 240.0),
            ("12'-6 1/2\"", feet, 150.5),
            ("12' 6-1/2\"", None, 150.5),
            ("12-6 1/2", feet, 150.5),
            ("10'-0½\"", feet, 120.5),
            ("40'", feet, 480.0),
            ("40' ", None, 480.0),
            ("6ft 3in", feet, 75.0),
            ("6'3", None, 75.0),
            ("8'6\"", None, 102.0),
            ("2'-6\"", feet, 30.0),
            ("20 FT", None, 240.0),
            ("5-1/2", Some(LengthUnit::In), 5.5),
            ("1½", Some(LengthUnit::In), 1.5),
            ("3/4\"", None, 0.75),
            ("8'-0 3/4\"", feet, 96.75),
            ("192", Some(LengthUnit::In), 192.0),
        ] {
            let found =
                length(text, Decimal::Point, default).and_then(|written| written.in_unit(default));
            assert!(
                found.is_some_and(|found| (found.inches() - inches).abs() < 1e-9),
                "{text}: {found:?}"
            );
        }
    }

    #[test]
    fn metric_lengths_as_typed() {
        let mm = Some(LengthUnit::Mm);
        for (text, habit, default, m) in [
            ("2.500", Decimal::Comma, mm, 2.5),
            ("6,3", Decimal::Comma, mm, 0.0063),
            ("2.5m", Decimal::Point, mm, 2.5),
            ("2,5 m", Decimal::Comma, mm, 2.5),
            ("L=6000", Decimal::Point, mm, 6.0),
            ("6mts", Decimal::Point, mm, 6.0),
            ("Ø 60", Decimal::Point, mm, 0.06),
            ("12 000", Decimal::Unclear, mm, 12.0),
            ("45 cm", Decimal::Unclear, mm, 0.45),
        ] {
            let found = length(text, habit, default).and_then(|written| written.in_unit(default));
            assert!(
                found.is_some_and(|found| (found.m() - m).abs() < 1e-12),
                "{text}: {found:?}"
            );
        }
    }

    #[test]
    fn what_is_no_length() {
        for text in [
            "",
            "-",
            "TBA",
            "M24x130",
            "10 m2",
            "see drawing 4",
            "48 x 40",
        ] {
            assert_eq!(length(text, Decimal::Point, None), None, "{text}");
        }
    }
}
