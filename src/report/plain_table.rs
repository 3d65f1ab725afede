//! Tables of plain signs for a terminal: columns of fixed width, long texts wrapped between words.
//! Comes in: texts. Goes out: lines of at most the width asked for. Signs that take two places are counted so.

use super::text::printable;

/// Blanks between two columns.
const GAP: usize = 2;

/// A table with its headings underlined, each line indented by two blanks.
pub fn table(headings: &[&str], widths: &[usize], rows: &[Vec<String>]) -> String {
    let mut text = String::new();
    let own: Vec<String> = headings.iter().map(ToString::to_string).collect();
    line_up(&mut text, &own, widths);
    let rules: Vec<String> = widths.iter().map(|width| "-".repeat(*width)).collect();
    line_up(&mut text, &rules, widths);
    for row in rows {
        line_up(&mut text, row, widths);
    }
    text
}

/// One row of a table: as many lines as its tallest cell.
pub fn line_up(text: &mut String, cells: &[String], widths: &[usize]) {
    let wrapped: Vec<Vec<String>> = cells
        .iter()
        .zip(widths)
        .map(|(cell, width)| wrap(cell, *width))
        .collect();
    let tallest = wrapped.iter().map(Vec::len).max().unwrap_or(0);
    for at in 0..tallest {
        let mut line = " ".repeat(GAP);
        for (lines, width) in wrapped.iter().zip(widths) {
            let part = lines.get(at).map_or("", String::as_str);
            line.push_str(part);
            line.push_str(&" ".repeat(width.saturating_sub(places(part)) + GAP));
        }
        text.push_str(line.trim_end());
        text.push('\n');
    }
}

/// A text after a label, wrapped under itself: `  supplier  Larkspur ...`.
pub fn labelled(label: &str, indent: usize, text: &str, width: usize) -> String {
    let mut lines = String::new();
    for (at, line) in wrap(text, width.saturating_sub(indent))
        .into_iter()
        .enumerate()
    {
        let label = if at == 0 { label } else { "" };
        let blanks = indent.saturating_sub(places(label));
        lines.push_str(format!("{label}{}{line}", " ".repeat(blanks)).trim_end());
        lines.push('\n');
    }
    lines
}

/// The lines of a text, none wider than `width`; a longer word is cut. Control signs become blanks.
pub fn wrap(text: &str, width: usize) -> Vec<String> {
    let text = printable(text);
    let mut lines = vec![String::new()];
    let mut used = 0;
    for word in text.split_whitespace() {
        let wide = places(word);
        let fits = used == 0 || used + 1 + wide <= width;
        if !fits {
            lines.push(String::new());
            used = 0;
        } else if used > 0 {
            push(&mut lines, ' ');
            used += 1;
        }
        for sign in word.chars() {
            let wide = place(sign);
            if used > 0 && used + wide > width {
                lines.push(String::new());
                used = 0;
            }
            push(&mut lines, sign);
            used += wide;
        }
    }
    lines
}

fn push(lines: &mut [String], sign: char) {
    if let Some(line) = lines.last_mut() {
        line.push(sign);
    }
}

/// Places that a text takes on a terminal.
fn places(text: &str) -> usize {
    text.chars().map(place).sum()
}

/// Places that a sign takes: Chinese, Japanese, Korean and full-width signs take two, combining marks none (Unicode Standard
/// Annex 11, ranges simplified).
pub(super) fn place(sign: char) -> usize {
    match sign as u32 {
        0x0300..=0x036F | 0x200B..=0x200F | 0xFEFF => 0,
        0x1100..=0x115F
        | 0x2E80..=0xA4CF
        | 0xAC00..=0xD7A3
        | 0xF900..=0xFAFF
        | 0xFE30..=0xFE6F
        | 0xFF00..=0xFF60
        | 0xFFE0..=0xFFE6
        | 0x20000..=0x3FFFD => 2,
        _ => 1,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn long_texts_are_wrapped_and_long_words_cut() {
        for (text, width, lines) in [
            (
                "gross weight of the line",
                12,
                &["gross weight", "of the line"][..],
            ),
            ("Donaudampfschiff kg", 8, &["Donaudam", "pfschiff", "kg"]),
            ("毛重 (KGS)", 5, &["毛重", "(KGS)"]),
            ("毛重毛重", 5, &["毛重", "毛重"]),
            ("a\u{1b}[2J\nb", 20, &["a [2J b"]),
            ("", 20, &[""]),
        ] {
            assert_eq!(wrap(text, width), lines, "{text}");
        }
    }

    #[test]
    fn columns_stand_under_each_other() {
        let rows = vec![
            vec!["A".into(), "Gross Weight毛重".into(), "kg".into()],
            vec!["B".into(), "x".into(), String::new()],
        ];
        assert_eq!(
            table(&["col", "heading", "unit"], &[3, 8, 4], &rows),
            "  col  heading   unit\n  ---  --------  ----\n  A    Gross     kg\n       Weight毛\n       重\n  B    x\n"
        );
    }

    #[test]
    fn a_label_keeps_its_text_apart() {
        assert_eq!(
            labelled("  row 7", 9, "one two three", 16),
            "  row 7  one two\n         three\n"
        );
    }
}
