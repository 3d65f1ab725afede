//! Weights in words: what a cell that is no weight, or a sentence, says of one.

use crate::understand::SpokenWeight;
use crate::units::spelling;
use crate::units::written::{Decimal, fold, scan_figure};

/// The heaviest figure of a text that is no weight by itself ("600-650", "max. 650 kg", "2 x 325"), and whether words stand
/// beside it that say neither a unit nor a limit.
pub(super) fn heaviest(text: &str, habit: Decimal, us: bool) -> Option<SpokenWeight> {
    let text = fold(text).to_lowercase();
    let mut figures: Vec<f64> = Vec::new();
    let mut unit = None;
    let mut unread = false;
    let mut at = 0;
    let mut times = false;
    while let Some(sign) = text.get(at..).and_then(|rest| rest.chars().next()) {
        if sign.is_ascii_digit()
            && let Some((figure, end)) = scan_figure(&text, at, habit, true)
        {
            match figures.last_mut().filter(|_| times) {
                Some(last) => *last *= figure.value,
                None => figures.push(figure.value),
            }
            times = false;
            at = end.max(at + 1);
        } else if sign.is_alphabetic() || sign == '#' {
            let end = text[at..]
                .find(|sign: char| !(sign.is_alphabetic() || matches!(sign, '.' | '#')))
                .map_or(text.len(), |end| at + end);
            let word = text[at..end].trim_end_matches('.');
            match spelling::mass(word).and_then(|spelled| spelled.unit(Some(us))) {
                Some(found) => unit = Some(found),
                None if word == "x" => times = !figures.is_empty(),
                None => unread |= !matches!(word, "max" | "min" | "to" | "up" | "bis" | "ca" | "approx"),
            }
            at = end.max(at + sign.len_utf8());
        } else {
            times |= matches!(sign, '*' | '×') && !figures.is_empty();
            at += sign.len_utf8();
        }
    }
    let figure = figures.into_iter().fold(0.0, f64::max);
    (figure > 0.0).then_some(SpokenWeight {
        figure,
        unit,
        basis: None,
        unread,
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::MassUnit;

    #[test]
    fn the_heaviest_figure_counts() {
        for (text, figure, unit, unread) in [
            ("600-650", 650.0, None, false),
            ("max. 650 kg", 650.0, Some(MassUnit::Kg), false),
            ("<650", 650.0, None, false),
            ("650 +/- 10", 650.0, None, false),
            ("2 x 325 lb", 650.0, Some(MassUnit::Lb), false),
            ("6.4 kN", 6.4, None, true),
            ("2 pallets", 2.0, None, true),
        ] {
            let found = heaviest(text, Decimal::Point, false);
            assert_eq!(
                found.map(|found| (found.figure, found.unit, found.unread)),
                Some((figure, unit, unread)),
                "{text}"
            );
        }
        assert_eq!(heaviest("see note", Decimal::Point, false), None);
    }
}
