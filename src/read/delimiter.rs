//! Chooses the delimiter of a text file by agreement over its lines, not by the first one.

use super::records::fields_of_line;

/// Signs that separate cells, the more telling ones first: a comma is also a decimal mark and a sign in texts.
const DELIMITERS: [char; 4] = ['\t', ';', '|', ','];
/// Lines that the delimiter is chosen by.
const SAMPLE: usize = 400;
/// Longest line of the sample that is looked at, bytes.
const LONGEST: usize = 64 * 1024;
/// Widths beyond this say no more.
const WIDEST: usize = 60;

/// The delimiter of a text. A comma when nothing decides: then the file has one column.
pub(super) fn likely(text: &str) -> char {
    let scores: Vec<(char, f64)> = DELIMITERS
        .into_iter()
        .map(|delimiter| (delimiter, score(text, delimiter, false)))
        .collect();
    let best = |scores: &[(char, f64)]| {
        scores.iter().fold((',', 0.0), |best, (delimiter, score)| {
            if *score > best.1 {
                (*delimiter, *score)
            } else {
                best
            }
        })
    };
    let others = best(scores.get(..3).unwrap_or_default());
    // Commas between digits may be decimal marks: against another delimiter that works, they do not count.
    let comma = score(text, ',', others.1 > 0.0);
    if comma > others.1 {
        ','
    } else if others.1 > 0.0 {
        others.0
    } else {
        ','
    }
}

/// Cells of the lines that agree, times the share of lines that agree among those that have the delimiter at all.
fn score(text: &str, delimiter: char, without_decimals: bool) -> f64 {
    let lines = || {
        text.split('\n')
            .filter(|line| !line.trim().is_empty() && line.len() <= LONGEST)
            .take(SAMPLE)
    };
    let width = |line: &str| {
        let decimals = if without_decimals {
            decimal_commas(line)
        } else {
            0
        };
        fields_of_line(line, delimiter)
            .0
            .len()
            .saturating_sub(decimals)
            .clamp(1, WIDEST)
    };
    let mut counts = [0usize; WIDEST + 1];
    let mut all = 0;
    for line in lines() {
        all += 1;
        if let Some(count) = counts.get_mut(width(line)) {
            *count += 1;
        }
    }
    let with = counts.iter().skip(2).sum::<usize>();
    let best = counts
        .iter()
        .enumerate()
        .skip(2)
        .max_by_key(|(width, count)| (*count * (width - 1), *width));
    match best {
        // A sign that stands in one line of several is a sign of that line.
        Some((width, count)) if *count > 0 && (*count > 1 || all <= 2) => {
            (count * (width - 1)) as f64 * (*count as f64 / with as f64)
        }
        _ => 0.0,
    }
}

/// Commas between two digits.
fn decimal_commas(line: &str) -> usize {
    line.as_bytes().windows(3).filter(|signs| matches!(signs, [before, b',', after] if before.is_ascii_digit() && after.is_ascii_digit())).count()
}

/// The most frequent width of the lines, cells; 0 when the file has one column. Blank cells at a line's end count.
pub(super) fn usual_width(text: &str, delimiter: char) -> usize {
    let mut counts = std::collections::BTreeMap::<usize, usize>::new();
    for line in text
        .split('\n')
        .filter(|line| !line.trim().is_empty() && line.len() <= LONGEST)
        .take(SAMPLE)
    {
        let width = fields_of_line(line, delimiter).0.len();
        if width > 1 {
            *counts.entry(width).or_default() += 1;
        }
    }
    counts
        .into_iter()
        .max_by_key(|(width, count)| (*count, *width))
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
            ("one\ntwo\n", ','),
            ("x;y\n", ';'),
            ("Item,Size,Wt\nPlate,2000,100\nPlate,1000,50\n", ','),
        ] {
            assert_eq!(likely(text), delimiter, "{text}");
        }
    }
}
