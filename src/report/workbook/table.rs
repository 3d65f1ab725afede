//! One sheet as a table: frozen headings, filter, page settings; continued on further sheets when it is full.

use super::book::{Book, Keep, MOST_ROWS, Paper};
use super::cell::{Cell, clean};
use crate::report::words;
use rust_xlsxwriter::{Chart, DataValidation, Formula, Worksheet, XlsxError};

/// Rows a sheet may have with a height of their own. Each costs memory in the writer; the rows after them take the height
/// that the program which opens the file gives them.
const MOST_TALL_ROWS: u32 = 50_000;
/// Height of a line of print and what is left free around it, points.
const LINE_HEIGHT: f64 = 13.5;
const ROW_MARGIN: f64 = 1.5;
/// Tallest row that a sheet can have, points.
const TALLEST: f64 = 409.0;

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
    /// Rows of this sheet with a height of their own.
    tall: u32,
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
            tall: 0,
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
        if self.next >= self.most_rows() {
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
        let lines = cells
            .iter()
            .zip(&self.columns)
            .map(|(cell, column)| lines(cell, column.width));
        self.set_height(row, lines.max().unwrap_or(1))?;
        self.next += 1;
        Ok(())
    }

    /// Puts a chart two rows below the last one.
    ///
    /// # Errors
    /// When the chart cannot be placed.
    pub fn chart(&mut self, chart: &Chart) -> Result<(), XlsxError> {
        self.chart_at(self.next + 1, 1, chart)
    }

    /// Puts a chart with its upper left corner in a cell, row and column from 0.
    ///
    /// # Errors
    /// When the chart cannot be placed.
    pub fn chart_at(&mut self, row: u32, column: u16, chart: &Chart) -> Result<(), XlsxError> {
        self.sheet.insert_chart(row, column, chart)?;
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
            let further = words::count(self.finished as usize, "further sheet");
            let note = format!(
                "{} goes on over {further}, up to \"{} {last}\".",
                self.name, self.name
            );
            self.book.note_continued(note);
        }
        self.book.take(self.sheet);
        Ok(())
    }

    /// A sheet kept whole holds a chart beside its rows and is never one of the long ones.
    fn most_rows(&self) -> u32 {
        match self.keep {
            Keep::Rows => self.book.most_rows(),
            Keep::Whole => MOST_ROWS,
        }
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
        let lines = self
            .columns
            .iter()
            .map(|column| lines_of(&column.heading, column.width * BOLD));
        let most = lines.max().unwrap_or(1);
        self.tall = 0;
        self.set_height(0, most)?;
        self.next = 1;
        Ok(())
    }

    /// Makes room for wrapped texts: not every program that opens the file does so by itself.
    fn set_height(&mut self, row: u32, lines: usize) -> Result<(), XlsxError> {
        if lines > 1 && self.tall < MOST_TALL_ROWS {
            let height = (lines as f64 * LINE_HEIGHT + ROW_MARGIN).min(TALLEST);
            self.sheet.set_row_height(row, height)?;
            self.tall += 1;
        }
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
            Cell::Part(value) => sheet.write_number_with_format(row, at, *value, &styles.part)?,
            Cell::Off(value) => sheet.write_number_with_format(row, at, *value, &styles.off)?,
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

/// How much of a column's width is left to letters, and to bold ones: words do not break where a line is full.
const LETTERS: f64 = 1.02;
const BOLD: f64 = 0.9;

fn lines(cell: &Cell<'_>, width: f64) -> usize {
    match cell {
        Cell::Text(text) => lines_of(text, width),
        Cell::Strong(text) => lines_of(text, width * BOLD),
        _ => 1,
    }
}

/// Lines that a text takes in a column, on the generous side.
fn lines_of(text: &str, width: f64) -> usize {
    let room = (width * LETTERS).max(1.0);
    text.lines()
        .map(|line| (line.chars().count() as f64 / room).ceil().max(1.0) as usize)
        .sum()
}
