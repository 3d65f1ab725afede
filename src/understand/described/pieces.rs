//! A number of pieces in a text: "208 pcs", "10 JTS", "40 bags x 94 lb", "pack of 208".

use crate::tables::goods;
use crate::tables::packages::{self, Counts};
use crate::units::spelling;
use crate::units::written::WrittenLength;

/// Grades of metal that stand before the word for the goods: "304 sheet", "6061 plate" (common practice, no source).
const GRADES: [u32; 17] = [
    303, 304, 309, 310, 316, 321, 347, 409, 410, 430, 1018, 1045, 2205, 3003, 5052, 6061, 7075,
];
/// Words for several pieces that come as one: "pack of 208".
const PACKS: [&str; 23] = [
    "pack", "packs", "unit", "bundle", "lift", "pkg", "pkt", "paket", "bund", "paquet", "pacco",
    "paquete", "crate", "crates", "box", "case", "carton", "pallet", "skid", "kiste", "karton",
    "palette", "palet",
];

/// What a figure counts.
pub(super) enum Counted {
    /// Pieces of the line.
    Pieces(u32),
    /// Pieces in each pack.
    InEachPack(u32),
}

/// What the figure from `start` to `end` counts; none where it counts nothing.
pub(super) fn counted(
    text: &str,
    start: usize,
    end: usize,
    written: WrittenLength,
) -> Option<Counted> {
    if written.unit.is_some()
        || written.figure.value.fract() != 0.0
        || !(1.0..=1_000_000.0).contains(&written.figure.value)
    {
        return None;
    }
    let number = written.figure.value as u32;
    let after = text.get(end..)?.trim_start();
    if packed(text.get(..start)?) && !after.starts_with(['x', 'X', '*', '\'', '"', '/']) {
        return Some(Counted::InEachPack(number));
    }
    let word = after.split(|sign: char| !sign.is_alphabetic()).next()?;
    if text.get(..start)?.trim().is_empty() && counts_goods(after) && !GRADES.contains(&number) {
        return Some(Counted::Pieces(number));
    }
    let found =
        packages::of_word(word).filter(|found| found.counts == Counts::Piece && word.len() > 1)?;
    match found.name {
        "piece" if is_plain(word) || !GRADES.contains(&number) => Some(Counted::Pieces(number)),
        // "40 bags x 94 lb": the contents of one stand behind. Beside a number of pallets so many stand on each.
        "bag" if each_weighs(&after[word.len()..]) => Some(Counted::InEachPack(number)),
        _ => None,
    }
}

/// Words that make the figure before them a name or another measure: "16 gauge sheets", "5 hp pumps", "115 RE rails" (common
/// practice, no source).
const NAMES: [&str; 39] = [
    "ga", "gauge", "gage", "gge", "ply", "hole", "way", "phase", "core", "axis", "series", "grade",
    "hp", "kw", "kva", "mva", "v", "kv", "volt", "a", "amp", "amps", "w", "watt", "hz", "psi",
    "bar", "deg", "degree", "gal", "gallon", "l", "liter", "litre", "ltr", "m3", "re", "ara",
    "asce",
];

/// Whether the word behind a figure makes it a name.
pub fn names_it(word: &str) -> bool {
    NAMES.contains(&word.to_lowercase().as_str())
}

/// What stands at the very front of a text and counts: "6 STEEL PLATES", "500 modular bricks". A plural within three words, and no
/// word that makes the figure a name.
pub fn counts_goods(after: &str) -> bool {
    let words = after.split(' ').take(3).map(str::to_lowercase);
    let words: Vec<String> = words
        .take_while(|word| word.chars().all(char::is_alphabetic) && !names_it(word))
        .collect();
    let goods = |word: &str| goods::in_description(word).is_some();
    words.iter().any(|word| {
        word.strip_suffix('s').is_some_and(|one| {
            goods(word) && goods(one)
                || packages::of_word(word)
                    .is_some_and(|found| found.counts == Counts::Piece && found.name == "piece")
        })
    })
}

/// A word that counts and names no goods.
fn is_plain(word: &str) -> bool {
    const PLAIN: [&str; 8] = ["pc", "pcs", "pce", "piece", "pieces", "ea", "nos", "stk"];
    PLAIN.contains(&word.to_lowercase().as_str())
}

/// A weight with its unit follows: " x 94 lb", " of 25 kg cement".
fn each_weighs(text: &str) -> bool {
    let text = text.trim_start_matches([' ', 'x', 'X', '*', '@', 'à', ',']);
    let text = ["of ", "de ", "di ", "zu ", "van ", "a "]
        .iter()
        .find_map(|word| text.strip_prefix(word))
        .unwrap_or(text);
    let unit =
        text.trim_start_matches(|sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ','));
    let word = unit.trim_start().split(' ').next().unwrap_or("");
    unit.len() < text.len() && spelling::mass(word).is_some()
}

/// The text ends with "pack of".
fn packed(before: &str) -> bool {
    let mut words = before.split_whitespace().rev();
    let of = words.next().is_some_and(|word| {
        matches!(
            word.to_lowercase().as_str(),
            "of" | "à" | "de" | "zu" | "von" | "da"
        )
    });
    let pack = words
        .next()
        .is_some_and(|word| PACKS.contains(&word.to_lowercase().trim_matches([',', '('])));
    of && pack
}
