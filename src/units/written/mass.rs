//! Masses: a figure, perhaps with its unit, perhaps not a weight at all.

use super::{Decimal, Figure, fold, scan_figure};
use crate::units::spelling::{self, MassSpelling};

/// What a weight cell's text says.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum MassText {
    /// A figure greater than zero, with the unit beside it if there is one.
    Figure {
        /// The figure.
        figure: Figure,
        /// Unit beside it.
        unit: Option<MassSpelling>,
        /// "approx.", "ca.", "~".
        approximate: bool,
    },
    /// Blank, a dash, "TBA" and the like.
    NotStated,
    /// Zero.
    Zero,
    /// A minus sign or brackets: a return or a credit.
    Negative,
    /// Two figures where one is expected (`450-500`).
    TwoFigures,
    /// Nothing that reads as a weight.
    NotAWeight,
}

const APPROXIMATE: [&str; 11] = [
    "approx.", "approx", "about", "abt.", "abt", "circa", "ca.", "ca", "~", "≈", "est.",
];
/// Words that may follow a weight and say nothing about its unit.
const AFTER: [&str; 12] = [
    "net",
    "gross",
    "total",
    "ea",
    "each",
    "pc",
    "pcs",
    "nett",
    "brutto",
    "netto",
    "theo",
    "theoretical",
];

/// Reads a whole cell as a mass.
pub fn mass(text: &str, habit: Decimal) -> MassText {
    let folded = fold(text);
    let mut rest = folded.trim().trim_start_matches('\'').trim();
    if crate::tables::row_words::is_not_stated(rest) {
        return MassText::NotStated;
    }
    let lower = rest.to_lowercase();
    let mut approximate = false;
    for word in APPROXIMATE {
        if lower.starts_with(word) && rest.is_char_boundary(word.len()) {
            rest = rest[word.len()..].trim_start();
            approximate = true;
            break;
        }
    }
    rest = rest.trim_start_matches('@').trim_start();
    let bracketed = rest.starts_with('(') && rest.ends_with(')');
    if bracketed {
        rest = rest[1..rest.len() - 1].trim();
    }
    let minus = rest.starts_with('-');
    rest = rest.trim_start_matches(['-', '+']).trim_start();
    let Some((figure, end)) = scan_figure(rest, 0, habit, true) else {
        return MassText::NotAWeight;
    };
    let mut after = rest.get(end..).unwrap_or("").trim();
    let trailing_minus = after == "-";
    if trailing_minus {
        after = "";
    }
    let (unit, after) = unit_before(after);
    match unit_words_left(after) {
        Left::Nothing => {}
        Left::Figure => return MassText::TwoFigures,
        Left::Words => return MassText::NotAWeight,
    }
    if minus || bracketed || trailing_minus {
        return MassText::Negative;
    }
    if figure.value == 0.0 {
        return MassText::Zero;
    }
    MassText::Figure {
        figure,
        unit,
        approximate,
    }
}

/// The longest unit spelling at the start of `after`, and what follows it.
fn unit_before(after: &str) -> (Option<MassSpelling>, &str) {
    let ends: Vec<usize> = after
        .char_indices()
        .filter(|(at, sign)| *at > 0 && !sign.is_alphanumeric())
        .map(|(at, _)| at)
        .chain([after.len()])
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

enum Left {
    Nothing,
    Figure,
    Words,
}

fn unit_words_left(after: &str) -> Left {
    let after = after.trim_start_matches(['/', '.', ',', ';', ' ']);
    if after.is_empty() {
        return Left::Nothing;
    }
    if after
        .trim_start_matches(['-', ' ', '/'])
        .starts_with(|sign: char| sign.is_ascii_digit())
    {
        return Left::Figure;
    }
    let plain = after
        .split(|sign: char| !sign.is_alphabetic())
        .filter(|word| !word.is_empty())
        .all(|word| {
            AFTER.contains(&word.to_lowercase().as_str()) || spelling::mass(word).is_some()
        });
    if plain { Left::Nothing } else { Left::Words }
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
}
