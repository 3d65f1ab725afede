//! Which goods are the same goods: what is weighed on one delivery says something of another only where all of it agrees.

use crate::tables::packages;
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
/// Digits, leading zeros left out, up to which letters and a number may be a label of a package or a row ("PL-001", "S12"), as
/// may a bare number of one digit more ("10010"); common practice, no source.
const LABEL_DIGITS: usize = 4;
/// Words of labels besides those of packages.
const LABEL_WORDS: [&str; 6] = ["colli", "collo", "ln", "row", "rang", "zeile"];
/// Units that count pieces, as no unit does.
const PIECES: [&str; 12] = [
    "ea", "each", "pc", "pce", "pces", "pcs", "piece", "pieces", "st", "stck", "stk", "stück",
];
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
    /// What the quantity counts, folded; none for pieces. Four hundreds are no four pieces.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub unit: Option<String>,
    /// Words and sizes alone give a weight: a standard product, or a shape of a known material.
    pub described: bool,
}

/// What a quantity counts by the text of its unit, as [`Goods::unit`] has it.
pub fn counted_in(unit: Option<&str>) -> Option<String> {
    let unit = fold(unit?);
    let bare = unit.trim_end_matches('.');
    (!bare.is_empty() && !PIECES.contains(&bare)).then(|| bare.to_string())
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
            && self.unit == other.unit
            && sizes
                .map(|(own, theirs)| (*own, *theirs))
                .all(|pair| match pair {
                    (Some(own), Some(theirs)) => {
                        (own.m() - theirs.m()).abs() <= SAME * theirs.m().abs()
                    }
                    pair => pair == (None, None),
                })
    }

    /// Whether they can be told from all others, so that what was weighed may stand for them: by words and sizes that leave
    /// nothing open, or by a number that is no label of a package or a row. Every list has a "PL-001".
    pub fn is_told(&self) -> bool {
        self.described || self.number().is_some_and(|number| !is_label(&number))
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

/// Whether a number may be a label that says nothing of the goods.
fn is_label(number: &str) -> bool {
    let signs: Vec<char> = number
        .chars()
        .filter(|sign| sign.is_alphanumeric())
        .collect();
    let (letters, digits): (String, String) = signs.iter().partition(|sign| !sign.is_ascii_digit());
    let most = if letters.is_empty() {
        LABEL_DIGITS + 1
    } else {
        LABEL_DIGITS
    };
    let short = digits.trim_start_matches('0').len() <= most;
    // Letters first and digits behind; "T-500A" is a number of somebody's own.
    let mut pairs = signs.windows(2);
    let plain = !pairs.any(|pair| pair[0].is_ascii_digit() && !pair[1].is_ascii_digit());
    let word =
        POSITION_WORDS.contains(&letters.as_str()) || LABEL_WORDS.contains(&letters.as_str());
    plain && (short || word || packages::of_word(&letters).is_some())
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
            unit: None,
            described: true,
        }
    }

    #[test]
    fn what_words_leave_open_is_not_told_by_a_label() {
        let told = |item: &str| {
            let open = Goods {
                described: false,
                ..block(item)
            };
            assert!(block(item).is_told(), "{item}");
            open.is_told()
        };
        for label in [
            "",
            "10",
            "PL-001",
            "BOX-001",
            "L-001",
            "Row 12",
            "PLT 12",
            "Crate 7",
            "ITM-01",
            "LN0010",
            "S01",
            "Zeile 010",
            "Colli 001",
            "Colli 000123",
            "Pallet 123456",
            "10010",
            "B-7701",
        ] {
            assert!(!told(label), "{label}");
        }
        for number in ["B-77120", "471100", "T-500A", "00-4711-200", "7-BX-1"] {
            assert!(told(number), "{number}");
        }
    }

    #[test]
    fn four_hundreds_are_no_four_pieces() {
        let of = |unit: &str| Goods {
            unit: counted_in(Some(unit)),
            ..block("SB-7")
        };
        let none = Goods {
            unit: counted_in(None),
            ..block("SB-7")
        };
        for pieces in ["", "pcs", "EA", "Stk."] {
            assert!(none.is_same(&of(pieces)), "{pieces}");
        }
        for other in [
            "hundred", "C", "gross", "EA/100", "dozen", "set", "kit", "lot", "coil", "roll", "pair",
        ] {
            assert!(!of("pcs").is_same(&of(other)), "{other}");
            assert!(of(other).is_same(&of(&other.to_uppercase())), "{other}");
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
