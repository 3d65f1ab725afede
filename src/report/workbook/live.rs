//! A step of the working as a live formula of its own row, where its words say plainly enough how it is worked out.
//! Comes in: the words and the inputs of a step. Goes out: a formula whose result is the step's, or nothing.

use crate::estimate::Step;
use crate::report::formula::{self, Token};

/// How near a result worked out anew must be to the record's, relative: it must be the same sum, not a similar one.
const SAME: f64 = 1e-9;
/// Most characters of a formula (8,192 in the workbook's format), with room for a reader that counts its own way.
const MOST_CHARACTERS: usize = 8_000;
/// A step of more inputs is not looked at: two characters and a sign each would be too long.
const MOST_INPUTS: usize = MOST_CHARACTERS / 3;

/// Whether two results are the same sum.
pub fn same(one: f64, other: f64) -> bool {
    (one - other).abs() <= SAME * other.abs()
}

/// The formula of a step whose inputs stand in the cells `cells`, in order.
/// Nothing when the words use anything but the inputs' names, figures, `pi`, `+ - x * / ^` and brackets, when the
/// formula does not give the step's result, or when it is longer than a cell's.
pub fn formula(step: &Step, cells: &[String]) -> Option<String> {
    if step.inputs.len() > MOST_INPUTS {
        return None;
    }
    let tokens = formula::tokens(step)?;
    let values: Vec<f64> = step.inputs.iter().map(|(_, value)| *value).collect();
    let value = formula::value(&tokens, &values)?;
    let live = tokens.iter().any(|token| matches!(token, Token::Input(_)));
    if !(same(value, step.result) && live) {
        return None;
    }
    let mut text = String::from("=");
    for token in &tokens {
        match token {
            Token::Input(at) => text.push_str(cells.get(*at)?),
            Token::Number(value) => text.push_str(&value.to_string()),
            Token::Pi => text.push_str("PI()"),
            Token::Sign(sign) => text.push(*sign),
        }
    }
    (text.len() <= MOST_CHARACTERS).then_some(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(formula: &str, inputs: &[(&str, f64)], result: f64) -> Step {
        Step {
            what: "a test".into(),
            formula: formula.into(),
            inputs: inputs
                .iter()
                .map(|(name, value)| (name.to_string(), *value))
                .collect(),
            result,
            unit: "kg",
            source: "worked by hand".into(),
        }
    }

    /// Results worked by hand.
    #[test]
    fn words_become_formulas_only_when_they_give_the_result() {
        let (a, b, c) = (("length", 2.0), ("width", 3.0), ("wall", 0.5));
        for (words, result, expected) in [
            ("length x width", 6.0, Some("=B7*D7")),
            ("length × (width - 2 x wall)", 4.0, Some("=B7*(D7-2*F7)")),
            (
                "pi / 4 x (width^2 - wall²) x length",
                std::f64::consts::PI / 4.0 * 8.75 * 2.0,
                Some("=PI()/4*(D7^2-F7^2)*B7"),
            ),
            ("length x width", 6.1, None),
            ("length x height", 6.0, None),
            ("length x width)", 6.0, None),
            ("2 x 3", 6.0, None),
            ("HYPERLINK(length)", 2.0, None),
            ("length x width, rounded", 6.0, None),
        ] {
            let cells = ["B7", "D7", "F7"].map(String::from);
            let made = formula(&step(words, &[a, b, c], result), &cells);
            assert_eq!(made.as_deref(), expected, "{words}");
        }
    }

    #[test]
    fn the_longer_name_is_read_first() {
        let one = step(
            "mass of one piece x mass",
            &[("mass", 2.0), ("mass of one piece", 5.0)],
            10.0,
        );
        let cells = ["A3", "B3"].map(String::from);
        assert_eq!(formula(&one, &cells).as_deref(), Some("=B3*A3"));
    }

    /// A pallet of a thousand lines has a formula longer than a cell's.
    #[test]
    fn a_formula_longer_than_a_cell_is_none() {
        let (short, long) = (20, 1_200);
        for (number, live) in [(short, true), (long, false)] {
            let inputs: Vec<(String, f64)> = (1..=number)
                .map(|row| (format!("row {row}"), 2.0))
                .collect();
            let names: Vec<&str> = inputs.iter().map(|(name, _)| name.as_str()).collect();
            let cells: Vec<String> = (1..=number)
                .map(|row| format!("F{}", 10_000 + row))
                .collect();
            let mut sum = step(&names.join(" + "), &[], 2.0 * f64::from(number));
            sum.inputs = inputs;
            assert_eq!(formula(&sum, &cells).is_some(), live, "{number} lines");
        }
    }
}
