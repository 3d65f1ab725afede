//! Words that stand in cells without being goods: "TBA", "Total", "Carried forward".

use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// What such a word says.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum RowWord {
    /// The value is not stated.
    NotStated,
    /// The row is a sum.
    Total,
    /// The row is a part sum.
    Subtotal,
    /// The row carries a sum from page to page.
    Carried,
    /// The row is a note.
    Note,
    /// The cell repeats the one above.
    Ditto,
}

#[derive(Deserialize)]
struct RowOfTable {
    word: String,
    kind: RowWord,
}

static WORDS: LazyLock<HashMap<String, RowWord>> = LazyLock::new(|| {
    super::rows::<RowOfTable>(super::ROW_WORDS)
        .into_iter()
        .map(|row| (row.word, row.kind))
        .collect()
});

/// The kind of a whole cell's text, compared without case.
pub fn of_cell(text: &str) -> Option<RowWord> {
    let text = text.trim().trim_end_matches(':').trim_end();
    WORDS
        .get(text)
        .or_else(|| WORDS.get(&text.to_lowercase()))
        .copied()
}

/// The kind that the first words of a text say, the longest first ("Sub-total plates", "TOTAL 6 PALLETS").
pub fn of_start(text: &str) -> Option<RowWord> {
    let lower = text.trim().to_lowercase();
    let mut ends: Vec<usize> = lower
        .char_indices()
        .filter(|(at, sign)| *at > 0 && !sign.is_alphanumeric())
        .map(|(at, _)| at)
        .collect();
    ends.push(lower.len());
    ends.into_iter()
        .rev()
        .find_map(|end| WORDS.get(lower.get(..end)?).copied())
}

/// Whether a cell says in words (or by being blank) that its value is not stated.
pub fn is_not_stated(text: &str) -> bool {
    of_cell(text) == Some(RowWord::NotStated)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_rows() {
        assert_eq!(of_start("Sub-total plates"), Some(RowWord::Subtotal));
        assert_eq!(of_start("TOTAL 6 PALLETS"), Some(RowWord::Total));
        assert_eq!(of_start("Carried forward"), Some(RowWord::Carried));
        assert_eq!(of_start("Totally different pipe"), None);
        assert_eq!(of_start("Reporter cable"), None);
        assert!(is_not_stated("T.B.A."));
        assert!(is_not_stated(" – ".replace('–', "-").as_str()));
        assert!(!is_not_stated("12"));
    }
}
