//! Chooses the delimiter of a text file by agreement over its lines, not by the first one.

use super::records::Records;

/// Signs that separate cells, and how telling they are: a tab is hardly ever anything else, a comma is also a decimal mark
/// and a sign of texts (common practice, no source).
const DELIMITERS: [(char, f64); 4] = [('\t', 4.0), ('|', 3.0), (';', 2.0), (',', 1.0)];
/// Lines that the delimiter is chosen by.
const SAMPLE: usize = 400;
/// Longest line of the sample that is looked at, bytes.
const LONGEST: usize = 64 * 1024;
/// Widths beyond this say no more.
const WIDEST: usize = 60;

/// The delimiter of a text. A comma when nothing decides: then the file has one column.
pub(super) fn likely(text: &str) -> char {
    let mut best = (',', 0.0);
    for (delimiter, weight) in DELIMITERS {
        // Commas between digits may be decimal marks: against another delimiter that works, they do not count.
        let score = weight * score(text, delimiter, delimiter == ',' && best.1 > 0.0);
        if score > best.1 {
            best = (delimiter, score);
        }
    }
    best.0
}

/// Cells that a delimiter makes in the lines, times the share of these lines that agree on their number, give or take one,
/// and the share of all lines that have it.
fn score(text: &str, delimiter: char, without_decimals: bool) -> f64 {
    let mut counts = [0usize; WIDEST + 1];
    let mut all = 0;
    for line in sample(text) {
        let decimals = if without_decimals {
            decimal_commas(line)
        } else {
            0
        };
        // Blank cells at the end of a line are no agreement and no difference.
        let line = line.trim_end().trim_end_matches(delimiter);
        let width = (1 + outside_quotes(line, delimiter))
            .saturating_sub(decimals)
            .clamp(1, WIDEST);
        all += 1;
        if let Some(count) = counts.get_mut(width) {
            *count += 1;
        }
    }
    let widths = || counts.iter().copied().enumerate().skip(2);
    let with: usize = widths().map(|(_, count)| count).sum();
    let usual = widths()
        .max_by_key(|(width, count)| (count * (width - 1), *width))
        .map_or(0, |(width, _)| width);
    // A sign that stands in one line of several is a sign of that line.
    if with == 0 || (with == 1 && all > 2) {
        return 0.0;
    }
    let agree: usize = widths()
        .filter(|(width, _)| width.abs_diff(usual) <= 1)
        .map(|(_, count)| count)
        .sum();
    let cells: usize = widths()
        .map(|(width, count)| (width.min(usual) - 1) * count)
        .sum();
    cells as f64 * agree as f64 / all as f64
}

fn sample(text: &str) -> impl Iterator<Item = &str> {
    text.split('\n')
        .filter(|line| !line.trim().is_empty() && line.len() <= LONGEST)
        .take(SAMPLE)
}

/// How often a sign stands outside of quoted cells, whatever delimits these: a mark opens behind a line's beginning or a
/// possible delimiter, and closes before one or the line's end.
fn outside_quotes(line: &str, delimiter: char) -> usize {
    let is_edge =
        |sign: Option<&u8>| sign.is_none_or(|sign| matches!(sign, b',' | b';' | b'\t' | b'|'));
    let bytes = line.as_bytes();
    let mut count = 0;
    let mut quoted = false;
    for (at, byte) in bytes.iter().enumerate() {
        match byte {
            b'"' if quoted => quoted = !is_edge(bytes.get(at + 1)),
            b'"' => quoted = is_edge(at.checked_sub(1).and_then(|before| bytes.get(before))),
            byte if !quoted && char::from(*byte) == delimiter => count += 1,
            _ => {}
        }
    }
    // A mark that is never closed quotes nothing.
    if quoted {
        line.matches(delimiter).count()
    } else {
        count
    }
}

/// Commas between two digits.
fn decimal_commas(line: &str) -> usize {
    line.as_bytes().windows(3).filter(|signs| matches!(signs, [before, b',', after] if before.is_ascii_digit() && after.is_ascii_digit())).count()
}

/// The width, cells, of the records that hold the most cells together; 0 when the file has one column. Title lines of
/// two cells may be more than the lines of a short list.
/// Cells over several lines are taken by the book here: what the width itself helps to tell apart is rare.
pub(super) fn usual_width(text: &str, delimiter: char) -> usize {
    let mut counts = std::collections::BTreeMap::<usize, usize>::new();
    for record in Records::new(text, delimiter, 0).take(SAMPLE) {
        let width = record.fields.len();
        if width > 1 {
            *counts.entry(width).or_default() += 1;
        }
    }
    counts
        .into_iter()
        .max_by_key(|(width, count)| ((width - 1) * count, *width))
        .map_or(0, |(width, _)| width)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Made-up lists in the layouts that spreadsheet programs export (RFC 4180 and its cousins).
    #[test]
    fn the_lines_agree_on_the_delimiter() {
        for (text, delimiter) in [
            ("a,b,c\n1,2,3\n4,5,6\n", ','),
            ("1,2\n3,4\n", ','),
            (
                "Lieferschein, Nr. 7, vom 3. Mai\nAn, Halle, Tor 2\nPos;Menge;Gewicht\n1;4;12,5\n2;3;7,25\n3;1;0,5\n",
                ';',
            ),
            ("Pos;kg\n1;12,5\n2;7,25\n3;0,5\n", ';'),
            ("Pos;kg\n1;12,5\n", ';'),
            ("a\tb\n1, 2, 3\tx\n4, 5, 6\ty\n", '\t'),
            ("a|b|c\n1|2|3\n", '|'),
            ("item,text\n1,\"a;b\"\n2,\"c;d\"\n", ','),
            ("item,text\n1,a;b\n2,c;d\n3,e\n4,f\n", ','),
            ("c0\nv0\na;b\n", ','),
            (
                "DN-7\nBy rail; gate 2\nText,Qty,kg\nPlate,2,314\nPump; with motor,1,90.5,,\n",
                ',',
            ),
            ("one\ntwo\n", ','),
            ("x;y\n", ';'),
            ("Item,Size,Wt\nPlate,2000,100\nPlate,1000,50\n", ','),
        ] {
            assert_eq!(likely(text), delimiter, "{text}");
        }
    }
}
