//! Finding the words of a table in a text: whole words, the longest phrase first, without case and accents.

use crate::units::written::fold;
use std::collections::HashMap;
use unicode_normalization::UnicodeNormalization;

/// One word of a text.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Word {
    /// Folded: lower case, no accents, dots of abbreviations dropped.
    pub plain: String,
    /// As written (signs folded), for what depends on case.
    pub raw: String,
    /// Byte where it starts in the folded text.
    pub start: usize,
    /// Stands inside brackets.
    pub bracketed: bool,
}

/// The words of a text. `/`, `#`, `&` and `Ø` are words of their own, and so is each Chinese or Japanese sign.
pub fn words(text: &str) -> Vec<Word> {
    let folded = fold(text);
    let mut found: Vec<Word> = Vec::new();
    let mut depth = 0usize;
    let mut open = false;
    let mut last: Option<char> = None;
    for (at, sign) in folded.char_indices() {
        match sign {
            '(' | '[' => depth += 1,
            ')' | ']' => depth = depth.saturating_sub(1),
            _ => {}
        }
        let alone = matches!(sign, '/' | '#' | '&' | 'Ø' | '*') || is_ideograph(sign);
        if sign == '.' && open && last.is_some_and(char::is_alphabetic) {
            last = Some(sign);
            continue;
        }
        if alone || sign.is_alphanumeric() || matches!(sign, '°' | 'º' | 'ª') {
            let plain: String = plain_sign(sign);
            match found.last_mut() {
                Some(word) if open && !alone => {
                    word.plain.push_str(&plain);
                    word.raw.push(sign);
                }
                _ => found.push(Word {
                    plain,
                    raw: sign.to_string(),
                    start: at,
                    bracketed: depth > 0,
                }),
            }
            open = !alone;
        } else {
            open = false;
        }
        last = Some(sign);
    }
    found
}

fn plain_sign(sign: char) -> String {
    match sign {
        'ß' => "ss".to_string(),
        'ł' | 'Ł' => "l".to_string(),
        'Ø' => "Ø".to_string(),
        sign if sign.is_ascii() => sign.to_ascii_lowercase().to_string(),
        sign => sign
            .nfkd()
            .filter(|part| !unicode_normalization::char::is_combining_mark(*part))
            .flat_map(char::to_lowercase)
            .collect(),
    }
}

fn is_ideograph(sign: char) -> bool {
    matches!(sign as u32, 0x3040..=0x30FF | 0x3400..=0x9FFF | 0xAC00..=0xD7AF)
}

/// The phrases of a table with what each means, found by their first word.
pub struct Phrases<T> {
    first: HashMap<String, Vec<(Vec<String>, T)>>,
    /// Endings of compound words (`*rohr`), longest first.
    endings: Vec<(String, T)>,
}

impl<T: Clone> Phrases<T> {
    /// From pairs of phrase and meaning; a phrase that begins with `*` is the ending of a compound word.
    pub fn new(pairs: impl IntoIterator<Item = (String, T)>) -> Phrases<T> {
        let mut phrases = Phrases {
            first: HashMap::new(),
            endings: Vec::new(),
        };
        for (phrase, meaning) in pairs {
            if let Some(ending) = phrase.strip_prefix('*') {
                phrases.endings.push((ending.to_string(), meaning));
                continue;
            }
            let parts: Vec<String> = words(&phrase).into_iter().map(|word| word.plain).collect();
            if let Some(first) = parts.first() {
                phrases
                    .first
                    .entry(first.clone())
                    .or_default()
                    .push((parts, meaning));
            }
        }
        for candidates in phrases.first.values_mut() {
            candidates.sort_by_key(|(parts, _)| std::cmp::Reverse(parts.len()));
        }
        phrases
            .endings
            .sort_by_key(|(ending, _)| std::cmp::Reverse(ending.len()));
        phrases
    }

    /// The longest phrase that starts at word `at`: its length in words and its meaning.
    pub fn at(&self, words: &[Word], at: usize) -> Option<(usize, &T)> {
        let word = words.get(at)?;
        let whole = self.first.get(&word.plain).and_then(|candidates| {
            candidates.iter().find(|(parts, _)| {
                words.get(at..at + parts.len()).is_some_and(|window| {
                    window
                        .iter()
                        .zip(parts)
                        .all(|(word, part)| word.plain == *part)
                })
            })
        });
        if let Some((parts, meaning)) = whole {
            return Some((parts.len(), meaning));
        }
        self.endings
            .iter()
            .find(|(ending, _)| {
                word.plain.len() > ending.len() + 2 && word.plain.ends_with(ending.as_str())
            })
            .map(|(_, meaning)| (1, meaning))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plain(text: &str) -> Vec<String> {
        words(text).into_iter().map(|word| word.plain).collect()
    }

    #[test]
    fn words_of_headings() {
        assert_eq!(plain("N.W./CTN"), ["nw", "/", "ctn"]);
        assert_eq!(plain("Gew./Stk kg"), ["gew", "/", "stk", "kg"]);
        assert_eq!(plain("Außen-Ø mm"), ["aussen", "Ø", "mm"]);
        assert_eq!(
            plain("Gross Weight毛重(KGS)"),
            ["gross", "weight", "毛", "重", "kgs"]
        );
        assert_eq!(plain("Qté"), ["qte"]);
        assert_eq!(plain("Długość"), ["dlugosc"]);
        assert_eq!(plain("Artikel-Nr."), ["artikel", "nr"]);
    }

    #[test]
    fn the_longest_phrase_wins_and_endings_match_compounds() {
        let phrases = Phrases::new([
            ("rail".to_string(), 1),
            ("rail clip".to_string(), 2),
            ("*rohr".to_string(), 3),
        ]);
        assert_eq!(phrases.at(&words("rail clip, spring"), 0), Some((2, &2)));
        assert_eq!(phrases.at(&words("rails clip"), 0), None);
        assert_eq!(phrases.at(&words("Edelstahlrohr"), 0), Some((1, &3)));
    }
}
