//! Splits delimited text into records, quoting faults mended: a mark that is never closed must not swallow lines.
//! A splitter of our own, for a general one either refuses such lines or loses the rows after them.

/// Most lines that one quoted cell may run over.
const MOST_LINES: usize = 40;
/// Longest quoted cell over several lines, bytes: a spreadsheet's cell holds 32,767 characters.
const LONGEST: usize = 64 * 1024;

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
    rest: Option<&'a str>,
    delimiter: char,
    /// Cells that a line of the table usually has; 0 when unknown.
    width: usize,
}

impl<'a> Records<'a> {
    /// Starts at the beginning of a text.
    pub(super) fn new(text: &'a str, delimiter: char, width: usize) -> Self {
        Records {
            rest: Some(text).filter(|text| !text.is_empty()),
            delimiter,
            width,
        }
    }

    /// Length of the cell that begins with the quotation mark at the start of `text` and is closed by the book (RFC 4180)
    /// some lines on. None when the mark is better taken as an ordinary sign, because the lines that the cell would take
    /// in look like lines of the table. `before` counts the cells to the left, `here` all cells of the first line.
    fn closed_further_on(&self, text: &str, before: usize, here: usize) -> Option<usize> {
        let length = strictly_closed(text, self.delimiter)?;
        if self.width < 2 {
            return Some(length);
        }
        let (cell, behind) = text.split_at_checked(length)?;
        let behind = behind.split('\n').next().unwrap_or_default();
        let behind = fields_of_line(behind, self.delimiter).0.len();
        let width_of = |line: &str| line.matches(self.delimiter).count() + 1;
        let is_row = |line: &str| width_of(line) >= self.width;
        let last = cell.rsplit('\n').next().unwrap_or_default();
        let last_is_row = width_of(last) + behind > self.width;
        let swallows = cell.split('\n').skip(1).any(is_row) || (here >= self.width && last_is_row);
        let too_wide = cell.contains(self.delimiter) && before + behind > self.width;
        (!swallows && !too_wide).then_some(length)
    }
}

impl Iterator for Records<'_> {
    type Item = Record;

    fn next(&mut self) -> Option<Record> {
        let mut text = self.rest?;
        let mut all: Vec<String> = Vec::new();
        loop {
            let (line, behind) = text
                .split_once('\n')
                .map_or((text, None), |(line, behind)| (line, Some(behind)));
            // A line end at the very end of the file begins no further record.
            self.rest = behind.filter(|behind| !behind.is_empty());
            if line.is_empty() && all.is_empty() {
                return Some(Record {
                    fields: all,
                    unclosed: false,
                });
            }
            let (fields, open) = fields_of_line(line, self.delimiter);
            let further = open.and_then(|(at, before)| {
                let (before, here) = (all.len() + before, all.len() + fields.len());
                Some((
                    at,
                    before,
                    self.closed_further_on(text.get(at..)?, before, here)?,
                ))
            });
            let Some((at, before, length)) = further else {
                all.extend(fields);
                return Some(Record {
                    fields: all,
                    unclosed: open.is_some(),
                });
            };
            let left = before - all.len();
            all.extend(fields.into_iter().take(left));
            all.push(unquoted(text.get(at..at + length).unwrap_or_default()));
            let after = text.get(at + length..).unwrap_or_default();
            match after.strip_prefix(self.delimiter) {
                // The record goes on in the middle of a line.
                Some(after) => text = after,
                None => {
                    self.rest = after.strip_prefix('\n').filter(|rest| !rest.is_empty());
                    return Some(Record {
                        fields: all,
                        unclosed: false,
                    });
                }
            }
        }
    }
}

/// The cells of one line. Where a cell begins with a quotation mark that this line does not close, also where that mark
/// stands (bytes) and how many cells are left of it; the cell itself then runs to the next delimiter, marks and all.
fn fields_of_line(line: &str, delimiter: char) -> (Vec<String>, Option<(usize, usize)>) {
    if !line.contains('"') {
        let fields = line.splitn(MOST_FIELDS, delimiter);
        return (fields.map(str::to_string).collect(), None);
    }
    let mut fields = Vec::new();
    let mut open = None;
    let mut rest = line;
    loop {
        let (field, length) = match field(rest, delimiter) {
            Field::Whole(field, length) => (field, length),
            Field::Open(field, length) => {
                open.get_or_insert((line.len() - rest.len(), fields.len()));
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
