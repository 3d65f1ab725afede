//! A copy of a ledger while it is in use, checked after writing.

use super::Ledger;
use super::check::Checked;
use super::open::refused;
use crate::error::Error;
use rusqlite::Connection;
use rusqlite::backup::{Backup, StepResult};
use sha2::{Digest, Sha256};
use std::fs::File;
use std::io::{self, BufRead, BufReader};
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
        // Made and checked beside the ledger: the engine's locks do not hold on a network drive, where a copy may well go.
        let own = self.file.parent().filter(|own| !own.as_os_str().is_empty());
        let made = tempfile::NamedTempFile::new_in(own.unwrap_or(Path::new(".")))
            .map_err(|error| failed(format!("it cannot be made beside the ledger ({error})")))?;
        copied(&self.db, made.path()).map_err(|error| failed(error.to_string()))?;
        let checked = Ledger::read(made.path())?.check(None)?;
        if let Some(fault) = checked.faults.first() {
            return Err(failed(format!("the copy is not sound: {fault}")));
        }
        brought(made.path(), folder, to).map_err(|error| failed(error.to_string()))?;
        Ok(checked)
    }
}

/// Brings a finished copy to its place and reads it back there; nothing stands under its name before that.
fn brought(made: &Path, folder: &Path, to: &Path) -> io::Result<()> {
    std::fs::create_dir_all(folder)?;
    let mut there = tempfile::NamedTempFile::new_in(folder)?;
    io::copy(&mut File::open(made)?, there.as_file_mut())?;
    there.as_file().sync_all()?;
    if sha256(made)? != sha256(there.path())? {
        return Err(io::Error::other(
            "what was read back is not what was written",
        ));
    }
    match there.persist_noclobber(to) {
        Ok(_) => Ok(()),
        // Some network drives know no way of naming a file only where none is.
        Err(refused) if !to.exists() => Ok(refused.file.persist(to).map(drop)?),
        Err(refused) => Err(refused.error),
    }
}

/// The SHA-256 of a file.
pub(super) fn sha256(file: &Path) -> io::Result<String> {
    let mut file = BufReader::with_capacity(1 << 20, File::open(file)?);
    let mut hasher = Sha256::new();
    loop {
        let part = file.fill_buf()?;
        if part.is_empty() {
            return Ok(crate::hash::hex(&hasher.finalize()));
        }
        hasher.update(part);
        let read = part.len();
        file.consume(read);
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

#[cfg(test)]
mod tests {
    use super::*;

    /// On a network drive only plain files may be written: what is brought there is bytes, whatever they are.
    #[test]
    fn a_copy_is_brought_whole_and_replaces_nothing() {
        let folder = tempfile::tempdir().expect("a folder");
        let (made, share) = (folder.path().join("made"), folder.path().join("share"));
        let to = share.join("copy");
        let bytes: Vec<u8> = (0..3_000_000_u32).map(|at| (at % 251) as u8).collect();
        std::fs::write(&made, &bytes).expect("made");
        brought(&made, &share, &to).expect("brought");
        assert_eq!(std::fs::read(&to).expect("bytes"), bytes);
        std::fs::write(&made, b"other").expect("made");
        brought(&made, &share, &to).expect_err("an older copy is evidence");
        assert_eq!(std::fs::read(&to).expect("bytes"), bytes);
        let left = std::fs::read_dir(&share).expect("a list").count();
        assert_eq!(left, 1, "nothing else is left there");
    }
}
