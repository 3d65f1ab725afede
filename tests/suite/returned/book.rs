//! A workbook as another program would save it: cells alone, without the properties, formats and checks of ours.

use calamine::{Data, Reader, open_workbook_auto};
use rust_xlsxwriter::{ExcelDateTime, Format, Workbook};
use std::path::Path;

const ENTRIES: [&str; 5] = ["Decision", "Weight (lb)", "Evidence", "Decided by", "Date"];

/// The texts of its sheets.
pub struct Book {
    /// Name and rows.
    pub sheets: Vec<(String, Vec<Vec<String>>)>,
}

impl Book {
    pub fn open(path: &Path) -> Book {
        let mut book = open_workbook_auto(path).expect("a workbook");
        let sheets = book.sheet_names().into_iter().map(|name| {
            let range = book.worksheet_range(&name).expect("a sheet");
            let rows = range
                .rows()
                .map(|row| row.iter().map(Data::to_string).collect());
            (name, rows.collect())
        });
        Book {
            sheets: sheets.collect(),
        }
    }

    /// Figures are saved as figures, days as days, all else as text.
    pub fn save(&self, path: &Path) {
        let mut book = Workbook::new();
        let day = Format::new().set_num_format("yyyy-mm-dd");
        for (name, rows) in &self.sheets {
            let sheet = book.add_worksheet();
            sheet.set_name(name).expect("a name");
            for (at, row) in (0u32..).zip(rows) {
                for (column, text) in (0u16..).zip(row) {
                    let written = match (text.parse::<f64>(), ExcelDateTime::parse_from_str(text)) {
                        _ if text.is_empty() => continue,
                        (Ok(figure), _) if figure.is_finite() => sheet.write(at, column, figure),
                        (_, Ok(date)) if text.len() == 10 => {
                            sheet.write_with_format(at, column, &date, &day)
                        }
                        _ => sheet.write(at, column, text.as_str()),
                    };
                    written.expect("a cell");
                }
            }
        }
        book.save(path).expect("a file");
    }

    pub fn edit(from: &Path, to: &Path, change: impl FnOnce(&mut Book)) {
        let mut book = Book::open(from);
        change(&mut book);
        book.save(to);
    }

    pub fn exceptions(&mut self) -> &mut Vec<Vec<String>> {
        let mut sheets = self.sheets.iter_mut();
        let found = sheets.find(|(name, _)| name == "Exceptions");
        &mut found.expect("the sheet").1
    }

    #[track_caller]
    pub fn column(&mut self, heading: &str) -> usize {
        let headings = &self.exceptions()[0];
        let at = headings.iter().position(|cell| cell == heading);
        at.unwrap_or_else(|| panic!("no column {heading}: {headings:?}"))
    }

    /// The row of a text under a heading, from 0.
    #[track_caller]
    pub fn row(&mut self, heading: &str, text: &str) -> usize {
        let column = self.column(heading);
        let at = self.exceptions().iter().position(|row| row[column] == text);
        at.unwrap_or_else(|| panic!("no row {text}"))
    }

    #[track_caller]
    pub fn set(&mut self, item: &str, heading: &str, text: &str) {
        let (row, column) = (self.row("Item", item), self.column(heading));
        self.exceptions()[row][column] = text.to_string();
    }

    /// The cell as a spreadsheet program names it.
    #[track_caller]
    pub fn name(&mut self, item: &str, heading: &str) -> String {
        let (row, column) = (self.row("Item", item), self.column(heading));
        let letter = |at: usize| char::from(b'A' + u8::try_from(at).expect("a letter"));
        match column {
            0..26 => format!("{}{}", letter(column), row + 1),
            _ => format!("A{}{}", letter(column - 26), row + 1),
        }
    }

    #[track_caller]
    pub fn decide(
        &mut self,
        item: &str,
        decision: &str,
        weight: &str,
        evidence: &str,
        name: &str,
        date: &str,
    ) {
        let row = self.row("Item", item);
        self.decide_row(row, decision, weight, evidence, name, date);
    }

    #[track_caller]
    pub fn decide_row(
        &mut self,
        row: usize,
        decision: &str,
        weight: &str,
        evidence: &str,
        name: &str,
        date: &str,
    ) {
        for (heading, text) in ENTRIES.iter().zip([decision, weight, evidence, name, date]) {
            let column = self.column(heading);
            self.exceptions()[row][column] = text.to_string();
        }
    }

    /// The text of a cell of any sheet: of the row of an item, under a heading.
    #[track_caller]
    pub fn cell(&self, sheet: &str, item: &str, heading: &str) -> String {
        let (_, rows) = self
            .sheets
            .iter()
            .find(|(name, _)| name == sheet)
            .expect("the sheet");
        let at = |name: &str| {
            rows[0]
                .iter()
                .position(|cell| cell == name)
                .expect("a column")
        };
        let row = rows
            .iter()
            .find(|row| row[at("Item")] == item)
            .expect("a row");
        row[at(heading)].clone()
    }
}
