//! Which goods are the same goods: what is weighed on one delivery says something of another only where all of it agrees.

use crate::understand::SizeOf;
use crate::units::Length;
use serde::{Deserialize, Serialize};

/// Sizes this near to each other, relative, are one size: what is left of working in floating point, and of inches and
/// millimetres.
const SAME: f64 = 1e-9;
/// Digits, leading zeros left out, up to which a bare number is a mere position of the list ("10", "0030"); part numbers that
/// short are taken for one too, which only asks for more (common practice, no source).
const POSITION_DIGITS: usize = 4;
/// Letters and digits of the shortest part number: "3a" and "B2" are positions (common practice, no source).
const LEAST_SIGNS: usize = 3;
/// Words that stand before a position.
const POSITION_WORDS: [&str; 9] = [
    "pos", "position", "posten", "item", "line", "ligne", "no", "nr", "lfd",
];

/// The goods of a line, as far as they can be told from others.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Goods {
    /// Item number, as written.
    pub item: Option<String>,
    /// Description.
    pub description: String,
    /// Material, as the table names it.
    pub material: Option<String>,
    /// Length, width, height, outside, inside, wall.
    pub sizes: [Option<Length>; 6],
    /// Whose sizes they are.
    pub size_of: SizeOf,
    /// Words and sizes alone give a weight: a standard product, or a shape of a known material.
    pub described: bool,
}

impl Goods {
    /// Whether they are the same goods: one description, one material, the same sizes, no two part numbers; and either one part
    /// number or words and sizes that leave nothing open. "Bracket" without any of it may be any bracket.
    pub fn is_same(&self, other: &Goods) -> bool {
        let numbers = self.number().zip(other.number());
        let one_number = numbers.as_ref().map(|(own, theirs)| own == theirs);
        let sizes = self.sizes.iter().zip(&other.sizes);
        one_number.unwrap_or(self.described && other.described)
            && fold(&self.description) == fold(&other.description)
            && self.material == other.material
            && self.size_of == other.size_of
            && sizes
                .map(|(own, theirs)| (*own, *theirs))
                .all(|pair| match pair {
                    (Some(own), Some(theirs)) => {
                        (own.m() - theirs.m()).abs() <= SAME * theirs.m().abs()
                    }
                    pair => pair == (None, None),
                })
    }

    /// The item number that tells these goods from others; none for a mere position of the list.
    fn number(&self) -> Option<String> {
        let number = fold(self.item.as_deref()?);
        let words = number.split(|sign: char| !sign.is_alphanumeric());
        let telling: String = words
            .filter(|word| !POSITION_WORDS.contains(word))
            .collect();
        let signs = telling.chars().count();
        let bare = telling.chars().all(|sign| sign.is_ascii_digit());
        let position = if bare {
            telling.trim_start_matches('0').len() <= POSITION_DIGITS
        } else {
            signs < LEAST_SIGNS
        };
        (!position).then_some(number)
    }
}

/// Small letters, single spaces.
pub(super) fn fold(text: &str) -> String {
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn block(item: &str) -> Goods {
        let side = |inches: f64| Some(Length::from_in(inches));
        Goods {
            item: Some(item.to_string()).filter(|item| !item.is_empty()),
            description: "Steel block".to_string(),
            material: Some("carbon steel".to_string()),
            sizes: [side(24.0), side(12.0), side(12.0), None, None, None],
            size_of: SizeOf::Piece,
            described: true,
        }
    }

    #[test]
    fn a_position_of_the_list_is_no_part_number() {
        for position in [
            "", "1", "10", "0030", "000120", "1.2", "Pos. 3", "no 17", "3a", "B2", "#4",
        ] {
            assert_eq!(block(position).number(), None, "{position}");
            assert!(block(position).is_same(&block("SB-7")), "{position}");
        }
        for number in ["SB-7", "B-77", "471100", "00-4711-2", "SB 7"] {
            assert!(block(number).number().is_some(), "{number}");
            assert!(!block(number).is_same(&block("SB-8")), "{number}");
        }
        assert!(block("sb-7").is_same(&block("SB-7")));
    }

    #[test]
    fn whatever_differs_makes_them_other_goods() {
        let own = block("SB-7");
        let like = |change: fn(&mut Goods)| {
            let mut other = block("SB-7");
            change(&mut other);
            own.is_same(&other)
        };
        assert!(like(|other| other.description = " steel  BLOCK".to_string()));
        // 24 in are 609.6 mm.
        assert!(like(
            |other| other.sizes[0] = Some(Length::from_mm(24.0 * 25.4))
        ));
        assert!(!like(
            |other| other.description = "Steel block, drilled".to_string()
        ));
        assert!(!like(|other| other.material = None));
        assert!(!like(|other| other.sizes[0] = Some(Length::from_in(24.1))));
        assert!(!like(|other| other.sizes[2] = None));
        assert!(!like(|other| other.size_of = SizeOf::Package));
    }

    #[test]
    fn what_words_leave_open_needs_its_number() {
        let bracket = |item: &str| Goods {
            material: None,
            sizes: [None; 6],
            described: false,
            ..block(item)
        };
        assert!(bracket("B-77").is_same(&bracket("B-77")));
        assert!(!bracket("B-77").is_same(&bracket("")));
        assert!(!bracket("1").is_same(&bracket("1")));
    }
}
