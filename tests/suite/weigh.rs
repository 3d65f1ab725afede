//! `dockheft weigh`: one load typed at the dock. Masses from published figures, what is not understood, the truck, the status.

use crate::helper::{DAY, codes, dockheft, faults, line, parsed, said, si, status, truck, us};
use serde_json::Value;
use std::path::Path;
use std::process::Output;
use tempfile::TempDir;

const FLEET: &str = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Attachment,Fitted,Available,Out until,Inspection due\n\
    A,V,3000,24,160,,,yes,,2027-06-01\n\
    B,V,5000,24,160,,,yes,2026-12-04,2027-06-01\n\
    C,V,8000,24,100,,,yes,,2027-06-01\n\
    D,V,4000,24,160,drum clamp,drum clamp,yes,,2027-06-01\n";

/// A folder with a register.
pub fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("fleet.csv"), FLEET).expect("a file");
    folder
}

pub fn weigh(folder: &Path, text: &str, more: &[&str]) -> Output {
    dockheft(folder, &[&["weigh", text, "--date", DAY], more].concat())
}

pub fn text(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// The record of a typed load.
#[track_caller]
pub fn record(folder: &Path, text: &str, more: &[&str]) -> Value {
    let output = weigh(folder, text, &[&["--json", "--quiet"], more].concat());
    let mut records = parsed(&output.stdout);
    assert_eq!(records.len(), 1, "{text}: {}", said(&output));
    records.remove(0)
}

/// A typed load is understood as the same text in a list's description cell.
#[test]
fn a_typed_load_reads_like_a_list() {
    let folder = folder();
    let fleet = ["--fleet", "fleet.csv", "--units", "us"];
    for (typed, cells) in [
        (
            "steel plate 1/2\" x 48\" x 96\" x 2",
            "\"steel plate 1/2\"\" x 48\"\" x 96\"\"\",2,",
        ),
        (
            "W12x26 20 ft x 4 declared 2080 lb",
            "W12x26 20 ft,4,2080 lb",
        ),
        (
            "6 crates pump declared 400 lb each",
            "crates pump,6 crates,400 lb each",
        ),
        ("sundry goods", "sundry goods,1,"),
    ] {
        let mut typed = record(folder.path(), typed, &fleet);
        let list = format!("Description,Quantity,Weight\n{cells}\n");
        let mut listed = line(&list, Some(FLEET), us());
        for own in ["audit", "line", "file", "delivery"] {
            typed[own] = Value::Null;
            listed[own] = Value::Null;
        }
        let text = |record: &Value| record.to_string().replace("D2", "C2");
        assert_eq!(text(&typed), text(&listed));
    }
    let metric = record(folder.path(), "steel plate 10 x 1000 x 2000 mm", &[]);
    let listed = line(
        "Description,Quantity\nsteel plate 10 x 1000 x 2000 mm,1\n",
        None,
        si(),
    );
    assert_eq!(metric["estimate"], listed["estimate"]);
}

#[test]
fn the_record_keeps_its_schema() {
    let folder = folder();
    let records: Vec<Value> = [
        "pipe OD 30 in ID 24 in L 8 ft reinforced concrete x 3",
        "unobtanium plate 10 mm x 1 m x 2 m",
        "pump 1200x800x900 mm cast iron",
        "W12x26 20 ft x 4 declared 900 lb",
    ]
    .iter()
    .map(|typed| record(folder.path(), typed, &["--fleet", "fleet.csv"]))
    .collect();
    assert_eq!(faults(&records), Vec::<String>::new());
    let output = weigh(folder.path(), "W12x26 20 ft", &["--json"]);
    assert!(
        said(&output).contains("26 lb/ft x 20 (ft) = 520 lb"),
        "text for people goes to standard error: {}",
        said(&output)
    );
}

#[test]
fn options_decide_the_truck() {
    let folder = folder();
    let chosen = |typed: &str, more: &[&str]| {
        let more = [&["--fleet", "fleet.csv"], more].concat();
        truck(&record(folder.path(), typed, &more)).map(str::to_string)
    };
    let block = "steel block 30 in x 20 in x 36 in";
    let cases: [(&str, &[&str], Option<&str>); 9] = [
        // 12.5 ft3 x 490 lb/ft3 = 6,125 lb.
        (block, &[], Some("C")),
        // C's only row holds to 100 in.
        (block, &["--height", "100 in"], Some("C")),
        (block, &["--height", "3 m"], None),
        (block, &["--attachment", "drum clamp"], None),
        (
            "W12x26 20 ft x 4",
            &["--attachment", "Drum Clamp"],
            Some("D"),
        ),
        ("W12x26 20 ft x 4", &[], Some("A")),
        ("W12x26 20 ft", &["--pieces", "8"], Some("C")),
        // 3,800 lb, 4,180 planned; entered endwise its load centre is 120 in: 8,000 x 24 / 120 = 1,600 lb.
        ("W12x190 20 ft", &[], Some("C")),
        ("W12x190 20 ft", &["--entered", "endwise"], None),
    ];
    for (typed, more, expected) in cases {
        assert_eq!(chosen(typed, more).as_deref(), expected, "{typed} {more:?}");
    }
    // B is back on the fifth.
    let later = dockheft(
        folder.path(),
        &[
            "weigh",
            "W12x26 20 ft",
            "--pieces",
            "8",
            "--fleet",
            "fleet.csv",
            "--date",
            "2026-12-05",
            "--json",
            "--quiet",
        ],
    );
    assert_eq!(truck(&parsed(&later.stdout)[0]), Some("B"));
}

#[test]
fn without_a_truck_it_says_what_is_missing_and_what_would_do() {
    let folder = folder();
    let said = |typed: &str, more: &[&str]| {
        let output = weigh(
            folder.path(),
            typed,
            &[&["--fleet", "fleet.csv"], more].concat(),
        );
        assert_eq!(status(&output), 1, "{typed}");
        // Lines are broken between any two words.
        let words: Vec<String> = text(&output)
            .split_whitespace()
            .map(str::to_string)
            .collect();
        words.join(" ")
    };
    let endwise = said("W12x190 20 ft", &["--entered", "endwise"]);
    assert!(
        endwise.contains("NO TRUCK") && endwise.contains("Why none of the trucks"),
        "{endwise}"
    );
    assert!(
        endwise.contains("C would do, if the load is turned and entered broadside"),
        "{endwise}"
    );
    // 8 ft3 of steel, 3,920 lb: above 100 in only B would do, and B is out.
    let out = said("steel block 24 in x 24 in x 24 in", &["--height", "120 in"]);
    assert!(out.contains("B would do from 2026-12-05"), "{out}");
    let divided = said("W12x26 20 ft x 4", &["--entered", "endwise"]);
    assert!(
        divided.contains("; HELD")
            && divided.contains("or whole A would do, if the load is turned"),
        "{divided}"
    );
    let heavy = said("steel block 60 in x 60 in x 60 in", &[]);
    assert!(
        heavy.contains("heavier lifting gear, planned by a competent person"),
        "{heavy}"
    );
    assert!(!heavy.contains("would do"), "{heavy}");
    // An outline proves a lift only by its upper bound.
    let pump = said("cast iron pump 60 in x 60 in x 60 in", &[]);
    assert!(
        pump.contains("NO TRUCK") && pump.contains("a solid block of these sizes"),
        "{pump}"
    );
}

#[test]
fn what_is_not_understood_is_named_with_the_nearest() {
    let folder = folder();
    for (typed, parts) in [
        (
            "alumnium plate 10 mm x 1 m x 2 m",
            &[
                "\"alumnium\"; the nearest material known: aluminium",
                "the material is not stated",
                "10 mm",
            ][..],
        ),
        (
            "unobtanium plate 10 mm x 1 m x 2 m",
            &["Not understood: \"unobtanium\"", "solid lead"],
        ),
        (
            "steel plate 10 mm x 1 m",
            &["width", "is not stated", "dockheft tables"],
        ),
        ("W12x26", &["W12x26: the length is not stated"]),
        ("Total: 3 pieces", &["No goods"]),
        (
            "gizmo",
            &[
                "Not understood: \"gizmo\"",
                "no size is stated",
                "do not lift it",
            ],
        ),
    ] {
        let output = weigh(folder.path(), typed, &["--fleet", "fleet.csv"]);
        assert_eq!(status(&output), 1, "{typed}: {}", text(&output));
        for part in parts {
            assert!(
                text(&output).contains(part),
                "{typed}: {part}\n{}",
                text(&output)
            );
        }
    }
}

#[test]
fn a_declared_weight_is_judged() {
    let folder = folder();
    let fits = record(folder.path(), "W12x26 20 ft declared 520 lb", &[]);
    assert_eq!(fits["verdict"], "consistent");
    let light = record(folder.path(), "W12x26 20 ft declared 236 lb", &[]);
    assert!(codes(&light).contains(&"declared-light"), "{light}");
    assert_eq!(light["declared"]["text"], "236 lb");
    let output = weigh(
        folder.path(),
        "W12x26 20 ft declared 236 lb",
        &["--fleet", "fleet.csv"],
    );
    // A truck is named for the larger weight, and the question stays.
    assert_eq!(status(&output), 1);
    assert!(text(&output).contains("(\"236 lb\")"), "{}", text(&output));
}

#[test]
fn statuses() {
    let folder = folder();
    std::fs::write(
        folder.path().join("none.csv"),
        "Truck,Class,Capacity (lb),Load centre (in)\nB,V,five thousand,24\n",
    )
    .expect("a file");
    let beam = "W12x26 20 ft";
    let cases: [(&[&str], i32); 16] = [
        (&[beam, "--fleet", "fleet.csv"], 0),
        // Without a register there is no truck.
        (&[beam], 1),
        (&[beam, "--fleet", "absent.csv"], 3),
        (&[beam, "--fleet", "none.csv"], 3),
        (&[beam, "--site", "absent.toml"], 3),
        (&[], 2),
        (&[""], 2),
        (&["x 3"], 2),
        (&["beam", "W12x26"], 2),
        (&["steel plate 10 mm x 3 m x 2"], 2),
        (&["concrete block 2 x 2 x 1 m"], 2),
        (&["pump declared 2040"], 2),
        (&[beam, "--height", "3"], 2),
        (&[beam, "--height", "high"], 2),
        (&[beam, "--pieces", "0"], 2),
        (&["W12x26 20 ft x 4", "--pieces", "5"], 2),
    ];
    for (args, expected) in cases {
        let output = dockheft(folder.path(), &[&["weigh", "--date", DAY], args].concat());
        assert_eq!(
            status(&output),
            expected,
            "{args:?}: {}{}",
            said(&output),
            text(&output)
        );
        assert!(expected != 2 || !said(&output).is_empty(), "{args:?}");
    }
    let quiet = weigh(folder.path(), beam, &["--fleet", "fleet.csv", "--quiet"]);
    assert_eq!(
        (status(&quiet), quiet.stdout.len(), said(&quiet)),
        (0, 0, String::new())
    );
}

/// The units typed are those of the answer; the site's where none are typed; `--units` beats both.
#[test]
fn the_answer_is_in_the_units_typed() {
    let folder = folder();
    for (typed, more, unit) in [
        ("steel plate 1/2 in x 48 in x 96 in", &[][..], "lb"),
        ("steel plate 10 mm x 1 m x 2 m", &[], "kg"),
        ("steel plate 10 mm x 1 m x 2 m", &["--units", "us"], "lb"),
        ("water 4 drums 55 gal", &[], "kg"),
    ] {
        let said = text(&weigh(folder.path(), typed, more));
        let other = if unit == "lb" {
            " kg a lift"
        } else {
            " lb a lift"
        };
        assert!(
            said.contains(&format!(" {unit} a lift")) && !said.contains(other),
            "{typed} {more:?}: {said}"
        );
    }
}
