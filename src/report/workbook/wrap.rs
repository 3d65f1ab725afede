//! How many lines a text takes in a column, so that rows are made high enough: not every program that opens the file does so
//! by itself. On the generous side, in any script.

use unicode_normalization::char::is_combining_mark;

/// Width of a bold letter against a plain one.
const BOLD: f64 = 1.06;

/// Lines of a text in a column that is `width` digits wide: words go to the next line whole, longer ones are broken.
pub fn lines(text: &str, width: f64, bold: bool) -> usize {
    let room = (if bold { width / BOLD } else { width }).max(1.0);
    text.lines().map(|line| lines_of_one(line, room)).sum()
}

fn lines_of_one(line: &str, room: f64) -> usize {
    let (mut lines, mut at, mut word) = (1, 0.0, 0.0);
    for letter in line.chars() {
        let wide = width(letter);
        // After a blank and between signs that are words of their own a line may end.
        if letter.is_whitespace() || wide >= WIDE {
            at += word;
            word = 0.0;
            if at + wide > room && !letter.is_whitespace() {
                lines += 1;
                at = 0.0;
            }
            at += wide;
            continue;
        }
        if word + wide > room {
            // A word longer than the column.
            lines += if at > 0.0 { 2 } else { 1 };
            (at, word) = (0.0, wide);
            continue;
        }
        word += wide;
        if at + word > room {
            lines += 1;
            at = 0.0;
        }
    }
    lines
}

/// Width of a sign of the writing systems that use whole squares.
const WIDE: f64 = 2.0;

/// Width of a letter in digits of the same size, by the proportions of the workbook's font.
fn width(letter: char) -> f64 {
    match letter {
        ' ' | '.' | ',' | ':' | ';' | '\'' | '|' | '!' | 'i' | 'j' | 'l' | 'f' | 't' | 'r'
        | 'I' => 0.7,
        'm' | 'w' | 'M' | 'W' | '@' | '%' | '—' | '…' => 1.7,
        _ if letter.is_ascii_uppercase() => 1.2,
        _ if letter.is_ascii() => 1.0,
        _ if is_combining_mark(letter) => 0.0,
        '\u{1100}'..='\u{115F}'
        | '\u{2E80}'..='\u{A4CF}'
        | '\u{AC00}'..='\u{D7A3}'
        | '\u{F900}'..='\u{FAFF}'
        | '\u{FE30}'..='\u{FE6F}'
        | '\u{FF00}'..='\u{FF60}'
        | '\u{FFE0}'..='\u{FFE6}'
        | '\u{1F000}'..='\u{1FAFF}'
        | '\u{20000}'..='\u{3FFFD}' => WIDE,
        _ => 1.25,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Counted by hand: a column of ten digits.
    #[test]
    fn words_go_to_the_next_line_whole() {
        for (text, counted) in [
            ("", 0),
            ("one", 1),
            ("one\ntwo", 2),
            ("0123456789", 1),
            ("012345 6789", 2),
            ("0123456789012345678901", 3),
            ("01 0123456789012", 3),
            // Five squares a line.
            ("鋼板鋼板鋼", 1),
            ("鋼板鋼板鋼板", 2),
            // A letter with a mark of its own takes no more room.
            (
                "u\u{308}u\u{308}u\u{308}u\u{308}u\u{308}u\u{308}u\u{308}u\u{308}u\u{308}u\u{308}",
                1,
            ),
            ("MMMMMMMM", 2),
        ] {
            assert_eq!(lines(text, 10.0, false), counted, "{text}");
        }
        assert_eq!(lines("0123456789", 10.0, true), 2);
    }
}
