//! Opens a file by what it holds, not by its name.

use super::{MOST_BYTES, RawFile, text, workbook};
use crate::error::Error;
use sha2::{Digest, Sha256};
use std::io::Read;
use std::path::Path;
use std::sync::Arc;

/// Why bytes could not be read: what was found and what to do.
pub(super) type Refusal = (String, String);

/// Reads a file.
///
/// # Errors
/// [`Error::File`] when it is missing, too large, empty, encrypted, damaged or no spreadsheet.
pub fn file(path: &Path) -> Result<RawFile, Error> {
    let refuse = |(found, remedy): Refusal| Error::File {
        file: path.to_path_buf(),
        found,
        remedy,
    };
    let content = content(path).map_err(refuse)?;
    let name = path
        .file_name()
        .map_or_else(|| path.to_string_lossy(), |name| name.to_string_lossy());
    bytes(&name, &content).map_err(refuse)
}

fn content(path: &Path) -> Result<Vec<u8>, Refusal> {
    let unreadable = |error: std::io::Error| {
        let remedy = match error.kind() {
            std::io::ErrorKind::NotFound => "check the name and the folder",
            std::io::ErrorKind::PermissionDenied => {
                "ask for the right to read it, or copy it to a folder of your own"
            }
            _ => "copy it to this computer and try again",
        };
        (format!("cannot be opened ({error})"), remedy.to_string())
    };
    let opened = std::fs::File::open(path).map_err(unreadable)?;
    let size = opened.metadata().map_err(unreadable)?.len();
    if size > MOST_BYTES {
        return Err(too_large(size));
    }
    let mut content = Vec::new();
    // The size on disk may be wrong for pipes and growing files: the limit holds for what is really read.
    opened
        .take(MOST_BYTES + 1)
        .read_to_end(&mut content)
        .map_err(unreadable)?;
    if content.len() as u64 > MOST_BYTES {
        return Err(too_large(content.len() as u64));
    }
    Ok(content)
}

fn too_large(size: u64) -> Refusal {
    (
        format!(
            "is {} MiB large, more than the {} MiB that are read",
            size.div_ceil(1024 * 1024),
            MOST_BYTES / 1024 / 1024
        ),
        "split it, or save only the sheet with the delivery".to_string(),
    )
}

/// Reads a file's bytes. `name` is the file's name without folders; it never decides what the bytes are.
///
/// # Errors
/// What was found and what to do, when the bytes are no readable spreadsheet.
pub fn bytes(name: &str, content: &[u8]) -> Result<RawFile, (String, String)> {
    let file: Arc<str> = name.into();
    let sha256 = Sha256::digest(content)
        .iter()
        .map(|byte| format!("{byte:02x}"))
        .collect();
    let (kind, sheets, mut remarks) = match Kind::of(content)? {
        Kind::Workbook => workbook::read(&file, content)?,
        Kind::Text => text::read(&file, content)?,
    };
    if let Some(ending) = misleading_ending(name, &kind) {
        remarks.push(format!(
            "the name ends in .{ending}, the content is {kind}: read as what it is"
        ));
    }
    Ok(RawFile {
        name: file,
        sha256,
        kind,
        sheets,
        remarks,
    })
}

enum Kind {
    /// A zip or compound file: xlsx, ods, xls.
    Workbook,
    /// Anything that decodes as text.
    Text,
}

impl Kind {
    fn of(content: &[u8]) -> Result<Kind, Refusal> {
        const ZIP: &[u8] = b"PK\x03\x04";
        const COMPOUND: &[u8] = &[0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1];
        if content.iter().all(u8::is_ascii_whitespace) {
            return Err((
                "is empty".into(),
                "ask the supplier to send it again".into(),
            ));
        }
        if content.starts_with(ZIP) || content.starts_with(COMPOUND) {
            return Ok(Kind::Workbook);
        }
        for (mark, what) in [
            (&b"%PDF"[..], "a PDF"),
            (b"\x89PNG", "a picture"),
            (b"\xFF\xD8\xFF", "a picture"),
            (b"{\\rtf", "a text document"),
        ] {
            if content.starts_with(mark) {
                return Err((
                    format!("is {what}, not a spreadsheet"),
                    "ask the supplier for the list as xlsx, xls, ods or csv".into(),
                ));
            }
        }
        Ok(Kind::Text)
    }
}

/// The ending of the name, where it speaks of another kind of file than was found.
fn misleading_ending(name: &str, kind: &str) -> Option<String> {
    let ending = name.rsplit_once('.')?.1.to_lowercase();
    let expected = match ending.as_str() {
        "xlsx" | "xlsm" | "xls" | "xlsb" | "ods" => "workbook",
        "csv" | "tsv" | "txt" => "text",
        _ => return None,
    };
    let same =
        kind.starts_with(expected) && (expected == "text" || kind.contains(&format!("({ending})")));
    (!same && ending != "xlsm").then_some(ending)
}
