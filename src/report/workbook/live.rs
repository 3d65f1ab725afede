//! A step of the working as a live formula of its own row, where its words say plainly enough how it is worked out.
//! Comes in: the words and the inputs of a step. Goes out: a formula whose result is the step's, or nothing.

use crate::estimate::Step;
use crate::place::column_letters;
use crate::report::formula::{self, Token};

/// How near the formula's own result must be to the step's, relative: it must be the same sum, not a similar one.
const SAME: f64 = 1e-9;

/// The formula of a step whose inputs stand in row `row` (from 1), input `n` in column `columns[n]` (from 1).
/// Nothing when the words use anything but the inputs' names, figures, `pi`, `+ - x * / ^` and brackets, or when the
/// formula does not give the step's result.
pub fn formula(step: &Step, row: u32, columns: &[u32]) -> Option<String> {
    let tokens = formula::tokens(step)?;
    let values: Vec<f64> = step.inputs.iter().map(|(_, value)| *value).collect();
    let value = formula::value(&tokens, &values)?;
    let same = (value - step.result).abs() <= SAME * step.result.abs();
    if !(same && tokens.iter().any(|token| matches!(token, Token::Input(_)))) {
        return None;
    }
    let mut text = String::from("=");
    for token in &tokens {
        match token {
            Token::Input(at) => {
                text.push_str(&format!("{}{row}", column_letters(*columns.get(*at)?)))
            }
            Token::Number(value) => text.push_str(&value.to_string()),
            Token::Pi => text.push_str("PI()"),
            Token::Sign(sign) => text.push(*sign),
        }
    }
    Some(text)
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
            let made = formula(&step(words, &[a, b, c], result), 7, &[2, 4, 6]);
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
        assert_eq!(formula(&one, 3, &[1, 2]).as_deref(), Some("=B3*A3"));
    }
}
