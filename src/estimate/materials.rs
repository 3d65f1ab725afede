//! Which material a line is of, from the words of its material column or its description.
//! Comes in: text as written, and the table with its words. Goes out: a row of the table, or why none. Never a default.

mod context;
mod fold;
mod index;
mod nearest;
#[cfg(test)]
mod tests;
mod wood;

use crate::tables::materials::{Material, Materials, OwnMaterial};
use fold::Folded;
use index::{GRAMMAR, Hit, Index, Meaning};
use nearest::Candidates;
use std::sync::{Arc, LazyLock};
use wood::DryRows;

pub(super) use context::is_loose;

/// What a text says about the material.
#[derive(Clone, Debug, PartialEq)]
pub enum Found {
    /// One row of the table.
    Known {
        /// The row.
        material: &'static Material,
        /// The words it was found by, as written.
        word: String,
    },
    /// The text names something, but no one row of the table.
    Unknown {
        /// The text, as written.
        word: String,
        /// Up to three rows it may mean.
        nearest: Vec<&'static str>,
    },
    /// The text names no material.
    Nothing,
}

/// A table of materials with every word that stands for one of its rows.
#[derive(Debug)]
pub struct Vocabulary {
    /// The rows.
    pub table: Materials,
    index: Index,
    candidates: Candidates,
    dry: DryRows,
}

static BUILT_IN: LazyLock<Arc<Vocabulary>> =
    LazyLock::new(|| Arc::new(Vocabulary::of(Materials::with(&[]))));

impl Vocabulary {
    /// The words of a table.
    pub fn of(table: Materials) -> Vocabulary {
        Vocabulary {
            index: Index::of(&table),
            candidates: Candidates::of(&table),
            dry: wood::dry_rows(&table),
            table,
        }
    }

    /// The words of the rows every site has.
    pub fn built_in() -> &'static Vocabulary {
        &BUILT_IN
    }

    /// The words of a site's rows beside and instead of the built-in ones.
    pub fn with(own: &[OwnMaterial]) -> Arc<Vocabulary> {
        if own.is_empty() {
            return Arc::clone(&BUILT_IN);
        }
        Arc::new(Vocabulary::of(Materials::with(own)))
    }

    /// Reads a material or grade column. Short words and grades without letters count here ("MS", "304"). A text that the
    /// table does not have, that is spelt wrong, or that names two unlike materials is `Unknown`; a blank is `Nothing`.
    pub fn in_column(&self, text: &str) -> Found {
        let folded = Folded::new(text);
        if GRAMMAR.is_blank(&folded.text) {
            return Found::Nothing;
        }
        let hits = self.index.hits(&folded, true);
        let unknown = |nearest: Vec<&'static str>| Found::Unknown {
            word: text.trim().to_owned(),
            nearest,
        };
        let named = named(&folded, &hits);
        let Some((hit, material)) = context::most_telling(&named) else {
            let could_be = hits.iter().find_map(|hit| match hit.meaning {
                Meaning::NotOne(word) if !word.could_be.is_empty() => {
                    Some(word.could_be.iter().take(3).copied().collect())
                }
                _ => None,
            });
            return unknown(could_be.unwrap_or_else(|| self.candidates.nearest(&folded.text)));
        };
        let open = |at: &usize| !hits.iter().any(|hit| hit.from <= *at && *at < hit.to);
        let numbers_only = !folded.text.chars().any(char::is_alphabetic);
        // A number is a grade only where it is the whole text; a misspelt word may change the material.
        if (0..folded.tokens.len())
            .filter(open)
            .any(|at| numbers_only || self.candidates.is_misspelt(&self.index, folded.word(at)))
        {
            return unknown(self.candidates.nearest(&folded.text));
        }
        let unlike = |other: &Material| other.low > material.high || other.high < material.low;
        if let Some((_, other)) = named.iter().find(|(_, other)| unlike(other)) {
            return unknown(vec![material.name, other.name]);
        }
        self.known(text, &folded, hit, material)
    }

    /// Reads a free description. Whole words of four letters or more, long words also inside compounds; the phrase of most
    /// words wins, then the first. Words about packaging, coatings and what the goods are for do not count.
    /// `product_matched`: the description has named a standard product, so that loose materials count only with a container.
    pub fn in_description(&self, text: &str, product_matched: bool) -> Found {
        let folded = Folded::new(text);
        match context::of_goods(&self.index, &folded, product_matched) {
            Some((hit, material)) => self.known(text, &folded, hit, material),
            None => Found::Nothing,
        }
    }

    /// What a drum, pail or tote holds, from the material column or else the description. The column may say what the container is
    /// made of ("HDPE"), which is not what it holds; a column that names an unknown stuff leaves nothing to go by.
    pub fn of_contents(&self, column: Option<&str>, description: &str) -> Found {
        match column.map(|text| self.in_column(text)) {
            Some(Found::Known { material, word }) if context::is_loose(material) => {
                return Found::Known { material, word };
            }
            Some(Found::Unknown { word, nearest }) => return Found::Unknown { word, nearest },
            _ => {}
        }
        let folded = Folded::new(description);
        match context::of_contents(&self.index, &folded) {
            Some((hit, material)) => self.known(description, &folded, hit, material),
            None => Found::Nothing,
        }
    }

    /// The row for a wood in the condition that another text of the line names ("green", "treated"); for other
    /// materials, and where the text names no condition, the material itself.
    pub fn in_condition(&self, material: &'static Material, text: &str) -> &'static Material {
        wood::in_condition(&self.table, &self.dry, material, &Folded::new(text))
    }

    /// The row of the same wood green, where the row says nothing of moisture.
    pub fn green(&self, material: &'static Material) -> Option<&'static Material> {
        let green = || self.in_condition(material, "green");
        wood::is_of_unstated_moisture(material).then(green)
    }

    fn known(&self, text: &str, folded: &Folded, hit: Hit, material: &'static Material) -> Found {
        let word = folded.written(text, hit.from, hit.to).to_owned();
        Found::Known {
            material: wood::in_condition(&self.table, &self.dry, material, folded),
            word,
        }
    }
}

/// Whether a material comes loose by the heap: soil, sand, broken stone, grain, powder.
pub fn is_bulk(material: &Material) -> bool {
    context::is_loose(material) && matches!(material.group, "stone and soil" | "bulk solid")
}

/// The materials of a column's text: real words, or else abbreviations and numbers.
fn named(text: &Folded, hits: &[Hit]) -> Vec<(Hit, &'static Material)> {
    let beside = context::beside(text);
    let counts = |hit: &Hit| {
        !beside.get(hit.from).is_some_and(|aside| *aside) && !context::only_covers(text, hit.to)
    };
    let materials = |code: bool| -> Vec<_> {
        let hits = hits.iter().filter(|hit| hit.code == code && counts(hit));
        let one = hits.filter_map(|hit| match hit.meaning {
            Meaning::One(material) => Some((*hit, material)),
            Meaning::NotOne(_) => None,
        });
        one.collect()
    };
    let words = materials(false);
    if words.is_empty() {
        materials(true)
    } else {
        words
    }
}
