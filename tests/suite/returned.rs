//! Decisions that come back in the exception workbook: what arrives, what is refused with its cell, what is shown of it.

mod book;
mod programs;
mod refused;

use crate::helper::{DAY, audit_in, dockheft, parsed, said, status};
use book::Book;
use serde_json::Value;
use std::path::Path;
use std::process::Output;
use tempfile::TempDir;

const HEADINGS: &str =
    "Supplier,Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n";
const FLEET: &str = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Available,Inspection due\n\
    A,V,1000,24,160,yes,2027-06-01\nB,V,5000,24,160,yes,2027-06-01\n";

/// Declared weights, each too light in a way of its own.
const DECLARED: [u32; 6] = [120, 205, 310, 480, 640, 800];

/// Blocks of 24 x 12 x 12 in, 980 lb each at 490 lb/ft3 (AISC Manual).
fn list() -> String {
    let row =
        |(at, lb): (u32, u32)| format!("Tarn Steel,SB-{at},Steel block {at},1,24,12,12,{lb}\n");
    let rows: String = (1..).zip(DECLARED).map(row).collect();
    format!("{HEADINGS}{rows}")
}

fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    let at = folder.path();
    write(
        at,
        "site.toml",
        "name = \"Kestrel Junction\"\nunits = \"us\"\nfleet = \"fleet.csv\"\n",
    );
    write(at, "fleet.csv", FLEET);
    write(at, "list.csv", &list());
    folder
}

fn write(folder: &Path, name: &str, text: &str) {
    std::fs::write(folder.join(name), text).expect("a file");
}

/// A folder whose list was audited; its workbook is `book.xlsx`.
fn audited() -> TempDir {
    let folder = folder();
    let output = audit_in(folder.path(), &["list.csv", "--out", "book.xlsx"]);
    assert_eq!(status(&output), 1, "{}", said(&output));
    folder
}

fn decide(at: &Path, book: &str) -> Output {
    dockheft(at, &["decide", book, "--date", DAY, "--out", "fresh.xlsx"])
}

fn told(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// "ITEM decision name kilograms" of every decision that stands, by item.
fn decided(at: &Path) -> Vec<String> {
    let output = dockheft(at, &["trace", "--json"]);
    let mut all: Vec<String> = parsed(&output.stdout)
        .iter()
        .filter(|hit| hit["latest"] == true && hit["decision"].is_object())
        .map(|hit| {
            let text = |value: &Value| value.as_str().unwrap_or("none").to_string();
            let kg = hit["decision"]["plan_kg"].as_f64();
            format!(
                "{} {} {} {}",
                text(&hit["load"]["item"]),
                text(&hit["decision"]["decision"]),
                text(&hit["decision"]["name"]),
                kg.map_or("none".to_string(), |kg| format!("{kg:.1}"))
            )
        })
        .collect();
    all.sort();
    all
}

/// Five decisions, typed as people type.
fn fill(book: &mut Book) {
    book.decide(
        "SB-1",
        "weighed",
        "975",
        "scale ticket 4471",
        "J. Rook",
        "2026-11-25",
    );
    book.decide(
        "SB-2",
        " Weighed",
        "2,040 lb",
        "scale ticket 4472",
        "J. Rook",
        "25/11/2026",
    );
    book.decide("SB-3", "USE ESTIMATE", "", "", "J. Rook", "2026-11-26");
    book.decide(
        "SB-4",
        "supplier-corrected",
        "450 kg",
        "letter of 25 Nov",
        "M. Tern",
        "2026-11-25",
    );
    book.decide("SB-5", "refused", "", "", "J. Rook", "2026-11-25");
}

/// The same as the ledger has it: 975 lb = 442.3 kg; 2,040 lb = 925.3 kg.
const FILLED: [&str; 5] = [
    "SB-1 weighed J. Rook 442.3",
    "SB-2 weighed J. Rook 925.3",
    "SB-3 use estimate J. Rook ESTIMATE",
    "SB-4 supplier corrected M. Tern 450.0",
    "SB-5 refused J. Rook none",
];

#[track_caller]
fn assert_filled(at: &Path) {
    let found = decided(at);
    assert_eq!(found.len(), FILLED.len(), "{found:?}");
    for (found, expected) in found.iter().zip(FILLED) {
        match expected.strip_suffix("ESTIMATE") {
            // 444.5 kg as the sizes have it, and its margin.
            Some(begin) => {
                let kg = found
                    .strip_prefix(begin)
                    .and_then(|kg| kg.parse::<f64>().ok());
                assert!(kg.is_some_and(|kg| (444.0..540.0).contains(&kg)), "{found}");
            }
            None => assert_eq!(found, expected),
        }
    }
}

#[test]
fn decisions_come_back_and_the_fresh_plan_uses_them() {
    let folder = audited();
    let at = folder.path();
    Book::edit(&at.join("book.xlsx"), &at.join("book.xlsx"), fill);
    let output = decide(at, "book.xlsx");
    assert_eq!(status(&output), 1, "{}", said(&output));
    let text = told(&output);
    for part in [
        "5 decisions recorded",
        "Steel block 2 (Tarn Steel, list.csv of 2026-11-25)",
        "planned with 2,040 lb (until now ",
        // More than truck A carries, and what it does carry now.
        ", truck B (as before): may be lifted",
        ", truck A (until now B): may be lifted",
        "fresh.xlsx",
    ] {
        assert!(text.contains(part), "{part}: {text}");
    }
    assert_filled(at);
    let fresh = Book::open(&at.join("fresh.xlsx"));
    assert_eq!(
        fresh.cell("Lift plan", "SB-1", "Planning weight of one lift (lb)"),
        "975"
    );
    assert_eq!(fresh.cell("Lift plan", "SB-2", "Truck"), "B");
}

/// Rows sorted, a row deleted, columns moved, one added, the heading row no longer first, another file name, sheets taken out.
#[test]
fn whatever_is_sorted_moved_or_taken_out_the_decisions_arrive() {
    let folder = audited();
    let at = folder.path();
    Book::edit(&at.join("book.xlsx"), &at.join("sent back.xlsx"), |book| {
        fill(book);
        book.sheets.retain(|(name, _)| name == "Exceptions");
        let rows = book.exceptions();
        rows.retain(|row| !row.iter().any(|cell| cell == "SB-6"));
        rows[1..].reverse();
        rows[1..].rotate_left(2);
        for row in rows.iter_mut() {
            row.reverse();
            row.insert(3, "mine".to_string());
        }
        rows.insert(0, vec!["Monday".to_string()]);
    });
    let output = decide(at, "sent back.xlsx");
    assert_eq!(status(&output), 1, "{}", said(&output));
    assert!(!told(&output).contains("Altered"), "{}", told(&output));
    assert_filled(at);
}

#[test]
fn altered_cells_are_named_and_change_nothing() {
    let folder = audited();
    let at = folder.path();
    Book::edit(&at.join("book.xlsx"), &at.join("book.xlsx"), |book| {
        fill(book);
        book.set("SB-2", "Verdict", "consistent");
    });
    let output = decide(at, "book.xlsx");
    assert_eq!(status(&output), 1, "{}", said(&output));
    let text = told(&output);
    assert!(
        text.contains("\"Verdict\": now \"consistent\", the program wrote \"light\""),
        "{text}"
    );
    assert_filled(at);
}

#[test]
fn a_workbook_sent_twice_is_recorded_once() {
    let folder = audited();
    let at = folder.path();
    Book::edit(&at.join("book.xlsx"), &at.join("book.xlsx"), fill);
    assert_eq!(status(&decide(at, "book.xlsx")), 1);
    let before = std::fs::read(at.join("ledger.dockheft"))
        .expect("a ledger")
        .len();
    let again = dockheft(at, &["decide", "book.xlsx", "--date", DAY]);
    assert_eq!(status(&again), 0, "{}", said(&again));
    let text = told(&again);
    assert!(text.contains("5 decisions already on record"), "{text}");
    let after = std::fs::read(at.join("ledger.dockheft"))
        .expect("a ledger")
        .len();
    assert_eq!(before, after);
    // The fresh workbook, sent back without a new decision, has none either.
    let nothing = dockheft(at, &["decide", "fresh.xlsx", "--date", DAY]);
    assert_eq!(status(&nothing), 0, "{}", said(&nothing));
    assert!(
        told(&nothing).contains("no decision is filled in"),
        "{}",
        told(&nothing)
    );
}

/// An older copy with another decision: the later one is added, and says what stood before.
#[test]
fn an_older_copy_decides_beside_the_earlier_and_shows_it() {
    let folder = audited();
    let at = folder.path();
    let book = at.join("book.xlsx");
    Book::edit(&book, &at.join("first.xlsx"), |book| {
        book.decide("SB-1", "use estimate", "", "", "J. Rook", DAY);
    });
    Book::edit(&book, &at.join("second.xlsx"), |book| {
        book.decide("SB-1", "weighed", "975", "scale ticket 9", "M. Tern", DAY);
    });
    assert_eq!(status(&decide(at, "first.xlsx")), 1);
    let later = decide(at, "second.xlsx");
    assert_eq!(status(&later), 1, "{}", said(&later));
    let text = told(&later);
    assert!(
        text.contains("BEFORE: \"use estimate\" by J. Rook, recorded 2"),
        "{text}"
    );
    assert_eq!(decided(at), ["SB-1 weighed M. Tern 442.3"]);
    // The first copy once more changes nothing, and says what stands.
    let first = decide(at, "first.xlsx");
    assert!(
        told(&first).contains("since then \"weighed\" by M. Tern"),
        "{}",
        told(&first)
    );
    assert_eq!(decided(at), ["SB-1 weighed M. Tern 442.3"]);
}

/// Twelve blocks declared in kilograms under a heading in pounds.
fn column() -> String {
    let row = |at: u32| {
        let kg = 444.52 * f64::from(at) / 12.0;
        format!("Tarn Steel,SB-{at},Steel block,1,24,12,{at},{kg:.1}\n")
    };
    let rows: String = (8..20).map(row).collect();
    format!("{HEADINGS}{rows}Tarn Steel,SB-99,Sundries as per drawing,1,,,,50\n")
}

#[test]
fn one_decision_settles_a_whole_column() {
    let folder = folder();
    let at = folder.path();
    write(at, "list.csv", &column());
    audit_in(at, &["list.csv", "--out", "book.xlsx"]);
    Book::edit(&at.join("book.xlsx"), &at.join("book.xlsx"), |book| {
        book.decide("SB-99", "weighed", "120", "scale ticket 5", "M. Tern", DAY);
        let row = book.row("Description", "the whole delivery");
        book.decide_row(
            row,
            "supplier corrected",
            "",
            "e-mail of the mill",
            "J. Rook",
            DAY,
        );
    });
    let output = decide(at, "book.xlsx");
    assert!(status(&output) < 2, "{}", said(&output));
    let all = decided(at);
    assert_eq!(all.len(), 13, "{all:?}");
    // What is decided on a line by itself goes before.
    assert_eq!(all[12], "SB-99 weighed M. Tern 54.4");
    // Twelve inches of height: 980 lb, declared as 444.5.
    assert!(
        all.contains(&"SB-12 supplier corrected J. Rook 444.5".to_string()),
        "{all:?}"
    );
    let story = dockheft(at, &["trace", "--item", "SB-12", "--json"]);
    let planned = &parsed(&story.stdout)[0]["load"]["planning"];
    assert_eq!(planned["from"], "decided", "{planned}");
}
