//! Nothing half-written is ever found: a report is whole or it is the one that was there before.

use crate::helper::{audit_in, said, status};
use std::path::Path;

const GOOD: &str = "Description,Qty,Total weight (lb)\nW12x26 x 20 ft,1,520\n";

/// Names in a folder, in order.
fn names(folder: &Path) -> Vec<String> {
    let entries = std::fs::read_dir(folder).expect("a folder");
    let mut names: Vec<String> = entries
        .map(|entry| {
            entry
                .expect("an entry")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    names.sort();
    names
}

#[test]
fn no_temporary_file_is_left() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("list.csv"), GOOD).expect("a file");
    let output = audit_in(
        folder.path(),
        &[
            "list.csv",
            "--no-ledger",
            "--lines",
            "lines.ndjson",
            "--out",
            "new/out.xlsx",
        ],
    );
    assert_eq!(status(&output), 1, "{}", said(&output));
    assert_eq!(names(folder.path()), ["lines.ndjson", "list.csv", "new"]);
    assert_eq!(names(&folder.path().join("new")), ["out.xlsx"]);
}

#[test]
fn an_older_report_is_replaced_whole() {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("list.csv"), GOOD).expect("a file");
    std::fs::write(folder.path().join("out.xlsx"), vec![b'x'; 1_000_000]).expect("a file");
    assert_eq!(
        status(&audit_in(folder.path(), &["list.csv", "--out", "out.xlsx"])),
        1
    );
    let written = std::fs::read(folder.path().join("out.xlsx")).expect("a workbook");
    assert!(
        written.starts_with(b"PK") && written.len() < 1_000_000,
        "{} bytes",
        written.len()
    );
}

/// The target is a folder with something in it: the rename fails at the last moment, after everything was written.
#[test]
fn a_report_that_cannot_be_written_leaves_everything_as_it_was() {
    for option in ["--out", "--lines"] {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("list.csv"), GOOD).expect("a file");
        let kept = folder.path().join("report");
        std::fs::create_dir(&kept).expect("a folder");
        std::fs::write(kept.join("kept"), "older").expect("a file");
        let mut args = vec!["list.csv", "--no-ledger", option, "report"];
        if option == "--lines" {
            args.extend(["--out", "out.xlsx"]);
        }
        let output = audit_in(folder.path(), &args);
        assert_eq!(status(&output), 3, "{option}: {}", said(&output));
        assert!(
            said(&output).contains("report"),
            "{option}: {}",
            said(&output)
        );
        assert_eq!(names(&kept), ["kept"], "{option}");
        let others: Vec<String> = names(folder.path())
            .into_iter()
            .filter(|name| name != "out.xlsx")
            .collect();
        assert_eq!(
            others,
            ["list.csv", "report"],
            "{option}: no temporary file is left"
        );
    }
}

/// A folder that may not be written: the report of yesterday stays.
#[cfg(unix)]
#[test]
fn an_older_report_stays_when_its_folder_is_read_only() {
    use std::os::unix::fs::PermissionsExt;
    let folder = tempfile::tempdir().expect("a folder");
    let reports = folder.path().join("reports");
    std::fs::create_dir(&reports).expect("a folder");
    std::fs::write(reports.join("out.xlsx"), "older").expect("a file");
    std::fs::write(folder.path().join("list.csv"), GOOD).expect("a file");
    std::fs::set_permissions(&reports, std::fs::Permissions::from_mode(0o555)).expect("read-only");
    // Whoever may write everywhere (root) cannot be refused: then the report is simply replaced.
    let refusable = std::fs::write(reports.join("probe"), "").is_err();
    let output = audit_in(folder.path(), &["list.csv", "--out", "reports/out.xlsx"]);
    std::fs::set_permissions(&reports, std::fs::Permissions::from_mode(0o755)).expect("writable");
    let content = std::fs::read(reports.join("out.xlsx")).expect("a report");
    if refusable {
        assert_eq!(
            (status(&output), content.as_slice()),
            (3, &b"older"[..]),
            "{}",
            said(&output)
        );
    } else {
        assert!(
            status(&output) == 1 && content.starts_with(b"PK"),
            "{}",
            said(&output)
        );
    }
}
