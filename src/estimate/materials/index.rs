//! All words for materials, arranged by their first word so that a text is read once from left to right.

use super::fold::{Folded, fold};
use crate::tables::materials::words::{self, Kind, MaterialWord};
use crate::tables::materials::{Material, Materials};
use std::collections::{HashMap, HashSet};
use std::sync::LazyLock;

/// What a phrase stands for.
#[derive(Clone, Copy, Debug)]
pub enum Meaning {
    /// One material.
    One(&'static Material),
    /// Several, or none: it keeps the words it holds from counting.
    NotOne(&'static MaterialWord),
}

/// A phrase that was met in a text.
#[derive(Clone, Copy, Debug)]
pub struct Hit {
    /// What it stands for.
    pub meaning: Meaning,
    /// First word.
    pub from: usize,
    /// One past the last word.
    pub to: usize,
    /// How much it says: its number of words, 0 for words of treatment only.
    pub rank: usize,
    /// An abbreviation or a number: does not count beside a real word.
    pub code: bool,
}

/// Where a phrase counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Reach {
    Anywhere,
    Column,
    /// In a column, where no real word stands.
    Code,
}

#[derive(Debug)]
struct Phrase {
    text: String,
    meaning: Meaning,
    words: usize,
    rank: usize,
    reach: Reach,
}

/// What words of the text do, whatever the materials are.
#[derive(Debug, Default)]
pub struct Grammar {
    kinds: HashMap<String, u32>,
    blank: HashSet<String>,
    column: HashSet<String>,
}

/// Built at the first look-up, from the table of words only.
pub static GRAMMAR: LazyLock<Grammar> = LazyLock::new(|| {
    let mut grammar = Grammar::default();
    for word in words::all() {
        let folded = fold(word.word);
        match word.kind {
            Kind::Column => drop(grammar.column.insert(folded)),
            Kind::Blank => drop(grammar.blank.insert(folded)),
            Kind::Ambiguous | Kind::Never | Kind::Compound => {}
            kind => *grammar.kinds.entry(folded).or_default() |= 1 << kind as u32,
        }
    }
    grammar
});

impl Grammar {
    /// Whether the word is of one of these kinds.
    pub fn is(&self, word: &str, kinds: &[Kind]) -> bool {
        let mask = kinds.iter().fold(0, |mask, kind| mask | 1 << *kind as u32);
        self.kinds.get(word).is_some_and(|bits| bits & mask != 0)
    }

    /// Whether the whole folded text says nothing.
    pub fn is_blank(&self, text: &str) -> bool {
        text.is_empty() || self.blank.contains(text)
    }
}

/// All words for the materials of a table.
#[derive(Debug, Default)]
pub struct Index {
    phrases: HashMap<String, Vec<Phrase>>,
    signs: HashMap<char, Vec<Phrase>>,
    compounds: HashMap<String, &'static Material>,
    longest_compound: usize,
}

/// Shortest material word that counts inside a longer one.
const COMPOUND_LETTERS: usize = 5;

impl Index {
    /// The words of a table.
    pub fn of(table: &Materials) -> Index {
        let mut index = Index::default();
        for material in table.all() {
            for word in material.synonyms.iter().chain([&material.name]) {
                let text = fold(word);
                let reach = match GRAMMAR.column.contains(&text) || too_short(&text) {
                    false => Reach::Anywhere,
                    true if word.chars().all(char::is_lowercase) => Reach::Column,
                    true => Reach::Code,
                };
                index.add(text, Meaning::One(material), reach);
            }
        }
        for word in words::all()
            .iter()
            .filter(|word| matches!(word.kind, Kind::Ambiguous | Kind::Never))
        {
            index.add(fold(word.word), Meaning::NotOne(word), Reach::Anywhere);
        }
        for word in words::all()
            .iter()
            .filter(|word| word.kind == Kind::Compound)
        {
            let text = fold(word.word);
            if let Some(material) = index.exact(&text) {
                index.longest_compound = index.longest_compound.max(text.len());
                index.compounds.insert(text, material);
            }
        }
        for list in index.phrases.values_mut().chain(index.signs.values_mut()) {
            list.sort_by_key(|phrase| std::cmp::Reverse(phrase.text.len()));
        }
        index
    }

    fn add(&mut self, text: String, meaning: Meaning, reach: Reach) {
        let words = text.split(' ').count();
        let of_treatment = text
            .split(' ')
            .all(|word| GRAMMAR.is(word, &[Kind::Treated, Kind::Weak]));
        let rank = if of_treatment { 0 } else { words };
        let first = text.split(' ').next().unwrap_or("").to_owned();
        let sign = first.chars().next().filter(|c| is_sign(*c));
        let phrase = Phrase {
            text,
            meaning,
            words,
            rank,
            reach: if sign.is_some() {
                Reach::Anywhere
            } else {
                reach
            },
        };
        match sign {
            Some(sign) => self.signs.entry(sign).or_default().push(phrase),
            None => self.phrases.entry(first).or_default().push(phrase),
        }
    }

    fn exact(&self, text: &str) -> Option<&'static Material> {
        let phrase = self
            .phrases
            .get(text)?
            .iter()
            .find(|phrase| phrase.text == text)?;
        match phrase.meaning {
            Meaning::One(material) => Some(material),
            Meaning::NotOne(_) => None,
        }
    }

    /// Whether the word begins a known phrase or has a kind of its own.
    pub fn knows(&self, word: &str) -> bool {
        self.phrases.contains_key(word) || GRAMMAR.kinds.contains_key(word)
    }

    /// The phrases of a text from left to right, the longest at each place; short ones and grades without letters
    /// only in a material column.
    pub fn hits(&self, text: &Folded, column: bool) -> Vec<Hit> {
        let mut hits = Vec::new();
        let mut at = 0;
        while at < text.tokens.len() {
            let word = text.word(at);
            let phrase = self.phrases.get(word).and_then(|list| {
                list.iter()
                    .find(|p| (column || p.reach == Reach::Anywhere) && text.has_at(at, &p.text))
            });
            let to = at + phrase.map_or(1, |phrase| phrase.words);
            if let Some(phrase) = phrase {
                hits.push(Hit {
                    meaning: phrase.meaning,
                    from: at,
                    to,
                    rank: phrase.rank,
                    code: phrase.reach == Reach::Code,
                });
            } else if word.is_ascii() {
                let material = self.in_compound(word);
                hits.extend(material.map(|m| Hit {
                    meaning: Meaning::One(m),
                    from: at,
                    to,
                    rank: 1,
                    code: false,
                }));
            } else {
                self.in_signs(word, at, &mut hits);
            }
            at = to;
        }
        hits
    }

    /// The longest material word at the start or the end of a longer word; the end, its head, wins a tie.
    fn in_compound(&self, word: &str) -> Option<&'static Material> {
        let longest = word.len().min(self.longest_compound + 1);
        (COMPOUND_LETTERS..longest).rev().find_map(|letters| {
            let head = word.len() - letters;
            let end = word.get(head..).and_then(|part| self.compounds.get(part));
            // A tree's name ends too many other words (German "Weiche", "Bereiche").
            let end = end.filter(|material| head >= 3 && material.group != "wood");
            let start = word
                .get(..letters)
                .and_then(|part| self.compounds.get(part));
            let start = start.filter(|_| !Self::other_thing(word.get(letters..).unwrap_or("")));
            end.or(start).copied()
        })
    }

    /// Whether the rest of a compound is a tool or a package ("Betonmischer").
    fn other_thing(rest: &str) -> bool {
        const KINDS: [Kind; 4] = [Kind::Tool, Kind::Takeover, Kind::Crate, Kind::Package];
        let joined = rest.strip_prefix(['n', 's']).unwrap_or(rest);
        GRAMMAR.is(rest, &KINDS) || GRAMMAR.is(joined, &KINDS)
    }

    /// Chinese and Japanese put no space between words.
    fn in_signs(&self, word: &str, at: usize, hits: &mut Vec<Hit>) {
        let mut rest = word;
        while let Some(sign) = rest.chars().next() {
            let phrase = self
                .signs
                .get(&sign)
                .and_then(|list| list.iter().find(|p| rest.starts_with(&p.text)));
            if let Some(phrase) = phrase {
                hits.push(Hit {
                    meaning: phrase.meaning,
                    from: at,
                    to: at + 1,
                    rank: 1,
                    code: false,
                });
            }
            let used = phrase.map_or(sign.len_utf8(), |phrase| phrase.text.len());
            rest = rest.get(used..).unwrap_or("");
        }
    }
}

/// Whether a folded word is too short, or has too few letters, to count in a description.
fn too_short(text: &str) -> bool {
    let signs = text.bytes().filter(|b| *b != b' ').count();
    let least = if text.contains(' ') { 5 } else { 4 };
    signs < least || !text.bytes().any(|b| !b.is_ascii_digit() && b != b' ')
}

/// Chinese or Japanese.
fn is_sign(c: char) -> bool {
    matches!(c, '\u{3040}'..='\u{30ff}' | '\u{3400}'..='\u{9fff}' | '\u{f900}'..='\u{faff}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_word_stands_for_one_material() {
        let mut seen: HashMap<String, &str> = HashMap::new();
        for material in Materials::built_in().all() {
            for word in material.synonyms.iter().chain([&material.name]) {
                let text = fold(word);
                assert!(!text.is_empty(), "{}: {word}", material.name);
                let other = seen.insert(text, material.name);
                assert!(
                    other.is_none_or(|other| other == material.name),
                    "{word}: {other:?} and {}",
                    material.name
                );
            }
        }
        for word in words::all() {
            let known = seen.contains_key(&fold(word.word));
            match word.kind {
                Kind::Column | Kind::Compound => {
                    assert!(known, "{} is no word for a material", word.word)
                }
                Kind::Ambiguous | Kind::Never => assert!(!known, "{} has a material", word.word),
                Kind::Blank => {}
                _ => assert!(
                    !fold(word.word).contains(' '),
                    "{} is more than one word",
                    word.word
                ),
            }
            assert!(
                word.kind != Kind::Compound || fold(word.word).len() >= COMPOUND_LETTERS,
                "{}",
                word.word
            );
        }
    }
}
