//! What the ledger knows when a list is audited again.

use super::{FLEET, HEADINGS, audited, folder, id, list, out, write};
use crate::helper::{audit_in, dockheft, lines, parsed, said, status};
use calamine::{Reader, Xlsx, open_workbook};
use chrono::NaiveDate;
use dockheft::audit::{Request, run};
use dockheft::error::Error;
use dockheft::history::History;
use dockheft::ledger::{Kept, Ledger, Stamp};
use dockheft::site::Site;
use rusqlite::Connection;
use serde_json::Value;
use std::path::Path;

#[track_caller]
pub fn decide(at: &Path, id: &str, more: &[&str]) {
    let args = ["decide", "--line", id, "--by", "J. Rook"];
    let output = dockheft(at, &[&args, more].concat());
    assert_eq!(status(&output), 0, "{}", said(&output));
}

/// The records of an audit of a list, with what was told on the terminal.
#[track_caller]
pub fn audit(at: &Path, list: &str, more: &[&str]) -> (Vec<Value>, String) {
    let output = audit_in(at, &[&[list, "--json"], more].concat());
    assert!(status(&output) < 2, "{}", said(&output));
    (parsed(&output.stdout), said(&output))
}

/// The line of an item.
#[track_caller]
pub fn line(records: &[Value], item: &str) -> Value {
    let found = records.iter().find(|record| record["item"] == item);
    found
        .unwrap_or_else(|| panic!("{item}: {records:?}"))
        .clone()
}

#[track_caller]
fn package(records: &[Value]) -> &Value {
    let mut all = records.iter();
    let found = all.find(|record| record["schema"] == "dockheft.package/1");
    found.expect("a package")
}

pub fn severity(line: &Value, code: &str) -> Value {
    let findings = line["findings"].as_array().expect("findings");
    let found = findings.iter().find(|finding| finding["code"] == code);
    found.map_or(Value::Null, |finding| finding["severity"].clone())
}

#[track_caller]
pub fn agrees(at: &Path) {
    let check = dockheft(at, &["ledger", "check", "--again"]);
    assert_eq!(status(&check), 0, "{}", out(&check));
    assert!(out(&check).contains(" 0 otherwise"), "{}", out(&check));
}

/// Weighed, audited again, weighed again: the plan follows, and every audit is repeated with what it knew.
#[test]
fn a_decided_line_is_planned_as_decided() {
    let folder = folder();
    let at = folder.path();
    let (first, _) = audit(at, "list.csv", &[]);
    let before = line(&first, "SB-2");
    assert_eq!(severity(&before, "declared-light"), "check");
    decide(
        at,
        before["line"].as_str().expect("an id"),
        &[
            "--as",
            "weighed",
            "--weight",
            "978 lb",
            "--evidence",
            "scale ticket 12",
        ],
    );
    // A second audit of the same bytes is another audit: it knows more.
    let (second, told) = audit(at, "list.csv", &["--out", "second.xlsx"]);
    let after = line(&second, "SB-2");
    assert_ne!(before["audit"], after["audit"]);
    assert_eq!(after["planning"]["from"], "weighed");
    // 978 lb of 0.45359237 kg.
    let kg = after["planning"]["line_kg"].as_f64().expect("a weight");
    assert!((kg - 978.0 * 0.453_592_37).abs() < 1e-9, "{kg}");
    assert_eq!(severity(&after, "declared-light"), "note");
    assert_eq!(severity(&after, "decided"), "note");
    let told: Vec<&str> = told.split_whitespace().collect();
    let told = told.join(" ");
    assert!(
        told.contains("decided: weighed, 978 lb for the whole load, by J. Rook on 20"),
        "{told}"
    );
    assert!(told.contains("(evidence: scale ticket 12)"), "{told}");
    // The manager finds it on the sheet of the exceptions, which somebody has decided.
    let mut book: Xlsx<_> = open_workbook(at.join("second.xlsx")).expect("a workbook");
    let sheet = book.worksheet_range("Exceptions").expect("the sheet");
    let mut cells = sheet.cells().map(|(_, _, cell)| cell.to_string());
    assert!(cells.any(|cell| cell.contains("decided: weighed, 978 lb")));
    // The other line is as it was.
    let [was, is] = [&first, &second].map(|records| line(records, "SB-1"));
    assert_eq!(was["planning"], is["planning"]);
    // It stands for the audit that used it too, and so does what comes after it.
    let open = dockheft(at, &["trace", "--decision", "open"]);
    assert_eq!(status(&open), 1, "{}", out(&open));
    audit(at, "list.csv", &[]);
    decide(
        at,
        after["line"].as_str().expect("an id"),
        &["--as", "use estimate"],
    );
    let (fourth, _) = audit(at, "list.csv", &[]);
    assert_eq!(line(&fourth, "SB-2")["planning"]["from"], "decided");
    agrees(at);
    // Without the ledger nothing is known.
    let (without, _) = audit(at, "list.csv", &["--no-ledger"]);
    let without = line(&without, "SB-2");
    assert_eq!(without["planning"], before["planning"]);
    assert_eq!(
        without["audit"], before["audit"],
        "the same audit as the first"
    );
}

/// The declared weight once accepted, the heaviest it could be is still what may be accepted.
#[test]
fn a_decision_on_a_decided_line_weighs_the_same() {
    let folder = folder();
    let at = folder.path();
    // No unit anywhere: it may be kilograms.
    let open = list(490).replace(" (lb)", "").replace(",985", ",");
    write(at, "list.csv", &open);
    let kg = |records: &[Value]| line(records, "SB-2")["planning"]["line_kg"].as_f64();
    let (records, _) = audit(at, "list.csv", &[]);
    let id = line(&records, "SB-2")["line"].clone();
    let id = id.as_str().expect("an id");
    let accept = || {
        decide(
            at,
            id,
            &["--as", "accept declared", "--evidence", "mill certificate"],
        )
    };
    accept();
    let (once, _) = audit(at, "list.csv", &[]);
    accept();
    let (twice, _) = audit(at, "list.csv", &[]);
    assert!(kg(&once).is_some());
    assert_eq!(kg(&once), kg(&twice));
    agrees(at);
}

#[test]
fn a_refused_line_is_held_and_says_by_whom() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let fits = id(at, "SB-1");
    decide(at, &fits, &["--as", "refused"]);
    let (records, told) = audit(at, "list.csv", &[]);
    let line = line(&records, "SB-1");
    assert_eq!(severity(&line, "held"), "stop");
    assert_eq!(line["planning"]["from"], "none");
    assert!(line["truck"].is_null(), "{line}");
    assert!(told.contains("refused by J. Rook on 20"), "{told}");
    agrees(at);
}

/// A decided weight is matched like any other: no truck, no lift.
#[test]
fn a_weight_above_every_truck_is_still_held() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let light = id(at, "SB-2");
    decide(
        at,
        &light,
        &[
            "--as",
            "weighed",
            "--weight",
            "9000 lb",
            "--evidence",
            "scale ticket 12",
        ],
    );
    let (records, _) = audit(at, "list.csv", &[]);
    let line = line(&records, "SB-2");
    assert_eq!(severity(&line, "no-truck"), "stop");
    assert!(line["truck"].is_null(), "{line}");
    assert!(FLEET.contains("A,V,5000"), "the strongest of the register");
}

/// Whoever sends other figures is asked again.
#[test]
fn a_decision_plans_no_other_list() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let light = id(at, "SB-2");
    decide(
        at,
        &light,
        &[
            "--as",
            "weighed",
            "--weight",
            "978 lb",
            "--evidence",
            "scale ticket 12",
        ],
    );
    for other in [
        list(490).replace(",985", ",984"),
        list(491),
        list(490).replace("Tarn Steel", "Marten Yard"),
    ] {
        write(at, "list.csv", &other);
        let (records, _) = audit(at, "list.csv", &[]);
        let line = line(&records, "SB-2");
        assert_eq!(line["planning"]["from"], "larger", "{line}");
        assert_eq!(severity(&line, "decided"), Value::Null);
    }
    agrees(at);
}

/// The pallet's weight, and a column in the wrong unit: what was decided for all of its lines is open no longer.
#[test]
fn packages_and_whole_columns_are_settled_too() {
    let folder = folder();
    let at = folder.path();
    let pallet = "Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n\
        \"Pallet 1 - 985 lb gross\",,,,,,\nSB-1,Steel block,1,24,12,12,\nSB-2,Steel block,1,24,12,12,\n";
    write(at, "list.csv", pallet);
    let (records, _) = audit(at, "list.csv", &[]);
    let planned = |records: &[Value]| package(records)["planning"]["from"].clone();
    assert_eq!(planned(&records), "larger");
    let all = parsed(&dockheft(at, &["trace", "--json"]).stdout);
    let of_package = all
        .iter()
        .find(|load| load["load"]["schema"] == "dockheft.package/1");
    let id = of_package.expect("a package")["id"]
        .as_str()
        .expect("an id");
    decide(
        at,
        id,
        &[
            "--as",
            "weighed",
            "--weight",
            "2000 lb",
            "--evidence",
            "scale ticket 12",
        ],
    );
    let (records, _) = audit(at, "list.csv", &[]);
    assert_eq!(planned(&records), "weighed");
    // 444.52 kg under a heading that says pounds: 2 ft3 of steel at 490 lb/ft3 (AISC Manual).
    let row = |at: u32| {
        let kg = 444.52 * f64::from(at) / 12.0;
        format!("D-2,Tarn Steel,PO 8,SB-{at},Steel block,1,24,12,{at},{kg:.1}\n")
    };
    let rows: String = (8..20).map(row).collect();
    write(at, "list.csv", &format!("{HEADINGS}{rows}"));
    let (records, _) = audit(at, "list.csv", &[]);
    assert_eq!(severity(&records[0], "column-contradicted"), "stop");
    let corrected = [
        "decide",
        "--delivery",
        "list",
        "--cause",
        "kg-lb",
        "--as",
        "supplier corrected",
        "--evidence",
        "letter of the mill",
        "--supplier",
        "Tarn Steel",
        "--by",
        "J. Rook",
    ];
    let output = dockheft(at, &corrected);
    assert_eq!(status(&output), 0, "{}", said(&output));
    let (records, _) = audit(at, "list.csv", &[]);
    assert_eq!(severity(&records[0], "column-contradicted"), "note");
    for line in lines(records) {
        assert_eq!(line["planning"]["from"], "decided", "{line}");
        assert!(line["truck"].is_object(), "{line}");
    }
    agrees(at);
}

/// A ledger of the version before is proven as it is; the first audit brings it to this one.
#[test]
fn a_ledger_of_the_version_before_goes_on() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let path = at.join("ledger.dockheft");
    Connection::open(&path)
        .and_then(|db| {
            db.execute_batch(
                "DROP INDEX load_by_substance; DROP TABLE history; DROP TABLE figure; DROP TABLE word; PRAGMA user_version = 1",
            )
        })
        .expect("as it was");
    agrees(at);
    let light = id(at, "SB-2");
    let version = || -> i64 {
        let db = Connection::open(&path).expect("it opens");
        db.query_row("PRAGMA user_version", [], |row| row.get(0))
            .expect("a version")
    };
    assert_eq!(version(), 1, "who reads changes nothing");
    decide(
        at,
        &light,
        &[
            "--as",
            "weighed",
            "--weight",
            "978 lb",
            "--evidence",
            "scale ticket 12",
        ],
    );
    let (records, _) = audit(at, "list.csv", &[]);
    assert_eq!(line(&records, "SB-2")["planning"]["from"], "weighed");
    assert!(version() > 1);
    agrees(at);
}

/// What was decided while an audit ran is in none of its plans: it is not recorded as if it knew.
#[test]
fn an_audit_that_a_decision_overtook_is_not_recorded() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let path = at.join("ledger.dockheft");
    let history = || {
        let ledger = Ledger::read(&path).expect("a ledger");
        ledger
            .history(&Default::default(), None)
            .expect("what it knows")
    };
    let append = |history: History| {
        let known_to = history.newest_decision;
        let audit = run(Request {
            files: Vec::new(),
            refused: Vec::new(),
            fleet: None,
            site: Site::default(),
            date: NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day"),
            supplier: None,
            delivery: None,
            history,
            progress: &|_| {},
        });
        let kept = Kept {
            known_to,
            ..Kept::default()
        };
        let mut ledger = Ledger::open(&path).expect("a ledger");
        ledger.append(&audit, &kept, &Stamp::now())
    };
    let before = history();
    decide(at, &id(at, "SB-2"), &["--as", "refused"]);
    let size = std::fs::read(&path).expect("a ledger").len();
    let overtaken = append(before).expect_err("it missed a decision");
    assert!(matches!(overtaken, Error::Overtaken { .. }), "{overtaken}");
    assert_eq!(std::fs::read(&path).expect("a ledger").len(), size);
    append(history()).expect("it knows");
}
