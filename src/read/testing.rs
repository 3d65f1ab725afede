//! Small files for the tests of this stage, made from their parts.

pub(super) mod xls;

use super::{RawFile, Value, bytes};
use std::io::{Cursor, Write};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

/// A zip file of parts.
pub(super) fn zip(parts: &[(&str, &[u8])]) -> Vec<u8> {
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in parts {
        writer
            .start_file(*name, SimpleFileOptions::default())
            .expect("a part begins");
        writer.write_all(content).expect("a part is written");
    }
    writer.finish().expect("the zip file ends").into_inner()
}

/// Relations of the package to its workbook, as spreadsheet programs write them.
pub(super) const ROOT: &str = r#"<Relationships><Relationship Id="r1" Type="urn:x/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>"#;
/// A workbook of one sheet, with its relations.
pub(super) const BOOK: &str =
    r#"<workbook><sheets><sheet name="List" sheetId="1" r:id="r1"/></sheets></workbook>"#;
/// Relations of the workbook to its parts.
pub(super) const RELATIONS: &str = r#"<Relationships><Relationship Id="r1" Type="urn:x/worksheet" Target="worksheets/sheet1.xml"/><Relationship Id="r2" Type="urn:x/sharedStrings" Target="sharedStrings.xml"/><Relationship Id="r3" Type="urn:x/styles" Target="styles.xml"/></Relationships>"#;

/// An xlsx file of one sheet, from the XML of the sheet, the shared texts and the styles.
pub(super) fn xlsx(sheet: &str, strings: &str, styles: &str) -> Vec<u8> {
    zip(&[
        ("_rels/.rels", ROOT.as_bytes()),
        ("xl/workbook.xml", BOOK.as_bytes()),
        ("xl/_rels/workbook.xml.rels", RELATIONS.as_bytes()),
        ("xl/sharedStrings.xml", strings.as_bytes()),
        ("xl/styles.xml", styles.as_bytes()),
        ("xl/worksheets/sheet1.xml", sheet.as_bytes()),
    ])
}

/// An ods file from the rows of its one sheet.
pub(super) fn ods(table: &str) -> Vec<u8> {
    let content = format!(
        "<office:document-content><office:body><office:spreadsheet><table:table table:name=\"List\">{table}</table:table></office:spreadsheet></office:body></office:document-content>"
    );
    zip(&[
        (
            "mimetype",
            b"application/vnd.oasis.opendocument.spreadsheet",
        ),
        ("content.xml", content.as_bytes()),
    ])
}

/// The cells of a file as text: `A1=Qty B1=4 | A2=...`, hidden rows with `-`, kinds of value by a sign in front: `'` for
/// text, `=` for a formula, `!` for an error, `@` for a date; further sheets behind `||`.
pub(super) fn shown(file: &RawFile) -> String {
    let sheet = |sheet: &super::Sheet| {
        let rows = sheet.rows.iter().map(|row| {
            let cells = row.cells.iter().map(|cell| {
                let kind = match &cell.value {
                    Value::Text(_) => "'",
                    Value::Error(_) => "!",
                    Value::Date(_) => "@",
                    _ => "",
                };
                format!(
                    "{}={kind}{}",
                    sheet.place(row.number, cell.column).cell(),
                    cell.value.text().replace('\n', "~")
                )
            });
            format!(
                "{}{}",
                if row.hidden { "-" } else { "" },
                cells.collect::<Vec<_>>().join(" ")
            )
        });
        rows.collect::<Vec<_>>().join(" | ")
    };
    file.sheets
        .iter()
        .map(sheet)
        .collect::<Vec<_>>()
        .join(" || ")
}

/// Reads bytes that must be readable.
#[track_caller]
pub(super) fn read(name: &str, content: &[u8]) -> RawFile {
    match bytes(name, content) {
        Ok(file) => file,
        Err((found, remedy)) => panic!("{name} {found}; {remedy}"),
    }
}

/// Reads bytes that must be refused, and gives what was found.
#[track_caller]
pub(super) fn refused(name: &str, content: &[u8]) -> String {
    match bytes(name, content) {
        Ok(file) => panic!("{name} was read as {}: {}", file.kind, shown(&file)),
        Err((found, _)) => found,
    }
}
