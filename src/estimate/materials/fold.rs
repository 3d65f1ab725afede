//! Text made comparable: small letters, no accents, one space between words, no plural s.

use unicode_normalization::char::{decompose_compatible, is_combining_mark};

/// One word of a folded text.
#[derive(Clone, Copy, Debug)]
pub struct Token {
    /// Where it stands in the folded text.
    pub start: usize,
    /// One past its end there.
    pub end: usize,
    /// Where it stands in the text as written.
    pub from: usize,
    /// One past its end there.
    pub to: usize,
    /// A comma, bracket, colon, dash or line break stands before it.
    pub breaks: bool,
}

/// A folded text and its words.
#[derive(Debug, Default)]
pub struct Folded {
    /// The words with one space between them.
    pub text: String,
    /// Where each word is.
    pub tokens: Vec<Token>,
    breaks: bool,
    open: Option<(usize, usize)>,
}

impl Folded {
    /// Folds a text as written.
    pub fn new(raw: &str) -> Folded {
        let mut folded = Folded {
            text: String::with_capacity(raw.len()),
            ..Folded::default()
        };
        let mut before = ' ';
        for (at, c) in raw.char_indices() {
            if c.is_ascii_alphanumeric() {
                folded.letter(c.to_ascii_lowercase(), at);
            } else if c.is_ascii() {
                folded.close(at);
                folded.breaks |= match c {
                    // The comma of a number parts nothing.
                    ',' => !raw
                        .get(at + 1..)
                        .is_some_and(|rest| rest.starts_with(|d: char| d.is_ascii_digit())),
                    ';' | ':' | '(' | ')' | '[' | ']' | '|' | '\n' | '\r' | '\t' => true,
                    '-' => before.is_whitespace(),
                    _ => false,
                };
            } else {
                decompose_compatible(c, |part| folded.part(part, at));
            }
            before = c;
        }
        folded.close(raw.len());
        folded
    }

    /// One word; empty past the end.
    pub fn word(&self, at: usize) -> &str {
        self.tokens
            .get(at)
            .and_then(|token| self.text.get(token.start..token.end))
            .unwrap_or("")
    }

    /// The word directly after, unless a break parts them; empty past the end.
    pub fn next_word(&self, at: usize) -> &str {
        match self.tokens.get(at) {
            Some(token) if !token.breaks => self.word(at),
            _ => "",
        }
    }

    /// Whether the words from this one on begin with the phrase.
    pub fn has_at(&self, at: usize, phrase: &str) -> bool {
        let rest = self
            .tokens
            .get(at)
            .and_then(|token| self.text.get(token.start..))
            .unwrap_or("");
        rest.strip_prefix(phrase)
            .is_some_and(|after| after.is_empty() || after.starts_with(' '))
    }

    /// Some words as written.
    pub fn written<'a>(&self, raw: &'a str, from: usize, to: usize) -> &'a str {
        let start = self.tokens.get(from).map_or(0, |token| token.from);
        let end = to
            .checked_sub(1)
            .and_then(|last| self.tokens.get(last))
            .map_or(raw.len(), |token| token.to);
        raw.get(start..end).unwrap_or(raw)
    }

    fn part(&mut self, part: char, at: usize) {
        match part {
            'ß' => ['s', 's'].into_iter().for_each(|c| self.letter(c, at)),
            'æ' | 'Æ' => ['a', 'e'].into_iter().for_each(|c| self.letter(c, at)),
            'œ' | 'Œ' => ['o', 'e'].into_iter().for_each(|c| self.letter(c, at)),
            'ł' | 'Ł' => self.letter('l', at),
            'ø' | 'Ø' => self.letter('o', at),
            'đ' | 'Đ' => self.letter('d', at),
            _ if is_combining_mark(part) => {}
            _ if part.is_alphanumeric() => part.to_lowercase().for_each(|c| self.letter(c, at)),
            _ => {
                self.close(at);
                self.breaks |= matches!(part, '–' | '—' | '、' | '・' | '。');
            }
        }
    }

    fn letter(&mut self, letter: char, at: usize) {
        if self.open.is_none() {
            if !self.text.is_empty() {
                self.text.push(' ');
            }
            self.open = Some((self.text.len(), at));
        }
        self.text.push(letter);
    }

    fn close(&mut self, at: usize) {
        let Some((start, from)) = self.open.take() else {
            return;
        };
        let word = self.text.get(start..).unwrap_or("");
        // "plates" and "plate" are one word; "glass", "oats" and "1s" stay.
        if word.len() >= 5
            && word.ends_with('s')
            && !word.ends_with("ss")
            && word.bytes().all(|b| b.is_ascii_lowercase())
        {
            self.text.pop();
        }
        self.tokens.push(Token {
            start,
            end: self.text.len(),
            from,
            to: at,
            breaks: self.breaks,
        });
        self.breaks = false;
    }
}

/// The folded text alone.
pub fn fold(raw: &str) -> String {
    Folded::new(raw).text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_spelling_for_each_word() {
        // The two columns are different spellings of the same words; NFKD is Unicode Standard Annex 15.
        for (a, b) in [
            ("Douglas-fir", "DOUGLAS FIR"),
            ("Chêne", "chene"),
            ("S355J2+N", "s355j2 n"),
            ("Gußeisen", "gusseisen"),
            ("żeliwo", "zeliwo"),
            ("stał", "stal"),
            ("ｱﾙﾐ", "アルミ"),
            ("Ｓ３５５", "s355"),
            ("steel plates", "steel plate"),
            ("EN AW-5754", "en aw 5754"),
        ] {
            assert_eq!(fold(a), fold(b));
        }
        assert_ne!(fold("brass"), fold("bras"));
    }

    #[test]
    fn breaks_part_what_a_number_s_comma_does_not() {
        let folded = Folded::new("Bracket for rail, 1,5 mm - steel (S355)");
        let parted: Vec<&str> = (0..folded.tokens.len())
            .filter(|&i| folded.tokens[i].breaks)
            .map(|i| folded.word(i))
            .collect();
        assert_eq!(parted, ["1", "steel", "s355"]);
    }
}
