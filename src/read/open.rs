//! Opens a file by what it holds, not by its name.

use super::package::Package;
use super::{
    MOST_BYTES, RawFile, Reading, binary, compound, decode, html, long_texts, ods, text, xlsx,
    xml_2003,
};
use crate::error::Error;
use crate::hash;
use std::io::Read;
use std::path::Path;
use std::sync::Arc;

/// Why bytes could not be read: what was found and what to do.
pub(crate) type Refusal = (String, String);

/// Reads a file.
///
/// # Errors
/// [`Error::File`] when it is missing, too large, empty, encrypted, damaged or no spreadsheet.
pub fn file(path: &Path) -> Result<RawFile, Error> {
    with_bytes(path).map(|(file, _)| file)
}

/// Reads a file and gives its bytes too, as they were read.
///
/// # Errors
/// As [`file`].
pub fn with_bytes(path: &Path) -> Result<(RawFile, Vec<u8>), Error> {
    let refuse = |(found, remedy): Refusal| Error::File {
        file: path.to_path_buf(),
        found,
        remedy,
    };
    let content = content(path).map_err(refuse)?;
    let name = path
        .file_name()
        .map_or_else(|| path.to_string_lossy(), |name| name.to_string_lossy());
    let file = bytes(&name, &content).map_err(refuse)?;
    Ok((file, content))
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
pub fn bytes(name: &str, content: &[u8]) -> Result<RawFile, Refusal> {
    let file: Arc<str> = name.into();
    let sha256 = hash::sha256(content);
    let (kind, mut sheets, mut remarks) = match Kind::of(content)? {
        Kind::Package => package(&file, content)?,
        Kind::Compound => binary::read_xls(&file, content)?,
        Kind::Page => html::read(&file, content)?,
        Kind::PageWithParts => html::read_mime(&file, content)?,
        Kind::Xml2003 => xml_2003::read(&file, &decode::decode(content, None)?.0)?,
        Kind::FlatOpenDocument => ods::read_flat(&file, &decode::decode(content, None)?.0)?,
        Kind::Text => text::read(&file, content)?,
    };
    remarks.extend(long_texts::cut(&mut sheets));
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

/// Reads a zip file of parts by the parts that it holds.
fn package(file: &Arc<str>, content: &[u8]) -> Result<Reading, Refusal> {
    let mut package = Package::open(content)?;
    if package.has("content.xml") {
        return ods::read(file, &mut package);
    }
    match xlsx::workbook_part(&mut package)? {
        Some(part) if part.to_lowercase().ends_with(".bin") => binary::read_xlsb(file, content),
        Some(part) if package.has_folder("word/") || package.has_folder("ppt/") => Err((
            format!(
                "is a text document or a set of slides (its main part is {part}), not a spreadsheet"
            ),
            WANTED.to_string(),
        )),
        Some(part) => xlsx::read(file, content, &mut package, &part),
        None => Err((
            "is a packed folder, not a spreadsheet".to_string(),
            "unpack it and read the files in it".to_string(),
        )),
    }
}

const WANTED: &str = "ask the supplier for the list as xlsx, xls, ods or csv";

/// What the bytes are.
#[derive(Clone, Copy, Debug, PartialEq)]
enum Kind {
    /// A zip file: xlsx, xlsb, ods.
    Package,
    /// A compound file: xls, an encrypted workbook.
    Compound,
    /// A web page.
    Page,
    /// A web page with its parts in one file.
    PageWithParts,
    /// Spreadsheet XML of 2003.
    Xml2003,
    /// OpenDocument in one XML file.
    FlatOpenDocument,
    /// Anything else that decodes as text.
    Text,
}

/// Files that are told by their first bytes and cannot be read: the bytes, what it is, what to do.
const REFUSED: [(&[u8], &str, &str); 13] = [
    (b"%PDF", "a PDF", WANTED),
    (b"\x89PNG", "a picture", WANTED),
    (b"\xFF\xD8\xFF", "a picture", WANTED),
    (b"GIF8", "a picture", WANTED),
    (b"{\\rtf", "a text document", WANTED),
    (b"PK\x05\x06", "an empty packed folder", WANTED),
    (
        b"\x1F\x8B",
        "a packed file",
        "unpack it and read the file in it",
    ),
    (
        b"7z\xBC\xAF",
        "a packed folder",
        "unpack it and read the files in it",
    ),
    (
        b"Rar!",
        "a packed folder",
        "unpack it and read the files in it",
    ),
    // Workbooks from before 1995 begin with their first record (BOF of BIFF2 to BIFF5).
    (
        b"\x09\x00\x04\x00",
        "a workbook of a kind from before 1995",
        OLD,
    ),
    (
        b"\x09\x02\x06\x00",
        "a workbook of a kind from before 1995",
        OLD,
    ),
    (
        b"\x09\x04\x06\x00",
        "a workbook of a kind from before 1995",
        OLD,
    ),
    (
        b"\x09\x08\x08\x00",
        "a workbook of a kind from before 1997",
        OLD,
    ),
];

const OLD: &str = "open it in a spreadsheet program and save it as xlsx";

impl Kind {
    fn of(content: &[u8]) -> Result<Kind, Refusal> {
        if content.iter().all(u8::is_ascii_whitespace) {
            return Err((
                "is empty".into(),
                "ask the supplier to send it again".into(),
            ));
        }
        if content.starts_with(b"PK\x03\x04") {
            return Ok(Kind::Package);
        }
        if content.starts_with(&compound::SIGNATURE) {
            return Ok(Kind::Compound);
        }
        if let Some((_, what, remedy)) = REFUSED.iter().find(|(mark, ..)| content.starts_with(mark))
        {
            return Err((
                format!("is {what}, not a spreadsheet that can be read"),
                remedy.to_string(),
            ));
        }
        let head = decode::head(content).to_lowercase();
        let holds = |mark: &str| head.contains(mark);
        let mail = ["mime-version:", "from:", "content-type:"]
            .iter()
            .any(|field| head.starts_with(field));
        if mail && holds("boundary=") {
            return Ok(Kind::PageWithParts);
        }
        if head.starts_with('<') {
            if holds("office:document") {
                return Ok(Kind::FlatOpenDocument);
            }
            if holds("workbook")
                && holds("urn:schemas-microsoft-com:office:spreadsheet")
                && !holds("<html")
            {
                return Ok(Kind::Xml2003);
            }
            if ["<html", "<!doctype html", "<head", "<body", "<meta", "<tr"]
                .iter()
                .any(|mark| holds(mark))
            {
                return Ok(Kind::Page);
            }
        }
        if holds("<table") {
            return Ok(Kind::Page);
        }
        if head.starts_with("<?xml") {
            return Err((
                "is an XML file without a table".to_string(),
                WANTED.to_string(),
            ));
        }
        Ok(Kind::Text)
    }
}

/// The ending of the name, where it speaks of another kind of file than was found.
fn misleading_ending(name: &str, kind: &str) -> Option<String> {
    let ending = name.rsplit_once('.')?.1.to_lowercase();
    let same = match ending.as_str() {
        "xlsx" | "xlsm" => kind == "workbook (xlsx)",
        "xls" | "xlsb" | "ods" => kind == format!("workbook ({ending})"),
        "csv" | "tsv" | "txt" => kind.starts_with("text"),
        "htm" | "html" | "mht" | "mhtml" => kind.starts_with("html"),
        _ => true,
    };
    (!same).then_some(ending)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn endings_that_mislead_are_named() {
        for (name, kind, misleads) in [
            ("a.xls", "workbook (xls)", false),
            ("a.XLS", "html, windows-1252", true),
            ("a.xlsx", "workbook (xls)", true),
            ("a.xlsm", "workbook (xlsx)", false),
            ("a.csv", "workbook (xlsx)", true),
            ("a.xls", "text, UTF-8, tabs", true),
            ("a.txt", "text, UTF-8, tabs", false),
            ("a.dat", "text, UTF-8, tabs", false),
            ("a", "text, UTF-8, tabs", false),
        ] {
            assert_eq!(
                misleading_ending(name, kind).is_some(),
                misleads,
                "{name} as {kind}"
            );
        }
    }
}
