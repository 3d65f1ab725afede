//! A zip file of parts (xlsx, xlsb, ods), unpacked with a running limit: sizes that the file declares may lie.

use super::open::Refusal;
use std::collections::HashMap;
use std::io::{BufRead, Cursor, Error, Read, Result as IoResult};
use zip::ZipArchive;
use zip::read::ZipFile;
use zip::result::ZipError;

/// Most bytes that all parts of one file may unpack to. A very large honest delivery (a million lines) needs under 1 GiB.
const MOST_UNPACKED: u64 = 1536 * 1024 * 1024;
/// Most parts of one file (common practice, no source).
const MOST_PARTS: usize = 4_096;
/// Longest run without a `<`, bytes: a cell holds at most 32,767 characters (ECMA-376 implementations), an attribute far less.
const LONGEST_RUN: usize = 4 * 1024 * 1024;

const TOO_LARGE: &str = "unpacks to more than is read";

/// The parts of a zip file.
pub(super) struct Package<'a> {
    archive: ZipArchive<Cursor<&'a [u8]>>,
    names: HashMap<String, usize>,
    left: u64,
}

/// Refuses a file whose parts cannot be read.
pub(super) fn damaged(why: impl std::fmt::Display) -> Refusal {
    (
        format!("is not a workbook that can be read ({why})"),
        "open it in a spreadsheet program, save it again as xlsx, or ask the supplier for a new copy"
            .to_string(),
    )
}

/// Refuses a file that is protected by a password.
pub(super) fn encrypted() -> Refusal {
    (
        "is encrypted".to_string(),
        "ask the supplier for a copy without a password".to_string(),
    )
}

/// What an error while unpacking means to the clerk.
pub(super) fn unreadable(error: &Error) -> Refusal {
    if error.to_string() == TOO_LARGE {
        return (
            format!("unpacks to more than {} MiB", MOST_UNPACKED / 1024 / 1024),
            "save only the sheet with the delivery, or ask the supplier for a csv file".to_string(),
        );
    }
    damaged(error)
}

impl<'a> Package<'a> {
    /// Opens a zip file.
    ///
    /// # Errors
    /// When it is damaged, cut short, or has too many parts.
    pub(super) fn open(content: &'a [u8]) -> Result<Self, Refusal> {
        Self::open_within(content, MOST_UNPACKED)
    }

    fn open_within(content: &'a [u8], left: u64) -> Result<Self, Refusal> {
        let archive = ZipArchive::new(Cursor::new(content)).map_err(|error| {
            damaged(match error {
                ZipError::InvalidArchive(_) => {
                    "it is cut short or damaged: its table of parts is missing".to_string()
                }
                error => error.to_string(),
            })
        })?;
        if archive.len() > MOST_PARTS {
            return Err((
                format!("has more than {MOST_PARTS} parts"),
                "ask the supplier for a file saved by a spreadsheet program".to_string(),
            ));
        }
        let mut names = HashMap::new();
        for index in 0..archive.len() {
            if let Some(Ok(name)) = archive.name_for_index(index) {
                names.insert(key(&name), index);
            }
        }
        Ok(Package {
            archive,
            names,
            left,
        })
    }

    /// There is a part of this name; case and leading slash do not count.
    pub(super) fn has(&self, name: &str) -> bool {
        self.names.contains_key(&key(name))
    }

    /// Every part has a name of its own, case not counted, and none begins with a slash.
    pub(super) fn has_plain_names(&self) -> bool {
        let plain = |name: &String| !name.starts_with(['/', '\\']);
        self.names.len() == self.archive.len()
            && self
                .archive
                .file_names()
                .all(|name| name.is_ok_and(|name| plain(&name.to_string())))
    }

    /// There is a part below this folder.
    pub(super) fn has_folder(&self, folder: &str) -> bool {
        self.names.keys().any(|name| name.starts_with(folder))
    }

    /// Opens a part, if there is one of this name.
    ///
    /// # Errors
    /// When the part is encrypted, or packed in a way that is not read.
    pub(super) fn part(&mut self, name: &str) -> Result<Option<Part<'_, 'a>>, Refusal> {
        match self.names.get(&key(name)).copied() {
            Some(index) => self.unpack(index, LONGEST_RUN).map(Some),
            None => Ok(None),
        }
    }

    /// Unpacks every part into nothing, to know that a library which has no limits may open the file.
    pub(super) fn measure(mut self) -> Result<(), Refusal> {
        for index in 0..self.archive.len() {
            self.unpack(index, usize::MAX)?.skip()?;
        }
        Ok(())
    }

    fn unpack(&mut self, index: usize, longest_run: usize) -> Result<Part<'_, 'a>, Refusal> {
        let packed = self.archive.by_index(index).map_err(|error| match error {
            ZipError::UnsupportedArchive(ZipError::PASSWORD_REQUIRED) => encrypted(),
            error => damaged(error),
        })?;
        Ok(Part {
            packed,
            left: &mut self.left,
            buffer: vec![0; 64 * 1024],
            filled: 0..0,
            run: 0,
            longest_run,
        })
    }
}

/// Part names are compared without case; some writers put a slash in front or use backslashes.
fn key(name: &str) -> String {
    name.trim_start_matches(['/', '\\'])
        .replace('\\', "/")
        .to_lowercase()
}

/// One part while it is unpacked, a stretch at a time.
pub(super) struct Part<'p, 'a> {
    packed: ZipFile<'p, Cursor<&'a [u8]>>,
    left: &'p mut u64,
    buffer: Vec<u8>,
    filled: std::ops::Range<usize>,
    /// Bytes since the last `<`.
    run: usize,
    longest_run: usize,
}

impl Part<'_, '_> {
    /// Unpacks the rest into nothing.
    pub(super) fn skip(&mut self) -> Result<(), Refusal> {
        loop {
            let read = self.fill_buf().map_err(|error| unreadable(&error))?.len();
            if read == 0 {
                return Ok(());
            }
            self.consume(read);
        }
    }
}

impl BufRead for Part<'_, '_> {
    fn fill_buf(&mut self) -> IoResult<&[u8]> {
        if self.filled.is_empty() {
            let read = self.packed.read(&mut self.buffer)?;
            self.filled = 0..read;
            *self.left = self
                .left
                .checked_sub(read as u64)
                .ok_or_else(|| Error::other(TOO_LARGE))?;
            // An XML reader holds one run of text at a time: a part of spaces only must not fill the memory.
            let fresh = self.buffer.get(..read).unwrap_or_default();
            match fresh.iter().rposition(|byte| *byte == b'<') {
                Some(at) => self.run = read - at,
                None => self.run += read,
            }
            if self.run > self.longest_run {
                return Err(Error::other("a text longer than a cell can hold"));
            }
        }
        Ok(self.buffer.get(self.filled.clone()).unwrap_or_default())
    }

    fn consume(&mut self, amount: usize) {
        self.filled.start = (self.filled.start + amount).min(self.filled.end);
    }
}

impl Read for Part<'_, '_> {
    fn read(&mut self, into: &mut [u8]) -> IoResult<usize> {
        let read = self.fill_buf()?.read(into)?;
        self.consume(read);
        Ok(read)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::read::testing::zip;

    /// The limit runs over all parts together, whatever sizes the file declares.
    #[test]
    fn unpacking_ends_at_the_limit() {
        let rows = b"<row/>".repeat(100_000);
        let file = zip(&[("a.xml", &rows), ("b.xml", &rows)]);
        assert!(file.len() < 10_000);
        let outcome = |most: u64| {
            Package::open_within(&file, most)
                .and_then(Package::measure)
                .map_err(|(found, _)| found)
        };
        assert_eq!(outcome(1_200_000), Ok(()));
        assert_eq!(
            outcome(1_199_999),
            Err("unpacks to more than 1536 MiB".to_string())
        );
        let mut package = Package::open_within(&file, 700_000).expect("it opens");
        let mut read = |name: &str| {
            let mut part = package.part(name).expect("it opens").expect("it is there");
            std::io::copy(&mut part, &mut std::io::sink()).map_err(|error| unreadable(&error).0)
        };
        assert_eq!(read("A.XML"), Ok(600_000));
        assert_eq!(
            read("/b.xml"),
            Err("unpacks to more than 1536 MiB".to_string())
        );
    }

    /// A run of one text is held in memory at once.
    #[test]
    fn a_part_without_tags_is_refused() {
        let file = zip(&[("a.xml", &vec![b' '; LONGEST_RUN + 70_000])]);
        let mut package = Package::open(&file).expect("it opens");
        let mut part = package
            .part("a.xml")
            .expect("it opens")
            .expect("it is there");
        assert!(std::io::copy(&mut part, &mut std::io::sink()).is_err());
    }
}
