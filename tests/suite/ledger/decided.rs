//! What a decision lands on, how long it stands, and what it needs.

use super::{HEADINGS, audited, folder, list, out, write};
use crate::helper::{audit_in, dockheft, parsed, said, status};
use serde_json::Value;
use std::path::Path;
use std::process::Output;

const PALLET: &str = "Item,Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n\
    \"Pallet 1 - 985 lb gross\",,,,,,\nSB-1,Steel block,1,24,12,12,\nSB-2,Steel block,1,24,12,12,\n";

/// Every load on record, the newest first.
fn on_record(at: &Path) -> Vec<Value> {
    parsed(&dockheft(at, &["trace", "--json"]).stdout)
}

pub(super) fn decide(at: &Path, id: &str, more: &[&str]) -> Output {
    let args = ["decide", "--line", id, "--by", "J. Rook"];
    dockheft(at, &[&args, more].concat())
}

fn id(load: &Value) -> &str {
    load["id"].as_str().expect("an id")
}

fn is_package(load: &&Value) -> bool {
    load["load"]["schema"] == "dockheft.package/1"
}

/// Two suppliers send a list of one name: its package has one name and one place in both.
#[test]
fn a_decision_on_a_package_lands_on_that_suppliers() {
    let folder = folder();
    let at = folder.path();
    write(at, "list.csv", PALLET);
    for supplier in ["Tarn Steel", "Marten Yard"] {
        let output = audit_in(at, &["list.csv", "--supplier", supplier]);
        assert!(status(&output) < 2, "{}", said(&output));
    }
    let all = on_record(at);
    let packages: Vec<&Value> = all.iter().filter(is_package).collect();
    let [_, first] = packages[..] else {
        panic!("two packages: {all:?}")
    };
    let taken = decide(at, id(first), &["--as", "use estimate"]);
    assert_eq!(status(&taken), 0, "{}", said(&taken));
    let decided: Vec<i64> = on_record(at)
        .iter()
        .filter(|load| load["decision"].is_object())
        .filter_map(|load| load["record"].as_i64())
        .collect();
    assert_eq!(Some(decided), first["record"].as_i64().map(|one| vec![one]));
}

/// A line says which package to decide on, and that can be decided, also where two files of one audit have one name.
#[test]
fn a_package_of_one_of_two_files_can_be_decided_on() {
    let folder = folder();
    let at = folder.path();
    for (name, list) in [("a", PALLET), ("b", &PALLET.replace("985", "990"))] {
        std::fs::create_dir(at.join(name)).expect("a folder");
        write(&at.join(name), "list.csv", list);
    }
    let output = audit_in(at, &["a/list.csv", "b/list.csv"]);
    assert!(status(&output) < 2, "{}", said(&output));
    let all = on_record(at);
    let packages: Vec<&str> = all.iter().filter(is_package).map(id).collect();
    assert_eq!(packages.len(), 2, "{all:?}");
    for line in all.iter().filter(|load| !is_package(load)) {
        let refused = decide(at, id(line), &["--as", "use estimate"]);
        assert_eq!(status(&refused), 3, "{}", said(&refused));
        let text = said(&refused);
        let of = packages.iter().find(|id| text.contains(**id));
        let package = of.unwrap_or_else(|| panic!("no id of a package: {text}"));
        let taken = decide(at, package, &["--as", "use estimate"]);
        assert_eq!(status(&taken), 0, "{}", said(&taken));
    }
}

/// Lines on record as "item decision" or "item open", the newest record first.
fn standings(at: &Path) -> Vec<String> {
    let all = on_record(at);
    let told = |load: &Value| {
        let item = load["load"]["item"].as_str().unwrap_or("none");
        let decision = load["decision"]["decision"].as_str().unwrap_or("open");
        format!("{item} {decision}")
    };
    all.iter().map(told).collect()
}

/// A supplier who writes every list as list.csv: last week's decision says nothing of this week's goods.
#[test]
fn a_decision_stands_for_the_same_file_and_no_other() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let light = super::id(at, "SB-2");
    let taken = decide(
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
    assert_eq!(status(&taken), 0, "{}", said(&taken));
    audited(at, "list.csv");
    assert_eq!(
        standings(at)[..2],
        ["SB-2 weighed", "SB-1 open"],
        "the same bytes again"
    );
    // Another first line, and the row of the decision word for word.
    write(at, "list.csv", &list(490).replace(",985", ",984"));
    audited(at, "list.csv");
    assert_eq!(
        standings(at),
        [
            "SB-2 open",
            "SB-1 open",
            "SB-2 weighed",
            "SB-1 open",
            "SB-2 weighed",
            "SB-1 open"
        ]
    );
    let open = dockheft(at, &["trace", "--decision", "open"]);
    assert!(out(&open).contains(&light), "{}", out(&open));
    assert!(
        out(&open).contains("made on an earlier list: another file"),
        "{}",
        out(&open)
    );
    let story = out(&dockheft(at, &["trace", "--line", &light]));
    assert!(story.contains("made on an earlier list"), "{story}");
}

/// A list of the same file name, from somebody else or with other lines, is another delivery: what is open stays open.
#[test]
fn a_strangers_list_hides_no_open_line() {
    let folder = folder();
    let at = folder.path();
    let no_supplier = |list: String| list.replace(",Tarn Steel", ",");
    let others = [
        ("no supplier", no_supplier(list(979))),
        (
            "another supplier",
            list(979).replace("Tarn Steel", "Marten Yard"),
        ),
        ("other lines", list(979).replace("SB-", "XB-")),
    ];
    audited(at, "list.csv");
    for (what, other) in others {
        write(at, "list.csv", &other);
        audited(at, "list.csv");
        let open = dockheft(at, &["trace", "--decision", "open", "--json"]);
        let open = parsed(&open.stdout);
        assert_eq!(open.len(), 1, "{what}: {open:?}");
        assert_eq!(open[0]["load"]["item"], "SB-2", "{what}");
    }
    // The supplier's own corrected list settles it.
    write(at, "list.csv", &list(979));
    audited(at, "list.csv");
    assert_eq!(status(&dockheft(at, &["trace", "--decision", "open"])), 1);
}

/// Twelve blocks declared in kilograms under a heading in pounds, as one supplier's list.
fn column(supplier: &str, item: &str) -> String {
    // Steel at 490 lb/ft3 (AISC Manual): 24 x 12 in by the inch of height.
    let row = |at: u32| {
        let kg = 444.52 * f64::from(at) / 12.0;
        format!("D-2,{supplier},PO 8,{item}-{at},Steel block,1,24,12,{at},{kg:.1}\n")
    };
    format!("{HEADINGS}{}", (8..20).map(row).collect::<String>())
}

/// `decide --delivery` never picks one of several suppliers' lists of a name by itself.
#[test]
fn a_decision_on_a_delivery_asks_whose() {
    let folder = folder();
    let at = folder.path();
    for supplier in ["Tarn Steel", "Marten Yard"] {
        write(at, "column.csv", &column(supplier, "SB"));
        audited(at, "column.csv");
    }
    let whole = |more: &[&str]| {
        let args = [
            "decide",
            "--delivery",
            "column",
            "--cause",
            "kg-lb",
            "--by",
            "J. Rook",
        ];
        let kind = [
            "--as",
            "supplier corrected",
            "--evidence",
            "letter of the mill",
        ];
        dockheft(at, &[&args[..], &kind, more].concat())
    };
    let asked = whole(&[]);
    assert_eq!(status(&asked), 3, "{}", said(&asked));
    for supplier in ["Tarn Steel", "Marten Yard", "--supplier"] {
        assert!(said(&asked).contains(supplier), "{}", said(&asked));
    }
    let taken = whole(&["--supplier", "tarn steel"]);
    assert_eq!(status(&taken), 0, "{}", said(&taken));
    assert_eq!(
        out(&taken).matches("(Tarn Steel, column.csv of ").count(),
        12
    );
    let all = on_record(at);
    let other = |load: &&Value| load["load"]["supplier"] == "Marten Yard";
    assert!(
        all.iter()
            .filter(other)
            .all(|load| load["decision"].is_null())
    );
    // The ids are the same in both lists.
    let line = decide(at, id(&all[0]), &["--as", "use estimate"]);
    assert_eq!(status(&line), 3, "{}", said(&line));
    assert!(said(&line).contains("Marten Yard"), "{}", said(&line));
    let line = decide(
        at,
        id(&all[0]),
        &["--as", "use estimate", "--supplier", "Marten Yard"],
    );
    assert_eq!(status(&line), 0, "{}", said(&line));
    // Another list of one supplier under the same name.
    write(at, "column.csv", &column("Tarn Steel", "XB"));
    audited(at, "column.csv");
    let asked = whole(&["--supplier", "Tarn Steel"]);
    assert_eq!(status(&asked), 3, "{}", said(&asked));
}

/// What the supplier's corrected list no longer has is not decided on.
#[test]
fn a_line_that_is_gone_is_not_decided_on() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let light = super::id(at, "SB-2");
    let shorter: Vec<String> = list(490).lines().take(2).map(str::to_string).collect();
    write(at, "list.csv", &(shorter.join("\n") + "\n"));
    audited(at, "list.csv");
    let refused = decide(at, &light, &["--as", "use estimate"]);
    assert_eq!(status(&refused), 3, "{}", said(&refused));
    assert!(
        said(&refused).contains("no longer has this line"),
        "{}",
        said(&refused)
    );
}

/// The truck stays the one of the audit, whatever was decided in between.
#[test]
fn heavier_is_heavier_than_the_truck_was_matched_for() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    // Planned with 1,078 lb.
    let light = super::id(at, "SB-2");
    let decided = |more: &[&str]| {
        let output = decide(at, &light, more);
        assert_eq!(status(&output), 0, "{}", said(&output));
        out(&output)
    };
    let heavier = "HEAVIER than the truck was matched for";
    let weighed = |weight: &str| {
        decided(&[
            "--as",
            "weighed",
            "--weight",
            weight,
            "--evidence",
            "scale ticket 12",
        ])
    };
    assert!(weighed("4000 lb").contains(heavier));
    assert!(
        weighed("3000 lb").contains(heavier),
        "lighter than decided before"
    );
    assert!(!weighed("1000 lb").contains(heavier));
    decided(&["--as", "refused"]);
    let after = weighed("3000 lb");
    assert!(after.contains(heavier), "{after}");
    assert!(after.contains("until now not lifted"), "{after}");
    let story = out(&dockheft(at, &["trace", "--line", &light]));
    let story: Vec<&str> = story.split_whitespace().collect();
    assert!(
        story.join(" ").contains("until then not lifted"),
        "{story:?}"
    );
}

/// A story is text: asked for as records or as a workbook, it is not silently given as something else.
#[test]
fn a_story_as_records_is_wrong_usage() {
    let folder = folder();
    let at = folder.path();
    audited(at, "list.csv");
    let light = super::id(at, "SB-2");
    for more in [&["--json"][..], &["--out", "story.xlsx"]] {
        let output = dockheft(at, &[&["trace", "--line", &light], more].concat());
        assert_eq!(status(&output), 2, "{}", said(&output));
    }
}
