//! Row heights that programs may fit anew. The writer marks every height as set by hand; such a height stays where it is when
//! rows are sorted, and long texts then stand in low rows. Without the mark a program takes the height as its own and fits it.

use std::io::{BufRead, BufReader, Read, Seek, Write};
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

/// The mark of a height set by hand (ECMA-376, 18.3.1.73).
const BY_HAND: &[u8] = b" customHeight=\"1\"";
/// As the other parts of the workbook are packed.
const COMPRESSION: i64 = 1;

/// Copies a workbook without the marks of its rows' heights; everything else stays as it is.
///
/// # Errors
/// When it is no workbook, or cannot be read or written.
pub fn copy(workbook: impl Read + Seek, to: impl Write) -> std::io::Result<()> {
    let mut parts = ZipArchive::new(BufReader::new(workbook))?;
    let mut copy = ZipWriter::new_stream(to);
    for at in 0..parts.len() {
        let part = parts.by_index(at)?;
        let name = part.name()?.into_owned();
        if !name.starts_with("xl/worksheets/sheet") {
            copy.raw_copy_file(part)?;
            continue;
        }
        let options = SimpleFileOptions::default()
            .compression_method(CompressionMethod::Deflated)
            .compression_level(Some(COMPRESSION))
            .last_modified_time(part.last_modified().unwrap_or_default())
            .large_file(part.size() >= u64::from(u32::MAX));
        copy.start_file(name, options)?;
        unmark(BufReader::new(part), &mut copy)?;
    }
    copy.finish()?;
    Ok(())
}

/// Copies a sheet tag by tag. No text holds a `<`, so what begins with `<row` is a row.
fn unmark(mut sheet: impl BufRead, to: &mut impl Write) -> std::io::Result<()> {
    let mut piece = Vec::new();
    while sheet.read_until(b'>', &mut piece)? > 0 {
        let tag = piece.iter().rposition(|byte| *byte == b'<').unwrap_or(0);
        let (before, tag) = piece.split_at(tag);
        to.write_all(before)?;
        let mark = tag
            .windows(BY_HAND.len())
            .position(|window| window == BY_HAND)
            .filter(|_| tag.starts_with(b"<row "));
        match mark.and_then(|at| Some((tag.get(..at)?, tag.get(at + BY_HAND.len()..)?))) {
            Some((front, rest)) => {
                to.write_all(front)?;
                to.write_all(rest)?;
            }
            None => to.write_all(tag)?,
        }
        piece.clear();
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn only_rows_lose_the_mark() {
        let sheet = "<sheetFormatPr customHeight=\"1\"/><row r=\"1\" ht=\"24\" customHeight=\"1\"><c><is><t>row > \
            customHeight=\"1\" & more</t></is></c></row><row r=\"2\"/>tail";
        let mut copied = Vec::new();
        unmark(sheet.as_bytes(), &mut copied).expect("written to memory");
        let expected = sheet.replace("ht=\"24\" customHeight=\"1\"", "ht=\"24\"");
        assert_eq!(String::from_utf8(copied).expect("text"), expected);
    }
}
