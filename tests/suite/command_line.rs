//! What the program says by its exit status: 0 clear, 1 exceptions, 2 wrong usage, 3 not done.

use crate::helper::{audit_in, dockheft, lines, parsed, said, status};
use std::path::Path;
use tempfile::TempDir;

/// A line whose weight, size and grouping are all stated, so that nothing is left to ask.
const CLEAR: &str = "Description,Qty,Pkgs,Pkg Type,Length (in),Width (in),Height (in),Total gross weight (lb)\n\
    Steel block,1,1,bundle,24,12,12,985\n";
/// The same line at half its weight.
const LIGHT: &str = "Description,Qty,Pkgs,Pkg Type,Length (in),Width (in),Height (in),Total gross weight (lb)\n\
    Steel block,1,1,bundle,24,12,12,490\n";
const FLEET: &str = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Available,Inspection due\nA,V,5000,24,160,yes,2027-06-01\n";

/// A folder with a clear and a light delivery, and a sound register.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in [
        ("clear.csv", CLEAR),
        ("light.csv", LIGHT),
        ("fleet.csv", FLEET),
    ] {
        write(folder.path(), name, text);
    }
    folder
}

fn write(folder: &Path, name: &str, text: &str) {
    std::fs::write(folder.join(name), text).expect("a file");
}

#[test]
fn the_worst_of_the_call_is_the_status() {
    let folder = folder();
    let cases: [(&[&str], i32); 8] = [
        (&["clear.csv", "--fleet", "fleet.csv"], 0),
        (&["light.csv", "--fleet", "fleet.csv"], 1),
        (&["clear.csv", "light.csv", "--fleet", "fleet.csv"], 1),
        // Without a register no truck is named, and that is to be settled.
        (&["clear.csv"], 1),
        (&["absent.csv", "clear.csv", "--fleet", "fleet.csv"], 3),
        (&["absent.csv", "light.csv", "--fleet", "fleet.csv"], 3),
        (&["clear.csv", "--fleet", "absent.csv"], 3),
        (&["clear.csv", "--site", "absent.toml"], 3),
    ];
    for (args, expected) in cases {
        let output = audit_in(folder.path(), &[args, &["--out", "out.xlsx"]].concat());
        assert_eq!(
            status(&output),
            expected,
            "{args:?}: {}{}",
            said(&output),
            String::from_utf8_lossy(&output.stdout)
        );
    }
}

#[test]
fn wrong_usage_is_2_and_nothing_is_written() {
    let folder = folder();
    let cases: [&[&str]; 6] = [
        &[],
        &["audit"],
        &["adit", "clear.csv"],
        &["audit", "clear.csv", "--unit", "us"],
        &["audit", "clear.csv", "--units", "imperial"],
        &["audit", "clear.csv", "--date", "25.11.2026"],
    ];
    for args in cases {
        let output = dockheft(folder.path(), args);
        assert_eq!(status(&output), 2, "{args:?}: {}", said(&output));
        assert!(!folder.path().join("reports").exists(), "{args:?}");
    }
}

#[test]
fn the_register_counts() {
    let folder = folder();
    // One broken row beside a sound truck: done, to be settled.
    write(
        folder.path(),
        "broken.csv",
        &format!("{FLEET}B,V,five thousand,24,160,yes,2027-06-01\n"),
    );
    let output = audit_in(
        folder.path(),
        &["clear.csv", "--fleet", "broken.csv", "--out", "out.xlsx"],
    );
    assert_eq!(status(&output), 1, "{}", said(&output));
    // No sound truck at all: not done.
    write(
        folder.path(),
        "none.csv",
        "Truck,Class,Capacity (lb),Load centre (in)\nB,V,five thousand,24\n",
    );
    let output = audit_in(
        folder.path(),
        &["clear.csv", "--fleet", "none.csv", "--out", "out.xlsx"],
    );
    assert_eq!(status(&output), 3, "{}", said(&output));
    write(
        folder.path(),
        "empty.csv",
        "Truck,Class,Capacity (lb),Load centre (in)\n",
    );
    let output = audit_in(
        folder.path(),
        &["clear.csv", "--fleet", "empty.csv", "--out", "out.xlsx"],
    );
    assert_eq!(status(&output), 3, "{}", said(&output));
}

#[test]
fn an_unknown_key_of_the_site_file_names_the_nearest() {
    let folder = folder();
    for (wrong, nearest) in [
        ("tolerence = 0.2", "tolerance"),
        ("lift_hight_m = 2.0", "lift_height_m"),
        ("flet = \"fleet.csv\"", "fleet"),
    ] {
        write(folder.path(), "site.toml", wrong);
        let output = audit_in(folder.path(), &["clear.csv"]);
        assert_eq!(status(&output), 3, "{wrong}");
        assert!(
            said(&output).contains(&format!("\"{nearest}\"")),
            "{wrong}: {}",
            said(&output)
        );
        assert!(!folder.path().join("reports").exists(), "{wrong}");
    }
}

/// The site file of this folder is taken, its register is relative to it, and `--units` beats it.
#[test]
fn the_site_file_of_the_folder_is_taken() {
    let folder = folder();
    write(
        folder.path(),
        "site.toml",
        "name = \"Marl Wharf\"\nunits = \"si\"\nfleet = \"fleet.csv\"\n",
    );
    let metric = audit_in(folder.path(), &["light.csv"]);
    let pounds = audit_in(folder.path(), &["light.csv", "--units", "us"]);
    let text = |output: &std::process::Output| String::from_utf8_lossy(&output.stdout).into_owned();
    assert!(
        text(&metric).contains(" kg") && !text(&metric).contains(" lb"),
        "{}",
        text(&metric)
    );
    assert!(text(&pounds).contains(" lb"), "{}", text(&pounds));
    assert!(
        folder
            .path()
            .join("reports/exceptions-2026-11-25.xlsx")
            .is_file()
    );
}

#[test]
fn options_of_output_are_accepted() {
    let folder = folder();
    let base = ["light.csv", "--fleet", "fleet.csv", "--out", "out.xlsx"];
    let run = |more: &[&str]| {
        let output = audit_in(folder.path(), &[&base, more].concat());
        assert_eq!(status(&output), 1, "{more:?}: {}", said(&output));
        output
    };
    let quiet = run(&["--quiet", "--no-ledger"]);
    assert_eq!(
        (quiet.stdout.len(), said(&quiet)),
        (0, String::new()),
        "quiet prints nothing but errors"
    );
    let json = run(&["--json"]);
    assert_eq!(lines(parsed(&json.stdout)).len(), 1);
    assert!(
        said(&json).contains("light.csv"),
        "text for people goes to standard error: {}",
        said(&json)
    );
    let dash = run(&["--lines", "-", "--quiet"]);
    assert_eq!(dash.stdout, json.stdout);
    let file = run(&["--lines", "lines.ndjson"]);
    assert_eq!(
        std::fs::read(folder.path().join("lines.ndjson")).expect("records"),
        json.stdout
    );
    assert!(
        String::from_utf8_lossy(&file.stdout).contains("light.csv"),
        "text for people stays on standard output"
    );
    let named = run(&[
        "--json",
        "--quiet",
        "--supplier",
        "Fennick Forge",
        "--delivery",
        "D-7",
    ]);
    let line = lines(parsed(&named.stdout)).remove(0);
    assert_eq!(
        (&line["supplier"], &line["supplier_from"], &line["delivery"]),
        (&"Fennick Forge".into(), &"option".into(), &"D-7".into())
    );
}

/// A folder stands for every spreadsheet in it; notes and lock files are left alone.
#[test]
fn a_folder_stands_for_its_spreadsheets() {
    let folder = folder();
    let deliveries = folder.path().join("deliveries");
    std::fs::create_dir(&deliveries).expect("a folder");
    for name in ["b.csv", "a.csv", "~$a.csv", "notes.md"] {
        write(&deliveries, name, CLEAR);
    }
    let output = audit_in(
        folder.path(),
        &[
            "deliveries",
            "--fleet",
            "fleet.csv",
            "--json",
            "--quiet",
            "--out",
            "out.xlsx",
        ],
    );
    let lines = lines(parsed(&output.stdout));
    let files: Vec<&str> = lines
        .iter()
        .filter_map(|line| line["file"].as_str())
        .collect();
    assert_eq!(
        (status(&output), files),
        (0, vec!["a.csv", "b.csv"]),
        "{}",
        said(&output)
    );
    std::fs::create_dir(folder.path().join("bare")).expect("a folder");
    let output = audit_in(folder.path(), &["bare", "--out", "out.xlsx"]);
    assert_eq!(status(&output), 3, "{}", said(&output));
}
