//! What the dock is given: workbook, records, text.
//! Comes in: an audit. Goes out: what people and scripts read. Decides nothing.

pub mod as_understood;
pub mod fleet_record;
pub mod fleet_shown;
pub mod formula;
pub mod known;
pub mod loads;
pub mod ndjson;
pub mod on_paper;
mod plain_table;
pub mod questions;
pub mod record;
pub mod replay;
pub mod scorecard;
pub mod summary;
pub mod text;
pub mod weighed;
pub mod words;
pub mod workbook;

#[cfg(test)]
mod testing;

pub use plain_table::{labelled, table, wrap};

use thiserror::Error;

/// Why a report was not made.
#[derive(Debug, Error)]
pub enum Failure {
    /// The workbook could not be built or written.
    #[error("the workbook could not be written: {0}")]
    Workbook(#[from] rust_xlsxwriter::XlsxError),
    /// The counts could not be computed.
    #[error("the counts could not be computed: {0}")]
    Counts(#[from] polars::error::PolarsError),
    /// The settings could not be put into words.
    #[error("the settings could not be written down: {0}")]
    Settings(#[from] serde_json::Error),
}
