//! A supplier's description cut into words, numbers and signs, with what stood directly beside what.
//! Comes in: free text. Goes out: tokens and chains of sizes (`203x133x25`). Never knows a product.

mod figure;
mod size;

use super::words::{self, Classes};
use figure::{fold, scan_number};
pub use size::{Chain, Dim, Number, Unit};

/// What a token is.
#[derive(Clone, Debug, PartialEq)]
pub enum Kind {
    /// A run of letters, lower case.
    Word(String),
    /// A number.
    Number(Number),
    /// The `x` between sizes.
    Times,
    /// Any other sign.
    Sign(char),
}

/// A token and how it stands in the text.
#[derive(Clone, Debug, PartialEq)]
pub struct Token {
    /// What it is.
    pub kind: Kind,
    /// Nothing stands between it and the token before.
    pub glued: bool,
    /// A word written all in capitals.
    pub capitals: bool,
}

/// What may be a standard product without any figure in its name ("Utility brick", "EPAL pallet").
const NAMES_WITHOUT_FIGURES: [&str; 6] = ["brick", "palet", "pallet", "palle", "bancal", "shingle"];

/// A description, cut up once.
#[derive(Debug)]
pub struct Scene {
    /// Its tokens.
    pub tokens: Vec<Token>,
    /// What kinds of words occur anywhere in it.
    pub classes: Classes,
    /// The first word that says the goods only belong to what follows ("clip for ...").
    pub relation: Option<usize>,
}

impl Scene {
    /// Cuts the description; none when it holds neither a digit nor a name that needs none, so that most lines cost nothing.
    pub fn of(description: &str) -> Option<Scene> {
        let digit = |sign: char| {
            sign.is_ascii_digit() || "½¼¾⅛⅜⅝⅞".contains(sign) || ('０'..='９').contains(&sign)
        };
        if !description.chars().any(digit) {
            let lower = description.to_lowercase();
            NAMES_WITHOUT_FIGURES
                .iter()
                .find(|name| lower.contains(**name))?;
        }
        let tokens = tokens(&fold(description));
        let mut scene = Scene {
            tokens,
            classes: Classes::default(),
            relation: None,
        };
        for at in 0..scene.tokens.len() {
            let Some(word) = scene.word(at) else { continue };
            if scene.only_looks_like_a_part(at, word) {
                continue;
            }
            let classes = words::classes(word);
            if classes.any(Classes::RELATION) && scene.relation.is_none() {
                scene.relation = Some(at);
            }
            scene.classes.add(classes);
        }
        // S4S, "surfaced four sides", is three tokens.
        if (0..scene.tokens.len()).any(|at| {
            scene.word(at) == Some("s")
                && scene.value(at + 1) == Some(4.0)
                && scene.glued_word(at + 2) == Some("s")
        }) {
            scene.classes.add(Classes::LUMBER);
        }
        Some(scene)
    }

    /// The same without the tokens at these places.
    pub fn without(&self, places: &[usize]) -> Scene {
        let kept = self.tokens.iter().enumerate();
        let kept = kept.filter(|(at, _)| !places.contains(at));
        Scene {
            tokens: kept.map(|(_, token)| token.clone()).collect(),
            ..*self
        }
    }

    /// The flange of "wide flange" is no part, and SS400 is a carbon steel, not a stainless one.
    fn only_looks_like_a_part(&self, at: usize, word: &str) -> bool {
        let before = at.checked_sub(1).and_then(|before| self.word(before));
        match word {
            "flange" | "flanges" => matches!(before, Some("wide" | "broad" | "parallel")),
            "ss" => self.value(at + 1).is_some_and(|grade| grade >= 330.0),
            _ => false,
        }
    }

    /// Whether any of these words stands in the description.
    pub fn says(&self, words: &[&str]) -> bool {
        self.tokens
            .iter()
            .any(|token| matches!(&token.kind, Kind::Word(word) if words.contains(&word.as_str())))
    }

    /// The word at a place.
    pub fn word(&self, at: usize) -> Option<&str> {
        match &self.tokens.get(at)?.kind {
            Kind::Word(word) => Some(word),
            _ => None,
        }
    }

    /// The word at a place, when it is glued to what stands before.
    pub fn glued_word(&self, at: usize) -> Option<&str> {
        self.tokens.get(at).filter(|token| token.glued)?;
        self.word(at)
    }

    /// The number at a place; none where it can be read in two ways.
    pub fn number(&self, at: usize) -> Option<Number> {
        match self.tokens.get(at)?.kind {
            Kind::Number(number) if !number.unclear => Some(number),
            _ => None,
        }
    }

    /// The value of the number at a place.
    pub fn value(&self, at: usize) -> Option<f64> {
        self.number(at).map(|number| number.value)
    }

    /// Whether this sign stands at a place.
    pub fn sign(&self, at: usize, sign: char) -> bool {
        self.tokens
            .get(at)
            .is_some_and(|token| token.kind == Kind::Sign(sign))
    }

    /// The token starts a word of its own: not the middle of a part number.
    pub fn starts(&self, at: usize) -> bool {
        let Some(token) = self.tokens.get(at) else {
            return false;
        };
        if !token.glued || at == 0 {
            return true;
        }
        matches!(self.tokens.get(at - 1).map(|before| &before.kind), Some(Kind::Sign(sign)) if !"-_.#".contains(*sign))
    }

    /// Nothing glued follows that could make it part of a longer word or number.
    pub fn ends(&self, at: usize) -> bool {
        match self.tokens.get(at) {
            Some(Token {
                kind: Kind::Word(_) | Kind::Number(_) | Kind::Times,
                glued: true,
                ..
            }) => false,
            // "-" joins a mark ("W12x26-20'"), "_" and "." join a part number.
            Some(Token {
                kind: Kind::Sign('_'),
                glued: true,
                ..
            }) => false,
            _ => true,
        }
    }

    /// Skips one joiner (`-`, `:`, `,`, `.`) between a name and its number.
    pub fn after_joiner(&self, at: usize) -> usize {
        at + usize::from(
            ['-', ':', ',', '.', '=']
                .iter()
                .any(|sign| self.sign(at, *sign)),
        )
    }

    /// The unit at a place and the token after it.
    pub fn unit(&self, at: usize) -> Option<(Unit, usize)> {
        let unit = match &self.tokens.get(at)?.kind {
            Kind::Sign('"') => Unit::Inch,
            Kind::Sign('\'') => Unit::Foot,
            Kind::Sign('#') if self.tokens[at].glued && self.value(at + 1).is_none() => Unit::Pound,
            Kind::Word(word) => match word.as_str() {
                "in" | "inch" | "inches" | "ins" => Unit::Inch,
                "ft" | "foot" | "feet" => Unit::Foot,
                "mm" => Unit::Millimetre,
                "cm" => Unit::Centimetre,
                "m" | "mtr" | "mtrs" | "mts" | "metre" | "metres" | "meter" | "meters" => {
                    Unit::Metre
                }
                "lb" | "lbs" | "plf" => Unit::Pound,
                "kg" | "kgs" => Unit::Kilogram,
                _ => return None,
            },
            _ => return None,
        };
        let per = matches!(unit, Unit::Pound | Unit::Kilogram)
            && self.sign(at + 1, '/')
            && self.word(at + 2).is_some();
        Some((unit, at + if per { 3 } else { 1 }))
    }

    /// The chain of sizes that starts with the number at a place; none where one of its numbers can be read in two ways.
    pub fn chain(&self, at: usize) -> Option<Chain> {
        let mut dims = Vec::with_capacity(4);
        let mut next = at;
        loop {
            let (dim, after) = self.size(next)?;
            next = after;
            // "6.625 OD X .280 WALL": labels between the sizes.
            while self.word(next).is_some_and(|word| {
                matches!(word, "od" | "wall" | "wt" | "thk" | "wide" | "long" | "lg")
            }) {
                next += 1;
            }
            dims.push(dim);
            if !matches!(
                self.tokens.get(next),
                Some(Token {
                    kind: Kind::Times,
                    ..
                })
            ) {
                break;
            }
            next += 1;
        }
        Some(Chain {
            dims,
            end: next,
            clean: self.ends(next),
        })
    }

    /// The size whose figure stands at a place, with its unit, and the place after it; none where it can be read in two ways.
    pub fn size(&self, at: usize) -> Option<(Dim, usize)> {
        let number = self.number(at)?;
        let Some((unit, after)) = self.unit(at + 1) else {
            return Some((Dim { number, unit: None }, at + 1));
        };
        let (number, after) = if unit == Unit::Foot {
            self.feet_and_inches(number, after)
        } else {
            (number, after)
        };
        let unit = Some(unit);
        Some((Dim { number, unit }, after))
    }

    /// The inches after a foot mark, added in feet: `16'-6"`.
    fn feet_and_inches(&self, feet: Number, at: usize) -> (Number, usize) {
        let figure = at + usize::from(self.sign(at, '-'));
        match (self.number(figure), self.unit(figure + 1)) {
            (Some(inches), Some((Unit::Inch, after))) => (
                Number {
                    value: feet.value + inches.value / 12.0,
                    ..feet
                },
                after,
            ),
            _ => (feet, at),
        }
    }
}

fn tokens(text: &str) -> Vec<Token> {
    let signs: Vec<char> = text.chars().collect();
    let mut tokens = Vec::with_capacity(16);
    let (mut at, mut glued) = (0, false);
    while let Some(&sign) = signs.get(at) {
        if sign.is_whitespace() {
            (at, glued) = (at + 1, false);
            continue;
        }
        let start = at;
        let digit = |at: usize| signs.get(at).is_some_and(char::is_ascii_digit);
        let kind = if sign.is_ascii_digit()
            || (sign == '.' && digit(at + 1) && !(glued && ends_in_letter(&tokens)))
        {
            let (number, end) = scan_number(&signs, at);
            at = end;
            Kind::Number(number)
        } else if sign.is_alphabetic() {
            while signs.get(at).is_some_and(|sign| sign.is_alphabetic()) {
                at += 1;
            }
            let word: String = signs[start..at]
                .iter()
                .flat_map(|sign| sign.to_lowercase())
                .collect();
            let follows = signs[at..].iter().find(|sign| !sign.is_whitespace());
            if word == "x" && follows.is_some_and(|sign| sign.is_ascii_digit() || *sign == '.') {
                Kind::Times
            } else {
                Kind::Word(word)
            }
        } else {
            at += 1;
            Kind::Sign(sign)
        };
        let capitals = signs[start..at].iter().all(|sign| sign.is_uppercase());
        tokens.push(Token {
            kind,
            glued,
            capitals,
        });
        glued = true;
    }
    tokens
}

/// "SCH.40": the dot belongs to the abbreviation, not to the number.
fn ends_in_letter(tokens: &[Token]) -> bool {
    matches!(
        tokens.last(),
        Some(Token {
            kind: Kind::Word(_),
            ..
        })
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(text: &str) -> Vec<f64> {
        Scene::of(text)
            .and_then(|scene| (0..scene.tokens.len()).find_map(|at| scene.chain(at)))
            .map_or(Vec::new(), |chain| chain.values())
    }

    #[test]
    fn chains_are_read_as_written() {
        // Spellings: the vocabulary of delivery lists collected for the project; arithmetic by hand.
        for (text, expected) in [
            ("203x133x25", vec![203.0, 133.0, 25.0]),
            ("L4X4X1/2", vec![4.0, 4.0, 0.5]),
            ("HSS 3-1/2 x 3 1/2 x 5/16", vec![3.5, 3.5, 0.3125]),
            ("Ø48,3×3,2", vec![48.3, 3.2]),
            ("6.625 OD X .280", vec![6.625, 0.28]),
            ("2x10x16'", vec![2.0, 10.0, 16.0]),
            ("2x10x16'-6\"", vec![2.0, 10.0, 16.5]),
            ("1½ x 4", vec![1.5, 4.0]),
            ("100*100*10", vec![100.0, 100.0, 10.0]),
            ("1,200.5 x 10", vec![1200.5, 10.0]),
            ("1,200", vec![]),
            ("SCH 40 1/2", vec![40.0]),
        ] {
            assert_eq!(values(text), expected, "{text}");
        }
    }

    #[test]
    fn a_text_without_a_digit_is_not_cut() {
        assert!(Scene::of("Point motor, crated").is_none());
    }
}
