//! Writing reports: to a temporary name beside the target, synced, then renamed, so that nothing half-written is ever found.

use crate::error::Error;
use std::io::{BufWriter, Write};
use std::path::{Path, PathBuf};
use tempfile::NamedTempFile;

/// A name that no file has yet: the one given, else with a number (`exceptions-2026-11-25-2.xlsx`). What somebody has decided
/// in an earlier workbook must not be lost.
pub fn free(path: &Path) -> PathBuf {
    let stem = path.file_stem().unwrap_or_default().to_string_lossy();
    let ending = path.extension().unwrap_or_default().to_string_lossy();
    let numbered = |number: u32| path.with_file_name(format!("{stem}-{number}.{ending}"));
    let mut names = std::iter::once(path.to_path_buf()).chain((2..).map(numbered));
    names
        .find(|name| !name.exists())
        .unwrap_or_else(|| path.to_path_buf())
}

/// What the ledger's engine keeps beside a file of its own (SQLite, "Temporary Files Used By SQLite"). Whatever stands there is
/// taken for a part of the ledger.
const BESIDE_LEDGER: [&str; 3] = ["-wal", "-shm", "-journal"];

/// Refuses to write over a file that the call reads, or over its other report, or where the engine keeps a part of the ledger.
///
/// # Errors
/// [`Error::Report`] when `path` is one of `kept`.
pub fn check(path: &Path, kept: &[&Path]) -> Result<(), Error> {
    let beside = |other: &Path, ending: &str| {
        let mut name = other.as_os_str().to_os_string();
        name.push(ending);
        PathBuf::from(name)
    };
    let is_taken = |other: &Path| {
        let mut endings = BESIDE_LEDGER.into_iter();
        is_same(path, other) || endings.any(|ending| is_same(path, &beside(other, ending)))
    };
    match kept.iter().find(|other| is_taken(other)) {
        None => Ok(()),
        Some(other) => Err(Error::Report {
            file: path.to_path_buf(),
            found: format!("{} is needed for this audit", other.display()),
            remedy: "nothing was done; give the report another name".to_string(),
        }),
    }
}

/// Whether two paths are one file, also through links and when it is not there yet.
fn is_same(one: &Path, other: &Path) -> bool {
    let whole = |path: &Path| {
        path.canonicalize().ok().or_else(|| {
            let folder = match path.parent() {
                Some(parent) if !parent.as_os_str().is_empty() => parent,
                _ => Path::new("."),
            };
            Some(folder.canonicalize().ok()?.join(path.file_name()?))
        })
    };
    one == other || whole(one).is_some_and(|one| whole(other) == Some(one))
}

/// Writes a file by `fill`, whole or not at all. What stands there and is no file (a device, a pipe, a folder) is never replaced.
///
/// # Errors
/// [`Error::Report`] with what the system said, or that no file stands there.
pub fn whole<E: std::fmt::Display>(
    path: &Path,
    fill: impl FnOnce(&mut BufWriter<&mut NamedTempFile>) -> Result<(), E>,
) -> Result<(), Error> {
    if path.metadata().is_ok_and(|there| !there.is_file()) {
        return Err(Error::Report {
            file: path.to_path_buf(),
            found: "what stands there is no file".to_string(),
            remedy: "nothing was written; give the report the name of a file".to_string(),
        });
    }
    let folder = match path.parent() {
        Some(parent) if !parent.as_os_str().is_empty() => parent.to_path_buf(),
        _ => PathBuf::from("."),
    };
    let failed = |found: String| {
        Error::Report {
        file: path.to_path_buf(),
        found,
        remedy: "close it if it is open, check that the folder may be written and the disk is not full, or name another with --out"
            .to_string(),
    }
    };
    std::fs::create_dir_all(&folder).map_err(|error| failed(error.to_string()))?;
    let mut temporary =
        NamedTempFile::new_in(&folder).map_err(|error| failed(error.to_string()))?;
    {
        let mut writer = BufWriter::new(&mut temporary);
        fill(&mut writer).map_err(|error| failed(error.to_string()))?;
        writer.flush().map_err(|error| failed(error.to_string()))?;
    }
    temporary
        .as_file()
        .sync_all()
        .map_err(|error| failed(error.to_string()))?;
    let kept = temporary
        .persist(path)
        .map_err(|error| failed(error.error.to_string()))?;
    readable(&kept);
    Ok(())
}

/// Prints a text on standard output. A reader that has seen enough closes the pipe: no fault of the text.
///
/// # Errors
/// [`Error::Report`] with what the system said.
pub fn print(text: &str) -> Result<(), Error> {
    match std::io::stdout().write_all(text.as_bytes()) {
        Err(error) if error.kind() != std::io::ErrorKind::BrokenPipe => Err(Error::Report {
            file: PathBuf::from("standard output"),
            found: error.to_string(),
            remedy: "look at where the output goes".to_string(),
        }),
        _ => Ok(()),
    }
}

/// A temporary file is private; a report is for everybody who may read the folder.
#[cfg(unix)]
fn readable(file: &std::fs::File) {
    use std::os::unix::fs::PermissionsExt;
    // A report that only its owner can read is still a whole report: no reason to fail.
    let _ = file.set_permissions(std::fs::Permissions::from_mode(0o644));
}

#[cfg(not(unix))]
fn readable(_file: &std::fs::File) {}

#[cfg(all(test, unix))]
mod tests {
    use super::*;
    use std::os::unix::fs::FileTypeExt;

    #[test]
    fn what_is_no_file_is_never_replaced() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("report.xlsx");
        let _listener = std::os::unix::net::UnixListener::bind(&path).expect("a socket");
        let written = whole(&path, |to| to.write_all(b"report"));
        let error = written.expect_err("no file").to_string();
        assert!(error.contains("is no file"), "{error}");
        assert!(
            path.metadata()
                .is_ok_and(|there| there.file_type().is_socket())
        );
    }
}
