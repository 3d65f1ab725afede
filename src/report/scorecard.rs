//! The scorecard for people and programs: workbook, text, records.
//! Comes in: the plain tables of a scorecard. Goes out: what the manager and the auditor read. Counts nothing.

mod about;
mod charts;
mod decisions;
mod record;
mod tables;
mod text;
mod words;

pub use record::{SCHEMAS, write as write_records};
pub use text::text;

use super::Failure;
use super::workbook::book::Book;
use crate::scorecard::Scorecard;
use crate::site::Site;
use std::io::Write;

/// Writes the workbook; `head` is size and last hash of the ledger that it is of.
///
/// # Errors
/// When the file cannot be written.
pub fn write_workbook(
    card: &Scorecard,
    site: &Site,
    head: &(i64, String),
    to: impl Write + Send,
) -> Result<(), Failure> {
    let subject = "Declared weights against expected weights: who, what, since when";
    let mut book = Book::new("Scorecard", subject, card.today, site, &[], Some(head))?;
    tables::suppliers(&mut book, card)?;
    tables::named(&mut book, "Goods", "Kind of goods", &card.goods)?;
    tables::named(&mut book, "Materials", "Material", &card.materials)?;
    tables::causes(&mut book, card)?;
    tables::months(&mut book, card)?;
    decisions::write(&mut book, &card.decisions)?;
    about::write(&mut book, card, head)?;
    book.save(to)?;
    Ok(())
}

#[cfg(test)]
mod tests;
