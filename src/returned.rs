//! Decisions that come back in an exception workbook, whatever was sorted, filtered, moved or saved anew in between.
//! Comes in: the workbook's raw cells, and what the ledger knows of its audit. Goes out: decisions, and what is wrong with them
//! cell by cell. Trusts no cell: a row is what its mark says, and only where the rest of the row bears it out.

pub mod altered;
pub mod entry;
mod sheet;
#[cfg(test)]
mod tests;
pub mod typed;

pub use entry::{Choice, Days};
pub use sheet::{Basis, Row, Workbook, workbook};
