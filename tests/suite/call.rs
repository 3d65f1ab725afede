//! What a call reads and writes: no file lost in silence, none overwritten that is needed, two of one name kept apart.

use crate::helper::{audit_in, codes, dockheft, lines, parsed, said, status};
use std::path::Path;
use std::process::Output;
use tempfile::TempDir;

/// A light line, so that each call has something to say.
const LIGHT: &str = "Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\nSteel block,1,24,12,12,490\n";
const FLEET: &str = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Available,Inspection due\nA,V,5000,24,160,yes,2027-06-01\n";

fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    write(folder.path(), "light.csv", LIGHT);
    write(folder.path(), "fleet.csv", FLEET);
    folder
}

fn write(folder: &Path, name: &str, text: &str) {
    let path = folder.join(name);
    std::fs::create_dir_all(path.parent().expect("a folder")).expect("a folder");
    std::fs::write(path, text).expect("a file");
}

fn text(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

#[test]
fn a_report_never_takes_the_place_of_what_the_call_needs() {
    let folder = folder();
    write(folder.path(), "yard.toml", "fleet = \"fleet.csv\"\n");
    let names = ["light.csv", "fleet.csv", "yard.toml"];
    let before = names.map(|name| std::fs::read(folder.path().join(name)).expect("a file"));
    let base = ["light.csv", "--site", "yard.toml"];
    let cases: [&[&str]; 6] = [
        &["--out", "light.csv"],
        &["--out", "./fleet.csv"],
        &["--out", "yard.toml"],
        &["--out", "out.xlsx", "--lines", "light.csv"],
        &["--out", "out.xlsx", "--lines", "fleet.csv"],
        &["--out", "out.xlsx", "--lines", "./out.xlsx"],
    ];
    for args in cases {
        let output = audit_in(folder.path(), &[&base, args].concat());
        assert_eq!(status(&output), 3, "{args:?}: {}", said(&output));
        assert!(
            said(&output).contains("is needed for this audit"),
            "{args:?}"
        );
        assert!(!folder.path().join("out.xlsx").exists(), "{args:?}");
    }
    let after = names.map(|name| std::fs::read(folder.path().join(name)).expect("a file"));
    assert_eq!(before, after);
}

/// Decisions stand in the workbook of the morning: a second audit of the day does not wipe them out.
#[test]
fn the_default_workbook_gets_a_number_and_a_named_one_is_replaced() {
    let folder = folder();
    for name in ["", "-2", "-3"] {
        audit_in(folder.path(), &["light.csv", "--quiet"]);
        let book = format!("reports/exceptions-2026-11-25{name}.xlsx");
        assert!(folder.path().join(&book).is_file(), "{book}");
    }
    write(folder.path(), "out.xlsx", "an older one");
    audit_in(folder.path(), &["light.csv", "--out", "out.xlsx"]);
    let book = std::fs::read(folder.path().join("out.xlsx")).expect("a workbook");
    assert!(book.starts_with(b"PK"));
}

#[test]
fn what_a_folder_holds_besides_is_named() {
    let folder = folder();
    write(folder.path(), "morning/a.csv", LIGHT);
    write(folder.path(), "morning/scan.pdf", "%PDF");
    write(folder.path(), "morning/late/b.csv", LIGHT);
    write(
        folder.path(),
        "morning/page.html",
        "<table><tr><th>Description<th>Qty<th>Weight (kg)<tr><td>Pump<td>1<td>90</table>",
    );
    audit_in(folder.path(), &["light.csv", "--out", "morning/out.xlsx"]);
    let output = audit_in(folder.path(), &["morning", "--json", "--out", "out.xlsx"]);
    let files: Vec<String> = lines(parsed(&output.stdout))
        .iter()
        .map(|line| line["file"].as_str().unwrap_or_default().to_string())
        .collect();
    assert_eq!(files, ["a.csv", "page.html"], "{}", said(&output));
    for left_out in [
        "scan.pdf (no spreadsheet)",
        "late (a folder; name it to have it read)",
        "out.xlsx (our own workbook)",
    ] {
        assert!(said(&output).contains(left_out), "{}", said(&output));
    }
    // It is no delivery, so a new one may take its place.
    let again = audit_in(folder.path(), &["morning", "--out", "morning/out.xlsx"]);
    assert_eq!(status(&again), 1, "{}", said(&again));
    // Nothing is refused, and named by itself our own workbook is.
    assert_eq!(status(&output), 1, "{}", said(&output));
    let output = audit_in(folder.path(), &["morning/out.xlsx", "--out", "out.xlsx"]);
    assert_eq!(status(&output), 3);
    assert!(text(&output).contains("give the supplier's list"));
}

#[test]
fn two_files_of_one_name_are_kept_apart() {
    let folder = folder();
    write(folder.path(), "one/list.csv", LIGHT);
    write(folder.path(), "two/list.csv", &LIGHT.replace("490", "480"));
    write(folder.path(), "three/list.csv", "nothing of use\n");
    let ids = |files: &[&str]| -> Vec<String> {
        let args = [files, &["--json", "--quiet", "--out", "out.xlsx"]].concat();
        lines(parsed(&audit_in(folder.path(), &args).stdout))
            .iter()
            .map(|line| line["line"].as_str().unwrap_or_default().to_string())
            .collect()
    };
    let both = ids(&["one/list.csv", "two/list.csv", "one/list.csv"]);
    assert!(
        both.len() == 3 && both[0] != both[1] && both[0] != both[2] && both[1] != both[2],
        "{both:?}"
    );
    assert_eq!(both[..2], ids(&["one/list.csv", "two/list.csv"]));
    // A list corrected and sent again under its name keeps its ids.
    assert_eq!(ids(&["one/list.csv"]), ids(&["two/list.csv"]));
    // The table of one does not stand in for that which the other lacks.
    let output = audit_in(
        folder.path(),
        &["one/list.csv", "three/list.csv", "--out", "out.xlsx"],
    );
    assert_eq!(status(&output), 3, "{}", text(&output));
}

#[test]
fn units_change_what_people_see_and_nothing_else() {
    let folder = folder();
    write(
        folder.path(),
        "bare.csv",
        "Description,Qty,Length,Width,Height,Weight\nSteel block,1,60,40,40,\nSteel block,1,60,40,40,750\nParts,2,,,,100\n",
    );
    let sizes = |args: &[&str]| {
        let output = audit_in(
            folder.path(),
            &[
                &["bare.csv", "--json", "--quiet", "--out", "out.xlsx"],
                args,
            ]
            .concat(),
        );
        let seen = |line: &serde_json::Value| {
            let fields = ["size", "declared", "planning", "verdict"];
            fields.map(|field| line[field].to_string())
        };
        lines(parsed(&output.stdout))
            .iter()
            .map(seen)
            .collect::<Vec<_>>()
    };
    assert_eq!(sizes(&["--units", "us"]), sizes(&[]));
    assert_eq!(sizes(&["--units", "si"]), sizes(&[]));
    let read = |units: &str| {
        let output = dockheft(
            folder.path(),
            &["understand", "bare.csv", "--json", "--units", units],
        );
        parsed(&output.stdout)[0]["reading"].clone()
    };
    assert_eq!(read("us"), read("si"));
    // Shown in pounds all the same.
    let shown = audit_in(
        folder.path(),
        &[
            "light.csv",
            "--fleet",
            "fleet.csv",
            "--units",
            "us",
            "--out",
            "out.xlsx",
        ],
    );
    assert!(
        text(&shown).contains(" lb") && !text(&shown).contains(" kg"),
        "{}",
        text(&shown)
    );
}

/// A clerk who reads only records must see that the line is not liftable.
#[test]
fn whatever_is_held_is_a_stop_in_the_records() {
    let folder = folder();
    write(
        folder.path(),
        "bare.csv",
        "Description,Qty,Length,Width,Height,Weight\nConcrete block,1,60,40,40,\n",
    );
    let output = audit_in(
        folder.path(),
        &[
            "bare.csv",
            "--fleet",
            "fleet.csv",
            "--json",
            "--quiet",
            "--out",
            "out.xlsx",
        ],
    );
    let line = lines(parsed(&output.stdout)).remove(0);
    assert_eq!(line["truck"]["id"], "A", "{line}");
    let stops: Vec<&str> = line["findings"]
        .as_array()
        .into_iter()
        .flatten()
        .filter(|finding| finding["severity"] == "stop")
        .filter_map(|finding| finding["code"].as_str())
        .collect();
    assert_eq!(
        (stops, codes(&line).contains(&"held")),
        (vec!["held"], true)
    );
}

#[cfg(unix)]
#[test]
fn a_files_name_does_not_steer_the_terminal_and_is_refused_once() {
    let folder = folder();
    let name = "a\u{1b}[2Jb.csv";
    for quiet in [&[][..], &["--quiet"]] {
        let output = audit_in(
            folder.path(),
            &[&[name, "--out", "out.xlsx"], quiet].concat(),
        );
        let all = text(&output) + &said(&output);
        assert!(!all.contains('\u{1b}'), "{all:?}");
        assert_eq!(all.matches("cannot be opened").count(), 1, "{all}");
    }
    let output = dockheft(folder.path(), &["understand", name]);
    assert!(!said(&output).contains('\u{1b}'), "{}", said(&output));
}
