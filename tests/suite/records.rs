//! The records on standard output: valid by their published schemas, with file, sheet and row as the spreadsheet shows them.

use crate::helper::{audit_in, faults, lines, parsed, said, status};
use rust_xlsxwriter::Workbook;
use std::path::Path;

/// A workbook whose only table begins at C7, below a title and with a total under it.
fn at_c7(path: &Path) {
    let mut book = Workbook::new();
    book.add_worksheet()
        .set_name("Cover")
        .expect("a name")
        .write_string(0, 0, "See the next sheet")
        .expect("a cell");
    let sheet = book.add_worksheet().set_name("Load 2").expect("a name");
    sheet
        .write_string(1, 2, "Dunmore Halt Foundry, packing list 118")
        .expect("a cell");
    let rows: [[&str; 5]; 4] = [
        [
            "Item",
            "Description",
            "Qty",
            "Length (ft)",
            "Total weight (lb)",
        ],
        ["A1", "W12x26", "2", "20", "1040"],
        ["A2", "Rebar #5", "100", "20", ""],
        ["", "Total", "", "", "1040"],
    ];
    for (row, cells) in (6..).zip(rows) {
        for (column, cell) in (2..).zip(cells) {
            match cell.parse::<f64>() {
                Ok(number) => sheet.write_number(row, column, number).expect("a cell"),
                Err(_) => sheet.write_string(row, column, cell).expect("a cell"),
            };
        }
    }
    book.save(path).expect("a workbook");
}

#[test]
fn a_table_that_begins_at_c7_keeps_its_own_row_numbers() {
    let folder = tempfile::tempdir().expect("a folder");
    at_c7(&folder.path().join("list.xlsx"));
    let output = audit_in(
        folder.path(),
        &["list.xlsx", "--lines", "-", "--out", "out.xlsx"],
    );
    let records = parsed(&output.stdout);
    assert_eq!(faults(&records), Vec::<String>::new());
    let placed: Vec<(&str, &str, u64, &str)> = records
        .iter()
        .filter(|record| record["schema"] == "dockheft.line/1")
        .filter_map(|line| {
            Some((
                line["file"].as_str()?,
                line["sheet"].as_str()?,
                line["row"].as_u64()?,
                line["item"].as_str()?,
            ))
        })
        .collect();
    assert_eq!(
        placed,
        [
            ("list.xlsx", "Load 2", 8, "A1"),
            ("list.xlsx", "Load 2", 9, "A2")
        ]
    );
    let delivery = records
        .iter()
        .find(|record| record["sheet"] == "Load 2" && record["schema"] == "dockheft.delivery/1");
    let delivery = delivery.expect("a delivery record");
    let columns: Vec<&str> = delivery["reading"]
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(|read| read["column"].as_str())
        .collect();
    assert_eq!(columns, ["C", "D", "E", "F", "G"]);
    let skipped: Vec<u64> = delivery["skipped"]
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(|row| row["row"].as_u64())
        .collect();
    assert!(
        [2, 7, 10].iter().all(|row| skipped.contains(row)),
        "{skipped:?}"
    );
    assert!(
        said(&output).contains("list.xlsx"),
        "the text for people goes to standard error: {}",
        said(&output)
    );
    assert_eq!(
        status(&output),
        1,
        "a sheet without a table beside one with a table is no failure"
    );
}

/// Every line of every file is recorded once, those without weight, size or sense too.
#[test]
fn every_line_read_gives_one_valid_record() {
    let folder = tempfile::tempdir().expect("a folder");
    let text = "Description,Qty,Length (in),Width (in),Height (in),Weight (lb)\n\
        Steel plate,2,96,48,0.5,1306\nSteel plate,1,96,48,0.5,65\nSundry goods,1,,,,\nSundry goods,1,,,,400\n\
        Concrete block,1,48,24,24,TBA\nSteel plate,1,96,48,0.5,99999\n\"Pump, crated\",1,60,40,40,900\n";
    std::fs::write(folder.path().join("one.csv"), text).expect("a file");
    std::fs::write(folder.path().join("two.csv"), text.replace(',', ";")).expect("a file");
    std::fs::write(
        folder.path().join("fleet.csv"),
        "Truck,Capacity (lb),Load centre (in)\nA,5000,24\n",
    )
    .expect("a file");
    let output = audit_in(
        folder.path(),
        &[
            "one.csv",
            "two.csv",
            "--fleet",
            "fleet.csv",
            "--json",
            "--units",
            "us",
        ],
    );
    let records = parsed(&output.stdout);
    assert_eq!(faults(&records), Vec::<String>::new());
    let rows = |file: &str| {
        lines(records.clone())
            .iter()
            .filter(|line| line["file"] == file)
            .filter_map(|line| line["row"].as_u64())
            .collect::<Vec<_>>()
    };
    assert_eq!(rows("one.csv"), [2, 3, 4, 5, 6, 7, 8]);
    assert_eq!(rows("two.csv"), [2, 3, 4, 5, 6, 7, 8]);
    let mut ids: Vec<String> = lines(records)
        .iter()
        .map(|line| line["line"].to_string())
        .collect();
    ids.sort();
    ids.dedup();
    assert_eq!(ids.len(), 14, "each line has an id of its own");
}

/// The demo too, from one file of each layout.
#[test]
fn the_records_of_the_demo_keep_their_schemas() {
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kestrel-junction");
    let out = tempfile::tempdir().expect("a folder");
    let book = out.path().join("out.xlsx");
    let output = audit_in(
        &demo,
        &[
            "deliveries",
            "--lines",
            "-",
            "--quiet",
            "--no-ledger",
            "--out",
            &book.to_string_lossy(),
        ],
    );
    let records = parsed(&output.stdout);
    assert_eq!(faults(&records), Vec::<String>::new());
    assert_eq!(
        records
            .iter()
            .filter(|record| record["schema"] == "dockheft.delivery/1")
            .count(),
        5
    );
    assert_eq!(lines(records).len(), 55);
}
