//! A replay for people and programs: text, workbook, records.
//! Comes in: the counts of a replay and what it was asked. Goes out: what people read. Works out no count.

mod about;
mod lines;
mod records;
mod result;
mod text;
mod tolerances;
mod words;

pub use records::{SCHEMAS, write as write_records};
pub use text::text;

use super::workbook::book::Book;
use crate::replay::Replay;
use crate::site::Site;
use chrono::NaiveDate;
use rust_xlsxwriter::XlsxError;
use std::io::Write;

/// A replay with what it was asked and what it rests on.
#[derive(Debug)]
pub struct Shown<'a> {
    /// The counts.
    pub replay: &'a Replay,
    /// The other settings; reports are in their units.
    pub site: &'a Site,
    /// Name of their file, and the SHA-256 of its bytes; none for the defaults.
    pub site_file: Option<(String, String)>,
    /// The register in place of the kept ones.
    pub register: Option<String>,
    /// Name of the ledger, its size, its head.
    pub ledger: (String, i64, String),
    /// First and last day, and part of a supplier's name, as asked for.
    pub asked: (Option<NaiveDate>, Option<NaiveDate>, Option<String>),
    /// How far a declared weight may be off the decided one before it counts as wrong, relative.
    pub wrong_by: f64,
}

/// Writes the workbook: the same bytes for the same replay.
///
/// # Errors
/// What the writer says.
pub fn workbook(shown: &Shown<'_>, to: impl Write + Send) -> Result<(), XlsxError> {
    let day = shown.replay.days.last().copied().unwrap_or_default();
    let subject = "The ledger's lines under other settings, and what decided lines say of flags";
    let (_, size, head) = &shown.ledger;
    let ledger = (*size, head.clone());
    let mut book = Book::new(
        "Replay of the ledger",
        subject,
        day,
        shown.site,
        &[],
        Some(&ledger),
    )?;
    result::write(&mut book, shown)?;
    tolerances::write(&mut book, shown)?;
    lines::changed(&mut book, shown)?;
    lines::decided(&mut book, shown)?;
    about::write(&mut book, shown)?;
    book.save(to)
}
