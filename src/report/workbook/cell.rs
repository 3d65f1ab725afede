//! What a cell may hold. A text is always a text: nothing here guesses a type.

use crate::report::words;
use std::borrow::Cow;

/// Most UTF-16 units that a cell holds (ECMA-376, as spreadsheet programs keep it).
pub const MOST_CHARACTERS: usize = 32_767;
/// Characters of a supplier's name for something, and of a longer text, that a row has room for in any script: a row is at most
/// 30 lines high.
pub const MOST_OF_NAME: usize = 100;
const MOST_OF_TEXT: usize = 280;
/// Of a name that stands in every row of a supplier, so that it makes none of them taller.
const MOST_OF_SUPPLIER: usize = 40;
const GOES_ON: &str = " … [goes on in the file]";
const CUT_NOTE: &str = " [cut: longer than a cell]";

/// One cell of a row.
#[derive(Clone, Debug)]
pub enum Cell<'a> {
    /// Nothing.
    Blank,
    /// Text from anywhere, suppliers' files included: written as text whatever it begins with.
    Text(Cow<'a, str>),
    /// Bold text of our own.
    Strong(Cow<'a, str>),
    /// Small text of our own, for the program to read.
    Small(Cow<'a, str>),
    /// A heading of one line that runs on over the empty cells beside it.
    Across(Cow<'a, str>),
    /// A figure already rounded: thousands with commas, decimals only where it is small.
    Figure(f64),
    /// A share (0.82), shown as a percentage.
    Share(f64),
    /// Text of our own that leads to a place of the workbook (`internal:'Working'!A7`).
    Link(Cow<'a, str>, String),
    /// A part of a whole (0.034), shown as a percentage with a decimal.
    Part(f64),
    /// What something is off (-0.05), shown as a percentage with its sign.
    Off(f64),
    /// A figure of the working, unrounded.
    Exact(f64),
    /// The same where a person may change it.
    Input(f64),
    /// A formula of our own (never made of a supplier's text) with its result.
    Live(String, f64),
    /// The same for a figure in the units people see.
    Seen(String, f64),
    /// An empty cell for a person to fill.
    Entry,
    /// An empty cell for a person to put a date in.
    DateEntry,
}

impl<'a> Cell<'a> {
    /// A text.
    pub fn text(text: impl Into<Cow<'a, str>>) -> Cell<'a> {
        Cell::Text(text.into())
    }

    /// A supplier's name or number for something, as much of it as a narrow column has room for.
    pub fn name(text: impl Into<Cow<'a, str>>) -> Cell<'a> {
        Cell::Text(brief(text.into(), MOST_OF_NAME))
    }

    /// The supplier's own name, as much of it as makes no row tall.
    pub fn supplier(name: &str) -> Cell<'_> {
        Cell::Text(words::short(name, MOST_OF_SUPPLIER))
    }

    /// A supplier's text, as much of it as a row has room for.
    pub fn words(text: impl Into<Cow<'a, str>>) -> Cell<'a> {
        Cell::Text(brief(text.into(), MOST_OF_TEXT))
    }

    /// A rounded figure, or nothing.
    pub fn figure(value: Option<f64>) -> Cell<'a> {
        value.map_or(Cell::Blank, Cell::Figure)
    }

    /// A count.
    pub fn count(number: usize) -> Cell<'a> {
        Cell::Figure(number as f64)
    }
}

/// The first `most` characters of a text; what is longer says so.
pub fn brief(text: Cow<'_, str>, most: usize) -> Cow<'_, str> {
    match text.char_indices().nth(most) {
        None => text,
        Some((end, _)) => Cow::Owned(format!("{}{GOES_ON}", text.get(..end).unwrap_or_default())),
    }
}

/// A text as a cell can hold it: control characters other than line ends give a space or go, the rest stays as it is;
/// what is longer than a cell is cut with a note.
pub fn clean(text: &str) -> Cow<'_, str> {
    let text = if text.chars().any(unfit) {
        Cow::Owned(text.replace("\r\n", "\n").chars().filter_map(fit).collect())
    } else {
        Cow::Borrowed(text)
    };
    // Three bytes or fewer a UTF-16 unit, and never fewer bytes than units: short texts need no counting.
    if text.len() <= MOST_CHARACTERS || text.encode_utf16().count() <= MOST_CHARACTERS {
        return text;
    }
    let room = MOST_CHARACTERS - CUT_NOTE.len();
    let mut units = 0;
    let mut kept: String = text
        .chars()
        .take_while(|letter| {
            units += letter.len_utf16();
            units <= room
        })
        .collect();
    kept.push_str(CUT_NOTE);
    Cow::Owned(kept)
}

fn unfit(letter: char) -> bool {
    (letter.is_control() && letter != '\n') || matches!(letter, '\u{FFFE}' | '\u{FFFF}')
}

fn fit(letter: char) -> Option<char> {
    match letter {
        '\t' | '\r' => Some(' '),
        other if unfit(other) => None,
        other => Some(other),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn texts_stay_but_for_control_characters() {
        for (text, kept) in [
            ("=1+1", "=1+1"),
            ("-2+3", "-2+3"),
            ("\t=1+1", " =1+1"),
            ("\r@x", " @x"),
            ("a\u{0}\u{7}\u{1b}b", "ab"),
            ("two\r\nlines", "two\nlines"),
            ("ümlaut › ½", "ümlaut › ½"),
        ] {
            assert_eq!(clean(text), kept, "{text:?}");
        }
    }

    #[test]
    fn a_row_shows_the_beginning_and_says_that_there_is_more() {
        assert_eq!(brief("鋼板 A".into(), 4), "鋼板 A");
        assert_eq!(brief("鋼板 A1".into(), 4), "鋼板 A … [goes on in the file]");
    }

    #[test]
    fn a_long_text_is_cut_with_a_note() {
        let exact = "x".repeat(MOST_CHARACTERS);
        assert_eq!(clean(&exact), exact);
        // A letter outside the basic plane takes two units.
        let long = "𝟘".repeat(MOST_CHARACTERS / 2 + 1);
        let cut = clean(&long);
        assert!(cut.encode_utf16().count() <= MOST_CHARACTERS);
        assert!(cut.ends_with(CUT_NOTE), "{}", cut.len());
    }
}
