//! No cell of a workbook that comes back stops the program, and every choice that is taken is whole.

use super::*;
use crate::history::DecisionKind;
use crate::read::{self, RawFile, Sheet, Value};
use crate::report::workbook::{ENTRY_HEADINGS, LINE_HEADING, MARK_HEADING, Mark, headings};
use crate::site::Units;
use chrono::NaiveDate;
use proptest::prelude::*;

const ID: &str = "0123456789abcdef";

fn days() -> Days {
    let day = |day| NaiveDate::from_ymd_opt(2026, 11, day).expect("a day");
    Days {
        from: day(25),
        to: day(26),
    }
}

/// A file of one sheet.
fn file(rows: &[Vec<Value>]) -> RawFile {
    let cells = |row: &Vec<Value>| {
        let cells = (1..).zip(row).map(|(column, value)| read::Cell {
            column,
            value: value.clone(),
        });
        cells.collect()
    };
    let rows = (1..).zip(rows).map(|(number, row)| read::Row {
        number,
        hidden: false,
        cells: cells(row),
    });
    RawFile {
        name: "sent.xlsx".into(),
        sha256: String::new(),
        kind: String::new(),
        sheets: vec![Sheet {
            file: "sent.xlsx".into(),
            name: "Exceptions".into(),
            hidden: false,
            rows: rows.collect(),
            merged: Vec::new(),
            hidden_columns: Vec::new(),
        }],
        remarks: Vec::new(),
    }
}

fn text(text: &str) -> Value {
    Value::Text(text.into())
}

fn top() -> Vec<Value> {
    let entries = ENTRY_HEADINGS.map(|heading| match heading {
        "Weight" => text("Weight (lb)"),
        heading => text(heading),
    });
    let known = ["Item", LINE_HEADING, MARK_HEADING].map(text);
    [known.to_vec(), entries.to_vec()].concat()
}

fn any_value() -> impl Strategy<Value = Value> {
    let texts = vec![
        "",
        " ",
        "weighed",
        "Use  Estimate",
        "refused",
        "supplier_corrected",
        "accept declared",
        "2,040 lb",
        "900 kg",
        "1e999 lb",
        "-1",
        "2026-11-25",
        "25.11.2026",
        "2026-13-99",
        "99/99/99",
        "J. Rook",
        "#REF!",
        "=1+1",
        "½ lb",
        "kg",
        "0123456789abcdef",
        "0123456789abcdef-0123456789abcdef-01234567",
        "é",
        "\u{202e}",
        "Decision",
        "Weight (",
        "Mark (leave as it is)",
    ];
    let day = NaiveDate::from_ymd_opt(2026, 11, 25).and_then(|day| day.and_hms_opt(7, 0, 0));
    prop_oneof![
        4 => proptest::sample::select(texts).prop_map(text),
        1 => any::<f64>().prop_map(Value::Number),
        1 => (0.1..5_000.0).prop_map(Value::Number),
        1 => any::<bool>().prop_map(Value::Bool),
        1 => Just(Value::Date(day.expect("a time"))),
        1 => Just(Value::Error("#REF!".into())),
        1 => Just(Value::Formula("NOW()".into())),
        1 => "\\PC{0,20}".prop_map(|any| text(&any)),
    ]
}

/// Reads a file and every choice in it.
fn choices(file: &RawFile) -> Vec<Choice> {
    let Ok(workbook) = workbook(file) else {
        return Vec::new();
    };
    let headings = headings(Units::Us);
    let mut all = Vec::new();
    for row in &workbook.rows {
        altered::is_as_written(row, &headings);
        for whole in [false, true] {
            all.extend(entry::choice(row, days(), Units::Us, whole).ok().flatten());
        }
    }
    let rows: Vec<(usize, &Row)> = workbook.rows.iter().enumerate().collect();
    let known = (ID.to_string(), vec![("Item".to_string(), "7".to_string())]);
    altered::compare(&rows, &headings, Ok(&[known]));
    altered::compare(&rows, &headings, Err("no reason"));
    all
}

proptest! {
    #[test]
    fn any_cells_give_whole_choices_or_reasons(
        rows in proptest::collection::vec(proptest::collection::vec(any_value(), 6), 1..6),
        mark in any_value(),
    ) {
        let mut all = vec![top()];
        for (at, entries) in rows.into_iter().enumerate() {
            let item = text("7");
            let own = Mark::of(ID, ID, &[("Item".to_string(), "7".to_string())]).to_string();
            let mark = if at == 0 { mark.clone() } else { text(&own) };
            all.push([vec![item, text(ID), mark], entries].concat());
        }
        // Without the first row too: a spoiled mark refuses the whole.
        for from in [1, 2] {
            let rows: Vec<Vec<Value>> = [&all[..1], &all[from.min(all.len())..]].concat();
            for choice in choices(&file(&rows)) {
                prop_assert!(choice.name.chars().any(char::is_alphabetic));
                prop_assert!((days().from..=days().to).contains(&choice.date));
                prop_assert!(choice.weight.is_none_or(|mass| mass.kg() > 0.0 && mass.kg().is_finite()));
                prop_assert_eq!(choice.kind.brings_weight() && choice.evidence.is_none(), false);
            }
        }
    }

    #[test]
    fn any_sheet_is_read_or_refused(
        rows in proptest::collection::vec(proptest::collection::vec(any_value(), 0..10), 0..8),
    ) {
        choices(&file(&rows));
        choices(&file(&[vec![top()], rows].concat()));
    }

    #[test]
    fn any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        if let Ok(file) = read::bytes("sent.xlsx", &bytes) {
            choices(&file);
        }
    }
}

const DAY: &str = "2026-11-25";

fn row(entries: [Value; 6]) -> Vec<Value> {
    let own = Mark::of(ID, ID, &[("Item".to_string(), "7".to_string())]).to_string();
    [vec![text("7"), text(ID), text(&own)], entries.to_vec()].concat()
}

fn of(entries: [Value; 6]) -> Result<Option<Choice>, Vec<String>> {
    let workbook = workbook(&file(&[top(), row(entries)])).expect("its form is good");
    entry::choice(&workbook.rows[0], days(), Units::Us, false)
}

#[test]
fn a_figure_is_in_the_unit_of_the_heading_and_a_text_in_its_own() {
    for (weight, kg) in [
        // 1 lb = 0.45359237 kg, exact (NIST Handbook 44, Appendix C).
        (Value::Number(1_000.0), 453.592_37),
        // A figure has no sign for thousands: three decimals are decimals.
        (Value::Number(204.125), 204.125 * 0.453_592_37),
        (Value::Number(2_040.125), 2_040.125 * 0.453_592_37),
        (text("2040.125"), 2_040.125 * 0.453_592_37),
        (text("3680"), 3_680.0 * 0.453_592_37),
        (text("1,000"), 453.592_37),
        (text("1000 kg"), 1_000.0),
        (text(" 1,000 LB "), 453.592_37),
    ] {
        let date = text("2026-11-25");
        let read = of([
            text("weighed"),
            weight.clone(),
            text("ticket 7"),
            text("J. Rook"),
            date,
            text(""),
        ]);
        let choice = read.expect("good").expect("decided");
        assert_eq!(choice.kind, DecisionKind::Weighed);
        let mass = choice.weight.expect("a weight").kg();
        assert!((mass - kg).abs() < 1e-9, "{weight:?}: {mass}");
    }
}

/// A row that was decided on.
fn decided(weight: Value) -> Vec<Value> {
    let [decision, evidence, name] = ["weighed", "ticket 7", "J. Rook"].map(text);
    row([decision, weight, evidence, name, text(DAY), text("")])
}

#[test]
fn a_number_that_is_no_weight_is_refused() {
    for figure in [0.0, -204.125, f64::NAN, f64::INFINITY] {
        let workbook = workbook(&file(&[top(), decided(Value::Number(figure))])).expect("its form");
        let read = entry::choice(&workbook.rows[0], days(), Units::Us, false);
        let reasons = read.expect_err("no weight");
        assert!(
            reasons[0].contains("Exceptions!E2"),
            "{figure}: {reasons:?}"
        );
    }
}

/// One name merged over three rows stands in the first alone: the others would be dropped without a word.
#[test]
fn a_merge_over_the_cells_of_several_decisions_is_refused() {
    let merged = |top: u32, left: u32, bottom: u32, right: u32| read::Merged {
        top,
        left,
        bottom,
        right,
    };
    for (block, refused) in [
        (merged(2, 7, 3, 7), true),
        (merged(2, 1, 3, 9), true),
        // Side by side in one row, over the headings, and where nothing is decided.
        (merged(2, 4, 2, 5), false),
        (merged(1, 4, 1, 9), false),
        (merged(2, 1, 3, 1), false),
    ] {
        let mut file = file(&[
            self::top(),
            decided(Value::Number(978.0)),
            decided(text("")),
        ]);
        file.sheets[0].merged.push(block);
        let read = workbook(&file);
        assert_eq!(read.is_err(), refused, "{block:?}");
        if let Err(reasons) = read {
            assert!(reasons[0].contains("Exceptions!"), "{reasons:?}");
            assert!(reasons[0].contains("merged"), "{reasons:?}");
        }
    }
}

/// What a supplier wrote is shown in the workbook, and is no place to decide in.
#[test]
fn a_suppliers_words_are_no_headings() {
    let sheet = |rows: &[Vec<Value>], name: &str| Sheet {
        name: name.into(),
        ..file(rows).sheets.remove(0)
    };
    let theirs = vec![
        vec![text("Item"), text("Line"), text("Decision")],
        vec![text("B-77"), text("3"), text("as quoted")],
    ];
    let mut book = file(&[top(), decided(Value::Number(978.0))]);
    book.sheets.insert(0, sheet(&theirs, "As read"));
    book.sheets.push(sheet(&theirs, "Working"));
    let read = workbook(&book).expect("the decisions");
    assert_eq!(read.rows.len(), 1);
    // A sheet of ours whose headings were spoiled is not passed over, whatever other sheet is whole.
    let mut spoiled = top();
    spoiled[5] = text("Proof");
    let spoiled = [spoiled, decided(Value::Number(978.0))];
    book.sheets.push(sheet(&spoiled, "Copy"));
    let reasons = workbook(&book).expect_err("a heading is missing");
    assert!(reasons[0].contains("\"Evidence\""), "{reasons:?}");
}

#[test]
fn every_fault_of_a_row_is_told_with_its_cell() {
    let blank = || text("");
    let reasons = of([
        text("weighed"),
        blank(),
        blank(),
        text("7"),
        Value::Number(46_351.0),
        blank(),
    ])
    .expect_err("four faults");
    let cells: Vec<&str> = reasons
        .iter()
        .filter_map(|reason| reason.split_once("Exceptions!")?.1.split(':').next())
        .collect();
    assert_eq!(cells, ["E2", "F2", "G2", "H2"], "{reasons:?}");
}

/// What the program writes left of the decision has none of the decision's headings, in either unit.
#[test]
fn no_heading_stands_twice() {
    for units in [Units::Us, Units::Si] {
        for heading in headings(units) {
            let first = heading.split(" (").next().unwrap_or_default();
            assert!(!ENTRY_HEADINGS.contains(&first), "{heading}");
            assert!(
                ![LINE_HEADING, MARK_HEADING].contains(&heading.as_str()),
                "{heading}"
            );
        }
    }
}
