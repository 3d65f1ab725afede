//! Words that stand in cells without being goods: "TBA", "Total", "Carried forward".

use super::headings::{self, Role};
use super::packages::{self, Counts};
use super::phrases::{Phrases, Word, words};
use crate::units::spelling;
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
    /// The word may stand behind one of a sum and says nothing of goods ("of", "EUR").
    Beside,
    /// The row is a note.
    Note,
    /// The row is a note that numbers the page; the word may stand behind one of a sum.
    Page,
    /// The cell repeats the one above.
    Ditto,
}

/// What the first words of a text say.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Start {
    /// Their kind.
    pub word: RowWord,
    /// Words follow that may name goods: a total station is an instrument, "Total weight 1234 kg" is a sum.
    pub goes_on: bool,
}

#[derive(Deserialize)]
struct RowOfTable {
    word: String,
    kind: RowWord,
}

static WORDS: LazyLock<HashMap<String, RowWord>> = LazyLock::new(|| {
    super::rows::<RowOfTable>(super::ROW_WORDS)
        .into_iter()
        .filter(|row| row.kind != RowWord::Beside)
        .map(|row| (row.word, row.kind))
        .collect()
});

/// The words that stand before others; those of whole cells are no words at all ("-", "n/a").
static STARTS: LazyLock<Phrases<RowWord>> = LazyLock::new(|| {
    let starts = super::rows::<RowOfTable>(super::ROW_WORDS)
        .into_iter()
        .filter(|row| !matches!(row.kind, RowWord::NotStated | RowWord::Ditto));
    Phrases::new(starts.map(|row| (row.word, row.kind)))
});

/// The kind of a whole cell's text, compared without case.
pub fn of_cell(text: &str) -> Option<RowWord> {
    let text = text.trim().trim_end_matches(':').trim_end();
    WORDS
        .get(text)
        .or_else(|| WORDS.get(&text.to_lowercase()))
        .copied()
}

/// What the first words of a text say, the longest phrase of the table first ("Sub-total plates", "TOTAL 6 PALLETS"). One
/// word alone for what is carried says nothing where others go on: "Transport frame" is goods.
pub fn of_start(text: &str) -> Option<Start> {
    let found = words(text);
    let (taken, &word) = STARTS.at(&found, 0)?;
    let alone = word == RowWord::Carried && taken == 1;
    let goes_on = names_goods(&found[taken..], !alone);
    let says = word != RowWord::Beside && !(alone && goes_on);
    says.then_some(Start { word, goes_on })
}

/// Whether a text beside the word of a sum may name goods: "6 pallets, 1450 kg" does not.
pub fn may_name_goods(text: &str) -> bool {
    names_goods(&words(text), true)
}

/// Whether one of the words behind that of a sum may name goods; `counted` lets pieces and packages stand there.
fn names_goods(found: &[Word], counted: bool) -> bool {
    let of_a_sum = |role: &Role| {
        matches!(
            role,
            Role::Weight
                | Role::AmbiguousWt
                | Role::Gross
                | Role::Net
                | Role::Volume
                | Role::Quantity
                | Role::Packages
                | Role::PackageType
                | Role::Piece
                | Role::Unit
        )
    };
    let mut at = 0;
    let mut figure = false;
    while let Some(word) = found.get(at) {
        let beside = STARTS
            .at(found, at)
            .filter(|(_, word)| **word != RowWord::Note)
            .map(|(taken, _)| taken);
        let named = headings::at(found, at)
            .filter(|(_, roles)| counted && roles.iter().all(of_a_sum))
            .map(|(taken, _)| taken);
        let unit = word
            .raw
            .trim_start_matches(|sign: char| sign.is_ascii_digit());
        figure |= unit.len() < word.raw.len();
        at += match beside.or(named) {
            Some(taken) => taken,
            None if is_amount(unit, counted, figure) => 1,
            None => return true,
        };
        figure = unit.is_empty();
    }
    false
}

/// What may stand behind a figure or in its place: a sign, a unit, a package; a piece only behind a figure ("12 plates").
fn is_amount(unit: &str, counted: bool, figure: bool) -> bool {
    unit.is_empty()
        || matches!(unit, "/" | "#" | "&" | "*")
        || spelling::mass(unit).is_some()
        || (counted
            && packages::of_word(unit).is_some_and(|word| figure || word.counts != Counts::Piece))
}

/// Whether a cell says in words (or by being blank, or by dashes and dots) that its value is not stated.
pub fn is_not_stated(text: &str) -> bool {
    of_cell(text) == Some(RowWord::NotStated) || text.chars().all(|sign| "-._?*/ ".contains(sign))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_rows() {
        assert!(is_not_stated("T.B.A."));
        assert!(is_not_stated(" – ".replace('–', "-").as_str()));
        assert!(is_not_stated("- - - -") && is_not_stated("????"));
        assert!(!is_not_stated("12") && !is_not_stated("-5"));
    }

    /// Phrasings: common practice, no source. Whether words of goods follow is what a careful clerk reads.
    #[test]
    fn words_of_sums_and_what_follows_them() {
        use RowWord::{Carried, Note, Page, Subtotal, Total};
        for (text, word, goes_on) in [
            ("Total", Total, false),
            ("TOTAL:", Total, false),
            ("Totals", Total, false),
            ("Total 1,450.00", Total, false),
            ("Total (kg)", Total, false),
            ("Total EUR 12 000,00", Total, false),
            ("Total weight 1234 kg", Total, false),
            ("Total gross weight: 1234kg", Total, false),
            ("TOTAL 6 PALLETS", Total, false),
            ("Total: 6 pallets, 3 crates", Total, false),
            ("Total of this page", Total, false),
            ("Total 12 plates", Total, false),
            ("Total pcs 12", Total, false),
            ("Total Stück", Total, false),
            ("Totale pezzi", Total, false),
            ("Total plates", Total, true),
            ("Total pallet truck", Total, true),
            ("Grand total 12 pcs", Total, false),
            ("Summe", Total, false),
            ("Summe kg", Total, false),
            ("Gesamt brutto", Total, false),
            ("Gesamtgewicht 1.450 kg", Total, false),
            ("Totale", Total, false),
            ("Totale colli 12", Total, false),
            ("Total général", Total, false),
            ("Total pièces", Total, false),
            ("TOTAL GENERAL", Total, false),
            ("Totaal gewicht", Total, false),
            ("Razem", Total, false),
            ("Ogółem kg", Total, false),
            ("合计", Total, false),
            ("合计12件", Total, false),
            ("総計：", Total, false),
            ("Итого", Total, false),
            ("Sub-total", Subtotal, false),
            ("Sub-total pallet 3", Subtotal, false),
            ("Subtotale", Subtotal, false),
            ("小计", Subtotal, false),
            ("Carried forward", Carried, false),
            ("Carried forward to page 2", Carried, false),
            ("Brought forward:", Carried, false),
            ("C/F", Carried, false),
            ("Übertrag", Carried, false),
            ("Übertrag von Seite 1", Carried, false),
            ("Report", Carried, false),
            ("Report de la page 1", Carried, false),
            ("Riporto:", Carried, false),
            ("Transport", Carried, false),
            ("Transport 1.450,00 kg", Carried, false),
            ("Transport EUR", Carried, false),
            ("Suma y sigue", Carried, false),
            ("Total station tripod", Total, true),
            ("Total station, reflectorless", Total, true),
            ("Total weight indicator", Total, true),
            ("Total 3D scanner", Total, true),
            ("Totale stazione", Total, true),
            ("Suma bar cabinet", Total, true),
            ("Sub-total plates", Subtotal, true),
            ("Page 2 of 3", Page, false),
            ("Note: sling twice", Note, true),
        ] {
            assert_eq!(of_start(text), Some(Start { word, goes_on }), "{text}");
        }
    }

    #[test]
    fn goods_that_begin_like_a_sum() {
        for text in [
            "Totally different pipe",
            "Totalisator",
            "Reporter cable",
            "Report cabinet",
            "Report binder, A4",
            "Transport frame",
            "Transport frame for transformer",
            "Transport pallet",
            "Transport 2 crates",
            "Transport weights",
            "Transportgestell",
            "Riportofono",
            "Gesamtanlage",
            "Of steel",
            "EUR pallet",
        ] {
            assert_eq!(of_start(text), None, "{text}");
        }
    }
}
