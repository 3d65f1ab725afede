//! The same bytes under another name, in another call: what was decided on them stands, or it is said that it does not.

use super::known::{agrees, audit, decide, line, severity};
use super::{FLEET, folder, write};
use crate::helper::{LB, audit_in, dockheft, parsed, said, status};
use serde_json::Value;
use std::path::Path;

/// No supplier and no delivery of its own: the call and the file's name give both.
const PUMPS: &str = "Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n\
    SB-1,Steel block,1,24,12,12,985\nSB-2,Steel block,1,24,12,12,490\n\
    \"Pallet 1 - 985 lb gross\",,,,,,\nSB-3,Steel block,1,12,12,12,\nSB-4,Steel block,1,12,12,12,\n";
const CODE: &str = "decision-not-taken-up";

/// A folder with a list on which one line is refused, one is weighed and a package is decided.
#[track_caller]
fn decided(at: &Path) {
    write(at, "fleet.csv", FLEET);
    write(at, "list.csv", PUMPS);
    let (first, _) = audit(at, "list.csv", &["--supplier", "Tarn Steel"]);
    let id = |item: &str| line(&first, item)["line"].clone();
    decide(
        at,
        id("SB-1").as_str().expect("an id"),
        &["--as", "refused"],
    );
    let weighed = [
        "--as",
        "weighed",
        "--weight",
        "978 lb",
        "--evidence",
        "scale ticket 12",
    ];
    decide(at, id("SB-2").as_str().expect("an id"), &weighed);
    let all = parsed(&dockheft(at, &["trace", "--json"]).stdout);
    let package = all
        .iter()
        .find(|load| load["load"]["schema"] == "dockheft.package/1");
    let package = package.expect("a package")["id"].as_str().expect("an id");
    decide(at, package, &["--as", "use estimate"]);
}

/// What `trace` tells of the loads of the last audit: item and decision.
fn traced(at: &Path) -> Vec<(String, String)> {
    let all = parsed(&dockheft(at, &["trace", "--json"]).stdout);
    let word = |value: &Value| value.as_str().unwrap_or("none").to_string();
    let told = |load: &Value| {
        (
            word(&load["load"]["item"]),
            word(&load["decision"]["decision"]),
        )
    };
    all.iter().take(5).map(told).collect()
}

#[track_caller]
fn stands(at: &Path, records: &[Value], what: &str) {
    let [refused, weighed] = ["SB-1", "SB-2"].map(|item| line(records, item));
    assert_eq!(refused["truck"], Value::Null, "{what}");
    assert_eq!(severity(&refused, "held"), "stop", "{what}");
    let kg = weighed["planning"]["line_kg"].as_f64().expect("a plan");
    assert!((kg - 978.0 * LB).abs() < 1e-9, "{what}: {kg}");
    let package = records
        .iter()
        .find(|record| record["schema"] == "dockheft.package/1");
    let package = package.expect("a package");
    assert_eq!(severity(package, "decided"), "note", "{what}");
    assert_eq!(severity(&records[0], CODE), Value::Null, "{what}");
    let known = traced(at);
    for expected in [
        ("SB-1", "refused"),
        ("SB-2", "weighed"),
        ("none", "use estimate"),
    ] {
        let expected = (expected.0.to_string(), expected.1.to_string());
        assert!(known.contains(&expected), "{what}: {known:?}");
    }
}

#[test]
fn the_same_bytes_under_another_name_keep_their_decisions() {
    let tarn = ["--supplier", "Tarn Steel"];
    for (what, file, more) in [
        ("a copy", "list (1).csv", &tarn[..]),
        (
            "a delivery",
            "list.csv",
            &["--supplier", "Tarn Steel", "--delivery", "D 9"],
        ),
        ("letters", "list.csv", &["--supplier", "TARN STEEL"]),
    ] {
        let folder = folder();
        let at = folder.path();
        decided(at);
        write(at, file, PUMPS);
        let (records, _) = audit(at, file, more);
        stands(at, &records, what);
        let open = dockheft(at, &["trace", "--decision", "open", "--json"]);
        let open = parsed(&open.stdout);
        let items: Vec<&Value> = open.iter().map(|load| &load["load"]["item"]).collect();
        assert!(!items.contains(&&Value::from("SB-2")), "{what}: {items:?}");
        agrees(at);
    }
}

/// Another list of the same name in the call makes other ids.
#[test]
fn a_list_beside_another_of_its_name_keeps_its_decisions() {
    let folder = folder();
    let at = folder.path();
    decided(at);
    std::fs::create_dir(at.join("other")).expect("a folder");
    write(&at.join("other"), "list.csv", &PUMPS.replace("985", "984"));
    let files = [
        "other/list.csv",
        "list.csv",
        "--supplier",
        "Tarn Steel",
        "--json",
    ];
    let output = audit_in(at, &files);
    assert!(status(&output) < 2, "{}", said(&output));
    let records = parsed(&output.stdout);
    let second = records
        .iter()
        .rposition(|record| record["schema"] == "dockheft.delivery/1");
    stands(at, &records[second.expect("a delivery")..], "two files");
    let other = line(&records, "SB-1");
    assert_eq!(severity(&other, "held"), Value::Null, "other bytes");
    agrees(at);
}

/// Somebody else's list of the same bytes: the decision does not stand, and that is said until somebody decides anew.
#[test]
fn a_decision_that_does_not_stand_is_named() {
    let folder = folder();
    let at = folder.path();
    decided(at);
    let (records, told) = audit(at, "list.csv", &["--supplier", "Marten Yard"]);
    assert_eq!(severity(&records[0], CODE), "check");
    let told: Vec<&str> = told.split_whitespace().collect();
    let told = told.join(" ");
    for part in [
        "row 2, \"SB-1\" of Tarn Steel: refused by J. Rook",
        "package, row 4, \"Pallet 1 - 985 lb gross\" of Tarn Steel",
    ] {
        assert!(told.contains(part), "{part}: {told}");
    }
    assert_eq!(severity(&line(&records, "SB-1"), "decided"), Value::Null);
    agrees(at);
    // Decided anew: only the others are still asked about.
    let id = line(&records, "SB-1")["line"].clone();
    let anew = ["--as", "refused", "--supplier", "Marten Yard"];
    decide(at, id.as_str().expect("an id"), &anew);
    let (records, told) = audit(at, "list.csv", &["--supplier", "Marten Yard"]);
    assert_eq!(severity(&records[0], CODE), "check");
    assert_eq!(severity(&line(&records, "SB-1"), "held"), "stop");
    assert!(!told.contains("row 2, \"SB-1\" of Tarn"), "{told}");
    agrees(at);
}
