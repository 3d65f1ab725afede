//! What becomes of decisions in a scorecard when their list comes again: as it was, changed, or under another name.

use super::{HEADINGS, card, folder, lines, write};
use crate::helper::{dockheft, parsed, said, status};
use serde_json::Value;
use std::path::Path;

const FIRST: &str = "2026-08-31";
const AGAIN: &str = "2026-11-25";
const WEIGHED: [&str; 6] = [
    "--as",
    "weighed",
    "--weight",
    "900 lb",
    "--evidence",
    "scale ticket 12",
];

/// Two steel blocks of 980 lb; the second is declared with half of it, and truck B would take that.
fn list(supplier: &str, right: u32) -> String {
    format!(
        "{HEADINGS}D-1,{supplier},I-1,Steel block,1,24,12,12,{right}\n\
        D-1,{supplier},I-2,Steel block,1,24,12,12,490\n"
    )
}

/// The line of the light block in an audit's records.
fn light(records: &[Value]) -> Value {
    let found = records.iter().find(|record| record["item"] == "I-2");
    found.expect("the second line").clone()
}

fn decide(at: &Path, record: &Value, more: &[&str]) {
    let id = record["line"].as_str().expect("an id");
    let output = dockheft(
        at,
        &[&["decide", "--line", id, "--by", "J. Rook"], more].concat(),
    );
    assert_eq!(status(&output), 0, "{}", said(&output));
}

fn overrides(card: &[Value]) -> Vec<Value> {
    let decisions = card.last().expect("a record of decisions");
    decisions["overrides"].as_array().expect("a list").clone()
}

/// Whoever sends a changed list must not clear away that a STOP on the one before was overridden.
#[test]
fn an_override_stays_when_a_changed_list_comes_in() {
    let folder = folder();
    let at = folder.path();
    for supplier in ["Tarn Steel", "Larkspur Castings"] {
        write(at, &format!("{supplier}.csv"), &list(supplier, 980));
    }
    lines(at, FIRST, "Larkspur Castings.csv");
    lines(at, FIRST, "Tarn Steel.csv");
    // Decided on the second audit: the list is that of the first day all the same.
    let records = lines(at, "2026-10-12", "Tarn Steel.csv");
    decide(at, &light(&records), &["--as", "use estimate"]);
    let told = |replaced: bool| {
        let found = overrides(&card(at, &[]));
        assert_eq!(found.len(), 1, "{found:?}");
        assert_eq!(found[0]["id"], light(&records)["line"]);
        assert_eq!(found[0]["supplier"], "Tarn Steel");
        assert_eq!(
            (&found[0]["replaced"], &found[0]["stands"]),
            (&replaced.into(), &(!replaced).into())
        );
    };
    told(false);
    let changed = list("Tarn Steel", 979).replace("490", "491");
    write(at, "Tarn Steel.csv", &changed);
    lines(at, AGAIN, "Tarn Steel.csv");
    told(true);
    for (asked, count) in [
        (["--supplier", "tarn"], 1),
        (["--supplier", "larkspur"], 0),
        (["--to", FIRST], 1),
        (["--from", FIRST], 1),
    ] {
        assert_eq!(overrides(&card(at, &asked)).len(), count, "{asked:?}");
    }
    let text = dockheft(at, &["scorecard", "--date", AGAIN]);
    let text = String::from_utf8_lossy(&text.stdout).into_owned();
    assert!(text.contains("replaced, or worked out otherwise"), "{text}");
}

/// What a wrong weight would have done is a matter of the list: neither a decision nor another look changes it.
#[test]
fn overload_avoided_is_that_of_before_any_decision() {
    let folder = folder();
    let at = folder.path();
    write(at, "list.csv", &list("Tarn Steel", 980));
    let before = light(&lines(at, FIRST, "list.csv"));
    let avoided = |told: &str| {
        let all = &card(at, &[])[0];
        let kg = all["overload_kg"].as_f64().expect("a weight");
        assert_eq!(all["overloads"], u32::from(kg > 0.0), "{told}");
        kg
    };
    let first = avoided("undecided");
    assert!(first > 100.0, "{first}");
    for (told, decision) in [("weighed", &WEIGHED[..]), ("refused", &["--as", "refused"])] {
        decide(at, &before, decision);
        assert_eq!(avoided(told), first, "{told}");
        let again = light(&lines(at, AGAIN, "list.csv"));
        assert_eq!(again["declared_truck"], before["declared_truck"], "{told}");
        assert_ne!(again["planning"], before["planning"], "{told}");
        assert_eq!(avoided(told), first, "{told}, audited again");
    }
    decide(
        at,
        &before,
        &["--as", "accept declared", "--evidence", "their scale"],
    );
    lines(at, AGAIN, "list.csv");
    assert_eq!(avoided("accepted"), 0.0);
    let check = dockheft(at, &["ledger", "check", "--again"]);
    assert_eq!(status(&check), 0, "{}", said(&check));
}

/// The same bytes under another name, or by a supplier in other letters: decided once, decided everywhere, as `trace` has it.
#[test]
fn a_decision_settles_every_copy_of_its_list() {
    let folder = folder();
    let at = folder.path();
    let text = list("", 980).replace("D-1,", ",");
    let audit = |file: &str, supplier: &str| {
        write(at, file, &text);
        let args = ["audit", file, "--supplier", supplier, "--date", FIRST];
        let output = dockheft(at, &[&args[..], &["--json", "--out", "x.xlsx"]].concat());
        assert!(status(&output) < 2, "{}", said(&output));
        parsed(&output.stdout)
    };
    let decided = light(&audit("list.csv", "Tarn Steel"));
    decide(at, &decided, &["--as", "use estimate"]);
    for (file, supplier, lines, open) in [
        ("list.csv", "Tarn Steel", 2, 0),
        ("copy.csv", "Tarn Steel", 4, 0),
        ("letters.csv", "TARN STEEL", 6, 0),
        ("somebody.csv", "Marten Yard", 8, 1),
    ] {
        audit(file, supplier);
        let found = card(at, &[]);
        assert_eq!(found[0]["lines"], lines, "{file}");
        assert_eq!(found[0]["open"], open, "{file}: {}", found[0]);
        assert_eq!(found[0]["decided"], lines / 2 - open, "{file}");
        let traced = dockheft(at, &["trace", "--decision", "open", "--json"]);
        assert_eq!(parsed(&traced.stdout).len(), open, "{file}");
        assert_eq!(
            overrides(&found).len(),
            1,
            "{file}: one decision, said once"
        );
    }
}
