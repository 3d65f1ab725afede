//! A copy of a ledger while it is in use, checked after writing.

use super::Ledger;
use super::check::Checked;
use super::open::refused;
use crate::error::Error;
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use std::path::Path;
use std::time::Duration;

/// How long a copy waits when the ledger is just being written.
const PAUSE: Duration = Duration::from_millis(20);

impl Ledger {
    /// Copies the ledger to a file that is not there yet, and checks the copy.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the file is there, cannot be written, or the copy is not sound; no copy is then left.
    pub fn backup(&self, to: &Path) -> Result<Checked, Error> {
        let failed = |found: String| {
            refused(
                to,
                &found,
                "no copy was left; check that the folder may be written and the disk is not full",
            )
        };
        if to.exists() {
            return Err(refused(
                to,
                "a file of this name is there, and an older copy is evidence",
                "nothing was written; give another name",
            ));
        }
        let folder = match to.parent() {
            Some(folder) if !folder.as_os_str().is_empty() => folder,
            _ => Path::new("."),
        };
        std::fs::create_dir_all(folder).map_err(|error| failed(error.to_string()))?;
        let file =
            tempfile::NamedTempFile::new_in(folder).map_err(|error| failed(error.to_string()))?;
        copied(&self.db, file.path()).map_err(|error| failed(error.to_string()))?;
        let checked = Ledger::read(file.path())?.check(None)?;
        if let Some(fault) = checked.faults.first() {
            return Err(failed(format!("the copy is not sound: {fault}")));
        }
        file.as_file()
            .sync_all()
            .map_err(|error| failed(error.to_string()))?;
        file.persist_noclobber(to)
            .map_err(|error| failed(error.error.to_string()))?;
        Ok(checked)
    }
}

/// All pages in one step, so that writers cannot make it begin again; as one plain file without a log beside it.
fn copied(from: &Connection, to: &Path) -> rusqlite::Result<()> {
    let mut copy = Connection::open(to)?;
    {
        let backup = Backup::new(from, &mut copy)?;
        while backup.step(-1)? != StepResult::Done {
            std::thread::sleep(PAUSE);
        }
    }
    copy.pragma_update(None, "journal_mode", "DELETE")
}
