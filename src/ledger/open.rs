//! Opening a ledger so that nothing acknowledged is lost, many processes may write, and nothing foreign or newer is touched.

use super::Ledger;
use super::drive;
use super::schema::{self, Kind};
use super::supplier;
use crate::error::Error;
use rusqlite::config::DbConfig;
use rusqlite::{Connection, ErrorCode, OpenFlags, TransactionBehavior};
use std::path::Path;
use std::time::{Duration, Instant};

/// How long a process waits for others that write. A large audit is recorded in seconds.
const PATIENCE: Duration = Duration::from_secs(600);
/// How long it waits between two tries where the engine itself does not wait.
const PAUSE: Duration = Duration::from_millis(5);

impl Ledger {
    /// Opens a ledger to add to it; makes it, with its folder, where it is not there.
    ///
    /// # Errors
    /// [`Error::Ledger`] when it lies on a network drive, is no ledger, is damaged or newer than this program, or cannot be
    /// written.
    pub fn open(file: &Path) -> Result<Ledger, Error> {
        refuse_old_engine(file)?;
        if let Some(folder) = file.parent() {
            std::fs::create_dir_all(folder).map_err(|error| {
                refused(
                    file,
                    &format!("its folder cannot be made ({error})"),
                    WRITABLE,
                )
            })?;
        }
        refuse_remote(file)?;
        let ledger = connect(
            file,
            OpenFlags::SQLITE_OPEN_READ_WRITE | OpenFlags::SQLITE_OPEN_CREATE,
        )?;
        if ledger.kind()? == Kind::Foreign {
            return Err(foreign(file));
        }
        ledger.told(patiently(|| {
            ledger.db.pragma_update(None, "journal_mode", "WAL")?;
            ledger.db.pragma_update(None, "synchronous", "FULL")
        }))?;
        ledger.told(ledger.made())?;
        Ok(ledger)
    }

    /// Opens a ledger that is there to read it; changes nothing in it.
    ///
    /// # Errors
    /// [`Error::Ledger`] when it is not there, lies on a network drive, is no ledger, is damaged or newer than this program.
    pub fn read(file: &Path) -> Result<Ledger, Error> {
        if !file.exists() {
            return Err(refused(
                file,
                "there is no ledger here",
                "name it with --ledger, or with --site the site file that it belongs to; the first audit makes it",
            ));
        }
        Ledger::read_if_any(file)?
            .ok_or_else(|| refused(file, "it holds nothing yet", "audit something first"))
    }

    /// The same; none where it is not there or holds nothing yet.
    ///
    /// # Errors
    /// [`Error::Ledger`] when it lies on a network drive, is no ledger, is damaged or newer than this program.
    pub fn read_if_any(file: &Path) -> Result<Option<Ledger>, Error> {
        refuse_old_engine(file)?;
        if !file.exists() {
            return Ok(None);
        }
        refuse_remote(file)?;
        let ledger = connect(file, OpenFlags::SQLITE_OPEN_READ_WRITE)?;
        match ledger.kind()? {
            Kind::Ledger(_) => {}
            Kind::Empty => return Ok(None),
            Kind::Foreign => return Err(foreign(file)),
        }
        ledger.told(ledger.db.pragma_update(None, "query_only", true))?;
        Ok(Some(ledger))
    }

    /// What the file says it is; a newer ledger is refused.
    fn kind(&self) -> Result<Kind, Error> {
        let kind = self.told(patiently(|| schema::kind(&self.db)))?;
        match kind {
            Kind::Ledger(version) if version > schema::VERSION => Err(refused(
                &self.file,
                &format!(
                    "it was written by a newer Dockheft (ledger version {version}, this program knows {})",
                    schema::VERSION
                ),
                "nothing was changed; use the newer program",
            )),
            kind => Ok(kind),
        }
    }

    /// Makes the tables that are missing: of several processes that begin at once, the first.
    fn made(&self) -> rusqlite::Result<()> {
        if schema::kind(&self.db)? == Kind::Ledger(schema::VERSION) {
            return Ok(());
        }
        let making =
            rusqlite::Transaction::new_unchecked(&self.db, TransactionBehavior::Immediate)?;
        // Made by another process while this one waited.
        let version = match kind_inside(&making)? {
            Kind::Ledger(version) => version,
            _ => 0,
        };
        if version < schema::VERSION {
            schema::migrate(&making, version)?;
        }
        making.commit()
    }

    /// Puts what the engine says in words.
    pub(super) fn told<T>(&self, done: rusqlite::Result<T>) -> Result<T, Error> {
        done.map_err(|error| in_words(&self.file, &error))
    }
}

const WRITABLE: &str =
    "check that the folder may be written and the disk is not full, or name another with --ledger";

fn kind_inside(making: &Connection) -> rusqlite::Result<Kind> {
    let version: i32 = making.query_row("PRAGMA user_version", [], |row| row.get(0))?;
    Ok(if version > 0 {
        Kind::Ledger(version)
    } else {
        Kind::Empty
    })
}

fn refuse_old_engine(file: &Path) -> Result<(), Error> {
    if schema::is_recent(rusqlite::version_number()) {
        return Ok(());
    }
    Err(refused(
        file,
        &format!(
            "SQLite {} is too old to keep it safely",
            rusqlite::version()
        ),
        "use a Dockheft that was built with SQLite 3.51.3 or newer",
    ))
}

fn refuse_remote(file: &Path) -> Result<(), Error> {
    match drive::remote(file) {
        None => Ok(()),
        Some(drive) => Err(refused(
            file,
            &format!("it lies on {drive}, where records of several machines can get lost"),
            "keep the ledger on a disk of this machine (--ledger FILE, or the key \"ledger\" of the site file) and copy it to the network with \"dockheft ledger backup\"",
        )),
    }
}

fn connect(file: &Path, flags: OpenFlags) -> Result<Ledger, Error> {
    let flags = flags | OpenFlags::SQLITE_OPEN_NO_MUTEX;
    let opened = Connection::open_with_flags(file, flags).and_then(|db| {
        db.busy_timeout(PATIENCE)?;
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_DEFENSIVE, true)?;
        db.set_db_config(DbConfig::SQLITE_DBCONFIG_TRUSTED_SCHEMA, false)?;
        db.pragma_update(None, "foreign_keys", true)?;
        // INSERT OR REPLACE deletes: with this the guard against deleting sees it.
        db.pragma_update(None, "recursive_triggers", true)?;
        supplier::teach(&db)?;
        Ok(db)
    });
    let db = opened.map_err(|error| in_words(file, &error))?;
    Ok(Ledger {
        db,
        file: file.to_path_buf(),
    })
}

/// Tries again while other processes hold what is needed, where the engine answers at once instead of waiting.
fn patiently<T>(mut attempt: impl FnMut() -> rusqlite::Result<T>) -> rusqlite::Result<T> {
    let begun = Instant::now();
    loop {
        match attempt() {
            Err(error) if is_busy(&error) && begun.elapsed() < PATIENCE => {
                std::thread::sleep(PAUSE)
            }
            done => return done,
        }
    }
}

fn is_busy(error: &rusqlite::Error) -> bool {
    matches!(
        error.sqlite_error_code(),
        Some(
            ErrorCode::DatabaseBusy
                | ErrorCode::DatabaseLocked
                | ErrorCode::FileLockingProtocolFailed
        )
    )
}

fn foreign(file: &Path) -> Error {
    refused(
        file,
        "it is a database of another program, not a ledger",
        "nothing was changed; name another file",
    )
}

pub(super) fn refused(file: &Path, found: &str, remedy: &str) -> Error {
    Error::Ledger {
        file: file.to_path_buf(),
        found: found.to_string(),
        remedy: remedy.to_string(),
    }
}

/// What the engine says, in words for people, with what to do.
fn in_words(file: &Path, error: &rusqlite::Error) -> Error {
    let (found, remedy) = match error.sqlite_error_code() {
        Some(ErrorCode::NotADatabase) => (
            "it is no ledger".to_string(),
            "nothing was changed; name another file",
        ),
        Some(ErrorCode::DatabaseCorrupt) => (
            format!("the file is damaged ({error})"),
            "keep it as it is, run \"dockheft ledger check\", and go on with a new file or the last backup",
        ),
        Some(ErrorCode::DiskFull) => (
            "the disk is full; nothing of this was recorded".to_string(),
            "make room and repeat it",
        ),
        Some(ErrorCode::CannotOpen | ErrorCode::PermissionDenied | ErrorCode::ReadOnly) => (
            format!("it cannot be opened or written ({error})"),
            WRITABLE,
        ),
        _ if is_busy(error) => (
            format!(
                "other programs kept it for {} minutes",
                PATIENCE.as_secs() / 60
            ),
            "end what keeps it, and repeat",
        ),
        _ => (
            format!("it could not be used ({error})"),
            "run \"dockheft ledger check\"",
        ),
    };
    refused(file, &found, remedy)
}
