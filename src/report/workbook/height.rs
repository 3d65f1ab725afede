//! How tall a row must be for its wrapped texts, on the generous side: a line too many costs paper, a line too few is not read.

use super::book::Paper;
use crate::report::plain_table::place;

/// Font of the workbook. A font of the same widths is at hand wherever spreadsheets are opened.
pub const FONT: &str = "Arial";
/// Size of its print, points.
pub const SIZE: f64 = 9.0;
/// Height of a line of print and what is left free around it, points.
const LINE: f64 = 12.0;
const MARGIN: f64 = 1.5;
/// Tallest row that a sheet can have, points.
const TALLEST: f64 = 409.0;
/// Room of a column as wide as one figure, thousandths of the print's size: 7 of 96 pixels an inch (ECMA-376, 18.3.1.13), and a
/// little less, because programs round the widths of letters to whole pixels, each in its own way.
const FIGURE: f64 = 7.0 * 0.75 / SIZE * 1000.0 * 0.94;
/// Widths of the signs from the blank to the tilde, thousandths of the print's size (Adobe Core 14 font metrics, Helvetica).
const WIDTHS: [u16; 95] = [
    278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278, 556, 556, 556,
    556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556, 1015, 667, 667, 722, 722, 667,
    611, 778, 722, 278, 500, 667, 556, 833, 722, 778, 667, 778, 722, 667, 611, 722, 667, 944, 667,
    667, 611, 278, 278, 278, 469, 556, 333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500,
    222, 833, 556, 556, 556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584,
];
/// Of a sign that is in no table: of the Latin script, of another one, and one that takes two places.
const LATIN: f64 = 667.0;
const OTHER: f64 = 850.0;
const WIDE: f64 = 1000.0;
const LATIN_ENDS: char = '\u{24F}';
/// How much wider bold print is at most (the same metrics, Helvetica-Bold against Helvetica: 1.13 for small letters).
const BOLD: f64 = 1.15;

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
    wrapped(text, (width * FIGURE).max(WIDE))
}

/// The same in bold.
pub fn bold_lines(text: &str, width: f64) -> usize {
    wrapped(text, (width * FIGURE / BOLD).max(WIDE))
}

fn width_of(sign: char) -> f64 {
    let known = usize::try_from(u32::from(sign))
        .ok()
        .and_then(|code| WIDTHS.get(code.checked_sub(32)?));
    match (known, place(sign)) {
        (Some(width), _) => f64::from(*width),
        (None, 0) => 0.0,
        (None, 1) if sign <= LATIN_ENDS => LATIN,
        (None, 1) => OTHER,
        (None, _) => WIDE,
    }
}

/// Words go to the next line whole; one that is wider than the column is broken, and signs that take two places stand alone.
fn wrapped(text: &str, room: f64) -> usize {
    text.split('\n').map(|line| of_line(line, room)).sum()
}

fn of_line(line: &str, room: f64) -> usize {
    let (mut lines, mut used, mut word) = (1, 0.0, 0.0);
    for sign in line.chars().chain([' ']) {
        let (width, blank) = (width_of(sign), sign.is_whitespace());
        if !blank && place(sign) <= 1 {
            word += width;
            continue;
        }
        // A blank at the end of a line hangs over; only what follows it goes to the next line.
        for (part, moves) in [(word, word > 0.0), (width, !blank)] {
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
        // "four" is 1.723 wide and "ABC" 2.056, by the table of widths.
        for (text, room, expected) in [
            ("", 1_390.0, 1),
            ("four", 1_723.0, 1),
            ("four four", 3_724.0, 1),
            ("four four", 3_720.0, 2),
            ("four\nfour\n", 1_723.0, 3),
            ("four four four", 2_000.0, 3),
            // One word of three times the room.
            ("fourfourfour", 1_723.0, 3),
            ("ABC", 2_000.0, 2),
        ] {
            assert_eq!(wrapped(text, room), expected, "{text} in {room}");
        }
    }

    /// Unicode Standard Annex 11: wide signs take two places, and break anywhere; combining marks take none.
    #[test]
    fn wide_signs_are_as_wide_as_high_and_marks_have_no_width() {
        assert_eq!(wrapped(&"鋼".repeat(10), 5_000.0), 2);
        assert_eq!(wrapped(&"鋼".repeat(11), 5_000.0), 3);
        assert_eq!(wrapped(&"e\u{301}".repeat(10), 5_560.0), 1);
    }

    #[test]
    fn bold_takes_more_room() {
        let text = "as long as nine words of print may be here";
        assert!(bold_lines(text, 35.0) > lines(text, 35.0));
    }
}
