//! One sheet as a table: frozen headings, filter, page settings; continued on further sheets when it is full.

use super::book::{Book, CARD_SCALE, Keep, MOST_ROWS, Paper};
use super::cell::{Cell, clean};
use super::height;
use crate::report::words;
use rust_xlsxwriter::{
    Chart, Color, ConditionalFormatDataBar, ConditionalFormatType, DataValidation, Formula, Url,
    Worksheet, XlsxError,
};

/// Rows a sheet may have with a height of their own. Each costs memory in the writer; the rows after them take the height
/// that the program which opens the file gives them.
const MOST_TALL_ROWS: u32 = 50_000;
/// Page breaks of a sheet that spreadsheet programs keep (the writer's own limit).
const MOST_BREAKS: usize = 1_023;
/// Light enough for the figure on it.
const BAR_GREY: Color = Color::RGB(0xC8_C8_C8);

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
    /// Columns of shares that are drawn as bars too.
    bars: Vec<u16>,
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
    /// Whether the headings have a filter to sort by.
    filter: bool,
    /// Percent at which it is printed, where its pages are broken by our own count; else it is as wide as the page.
    scale: Option<u16>,
    /// Rows of this sheet, from 0, that a page begins with.
    breaks: Vec<u32>,
    /// Height of the headings, points.
    heading: f64,
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
            bars: Vec::new(),
            sheet,
            finished: 0,
            next: 0,
            tall: 0,
            links: 0,
            unprinted: 0,
            filter: true,
            scale: (paper == Paper::Card).then_some(CARD_SCALE),
            breaks: Vec::new(),
            heading: 0.0,
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

    /// Leaves out the filter, and the sorting with it: a chart shows the rows it was made of, whatever is sorted into them.
    pub fn leave_unsorted(&mut self) {
        self.filter = false;
    }

    /// Prints at a scale at which all columns go on the page, so that [`Table::new_page`] counts: a spreadsheet program leaves
    /// page breaks out where it fits a sheet to the page.
    pub fn print_to_scale(&mut self) {
        let widths = self.columns.iter().map(|column| column.width).sum();
        self.scale = Some(self.book.scale(self.paper, widths, self.columns.len()));
    }

    /// Draws the shares of a column (from 0) as grey bars behind their figures, from nothing to the whole.
    pub fn bars(&mut self, column: u16) {
        self.bars.push(column);
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
        self.set_height(row, self.lines(cells))?;
        self.next += 1;
        Ok(())
    }

    /// Height that a row of these cells takes, points.
    pub fn height(&self, cells: &[Cell<'_>]) -> f64 {
        height::of_row(self.lines(cells), self.paper)
    }

    /// What a printed page has room for below the repeated headings, points.
    pub fn room(&self) -> f64 {
        let scale = self.scale.unwrap_or(100);
        self.book.page_height(self.paper, scale) - self.heading
    }

    /// Lets the next row begin a page; a sheet that has all the page breaks it may have goes on as a further one.
    ///
    /// # Errors
    /// When a further sheet is due and cannot be made.
    pub fn new_page(&mut self) -> Result<(), XlsxError> {
        // The first row stands on a page of its own accord.
        if self.next <= 1 {
            return Ok(());
        }
        if self.breaks.len() >= self.most_breaks() {
            return self.turn();
        }
        self.breaks.push(self.next);
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

    fn most_breaks(&self) -> usize {
        MOST_BREAKS.min(self.book.most_rows() as usize)
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
        let format = &self.book.styles(self.paper).heading;
        for (column, at) in self.columns.iter().zip(0u16..) {
            self.sheet.set_column_width(at, column.width)?;
            self.sheet
                .write_string_with_format(0, at, column.heading.as_str(), format)?;
        }
        let each = self.columns.iter();
        let lines = each.map(|column| height::bold_lines(&column.heading, self.width(column)));
        let most = lines.max().unwrap_or(1);
        self.tall = 0;
        self.links = 0;
        self.breaks.clear();
        self.heading = height::of_row(most, self.paper);
        self.set_height(0, most)?;
        self.next = 1;
        Ok(())
    }

    /// Width of a column in letters of the sheet's print.
    fn width(&self, column: &Column) -> f64 {
        column.width / height::print(self.paper)
    }

    /// Lines of the tallest cell of a row.
    fn lines(&self, cells: &[Cell<'_>]) -> usize {
        let cells = cells.iter().zip(&self.columns);
        let lines = cells.map(|(cell, column)| match cell {
            Cell::Text(text) | Cell::Link(text, _) => height::lines(text, self.width(column)),
            Cell::Strong(text) => height::bold_lines(text, self.width(column)),
            _ => 1,
        });
        lines.max().unwrap_or(1)
    }

    /// Makes room for wrapped texts and large print: not every program that opens the file does so by itself.
    fn set_height(&mut self, row: u32, lines: usize) -> Result<(), XlsxError> {
        let own = lines > 1 || self.paper == Paper::Card;
        if own && self.tall < MOST_TALL_ROWS {
            let height = height::of_row(lines, self.paper);
            self.sheet.set_row_height(row, height)?;
            self.tall += 1;
        }
        Ok(())
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
        if self.filter {
            self.sheet.autofilter(0, 0, last_row, last_column)?;
        }
        if last_row > 0 {
            for Rule { column, rule } in &self.rules {
                self.sheet
                    .add_data_validation(1, *column, last_row, *column, rule)?;
            }
            for column in &self.bars {
                let bar = ConditionalFormatDataBar::new()
                    .set_minimum(ConditionalFormatType::Number, 0)
                    .set_maximum(ConditionalFormatType::Number, 1)
                    .set_fill_color(BAR_GREY)
                    .set_solid_fill(true)
                    .set_border_off(true);
                self.sheet
                    .add_conditional_format(1, *column, last_row, *column, &bar)?;
            }
        }
        if !self.breaks.is_empty() {
            self.sheet.set_page_breaks(&self.breaks)?;
        }
        if self.unprinted > 0 {
            let printed = last_column.saturating_sub(self.unprinted);
            self.sheet.set_print_area(0, 0, last_row, printed)?;
        }
        self.book
            .set_page(&mut self.sheet, &name, self.paper, self.scale);
        Ok(())
    }

    /// A link within the file; plain text where the sheet holds as many as it can.
    fn link(&mut self, row: u32, at: u16, text: &str, to: &str) -> Result<(), XlsxError> {
        let styles = self.book.styles(self.paper);
        if self.links >= self.book.most_links() {
            self.sheet
                .write_string_with_format(row, at, clean(text), &styles.text)?;
            return Ok(());
        }
        self.links += 1;
        let url = Url::new(to).set_text(clean(text));
        self.sheet
            .write_url_with_format(row, at, url, &styles.link)?;
        Ok(())
    }

    fn cell(&mut self, row: u32, at: u16, cell: &Cell<'_>) -> Result<(), XlsxError> {
        if let Cell::Link(text, to) = cell {
            return self.link(row, at, text, to);
        }
        let (sheet, styles) = (&mut self.sheet, self.book.styles(self.paper));
        match cell {
            Cell::Blank | Cell::Link(..) => sheet,
            // Nothing takes less room than a text of nothing.
            Cell::Text(text) if text.is_empty() => sheet,
            Cell::Text(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.text)?
            }
            Cell::Strong(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.strong)?
            }
            Cell::Small(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.small)?
            }
            Cell::Across(text) => {
                sheet.write_string_with_format(row, at, clean(text), &styles.across)?
            }
            Cell::Figure(value) if value.fract() == 0.0 => {
                sheet.write_number_with_format(row, at, *value, &styles.whole)?
            }
            Cell::Figure(value) => sheet.write_number_with_format(row, at, *value, &styles.fine)?,
            Cell::Share(value) => sheet.write_number_with_format(row, at, *value, &styles.share)?,
            Cell::Part(value) => sheet.write_number_with_format(row, at, *value, &styles.part)?,
            Cell::Off(value) => sheet.write_number_with_format(row, at, *value, &styles.off)?,
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
