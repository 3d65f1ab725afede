//! The exception workbook: ten sheets, black on white, written row by row so that a large delivery stays small in memory.
//! Comes in: an audit. Goes out: an xlsx file, the same bytes for the same audit. No mark is carried by colour alone.

mod as_read;
mod basis;
pub(super) mod book;
mod capacity;
pub(super) mod cell;
mod decisions;
mod dock;
mod exceptions;
mod fitted;
mod fleet;
mod height;
mod lift_cards;
mod lift_plan;
mod live;
mod picture;
mod questions;
pub(super) mod table;
mod working;

pub use cell::clean;
pub use decisions::{
    ENTRY_HEADINGS, LINE_HEADING, MARK_HEADING, Mark, WHOLE, decision_headings, plain, whole_cause,
    whole_id,
};
pub use exceptions::{SHEET as EXCEPTIONS, Written, headings, written};

use super::Failure;
use super::loads::View;
use super::summary::Summary;
use crate::audit::Audit;
use crate::fleet::Fleet;
use crate::site::Site;
use book::Book;
use chrono::NaiveDate;
use std::io::Write;

/// One table of the program, as the Basis sheet lists it: name, rows or hash, source.
pub type TableSource = (String, String, String);

/// Writes the workbook of an audit.
///
/// # Errors
/// When the file cannot be written, or a temporary file for its sheets cannot be made.
pub fn write(audit: &Audit, tables: &[TableSource], to: impl Write + Send) -> Result<(), Failure> {
    finish(book_of(audit)?, audit, tables, to)
}

fn book_of(audit: &Audit) -> Result<Book, Failure> {
    let title = format!("Exception workbook, audit {}", audit.id);
    let subject = "Declared weights against expected weights, and the lift truck for each lift";
    let ledger = audit.call.ledger.as_ref();
    let deliveries = audit.deliveries.iter();
    let deliveries: Vec<&str> = deliveries
        .map(|one| one.reading.delivery.as_str())
        .collect();
    let (day, site) = (audit.date, &audit.site);
    Ok(Book::new(&title, subject, day, site, &deliveries, ledger)?)
}

/// Writes a register by itself: the Fleet sheet.
///
/// # Errors
/// When the file cannot be written.
pub fn write_register(
    fleet: &Fleet,
    date: NaiveDate,
    site: &Site,
    to: impl Write + Send,
) -> Result<(), Failure> {
    let title = format!("Fleet register {}", fleet.file);
    let subject = "The lift trucks as understood, and what each may lift";
    let mut book = Book::new(&title, subject, date, site, &[], None)?;
    fleet::write(&mut book, Some(fleet), date, site)?;
    book.save(to)?;
    Ok(())
}

fn finish(
    mut book: Book,
    audit: &Audit,
    tables: &[TableSource],
    to: impl Write + Send,
) -> Result<(), Failure> {
    let views: Vec<View<'_>> = audit.deliveries.iter().map(View::new).collect();
    let summary = Summary::of(audit)?;
    let places = working::Places::of(audit, book.most_rows());
    let flags = exceptions::flags(&views);
    questions::write(&mut book, audit, &views)?;
    exceptions::write(&mut book, audit, &flags, &places)?;
    picture::write(&mut book, &flags)?;
    lift_plan::write(&mut book, audit, &views)?;
    lift_cards::write(&mut book, audit, &views)?;
    working::write(&mut book, audit, &places)?;
    as_read::write(&mut book, audit)?;
    fleet::write(&mut book, audit.fleet.as_ref(), audit.date, &audit.site)?;
    basis::write(&mut book, audit, tables)?;
    // Written last, because it says where a sheet was continued; first in the file, because it is read first.
    let before = book.sheets();
    dock::write(&mut book, audit, &views, &summary)?;
    book.bring_forward(before);
    book.save(to)?;
    Ok(())
}

/// Sheets by which our workbooks are known, the first of each in its place: exceptions, scorecard, replay.
const OURS: [&[&str]; 3] = [
    &["Dock", EXCEPTIONS, "Lift plan", "As read", "Basis"],
    &["Suppliers", "Causes", "Months", "Decisions", "About"],
    &["Tolerances", "Changed lines", "Decided lines", "About"],
];

/// Whether sheets of these names are those of a workbook of ours, which is no supplier's list.
pub fn is_ours<'n>(names: impl Iterator<Item = &'n str>) -> bool {
    let names: Vec<&str> = names.collect();
    OURS.iter().any(|sheets| {
        names.first() == sheets.first() && sheets.iter().all(|sheet| names.contains(sheet))
    })
}

#[cfg(test)]
mod tests;
