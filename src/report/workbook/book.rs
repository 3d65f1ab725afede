//! The file: formats, properties, sheets in their order.

use super::table::{Column, Table};
use crate::site::{Site, Units};
use chrono::{Datelike, NaiveDate};
use rust_xlsxwriter::{
    Color, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, Workbook, Worksheet,
    XlsxError,
};
use std::io::Write;

/// Rows of a sheet (ECMA-376).
pub(super) const MOST_ROWS: u32 = 1_048_576;
/// One light grey, for headings only.
const HEADING_GREY: u32 = 0xE6_E6_E6;

/// How a sheet is kept while it is written.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Keep {
    /// Each row goes to a temporary file once the next one begins.
    Rows,
    /// The whole sheet in memory: for short sheets with a chart, whose figures are stored with it.
    Whole,
}

/// How wide a sheet prints.
#[derive(Clone, Copy, PartialEq, Eq)]
pub enum Paper {
    /// A4 or Letter.
    Small,
    /// A3 or Tabloid, for sheets with many columns.
    Large,
}

/// The formats of the workbook.
pub struct Styles {
    /// Column headings.
    pub heading: Format,
    /// Texts, wrapped.
    pub text: Format,
    /// Texts in bold.
    pub strong: Format,
    /// Whole figures.
    pub whole: Format,
    /// Small figures with decimals.
    pub fine: Format,
    /// Shares as percentages.
    pub share: Format,
    /// Parts of a whole as percentages.
    pub part: Format,
    /// What something is off, as percentages with a sign.
    pub off: Format,
    /// Figures of the working.
    pub exact: Format,
    /// Cells for a person to fill.
    pub entry: Format,
    /// The same for a date.
    pub date: Format,
}

/// The workbook while it is written.
pub struct Book {
    /// Units of the headings and figures.
    pub units: Units,
    /// Formats.
    pub styles: Styles,
    /// Rows a sheet holds before it is continued on another.
    most_rows: u32,
    workbook: Workbook,
    header: String,
    /// Sheets in the order of their writing.
    sheets: Vec<Worksheet>,
    /// In words, which sheets were continued.
    continued: Vec<String>,
}

impl Book {
    /// An empty workbook of a site and a day, with size and head of the ledger where there is one.
    ///
    /// # Errors
    /// When the day is outside of what a workbook can hold.
    pub fn new(
        title: &str,
        subject: &str,
        date: NaiveDate,
        site: &Site,
        ledger: Option<&(i64, String)>,
    ) -> Result<Book, XlsxError> {
        let mut workbook = Workbook::new();
        workbook.set_zip_compression_level(1);
        let year = u16::try_from(date.year()).unwrap_or(1900);
        let day = |number: u32| u8::try_from(number).unwrap_or(1);
        let created = ExcelDateTime::from_ymd(year, day(date.month()), day(date.day()))?;
        let mut properties = DocProperties::new();
        if let Some((size, head)) = ledger {
            properties = properties
                .set_custom_property("Ledger records", size.to_string().as_str())
                .set_custom_property("Ledger head", head.as_str());
        }
        workbook.set_properties(
            &properties
                .set_title(title)
                .set_subject(subject)
                .set_author(format!("Dockheft {}", env!("CARGO_PKG_VERSION")))
                .set_company(super::cell::clean(&site.name))
                .set_creation_datetime(&created),
        );
        Ok(Book {
            units: site.units,
            styles: Styles::new(),
            most_rows: MOST_ROWS,
            workbook,
            header: match site.name.as_str() {
                "" => date.to_string(),
                name => format!("{name}  ·  {date}"),
            },
            sheets: Vec::new(),
            continued: Vec::new(),
        })
    }

    /// The same with shorter sheets, to see sheets continued without writing a million rows.
    #[cfg(test)]
    pub fn with_most_rows(mut self, most_rows: u32) -> Book {
        self.most_rows = most_rows;
        self
    }

    /// Begins a sheet.
    ///
    /// # Errors
    /// When its temporary file cannot be made.
    pub fn table(
        &mut self,
        name: &'static str,
        columns: Vec<Column>,
        paper: Paper,
        keep: Keep,
    ) -> Result<Table<'_>, XlsxError> {
        Table::begin(self, name, columns, paper, keep)
    }

    /// Which sheets were continued on others, in words.
    pub fn continued(&self) -> &[String] {
        &self.continued
    }

    /// How many sheets are finished.
    pub fn sheets(&self) -> usize {
        self.sheets.len()
    }

    /// Moves the sheets from number `from` on before all others.
    pub fn bring_forward(&mut self, from: usize) {
        let moved = self.sheets.len().saturating_sub(from);
        self.sheets.rotate_right(moved);
    }

    /// Writes the file.
    ///
    /// # Errors
    /// What the writer says.
    pub fn save(mut self, to: impl Write + Send) -> Result<(), XlsxError> {
        for sheet in self.sheets {
            self.workbook.push_worksheet(sheet);
        }
        self.workbook.save_to_writer(to)
    }

    /// Rows that a sheet holds before it is continued.
    pub(super) fn most_rows(&self) -> u32 {
        self.most_rows
    }

    /// A sheet without a name.
    pub(super) fn blank_sheet(&mut self, keep: Keep) -> Result<Worksheet, XlsxError> {
        match keep {
            Keep::Rows => self.workbook.new_worksheet_with_low_memory(),
            Keep::Whole => Ok(Worksheet::new()),
        }
    }

    /// Takes a finished sheet.
    pub(super) fn take(&mut self, sheet: Worksheet) {
        self.sheets.push(sheet);
    }

    /// Remembers that a sheet was continued.
    pub(super) fn note_continued(&mut self, note: String) {
        self.continued.push(note);
    }

    /// Page settings that all sheets share. `&` is a control character of page headers and is doubled.
    pub(super) fn set_page(&self, sheet: &mut Worksheet, name: &str, paper: Paper) {
        let size = match (self.units, paper) {
            (Units::Us, Paper::Small) => 1,
            (Units::Us, Paper::Large) => 3,
            (Units::Si, Paper::Small) => 9,
            (Units::Si, Paper::Large) => 8,
        };
        let left: String = self
            .header
            .chars()
            .filter(|letter| !letter.is_control())
            .take(100)
            .collect();
        let left = left.replace('&', "&&");
        sheet
            .set_landscape()
            .set_paper_size(size)
            .set_print_fit_to_pages(1, 0)
            .set_print_gridlines(true)
            .set_margins(0.4, 0.4, 0.7, 0.7, 0.3, 0.3)
            .set_header(format!("&L{left}&R{name}"))
            .set_footer(
                "&LAn estimate is not a weighing. The capacity plate governs.&RPage &P of &N",
            );
    }
}

impl Styles {
    fn new() -> Styles {
        let plain = Format::new()
            .set_font_name("Calibri")
            .set_font_size(10)
            .set_align(FormatAlign::Top);
        let base = plain.clone().set_text_wrap();
        let number = |pattern: &str| {
            plain
                .clone()
                .set_num_format(pattern)
                .set_align(FormatAlign::Right)
                .set_indent(1)
        };
        Styles {
            heading: base
                .clone()
                .set_bold()
                .set_background_color(Color::RGB(HEADING_GREY))
                .set_border_bottom(FormatBorder::Thin),
            strong: base.clone().set_bold(),
            whole: number("#,##0"),
            fine: number("#,##0.0#"),
            share: number("0%"),
            part: number("0.0%"),
            off: number("+0.0%;-0.0%;0.0%"),
            exact: number("#,##0.0#####"),
            entry: base.clone().set_border(FormatBorder::Thin),
            date: base
                .clone()
                .set_border(FormatBorder::Thin)
                .set_num_format("yyyy-mm-dd"),
            text: base,
        }
    }
}
