//! A step of the working as a live formula of its own row, where its words say plainly enough how it is worked out.
//! Comes in: the words and the inputs of a step. Goes out: a formula whose result is the step's, or nothing.
//! Only names of inputs, numbers, signs and brackets get through, so no text of a supplier can become a formula.

use crate::estimate::Step;
use crate::place::column_letters;

/// How near the formula's own result must be to the step's, relative: it must be the same sum, not a similar one.
const SAME: f64 = 1e-9;

/// The formula of a step whose inputs stand in row `row` (from 1), input `n` in column `columns[n]` (from 1).
/// Nothing when the words use anything but the inputs' names, figures, `pi`, `+ - x * / ^` and brackets, or when the
/// formula does not give the step's result.
pub fn formula(step: &Step, row: u32, columns: &[u32]) -> Option<String> {
    let tokens = tokens(step)?;
    let mut reader = Reader {
        tokens: &tokens,
        at: 0,
        inputs: &step.inputs,
    };
    let value = reader.sum()?;
    let whole = reader.at == tokens.len();
    let same = (value - step.result).abs() <= SAME * step.result.abs();
    if !(whole && same && tokens.iter().any(|token| matches!(token, Token::Input(_)))) {
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

#[derive(Clone, Copy, PartialEq)]
enum Token {
    Input(usize),
    Number(f64),
    Pi,
    Sign(char),
}

fn tokens(step: &Step) -> Option<Vec<Token>> {
    // Longest names first, so that "mass of one piece" is not read as "mass".
    let mut names: Vec<(usize, &str)> = step
        .inputs
        .iter()
        .map(|(name, _)| name.as_str())
        .enumerate()
        .collect();
    names.sort_by_key(|(_, name)| std::cmp::Reverse(name.len()));
    let mut rest = step.formula.as_str();
    let mut tokens = Vec::new();
    loop {
        rest = rest.trim_start();
        let Some(first) = rest.chars().next() else {
            return Some(tokens);
        };
        let name = names.iter().find(|(_, name)| whole_word(rest, name));
        let (token, length) = if let Some((at, name)) = name {
            (Token::Input(*at), name.len())
        } else if first.is_ascii_digit() {
            let length = rest
                .find(|letter: char| !letter.is_ascii_digit() && letter != '.')
                .unwrap_or(rest.len());
            (Token::Number(rest.get(..length)?.parse().ok()?), length)
        } else if whole_word(rest, "pi") {
            (Token::Pi, 2)
        } else if whole_word(rest, "x") {
            (Token::Sign('*'), 1)
        } else {
            match first {
                '+' | '-' | '*' | '/' | '^' | '(' | ')' => (Token::Sign(first), 1),
                '×' => (Token::Sign('*'), first.len_utf8()),
                '−' => (Token::Sign('-'), first.len_utf8()),
                '²' => {
                    tokens.push(Token::Sign('^'));
                    (Token::Number(2.0), first.len_utf8())
                }
                '³' => {
                    tokens.push(Token::Sign('^'));
                    (Token::Number(3.0), first.len_utf8())
                }
                _ => return None,
            }
        };
        tokens.push(token);
        rest = rest.get(length..)?;
    }
}

fn whole_word(text: &str, word: &str) -> bool {
    let after = text.strip_prefix(word);
    !word.is_empty()
        && after.is_some_and(|after| {
            !after.starts_with(|letter: char| letter.is_alphabetic() || letter.is_ascii_digit())
        })
}

/// Works out what a spreadsheet program would, by its rules of precedence.
struct Reader<'t> {
    tokens: &'t [Token],
    at: usize,
    inputs: &'t [(String, f64)],
}

impl Reader<'_> {
    fn sum(&mut self) -> Option<f64> {
        let mut value = self.product()?;
        while let Some(sign) = self.sign(&['+', '-']) {
            let next = self.product()?;
            value = if sign == '+' {
                value + next
            } else {
                value - next
            };
        }
        Some(value)
    }

    fn product(&mut self) -> Option<f64> {
        let mut value = self.power()?;
        while let Some(sign) = self.sign(&['*', '/']) {
            let next = self.power()?;
            value = if sign == '*' {
                value * next
            } else {
                value / next
            };
        }
        Some(value)
    }

    fn power(&mut self) -> Option<f64> {
        let mut value = self.operand()?;
        while self.sign(&['^']).is_some() {
            value = value.powf(self.operand()?);
        }
        Some(value)
    }

    fn operand(&mut self) -> Option<f64> {
        let token = *self.tokens.get(self.at)?;
        self.at += 1;
        match token {
            Token::Input(at) => self.inputs.get(at).map(|(_, value)| *value),
            Token::Number(value) => Some(value),
            Token::Pi => Some(std::f64::consts::PI),
            Token::Sign('(') => {
                // The words of a step are short; a deep nest of brackets is not one of ours.
                if self.tokens.len() > 200 {
                    return None;
                }
                let value = self.sum()?;
                self.sign(&[')'])?;
                Some(value)
            }
            Token::Sign(_) => None,
        }
    }

    fn sign(&mut self, wanted: &[char]) -> Option<char> {
        match self.tokens.get(self.at) {
            Some(Token::Sign(sign)) if wanted.contains(sign) => {
                self.at += 1;
                Some(*sign)
            }
            _ => None,
        }
    }
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
