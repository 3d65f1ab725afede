//! The delivery files of a call: those named, and every spreadsheet of the folders named, in order of name. What a folder holds
//! besides is named, so that no list goes missing unseen.

use crate::ledger::Packed;
use crate::read::{self, RawFile};
use crate::report::workbook;
use std::path::{Path, PathBuf};

/// Endings that a folder's spreadsheets have.
const ENDINGS: [&str; 11] = [
    "xlsx", "xlsm", "xlsb", "xls", "ods", "csv", "tsv", "txt", "html", "htm", "xml",
];

/// What is to be read, and what is not.
#[derive(Default)]
pub(super) struct Inputs {
    /// Files to read; whether each was named itself, rather than found in a folder.
    pub(super) files: Vec<(PathBuf, bool)>,
    /// What cannot be read, with the reason.
    pub(super) refused: Vec<(String, String)>,
    /// What the folders hold besides.
    pub(super) left_out: Vec<String>,
    /// Our own workbooks among the files, known once they are read: a new one may take their place.
    ours: Vec<PathBuf>,
    /// The bytes of the files that were read.
    pub(super) kept: Vec<Packed>,
}

impl Inputs {
    /// Looks the named files and folders through.
    pub(super) fn of(named: &[PathBuf]) -> Inputs {
        let mut inputs = Inputs::default();
        for path in named {
            if path.is_dir() {
                inputs.folder(path);
            } else {
                inputs.files.push((path.clone(), true));
            }
        }
        inputs
    }

    /// Reads a file; what cannot be read is refused, our own workbook found in a folder is left out. `keep` keeps its bytes.
    pub(super) fn read(&mut self, at: usize, keep: bool) -> Option<RawFile> {
        let (path, named) = self.files.get(at)?.clone();
        let (file, content) = match read::with_bytes(&path) {
            Ok(read) => read,
            Err(error) => {
                self.refuse(&path, error.to_string());
                return None;
            }
        };
        if !workbook::is_ours(file.sheets.iter().map(|sheet| &*sheet.name)) {
            if keep {
                self.kept.push(Packed::of(&content));
            }
            return Some(file);
        }
        if named {
            let found = "is a workbook that this program wrote; give the supplier's list";
            self.refuse(&path, format!("{}: {found}", path.display()));
        } else {
            self.left_out
                .push(format!("{} (our own workbook)", path.display()));
            self.ours.push(path);
        }
        None
    }

    /// The files that no report may take the place of.
    pub(super) fn needed(&self) -> impl Iterator<Item = &Path> {
        let files = self.files.iter().map(|(path, _)| path.as_path());
        files.filter(|path| !self.ours.iter().any(|ours| ours == path))
    }

    fn refuse(&mut self, path: &Path, reason: String) {
        self.refused.push((path.display().to_string(), reason));
    }

    fn folder(&mut self, folder: &Path) {
        let cannot = |error: std::io::Error| {
            format!(
                "{}: the folder cannot be read ({error}); check the name",
                folder.display()
            )
        };
        let entries = match std::fs::read_dir(folder) {
            Ok(entries) => entries,
            Err(error) => return self.refuse(folder, cannot(error)),
        };
        let mut found = Vec::new();
        for entry in entries {
            match entry {
                Ok(entry) => found.push(entry.path()),
                Err(error) => self.refuse(folder, cannot(error)),
            }
        }
        found.sort();
        let before = self.files.len();
        for path in found {
            let shown = path.display();
            if is_hidden(&path) {
                // A spreadsheet program's lock files, and what the system keeps for itself.
            } else if path.is_dir() {
                self.left_out
                    .push(format!("{shown} (a folder; name it to have it read)"));
            } else if is_spreadsheet(&path) {
                self.files.push((path, false));
            } else {
                self.left_out.push(format!("{shown} (no spreadsheet)"));
            }
        }
        if self.files.len() == before {
            let reason = "the folder holds no spreadsheet; check the name";
            self.refuse(folder, format!("{}: {reason}", folder.display()));
        }
    }
}

fn name(path: &Path) -> String {
    let name = path.file_name().unwrap_or_default();
    name.to_string_lossy().to_lowercase()
}

fn is_hidden(path: &Path) -> bool {
    let name = name(path);
    // A ledger, with the files that its engine keeps beside it.
    let ledger = [".dockheft", ".dockheft-wal", ".dockheft-shm"];
    name.starts_with("~$") || name.starts_with('.') || ledger.iter().any(|end| name.ends_with(end))
}

/// By ending, because a folder also holds notes and pictures.
fn is_spreadsheet(path: &Path) -> bool {
    name(path)
        .rsplit_once('.')
        .is_some_and(|(_, ending)| ENDINGS.contains(&ending))
}
