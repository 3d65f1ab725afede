//! Weights in words: what a cell that is no weight, or a sentence, says of one.

use crate::understand::{SpokenWeight, WeightKind};
use crate::units::MassUnit;
use crate::units::spelling;
use crate::units::written::{self, Decimal, Figure, MassText, fold, scan_figure};

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
                None => {
                    unread |= !matches!(word, "max" | "min" | "to" | "up" | "bis" | "ca" | "approx")
                }
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

/// The one weight that a sentence states with its unit ("Pallet 2 - 640 kg gross"); none where it states several.
pub(in crate::understand) fn in_sentence(
    text: &str,
    us: bool,
) -> Option<(Figure, MassUnit, WeightKind)> {
    let text = fold(text);
    let words: Vec<&str> = text.split(' ').filter(|word| !word.is_empty()).collect();
    let figure = |word: &str| word.starts_with(|sign: char| sign.is_ascii_digit());
    let mut found: Vec<(Figure, MassUnit)> = Vec::new();
    let mut at = 0;
    while at < words.len() {
        if !figure(words[at]) {
            at += 1;
            continue;
        }
        // "12 000 kg": groups of three digits behind a figure are thousands apart.
        let grouped = |word: &&&str| {
            word.len() >= 3 && word.bytes().take(3).all(|byte| byte.is_ascii_digit())
        };
        let first = words[at].bytes().all(|byte| byte.is_ascii_digit());
        let run = 1 + words[at + 1..]
            .iter()
            .take_while(|word| first && grouped(word))
            .count();
        let mut mass = None;
        // The unit glued to the last figure, or behind it.
        for end in [at + run, (at + run + 1).min(words.len())] {
            let text = words[at..end].join(" ");
            if let MassText::Figure { figure, unit, .. } = written::mass(
                text.trim_end_matches(['.', ',', ';', ')']),
                Decimal::Unclear,
            ) && let Some(unit) = unit.and_then(|unit| unit.unit(Some(us)))
            {
                mass = mass.or(Some((figure, unit)));
            }
        }
        found.extend(mass);
        at += run;
    }
    let [(figure, unit)] = found.as_slice() else {
        return None;
    };
    let lower = text.to_lowercase();
    let kind = match (
        lower.contains("gross") || lower.contains("brut"),
        lower.contains("net"),
    ) {
        (true, false) => WeightKind::Gross,
        (false, true) => WeightKind::Net,
        _ => WeightKind::Unstated,
    };
    Some((*figure, *unit, kind))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_weight_of_a_sentence() {
        let said = |text: &str| {
            in_sentence(text, false).map(|(figure, unit, kind)| (figure.value, unit, kind))
        };
        let (gross, unstated) = (WeightKind::Gross, WeightKind::Unstated);
        for (text, expected) in [
            (
                "Pallet 2 - 640 kg gross",
                Some((640.0, MassUnit::Kg, gross)),
            ),
            (
                "Gross weight of the consignment: 12 000 kg.",
                Some((12_000.0, MassUnit::Kg, gross)),
            ),
            (
                "All on one skid, 1450lbs",
                Some((1450.0, MassUnit::Lb, unstated)),
            ),
            (
                "Pallets 1-3: 850 kg gross",
                Some((850.0, MassUnit::Kg, gross)),
            ),
            ("Pallet 1: 640 kg, pallet 2: 700 kg", None),
            ("Deliver before 12 noon", None),
            ("Gate 2, 3 pallets", None),
        ] {
            assert_eq!(said(text), expected, "{text}");
        }
    }

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
