//! The demo at Kestrel Junction against its own list of slips: every one found, no honest line accused.

use crate::helper::{audit_in, codes, lines, parsed, truck};
use serde_json::Value;
use std::path::{Path, PathBuf};

fn demo() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kestrel-junction")
}

/// One row of expected.csv.
struct Expected {
    place: (String, String, u64),
    description: String,
    slip: String,
    expect: String,
    true_kg: f64,
}

fn expected() -> Vec<Expected> {
    let mut reader =
        csv::Reader::from_path(demo().join("expected.csv")).expect("the list of slips");
    let rows = reader.records().map(|record| {
        let record = record.expect("a row");
        let cell = |at: usize| record.get(at).unwrap_or_default().to_string();
        Expected {
            place: (cell(0), cell(1), cell(2).parse().expect("a row number")),
            description: cell(3),
            true_kg: cell(5).parse().expect("a weight"),
            slip: cell(6),
            expect: cell(7),
        }
    });
    rows.collect()
}

/// The records of the demo's morning.
fn morning() -> Vec<Value> {
    let out = tempfile::tempdir().expect("a folder");
    let book = out.path().join("out.xlsx");
    let output = audit_in(
        &demo(),
        &[
            "deliveries",
            "--json",
            "--quiet",
            "--no-ledger",
            "--out",
            &book.to_string_lossy(),
        ],
    );
    assert_eq!(crate::helper::status(&output), 1, "the demo has exceptions");
    parsed(&output.stdout)
}

fn place(line: &Value) -> (String, String, u64) {
    let text = |key: &str| line[key].as_str().unwrap_or_default().to_string();
    (
        text("file"),
        text("sheet"),
        line["row"].as_u64().unwrap_or_default(),
    )
}

/// Each row of expected.csv with its record.
fn pairs() -> Vec<(Expected, Value)> {
    let lines = lines(morning());
    let expected = expected();
    assert_eq!(
        lines.len(),
        expected.len(),
        "one record a row of expected.csv"
    );
    let pair = |row: Expected| {
        let line = lines.iter().find(|line| place(line) == row.place).cloned();
        let line = line.unwrap_or_else(|| panic!("no record of {:?}", row.place));
        (row, line)
    };
    expected.into_iter().map(pair).collect()
}

/// One line of a list of faults.
fn fault(row: &Expected, line: &Value) -> String {
    format!(
        "{:?} {}: expected {}, found {} {:?}",
        row.place,
        row.description,
        row.expect,
        line["verdict"],
        codes(line)
    )
}

#[test]
fn every_slip_is_found() {
    let mut faults = Vec::new();
    let mut slips = 0;
    for (row, line) in pairs() {
        let found = match row.expect.as_str() {
            "clean" => continue,
            "no-truck" | "gross-below-net" => codes(&line).contains(&row.expect.as_str()),
            verdict => line["verdict"] == verdict,
        };
        slips += 1;
        if !found {
            faults.push(fault(&row, &line));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
    assert_eq!(
        slips, 16,
        "eleven slips, one load for no truck, four that nothing can check"
    );
}

#[test]
fn no_honest_line_is_accused() {
    let mut faults = Vec::new();
    for (row, line) in pairs().iter().filter(|(row, _)| row.expect == "clean") {
        let accused = ["light", "heavy", "impossible", "missing"]
            .iter()
            .any(|verdict| line["verdict"] == *verdict);
        let stopped = line["findings"]
            .as_array()
            .into_iter()
            .flatten()
            .any(|finding| finding["severity"] == "stop");
        if accused || stopped {
            faults.push(fault(row, line));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// How the fifty-five lines stand, each count with its reason.
#[test]
fn the_counts_of_the_morning() {
    let lines = lines(morning());
    let counted = |verdict: &str| {
        lines
            .iter()
            .filter(|line| line["verdict"] == verdict)
            .count()
    };
    // Thirty-nine clean, the buffer stop that no truck lifts, and the drums whose net and gross are exchanged.
    assert_eq!(counted("consistent"), 41);
    // W8x31, HSS6x6x3/8, PL 1 x 48, UPN 200, treated posts.
    assert_eq!(counted("light"), 5);
    // Seamless pipe declared as solid bar: no box is known for a pipe, so it is heavy and not impossible.
    assert_eq!(counted("heavy"), 1);
    // Aluminium at the weight of steel, trough lid at ten times its weight.
    assert_eq!(counted("impossible"), 2);
    // Manhole ring "TBA", plywood left blank.
    assert_eq!(counted("missing"), 2);
    // Two outlines, two lines without a size.
    assert_eq!(counted("unverifiable"), 4);
    assert_eq!(lines.len(), 55);
}

/// Whatever was declared, the truck named for a lift carries its true weight; the buffer stop gets none.
#[test]
fn no_truck_is_named_that_the_true_weight_would_overload() {
    let mut faults = Vec::new();
    for (row, line) in pairs() {
        let lifts = line["lifts"].as_f64().expect("a number of lifts").max(1.0);
        if line["truck"]["capacity_kg"]
            .as_f64()
            .is_some_and(|capacity| row.true_kg / lifts > capacity)
        {
            faults.push(format!("{} true {} kg", fault(&row, &line), row.true_kg));
        }
        if row.expect == "no-truck" {
            assert_eq!(truck(&line), None, "{}", row.description);
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The slip is what the record names as the likely cause.
#[test]
fn the_cause_of_each_slip_is_named() {
    let mut faults = Vec::new();
    for (row, line) in pairs().iter().filter(|(row, _)| !row.slip.is_empty()) {
        let causes: Vec<&str> = line["findings"]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(|finding| finding["cause"]["kind"].as_str())
            .collect();
        let messages: Vec<&str> = line["findings"]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(|finding| finding["message"].as_str())
            .collect();
        if !causes.contains(&row.slip.as_str()) {
            faults.push(format!(
                "{} causes {causes:?}, expected {}: {messages:?}",
                fault(row, line),
                row.slip
            ));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
