//! How full the words say something is: "80 % full", "fill 80 %", "half full", "full of water", "empty". Figures and words that
//! speak of something else ("10 % glycol", "empty weight 634 kg", "half inch flanges") do not count.

use crate::tables::phrases::words;

/// What the words say of the contents.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Fill {
    /// Part of the room that is filled, where one is stated.
    pub part: Option<f64>,
    /// The words say that it is full, or how far.
    pub full: bool,
    /// The words say that it is empty.
    pub empty: bool,
    /// The words contradict each other, or state a part that cannot be read.
    pub unclear: bool,
}

const FULL: [&str; 10] = [
    "full", "fill", "filled", "halbvoll", "voll", "gefullt", "plein", "lleno", "pieno", "vol",
];
const EMPTY: [&str; 7] = ["empty", "leer", "vide", "vacio", "vuoto", "leeg", "drained"];
/// What makes "full" speak of something else than contents, behind it.
const NOT_OF_CONTENTS: [&str; 25] = [
    "length",
    "lengths",
    "size",
    "face",
    "bore",
    "port",
    "penetration",
    "weld",
    "welded",
    "thread",
    "threaded",
    "load",
    "set",
    "width",
    "height",
    "joint",
    "joints",
    "pallet",
    "pallets",
    "bundle",
    "bundles",
    "box",
    "boxes",
    "sheet",
    "sheets",
];
const NOT: [&str; 9] = [
    "not", "non", "no", "never", "nearly", "almost", "partly", "nicht", "niet",
];
const WEIGHT: [&str; 9] = [
    "weight", "wt", "wgt", "mass", "tare", "gewicht", "poids", "peso", "weighs",
];

/// Reads the words about the contents.
pub fn fill(description: &str) -> Fill {
    let tokens = tokens(description);
    let word = |at: Option<usize>| at.and_then(|at| tokens.get(at)).map_or("", String::as_str);
    let before = |at: usize, steps: usize| word(at.checked_sub(steps));
    let behind = |at: usize| word(Some(at + 1));
    let weighed = |at: usize| {
        let mass = matches!(before(at, 1), "kg" | "kgs" | "lb" | "lbs" | "t" | "to");
        WEIGHT.contains(&behind(at)) || WEIGHT.contains(&before(at, 1)) || mass
    };
    let negated = |at: usize| NOT.contains(&before(at, 1));
    let is_full = |at: usize| {
        let volume = tokens[at] == "vol" && behind(at).contains(|sign: char| sign.is_ascii_digit());
        FULL.contains(&tokens[at].as_str()) && !NOT_OF_CONTENTS.contains(&behind(at)) && !volume
    };
    let full_at = |at: Option<usize>| at.is_some_and(|at| at < tokens.len() && is_full(at));
    let mut said = Fill::default();
    let mut part = |figure: Option<f64>| match figure {
        Some(figure) if said.part.is_none_or(|other| other == figure) => said.part = Some(figure),
        _ => said.unclear = true,
    };
    for (at, token) in tokens.iter().enumerate() {
        match token.as_str() {
            "%" => {
                let ends = matches!(behind(at), "" | "," | "with" | "of" | "by" | "mit" | "de");
                let joined = matches!(before(at, 2), "to" | "at" | "level" | "up" | "zu" | "a");
                let named = at.checked_sub(if joined { 3 } else { 2 });
                if full_at(Some(at + 1)) || full_at(named) && ends {
                    part(
                        before(at, 1)
                            .parse()
                            .ok()
                            .map(|percent: f64| percent / 100.0),
                    );
                }
            }
            "half" | "halb" if full_at(Some(at + 1)) => part(Some(0.5)),
            "halbvoll" => part(Some(0.5)),
            _ => {}
        }
    }
    // Nothing is fuller than full; then the usual fill stands in, which is the heavier reading.
    said.part = said.part.filter(|part| *part > 0.0 && *part <= 1.0);
    let counted = |at: &usize| !negated(*at) && !weighed(*at);
    let all = 0..tokens.len();
    said.full = said.part.is_some() || all.clone().filter(counted).any(is_full);
    said.empty = all
        .filter(counted)
        .any(|at| EMPTY.contains(&tokens[at].as_str()));
    said.unclear |= said.full && said.empty;
    said
}

/// Figures with a decimal point, percent and comma signs, and words without case and accents.
fn tokens(description: &str) -> Vec<String> {
    let mut found = Vec::new();
    for written in description.replace('%', " % ").split_whitespace() {
        let bare = written.trim_matches(['(', ')', ':', ',', ';']);
        let breaks = written.ends_with([',', ';']);
        match bare.to_lowercase().as_str() {
            "%" | "percent" | "pct" | "prozent" => found.push("%".to_string()),
            figure if figure.contains(|sign: char| sign.is_ascii_digit()) => {
                found.push(figure.replace(',', "."));
            }
            _ => found.extend(words(bare).into_iter().map(|word| word.plain)),
        }
        if breaks {
            found.push(",".to_string());
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_part_counts_only_beside_the_word_full() {
        for (text, part) in [
            ("80 % full of diesel", Some(0.8)),
            ("diesel, 80% full", Some(0.8)),
            ("filled 62.5% with water", Some(0.625)),
            ("filled 62,5 % with water", Some(0.625)),
            ("filled to 80 %", Some(0.8)),
            ("fill 80 %, diesel", Some(0.8)),
            ("half full of water", Some(0.5)),
            ("half-filled with water", Some(0.5)),
            ("halbvoll", Some(0.5)),
            ("full of water", None),
            ("120 % full", None),
            ("80 % glycol", None),
            ("10 % glycol, full of water", None),
            ("full, 20 % slope", None),
            ("20 % slope, full", None),
            ("half inch flanges full", None),
            ("half inch flanges, full of water", None),
        ] {
            let said = fill(text);
            assert_eq!((said.part, said.unclear), (part, false), "{text}");
        }
    }

    /// (full, empty, unclear)
    #[test]
    fn empty_counts_only_of_the_contents() {
        for (text, expected) in [
            ("empty", (false, true, false)),
            ("tank, empty, flat ends", (false, true, false)),
            ("full of water, empty weight 634 kg", (true, false, false)),
            ("full of water, weight empty 634 kg", (true, false, false)),
            ("full of water, 634 kg empty", (true, false, false)),
            ("not empty, diesel", (false, false, false)),
            ("non-empty, diesel", (false, false, false)),
            ("empty/full", (true, true, true)),
            ("full of water, empty 634 kg", (true, true, true)),
            ("80 % full or half full", (true, false, true)),
            ("80-90 % full", (true, false, true)),
            ("full penetration welds, empty", (false, true, false)),
            ("full length", (false, false, false)),
        ] {
            let said = fill(text);
            let found = (said.full, said.empty, said.unclear);
            assert_eq!(found, expected, "{text}");
        }
    }
}
