//! Where a value was written, as the person who opens the file sees it.

use std::fmt;
use std::sync::Arc;

/// One cell (or, with column 0, one row) of one sheet of one file. Rows and columns count from 1.
#[derive(Clone, Debug, PartialEq, Eq, Hash)]
pub struct Place {
    /// File name without its folders.
    pub file: Arc<str>,
    /// Sheet name; empty for files without sheets (text, html).
    pub sheet: Arc<str>,
    /// Row from 1.
    pub row: u32,
    /// Column from 1; 0 means the whole row.
    pub column: u32,
}

impl Place {
    /// The same row, another column.
    pub fn at_column(&self, column: u32) -> Place {
        Place {
            column,
            ..self.clone()
        }
    }

    /// `C7`, or `row 7` where the place is a whole row.
    pub fn cell(&self) -> String {
        if self.column == 0 {
            format!("row {}", self.row)
        } else {
            format!("{}{}", column_letters(self.column), self.row)
        }
    }
}

impl fmt::Display for Place {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.sheet.is_empty() {
            write!(f, "{} › {}", self.file, self.cell())
        } else {
            write!(f, "{} › {}!{}", self.file, self.sheet, self.cell())
        }
    }
}

/// Spreadsheet letters of a column counted from 1: 1 is `A`, 27 is `AA`; 0 gives an empty text.
pub fn column_letters(column: u32) -> String {
    let mut letters = Vec::new();
    let mut rest = column;
    while rest > 0 {
        rest -= 1;
        letters.push(b'A' + (rest % 26) as u8);
        rest /= 26;
    }
    letters.reverse();
    letters.into_iter().map(char::from).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn letters_follow_the_spreadsheet() {
        for (column, letters) in [
            (1, "A"),
            (26, "Z"),
            (27, "AA"),
            (702, "ZZ"),
            (703, "AAA"),
            (16_384, "XFD"),
        ] {
            assert_eq!(column_letters(column), letters);
        }
    }

    #[test]
    fn a_place_reads_as_people_write_it() {
        let place = Place {
            file: "may.xlsx".into(),
            sheet: "Sheet1".into(),
            row: 7,
            column: 3,
        };
        assert_eq!(place.to_string(), "may.xlsx › Sheet1!C7");
        let row = Place {
            file: "may.csv".into(),
            sheet: "".into(),
            row: 7,
            column: 0,
        };
        assert_eq!(row.to_string(), "may.csv › row 7");
    }
}
