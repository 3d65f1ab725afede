//! No bytes stop the program: random bytes, random tables and damaged workbooks give a refusal or an audit, never a panic.

use crate::helper::{DAY, us};
use dockheft::audit::{self, Request};
use dockheft::fleet::register;
use dockheft::read;
use dockheft::report::{ndjson, text, workbook};
use dockheft::site::Units;
use proptest::prelude::*;
use rust_xlsxwriter::{Format, Formula, Workbook};

/// Reads, audits with a register and writes every report; says whether the bytes were read.
fn survives(name: &str, bytes: &[u8]) -> bool {
    let Ok(file) = read::bytes(name, bytes) else {
        return false;
    };
    let fleet = register::understand(&file.sheets, Units::Us);
    let register = read::bytes(
        "fleet.csv",
        b"Truck,Capacity (lb),Load centre (in)\nA,5000,24\n",
    )
    .expect("a register");
    let own = register::understand(&register.sheets, Units::Us);
    for fleet in [fleet, own] {
        let audit = audit::run(Request {
            files: vec![file.clone()],
            refused: Vec::new(),
            fleet: Some(fleet),
            site: us(),
            date: DAY.parse().expect("a date"),
            supplier: None,
            delivery: None,
            history: Default::default(),
            progress: &|_| {},
        });
        ndjson::write(&audit, std::io::sink()).expect("records are written");
        text::summary(&audit, None).expect("a summary is written");
        workbook::write(&audit, &[], std::io::sink()).expect("a workbook is written");
    }
    true
}

/// Cells that hold what suppliers write, and what they should not.
fn any_cell() -> impl Strategy<Value = String> {
    prop_oneof![
        3 => proptest::sample::select(vec![
            "", "Description", "Qty", "Weight (lb)", "Gewicht kg", "Length", "mm", "W12x26", "Rebar #5", "2x10x16", "1/0", "0/0",
            "6'-4 1/2\"", "1e308", "1e-320", "-0", "NaN", "inf", "1,234.5", "1.234,5", "TBA", "=1+1", "#REF!", "Total", "1-2/3-4",
            "pallet 1 of 3", "99999999999999999999", "pipe OD 30 in ID 40 in", "Ø 0 mm", "½", "１２", "\u{202e}kg", "x x x", "/ / /",
        ]).prop_map(str::to_string),
        1 => any::<f64>().prop_map(|number| number.to_string()),
        1 => "[0-9.,'\" /x×Ø-]{0,12}",
        1 => "\\PC{0,20}",
    ]
}

fn any_table() -> impl Strategy<Value = Vec<Vec<String>>> {
    proptest::collection::vec(proptest::collection::vec(any_cell(), 0..8), 0..12)
}

/// Sixteen headings over random cells, so that every field's reader is reached.
fn any_delivery() -> impl Strategy<Value = String> {
    let headings = "Item,Description,Material,Qty,Unit,Length (mm),Width (in),Height,OD,ID,Wall,Pkgs,Pkg Type,Size L x W x H,Net Wt (kg),Gross Wt";
    let row = proptest::collection::vec(any_cell(), 16);
    proptest::collection::vec(row, 1..8).prop_map(move |rows| {
        let body: Vec<String> = rows
            .iter()
            .map(|row| {
                row.iter()
                    .map(|cell| crate::helper::cell(cell))
                    .collect::<Vec<_>>()
                    .join(",")
            })
            .collect();
        format!("{headings}\n{}\n", body.join("\n"))
    })
}

/// A workbook of random cells whose table begins anywhere.
fn book(table: &[Vec<String>], top: u32, left: u16) -> Vec<u8> {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (row, cells) in (top..).zip(table) {
        for (column, cell) in (left..).zip(cells) {
            match cell.parse::<f64>() {
                Ok(number) if number.is_finite() => {
                    sheet.write_number(row, column, number).map(|_| ())
                }
                _ if cell.starts_with('=') => sheet
                    .write_formula(row, column, Formula::new(cell))
                    .map(|_| ()),
                _ => sheet.write_string(row, column, cell).map(|_| ()),
            }
            .expect("inside a sheet's limits");
        }
    }
    sheet
        .merge_range(0, 0, 0, 1, "", &Format::new())
        .map(|_| ())
        .unwrap_or(());
    book.save_to_buffer().expect("a workbook")
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 64, failure_persistence: None, ..ProptestConfig::default() })]

    #[test]
    fn any_bytes(bytes in proptest::collection::vec(any::<u8>(), 0..400)) {
        survives("any.xlsx", &bytes);
    }

    #[test]
    fn bytes_behind_a_known_beginning(
        start in proptest::sample::select(vec![&b"PK\x03\x04"[..], b"\xD0\xCF\x11\xE0\xA1\xB1\x1A\xE1", b"\xEF\xBB\xBF", b"\xFF\xFE", b"\xFE\xFF", b"sep=;\n"]),
        bytes in proptest::collection::vec(any::<u8>(), 0..700),
    ) {
        survives("any.xls", &[start, &bytes].concat());
    }

    #[test]
    fn any_text_table(table in any_table(), separator in proptest::sample::select(vec![",", ";", "\t", "|"])) {
        let rows: Vec<String> = table.iter().map(|row| row.join(separator)).collect();
        survives("any.csv", rows.join("\n").as_bytes());
    }

    #[test]
    fn any_cells_under_good_headings(text in any_delivery()) {
        prop_assert!(survives("delivery.csv", text.as_bytes()), "{}", text);
    }

    #[test]
    fn any_workbook(table in any_table(), top in proptest::sample::select(vec![0_u32, 1, 6, 1_048_560]), left in proptest::sample::select(vec![0_u16, 2, 16_370])) {
        survives("any.xlsx", &book(&table, top, left));
    }

    #[test]
    fn a_damaged_workbook(table in any_table(), damage in proptest::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..8), cut in proptest::option::weighted(0.2, any::<prop::sample::Index>())) {
        let mut bytes = book(&table, 0, 0);
        for (at, value) in damage {
            let at = at.index(bytes.len());
            bytes[at] = value;
        }
        if let Some(cut) = cut {
            bytes.truncate(cut.index(bytes.len()));
        }
        survives("any.xlsx", &bytes);
    }
}
