//! `dockheft weigh`: one load typed at the dock. Masses from published figures, what is not understood, the truck, the status.

use crate::helper::{DAY, LB, codes, dockheft, faults, line, parsed, said, si, status, truck, us};
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
fn folder() -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    std::fs::write(folder.path().join("fleet.csv"), FLEET).expect("a file");
    folder
}

fn weigh(folder: &Path, text: &str, more: &[&str]) -> Output {
    dockheft(folder, &[&["weigh", text, "--date", DAY], more].concat())
}

fn text(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// The record of a typed load.
#[track_caller]
fn record(folder: &Path, text: &str, more: &[&str]) -> Value {
    let output = weigh(folder, text, &[&["--json", "--quiet"], more].concat());
    let mut records = parsed(&output.stdout);
    assert_eq!(records.len(), 1, "{text}: {}", said(&output));
    records.remove(0)
}

fn kg(record: &Value, key: &str) -> f64 {
    record["estimate"][key].as_f64().unwrap_or(f64::NAN)
}

const AISC: &str = "ASTM A6/A6M nominal weight, AISC shapes database v16.0";
const PLAIN_END: &str = "plain-end weight, ASME B36.10M";
const STEEL: &str = "490 lb/ft3 (AISC Manual)";
const RIGGING: &str =
    "reinforced concrete 150 lb/ft3, unit weights for rigging (trade table, on file)";
const BARS: &str = "ASTM A615/A615M bars, PCI Design Handbook 7th ed., Design Aid 15.4.1";

/// Typed, pieces, mass of the whole load in kg, the source.
#[rustfmt::skip]
const LOADS: &[(&str, u64, f64, &str)] = &[
    // pi / 4 x (2.5^2 - 2^2) x 8 = 14.137 ft3.
    ("pipe OD 30 in ID 24 in L 8 ft reinforced concrete x 3", 3, 3.0 * 14.137 * 150.0 * LB, RIGGING),
    ("3 x pipe OD 30 in ID 24 in L 8 ft reinforced concrete", 3, 3.0 * 14.137 * 150.0 * LB, RIGGING),
    ("reinforced concrete pipe OD 762 mm ID 609.6 mm L 2438.4 mm, 3 pcs", 3, 3.0 * 14.137 * 150.0 * LB, RIGGING),
    ("W12x26 20 ft", 1, 520.0 * LB, AISC),
    ("4 pcs W12x26 20 ft", 4, 2080.0 * LB, AISC),
    ("W12x26 x 20 ft x 4", 4, 2080.0 * LB, AISC),
    ("W 14 x 90 40 ft", 1, 3600.0 * LB, AISC),
    ("C10x20 20 ft qty 2", 2, 800.0 * LB, AISC),
    ("HSS 6x4x1/4 20 ft x 10", 10, 3124.0 * LB, AISC),
    ("angle 4x4x1/2 L 20 ft", 1, 256.0 * LB, AISC),
    ("HEA 200 6 m", 1, 42.3 * 6.0, "HE-A beams, dimensions to Euronorm 53-62"),
    ("IPE 300 L=6000 mm, 2 Stk", 2, 42.2 * 12.0, "EN 10365:2017 mass table, from memory"),
    ("UB 203x133x25 12 m", 1, 300.0, "serial size: the last number is kg/m"),
    ("rebar #5 20 ft x 100", 100, 2086.0 * LB, BARS),
    ("10 x rebar #11 L 40 ft", 10, 2125.2 * LB, BARS),
    ("rebar T16 12 m 50 pcs", 50, 50.0 * 1.579 * 12.0, "BS/EN bar, reinforcement supplier table (trade table, on file)"),
    ("pipe 6 in sch 40 21 ft", 1, 398.8 * LB, PLAIN_END),
    ("pipe 8 in sch 80 20 ft x 2", 2, 2.0 * 868.6 * LB, PLAIN_END),
    ("rail 115RE 39 ft", 1, 1489.0 * LB, "AREMA section, rail supplier table (trade table, on file)"),
    ("copper tube 1 in type L 20 ft x 50", 50, 655.0 * LB, "ASTM B88 table of sizes and weights"),
    ("RCP 36 in wall B L 8 ft", 1, 4190.0 * LB, "ASTM C76 by rule, 523.6 lb/ft"),
    ("steel plate 1/2 x 48 x 96 in x 2", 2, 1306.7 * LB, STEEL),
    ("6 steel plates 1/2\" x 60\" x 120\"", 6, 6.0 * 0.5 * 60.0 * 120.0 / 1728.0 * 490.0 * LB, STEEL),
    ("steel plate 10 mm x 1 m x 2 m", 1, 157.0, "7,850 kg/m3 (EN 1991-1-1)"),
    ("round bar steel dia 60 mm x 1200 mm", 1, std::f64::consts::PI / 4.0 * 0.0036 * 1.2 * 7850.0, "7,850 kg/m3 (EN 1991-1-1)"),
    ("reinforced concrete block 4 ft x 2 ft x 2 ft", 1, 2400.0 * LB, RIGGING),
    ("water, 4 drums 55 gal steel", 4, 4.0 * 499.0 * LB, "NIST Handbook 44 App. C (gallon); drum of 38 to 42 lb (trade table, on file)"),
    ("portland cement 94 lb, 40 bags", 40, 3760.0 * LB, "94 lb a US bag (ASTM C150 trade bag)"),
    ("plywood 1/2 in x 4 ft x 8 ft x 40", 40, 40.0 * 48.0 * LB, "APA panel weight table"),
    ("2x10x16 douglas fir KD x 10", 10, 524.0 * LB, "PS 20 dressed sizes; 34 lb/ft3 air dry, Oregon State University"),
];

#[test]
fn thirty_loads_in_free_words_weigh_what_is_published() {
    assert!(LOADS.len() >= 30);
    let folder = folder();
    let mut wrong = Vec::new();
    for (typed, pieces, published, source) in LOADS {
        let record = record(folder.path(), typed, &["--units", "us"]);
        let likely = kg(&record, "likely_kg");
        let inside = kg(&record, "low_kg") <= *published && *published <= kg(&record, "high_kg");
        // Wood and panels are averages, a drum's tare a range; the others are rounded to the last figure.
        let wide = ["APA", "PS 20", "NIST"]
            .iter()
            .any(|name| source.starts_with(name));
        let near = (likely / published - 1.0).abs() <= if wide { 0.05 } else { 0.005 };
        if record["pieces"] != *pieces || !inside || !near {
            wrong.push(format!(
                "{typed}: {} pieces, {likely:.1} kg, published {published:.1} ({source})",
                record["pieces"]
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
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

/// By hand: 28.274 ft3 of reinforced concrete at 150 lb/ft3 (unit weights for rigging, trade table, on file) are 4,241 lb.
/// High: two deviations of density 0.0394, making 0.02, outside 0.0535, inside 0.0428, length 0.018 (method, section 1):
/// 4,242 x exp(2 x 0.0835) = 5,013.
const GOLDEN: &str = "\
reinforced concrete pipe OD 30 in ID 24 in L 16 ft

Understood
  number          1 piece
  goods           concrete pipe
  material        reinforced concrete
  sizes           length 16 ft, outside 30 in, inside 24 in

Working
  1. volume of one pipe
     pi / 4 x (outside^2 - inside^2) x length
     outside 30 in = 2.5 ft, inside 24 in = 2 ft, length 16 ft
     = pi / 4 x (2.5^2 - 2^2) x 16 (ft) = 28.274 ft3
     source: geometry
  2. mass of one piece
     volume x density
     = 28.274 ft3 x 150.01 lb/ft3 = 4,241.6 lb
     source: reinforced concrete (reinforced concrete pipe): trade table, on file (unit weights for
             rigging): 150 lb/ft3; also EN 1991-1-1:2002 Annex A Table A.1 (Bulgarian edition): 24.0
             + 1.0 kN/m3 for normal reinforcement; also DIN EN 12524:2000, building materials,
             tabulated design values (seen in transcription): 2300 (1% steel) and 2400 (2% steel)
             kg/m3, published

Expected
  whole load      low 3,628, likely 4,242, high 5,013 lb
";

/// Capacity by hand: 8,000 lb at 24 in carried out to 15 in stays 8,000 lb; the plate row holds to 100 in.
const GOLDEN_LIFT: &str = "\
Assumed, and to settle
  - one piece: no number was typed (type \"3 pcs\" or \"x 3\", or give --pieces 3)

Lift
  planning weight 5,013 lb a lift (whole load: the larger of likely + 10 % (4,666 lb) and high
                  (5,013 lb))
  load centre     15 in (0.5 of 30 in along the forks; size of the piece, entered broadside as
                  asked)
  truck           C: lifts 8,000 lb there, 63 % used

Why no smaller truck
  truck           why not
  --------------  --------------------------------------------------------------------------------
  A               lifts 3,000 lb at 15 in, 2,013 lb short
  B               out of service until 2026-12-04
  D               wears drum clamp, forks needed

An estimate is not a weighing.
The capacity plate on the truck, the manufacturer, the site's rules and local law come first.
Only trained and authorised operators lift.
A load whose weight is in doubt stays down until it is weighed or documented.
Not judged: slings and rigging, stability, the centre of gravity of odd loads, the order of lifting.
";

#[test]
fn the_answer_is_worked_as_on_paper() {
    let folder = folder();
    let options = [
        "--fleet",
        "fleet.csv",
        "--entered",
        "broadside",
        "--height",
        "8 ft",
    ];
    let typed = "reinforced concrete pipe OD 30 in ID 24 in L 16 ft";
    let output = weigh(folder.path(), typed, &options);
    let text = text(&output);
    assert!(text.starts_with(GOLDEN), "{text}");
    assert!(text.ends_with(GOLDEN_LIFT), "{text}");
    assert_eq!(status(&output), 0);
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
        text(&output)
    };
    let endwise = said("W12x190 20 ft", &["--entered", "endwise"]);
    assert!(
        endwise.contains("NO TRUCK") && endwise.contains("Why none of the trucks"),
        "{endwise}"
    );
    assert!(
        endwise.contains("C, if the load is turned and entered broadside (load centre"),
        "{endwise}"
    );
    // 8 ft3 of steel, 3,920 lb: above 100 in only B would do, and B is out.
    let out = said("steel block 24 in x 24 in x 24 in", &["--height", "120 in"]);
    assert!(out.contains("would do        B from 2026-12-05"), "{out}");
    let divided = said("W12x26 20 ft x 4", &["--entered", "endwise"]);
    assert!(
        divided.contains("HELD until")
            && divided.contains("would do        A, if the load is turned"),
        "{divided}"
    );
    let heavy = said("steel block 60 in x 60 in x 60 in", &[]);
    assert!(
        heavy.contains("heavier lifting gear, planned by a competent person"),
        "{heavy}"
    );
    assert!(!heavy.contains("would do  "), "{heavy}");
    // An outline proves a lift only by its upper bound.
    let pump = said("cast iron pump 36 in x 24 in x 24 in", &[]);
    assert!(
        pump.contains("  HELD  ") && pump.contains("find the real weight"),
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

/// What README shows is what the program says.
#[test]
fn the_examples_of_the_readme_are_true() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let readme = std::fs::read_to_string(root.join("README.md")).expect("README");
    let shown = |command: &str| {
        let (_, after) = readme
            .split_once(&format!("{command}\n```"))
            .expect(command);
        let block = after.split("```text\n").nth(1).expect("an output");
        block.split("```").next().expect("its end").to_string()
    };
    let site = ["--site", "fixtures/kestrel-junction/site.toml"];
    let typed = "pipe OD 30 in ID 24 in L 8 ft reinforced concrete x 3";
    let output = weigh(root, typed, &site);
    let command = format!(
        "dockheft weigh \"{typed}\" --site fixtures/kestrel-junction/site.toml --date {DAY}"
    );
    let whole = text(&output);
    let excerpt = shown(&command);
    assert!(excerpt.lines().count() > 15, "{excerpt}");
    // The example leaves out what stands between, marked by three points.
    let mut rest = whole.as_str();
    for part in excerpt.split("...\n") {
        let at = rest.find(part);
        assert!(at.is_some(), "not said in this order:\n{part}\nin\n{whole}");
        rest = &rest[at.unwrap_or(0) + part.len()..];
    }
    let output = dockheft(root, &["tables", "rails", "115"]);
    assert_eq!(shown("dockheft tables rails 115"), text(&output));
}
