//! The ledger as Parquet, for whoever wants to ask it something of their own: all of it or nothing, a month after the other.

mod columns;
mod folder;
mod months;
mod part;
mod rows;

use super::Ledger;
use super::chain::head;
use crate::error::Error;
use columns::TABLES;
use serde::Serialize;
use std::fmt::Write;
use std::path::Path;

/// What an export holds: its manifest.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Exported {
    schema: &'static str,
    /// Version of the program.
    pub program: &'static str,
    /// Number of records of the ledger.
    pub records: i64,
    /// Hash of the last, 64 hexadecimal digits.
    pub head: String,
    /// The files, by name.
    pub files: Vec<File>,
}

/// A file of an export.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct File {
    /// Path from the export's folder on.
    pub path: String,
    /// Its table: `loads`, `findings`, `decisions`.
    pub table: &'static str,
    /// Number of rows.
    pub rows: usize,
    /// Sums of some columns, kilograms; what is null counts nothing.
    pub sums: serde_json::Map<String, serde_json::Value>,
    /// Number of bytes.
    pub bytes: u64,
    /// SHA-256 of the bytes, 64 hexadecimal digits.
    pub sha256: String,
}

impl Exported {
    /// Rows of a table in all files.
    pub fn rows(&self, table: &str) -> usize {
        let files = self.files.iter().filter(|file| file.table == table);
        files.map(|file| file.rows).sum()
    }
}

/// A failure while exporting: of the ledger, of the table library, of the disk.
enum Failed {
    Engine(rusqlite::Error),
    Told(String),
}

impl From<rusqlite::Error> for Failed {
    fn from(error: rusqlite::Error) -> Failed {
        Failed::Engine(error)
    }
}

impl From<polars::error::PolarsError> for Failed {
    fn from(error: polars::error::PolarsError) -> Failed {
        Failed::Told(error.to_string())
    }
}

impl From<std::io::Error> for Failed {
    fn from(error: std::io::Error) -> Failed {
        Failed::Told(error.to_string())
    }
}

impl From<serde_json::Error> for Failed {
    fn from(error: serde_json::Error) -> Failed {
        Failed::Told(error.to_string())
    }
}

impl Ledger {
    /// Writes every load, finding and decision on record as Parquet into a folder that is not there yet, or empty. The same
    /// ledger gives the same bytes.
    ///
    /// # Errors
    /// [`Error::Report`] when the folder holds something or cannot be written, [`Error::Ledger`] when the ledger cannot be read;
    /// nothing is then left of it.
    pub fn export(&self, to: &Path) -> Result<Exported, Error> {
        let failed = |found: String, remedy: &str| Error::Report {
            file: to.to_path_buf(),
            found,
            remedy: remedy.to_string(),
        };
        let made = folder::Making::beside(to).map_err(|found| {
            failed(
                found,
                "nothing was written; name a folder that is not there yet",
            )
        })?;
        match self.exported(&made).and_then(|exported| {
            made.keep()?;
            Ok(exported)
        }) {
            Ok(exported) => Ok(exported),
            Err(Failed::Engine(error)) => self.told(Err(error)),
            Err(Failed::Told(found)) => Err(failed(
                found,
                "nothing was left; check that the folder may be written and the disk is not full",
            )),
        }
    }

    fn exported(&self, made: &folder::Making) -> Result<Exported, Failed> {
        // One transaction, so that all files are of one state.
        let look = self.db.unchecked_transaction()?;
        let head = head(&look)?;
        let mut exported = Exported {
            schema: "dockheft.export/1",
            program: env!("CARGO_PKG_VERSION"),
            records: head.size,
            head: head.digits(),
            files: months::files(&look, made.path())?,
        };
        exported.files.sort_by(|a, b| a.path.cmp(&b.path));
        let manifest = serde_json::to_string_pretty(&exported)? + "\n";
        made.write("manifest.json", &manifest)?;
        made.write("schema.md", &described())?;
        Ok(exported)
    }
}

/// The tables and their columns in words, for the people who read the files.
fn described() -> String {
    let mut text = "# Columns of the export\n\n\
        Folders are `site=NAME/year=YYYY/month=M` (`-` where the site has no name): of the audit's day, of a decision the day that it was recorded. Weights are \
        kilograms of the whole load, lengths metres. `manifest.json` has rows, sums and SHA-256 of each file, and the head of the \
        ledger (`dockheft ledger check --head`).\n"
        .to_string();
    for (table, what, columns) in TABLES {
        // Writing to a string does not fail.
        let _ = write!(
            text,
            "\n## {table}.parquet\n\n{what}\n\n| column | type | what |\n| --- | --- | --- |\n"
        );
        for column in columns {
            let _ = writeln!(
                text,
                "| `{}` | {} | {} |",
                column.name,
                column.kind.name(),
                column.what
            );
        }
    }
    text
}
