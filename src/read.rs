//! Bytes to raw tables: cells with their place, exactly as the file holds them.
//! Comes in: a file. Goes out: sheets of sparse rows. Never guesses what a cell means.
//!
//! Libraries do the reading: calamine the cells of xlsx and xlsb (as a stream) and of xls; the csv crate the records of
//! text; quick-xml the XML; zip the packing; encoding_rs and chardetng the signs. Code of our own is for what they cannot:
//! limits before anything is unpacked; what calamine does not tell of xlsx (hidden rows and columns, merged blocks, units
//! in number formats) and a mended copy of what it refuses or misreads (xlsx, xls); marks in text that are never closed;
//! ods, which calamine reads into a dense table as large as the file claims to be; pages, mail pages and XML of 2003,
//! for which there is no reader of tables.

mod address;
mod binary;
mod compound;
mod decode;
mod delimiter;
mod gather;
mod html;
mod long_texts;
mod mime;
mod number_format;
mod ods;
mod open;
mod package;
mod recalculate;
mod records;
mod text;
mod xls;
mod xlsx;
mod xml;
mod xml_2003;

#[cfg(test)]
mod testing;
#[cfg(test)]
mod tests;

pub use open::{bytes, file, with_bytes};

use crate::place::Place;
use std::sync::Arc;

/// Largest file that is opened, bytes.
pub const MOST_BYTES: u64 = 64 * 1024 * 1024;
/// Most filled cells of one file.
pub const MOST_CELLS: usize = 20_000_000;
/// Most text of one file's cells, bytes: a short file can name one long text a million times.
pub const MOST_TEXT: usize = 512 * 1024 * 1024;
/// Rows that a spreadsheet can have (ECMA-376).
pub const MOST_ROWS: u32 = 1_048_576;
/// Columns that a spreadsheet can have (ECMA-376).
pub const MOST_COLUMNS: u32 = 16_384;
/// Columns that are read: no delivery list is wider, and a lone cell beyond them is a leftover (common practice, no
/// source). What stands there is named in a remark.
pub const MOST_LIST_COLUMNS: u32 = 1_024;

/// What one cell holds. An empty cell is not stored.
#[derive(Clone, Debug, PartialEq)]
pub enum Value {
    /// Text, as written.
    Text(Box<str>),
    /// A number stored as a number.
    Number(f64),
    /// True or false.
    Bool(bool),
    /// A date or time; the text is how it reads (`2026-01-02`).
    Date(chrono::NaiveDateTime),
    /// A cell error such as `#REF!`, in the words of the file.
    Error(Box<str>),
    /// A formula without a stored result (or with a stored 0 that its writer never calculated) that is too involved to be
    /// recalculated, or whose parts are missing.
    Formula(Box<str>),
}

/// One filled cell of a row.
#[derive(Clone, Debug, PartialEq)]
pub struct Cell {
    /// Column from 1, as the spreadsheet shows it.
    pub column: u32,
    /// What it holds.
    pub value: Value,
}

/// One row with at least one filled cell, cells in column order.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Row from 1, as the spreadsheet shows it (text: records; html: table rows).
    pub number: u32,
    /// Hidden by the writer of the file.
    pub hidden: bool,
    /// The filled cells.
    pub cells: Vec<Cell>,
}

/// A block of merged cells; the value stands in its first cell.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Merged {
    /// First row, from 1.
    pub top: u32,
    /// First column, from 1.
    pub left: u32,
    /// Last row.
    pub bottom: u32,
    /// Last column.
    pub right: u32,
}

/// One sheet of a file.
#[derive(Clone, Debug, PartialEq)]
pub struct Sheet {
    /// File name without folders.
    pub file: Arc<str>,
    /// Sheet name; empty for files without sheets.
    pub name: Arc<str>,
    /// Hidden by the writer of the file.
    pub hidden: bool,
    /// Rows in order, blank ones left out.
    pub rows: Vec<Row>,
    /// Merged blocks.
    pub merged: Vec<Merged>,
    /// Hidden columns that hold something, from 1.
    pub hidden_columns: Vec<u32>,
}

/// A file as read.
#[derive(Clone, Debug, PartialEq)]
pub struct RawFile {
    /// File name without folders.
    pub name: Arc<str>,
    /// SHA-256 of the bytes, 64 hexadecimal digits.
    pub sha256: String,
    /// What it was read as, in words ("workbook (xlsx)", "text, Windows-1252, semicolons").
    pub kind: String,
    /// Sheets in the file's order, hidden ones too.
    pub sheets: Vec<Sheet>,
    /// What a careful clerk should know about the reading ("named .xls but holds html").
    pub remarks: Vec<String>,
}

/// What the reader of one kind of file gives: the kind in words, the sheets, the remarks.
type Reading = (String, Vec<Sheet>, Vec<String>);

impl Row {
    /// The cell in a column, if filled.
    pub fn cell(&self, column: u32) -> Option<&Cell> {
        self.cells
            .binary_search_by_key(&column, |cell| cell.column)
            .ok()
            .and_then(|at| self.cells.get(at))
    }
}

impl Sheet {
    /// The row with a number, if anything stands in it.
    pub fn row(&self, number: u32) -> Option<&Row> {
        self.rows
            .binary_search_by_key(&number, |row| row.number)
            .ok()
            .and_then(|at| self.rows.get(at))
    }

    /// The place of a cell of this sheet; column 0 is the whole row.
    pub fn place(&self, row: u32, column: u32) -> Place {
        Place {
            file: self.file.clone(),
            sheet: self.name.clone(),
            row,
            column,
        }
    }
}

impl Value {
    /// How the cell reads as text, numbers in their shortest form.
    pub fn text(&self) -> String {
        match self {
            Value::Text(text) | Value::Error(text) => text.to_string(),
            Value::Number(number) => format!("{number}"),
            Value::Bool(truth) => if *truth { "TRUE" } else { "FALSE" }.to_string(),
            Value::Date(date) => date.format("%Y-%m-%d").to_string(),
            Value::Formula(formula) => format!("={formula}"),
        }
    }
}
