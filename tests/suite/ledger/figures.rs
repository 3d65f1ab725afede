//! The figures that statistics are made of: one count a delivery, as the records say, and proven by the check.

use super::tampering::{fails, forced};
use super::{HEADINGS, audited, folder, id, kept, list, out, write};
use crate::helper::{dockheft, parsed, said, status};
use dockheft::ledger::Ledger;
use polars::prelude::{AnyValue, DataFrame};
use serde_json::{Value, json};
use std::path::Path;

fn ledger(folder: &Path) -> Ledger {
    Ledger::read(&folder.join("ledger.dockheft")).expect("it is there")
}

/// A table as a list of columns by name.
fn columns(frame: &DataFrame) -> Value {
    let value = |value: AnyValue<'_>| match value {
        AnyValue::Null => Value::Null,
        AnyValue::Boolean(yes) => json!(yes),
        AnyValue::Int64(number) => json!(number),
        AnyValue::Float64(figure) => json!(figure),
        other => json!(other.get_str().expect("a text")),
    };
    let column = |name: &str| {
        let column = frame.column(name).expect("it has its own columns");
        let values = (0..frame.height()).map(|at| value(column.get(at).expect("a row")));
        Value::from(values.collect::<Vec<_>>())
    };
    let names = frame.get_column_names();
    names
        .iter()
        .map(|name| (name.to_string(), column(name)))
        .collect()
}

/// What a hit of `trace` says in the words of the figures.
fn of_record(hit: &Value) -> Value {
    let load = &hit["load"];
    let findings = load["findings"].as_array().expect("a list");
    let codes: Vec<&str> = findings
        .iter()
        .filter_map(|one| one["code"].as_str())
        .collect();
    // Findings stand worst first.
    let worst = findings
        .first()
        .map_or("none", |one| one["severity"].as_str().unwrap_or_default());
    let mut causes = findings.iter().map(|one| &one["cause"]["kind"]);
    json!({
        "load": hit["record"], "id": hit["id"], "day": hit["day"], "recorded": hit["time"],
        "supplier": load["supplier"], "goods": load["goods"], "truck": load["truck"]["id"],
        "material": load["estimate"]["material"], "evidence": load["estimate"]["evidence"],
        "verdict": load["verdict"], "codes": codes.join(" "),
        "severity": worst, "flagged": worst == "stop" || worst == "check",
        "cause": causes.find(|kind| kind.is_string()),
        "declared_kg": load["declared"]["kg"], "low_kg": load["estimate"]["low_kg"],
        "likely_kg": load["estimate"]["likely_kg"], "high_kg": load["estimate"]["high_kg"],
        "expected_kg": load["estimate"]["expected_kg"],
        "plan_kg": load["planning"]["line_kg"], "overload_kg": load["declared_truck"]["over_kg"],
    })
}

/// Every load that counts has the figures of its record; of several audits of a delivery the latest counts.
#[test]
fn the_figures_are_those_of_the_latest_audits_records() {
    let folder = kept();
    let at = folder.path();
    write(
        at,
        "fleet.csv",
        &format!("{}B,V,600,24,160,yes,2027-06-01\n", super::FLEET),
    );
    let other = format!(
        "{HEADINGS}D-9,,PO 9,X-1,Pump on skid,1,,,,500\nD-9,,PO 9,X-2,Steel block,1,24,12,12,490\n"
    );
    write(at, "other.csv", &other);
    audited(at, "other.csv");
    let hits = parsed(&dockheft(at, &["trace", "--json"]).stdout);
    let mut latest: Vec<&Value> = hits.iter().filter(|hit| hit["latest"] == true).collect();
    latest.reverse();
    assert!(hits.len() > latest.len(), "{}", hits.len());
    assert_eq!(latest.len(), 4);
    let found = columns(&ledger(at).figures().expect("figures"));
    for (row, hit) in latest.iter().enumerate() {
        for (name, said) in of_record(hit).as_object().expect("an object") {
            assert_eq!(found[name][row], *said, "{name}, row {row}");
        }
    }
    assert_eq!(found["load"].as_array().map(Vec::len), Some(4));
    assert_eq!(found["goods"][0], "solid block");
    // Planned with the estimate, truck B would have had to lift more than it may.
    assert!(found["overload_kg"][3].as_f64() > Some(100.0), "{found}");
}

/// Lines of a package are judged on it, and count there.
#[test]
fn a_package_counts_once() {
    let folder = folder();
    let at = folder.path();
    write(
        at,
        "list.csv",
        "Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n\
        \"Pallet 1 - 985 lb gross\",,,,,,\nSB-1,Steel block,1,24,12,12,\nSB-2,Steel block,1,24,12,12,\n",
    );
    audited(at, "list.csv");
    let found = columns(&ledger(at).figures().expect("figures"));
    assert_eq!(
        found["verdict"].as_array().map(Vec::len),
        Some(1),
        "{found}"
    );
    assert_ne!(found["verdict"][0], "shared");
}

#[test]
fn a_decision_stands_for_the_same_figures_and_the_last_one_counts() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let light = id(at, "SB-2");
    for weight in ["970 lb", "978 lb"] {
        let taken = dockheft(
            at,
            &[
                "decide",
                "--line",
                &light,
                "--as",
                "weighed",
                "--weight",
                weight,
                "--by",
                "J. Rook",
                "--evidence",
                "scale ticket 12",
            ],
        );
        assert_eq!(status(&taken), 0, "{}", said(&taken));
    }
    audited(at, "list.csv");
    let hit = &parsed(&dockheft(at, &["trace", "--item", "SB-2", "--json"]).stdout)[0];
    let found = columns(&ledger(at).decisions_taken().expect("decisions"));
    assert_eq!(found["stands"], json!([false, true]));
    assert_eq!(found["stands_for"], json!([hit["record"], hit["record"]]));
    assert_ne!(
        found["load"][1], hit["record"],
        "it was made on the first audit"
    );
    assert_eq!(found["kind"], json!(["weighed", "weighed"]));
    assert_eq!(found["plan_kg"][1], hit["decision"]["plan_kg"]);
    assert_eq!(found["before_kg"][1], found["plan_kg"][0]);
    // Other figures: what was decided is no longer good for anything.
    write(at, "list.csv", &list(979));
    audited(at, "list.csv");
    let found = columns(&ledger(at).decisions_taken().expect("decisions"));
    assert_eq!(found["stands"], json!([false, false]));
    assert_eq!(found["stands_for"], json!([null, null]));
}

/// A ledger that an older program wrote has its figures in the records, and gets its tables with the next audit.
#[test]
fn an_older_ledger_has_the_same_figures() {
    let folder = kept();
    let at = folder.path();
    let before = columns(&ledger(at).figures().expect("figures"));
    let decided = columns(&ledger(at).decisions_taken().expect("decisions"));
    let parts =
        "DROP INDEX load_by_substance; DROP TABLE figure; DROP TABLE word; PRAGMA user_version = 2";
    super::Connection::open(at.join("ledger.dockheft"))
        .and_then(|db| db.execute_batch(parts))
        .expect("as it was");
    let check = || {
        let check = dockheft(at, &["ledger", "check"]);
        assert_eq!(status(&check), 0, "{}", out(&check));
    };
    check();
    assert_eq!(columns(&ledger(at).figures().expect("figures")), before);
    let again = ledger(at).decisions_taken().expect("decisions");
    assert_eq!(columns(&again), decided);
    drop(Ledger::open(&at.join("ledger.dockheft")).expect("brought to this version"));
    check();
    assert_eq!(columns(&ledger(at).figures().expect("figures")), before);
}

/// Whoever may write the file could make a supplier look better than its records: the check says so.
#[test]
fn a_figure_that_is_not_that_of_its_record_is_found() {
    let folder = kept();
    let whole = std::fs::read(folder.path().join("ledger.dockheft")).expect("the ledger");
    let last = "(SELECT max(load) FROM figure)";
    for (change, named) in [
        (
            format!("UPDATE figure SET declared_kg = declared_kg + 1 WHERE load = {last}"),
            "the figures of 1 ",
        ),
        (
            format!("UPDATE figure SET verdict = NULL WHERE load = {last}"),
            "the figures of 1 ",
        ),
        (
            format!("UPDATE figure SET id = 'x' WHERE load = {last}"),
            "the figures of 1 ",
        ),
        (
            format!("UPDATE figure SET delivery = delivery + 1 WHERE load = {last}"),
            "the figures of 1 ",
        ),
        (
            "UPDATE word SET text = 'consistent ' WHERE text = 'consistent'".to_string(),
            "the figures of ",
        ),
        (
            "UPDATE word SET code = 99 WHERE text = 'light'".to_string(),
            "the figures of ",
        ),
        (
            format!("DELETE FROM figure WHERE load = {last}"),
            "the figures of 1 ",
        ),
        ("DELETE FROM figure".to_string(), "the figures of 6 "),
        (
            "INSERT INTO figure (load, delivery, id) VALUES (1, 1, 'x')".to_string(),
            "the figures of 1 ",
        ),
    ] {
        std::fs::write(folder.path().join("ledger.dockheft"), &whole).expect("put back");
        forced(folder.path()).execute_batch(&change).expect(&change);
        fails(folder.path(), &[], named);
    }
}

/// The supplier's name in other letters, or found out later, makes no second delivery of it; another supplier does.
#[test]
fn a_delivery_counts_once_however_its_supplier_is_written() {
    let named = |supplier: &str| list(490).replace("Tarn Steel", supplier);
    let audit = |folder: &Path, more: &[&str]| {
        let all = [
            &[
                "audit",
                "list.csv",
                "--date",
                "2026-11-25",
                "--out",
                "x.xlsx",
            ],
            more,
        ]
        .concat();
        let output = dockheft(folder, &all);
        assert!(status(&output) < 2, "{}", said(&output));
    };
    let counted = |folder: &Path| {
        let figures = columns(&ledger(folder).figures().expect("figures"));
        let hits = parsed(&dockheft(folder, &["trace", "--json"]).stdout);
        let latest = hits.iter().filter(|hit| hit["latest"] == true).count();
        let lines = figures["load"].as_array().map_or(0, Vec::len);
        assert_eq!(lines, latest, "one load and all of them count alike");
        (
            lines,
            figures["first"][0].clone(),
            figures["delivery"][0].clone(),
        )
    };
    for (names, lines) in [
        (["Tarn Steel", " TARN steel "], 2),
        (["Ärn Steel", "äRN STEEL"], 2),
        (["Tarn Steel", "Larkspur Castings"], 4),
    ] {
        let folder = folder();
        for name in names {
            write(folder.path(), "list.csv", &named(name));
            audit(folder.path(), &[]);
        }
        let (found, first, delivery) = counted(folder.path());
        assert_eq!(found, lines, "{names:?}");
        assert_eq!(first == delivery, lines == 4, "{names:?}: its first audit");
    }
    // The same bytes first of nobody knows whom, corrected, then named; other bytes under a name close nothing.
    let folder = folder();
    let at = folder.path();
    for pounds in [490, 480] {
        write(at, "list.csv", &list(pounds).replace("Tarn Steel", ""));
        audit(at, &[]);
    }
    let (found, first, _) = counted(at);
    assert_eq!(found, 2);
    audit(at, &["--supplier", "Tarn Steel"]);
    assert_eq!(counted(at).0, 2);
    assert_eq!(counted(at).1, first);
    write(at, "list.csv", &list(470).replace("Tarn Steel", ""));
    audit(at, &[]);
    write(at, "list.csv", &list(460));
    audit(at, &[]);
    assert_eq!(counted(at).0, 4);
}
