//! The exception workbook as a file: suppliers' texts stay texts, and the same call gives the same bytes.

mod formulas;
mod live;
mod parts;

use crate::helper::{audit_in, cell, said, status};
use calamine::{Data, Reader, Xlsx, open_workbook};
use rust_xlsxwriter::Workbook;
use std::path::Path;

/// What a spreadsheet program takes for a formula or a command when it stands at the start of a cell.
const STARTS: [&str; 6] = ["=", "+", "-", "@", "\t=", "\r="];
/// What would then be run.
const PAYLOAD: &str = "HYPERLINK(\"x\",\"look\")";

/// A delivery whose every text cell begins with `start`.
fn delivery(start: &str) -> String {
    let text = cell(&format!("{start}{PAYLOAD}"));
    format!(
        "Order,Supplier,Item,Description,Material,Qty,Unit,Pkg Type,Length (in),Width (in),Height (in),Weight (lb),Remarks\n\
        {text},{text},{text},{text},{text},1,{text},{text},24,12,12,{text},{text}\n\
        {text},{text},{text},\"Steel block {start}{}\",steel,1,ea,,24,12,12,400,{text}\n\
        {text},,,{text},,,,,,,,,\n",
        PAYLOAD.replace('"', "\"\"")
    )
}

/// Formulas of a workbook by sheet, and all its texts.
fn content(path: &Path) -> (Vec<(String, String)>, Vec<String>) {
    let mut book: Xlsx<_> = open_workbook(path).expect("a workbook");
    let (mut formulas, mut texts) = (Vec::new(), Vec::new());
    for name in book.sheet_names() {
        let found = book.worksheet_formula(&name).expect("formulas");
        formulas.extend(
            found
                .used_cells()
                .filter(|(_, _, text)| !text.is_empty())
                .map(|(_, _, text)| (name.clone(), text.clone())),
        );
        let range = book.worksheet_range(&name).expect("a sheet");
        texts.extend(range.used_cells().filter_map(|(_, _, value)| match value {
            Data::String(text) => Some(text.clone()),
            _ => None,
        }));
    }
    (formulas, texts)
}

#[test]
fn no_text_of_a_supplier_becomes_a_formula() {
    for start in STARTS {
        let folder = tempfile::tempdir().expect("a folder");
        std::fs::write(folder.path().join("list.csv"), delivery(start)).expect("a file");
        let register = format!(
            "Truck,Capacity (lb),Load centre (in),Remark\n{0},5000,24,{0}\nB,6000,24,sound\n",
            cell(&format!("{start}{PAYLOAD}"))
        );
        std::fs::write(folder.path().join("fleet.csv"), register).expect("a file");
        let name = format!("--delivery={start}{PAYLOAD}");
        let args = [
            "list.csv",
            "--fleet",
            "fleet.csv",
            "--units",
            "us",
            "--out",
            "out.xlsx",
            name.as_str(),
        ];
        let output = audit_in(folder.path(), &args);
        assert_eq!(status(&output), 1, "{start:?}: {}", said(&output));
        let (formulas, texts) = content(&folder.path().join("out.xlsx"));
        for (sheet, formula) in &formulas {
            assert_eq!(sheet, "Working", "{start:?}: {formula}");
            assert!(
                !formula.contains("HYPERLINK") && !formula.contains("look"),
                "{start:?}: {formula}"
            );
        }
        let plain = start.trim_start();
        assert!(
            texts
                .iter()
                .any(|text| text.contains(&format!("{plain}HYPERLINK"))),
            "{start:?}: the text itself is shown"
        );
    }
}

/// A formula that the supplier's own workbook holds does not come through as one.
#[test]
fn a_formula_in_the_delivery_stays_behind() {
    let folder = tempfile::tempdir().expect("a folder");
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (column, heading) in (0..).zip([
        "Description",
        "Qty",
        "Length (in)",
        "Width (in)",
        "Height (in)",
        "Weight (lb)",
    ]) {
        sheet.write_string(0, column, heading).expect("a cell");
    }
    sheet
        .write_formula(
            1,
            0,
            rust_xlsxwriter::Formula::new("=HYPERLINK(\"x\",\"look\")").set_result("Steel block"),
        )
        .expect("a cell");
    for (column, number) in (1..).zip([1.0, 24.0, 12.0, 12.0]) {
        sheet.write_number(1, column, number).expect("a cell");
    }
    sheet.write_formula(1, 5, "=490+490").expect("a cell");
    book.save(folder.path().join("list.xlsx"))
        .expect("a workbook");
    let output = audit_in(
        folder.path(),
        &["list.xlsx", "--units", "us", "--out", "out.xlsx"],
    );
    let (formulas, _) = content(&folder.path().join("out.xlsx"));
    let foreign: Vec<_> = formulas
        .iter()
        .filter(|(sheet, text)| {
            sheet != "Working" || text.contains("490") || text.contains("HYPERLINK")
        })
        .collect();
    assert!(foreign.is_empty(), "{foreign:?}: {}", said(&output));
}

/// The demo's working is live: its formulas stand on the Working sheet and nowhere else.
#[test]
fn the_working_sheet_of_the_demo_has_live_formulas() {
    let (folder, book) = demo_workbook();
    let (formulas, _) = content(&book);
    assert!(formulas.len() > 20, "{}", formulas.len());
    assert!(
        formulas.iter().all(|(sheet, _)| sheet == "Working"),
        "{formulas:?}"
    );
    drop(folder);
}

/// Two processes in different folders, the files named by different paths.
#[test]
fn two_runs_give_the_same_bytes() {
    let (one, first) = demo_workbook();
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kestrel-junction");
    let elsewhere = tempfile::tempdir().expect("a folder");
    let second = elsewhere.path().join("second.xlsx");
    let (deliveries, site) = (demo.join("deliveries"), demo.join("site.toml"));
    let output = audit_in(
        elsewhere.path(),
        &[
            &deliveries.to_string_lossy(),
            "--site",
            &site.to_string_lossy(),
            "--quiet",
            "--no-ledger",
            "--out",
            "second.xlsx",
        ],
    );
    assert_eq!(status(&output), 1, "{}", said(&output));
    let (first, second) = (
        std::fs::read(first).expect("a workbook"),
        std::fs::read(second).expect("a workbook"),
    );
    assert!(
        first.starts_with(b"PK") && first == second,
        "{} and {} bytes",
        first.len(),
        second.len()
    );
    drop(one);
}

/// The demo's workbook in a folder of its own.
fn demo_workbook() -> (tempfile::TempDir, std::path::PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let book = folder.path().join("out.xlsx");
    let demo = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kestrel-junction");
    let output = audit_in(
        &demo,
        &[
            "deliveries",
            "--quiet",
            "--no-ledger",
            "--out",
            &book.to_string_lossy(),
        ],
    );
    assert_eq!(status(&output), 1, "{}", said(&output));
    (folder, book)
}
