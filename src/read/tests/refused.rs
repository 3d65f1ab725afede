//! Files that are refused, in plain words, without taking the memory that they ask for.

use crate::read::testing::{BOOK, RELATIONS, ROOT, refused, xlsx, zip};

#[test]
fn files_of_other_kinds() {
    for (name, content, found) in [
        ("a.csv", &b""[..], "is empty"),
        ("a.csv", b"  \r\n\t\n", "is empty"),
        (
            "a.xlsx",
            b"%PDF-1.7",
            "is a PDF, not a spreadsheet that can be read",
        ),
        (
            "a.xlsx",
            b"\x89PNG\r\n",
            "is a picture, not a spreadsheet that can be read",
        ),
        (
            "a.xls",
            b"\x09\x08\x08\x00\x00\x05\x05\x00",
            "is a workbook of a kind from before 1997, not a spreadsheet that can be read",
        ),
        (
            "a.csv",
            b"\x1F\x8B\x08\x00",
            "is a packed file, not a spreadsheet that can be read",
        ),
        (
            "a.xml",
            b"<?xml version=\"1.0\"?><order/>",
            "is an XML file without a table",
        ),
    ] {
        assert_eq!(refused(name, content), found);
    }
    assert_eq!(
        refused("a.xlsx", &zip(&[("a.csv", b"1,2")])),
        "is a packed folder, not a spreadsheet"
    );
    assert!(
        refused(
            "a.xlsx",
            &zip(&[("word/document.xml", b"x"), ("xl/workbook.xml", b"x")])
        )
        .starts_with("is a text document")
    );
}

#[test]
fn damaged_workbooks() {
    let whole = xlsx(
        "<worksheet><sheetData/></worksheet>",
        "<sst/>",
        "<styleSheet/>",
    );
    assert!(refused("a.xlsx", &whole[..whole.len() / 2]).contains("cut short or damaged"));
    let broken = xlsx(
        "<worksheet><sheetData><row r='1'><c r='A1'><v>1</v",
        "<sst/>",
        "<styleSheet/>",
    );
    assert!(refused("a.xlsx", &broken).starts_with("is not a workbook that can be read"));
    let outside = xlsx(
        "<worksheet><sheetData><row r='1048577'><c><v>1</v></c></row></sheetData></worksheet>",
        "<sst/>",
        "<styleSheet/>",
    );
    assert!(refused("a.xlsx", &outside).contains("outside a spreadsheet's limits"));
    let missing = zip(&[
        ("_rels/.rels", ROOT.as_bytes()),
        ("xl/workbook.xml", BOOK.as_bytes()),
        ("xl/_rels/workbook.xml.rels", RELATIONS.as_bytes()),
    ]);
    assert!(refused("a.xlsx", &missing).contains("sheet \"List\" is missing"));
    let book = r#"<workbook><sheets><sheet name="A" r:id="r1"/><sheet name="B" r:id="r1"/></sheets></workbook>"#;
    let twice = zip(&[
        ("xl/workbook.xml", book.as_bytes()),
        ("xl/_rels/workbook.xml.rels", RELATIONS.as_bytes()),
        ("xl/worksheets/sheet1.xml", b"<worksheet/>"),
    ]);
    assert!(refused("a.xlsx", &twice).contains("two sheets share one part"));
}

/// Hazard 3: a sheet of spaces only. The running limit over all parts is tested beside its code.
#[test]
fn a_small_file_with_huge_content() {
    let sheet = format!("<worksheet>{}<sheetData/></worksheet>", " ".repeat(8 << 20));
    let file = xlsx(&sheet, "<sst/>", "<styleSheet/>");
    assert!(file.len() < 20_000);
    assert!(refused("a.xlsx", &file).contains("a text longer than a cell can hold"));
}

#[test]
fn too_many_parts() {
    let names: Vec<String> = (0..4_097).map(|index| format!("p{index}")).collect();
    let parts: Vec<(&str, &[u8])> = names.iter().map(|name| (name.as_str(), &b""[..])).collect();
    assert_eq!(refused("a.xlsx", &zip(&parts)), "has more than 4096 parts");
}

/// One long text that a million cells name.
#[test]
fn a_text_named_without_end() {
    let strings = format!("<sst><si><t>{}</t></si></sst>", "x".repeat(1 << 20));
    let cells = r#"<c t="s"><v>0</v></c>"#.repeat(1_000);
    let sheet = format!("<worksheet><sheetData><row>{cells}</row></sheetData></worksheet>");
    assert_eq!(
        refused("a.xlsx", &xlsx(&sheet, &strings, "<styleSheet/>")),
        "holds more than 512 MiB of text"
    );
}
