//! The scorecard as people and programs get it.

use super::*;
use crate::scorecard::testing::{Row, Taken, card, day};
use crate::scorecard::{Course, Move};
use crate::site::Units;
use calamine::{Data, Range, Reader, Xlsx};
use chrono::Days;
use std::io::Cursor;

/// Forty deliveries of two lines, the last twenty 6 % light, and a supplier of three lines, two of them flagged.
fn sample() -> Scorecard {
    let mut rows = Vec::new();
    for at in 0..40_i64 {
        let level: f64 = if at < 20 { 0.0 } else { -0.06 };
        for line in 0..2 {
            let off = [0.0, 0.012, -0.01, 0.004, -0.006][(at + line) as usize % 5];
            rows.push(Row {
                declared_kg: Some(100.0 * (level + off).exp()),
                ..Row::new(
                    rows.len() as i64,
                    at,
                    day("2026-08-20") + Days::new(at as u64),
                )
            });
        }
    }
    for (severity, cause) in [("stop", Some("kg-lb")), ("check", None), ("none", None)] {
        rows.push(Row {
            supplier: Some("=Larkspur"),
            goods: Some("casting"),
            severity,
            cause,
            verdict: if cause.is_some() {
                "light"
            } else {
                "consistent"
            },
            overload_kg: (severity != "none").then_some(250.0),
            ..Row::new(rows.len() as i64, 40, day("2026-09-28"))
        });
    }
    let taken = [Taken {
        load: Some(80),
        kind: "accept declared",
        name: "J. Rook",
        supplier: Some("=Larkspur"),
        recorded: "2026-09-28T06:00:00+00:00".to_string(),
        time: "2026-09-28T07:30:00+00:00".to_string(),
        plan_kg: Some(110.0),
        severity: "stop",
        stands: true,
    }];
    card(&rows, &taken, "2026-09-30")
}

fn site() -> Site {
    Site {
        name: "Kestrel Junction".to_string(),
        units: Units::Us,
        ..Site::default()
    }
}

fn bytes() -> Vec<u8> {
    bytes_of(&sample())
}

fn bytes_of(card: &Scorecard) -> Vec<u8> {
    let mut bytes = Vec::new();
    let head = (123, "ab".repeat(32));
    write_workbook(card, &site(), &head, &mut bytes).expect("a vector takes everything");
    bytes
}

fn sheet(name: &str) -> Range<Data> {
    let mut book = Xlsx::new(Cursor::new(bytes())).expect("a workbook");
    book.worksheet_range(name).expect("the sheet")
}

/// The cell under a heading in the row whose first cell is `name`.
#[track_caller]
fn cell(sheet: &Range<Data>, name: &str, heading: &str) -> Data {
    let column = (sheet.rows().next().into_iter().flatten())
        .position(|cell| *cell == heading)
        .expect(heading);
    let row = sheet.rows().find(|row| row[0] == name);
    row.expect(name)[column].clone()
}

#[test]
fn the_sheets_say_who_what_and_since_when() {
    let book = Xlsx::new(Cursor::new(bytes())).expect("a workbook");
    assert_eq!(
        book.sheet_names(),
        [
            "Suppliers",
            "Goods",
            "Materials",
            "Causes",
            "Months",
            "Decisions",
            "About"
        ]
    );
    let suppliers = sheet("Suppliers");
    assert_eq!(
        cell(&suppliers, "Tarn Steel", "Did the weights move?"),
        Data::String(
            "MOVED: since 2026-09-09 about 6 % light, 20 deliveries; before that about right, 20 deliveries"
                .to_string()
        )
    );
    assert_eq!(
        cell(&suppliers, "=Larkspur", "Most frequent likely cause"),
        Data::String("kilograms and pounds exchanged (1 line)".to_string())
    );
    // 250 kg are 551.2 lb: of the two lifts one was accepted as declared.
    assert_eq!(
        cell(&suppliers, "=Larkspur", "Overload avoided (lb)"),
        Data::Float(551.0)
    );
    let months = sheet("Months");
    let median = cell(&months, "2026-09", "Tarn Steel: median off");
    let Data::Float(median) = median else {
        panic!("{median:?}")
    };
    assert!((-0.07..-0.04).contains(&median), "{median}");
}

/// A name of 300 letters stands whole in its cell, and does not push the bars out of the chart.
#[test]
fn a_long_name_is_short_in_a_chart() {
    let long = "Ö".repeat(300);
    let mut all = sample();
    all.suppliers[0].name = Some(long.clone());
    let bytes = bytes_of(&all);
    let mut book = Xlsx::new(Cursor::new(&bytes)).expect("a workbook");
    let sheet = book.worksheet_range("Suppliers").expect("the sheet");
    let short = cell(&sheet, &long, "Name in the chart").to_string();
    assert_eq!(short, format!("{}…", "Ö".repeat(40)));
    let headings = sheet.rows().next().into_iter().flatten();
    let labels = headings
        .into_iter()
        .position(|name| *name == "Name in the chart");
    assert_eq!(labels, Some(18), "column S");
    let mut file = zip::ZipArchive::new(Cursor::new(&bytes)).expect("a workbook");
    let charts: Vec<String> = (0..file.len())
        .filter_map(|at| {
            let mut part = file.by_index(at).expect("a part");
            let is_chart = part.name().expect("a name").starts_with("xl/charts/");
            is_chart.then(|| std::io::read_to_string(&mut part).expect("text"))
        })
        .collect();
    let shows = |part: &str| charts.iter().any(|chart| chart.contains(part));
    assert!(shows("<c:f>Suppliers!$S$2"), "{charts:?}");
    assert!(!shows("<c:f>Suppliers!$A$2"));
}

#[test]
fn few_lines_are_marked_and_have_no_percentage() {
    let suppliers = sheet("Suppliers");
    for heading in ["Share flagged", "Share light", "Median off", "Spread"] {
        assert_eq!(
            cell(&suppliers, "=Larkspur", heading),
            Data::Empty,
            "{heading}"
        );
        let of_many = cell(&suppliers, "Tarn Steel", heading);
        assert!(matches!(of_many, Data::Float(_)), "{heading}: {of_many:?}");
    }
    let remark = cell(&suppliers, "=Larkspur", "Remark");
    assert_eq!(remark, Data::String("few lines".to_string()));
    let text = text(&sample(), &site());
    assert!(text.contains("2 of 3 lines"), "{text}");
    assert!(!text.contains("66.7 %"), "{text}");
}

#[test]
fn an_override_says_who_and_when() {
    let decisions = sheet("Decisions");
    for (heading, text) in [
        ("Which", "accept declared"),
        ("By", "J. Rook"),
        ("When", "2026-09-28 07:30"),
        ("Supplier", "=Larkspur"),
        ("Line", "id80"),
    ] {
        let found = cell(&decisions, "STOP overridden", heading);
        assert_eq!(found, Data::String(text.to_string()), "{heading}");
    }
    assert_eq!(
        cell(&decisions, "Flagged and decided", "Median hours to decide"),
        Data::Float(1.5)
    );
    let text = text(&sample(), &site());
    assert!(text.contains("STOP overridden: line id80"), "{text}");
    assert!(text.contains("half within 1.5 hours"), "{text}");
}

#[test]
fn every_output_carries_the_cautions_and_the_head() {
    let about = sheet("About");
    let said: String = about
        .rows()
        .map(|row| format!("{} {}\n", row[0], row[1]))
        .collect();
    let told = text(&sample(), &site());
    for caution in crate::report::words::CAUTIONS {
        assert!(
            said.contains(caution) && told.contains(caution),
            "{caution}"
        );
    }
    assert!(
        said.contains(&format!("123 records, head {}", "ab".repeat(32))),
        "{said}"
    );
    assert!(
        said.contains("83 lines of 41 deliveries, first audited 2026-08-20 to 2026-09-28"),
        "{said}"
    );
    assert!(said.contains("4.5 % (normally scattered"), "{said}");
}

#[test]
fn records_are_as_their_schemas_say() {
    let written = write_records(&sample()).expect("JSON");
    let mut moved = 0;
    for line in written.lines() {
        let record: serde_json::Value = serde_json::from_str(line).expect("JSON");
        let schema = SCHEMAS.iter().find(|(name, _)| record["schema"] == *name);
        let schema = serde_json::from_str(schema.expect("a schema").1).expect("JSON");
        let validator = jsonschema::draft202012::new(&schema).expect("a schema");
        let faults: Vec<String> = (validator.iter_errors(&record))
            .map(|error| error.to_string())
            .collect();
        assert!(faults.is_empty(), "{line}: {faults:?}");
        moved += usize::from(record["course"]["kind"] == "moved");
    }
    assert_eq!(moved, 1);
}

#[test]
fn a_course_in_words() {
    let moved = Move {
        since: day("2026-09-14"),
        before: 0.001,
        after: -0.051,
        deliveries_before: 40,
        deliveries: 1,
    };
    for (course, expected) in [
        (
            Course::Moved(moved),
            "MOVED: since 2026-09-14 about 5 % light, 1 delivery; before that about right, 40 deliveries",
        ),
        (
            Course::Steady {
                level: -0.041,
                biased: true,
                deliveries: 30,
            },
            "always about 4 % light, 30 deliveries",
        ),
        (
            Course::Steady {
                level: 0.03,
                biased: false,
                deliveries: 20,
            },
            "steady over 20 deliveries",
        ),
        (
            Course::TooFew { deliveries: 7 },
            "too few to tell: 7 deliveries, 18 needed",
        ),
    ] {
        assert_eq!(words::course(Some(&course), 0), expected);
    }
    let steady = Course::Steady {
        level: 0.0,
        biased: false,
        deliveries: 20,
    };
    assert_eq!(
        words::course(Some(&steady), 1),
        "no move over 20 deliveries; LEFT OUT: 1 delivery, each compared line off by more than 26 %"
    );
    assert_eq!(words::course(None, 3), "several, not followed");
    assert_eq!(words::about(0.07), "about 7 % heavy");
    assert_eq!(words::hours(0.01), "a minute");
    assert_eq!(words::hours(0.4), "24 minutes");
    assert_eq!(words::hours(72.0), "3 days");
}

#[test]
fn a_scorecard_of_nothing_is_still_one() {
    let none = card(&[], &[], "2026-09-30");
    let mut bytes = Vec::new();
    let head = (1, "ab".repeat(32));
    write_workbook(&none, &site(), &head, &mut bytes).expect("a vector takes everything");
    let mut book = Xlsx::new(Cursor::new(bytes)).expect("a workbook");
    let about = book.worksheet_range("About").expect("the sheet");
    assert_eq!(
        about.get_value((1, 1)),
        Some(&Data::String(
            "nothing on record answers to this".to_string()
        ))
    );
}
