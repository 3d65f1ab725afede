//! Files that cannot be audited: each is refused with what was found and what to do, and the others are still audited.

use crate::helper::{audit_in, lines, parsed, said, status};
use rust_xlsxwriter::Workbook;
use std::path::Path;

const GOOD: &str = "Description,Qty,Total weight (lb)\nW12x26 x 20 ft,1,520\n";
const MIB: u64 = 1024 * 1024;

/// The smallest compound file (header, one sector of allocation table, one of directory) with the stream of an encrypted
/// workbook; layout after the open specification of compound files, version 3.
fn encrypted() -> Vec<u8> {
    const FREE: u32 = 0xFFFF_FFFF;
    const END: u32 = 0xFFFF_FFFE;
    const TABLE: u32 = 0xFFFF_FFFD;
    let mut header = vec![0; 512];
    let mut put = |at: usize, bytes: &[u8]| header[at..at + bytes.len()].copy_from_slice(bytes);
    put(0, &[0xD0, 0xCF, 0x11, 0xE0, 0xA1, 0xB1, 0x1A, 0xE1]);
    put(24, &[0x3E, 0, 3, 0, 0xFE, 0xFF, 9, 0, 6, 0]);
    for (at, value) in [(44, 1), (48, 1), (56, 4096), (60, END), (68, END), (76, 0)] {
        put(at, &u32::to_le_bytes(value));
    }
    put(80, &[0xFF; 432]);
    let table = [TABLE, END]
        .into_iter()
        .chain([FREE; 126])
        .flat_map(u32::to_le_bytes);
    let directory = [
        entry("Root Entry", 5, 1),
        entry("EncryptedPackage", 2, FREE),
        vec![0; 256],
    ]
    .concat();
    header.into_iter().chain(table).chain(directory).collect()
}

/// A directory entry: name, kind (5 root, 2 stream), first child; no siblings, no content.
fn entry(name: &str, kind: u8, child: u32) -> Vec<u8> {
    let mut entry = vec![0; 128];
    let name: Vec<u8> = name
        .encode_utf16()
        .chain([0])
        .flat_map(u16::to_le_bytes)
        .collect();
    entry[..name.len()].copy_from_slice(&name);
    entry[64] = name.len() as u8;
    entry[66] = kind;
    entry[67] = 1;
    entry[68..76].fill(0xFF);
    entry[76..80].copy_from_slice(&child.to_le_bytes());
    entry[116..120].copy_from_slice(&0xFFFF_FFFE_u32.to_le_bytes());
    entry
}

/// A workbook whose only visible sheet holds no table.
fn without_table() -> Vec<u8> {
    let mut book = Workbook::new();
    book.add_worksheet()
        .write_string(0, 0, "Please see the attached drawing")
        .expect("a cell");
    book.save_to_buffer().expect("a workbook")
}

/// Bytes that are refused: name, content, words of the refusal.
fn refused() -> Vec<(&'static str, Vec<u8>, &'static str)> {
    vec![
        ("empty.xlsx", Vec::new(), "is empty"),
        ("blank.csv", b" \r\n\t\n".to_vec(), "is empty"),
        ("scan.xlsx", b"%PDF-1.7\n1 0 obj\n".to_vec(), "is a PDF"),
        ("locked.xlsx", encrypted(), "is encrypted"),
        (
            "torn.xlsx",
            without_table().into_iter().take(900).collect(),
            "is not a workbook that can be read",
        ),
        (
            "photo.csv",
            b"\x89PNG\r\n\x1a\n0000".to_vec(),
            "is a picture",
        ),
    ]
}

/// Audits a good file beside the bad one and returns status, records and what was said.
fn beside_a_good_one(folder: &Path, bad: &str) -> (i32, usize, String) {
    std::fs::write(folder.join("good.csv"), GOOD).expect("a file");
    let output = audit_in(
        folder,
        &[bad, "good.csv", "--json", "--quiet", "--out", "out.xlsx"],
    );
    let good = lines(parsed(&output.stdout))
        .into_iter()
        .filter(|line| line["file"] == "good.csv")
        .count();
    (status(&output), good, said(&output))
}

#[test]
fn a_file_that_is_no_spreadsheet_is_refused_by_name() {
    for (name, content, words) in refused() {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join(name), content).expect("a file");
        let (status, good, said) = beside_a_good_one(folder.path(), name);
        assert_eq!((status, good), (3, 1), "{name}: {said}");
        assert!(
            said.contains(name) && said.contains(words),
            "{name}: {said}"
        );
        assert!(
            folder.path().join("out.xlsx").is_file(),
            "{name}: the others' workbook is written"
        );
    }
}

#[test]
fn a_missing_file_is_refused() {
    let folder = tempfile::tempdir().expect("a folder");
    let (status, good, said) = beside_a_good_one(folder.path(), "absent.xlsx");
    assert_eq!((status, good), (3, 1), "{said}");
    assert!(
        said.contains("absent.xlsx") && said.contains("check the name"),
        "{said}"
    );
}

#[test]
fn a_file_over_the_limit_is_refused_unread() {
    let folder = tempfile::tempdir().expect("a folder");
    let large = std::fs::File::create(folder.path().join("large.csv")).expect("a file");
    large.set_len(64 * MIB + 1).expect("a sparse file");
    let (status, good, said) = beside_a_good_one(folder.path(), "large.csv");
    assert_eq!((status, good), (3, 1), "{said}");
    assert!(
        said.contains("large.csv") && said.contains("64 MiB"),
        "{said}"
    );
}

#[test]
fn a_file_without_a_table_is_not_done() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("letter.xlsx"), without_table()).expect("a file");
    let (status, good, said) = beside_a_good_one(folder.path(), "letter.xlsx");
    assert_eq!((status, good), (3, 1), "{said}");
}

/// What a file is decides, not what it is called.
#[test]
fn a_text_named_xlsx_is_read_as_text() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("list.xlsx"), GOOD).expect("a file");
    let output = audit_in(
        folder.path(),
        &["list.xlsx", "--json", "--quiet", "--out", "out.xlsx"],
    );
    assert_eq!(lines(parsed(&output.stdout)).len(), 1, "{}", said(&output));
    assert_ne!(status(&output), 3);
}
