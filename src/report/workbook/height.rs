//! How tall a row must be for its wrapped texts, on the generous side: a line too many costs paper, a line too few is not read.

use super::book::Paper;
use crate::report::plain_table::place;

/// Height of a line of print and what is left free around it, points.
const LINE: f64 = 13.0;
const MARGIN: f64 = 1.5;
/// Tallest row that a sheet can have, points.
const TALLEST: f64 = 409.0;
/// Letters that stand in the place of a figure, in plain and in bold print (measured on texts in the workbook's font).
const LETTERS: f64 = 1.1;
const BOLD: f64 = 1.0;
/// Places that a capital letter takes, and one beyond the Latin script.
const LARGE: f64 = 1.15;
const LATIN_ENDS: char = '\u{24F}';

/// How many times as large as usual the print of a sheet is.
pub fn print(paper: Paper) -> f64 {
    if paper == Paper::Card { 1.4 } else { 1.0 }
}

/// Height of a row with so many lines, points.
pub fn of_row(lines: usize, paper: Paper) -> f64 {
    (lines as f64 * LINE * print(paper) + MARGIN).min(TALLEST)
}

/// Lines that a text takes in a column of this width in figures.
pub fn lines(text: &str, width: f64) -> usize {
    wrapped(text, (width * LETTERS).max(1.0))
}

/// The same in bold.
pub fn bold_lines(text: &str, width: f64) -> usize {
    wrapped(text, (width * BOLD).max(1.0))
}

/// Words go to the next line whole; one that is wider than the column is broken, and signs that take two places stand alone.
fn wrapped(text: &str, room: f64) -> usize {
    text.split('\n').map(|line| of_line(line, room)).sum()
}

fn of_line(line: &str, room: f64) -> usize {
    let (mut lines, mut used, mut word) = (1, 0.0, 0.0);
    for sign in line.chars().chain([' ']) {
        let (place, blank) = (place(sign) as f64, sign.is_whitespace());
        if !blank && place <= 1.0 {
            let large = sign.is_uppercase() || sign > LATIN_ENDS && sign.is_alphabetic();
            word += if large { LARGE } else { place };
            continue;
        }
        // A blank at the end of a line hangs over; only what follows it goes to the next line.
        for (part, moves) in [(word, word > 0.0), (place, !blank)] {
            if moves && used > 0.0 && used + part > room {
                lines += 1;
                used = 0.0;
            }
            let further = (part / room - 1e-9).floor().max(0.0);
            lines += further as usize;
            used += part - further * room;
        }
        word = 0.0;
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_go_to_the_next_line_whole() {
        for (text, room, expected) in [
            ("", 10.0, 1),
            ("ten places", 10.0, 1),
            ("ten places", 9.0, 2),
            ("a\nb\n", 10.0, 3),
            ("four four four", 6.0, 3),
            // One word of 25 places.
            ("abcdefghijklmnopqrstuvwxy", 10.0, 3),
            // Capitals are wider: 11.5 places.
            ("ABCDEFGHIJ", 10.0, 2),
        ] {
            assert_eq!(wrapped(text, room), expected, "{text} in {room}");
        }
    }

    /// Unicode Standard Annex 11: wide signs take two places, and break anywhere; combining marks take none.
    #[test]
    fn wide_signs_count_twice_and_marks_not_at_all() {
        assert_eq!(wrapped(&"鋼".repeat(10), 10.0), 2);
        assert_eq!(wrapped(&"鋼".repeat(11), 10.0), 3);
        assert_eq!(wrapped(&"e\u{301}".repeat(10), 10.0), 1);
    }

    #[test]
    fn bold_takes_more_room() {
        let text = "as long as nine words of print may be here";
        assert!(bold_lines(text, 40.0) > lines(text, 40.0));
    }
}
