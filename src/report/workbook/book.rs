//! The file: formats, properties, sheets in their order.

use super::table::{Column, Table};
use super::{fitted, height};
use crate::site::{Site, Units};
use chrono::{Datelike, NaiveDate};
use rust_xlsxwriter::{
    Color, DocProperties, ExcelDateTime, Format, FormatAlign, FormatBorder, FormatUnderline,
    Workbook, Worksheet, XlsxError,
};
use std::io::Write;

/// Rows of a sheet (ECMA-376).
pub(super) const MOST_ROWS: u32 = 1_048_576;
/// Links of a sheet, as spreadsheet programs keep them.
const MOST_LINKS: u32 = 65_530;
/// Margins at the sides, and above and below with header and footer in them, in.
const SIDE: f64 = 0.25;
const END: f64 = 0.7;
/// How much wider columns are where the workbook's font is not there and one with wide digits stands in (measured: DejaVu Sans).
const WIDER: f64 = 1.34;
/// One light grey, for headings only.
const HEADING_GREY: u32 = 0xE6_E6_E6;

/// Scale at which cards are printed, per cent.
pub(super) const CARD_SCALE: u16 = 72;

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
    /// A4 or Letter in large print, with page breaks of its own: a spreadsheet program leaves those out where it fits a sheet
    /// to the page, so the widths of its columns must fit.
    Card,
}

/// The formats of the workbook.
pub struct Styles {
    /// Column headings.
    pub heading: Format,
    /// Texts, wrapped.
    pub text: Format,
    /// Texts in bold.
    pub strong: Format,
    /// Small texts, wrapped.
    pub small: Format,
    /// Headings that run on over the cells beside them.
    pub across: Format,
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
    /// Those that may be changed.
    pub input: Format,
    /// The same in the units people see.
    pub seen: Format,
    /// Texts that lead to another sheet.
    pub link: Format,
    /// Cells for a person to fill.
    pub entry: Format,
    /// The same for a date.
    pub date: Format,
}

/// The workbook while it is written.
pub struct Book {
    /// Units of the headings and figures.
    pub units: Units,
    styles: Styles,
    /// The same in large print.
    large: Styles,
    /// Rows a sheet holds before it is continued on another.
    most_rows: u32,
    /// Links a sheet holds; further ones stay plain text.
    most_links: u32,
    workbook: Workbook,
    header: String,
    /// Sheets in the order of their writing.
    sheets: Vec<Worksheet>,
    /// In words, which sheets were continued.
    continued: Vec<String>,
}

impl Book {
    /// An empty workbook of a site, a day and its deliveries, with size and head of the ledger where there is one.
    ///
    /// # Errors
    /// When the day is outside of what a workbook can hold.
    pub fn new(
        title: &str,
        subject: &str,
        date: NaiveDate,
        site: &Site,
        deliveries: &[&str],
        ledger: Option<&(i64, String)>,
    ) -> Result<Book, XlsxError> {
        let mut workbook = Workbook::new();
        workbook.set_zip_compression_level(1);
        // Widths of columns are told in figures of this font.
        let default = Format::new().set_font_name(height::FONT).set_font_size(10);
        workbook.set_default_format(&default, 17, 64)?;
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
            styles: Styles::new(1.0),
            large: Styles::new(height::print(Paper::Card)),
            most_rows: MOST_ROWS,
            most_links: MOST_LINKS,
            workbook,
            header: header(&site.name, date, deliveries),
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

    /// The same with fewer links a sheet.
    #[cfg(test)]
    pub fn with_most_links(mut self, most_links: u32) -> Book {
        self.most_links = most_links;
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
        let mut whole = tempfile::tempfile()?;
        self.workbook.save_to_writer(&mut whole)?;
        fitted::copy(whole, to)?;
        Ok(())
    }

    /// Rows that a sheet holds before it is continued.
    pub(super) fn most_rows(&self) -> u32 {
        self.most_rows
    }

    /// Links that a sheet holds.
    pub(super) fn most_links(&self) -> u32 {
        self.most_links
    }

    /// Percent at which `columns` columns of together `widths` digits go on one page.
    pub(super) fn scale(&self, paper: Paper, widths: f64, columns: usize) -> u16 {
        // A digit takes 7 pixels and a column 5 more, at 96 a inch.
        let wide = (widths * 7.0 + columns as f64 * 5.0) / 96.0 * WIDER;
        let part = (self.paper(paper).wide - 2.0 * SIDE) / wide * 100.0;
        part.floor().clamp(10.0, 100.0) as u16
    }

    /// Points of rows that go on a page at a scale in percent.
    pub(super) fn page_height(&self, paper: Paper, scale: u16) -> f64 {
        (self.paper(paper).high - 2.0 * END) * 72.0 * 100.0 / f64::from(scale)
    }

    fn paper(&self, paper: Paper) -> Sheet {
        let (number, wide, high) = match (self.units, paper) {
            (Units::Us, Paper::Small | Paper::Card) => (1, 11.0, 8.5),
            (Units::Us, Paper::Large) => (3, 17.0, 11.0),
            (Units::Si, Paper::Small | Paper::Card) => (9, 297.0 / 25.4, 210.0 / 25.4),
            (Units::Si, Paper::Large) => (8, 420.0 / 25.4, 297.0 / 25.4),
        };
        Sheet { number, wide, high }
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

    /// The formats of a sheet.
    pub(super) fn styles(&self, paper: Paper) -> &Styles {
        if paper == Paper::Card {
            &self.large
        } else {
            &self.styles
        }
    }

    /// Page settings that all sheets share; at a scale in percent where one is given, else as wide as the page.
    pub(super) fn set_page(
        &self,
        sheet: &mut Worksheet,
        name: &str,
        paper: Paper,
        scale: Option<u16>,
    ) {
        let size = self.paper(paper).number;
        let header = &self.header;
        sheet
            .set_landscape()
            .set_paper_size(size)
            .set_print_gridlines(true)
            .set_margins(SIDE, SIDE, END, END, 0.3, 0.3)
            .set_header(format!("{header}&R{name}"))
            .set_footer(
                "&LAn estimate is not a weighing. The capacity plate governs.&RPage &P of &N",
            );
        match scale {
            Some(scale) => sheet
                .set_print_scale(scale)
                .set_print_center_horizontally(true),
            None => sheet.set_print_fit_to_pages(1, 0),
        };
    }
}

/// A sheet of paper across: its number in the workbook's format (ECMA-376), width and height, in.
struct Sheet {
    number: u8,
    wide: f64,
    high: f64,
}

/// Site and day at the left, the deliveries in the middle.
fn header(site: &str, date: NaiveDate, deliveries: &[&str]) -> String {
    let site = header_text(site);
    let day = if site.is_empty() {
        date.to_string()
    } else {
        format!("{site}  ·  {date}")
    };
    let deliveries = match deliveries {
        [] => String::new(),
        [one] => header_text(one),
        several => format!("{} deliveries", several.len()),
    };
    format!("&L{day}&C{deliveries}")
}

/// A text as a page header can hold it: a header has room for 255 signs, and `&` begins a command there unless it is doubled.
fn header_text(text: &str) -> String {
    let kept = text.chars().filter(|letter| !letter.is_control());
    let kept: String = kept.take(40).collect();
    kept.replace('&', "&&")
}

impl Styles {
    /// Formats whose print is that many times as large as usual.
    fn new(print: f64) -> Styles {
        let plain = Format::new()
            .set_font_name(height::FONT)
            .set_font_size(height::SIZE * print)
            .set_align(FormatAlign::Top);
        let base = plain.clone().set_text_wrap();
        let number = |pattern: &str| {
            plain
                .clone()
                .set_num_format(pattern)
                .set_align(FormatAlign::Right)
                // A figure too long for its column gets smaller print, where it would else be shown as "###".
                .set_shrink()
                .set_indent(1)
        };
        Styles {
            heading: base
                .clone()
                .set_bold()
                .set_background_color(Color::RGB(HEADING_GREY))
                .set_border_bottom(FormatBorder::Thin),
            strong: base.clone().set_bold(),
            small: base.clone().set_font_size(6),
            across: plain.clone().set_bold(),
            whole: number("#,##0"),
            fine: number("#,##0.0#"),
            share: number("0%"),
            part: number("0.0%"),
            off: number("+0.0%;-0.0%;0.0%"),
            exact: number("#,##0.0#####"),
            input: number("#,##0.0#####").set_border(FormatBorder::Thin),
            seen: number("#,##0.0##"),
            link: base.clone().set_underline(FormatUnderline::Single),
            entry: base.clone().set_border(FormatBorder::Thin),
            date: base
                .clone()
                .set_border(FormatBorder::Thin)
                .set_num_format("yyyy-mm-dd"),
            text: base,
        }
    }
}
