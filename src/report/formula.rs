//! The formula of a step of the working: its words as parts, and what they come to.
//! Comes in: a step. Goes out: parts and figures. Only names of inputs, numbers, signs and brackets get through, so no text
//! of a supplier can become a formula.

use crate::estimate::Step;

/// A part of a formula.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Token {
    /// The step's input at this place.
    Input(usize),
    /// A figure.
    Number(f64),
    /// The ratio of circumference to diameter.
    Pi,
    /// `+ - * / ^ ( )`.
    Sign(char),
}

/// The parts of a step's formula; nothing when its words use anything but the inputs' names, figures, `pi`,
/// `+ - x * / ^` and brackets.
pub fn tokens(step: &Step) -> Option<Vec<Token>> {
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

/// What the parts come to with the inputs' values; nothing when they are no whole sum.
pub fn value(tokens: &[Token], inputs: &[f64]) -> Option<f64> {
    let mut reader = Reader {
        tokens,
        at: 0,
        inputs,
    };
    let value = reader.sum()?;
    (reader.at == tokens.len()).then_some(value)
}

/// Works out what a spreadsheet program would, by its rules of precedence.
struct Reader<'t> {
    tokens: &'t [Token],
    at: usize,
    inputs: &'t [f64],
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
            Token::Input(at) => self.inputs.get(at).copied(),
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
