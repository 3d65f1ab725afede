//! The words of a fleet register: headings, units, yes and no, attachments, places, months.
//! Comes in: the embedded table. Goes out: what a word means. Never guesses: a word that is not there means nothing.

use super::REGISTER_HEADINGS as TABLE;
use super::phrases;
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// One row of the table: the words that mean one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What the words are for: `heading`, `mass-unit`, `length-unit`, `flag`, `bare`, `on-forks`, `place`, `month`, `blank`.
    pub kind: String,
    /// What they mean.
    pub meaning: String,
    /// The words, folded.
    pub words: Vec<String>,
}

#[derive(Deserialize)]
struct RowOfTable {
    kind: String,
    meaning: String,
    words: String,
}

static ENTRIES: LazyLock<Vec<Entry>> = LazyLock::new(|| {
    super::rows::<RowOfTable>(TABLE)
        .into_iter()
        .map(|row| Entry {
            kind: row.kind,
            meaning: row.meaning,
            words: row.words.split('|').map(fold).collect(),
        })
        .collect()
});

static MEANINGS: LazyLock<HashMap<(&'static str, &'static str), &'static str>> =
    LazyLock::new(|| {
        let entries: &'static [Entry] = &ENTRIES;
        entries
            .iter()
            .flat_map(|entry| {
                let (kind, meaning) = (entry.kind.as_str(), entry.meaning.as_str());
                entry
                    .words
                    .iter()
                    .map(move |word| ((kind, word.as_str()), meaning))
            })
            .collect()
    });

/// All rows of the table, in its order.
pub fn entries() -> &'static [Entry] {
    &ENTRIES
}

/// What a folded word of a kind means; none when the table does not know it.
pub fn meaning(kind: &str, folded: &str) -> Option<&'static str> {
    MEANINGS.get(&(kind, folded)).copied()
}

/// The plain words of a text parted by one space, without signs; an inch mark reads `in`.
pub fn fold(text: &str) -> String {
    let text = crate::units::written::fold(text).replace('"', " in ");
    let words: Vec<String> = phrases::words(&text)
        .into_iter()
        .map(|word| word.plain)
        .filter(|word| word.contains(char::is_alphanumeric))
        .collect();
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_row_has_words() {
        for entry in entries() {
            assert!(entry.words.iter().all(|word| !word.is_empty()), "{entry:?}");
        }
    }

    #[test]
    fn no_word_of_a_kind_means_two_things() {
        let mut seen = HashSet::new();
        for entry in entries() {
            for word in &entry.words {
                assert!(
                    seen.insert((&entry.kind, word)),
                    "{word} stands twice among {}",
                    entry.kind
                );
            }
        }
    }

    #[test]
    fn folding_keeps_only_words() {
        for (text, folded) in [
            ("Load  Centre (\")", "load centre in"),
            ("Tragfähigkeit [kg]", "tragfahigkeit kg"),
            ("Außer Betrieb", "ausser betrieb"),
            ("Hauteur d'élévation, mm", "hauteur d elevation mm"),
            ("Truck #", "truck"),
            ("–", ""),
        ] {
            assert_eq!(fold(text), folded, "{text}");
        }
        assert_eq!(meaning("heading", "load center"), Some("load-centre"));
        assert_eq!(meaning("flag", "perhaps"), None);
    }
}
