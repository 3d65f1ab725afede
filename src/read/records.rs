//! The records of delimited text. The csv crate reads them; our own code is for what it takes in silence: a quotation
//! mark that is never closed swallows the lines behind it, an inch mark in a quoted cell is lost, blank lines are passed
//! over. A record whose marks are not by the book is not given to the crate: its first line is mended by itself, and the
//! crate goes on behind.

use csv::{Position, ReaderBuilder, StringRecord, Terminator};
use std::io::Cursor;

/// Most lines that one quoted cell may run over.
const MOST_LINES: usize = 40;
/// Most lines of one record: marks that nobody closed would be followed without end.
const MOST_LINES_OF_RECORD: usize = 100;
/// Longest quoted cell over several lines, bytes: a spreadsheet's cell holds 32,767 characters.
const LONGEST: usize = 64 * 1024;
/// Longest line that is handed over: a longer one may have millions of cells.
const LONGEST_LINE: usize = 1024 * 1024;
/// Cells of a line that are taken apart, as many as a spreadsheet has columns (ECMA-376).
const MOST_FIELDS: usize = super::MOST_COLUMNS as usize;

/// One record: a line, or several where a quoted cell holds line breaks.
#[derive(Debug, PartialEq)]
pub(super) struct Record {
    /// The cells in order, quotes undone.
    pub(super) fields: Vec<String>,
    /// A cell began with a quotation mark that is never closed; it was taken as an ordinary sign.
    pub(super) unclosed: bool,
}

/// The records of a text whose line ends are `\n`.
pub(super) struct Records<'a> {
    text: &'a str,
    /// Where the next record begins.
    at: usize,
    delimiter: char,
    /// Cells that a line of the table usually has; 0 when unknown.
    width: usize,
    reader: csv::Reader<Cursor<&'a [u8]>>,
    record: StringRecord,
    /// The crate stands elsewhere: a line was mended without it.
    apart: bool,
}

impl<'a> Records<'a> {
    /// Starts at the beginning of a text. The delimiter is an ASCII sign.
    pub(super) fn new(text: &'a str, delimiter: char, width: usize) -> Self {
        Records {
            text,
            at: 0,
            delimiter,
            width,
            reader: ReaderBuilder::new()
                .delimiter(u8::try_from(delimiter).unwrap_or(b','))
                .terminator(Terminator::Any(b'\n'))
                .has_headers(false)
                .flexible(true)
                .from_reader(Cursor::new(text.as_bytes())),
            record: StringRecord::new(),
            apart: false,
        }
    }

    /// The next record by the crate; none when it cannot.
    fn lawful(&mut self) -> Option<Record> {
        if self.apart {
            let mut place = Position::new();
            place.set_byte(self.at as u64);
            self.reader.seek(place).ok()?;
            self.apart = false;
        }
        self.reader
            .read_record(&mut self.record)
            .ok()
            .filter(|found| *found)?;
        self.at = usize::try_from(self.reader.position().byte()).ok()?;
        let fields = self.record.iter().take(MOST_FIELDS + 1);
        Some(Record {
            fields: fields.map(str::to_string).collect(),
            unclosed: false,
        })
    }

    /// The next line by itself, faults mended.
    fn repaired(&mut self, line: &str) -> Record {
        self.at += line.len() + 1;
        self.apart = true;
        let (fields, unclosed) = fields_of_line(line, self.delimiter);
        Record { fields, unclosed }
    }

    /// Every mark of the record at the start of `rest` opens or closes a whole cell or is doubled within one (RFC 4180),
    /// and no cell takes in lines of the table.
    fn is_lawful(&self, mut rest: &str) -> bool {
        let (mut before, mut lines) = (0, 0);
        loop {
            let length = if rest.starts_with('"') {
                // A mark alone in its cell means "as above", or inches.
                let alone = rest
                    .get(1..)
                    .is_some_and(|rest| rest.starts_with(self.delimiter));
                match strictly_closed(rest, self.delimiter) {
                    Some(length) if !alone && !self.swallows(rest, length, before) => length,
                    _ => return false,
                }
            } else {
                // A space between delimiter and mark is common.
                if rest.trim_start_matches(' ').starts_with('"') {
                    return false;
                }
                rest.find([self.delimiter, '\n']).unwrap_or(rest.len())
            };
            before += 1;
            lines += rest
                .get(..length)
                .map_or(0, |cell| cell.matches('\n').count());
            if lines > MOST_LINES_OF_RECORD {
                return false;
            }
            match rest
                .get(length..)
                .and_then(|rest| rest.strip_prefix(self.delimiter))
            {
                Some(behind) => rest = behind,
                None => return true,
            }
        }
    }

    /// The quoted cell at the start of `text` takes in lines that look like lines of the table. `before` counts the cells
    /// to its left.
    fn swallows(&self, text: &str, length: usize, before: usize) -> bool {
        let Some((cell, behind)) = text.split_at_checked(length) else {
            return true;
        };
        if self.width < 2 || !cell.contains('\n') {
            return false;
        }
        let cells = |text: &str| {
            let line = text.split('\n').next().unwrap_or_default();
            fields_of_line(line, self.delimiter).0.len()
        };
        let (here, behind) = (before + cells(text), cells(behind));
        let width_of = |line: &str| line.matches(self.delimiter).count() + 1;
        let last = cell.rsplit('\n').next().unwrap_or_default();
        let last_is_row = width_of(last) + behind > self.width;
        cell.split('\n')
            .skip(1)
            .any(|line| width_of(line) >= self.width)
            || (here >= self.width && last_is_row)
            || (cell.contains(self.delimiter) && before + behind > self.width)
    }
}

impl Iterator for Records<'_> {
    type Item = Record;

    fn next(&mut self) -> Option<Record> {
        let rest = self.text.get(self.at..).filter(|rest| !rest.is_empty())?;
        let line = rest.split('\n').next().unwrap_or_default();
        if line.is_empty() {
            // The crate passes over blank lines; here they count.
            self.at += 1;
            let fields = Vec::new();
            return Some(Record {
                fields,
                unclosed: false,
            });
        }
        let lawful = line.len() <= LONGEST_LINE && (!line.contains('"') || self.is_lawful(rest));
        let record = if lawful { self.lawful() } else { None };
        Some(record.unwrap_or_else(|| self.repaired(line)))
    }
}

/// The repair: the cells of one line by themselves, and whether one begins with a quotation mark that this line does not
/// close; such a cell runs to the next delimiter, marks and all.
fn fields_of_line(line: &str, delimiter: char) -> (Vec<String>, bool) {
    if !line.contains('"') {
        let fields = line.splitn(MOST_FIELDS, delimiter);
        return (fields.map(str::to_string).collect(), false);
    }
    let mut fields = Vec::new();
    let mut open = false;
    let mut rest = line;
    loop {
        let (field, length) = match field(rest, delimiter) {
            Field::Whole(field, length) => (field, length),
            Field::Open(field, length) => {
                open = true;
                (field, length)
            }
        };
        fields.push(field);
        match rest
            .get(length..)
            .and_then(|rest| rest.strip_prefix(delimiter))
        {
            Some(behind) if fields.len() < MOST_FIELDS => rest = behind,
            // What is left of an endless line is one more cell, far to the right, so that it is said.
            Some(behind) => {
                fields.push(behind.to_string());
                return (fields, open);
            }
            None => return (fields, open),
        }
    }
}

/// One cell and its length in the line, bytes.
enum Field {
    Whole(String, usize),
    /// Begins with a quotation mark that is not closed.
    Open(String, usize),
}

fn field(rest: &str, delimiter: char) -> Field {
    let bare = rest.find(delimiter).unwrap_or(rest.len());
    let literal = rest.get(..bare).unwrap_or_default();
    if !rest.starts_with('"') {
        // A space between delimiter and mark is common; anything else before it makes it a sign of the text.
        let indent = rest.len() - rest.trim_start_matches(' ').len();
        return match rest
            .get(indent..)
            .filter(|text| indent > 0 && text.starts_with('"'))
            .and_then(|text| strictly_closed(text, delimiter))
        {
            Some(length) => Field::Whole(
                unquoted(rest.get(indent..indent + length).unwrap_or_default()),
                indent + length,
            ),
            None => Field::Whole(literal.to_string(), bare),
        };
    }
    // A mark alone in its cell means "as above", or inches.
    if literal == "\"" && bare < rest.len() {
        return Field::Whole(literal.to_string(), bare);
    }
    if let Some(length) = strictly_closed(rest, delimiter) {
        return Field::Whole(unquoted(rest.get(..length).unwrap_or_default()), length);
    }
    // Marks inside that nobody doubled: the cell ends with the mark before the next delimiter, if there is one.
    if literal.len() > 1 && literal.ends_with('"') {
        return Field::Whole(unquoted(literal), bare);
    }
    // Two marks in the cell, such as `"A" B`: both are signs of the text.
    if literal.matches('"').count() > 1 {
        return Field::Whole(literal.to_string(), bare);
    }
    Field::Open(literal.to_string(), bare)
}

/// A cell without its outer marks, doubled ones made single.
fn unquoted(field: &str) -> String {
    let inside = field.strip_prefix('"').unwrap_or(field);
    inside
        .strip_suffix('"')
        .unwrap_or(inside)
        .replace("\"\"", "\"")
}

/// Length of the quoted cell at the start of a text up to and with its closing mark: inside it marks are doubled, behind
/// it comes a delimiter or a line end. None when it breaks these rules or runs on too long.
fn strictly_closed(text: &str, delimiter: char) -> Option<usize> {
    let bytes = text.as_bytes();
    let mut lines = 0;
    let mut at = 1;
    while at < bytes.len().min(LONGEST) {
        match bytes.get(at)? {
            b'\n' => {
                lines += 1;
                if lines >= MOST_LINES {
                    return None;
                }
            }
            b'"' if bytes.get(at + 1) == Some(&b'"') => at += 1,
            b'"' => {
                let behind = text.get(at + 1..)?;
                return (behind.is_empty() || behind.starts_with(['\n', delimiter]))
                    .then_some(at + 1);
            }
            _ => {}
        }
        at += 1;
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, width: usize) -> String {
        let records = Records::new(text, ',', width).map(|record| {
            let fault = if record.unclosed { "!" } else { "" };
            format!("{fault}{}", record.fields.join("|").replace('\n', "~"))
        });
        records.collect::<Vec<_>>().join(" / ")
    }

    /// Quoting by RFC 4180, section 2; the faults are those of lists with inch marks.
    #[test]
    fn marks_are_read_as_meant() {
        for (text, width, expected) in [
            ("a,b\n1,2", 2, "a|b / 1|2"),
            ("a,b\n\n\n1,2\n", 2, "a|b /  /  / 1|2"),
            ("1,\"x, y\",3", 3, "1|x, y|3"),
            ("1,\"say \"\"so\"\"\",3", 3, "1|say \"so\"|3"),
            ("\"a\nb\",c", 2, "a~b|c"),
            (
                "\"Wt\n(kg)\",\"Qty\n(pcs)\"\n1,2",
                2,
                "Wt~(kg)|Qty~(pcs) / 1|2",
            ),
            (
                "a,\"Wt\n(kg)\",\"Qty\n(pcs)\",REMARKS\n1,2,3",
                3,
                "a|Wt~(kg)|Qty~(pcs)|REMARKS / 1|2|3",
            ),
            ("1,2,\"one\ntwo\"\n3,4,5", 3, "1|2|one~two / 3|4|5"),
            // Never closed: the lines after are not lost.
            ("a,b,c\n1,\"2\n3,4,5", 3, "a|b|c / !1|\"2 / 3|4|5"),
            (
                "\"DRAIN GRATE 24 IN,4,10\nPIPE,2,5",
                3,
                "!\"DRAIN GRATE 24 IN|4|10 / PIPE|2|5",
            ),
            (
                "\"DRAIN GRATE 24 IN,4,10\nPIPE 6\",2,5",
                3,
                "!\"DRAIN GRATE 24 IN|4|10 / PIPE 6\"|2|5",
            ),
            (
                "\"GRATE,4,10\n5,6,7\nPIPE 6\",2,5",
                3,
                "!\"GRATE|4|10 / 5|6|7 / PIPE 6\"|2|5",
            ),
            // Delimiters in the quoted cells of a heading.
            (
                "a,\"Wt\n, kg\",\"L, mm\",\"W, mm\"\n1,2,3,4",
                4,
                "a|Wt~, kg|L, mm|W, mm / 1|2|3|4",
            ),
            // Inch marks that nobody doubled.
            ("6\" PIPE,4", 2, "6\" PIPE|4"),
            ("\"6\" PIPE\",4", 2, "6\" PIPE|4"),
            ("\"A\" B,4,\"C\"", 3, "\"A\" B|4|C"),
            // Ditto marks.
            ("1,\",4\n2,\",5", 3, "1|\"|4 / 2|\"|5"),
            ("x, \"y, z\",w", 3, "x|y, z|w"),
            ("1,2,\n,,", 3, "1|2| / ||"),
        ] {
            assert_eq!(read(text, width), expected, "{text}");
        }
    }

    #[test]
    fn many_open_marks_take_no_time() {
        let text = "\"a\nb\",".repeat(50_000) + &"\"x,\n".repeat(50_000);
        assert!(Records::new(&text, ',', 0).count() > 0);
    }
}
