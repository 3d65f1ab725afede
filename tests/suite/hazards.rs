//! Known faults of spreadsheet readers, each with a small numbered file of `fixtures/hazards/` (written by
//! `make_hazards.py`) and what a careful clerk reads there. The fifteen faults were reported against general-purpose readers
//! and writers; the files and figures are ours. Number 3, a small file with huge content, is made by the tests of `read`.

use crate::helper::audit_file;
use dockheft::audit::Audit;
use dockheft::understand::{Item, Why};
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/hazards")
}

fn audited(file: &str) -> Audit {
    audit_file(&folder().join(file))
}

fn items(audit: &Audit) -> impl Iterator<Item = &Item> {
    audit
        .deliveries
        .iter()
        .flat_map(|delivery| delivery.lines.iter().map(|line| &line.item))
}

/// Row, description, pieces and declared kilograms of every line.
fn lines(audit: &Audit) -> Vec<(u32, String, u32, Option<f64>)> {
    let lines = audit.deliveries.iter().flat_map(|delivery| &delivery.lines);
    lines
        .map(|line| {
            let kg = line.declared.as_ref().map(|declared| declared.mass.kg());
            let item = &line.item;
            (
                item.place.row,
                item.description.clone(),
                item.pieces,
                kg.map(|kg| (kg * 1000.0).round() / 1000.0),
            )
        })
        .collect()
}

/// Codes of all remarks on rows and sheets.
fn remarks(audit: &Audit) -> Vec<&'static str> {
    let of_lines = items(audit).flat_map(|item| &item.remarks);
    let of_sheets = audit
        .deliveries
        .iter()
        .flat_map(|delivery| &delivery.reading.remarks);
    of_lines
        .chain(of_sheets)
        .map(|remark| remark.code)
        .collect()
}

fn skipped(audit: &Audit) -> Vec<(u32, Why)> {
    let skipped = audit
        .deliveries
        .iter()
        .flat_map(|delivery| &delivery.reading.skipped);
    skipped.map(|skipped| (skipped.row, skipped.why)).collect()
}

#[test]
fn every_row_is_read_with_its_own_number_and_figure() {
    let plate_and_pump = |rows: [u32; 2]| {
        vec![
            (rows[0], "Steel plate", 2, Some(314.0)),
            (rows[1], "Pump", 1, Some(90.5)),
        ]
    };
    for (file, expected) in [
        ("01_range_from_row_0.xlsx", plate_and_pump([2, 3])),
        ("02_far_cell.xlsx", plate_and_pump([2, 3])),
        (
            "04_blank_rows_and_column_first.xlsx",
            plate_and_pump([4, 6]),
        ),
        ("05_cells_without_address.xlsx", plate_and_pump([2, 5])),
        ("06_page_named_xls.xls", plate_and_pump([2, 3])),
        (
            "07_decimal_comma_in_a_page.xls",
            vec![(2, "Steel plate", 2, Some(5.5)), (3, "Pump", 1, Some(7.04))],
        ),
        (
            "08_part_numbers_like_dates.csv",
            vec![(2, "Hook 1-2-3", 4, Some(12.0)), (3, "Pump", 1, Some(90.5))],
        ),
        (
            "09_quote_that_never_closes.csv",
            vec![
                (2, "\"DRAIN GRATE 24 IN", 1, Some(60.0)),
                (3, "Pump", 1, Some(90.5)),
                (4, "Hook", 4, Some(12.0)),
            ],
        ),
        ("10_mark_before_the_heading.csv", plate_and_pump([2, 3])),
        (
            "11_rows_of_other_widths.csv",
            vec![
                (4, "Steel plate", 2, Some(314.0)),
                (5, "Pump; with motor", 1, Some(90.5)),
            ],
        ),
        (
            "12_hidden_row.xlsx",
            vec![
                (2, "Steel plate", 2, Some(314.0)),
                (4, "Hook", 4, Some(12.0)),
            ],
        ),
        (
            "13_merged_weight.xlsx",
            vec![
                (2, "Bolts", 50, None),
                (3, "Nuts", 50, None),
                (4, "Washers", 90, None),
                (5, "Hook", 4, None),
            ],
        ),
        (
            // 9 x 926.2 kg under a stored 0; the other formula's sheet is not there.
            "14_formula_without_result.xlsx",
            vec![(2, "Steel block", 9, Some(8335.8)), (3, "Pump", 1, None)],
        ),
        (
            "15_text_that_would_be_a_formula.csv",
            vec![
                (
                    2,
                    "=HYPERLINK(\"gate.txt\",\"see drawing\")",
                    1,
                    Some(314.0),
                ),
                (3, "-2+3", 1, Some(90.5)),
            ],
        ),
    ] {
        let expected: Vec<_> = expected
            .into_iter()
            .map(|(row, text, pieces, kg)| (row, text.to_string(), pieces, kg))
            .collect();
        assert_eq!(lines(&audited(file)), expected, "{file}");
    }
}

#[test]
fn text_stays_text() {
    let audit = audited("08_part_numbers_like_dates.csv");
    let numbers: Vec<_> = items(&audit).map(|item| item.item.as_deref()).collect();
    assert_eq!(numbers, [Some("S-DGF-36.2"), Some("12-11-10")]);
}

#[test]
fn what_was_left_out_or_guessed_is_said() {
    let hidden = audited("12_hidden_row.xlsx");
    assert_eq!(remarks(&hidden), ["hidden-row"]);
    assert!(skipped(&hidden).contains(&(3, Why::Hidden)));
    assert_eq!(
        remarks(&audited("08_fraction_turned_date.xlsx")),
        ["date-for-figure"]
    );
    assert!(
        remarks(&audited("14_formula_without_result.xlsx")).contains(&"formula-without-result")
    );
    let said = |file: &str, words: &str| {
        let audit = audited(file);
        let mut remarks = audit.sources.iter().flat_map(|source| &source.remarks);
        assert!(
            remarks.any(|remark| remark.contains(words)),
            "{file}: {words}: {:?}",
            audit.sources
        );
    };
    said("02_far_cell.xlsx", "XFD1048576");
    said("06_page_named_xls.xls", "html");
    said("09_quote_that_never_closes.csv", "row 2");
    // Rows above the heading are titles, none is lost.
    let widths = audited("11_rows_of_other_widths.csv");
    assert_eq!(
        skipped(&widths),
        [(1, Why::Title), (2, Why::Title), (3, Why::Heading)]
    );
}

#[test]
fn a_merged_weight_is_that_of_its_lines_and_of_no_other() {
    let audit = audited("13_merged_weight.xlsx");
    let packages: Vec<_> = audit.deliveries[0]
        .packages
        .iter()
        .map(|package| {
            let kg = package.declared.as_ref().map(|declared| declared.mass.kg());
            (package.shared.rows.clone(), kg)
        })
        .collect();
    assert_eq!(packages, [(vec![2, 3, 4], Some(640.0))]);
}
