//! The words of a fleet register: headings, units, yes and no, attachments, places, months.
//! Comes in: the embedded table. Goes out: what a word means. Never guesses: a word that is not there means nothing.

use std::collections::HashMap;
use std::sync::LazyLock;
use unicode_normalization::UnicodeNormalization;
use unicode_normalization::char::is_combining_mark;

use super::REGISTER_HEADINGS as TABLE;

/// One row of the table: the words that mean one thing.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Entry {
    /// What the words are for: `heading`, `mass-unit`, `length-unit`, `flag`, `bare`, `on-forks`, `place`, `month`, `blank`.
    pub kind: String,
    /// What they mean.
    pub meaning: String,
    /// The words, folded.
    pub words: Vec<String>,
    /// Languages, separated by bars.
    pub language: String,
    /// Where the words come from.
    pub source: String,
}

static ENTRIES: LazyLock<Vec<Entry>> = LazyLock::new(|| {
    csv::Reader::from_reader(TABLE.as_bytes())
        .records()
        .flatten()
        .filter_map(|record| {
            let field = |at: usize| record.get(at).map(str::to_string);
            Some(Entry {
                kind: field(0)?,
                meaning: field(1)?,
                words: field(2)?.split('|').map(fold).collect(),
                language: field(3)?,
                source: field(4)?,
            })
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

/// Lower case, without accents and punctuation, words parted by one space; an inch mark reads `in`.
pub fn fold(text: &str) -> String {
    let plain: String = text
        .replace(['"', '″', '”'], " in ")
        .nfkd()
        .filter(|c| !is_combining_mark(*c))
        .flat_map(char::to_lowercase)
        .collect::<String>()
        .replace('ß', "ss");
    let words: Vec<&str> = plain
        .split(|c: char| !c.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    words.join(" ")
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn every_row_is_read_and_has_a_source() {
        assert_eq!(entries().len(), TABLE.lines().count() - 1);
        for entry in entries() {
            assert!(!entry.source.is_empty(), "{entry:?}");
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
