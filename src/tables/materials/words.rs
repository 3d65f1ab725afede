//! Words that decide whether a material's name in a text means the goods: what they do and why.
//! Comes in: `material_words.csv`, embedded. Goes out: one static list.

use serde::Deserialize;
use std::sync::LazyLock;

/// What a word does.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Kind {
    /// Stands for several materials: never decides.
    Ambiguous,
    /// Counts only in a material column.
    Column,
    /// Holds a material's name and names none.
    Never,
    /// Counts at the start or the end of a longer word.
    Compound,
    /// Opens words about something else than the goods ("for", "with").
    Aside,
    /// Opens words about the packaging when a package follows ("in").
    Inside,
    /// The material before it only covers the goods ("coated").
    Cover,
    /// The goods are made with or for the material before it ("primer").
    Takeover,
    /// A thing used on the material before it, unless that is a metal ("mixer").
    Tool,
    /// Packaging that the material before it is the material of ("crate").
    Crate,
    /// A container of loose goods.
    Package,
    /// A unit of volume.
    Volume,
    /// May follow a loose material without changing its meaning.
    Neutral,
    /// Wood treated with preservative.
    Treated,
    /// Strengthens a word of treatment ("pressure").
    Weak,
    /// Unseasoned wood.
    Green,
    /// Dried after treatment.
    Dried,
    /// Seasoned wood.
    Dry,
    /// Makes a colour or a heat treatment of its neighbour.
    Heat,
    /// Says nothing (a whole cell).
    Blank,
}

/// One word or phrase.
#[derive(Clone, Debug, PartialEq)]
pub struct MaterialWord {
    /// The word as written.
    pub word: &'static str,
    /// What it does.
    pub kind: Kind,
    /// For an ambiguous word: the materials it may stand for.
    pub could_be: Vec<&'static str>,
}

#[derive(Deserialize)]
struct Row {
    word: String,
    kind: Kind,
    could_be: String,
}

static ALL: LazyLock<Vec<MaterialWord>> = LazyLock::new(|| {
    crate::tables::rows(crate::tables::MATERIAL_WORDS)
        .into_iter()
        .map(|row: Row| MaterialWord {
            word: row.word.leak(),
            kind: row.kind,
            could_be: super::list(row.could_be),
        })
        .collect()
});

/// Every word, sorted by kind, then word.
pub fn all() -> &'static [MaterialWord] {
    &ALL
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::collections::HashSet;

    #[test]
    fn each_word_once_with_a_reason_and_known_materials() {
        #[derive(Deserialize)]
        struct Why {
            word: String,
            why: String,
        }
        for row in crate::tables::rows::<Why>(crate::tables::MATERIAL_WORDS) {
            assert!(!row.why.is_empty(), "{}", row.word);
        }
        let mut seen = HashSet::new();
        for word in all() {
            assert!(seen.insert((word.word, word.kind)), "{} twice", word.word);
            for name in &word.could_be {
                assert!(
                    crate::tables::materials::by_name(name).is_some(),
                    "{}: {name}",
                    word.word
                );
            }
            assert!(
                word.could_be.is_empty() || word.kind == Kind::Ambiguous,
                "{}",
                word.word
            );
        }
    }
}
