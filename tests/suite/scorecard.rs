//! `dockheft scorecard` against a computation of its own, from the records that the audits gave.

mod decided;
mod held;

use crate::helper::{dockheft, parsed, said, status};
use serde_json::Value;
use std::collections::BTreeSet;
use std::path::Path;
use tempfile::TempDir;

const HEADINGS: &str = "Delivery,Supplier,Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n";
const FLEET: &str = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Available,Inspection due\n\
    A,V,9000,24,160,yes,2027-06-01\nB,V,700,24,160,yes,2027-06-01\n";
const SUPPLIERS: [&str; 3] = ["Tarn Steel", "Larkspur Castings", "Fenwick Timber Yard"];
/// Audits: day, and how many deliveries of each supplier.
const DAYS: [(&str, usize); 3] = [("2026-08-31", 1), ("2026-10-12", 2), ("2026-11-25", 2)];

/// A delivery of twelve lines whose weights are off as `turn` has it; a steel block of 24 x 12 x 12 in weighs 980 lb.
fn list(name: &str, supplier: &str, turn: usize) -> String {
    let mut text = HEADINGS.to_string();
    for at in 0..12 {
        let (description, size, pounds) = match (at + turn) % 5 {
            0 => ("Concrete block", "36,24,12", 900.0),
            1 => ("Cast iron block", "12,12,12", 450.0),
            2 => ("Pump on skid", ",,", 600.0),
            _ => ("Steel block", "24,12,12", 980.0),
        };
        let factor = match (at * 7 + turn * 3) % 11 {
            0 => 1.0 / 2.204_622_6,
            1 => 10.0,
            2 => 0.0,
            3 => 0.45,
            other => 0.94 + other as f64 / 100.0,
        };
        let weight = pounds * factor;
        text.push_str(&format!(
            "{name},{supplier},I-{at},{description},1,{size},{weight:.0}\n"
        ));
    }
    text
}

fn lines(folder: &Path, day: &str, list: &str) -> Vec<Value> {
    let output = dockheft(
        folder,
        &["audit", list, "--date", day, "--json", "--out", "x.xlsx"],
    );
    assert!(status(&output) < 2, "{}", said(&output));
    let mut records = parsed(&output.stdout);
    records.retain(|record| record["schema"] != "dockheft.delivery/1");
    records
        .iter_mut()
        .for_each(|record| record["day"] = day.into());
    records
}

fn write(folder: &Path, name: &str, text: &str) {
    std::fs::write(folder.join(name), text).expect("a file");
}

/// A folder with site file and register.
fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let site = "name = \"Kestrel Junction\"\nunits = \"us\"\nfleet = \"fleet.csv\"\n";
    write(folder.path(), "site.toml", site);
    write(folder.path(), "fleet.csv", FLEET);
    folder
}

/// A ledger of some months, and the records of each delivery's latest audit that are no part of a package.
fn kept() -> (TempDir, Vec<Value>) {
    let folder = folder();
    let at = folder.path();
    let mut records = Vec::new();
    let mut number = 0;
    for (day, each) in DAYS {
        for supplier in SUPPLIERS {
            for _ in 0..each {
                number += 1;
                let (file, name) = (format!("list{number}.csv"), format!("D-{number}"));
                write(at, &file, &list(&name, supplier, number));
                records.extend(lines(at, day, &file));
            }
        }
    }
    // The last delivery is corrected and comes again: its first audit counts no more.
    records.retain(|record| record["file"] != format!("list{number}.csv"));
    write(
        at,
        &format!("list{number}.csv"),
        &list(&format!("D-{number}"), SUPPLIERS[2], 4),
    );
    records.extend(lines(at, DAYS[2].0, &format!("list{number}.csv")));
    // A pallet with one weight for two lines.
    write(
        at,
        "pallet.csv",
        "Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n\
        \"Pallet 1 - 985 lb gross\",,,,,,\nSB-1,Steel block,1,24,12,12,\nSB-2,Steel block,1,24,12,12,\n",
    );
    let pallet = lines(at, DAYS[2].0, "pallet.csv");
    assert_eq!(pallet.len(), 3, "a package and its two lines");
    records.extend(pallet);
    records.retain(|record| record["verdict"] != "shared");
    (folder, records)
}

fn card(folder: &Path, args: &[&str]) -> Vec<Value> {
    let all = [
        &["scorecard", "--json", "--quiet", "--date", "2026-11-25"],
        args,
    ]
    .concat();
    let output = dockheft(folder, &all);
    assert_eq!(status(&output), 0, "{}", said(&output));
    parsed(&output.stdout)
}

fn middle(values: &mut [f64]) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let count = values.len();
    let upper = *values.get(count / 2)?;
    Some((values[(count - 1) / 2] + upper) / 2.0)
}

fn is_flagged(record: &Value) -> bool {
    let findings = record["findings"].as_array().expect("a list");
    findings
        .iter()
        .any(|one| one["severity"] == "stop" || one["severity"] == "check")
}

fn cause(record: &Value) -> Option<&str> {
    let findings = record["findings"].as_array().expect("a list");
    findings
        .iter()
        .find_map(|one| one["cause"]["kind"].as_str())
}

/// Holds a record of the scorecard against the loads that it is of.
#[track_caller]
fn is_of(row: &Value, loads: &[&Value]) {
    let count = |of: &dyn Fn(&Value) -> bool| loads.iter().filter(|load| of(load)).count();
    let deliveries: BTreeSet<&str> = loads
        .iter()
        .filter_map(|load| load["file"].as_str())
        .collect();
    let mut off: Vec<f64> = loads
        .iter()
        .filter(|load| load["estimate"]["evidence"] != "envelope")
        .filter_map(|load| {
            Some(
                (load["declared"]["kg"].as_f64()? / load["estimate"]["expected_kg"].as_f64()?).ln(),
            )
        })
        .collect();
    let over = |load: &Value| load["declared_truck"]["over_kg"].as_f64().unwrap_or(0.0);
    for (name, expected) in [
        ("lines", loads.len()),
        ("deliveries", deliveries.len()),
        ("flagged", count(&is_flagged)),
        ("light", count(&|load| load["verdict"] == "light")),
        ("compared", off.len()),
        ("overloads", count(&|load| over(load) > 0.0)),
    ] {
        assert_eq!(row[name], expected, "{name} of {row}");
    }
    let median = middle(&mut off);
    let mut away: Vec<f64> = off
        .iter()
        .map(|off| (off - median.unwrap_or(0.0)).abs())
        .collect();
    let near = |name: &str, expected: Option<f64>| {
        let found = row[name].as_f64();
        let same = match (found, expected) {
            (Some(found), Some(expected)) => {
                (found - expected).abs() < 1e-9 * (1.0 + expected.abs())
            }
            (found, expected) => found == expected,
        };
        assert!(same, "{name} of {row}: {expected:?}");
    };
    near("median_ln", median);
    // The upper quartile of the standard normal distribution.
    near(
        "spread_ln",
        middle(&mut away).map(|middle| middle / 0.674_489_750_196_081_7),
    );
    near(
        "overload_kg",
        Some(loads.iter().map(|load| over(load)).sum()),
    );
}

#[test]
fn the_counts_are_those_of_the_latest_audits_records() {
    let (folder, records) = kept();
    let found = card(folder.path(), &[]);
    let by = |by: &str| {
        found
            .iter()
            .filter(|row| row["by"] == by)
            .cloned()
            .collect::<Vec<_>>()
    };
    let of = |wanted: &dyn Fn(&Value) -> bool| {
        records
            .iter()
            .filter(|load| wanted(load))
            .collect::<Vec<_>>()
    };
    let [all] = &by("all")[..] else {
        panic!("one row of all")
    };
    is_of(all, &of(&|_| true));
    assert_eq!(records.len(), 15 * 12 + 1);
    assert!(
        all["flagged"].as_u64() > Some(30) && all["overloads"].as_u64() > Some(5),
        "{all}"
    );
    let suppliers = by("supplier");
    assert_eq!(suppliers.len(), 4, "three, and nobody's pallet");
    for row in suppliers {
        // A package's own record names no supplier.
        is_of(
            &row,
            &of(&|load| load.get("supplier").unwrap_or(&Value::Null) == &row["name"]),
        );
    }
    for (name, fields) in [
        ("goods", &["goods"][..]),
        ("material", &["estimate", "material"]),
    ] {
        let rows = by(name);
        assert!(rows.len() > 2, "{rows:?}");
        for row in rows {
            let value = |load: &Value| {
                fields
                    .iter()
                    .fold(load.clone(), |value, field| value[field].clone())
            };
            is_of(&row, &of(&|load| value(load) == row["name"]));
        }
    }
    let causes = by("cause");
    assert!(causes.len() > 1, "{causes:?}");
    for row in causes {
        is_of(&row, &of(&|load| cause(load) == row["name"].as_str()));
    }
    let months = by("month");
    let names: Vec<&str> = months
        .iter()
        .filter_map(|row| row["name"].as_str())
        .collect();
    assert_eq!(
        names,
        ["2026-08", "2026-09", "2026-10", "2026-11"],
        "with the empty one"
    );
    for row in &months {
        let month = row["name"].as_str().expect("a month");
        is_of(
            row,
            &of(&|load| {
                load["day"]
                    .as_str()
                    .is_some_and(|day| day.starts_with(month))
            }),
        );
    }
    let some = card(
        folder.path(),
        &[
            "--supplier",
            "tarn",
            "--from",
            "2026-09-01",
            "--to",
            "2026-10-31",
        ],
    );
    let wanted = |load: &Value| load["supplier"] == SUPPLIERS[0] && load["day"] == DAYS[1].0;
    is_of(&some[0], &of(&wanted));
    assert_eq!(some[0]["lines"], 24);
}

#[test]
fn decisions_and_overrides_are_counted_and_stay_so_when_the_list_is_audited_again() {
    let (folder, records) = kept();
    let at = folder.path();
    let is_stop = |record: &&Value| {
        let findings = record["findings"].as_array().expect("a list");
        record["day"] == DAYS[0].0
            && record["estimate"].is_object()
            && findings.iter().any(|one| one["severity"] == "stop")
    };
    let text = |record: &Value, name: &str| record[name].as_str().expect("a text").to_string();
    let stops: Vec<(String, String)> = records
        .iter()
        .filter(is_stop)
        .map(|record| (text(record, "line"), text(record, "file")))
        .take(2)
        .collect();
    let [(one, _), (other, _)] = &stops[..] else {
        panic!("two stops: {stops:?}")
    };
    let flagged = records.iter().filter(|record| is_flagged(record)).count();
    let decide = |line: &str, args: &[&str]| {
        let all = [&["decide", "--line", line, "--by", "J. Rook"], args].concat();
        let output = dockheft(at, &all);
        assert_eq!(status(&output), 0, "{}", said(&output));
    };
    decide(one, &["--as", "use estimate"]);
    decide(
        other,
        &[
            "--as",
            "weighed",
            "--weight",
            "978 lb",
            "--evidence",
            "scale ticket 12",
        ],
    );
    for again in [false, true] {
        if again {
            for (_, file) in &stops {
                lines(at, DAYS[0].0, file);
            }
        }
        let found = card(at, &[]);
        assert_eq!(found[0]["flagged"], flagged, "again: {again}");
        assert_eq!(
            (&found[0]["decided"], &found[0]["open"]),
            (&2.into(), &(flagged - 2).into())
        );
        let decisions = found.last().expect("a record of decisions");
        assert_eq!(decisions["schema"], "dockheft.decisions/1");
        assert_eq!(decisions["all"]["lines"], 2);
        let hours = decisions["all"]["median_hours"].as_f64();
        assert!(
            hours.is_some_and(|hours| (0.0..0.5).contains(&hours)),
            "{hours:?}"
        );
        let overrides = decisions["overrides"].as_array().expect("a list");
        assert_eq!(overrides.len(), 1, "what was weighed overrides nothing");
        assert_eq!(
            (&overrides[0]["id"], &overrides[0]["name"]),
            (&one.as_str().into(), &"J. Rook".into())
        );
        let open: Vec<&Value> = decisions["open"]
            .as_array()
            .expect("a list")
            .iter()
            .collect();
        let lines: u64 = open.iter().filter_map(|age| age["lines"].as_u64()).sum();
        assert_eq!(lines as usize, flagged - 2);
        assert!(
            open[0]["lines"].as_u64() > Some(0) && open[3]["lines"].as_u64() > Some(0),
            "{open:?}"
        );
    }
}

#[test]
fn the_workbook_is_written_and_nothing_is_lost() {
    let folder = folder();
    let at = folder.path();
    write(at, "list.csv", &list("D-1", SUPPLIERS[0], 1));
    lines(at, DAYS[0].0, "list.csv");
    let run =
        |args: &[&str]| dockheft(at, &[&["scorecard", "--date", "2026-11-25"], args].concat());
    for name in ["scorecard-2026-11-25.xlsx", "scorecard-2026-11-25-2.xlsx"] {
        let output = run(&[]);
        assert_eq!(status(&output), 0, "{}", said(&output));
        let text = String::from_utf8_lossy(&output.stdout).into_owned();
        for part in [name, "An estimate is not a weighing.", "head "] {
            assert!(text.contains(part), "{part}: {text}");
        }
        assert!(at.join("reports").join(name).exists(), "{name}");
    }
    let onto = run(&["--out", "ledger.dockheft"]);
    assert_eq!(status(&onto), 3, "{}", said(&onto));
    let nobody = run(&["--supplier", "nobody"]);
    assert_eq!(status(&nobody), 1, "{}", said(&nobody));
    assert!(String::from_utf8_lossy(&nobody.stdout).contains("nothing on record answers to this"));
    let no_ledger = run(&["--ledger", "none.dockheft"]);
    assert_eq!(status(&no_ledger), 4, "{}", said(&no_ledger));
}
