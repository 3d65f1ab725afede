//! The ledger as an auditor meets it: a full day, tampering, killed processes, many at once.

mod crowd;
mod decided;
#[cfg(feature = "export")]
mod export;
mod figures;
mod known;
mod renamed;
mod replayed;
mod tampering;
mod weighed;

use crate::helper::{audit_in, dockheft, lines, parsed, said, status};
use rusqlite::Connection;
use std::path::Path;
use std::process::Output;
use tempfile::TempDir;

const HEADINGS: &str = "Delivery,Supplier,Order,Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n";
const FLEET: &str = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Available,Inspection due\nA,V,5000,24,160,yes,2027-06-01\n";

/// A list of one delivery: a line that fits and one at half its weight.
fn list(light: u32) -> String {
    format!(
        "{HEADINGS}D-1,Tarn Steel,PO 7,SB-1,Steel block,1,24,12,12,985\nD-1,Tarn Steel,PO 7,SB-2,Steel block,1,24,12,12,{light}\n"
    )
}

fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    write(
        folder.path(),
        "site.toml",
        "units = \"us\"\nfleet = \"fleet.csv\"\n",
    );
    write(folder.path(), "fleet.csv", FLEET);
    write(folder.path(), "list.csv", &list(490));
    folder
}

fn write(folder: &Path, name: &str, text: &str) {
    std::fs::write(folder.join(name), text).expect("a file");
}

fn out(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// Size and head that a run printed last.
fn head(text: &str) -> Option<(u64, String)> {
    let line = text.lines().rev().find(|line| line.contains(", head "))?;
    let (before, head) = line.split_once(", head ")?;
    let size = before.rsplit(' ').nth(1)?.parse().ok()?;
    (head.len() == 64).then(|| (size, head.to_string()))
}

#[track_caller]
fn audited(folder: &Path, list: &str) -> (u64, String) {
    let output = audit_in(folder, &[list]);
    assert!(status(&output) < 2, "{}", said(&output));
    head(&out(&output)).expect("size and head are printed")
}

fn id(folder: &Path, item: &str) -> String {
    let output = dockheft(folder, &["trace", "--item", item, "--json"]);
    let hits = parsed(&output.stdout);
    hits[0]["id"].as_str().expect("an id").to_string()
}

/// A ledger with three audits and a decision, which the second audit knew of.
fn kept() -> TempDir {
    let folder = folder();
    audited(folder.path(), "list.csv");
    let light = id(folder.path(), "SB-2");
    let output = dockheft(
        folder.path(),
        &[
            "decide",
            "--line",
            &light,
            "--as",
            "weighed",
            "--weight",
            "978 lb",
            "--by",
            "J. Rook",
            "--evidence",
            "scale ticket 12",
        ],
    );
    assert_eq!(status(&output), 0, "{}", said(&output));
    audited(folder.path(), "list.csv");
    write(folder.path(), "list.csv", &list(979));
    audited(folder.path(), "list.csv");
    folder
}

/// A report never takes the place of the ledger, of what its engine keeps beside it, of the site file or of the register.
#[test]
fn no_report_takes_the_place_of_what_is_kept() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let kept = ["ledger.dockheft", "site.toml", "fleet.csv"];
    let before = kept.map(|name| std::fs::read(at.join(name)).expect("a file"));
    let beside = ["-wal", "-shm", "-journal"].map(|ending| format!("./ledger.dockheft{ending}"));
    for command in [
        &["scorecard", "--out"][..],
        &["trace", "--out"],
        &["replay", "--out"],
        &["fleet", "--out"],
        &["ledger", "backup"],
        &["ledger", "export"],
        &["audit", "list.csv", "--out"],
        &["audit", "list.csv", "--no-ledger", "--out"],
        &["audit", "list.csv", "--out", "x.xlsx", "--lines"],
    ] {
        for name in kept.into_iter().chain(beside.iter().map(String::as_str)) {
            let refused = dockheft(at, &[command, &[name]].concat());
            assert_eq!(
                status(&refused),
                3,
                "{command:?} {name}: {}",
                said(&refused)
            );
            assert!(said(&refused).contains("is needed"), "{}", said(&refused));
        }
    }
    let after = kept.map(|name| std::fs::read(at.join(name)).expect("a file"));
    assert_eq!(before, after);
    assert!(beside.iter().all(|name| !at.join(name).exists()));
}

#[test]
fn a_day_is_kept_found_proven_and_copied() {
    let folder = folder();
    let at = folder.path();
    write(at, "other.csv", &list(985).replace("D-1", "D-2"));
    let (_, first) = audited(at, "list.csv");
    audited(at, "other.csv");
    audited(at, "list.csv");
    let trace = |args: &[&str]| dockheft(at, &[&["trace"], args].concat());
    let open = parsed(
        &trace(&[
            "--decision",
            "open",
            "--finding",
            "declared-light",
            "--json",
        ])
        .stdout,
    );
    assert_eq!(
        open.len(),
        1,
        "of two audits of one delivery the later counts"
    );
    let light_id = open[0]["id"].as_str().expect("an id").to_string();
    let decide = |args: &[&str]| {
        dockheft(
            at,
            &[&["decide", "--line", &light_id, "--by", "J. Rook"], args].concat(),
        )
    };
    let refused = decide(&["--as", "accept declared"]);
    assert_eq!(status(&refused), 3, "{}", said(&refused));
    assert!(
        said(&refused).contains("not the supplier's first document"),
        "{}",
        said(&refused)
    );
    let refused = decide(&["--as", "accept declared", "--evidence", "packing list D-1"]);
    assert_eq!(status(&refused), 3, "{}", said(&refused));
    assert_eq!(status(&decide(&["--as", "use estimate"])), 0);
    let weighed = decide(&[
        "--as",
        "weighed",
        "--weight",
        "978 lb",
        "--evidence",
        "scale ticket 12",
        "--remark",
        "dry",
    ]);
    assert_eq!(status(&weighed), 0, "{}", said(&weighed));
    assert!(
        out(&weighed).contains("beside 1 earlier"),
        "{}",
        out(&weighed)
    );
    let story = out(&trace(&["--line", &light_id]));
    for part in [
        "490",
        "list.csv",
        "scale ticket 12",
        "J. Rook",
        "978 lb",
        "\"use estimate\"",
        "source:",
        "light:",
    ] {
        let there = story.contains(part);
        assert!(there, "{part}: {story}");
    }
    // The next delivery brings the same block without a weight: what was weighed need not be guessed again.
    write(at, "next.csv", &list(985).replace("12,985", "12,"));
    let next = parsed(&audit_in(at, &["next.csv", "--json"]).stdout);
    let known = next.iter().find(|line| line["item"] == "SB-2");
    let known = known.expect("the block");
    assert_eq!(known["estimate"]["evidence"], "weighed", "{known}");
    let story = out(&trace(&["--line", known["line"].as_str().expect("an id")]));
    let told: Vec<&str> = story.split_whitespace().collect();
    let told = told.join(" ");
    let weighing = format!("line {light_id}, by J. Rook, scale ticket 12; record ");
    assert!(told.contains(&weighing), "{story}");
    // The list comes again, corrected: the decision was made on other figures.
    write(at, "list.csv", &list(979));
    let (_, last) = audited(at, "list.csv");
    let story = out(&trace(&["--line", &light_id]));
    assert!(
        story.contains("does not stand for the latest one"),
        "{story}"
    );
    assert_eq!(
        status(&trace(&[
            "--decision",
            "open",
            "--finding",
            "declared-light"
        ])),
        1
    );
    assert_eq!(status(&trace(&["nothing like it"])), 1);
    for head in [&first, &last] {
        let check = dockheft(at, &["ledger", "check", "--head", head, "--again"]);
        assert_eq!(status(&check), 0, "{}", out(&check));
        assert!(
            out(&check).contains("5 audits") && out(&check).contains(" 0 otherwise"),
            "{}",
            out(&check)
        );
    }
    let copy = dockheft(at, &["ledger", "backup", "copy.dockheft"]);
    assert_eq!(head(&out(&copy)).expect("a head").1, last);
    let check = dockheft(
        at,
        &[
            "ledger",
            "check",
            "--ledger",
            "copy.dockheft",
            "--head",
            &last,
        ],
    );
    assert_eq!(status(&check), 0, "{}", out(&check));
    assert_eq!(
        status(&dockheft(at, &["ledger", "backup", "copy.dockheft"])),
        4
    );
}

#[test]
fn the_demo_is_repeated_bit_for_bit() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kestrel-junction");
    let folder = tempfile::tempdir().expect("a folder");
    let (ledger, book) = (
        folder.path().join("l.dockheft"),
        folder.path().join("out.xlsx"),
    );
    let (ledger, book) = (ledger.to_string_lossy(), book.to_string_lossy());
    let output = audit_in(
        &demo,
        &["deliveries", "--ledger", &ledger, "--out", &book, "--json"],
    );
    let loads = lines(parsed(&output.stdout)).len();
    assert!(loads > 40, "{loads}");
    let check = dockheft(
        folder.path(),
        &["ledger", "check", "--again", "--ledger", "l.dockheft"],
    );
    assert_eq!(status(&check), 0, "{}", out(&check));
    let said = out(&check);
    let same: usize = said
        .split_once("1 audits, ")
        .and_then(|(_, rest)| rest.split(' ').next()?.parse().ok())
        .expect("a count");
    assert!(same > loads && said.contains(" 0 otherwise"), "{said}");
}

#[test]
fn a_foreign_or_newer_file_is_left_as_it_is() {
    for (make, found) in [
        (
            "CREATE TABLE a (b); PRAGMA user_version = 1",
            "another program",
        ),
        (
            "CREATE TABLE a (b); PRAGMA application_id = 1147692660; PRAGMA user_version = 99",
            "newer",
        ),
    ] {
        let folder = folder();
        let path = folder.path().join("ledger.dockheft");
        Connection::open(&path)
            .and_then(|db| db.execute_batch(make))
            .expect("made");
        let before = std::fs::read(&path).expect("bytes");
        let output = audit_in(folder.path(), &["list.csv", "--out", "out.xlsx"]);
        assert_eq!(status(&output), 4, "{}", said(&output));
        assert!(said(&output).contains(found), "{}", said(&output));
        assert_eq!(std::fs::read(&path).expect("bytes"), before);
        // The dock has its workbook all the same.
        assert!(folder.path().join("out.xlsx").exists());
    }
}

/// A whole column in the wrong unit is one question to the supplier and one decision.
#[test]
fn one_decision_settles_a_column_in_the_wrong_unit() {
    let folder = folder();
    let folder = folder.path();
    // Steel at 490 lb/ft3 (AISC Manual): 2 ft3 weigh 980 lb, which are 444.5 kg. The heading says pounds.
    let row = |at: u32| {
        format!(
            "D-2,Tarn Steel,PO 8,SB-{at},Steel block,1,24,12,{at},{:.1}\n",
            444.52 * f64::from(at) / 12.0
        )
    };
    let rows: String = (8..20).map(row).collect();
    write(folder, "column.csv", &format!("{HEADINGS}{rows}"));
    let output = audit_in(folder, &["column.csv"]);
    assert!(out(&output).contains("Tarn Steel)"), "{}", out(&output));
    assert_eq!(
        out(&output).matches("column J is headed in lb").count(),
        1,
        "{}",
        out(&output)
    );
    let decided = dockheft(
        folder,
        &[
            "decide",
            "--delivery",
            "column",
            "--cause",
            "kg-lb",
            "--as",
            "supplier corrected",
            "--evidence",
            "letter of the mill, 3 June",
            "--by",
            "J. Rook",
        ],
    );
    assert_eq!(status(&decided), 0, "{}", said(&decided));
    assert_eq!(
        out(&decided)
            .matches("supplier corrected: planned with")
            .count(),
        12
    );
    // 444.52 kg are 980 lb.
    assert!(
        out(&decided).contains("planned with 980 lb"),
        "{}",
        out(&decided)
    );
}
