//! The workbook read back with a reader that is not the writer.

mod dock;
mod expected;
mod form;
mod lift_cards;
mod questions;

use super::*;
use crate::report::testing;
use crate::site::Units;
use calamine::{Data, DataType, Range, Reader, Xlsx};
use std::io::Cursor;

type Read = Xlsx<Cursor<Vec<u8>>>;

const SHEETS: [&str; 10] = [
    "Dock",
    "Questions",
    "Exceptions",
    "Declared and expected",
    "Lift plan",
    "Lift cards",
    "Working",
    "As read",
    "Fleet",
    "Basis",
];

/// Heading of a column of the Lift plan.
const BASIS: &str = "One lift is; what its weight and load centre rest on";

fn bytes(audit: &Audit) -> Vec<u8> {
    let tables = [(
        "materials".to_string(),
        "612 rows".to_string(),
        "each row names its own".to_string(),
    )];
    let mut bytes = Vec::new();
    write(audit, &tables, &mut bytes).expect("a vector takes everything");
    bytes
}

fn read(bytes: Vec<u8>) -> Read {
    Xlsx::new(Cursor::new(bytes)).expect("a workbook")
}

fn sheet(workbook: &mut Read, name: &str) -> Range<Data> {
    workbook.worksheet_range(name).expect("the sheet is there")
}

/// The cell under a heading in the first row whose cell under another heading is `key`.
#[track_caller]
fn find(range: &Range<Data>, by: &str, key: &str, heading: &str) -> Data {
    let mut rows = range.rows();
    let headings = rows.next().expect("headings");
    let at = |name: &str| {
        headings
            .iter()
            .position(|cell| cell == name)
            .unwrap_or_else(|| panic!("no column {name}"))
    };
    let (by, wanted) = (at(by), at(heading));
    rows.find(|row| row[by] == *key)
        .unwrap_or_else(|| panic!("no row {key}"))[wanted]
        .clone()
}

#[test]
fn exceptions_stand_worst_first_with_their_figures() {
    let mut workbook = read(bytes(&testing::audit()));
    let range = sheet(&mut workbook, "Exceptions");
    let items: Vec<String> = range.rows().skip(1).map(|row| row[4].to_string()).collect();
    // Stops by overload (471.5 kg, 369 kg), by share left out, then checks, the delivery's own first.
    let expected = [
        testing::LIGHT,
        "P1",
        testing::NO_WEIGHT,
        testing::NO_TRUCK,
        "",
        testing::MISSING,
        testing::INJECTION,
    ];
    assert_eq!(items, expected);
    let light = |heading: &str| find(&range, "Item", testing::LIGHT, heading);
    // 800.5 kg = 1,764.8 lb; 1,766.25 kg = 3,893.9 lb, less and more 5 %: 3,699.2 and 4,088.6 lb; 1,943 kg = 4,283.6 lb.
    assert_eq!(light("Declared (lb)"), 1_765.0);
    assert_eq!(light("Rank"), 1.0);
    assert_eq!(
        light("Expected (lb)"),
        Data::String("3,699 to 4,089,\nlikely 3,894".into())
    );
    assert_eq!(light("Difference to likely (lb)"), -2_129.0);
    assert_eq!(light("Planning weight of the line (lb)"), 4_284.0);
    assert_eq!(
        light("Row (cell), to its working"),
        Data::String("G8".into())
    );
    assert_eq!(light("Urgency"), Data::String("STOP".into()));
    assert_eq!(light("Lift now?"), Data::String("HELD".into()));
    let what = light("What is wrong").to_string();
    assert!(
        what.contains("kilograms and pounds exchanged (about 93 % likely);"),
        "{what}"
    );
    let next = light("What to do next").to_string();
    assert!(
        next.starts_with(
            "Leave it down. Ask the supplier: is the weight in kilograms or in pounds?"
        ),
        "{next}"
    );
    assert_eq!(light("Line"), Data::String("00000000abc00082".into()));
    assert_eq!(
        find(&range, "Item", testing::MISSING, "Declared (as written)"),
        Data::String("TBA".into())
    );
    assert_eq!(
        find(&range, "Item", testing::MISSING, "Declared (lb)"),
        Data::Empty
    );
}

#[test]
fn decision_columns_are_empty_and_named_as_the_ledger_expects() {
    let mut workbook = read(bytes(&testing::audit_in(Units::Si)));
    let range = sheet(&mut workbook, EXCEPTIONS);
    let headings: Vec<String> = range
        .rows()
        .next()
        .expect("headings")
        .iter()
        .map(ToString::to_string)
        .collect();
    let first = headings.len() - 8;
    assert_eq!(headings[first..first + 6], decision_headings(Units::Si));
    assert_eq!(headings[first + 1], "Weight (kg)");
    assert_eq!(headings[first + 6], LINE_HEADING);
    assert_eq!(headings[first + 7], MARK_HEADING);
    for row in range.rows().skip(1) {
        assert!(
            row[first..first + 6]
                .iter()
                .all(|cell| *cell == Data::Empty)
        );
        let mark = Mark::parse(&row[first + 7].to_string()).map(|mark| mark.load);
        let line = row[first + 6].to_string();
        // A finding on a whole delivery that no one decision settles has neither.
        assert_eq!(mark.unwrap_or_default(), line);
    }
}

#[test]
fn suppliers_texts_stay_texts() {
    let mut workbook = read(bytes(&testing::audit()));
    let range = sheet(&mut workbook, "Exceptions");
    let cell = |heading: &str| find(&range, "Item", testing::INJECTION, heading);
    assert_eq!(
        cell("Description"),
        Data::String(testing::FORMULA_TEXT.into())
    );
    assert_eq!(
        cell("Supplier"),
        Data::String("+Bramble Steelworks (=1+1)".into())
    );
    assert_eq!(
        cell("Declared (as written)"),
        Data::String("=1+1 kg".into())
    );
    assert_eq!(
        find(
            &sheet(&mut workbook, "As read"),
            "Place",
            "row 14",
            "Text in the file"
        ),
        Data::String("-1 spare".into())
    );
    let mut live = Vec::new();
    for name in SHEETS {
        let formulas = workbook
            .worksheet_formula(name)
            .expect("the sheet is there");
        live.extend(
            formulas
                .used_cells()
                .map(|(_, _, text)| (name, text.clone()))
                .filter(|(_, text)| !text.is_empty()),
        );
    }
    assert!(live.iter().all(|(name, _)| *name == "Working"), "{live:?}");
    let ours = |text: &str| {
        let signs = |letter: char| letter.is_ascii_uppercase() || letter.is_ascii_digit();
        text.chars()
            .all(|letter| signs(letter) || "*.".contains(letter))
    };
    assert!(live.iter().all(|(_, text)| ours(text)), "{live:?}");
    assert!(live.len() > 9, "the working is live: {live:?}");
}

#[test]
fn held_loads_come_last_and_are_marked_in_words() {
    let mut workbook = read(bytes(&testing::audit()));
    let range = sheet(&mut workbook, "Lift plan");
    let seen: Vec<(String, String)> = range
        .rows()
        .skip(1)
        .map(|row| (row[2].to_string(), row[5].to_string()))
        .collect();
    let expected = [
        (testing::CONSISTENT, "may be lifted"),
        (testing::MISSING, "may be lifted as planned; check today"),
        (testing::INJECTION, "may be lifted as planned; check today"),
        (testing::LIGHT, "HELD"),
        (testing::NO_WEIGHT, "HELD"),
        (testing::NO_TRUCK, "HELD"),
        (testing::CLOSE_CALL, "may be lifted"),
        ("P1", "HELD"),
        (testing::SHARED, "HELD"),
        ("BX-2", "HELD"),
    ];
    assert_eq!(
        seen,
        expected.map(|(item, standing)| (item.to_string(), standing.to_string()))
    );
    let cell = |item: &str, heading: &str| find(&range, "Item", item, heading);
    // 1,100.2 kg = 2,425.5 lb, rounded up; 2,400 kg = 5,291.1 lb, rounded down; 600 mm = 23.62 in, rounded up.
    assert_eq!(
        cell(testing::MISSING, "Planning weight of one lift (lb)"),
        2_426.0
    );
    assert_eq!(cell(testing::MISSING, "Capacity there (lb)"), 5_291.0);
    assert_eq!(cell(testing::MISSING, "Load centre (in)"), 23.7);
    assert_eq!(
        cell(testing::MISSING, "Mind, or why no truck"),
        Data::String("calculated, the plate governs".into())
    );
    assert_eq!(cell(testing::CLOSE_CALL, "Capacity used"), 0.95);
    assert_eq!(
        cell(testing::CLOSE_CALL, "Mind, or why no truck"),
        Data::String("over 90 % of capacity".into())
    );
    assert_eq!(
        cell(testing::INJECTION, BASIS),
        Data::String(
            "one piece (ASSUMED); weight: declared, UNCHECKED; load centre: size of the piece"
                .into()
        )
    );
    assert_eq!(
        cell(testing::SHARED, BASIS),
        Data::String("lifted with P1".into())
    );
    assert_eq!(
        cell(testing::NO_WEIGHT, "Mind, or why no truck"),
        Data::String("no planning weight: do not lift".into())
    );
}

/// The first load: a plate, its volume, its mass, three pieces; then the expected range.
#[test]
fn the_working_reads_right_without_calculation() {
    let mut workbook = read(bytes(&testing::audit_in(Units::Si)));
    let range = sheet(&mut workbook, "Working");
    let figures: Vec<f64> = range
        .rows()
        .skip(1)
        .take(16)
        .filter_map(|row| row[5].get_float())
        .collect();
    assert_eq!(
        figures[..10],
        [
            2.0, 1.0, 0.01, 0.02, 0.02, 7_850.0, 157.0, 157.0, 3.0, 471.0
        ]
    );
    // Likely, then low and high as parts of it: 5 % to either side.
    assert_eq!(figures[10], 471.0);
    for (figure, expected) in figures[11..].iter().zip([0.95, 447.45, 1.05, 494.55]) {
        assert!((figure - expected).abs() < 1e-9, "{figure} {expected}");
    }
    let formulas = workbook
        .worksheet_formula("Working")
        .expect("the sheet is there");
    let formula = |row| formulas.get_value((row, 5)).map_or("", String::as_str);
    let formulas = |rows: &[u32]| rows.iter().map(|row| formula(*row)).collect::<Vec<_>>();
    assert_eq!(formulas(&[5, 8, 11]), ["F3*F4*F5", "F7*F8", "F10*F11"]);
    // A size that is changed moves the volume, the piece, the line and its range; what no step works out stays a figure.
    assert_eq!(formulas(&[2, 6, 7, 9, 10]), ["", "F6", "", "F9", ""]);
    assert_eq!(
        formulas(&[12, 13, 14, 15, 16]),
        ["F12", "", "F13*F14", "", "F13*F16"]
    );
}

#[test]
fn basis_and_fleet_tell_where_it_comes_from() {
    let mut workbook = read(bytes(&testing::audit()));
    let basis = sheet(&mut workbook, "Basis");
    assert_eq!(
        find(&basis, "Name", "materials", "Value"),
        Data::String("612 rows".into())
    );
    assert_eq!(
        find(&basis, "Name", "floor_kg", "Source or remark"),
        Data::String("11 lb".into())
    );
    assert_eq!(
        find(&basis, "Name", "program", "Value"),
        Data::String(format!("Dockheft {}", env!("CARGO_PKG_VERSION")))
    );
    assert_eq!(
        find(&basis, "Name", "bramble-steel.xlsx", "Value")
            .to_string()
            .len(),
        64
    );
    // Register and site file as they were that day, for the auditor to prove.
    for (name, digit) in [("hash", "7"), ("yard.toml", "8")] {
        assert_eq!(
            find(&basis, "Name", name, "Value"),
            Data::String(digit.repeat(64))
        );
    }
    let fleet = sheet(&mut workbook, "Fleet");
    assert_eq!(
        find(&fleet, "Truck", "FL-15", "Ready today?"),
        Data::String("yes".into())
    );
    assert_eq!(
        find(&fleet, "Truck", "FL-30", "Ready today?"),
        Data::String("NO: inspection overdue since 2026-05-03".into())
    );
    assert_eq!(
        find(&fleet, "Truck", "HT-5", "Ready today?"),
        Data::String("NO: its rows in the register hold a fault".into())
    );
    // 1,500 kg = 3,306.9 lb, rounded down.
    assert_eq!(find(&fleet, "Truck", "FL-15", "Capacity (lb)"), 3_306.0);
}
