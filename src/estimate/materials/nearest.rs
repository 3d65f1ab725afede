//! The nearest known names of a word that the table does not have.

use super::fold::fold;
use super::index::Index;
use crate::tables::materials::{Material, Materials};
use std::collections::HashSet;

/// Least likeness worth showing, of 1 (common practice, no source).
const LIKE: f64 = 0.7;
/// Shortest word whose misspelling is recognised: shorter ones have too many neighbours ("plate", "slate").
const MISSPELT: usize = 6;

#[derive(Debug)]
struct Candidate {
    text: String,
    letters: u64,
    material: &'static Material,
}

/// The words that a misspelt or unknown word may have meant.
#[derive(Debug)]
pub struct Candidates(Vec<Candidate>);

impl Candidates {
    /// The words of a table.
    pub fn of(table: &Materials) -> Candidates {
        let words = table.all().iter().flat_map(|m| {
            m.synonyms
                .iter()
                .chain([&m.name])
                .map(move |word| (fold(word), *m))
        });
        let words = words.filter(|(text, _)| {
            text.len() >= 4 && text.is_ascii() && text.bytes().any(|b| b.is_ascii_lowercase())
        });
        let candidates = words.map(|(text, material)| Candidate {
            letters: letters(&text),
            text,
            material,
        });
        Candidates(candidates.collect())
    }

    /// Up to three materials with a name like the folded text, the likest first.
    pub fn nearest(&self, text: &str) -> Vec<&'static str> {
        if !text.bytes().any(|b| b.is_ascii_lowercase()) {
            return Vec::new();
        }
        let own = letters(text);
        // Words that share too few letters cannot be alike; this spares most of the comparing.
        let near = self.0.iter().filter(|c| {
            (c.letters ^ own).count_ones() <= 5 && c.text.len().abs_diff(text.len()) <= 5
        });
        let mut scored: Vec<(f64, &'static str)> = near
            .map(|c| {
                (
                    strsim::normalized_damerau_levenshtein(&c.text, text),
                    c.material.name,
                )
            })
            .filter(|(score, _)| *score >= LIKE)
            .collect();
        scored.sort_by(|a, b| b.0.total_cmp(&a.0).then(a.1.cmp(b.1)));
        let mut seen = HashSet::new();
        scored
            .into_iter()
            .map(|(_, name)| name)
            .filter(|name| seen.insert(*name))
            .take(3)
            .collect()
    }

    /// Whether the folded word looks like a material's name with one slip in it ("bronz").
    pub fn is_misspelt(&self, index: &Index, word: &str) -> bool {
        if word.len() + 1 < MISSPELT
            || index.knows(word)
            || !word.bytes().all(|b| b.is_ascii_lowercase())
        {
            return false;
        }
        let own = letters(word);
        self.0.iter().any(|c| {
            c.text.len() >= MISSPELT
                && c.text.len().abs_diff(word.len()) <= 1
                && (c.letters ^ own).count_ones() <= 2
                && strsim::osa_distance(&c.text, word) == 1
        })
    }
}

/// One bit for each letter and digit that occurs.
fn letters(text: &str) -> u64 {
    text.bytes().fold(0, |bits, b| match b {
        b'a'..=b'z' => bits | 1 << (b - b'a'),
        b'0'..=b'9' => bits | 1 << (b - b'0' + 26),
        _ => bits,
    })
}
