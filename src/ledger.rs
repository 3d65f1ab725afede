//! The ledger: what was audited and decided, kept for years. It is added to and never changed.
//! Comes in: an audit with the bytes it rests on, and decisions. Goes out: proof, past loads, the story of one.
//! Never updates, never deletes, decides nothing about a weight by itself.

mod again;
mod append;
mod audited;
mod backup;
mod chain;
mod check;
mod decide;
mod drive;
#[cfg(feature = "export")]
mod export;
mod figures;
mod history;
mod open;
mod past;
mod replay;
mod schema;
mod sheet;
mod shown;
mod sources;
mod stamp;
mod story;
mod supplier;
mod trace;

pub use crate::history::{DECISIONS, DecisionKind};
pub use again::{Again, Difference};
pub use append::Kept;
pub use audited::{Audited, OnceMore, Seen};
pub use chain::Head;
pub use check::{Checked, Found};
pub use decide::{Decided, Decision, Weight};
#[cfg(feature = "export")]
pub use export::{Exported, File};
pub use replay::Asked;
pub use sheet::workbook;
pub use sources::Packed;
pub use stamp::Stamp;
pub use story::without;
pub use trace::{Decided as OnRecord, DecisionFilter, Query, Traced};

use crate::error::Error;
use rusqlite::Connection;
use std::path::PathBuf;

/// Name of a ledger where the site names none.
pub const NAME: &str = "ledger.dockheft";

/// An open ledger.
#[derive(Debug)]
pub struct Ledger {
    db: Connection,
    file: PathBuf,
}

impl Ledger {
    /// Its size and the hash of its last record.
    ///
    /// # Errors
    /// [`Error::Ledger`] when it cannot be read.
    pub fn head(&self) -> Result<Head, Error> {
        self.told(chain::head(&self.db))
    }
}
