//! One sheet as a table: frozen headings, filter, page settings; continued on further sheets when it is full.

use super::book::{Book, Keep, MOST_ROWS, Paper};
use super::cell::{Cell, clean};
use super::wrap;
use crate::report::words;
use rust_xlsxwriter::{Chart, DataValidation, Formula, Url, Worksheet, XlsxError};

/// Rows a sheet may have with a height of their own. Each costs memory in the writer; the rows after them take the height
/// that the program which opens the file gives them.
const MOST_TALL_ROWS: u32 = 50_000;
/// Height of a line of print and what is left free around it, points.
const LINE_HEIGHT: f64 = 13.5;
const ROW_MARGIN: f64 = 1.5;
/// Tallest row that a sheet can have, points.
const TALLEST: f64 = 409.0;

/// Height of a row of one line that nobody sets, points.
const PLAIN_HEIGHT: f64 = 15.0;

/// The name of a sheet that is number `before`, from 0, of those that hold one table.
pub fn sheet_name(name: &str, before: u32) -> String {
    match before {
        0 => name.to_string(),
        before => format!("{name} {}", before + 1),
    }
}

/// A column: heading and width in characters.
pub struct Column {
    heading: String,
    width: f64,
}

impl Column {
    /// Its heading.
    pub fn heading(&self) -> &str {
        &self.heading
    }
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
    /// Links on this sheet.
    links: u32,
    /// Columns at the right end that are not printed.
    unprinted: u16,
    /// Rows, from 0, that begin a page, where pages end by our own count.
    pages: Vec<u32>,
    /// Height of what stands on the page so far, points.
    filled: f64,
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
            links: 0,
            unprinted: 0,
            pages: Vec::new(),
            filled: 0.0,
        };
        table.headings()?;
        Ok(table)
    }

    /// Adds a rule for a column.
    pub fn rule(&mut self, rule: Rule) {
        self.rules.push(rule);
    }

    /// Leaves so many columns at the right end out of the print: what only the program reads.
    pub fn leave_unprinted(&mut self, columns: u16) {
        self.unprinted = columns;
    }

    /// Begins a page where the `rows` plain rows to come, with a chart over them, would not fit on the one begun. Only for sheets
    /// that print at a scale of their own: spreadsheet programs ignore such breaks where they fit the scale to the page.
    ///
    /// # Errors
    /// When a further sheet is due and cannot be made.
    pub fn keep_together(&mut self, rows: usize) -> Result<(), XlsxError> {
        let row = self.next_row()? - 1;
        let height = rows as f64 * PLAIN_HEIGHT;
        if self.filled + height > self.book.page_height(self.paper, self.scale()) {
            self.pages.push(row);
            self.filled = self.heading_height();
        }
        Ok(())
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
        let height = self.set_height(row, lines.max().unwrap_or(1))?;
        self.fill(height);
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
        self.tall = 0;
        self.links = 0;
        self.pages.clear();
        self.set_height(0, self.heading_lines())?;
        self.filled = self.heading_height();
        self.next = 1;
        Ok(())
    }

    fn heading_lines(&self) -> usize {
        let columns = self.columns.iter();
        let lines = columns.map(|column| wrap::lines(&column.heading, column.width, true));
        lines.max().unwrap_or(1)
    }

    fn heading_height(&self) -> f64 {
        height_of(self.heading_lines())
    }

    /// Counts a row onto the page; a page that is full ends by itself.
    fn fill(&mut self, height: f64) {
        self.filled += height;
        if self.filled > self.book.page_height(self.paper, self.scale()) {
            self.filled = self.heading_height() + height;
        }
    }

    /// Percent at which all columns go on one page.
    fn scale(&self) -> u16 {
        let widths: f64 = self.columns.iter().map(|column| column.width).sum();
        self.book.scale(self.paper, widths, self.columns.len())
    }

    /// Makes room for wrapped texts: not every program that opens the file does so by itself. Gives the height, points.
    fn set_height(&mut self, row: u32, lines: usize) -> Result<f64, XlsxError> {
        if lines <= 1 || self.tall >= MOST_TALL_ROWS {
            return Ok(PLAIN_HEIGHT);
        }
        let height = height_of(lines);
        self.sheet.set_row_height(row, height)?;
        self.tall += 1;
        Ok(height)
    }

    fn close(&mut self) -> Result<(), XlsxError> {
        let name = sheet_name(self.name, self.finished);
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
        if self.unprinted > 0 {
            let printed = last_column.saturating_sub(self.unprinted);
            self.sheet.set_print_area(0, 0, last_row, printed)?;
        }
        if !self.pages.is_empty() {
            self.sheet.set_print_scale(self.scale());
            self.sheet.set_page_breaks(&self.pages)?;
        }
        Ok(())
    }

    /// A link within the file; plain text where the sheet holds as many as it can.
    fn link(&mut self, row: u32, at: u16, text: &str, to: &str) -> Result<(), XlsxError> {
        if self.links >= self.book.most_links() {
            let style = &self.book.styles.text;
            self.sheet
                .write_string_with_format(row, at, clean(text), style)?;
            return Ok(());
        }
        self.links += 1;
        let url = Url::new(to).set_text(clean(text));
        let style = &self.book.styles.link;
        self.sheet.write_url_with_format(row, at, url, style)?;
        Ok(())
    }

    fn cell(&mut self, row: u32, at: u16, cell: &Cell<'_>) -> Result<(), XlsxError> {
        if let Cell::Link(text, to) = cell {
            return self.link(row, at, text, to);
        }
        let (sheet, styles) = (&mut self.sheet, &self.book.styles);
        match cell {
            Cell::Blank | Cell::Link(..) => sheet,
            Cell::Text(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.text)?
            }
            Cell::Strong(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.strong)?
            }
            Cell::Small(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.small)?
            }
            Cell::Figure(value) if value.fract() == 0.0 => {
                sheet.write_number_with_format(row, at, *value, &styles.whole)?
            }
            Cell::Figure(value) => sheet.write_number_with_format(row, at, *value, &styles.fine)?,
            Cell::Share(value) => sheet.write_number_with_format(row, at, *value, &styles.share)?,
            Cell::Exact(value) => sheet.write_number_with_format(row, at, *value, &styles.exact)?,
            Cell::Input(value) => sheet.write_number_with_format(row, at, *value, &styles.input)?,
            Cell::Live(formula, result) | Cell::Seen(formula, result) => {
                let style = match cell {
                    Cell::Seen(..) => &styles.seen,
                    _ => &styles.exact,
                };
                let formula = Formula::new(formula).set_result(result.to_string());
                sheet.write_formula_with_format(row, at, formula, style)?
            }
            Cell::Entry => sheet.write_blank(row, at, &styles.entry)?,
            Cell::DateEntry => sheet.write_blank(row, at, &styles.date)?,
        };
        Ok(())
    }
}

fn lines(cell: &Cell<'_>, width: f64) -> usize {
    match cell {
        Cell::Text(text) | Cell::Link(text, _) => wrap::lines(text, width, false),
        Cell::Strong(text) => wrap::lines(text, width, true),
        _ => 1,
    }
}

fn height_of(lines: usize) -> f64 {
    (lines as f64 * LINE_HEIGHT + ROW_MARGIN).clamp(PLAIN_HEIGHT, TALLEST)
}
