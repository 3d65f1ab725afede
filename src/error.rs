//! Why a run stopped, or a file was not done. A bad line is a finding, never one of these.

use std::path::PathBuf;
use thiserror::Error;

/// A reason not to go on, in words for the person at the dock: what was found, where, what to do.
#[derive(Debug, Error)]
pub enum Error {
    /// A delivery file that was not read; the other files of the call are still audited.
    #[error("{}: {found}; {remedy}", file.display())]
    File {
        /// The file as it was named.
        file: PathBuf,
        /// What was found.
        found: String,
        /// What to do about it.
        remedy: String,
    },
    /// The site file could not be used.
    #[error("{}: {found}; {remedy}", file.display())]
    Site {
        /// The site file.
        file: PathBuf,
        /// What was found, with the line where it is known.
        found: String,
        /// What to do about it.
        remedy: String,
    },
    /// The fleet register could not be used.
    #[error("{}: {found}; {remedy}", file.display())]
    Fleet {
        /// The register.
        file: PathBuf,
        /// What was found.
        found: String,
        /// What to do about it.
        remedy: String,
    },
    /// A report could not be written.
    #[error("{}: the report could not be written ({found}); {remedy}", file.display())]
    Report {
        /// Where it should have gone.
        file: PathBuf,
        /// What the system said.
        found: String,
        /// What to do about it.
        remedy: String,
    },
    /// The ledger could not be used.
    #[error("ledger {}: {found}; {remedy}", file.display())]
    Ledger {
        /// The ledger.
        file: PathBuf,
        /// What was found.
        found: String,
        /// What to do about it.
        remedy: String,
    },
    /// A decision came into the ledger while an audit ran that could not know it: the audit is neither recorded nor handed out.
    #[error("ledger {}: a decision was recorded while the audit ran, and its plan may miss it; nothing of the audit was recorded or written: run it again", file.display())]
    Overtaken {
        /// The ledger.
        file: PathBuf,
    },
    /// Decisions that were not taken: none of them was.
    #[error("nothing was decided: {}", reasons.join("; "))]
    Decision {
        /// What was found, and what to do, for each decision that cannot be taken.
        reasons: Vec<String>,
    },
}
