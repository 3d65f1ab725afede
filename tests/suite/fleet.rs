//! The fleet register as a whole: its faults, the command that shows it, and what no output may ever say of a truck.

use crate::helper::{DAY, audit_in, dockheft, lines, parsed, said, status};
use calamine::{Data, Reader, Xlsx, open_workbook};
use dockheft::report::fleet_record::SCHEMAS;
use serde_json::Value;
use std::path::Path;
use std::process::Output;
use tempfile::TempDir;

/// What stands beside every capacity that no plate states.
pub const MARK: &str = "calculated, the plate governs";

/// Twenty faults, each on a truck of its own, below two sound trucks: cell, truck, and a part of what is said of it.
const FAULTS: [(&str, &str, &str); 20] = [
    ("C5", "F01", "already given in C4"),
    ("C7", "F02", "capacity rises to 5,100 lb at 30 in"),
    (
        "C9",
        "F03",
        "capacity rises to 5,200 lb at 24 in up to 180 in",
    ),
    ("C10", "F04", "capacity is missing"),
    ("D11", "F05", "load centre is missing"),
    ("C12", "F06", "is not more than zero"),
    ("C13", "F07", "\"five thousand\" is no weight"),
    ("C14", "F08", "a ton may be 2,000 lb, 2,240 lb or 1,000 kg"),
    ("C15", "F09", "can be read two ways"),
    ("D16", "F10", "a unit that is none of length"),
    ("D17", "F11", "is not one a lift truck can have"),
    ("B18", "F12", "class \"IX\" is not one of I to VII"),
    ("H19", "F13", "\"perhaps\" is neither yes nor no"),
    ("I20", "F14", "can be read as two dates"),
    ("J21", "F15", "\"soon\" is no date"),
    ("G22", "F16", "wears clamp and has no plate row"),
    ("K23", "F17", "where it may work, \"outdor\", is not known"),
    (
        "L25",
        "F18",
        "service weight is 9,800 lb here and 9,000 lb in L24",
    ),
    ("M26", "F19", "\"42 to 48\" is no length"),
    ("N27", "F20", "\"sometimes\" is neither yes nor no"),
];

const FAULTY: &str = "\
Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Attachment,Fitted,Available,Out until,Inspection due,Where it may work,Service weight (lb),Fork length (in),Vertical mast
A,V,5000,24,180,,,yes,,2027-06-01,both,9000,48,
B,V,8000,24,180,,,yes,,2027-06-01,both,12500,60,
F01,V,4500,24,180,,,,,,,,,
F01,,4400,24,180,,,,,,,,,
F02,V,5000,24,120,,,,,,,,,
F02,,5100,30,120,,,,,,,,,
F03,V,5000,24,120,,,,,,,,,
F03,,5200,24,180,,,,,,,,,
F04,V,,24,180,,,,,,,,,
F05,V,5000,,180,,,,,,,,,
F06,V,-100,24,180,,,,,,,,,
F07,V,five thousand,24,180,,,,,,,,,
F08,V,2 tons,24,180,,,,,,,,,
F09,V,2.500 kg,24,180,,,,,,,,,
F10,V,5000,24 kg,180,,,,,,,,,
F11,V,5000,600,180,,,,,,,,,
F12,IX,5000,24,180,,,,,,,,,
F13,V,5000,24,180,,,perhaps,,,,,,
F14,V,5000,24,180,,,yes,03/04/2026,,,,,
F15,V,5000,24,180,,,yes,,soon,,,,
F16,V,5000,24,180,,clamp,,,,,,,
F17,V,5000,24,180,,,,,,outdor,,,
F18,V,5000,24,180,,,,,,,9000,,
F18,,4000,36,180,,,,,,,9800,,
F19,V,5000,24,180,,,,,,,,42 to 48,
F20,VII,5000,24,180,,,,,,,,,sometimes
";

/// A folder with a register and a delivery.
pub fn folder(register: &str, delivery: &str) -> TempDir {
    let folder = tempfile::tempdir().expect("a folder");
    for (name, text) in [("fleet.csv", register), ("list.csv", delivery)] {
        std::fs::write(folder.path().join(name), text).expect("a file");
    }
    folder
}

pub fn fleet(folder: &Path, args: &[&str]) -> Output {
    let base = ["fleet", "fleet.csv", "--date", DAY, "--units", "us"];
    dockheft(folder, &[&base, args].concat())
}

pub fn text(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned()
}

/// A text with its lines joined: tables and sentences are broken between any two words.
pub fn joined(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// Rows of every sheet of a workbook, cells as text.
pub fn rows(path: &Path) -> Vec<(String, Vec<String>)> {
    let mut book: Xlsx<_> = open_workbook(path).expect("a workbook");
    let mut rows = Vec::new();
    for name in book.sheet_names() {
        let range = book.worksheet_range(&name).expect("a sheet");
        for row in range.rows() {
            rows.push((name.clone(), row.iter().map(Data::to_string).collect()));
        }
    }
    rows
}

/// One piece of sundry goods, so many inches deep, of so many pounds gross.
pub fn goods(depth: u32, lb: u32) -> String {
    format!(
        "Description,Qty,Length (in),Width (in),Height (in),Gross weight (lb)\nSundry goods,1,{depth},24,20,{lb}\n"
    )
}

pub fn audited(folder: &Path, more: &[&str]) -> (Output, Vec<Value>) {
    let args = [
        "list.csv",
        "--fleet",
        "fleet.csv",
        "--units",
        "us",
        "--json",
        "--out",
        "out.xlsx",
    ];
    let output = audit_in(folder, &[&args, more].concat());
    let lines = lines(parsed(&output.stdout));
    (output, lines)
}

#[test]
fn twenty_seeded_faults_are_all_told_in_one_run_with_cell_fault_and_remedy() {
    let folder = folder(FAULTY, &goods(48, 4_000));
    let output = fleet(folder.path(), &["--json"]);
    assert_eq!(status(&output), 1, "{}", said(&output));
    let records = parsed(&output.stdout);
    let faults = records[0]["faults"].as_array().expect("faults");
    let of = |fault: &Value, name: &str| fault[name].as_str().unwrap_or_default().to_string();
    for (cell, truck, part) in FAULTS {
        let found = faults.iter().find(|fault| {
            of(fault, "cell") == cell
                && of(fault, "truck") == truck
                && of(fault, "fault").contains(part)
        });
        let fault = found.unwrap_or_else(|| panic!("{cell} {truck} {part} in {faults:#?}"));
        assert!(!of(fault, "remedy").is_empty(), "{fault}");
    }
    assert_eq!(faults.len(), FAULTS.len(), "{faults:#?}");
    // The usual load centre is offered and not taken.
    let missing = faults.iter().find(|fault| of(fault, "truck") == "F05");
    let remedy = missing.map(|fault| of(fault, "remedy")).unwrap_or_default();
    assert!(remedy.contains("usually rated at 24 in"), "{remedy}");
    let f05 = records.iter().find(|record| record["truck"] == "F05");
    assert_eq!(f05.expect("F05")["plate"], serde_json::json!([]));
    // On the terminal each stands with its cell too.
    let shown = text(&fleet(folder.path(), &[]));
    for (cell, truck, _) in FAULTS {
        let row = |line: &str| line.split_whitespace().take(2).eq([cell, truck]);
        assert!(shown.lines().any(row), "{cell} {truck}\n{shown}");
    }
}

#[test]
fn a_register_with_faults_still_audits_with_the_sound_trucks() {
    let folder = folder(FAULTY, &goods(48, 4_000));
    let (output, lines) = audited(folder.path(), &[]);
    assert_eq!(status(&output), 1, "{}", said(&output));
    assert_eq!(lines[0]["truck"]["id"], "A");
    let told = joined(&said(&output));
    for (cell, _, part) in FAULTS {
        assert!(
            told.contains(&format!("{cell}: ")) && told.contains(part),
            "{cell} {part}"
        );
    }
    // The Fleet sheet says of each faulty truck that it is not used, and why.
    let rows = rows(&folder.path().join("out.xlsx"));
    for (_, truck, part) in FAULTS {
        let found = rows.iter().find(|(sheet, cells)| {
            sheet == "Fleet" && cells[1] == truck && cells.iter().any(|cell| cell.contains(part))
        });
        let (_, cells) = found.unwrap_or_else(|| panic!("{truck}: {part}"));
        assert_eq!(
            cells[3], "NO: its rows in the register hold a fault",
            "{truck}"
        );
    }
}

#[test]
fn statuses_of_the_register() {
    let sound: String = FAULTY
        .lines()
        .take(3)
        .map(|line| format!("{line}\n"))
        .collect();
    let none: String = FAULTY
        .replace("A,V,5000,24", "A,V,,24")
        .replace("B,V,8000,24", "B,V,,24");
    for (register, expected) in [
        (sound.as_str(), 0),
        (FAULTY, 1),
        (none.as_str(), 3),
        ("Holidays\nMonday\n", 3),
    ] {
        let folder = folder(register, &goods(48, 4_000));
        assert_eq!(status(&fleet(folder.path(), &["--quiet"])), expected);
    }
    let folder = folder(&sound, &goods(48, 4_000));
    assert_eq!(
        status(&dockheft(folder.path(), &["fleet", "absent.csv"])),
        3
    );
    assert_eq!(status(&dockheft(folder.path(), &["fleet"])), 2);
    assert_eq!(status(&fleet(folder.path(), &["--out", "fleet.csv"])), 3);
    assert_eq!(
        std::fs::read_to_string(folder.path().join("fleet.csv")).expect("the register"),
        sound
    );
}

#[test]
fn records_of_the_register_keep_their_schemas() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kestrel-junction");
    let seeded = folder(FAULTY, &goods(48, 4_000));
    let outputs = [
        dockheft(&demo, &["fleet", "--date", DAY, "--json", "--quiet"]),
        fleet(seeded.path(), &["--json", "--quiet"]),
    ];
    for output in outputs {
        let records = parsed(&output.stdout);
        assert!(records.len() > 10, "{}", records.len());
        for record in &records {
            let (_, text) = SCHEMAS
                .iter()
                .find(|(name, _)| record["schema"] == *name)
                .expect("a published schema");
            let schema: Value = serde_json::from_str(text).expect("JSON");
            let validator = jsonschema::draft202012::new(&schema).expect("a schema");
            let faults: Vec<String> = validator
                .iter_errors(record)
                .map(|error| error.to_string())
                .collect();
            assert_eq!(faults, Vec::<String>::new(), "{record}");
        }
    }
}

/// What is shown of the register: headings to fields, plate, capacity over load centre, what is out today.
#[test]
fn the_register_is_shown_as_understood() {
    let register = "No.,Truck,Class,Rated capacity (lb),Load center (in),Max height (in),Available,Out until,Inspection due,Colour\n\
        1,A,V,5000,24,180,yes,,2027-06-01,red\n\
        2,B,V,6000,24,180,yes,2026-12-04,2027-06-01,red\n\
        3,C,V,7000,24,180,no,,2027-06-01,red\n\
        4,D,V,8000,24,180,yes,,2026-11-24,red\n";
    let folder = folder(register, &goods(48, 4_000));
    let shown = joined(&text(&fleet(folder.path(), &[])));
    for part in [
        "4 trucks, 1 ready, 0 with a fault",
        "D1 Rated capacity (lb) capacity lb",
        "E1 Load center (in) load centre in",
        "\"Colour\", is not used",
        "B out of service until 2026-12-04",
        "C out of service",
        "D inspection overdue since 2026-11-24",
        // 5,000 x 24 / 30, / 36, / 42 ... (29 CFR 1910.178 App. A, A-5).
        "4,000 3,333 2,857 2,500 2,000 1,666",
    ] {
        assert!(shown.contains(part), "{part}\n{shown}");
    }
    // On the next day that it is back, B is ready.
    let later = dockheft(
        folder.path(),
        &["fleet", "fleet.csv", "--date", "2026-12-05"],
    );
    assert!(
        joined(&text(&later)).contains("4 trucks, 2 ready"),
        "{}",
        text(&later)
    );
}

#[test]
fn the_workbook_of_the_register_has_figures_and_a_chart_for_each_truck() {
    let register = "Truck,Class,Capacity (lb),Load centre (in)\nA,V,5000,24\nB,II,3500,24\n";
    let folder = folder(register, &goods(48, 4_000));
    assert_eq!(
        status(&fleet(folder.path(), &["--out", "fleet.xlsx", "--quiet"])),
        0
    );
    let path = folder.path().join("fleet.xlsx");
    let rows = rows(&path);
    let at = |truck: &str, centre: &str| {
        let found = rows
            .iter()
            .rev()
            .find(|(_, cells)| cells[1] == truck && cells[5] == centre);
        found.map(|(_, cells)| (cells[4].clone(), cells[9].clone()))
    };
    assert_eq!(
        at("A", "24"),
        Some(("5000".into(), "read off the plate".into()))
    );
    assert_eq!(at("A", "48"), Some(("2500".into(), MARK.into())));
    assert_eq!(
        at("B", "24"),
        Some(("3500".into(), "read off the plate".into()))
    );
    assert_eq!(
        at("B", "30"),
        None,
        "a reach truck has no more than its plate"
    );
    let file = std::fs::File::open(&path).expect("a file");
    let zip = zip::ZipArchive::new(file).expect("a workbook");
    let charts = zip
        .file_names()
        .filter(|name| {
            name.as_ref()
                .is_ok_and(|name| name.starts_with("xl/charts/chart"))
        })
        .count();
    assert_eq!(charts, 2);
}
