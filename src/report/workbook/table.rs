//! One sheet as a table: frozen headings, filter, page settings; continued on further sheets when it is full.

use super::book::{Book, Keep, Paper};
use super::cell::{Cell, clean};
use rust_xlsxwriter::{Chart, DataValidation, Formula, Worksheet, XlsxError};

/// A column: heading and width in characters.
pub struct Column {
    heading: String,
    width: f64,
}

/// A column with its heading and width.
pub fn column(heading: impl Into<String>, width: f64) -> Column {
    Column {
        heading: heading.into(),
        width,
    }
}

/// A drop-down list or another rule for the cells of a column, below the heading.
pub struct Rule {
    /// Column from 0.
    pub column: u16,
    /// The rule.
    pub rule: DataValidation,
}

/// A sheet being written, row after row.
pub struct Table<'b> {
    book: &'b mut Book,
    name: &'static str,
    columns: Vec<Column>,
    paper: Paper,
    keep: Keep,
    rules: Vec<Rule>,
    sheet: Worksheet,
    /// Sheets finished so far under this name.
    finished: u32,
    /// Row to write next, from 0.
    next: u32,
}

impl<'b> Table<'b> {
    pub(super) fn begin(
        book: &'b mut Book,
        name: &'static str,
        columns: Vec<Column>,
        paper: Paper,
        keep: Keep,
    ) -> Result<Table<'b>, XlsxError> {
        let sheet = book.blank_sheet(keep)?;
        let mut table = Table {
            book,
            name,
            columns,
            paper,
            keep,
            rules: Vec::new(),
            sheet,
            finished: 0,
            next: 0,
        };
        table.headings()?;
        Ok(table)
    }

    /// Adds a rule for a column.
    pub fn rule(&mut self, rule: Rule) {
        self.rules.push(rule);
    }

    /// The spreadsheet row, from 1, that [`Table::row`] writes next.
    ///
    /// # Errors
    /// When a further sheet is due and cannot be made.
    pub fn next_row(&mut self) -> Result<u32, XlsxError> {
        if self.next >= self.book.most_rows() {
            self.turn()?;
        }
        Ok(self.next + 1)
    }

    /// Writes a row.
    ///
    /// # Errors
    /// When the sheet cannot be written.
    pub fn row(&mut self, cells: &[Cell<'_>]) -> Result<(), XlsxError> {
        let row = self.next_row()? - 1;
        for (cell, at) in cells.iter().zip(0u16..) {
            self.cell(row, at, cell)?;
        }
        self.next += 1;
        Ok(())
    }

    /// Puts a chart two rows below the last one.
    ///
    /// # Errors
    /// When the chart cannot be placed.
    pub fn chart(&mut self, chart: &Chart) -> Result<(), XlsxError> {
        self.sheet.insert_chart(self.next + 1, 1, chart)?;
        Ok(())
    }

    /// Ends the sheet.
    ///
    /// # Errors
    /// When it cannot be set up.
    pub fn finish(mut self) -> Result<(), XlsxError> {
        self.close()?;
        if self.finished > 0 {
            let last = self.finished + 1;
            let note = format!(
                "{} is continued on {} more sheets, up to \"{} {last}\".",
                self.name, self.finished, self.name
            );
            self.book.note_continued(note);
        }
        self.book.take(self.sheet);
        Ok(())
    }

    fn turn(&mut self) -> Result<(), XlsxError> {
        self.close()?;
        let further = self.book.blank_sheet(self.keep)?;
        let full = std::mem::replace(&mut self.sheet, further);
        self.book.take(full);
        self.finished += 1;
        self.headings()
    }

    fn headings(&mut self) -> Result<(), XlsxError> {
        for (column, at) in self.columns.iter().zip(0u16..) {
            self.sheet.set_column_width(at, column.width)?;
            self.sheet.write_string_with_format(
                0,
                at,
                column.heading.as_str(),
                &self.book.styles.heading,
            )?;
        }
        self.next = 1;
        Ok(())
    }

    fn close(&mut self) -> Result<(), XlsxError> {
        let name = match self.finished {
            0 => self.name.to_string(),
            before => format!("{} {}", self.name, before + 1),
        };
        self.sheet.set_name(&name)?;
        self.sheet.set_freeze_panes(1, 0)?;
        self.sheet.set_repeat_rows(0, 0)?;
        let last_row = self.next - 1;
        let last_column = u16::try_from(self.columns.len())
            .unwrap_or(1)
            .saturating_sub(1);
        self.sheet.autofilter(0, 0, last_row, last_column)?;
        if last_row > 0 {
            for Rule { column, rule } in &self.rules {
                self.sheet
                    .add_data_validation(1, *column, last_row, *column, rule)?;
            }
        }
        self.book.set_page(&mut self.sheet, &name, self.paper);
        Ok(())
    }

    fn cell(&mut self, row: u32, at: u16, cell: &Cell<'_>) -> Result<(), XlsxError> {
        let (sheet, styles) = (&mut self.sheet, &self.book.styles);
        match cell {
            Cell::Blank => sheet,
            Cell::Text(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.text)?
            }
            Cell::Strong(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.strong)?
            }
            Cell::Figure(value) if value.fract() == 0.0 => {
                sheet.write_number_with_format(row, at, *value, &styles.whole)?
            }
            Cell::Figure(value) => sheet.write_number_with_format(row, at, *value, &styles.fine)?,
            Cell::Share(value) => sheet.write_number_with_format(row, at, *value, &styles.share)?,
            Cell::Exact(value) => sheet.write_number_with_format(row, at, *value, &styles.exact)?,
            Cell::Live(formula, result) => {
                let formula = Formula::new(formula).set_result(result.to_string());
                sheet.write_formula_with_format(row, at, formula, &styles.exact)?
            }
            Cell::Entry => sheet.write_blank(row, at, &styles.entry)?,
            Cell::DateEntry => sheet.write_blank(row, at, &styles.date)?,
        };
        Ok(())
    }
}
