//! A piece weighed once need not be guessed again: weighings of earlier deliveries, through the ledger.

use super::known::{agrees, audit, decide, line, severity};
use super::{HEADINGS, audited, folder, id, list, out, write};
use crate::helper::{DAY, LB, dockheft, parsed, said, status};
use serde_json::Value;
use std::path::Path;

/// A delivery of its own (its order is not that of another) of one block: 2 ft3 of steel at 490 lb/ft3 (AISC Manual) are 980 lb.
fn block(at: &Path, name: &str, pieces: u32, weight: &str) {
    let row = format!("D-1,Tarn Steel,PO {name},SB-2,Steel block,{pieces},24,12,12,{weight}\n");
    write(at, name, &format!("{HEADINGS}{row}"));
}

/// The block of a delivery, audited on a day.
#[track_caller]
fn on(at: &Path, name: &str, day: &str) -> Value {
    let output = dockheft(at, &["audit", "--date", day, name, "--json"]);
    assert!(status(&output) < 2, "{}", said(&output));
    line(&parsed(&output.stdout), "SB-2")
}

/// Weighs the block of the delivery that was audited last.
#[track_caller]
fn weigh(at: &Path, name: &str, weight: &str, ticket: &str) {
    let block = on(at, name, DAY);
    let line = block["line"].as_str().expect("an id");
    decide(
        at,
        line,
        &["--as", "weighed", "--weight", weight, "--evidence", ticket],
    );
}

fn expected(line: &Value) -> [f64; 3] {
    let of = |key: &str| line["estimate"][key].as_f64().expect("kilograms");
    [of("low_kg"), of("likely_kg"), of("high_kg")]
}

#[test]
fn a_weighing_narrows_the_next_delivery_and_the_story_says_why() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let weighed = id(at, "SB-2");
    let ticket = ["--evidence", "scale ticket 12"];
    decide(
        at,
        &weighed,
        &[&["--as", "weighed", "--weight", "978 lb"], &ticket[..]].concat(),
    );
    block(at, "next.csv", 3, "");
    let (without, _) = audit_of(at, "next.csv", &["--no-ledger"]);
    let (with, _) = audit_of(at, "next.csv", &[]);
    let [guessed, known] = [&without, &with].map(expected);
    assert_eq!(without["estimate"]["evidence"], "shape");
    assert_eq!(with["estimate"]["evidence"], "weighed");
    assert_ne!(without["audit"], with["audit"], "it knows more");
    // Three of 978 lb, and the scale may be 2 % off.
    let likely = 3.0 * 978.0 * LB;
    for (known, share) in known.iter().zip([0.98, 1.0, 1.02]) {
        assert!((known - share * likely).abs() < 1e-6, "{known}");
    }
    assert!(known[2] - known[0] < guessed[2] - guessed[0]);
    // Likely and the margin of 10 %: no list says what it weighs.
    let planned = with["planning"]["line_kg"].as_f64().expect("a plan");
    assert!((planned - 1.1 * likely).abs() < 1e-6, "{planned}");
    let story = out(&dockheft(
        at,
        &["trace", "--line", with["line"].as_str().expect("an id")],
    ));
    let told: Vec<&str> = story.split_whitespace().collect();
    let told = told.join(" ");
    for part in [
        "one piece, weighed on 20",
        "list.csv J3",
        &format!("line {weighed}"),
        "by J. Rook, scale ticket 12; record ",
        "= 978 lb / 1 = 978 lb",
    ] {
        assert!(told.contains(part), "{part}: {story}");
    }
    // Another supplier's block, and another part number, were never weighed.
    for other in [
        list(490).replace("Tarn Steel", "Marten Yard"),
        list(490).replace("SB-2", "SB-3").replace("SB-1", "SB-2"),
    ] {
        write(at, "other.csv", &other);
        let (line, _) = audit_of(at, "other.csv", &["--no-ledger"]);
        let (known, _) = audit_of(at, "other.csv", &[]);
        if other.contains("Marten") {
            assert_eq!(line["estimate"], known["estimate"]);
        } else {
            assert_eq!(known["estimate"]["evidence"], "weighed");
        }
    }
    agrees(at);
}

/// The block's line of a delivery, with what was told on the terminal.
#[track_caller]
fn audit_of(at: &Path, name: &str, more: &[&str]) -> (Value, String) {
    let (records, told) = audit(at, name, more);
    (line(&records, "SB-2"), told)
}

#[test]
fn one_that_is_out_of_date_or_was_taken_back_does_not_count() {
    let folder = folder();
    let at = folder.path();
    block(at, "first.csv", 1, "985");
    weigh(at, "first.csv", "978 lb", "scale ticket 12");
    block(at, "next.csv", 1, "985");
    let evidence = |day: &str| on(at, "next.csv", day)["estimate"]["evidence"].clone();
    assert_eq!(evidence(DAY), "weighed");
    assert_eq!(evidence("2090-01-01"), "shape");
    // The site may look back as long as it likes, or not at all.
    let site = "units = \"us\"\nfleet = \"fleet.csv\"\n";
    write(at, "site.toml", &format!("{site}weighings_months = 0\n"));
    assert_eq!(evidence(DAY), "shape");
    write(at, "site.toml", site);
    // A later decision on the same line takes its place.
    let first = on(at, "first.csv", DAY);
    let first = first["line"].as_str().expect("an id");
    decide(at, first, &["--as", "use estimate"]);
    assert_eq!(evidence(DAY), "shape");
    agrees(at);
}

/// The list came again with another number of pieces: whoever weighed the first one weighed another line.
#[test]
fn of_a_delivery_only_the_latest_list_counts() {
    let folder = folder();
    let at = folder.path();
    block(at, "first.csv", 1, "985");
    weigh(at, "first.csv", "978 lb", "scale ticket 12");
    block(at, "next.csv", 1, "985");
    let evidence = || on(at, "next.csv", DAY)["estimate"]["evidence"].clone();
    // The same bytes again are the same delivery, which counts once.
    on(at, "first.csv", DAY);
    assert_eq!(evidence(), "weighed");
    block(at, "first.csv", 2, "1970");
    let corrected = on(at, "first.csv", DAY);
    assert_eq!(
        corrected["estimate"]["evidence"], "shape",
        "its own weighing is no other one"
    );
    assert_eq!(evidence(), "shape");
    agrees(at);
}

#[test]
fn a_lone_odd_weighing_does_not_mislead() {
    let folder = folder();
    let at = folder.path();
    block(at, "first.csv", 1, "985");
    weigh(at, "first.csv", "97.8 lb", "scale ticket 12");
    block(at, "next.csv", 1, "985");
    let (line, told) = audit_of(at, "next.csv", &[]);
    assert_eq!(line["estimate"]["evidence"], "shape");
    assert_eq!(line["verdict"], "consistent");
    assert_eq!(severity(&line, "unlike-weighed-before"), "check");
    assert!(line["planning"]["line_kg"].as_f64() >= Some(985.0 * LB - 1e-6));
    assert!(told.contains("words and sizes make"), "{told}");
    // Two that agree outvote it.
    for (name, ticket) in [("second.csv", "13"), ("third.csv", "14")] {
        block(at, name, 1, "985");
        weigh(at, name, "978 lb", &format!("scale ticket {ticket}"));
    }
    let (line, _) = audit_of(at, "next.csv", &[]);
    assert_eq!(line["estimate"]["evidence"], "weighed");
    assert!((expected(&line)[1] - 978.0 * LB).abs() < 1e-6);
    agrees(at);
}

/// What a line itself was decided to weigh goes before what others weighed, and still stands when more is known.
#[test]
fn the_decision_on_a_line_stands_when_a_weighing_comes() {
    let folder = folder();
    let at = folder.path();
    block(at, "mine.csv", 1, "490");
    weigh(at, "mine.csv", "990 lb", "scale ticket 1");
    block(at, "first.csv", 1, "985");
    weigh(at, "first.csv", "978 lb", "scale ticket 12");
    let line = on(at, "mine.csv", DAY);
    assert_eq!(line["estimate"]["evidence"], "weighed");
    assert!(
        (expected(&line)[1] - 978.0 * LB).abs() < 1e-6,
        "the other's"
    );
    assert_eq!(line["planning"]["from"], "weighed");
    let planned = line["planning"]["line_kg"].as_f64().expect("a plan");
    assert!((planned - 990.0 * LB).abs() < 1e-6, "{planned}");
    assert_eq!(severity(&line, "unlike-weighed-before"), "note");
    agrees(at);
}

/// A pallet is planned as heavy as a weighing makes what stands on it, even one that words and sizes speak against.
#[test]
fn a_pallet_bears_a_doubted_weighing_too() {
    let folder = folder();
    let at = folder.path();
    block(at, "first.csv", 1, "985");
    weigh(at, "first.csv", "2400 lb", "scale ticket 12");
    let pallet = "Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n\
        \"Pallet 1 - 1970 lb gross\",,,,,,\nSB-1,Steel block,1,24,12,12,\nSB-2,Steel block,1,24,12,12,\n";
    write(at, "pallet.csv", pallet);
    let planned = |more: &[&str]| {
        let args = [&["--supplier", "Tarn Steel"], more].concat();
        let (records, _) = audit(at, "pallet.csv", &args);
        let mut packages = records.iter();
        let package = packages.find(|record| record["schema"] == "dockheft.package/1");
        let package = package.expect("a package");
        package["planning"]["line_kg"].as_f64().expect("a plan") / LB
    };
    assert!(planned(&["--no-ledger"]) < 2_100.0);
    // 2,400 lb and 2 %, the other block of 980 lb likely.
    assert!(planned(&[]) > 2_448.0 + 980.0 - 1.0);
    agrees(at);
}

/// The scale said more than the list declares: the list is not accepted against it on nothing.
#[test]
fn a_declared_weight_below_an_earlier_weighing_needs_evidence() {
    let folder = folder();
    let at = folder.path();
    block(at, "first.csv", 1, "980");
    weigh(at, "first.csv", "1500 lb", "scale ticket 12");
    block(at, "next.csv", 1, "980");
    let next = on(at, "next.csv", DAY);
    let planned = next["planning"]["line_kg"].as_f64().expect("a plan");
    assert!(planned > 1_500.0 * LB - 0.1, "{next}");
    accepted_with_evidence_alone(at, &next, "earlier weighings");
}

/// A bare figure may be kilograms: the lighter reading is not accepted on nothing.
#[test]
fn a_lighter_reading_than_is_planned_needs_evidence() {
    let folder = folder();
    let at = folder.path();
    let bare = "Supplier,Item,Description,Qty,Gross weight\nTarn Steel,SB-2,Pump base,1,5000\n";
    write(at, "list.csv", bare);
    let pump = on(at, "list.csv", DAY);
    assert_eq!(pump["planning"]["line_kg"], 5_000.0);
    accepted_with_evidence_alone(at, &pump, "another reading");
}

/// The declared weight of a line is not accepted without evidence, for a reason, and is with it.
#[track_caller]
fn accepted_with_evidence_alone(at: &Path, line: &Value, why: &str) {
    let id = line["line"].as_str().expect("an id");
    let accept = [
        "decide",
        "--line",
        id,
        "--by",
        "J. Rook",
        "--as",
        "accept declared",
    ];
    let refused = dockheft(at, &accept);
    assert_eq!(status(&refused), 3, "{}", said(&refused));
    assert!(said(&refused).contains(why), "{}", said(&refused));
    let ticket = ["--evidence", "scale ticket 5518"];
    let taken = dockheft(at, &[&accept[..], &ticket].concat());
    assert_eq!(status(&taken), 0, "{}", said(&taken));
}

/// A bracket of which nothing is known but its number, of one supplier.
fn brackets(at: &Path, name: &str, quantity: &str) -> Value {
    let headings = "Supplier,Order,Item,Description,Qty,Unit,Total gross weight (lb)";
    let row = format!("Tarn Steel,PO {name},B-77120,Bracket,{quantity}");
    // A column whose words are mostly unknown is none of units.
    let other = format!("Tarn Steel,PO {name},W-80440,Washer,1,pcs,");
    write(at, name, &format!("{headings}\n{row}\n{other}\n"));
    let output = dockheft(at, &["audit", "--date", DAY, name, "--json"]);
    assert!(status(&output) < 2, "{}", said(&output));
    line(&parsed(&output.stdout), "B-77120")
}

/// Four hundreds are no four pieces, and one piece that nobody counted is none.
#[test]
fn another_unit_of_the_quantity_is_other_goods() {
    for (weighed, unit_of_next, known) in [
        ("400,pcs,", "4,ea,", true),
        ("400,,", "4,pcs,", true),
        ("400,pcs,", "4,hundred,", false),
        ("400,pcs,", "4,EA/100,", false),
        ("4,hundred,", "4,pcs,", false),
        ("several,pcs,4000", "4,pcs,", false),
    ] {
        let folder = folder();
        let at = folder.path();
        let first = brackets(at, "first.csv", weighed);
        let ticket = [
            "--as",
            "weighed",
            "--weight",
            "4000 lb",
            "--evidence",
            "scale ticket 12",
        ];
        decide(at, first["line"].as_str().expect("an id"), &ticket);
        let next = brackets(at, "next.csv", unit_of_next);
        let evidence = &next["estimate"]["evidence"];
        assert_eq!(
            *evidence == "weighed",
            known,
            "{weighed} {unit_of_next}: {next}"
        );
        agrees(at);
    }
}
