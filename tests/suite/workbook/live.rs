//! The working is live and right: each formula gives what its cell shows, worked out here and by a spreadsheet program, and a
//! size that is changed moves the line.

use super::demo_workbook;
use super::formulas::{Book, Name, name};
use super::parts::{parts, rewritten};
use crate::helper::{audit_in, said, status};
use std::path::{Path, PathBuf};
use std::process::Command;

/// Two results this near, relative, are the same.
const SAME: f64 = 1e-9;
const SHEET: &str = "Working";
/// Columns from 0: of the step's number, of what a row is, of its figure.
const STEP: u32 = 3;
const WHAT: u32 = 4;
const FIGURE: u32 = 5;

/// Shapes whose working has more than a product, a tank with its contents, loose goods, a pallet of many lines.
const GOODS: &str = "\
Pallet No,Item,Description,Material,Qty,Length (mm),Width (mm),Height (mm),Weight (kg)
,1,\"pipe OD 762 mm ID 610 mm L 2400 mm\",reinforced concrete,3,,,,2100
,2,\"concrete panel opening 900 x 2100 mm opening 600 x 600 mm opening 300 x 300 mm\",concrete,1,6000,3000,150,5000
,3,\"tank dia 1.2 m L 2.4 m wall 6 mm steel dished ends, 80 % full of diesel\",,1,,,,1500
,4,\"steel channel depth 200 flange 75 x 11.5 web 8.5 radius 10 L 6 m\",,4,,,,600
,5,\"elbow 90 deg LR OD 8.625 in wall .322 in\",steel,2,,,,60
,6,\"gravel 3 m3\",,1,,,,4800
,7,\"oil, 55 gal steel drum\",,2,,,,390
";

#[track_caller]
fn assert_same(cell: &Name, one: f64, other: f64) {
    assert!(
        (one - other).abs() <= SAME * other.abs(),
        "{cell:?}: {one}, {other} shown"
    );
}

fn goods_workbook(units: &str) -> (tempfile::TempDir, PathBuf) {
    let folder = tempfile::tempdir().expect("a folder");
    let mut list = GOODS.to_string();
    // One pallet with eight lines and one weight.
    for (line, weight) in (1..=8).zip(["900"].into_iter().chain(std::iter::repeat(""))) {
        let pallet = if line == 1 { "P1" } else { "" };
        list.push_str(&format!(
            "{pallet},P{line},steel plate,steel,{line},500,400,10,{weight}\n"
        ));
    }
    std::fs::write(folder.path().join("list.csv"), list).expect("a file");
    let output = audit_in(
        folder.path(),
        &[
            "list.csv",
            "--units",
            units,
            "--no-ledger",
            "--out",
            "out.xlsx",
        ],
    );
    assert_eq!(status(&output), 1, "{}", said(&output));
    let book = folder.path().join("out.xlsx");
    (folder, book)
}

/// Rows of Working with a step's number and how it is worked out: the results.
fn results(book: &Book) -> Vec<Name> {
    let how = |row: u32| {
        // The column before the last.
        let columns = (FIGURE..20).filter(|at| book.texts.contains_key(&(SHEET.into(), 0, *at)));
        let last = columns.max().expect("headings");
        book.texts.contains_key(&(SHEET.to_string(), row, last - 1))
    };
    let steps = book
        .figures
        .keys()
        .filter(|(sheet, cell)| sheet == SHEET && cell.starts_with('D'));
    let rows = steps.map(|(_, cell)| cell[1..].parse::<u32>().expect("a row") - 1);
    let mut rows: Vec<u32> = rows.filter(|row| how(*row)).collect();
    rows.sort_unstable();
    rows.into_iter()
        .map(|row| name(SHEET, row, FIGURE))
        .collect()
}

#[test]
fn each_formula_gives_what_its_cell_shows() {
    let (_kept, demo) = demo_workbook();
    let (_us, us) = goods_workbook("us");
    let (_si, si) = goods_workbook("si");
    for path in [demo, us, si] {
        let book = Book::open(&path);
        assert!(book.formulas.len() > 60, "{}", book.formulas.len());
        for cell in book.formulas.keys() {
            assert_same(cell, book.worked_out(cell, None), book.figures[cell]);
        }
        let results = results(&book);
        assert!(results.len() > 15, "{}", results.len());
        let dead: Vec<_> = results
            .iter()
            .filter(|cell| !book.formulas.contains_key(*cell))
            .collect();
        assert!(dead.is_empty(), "{dead:?} of {path:?} are no formulas");
    }
}

/// A pallet weighs what its eight lines weigh: twice as thick, a plate weighs twice as much, its pallet so much more.
#[test]
fn a_size_that_is_changed_moves_the_line_and_its_pallet() {
    let (_kept, path) = goods_workbook("si");
    let book = Book::open(&path);
    let text = |row: u32, column: u32| {
        book.texts
            .get(&(SHEET.to_string(), row, column))
            .map_or("", String::as_str)
    };
    let row_of = |item: &str, what: &str, after: u32| {
        let found = (after..2_000).find(|row| text(*row, 2) == item && text(*row, WHAT) == what);
        found.unwrap_or_else(|| panic!("no {what} of {item}"))
    };
    let cell = |row: u32| name(SHEET, row, FIGURE);
    let thick = cell(row_of("P8", "thickness", 0));
    assert!(
        !book.formulas.contains_key(&thick),
        "a size is a figure to change"
    );
    let before = book.figures[&thick];
    let twice = Some((&thick, 2.0 * before));
    let mut gain = 0.0;
    for what in ["line, likely", "line, low", "line, high"] {
        let line = cell(row_of("P8", what, 0));
        assert_same(
            &line,
            book.worked_out(&line, twice),
            2.0 * book.figures[&line],
        );
        if what == "line, likely" {
            gain = book.figures[&line];
        }
    }
    // 500 x 400 x 10 mm of carbon steel at the table's 7,849 kg/m3, eight pieces.
    let by_hand = 0.5 * 0.4 * 0.01 * 7_849.0 * 8.0;
    assert!((gain - by_hand).abs() < 1e-9, "{gain}");
    let pallet = (0..2_000).find(|row| text(*row, WHAT).starts_with("contents of"));
    let pallet = cell(pallet.expect("the pallet's sum"));
    assert_same(
        &pallet,
        book.worked_out(&pallet, twice),
        book.figures[&pallet] + gain,
    );
    let steps = (0..2_000).filter(|row| book.figures.contains_key(&name(SHEET, *row, STEP)));
    assert!(steps.count() > 50);
}

/// Every cached result is thrown away first, so that what comes back is the spreadsheet program's own.
#[test]
fn a_spreadsheet_program_works_out_the_same() {
    let there = Command::new("soffice").arg("--version").output();
    if !there.is_ok_and(|output| output.status.success()) {
        eprintln!("skipped: no soffice on the path");
        return;
    }
    let (_kept, demo) = demo_workbook();
    let (_us, us) = goods_workbook("us");
    for path in [demo, us] {
        let folder = tempfile::tempdir().expect("a folder");
        let ours = Book::open(&path);
        let emptied = folder.path().join("emptied.xlsx");
        let without_results = |part: &str, text: String| {
            if part.starts_with("xl/worksheets/") {
                without_results(&text)
            } else {
                text
            }
        };
        std::fs::write(&emptied, rewritten(&parts(&path), without_results)).expect("a file");
        let left = Book::open(&emptied);
        let gone = |cell: &Name| !left.figures.contains_key(cell);
        assert!(ours.formulas.keys().all(gone), "no result is left");
        let theirs = Book::open(&recalculated(&emptied, folder.path()));
        for cell in ours.formulas.keys() {
            let value = theirs.figures.get(cell);
            assert_same(cell, *value.unwrap_or(&f64::NAN), ours.figures[cell]);
        }
    }
}

/// A sheet whose formulas show nothing.
fn without_results(sheet: &str) -> String {
    let mut made = String::new();
    let mut rest = sheet;
    while let Some((before, after)) = rest.split_once("</f><v>") {
        let (_, after) = after.split_once("</v>").expect("an end");
        made.push_str(before);
        made.push_str("</f>");
        rest = after;
    }
    made + rest
}

/// The file as a spreadsheet program saves it, in a profile of its own.
fn recalculated(path: &Path, folder: &Path) -> PathBuf {
    let profile = folder.join("profile");
    let saved = folder.join("saved");
    let output = Command::new("soffice")
        .arg("--headless")
        .arg(format!(
            "-env:UserInstallation=file://{}",
            profile.display()
        ))
        .args(["--convert-to", "xlsx:Calc MS Excel 2007 XML", "--outdir"])
        .arg(&saved)
        .arg(path)
        .output()
        .expect("it starts");
    let book = saved.join("emptied.xlsx");
    assert!(book.exists(), "{}", String::from_utf8_lossy(&output.stderr));
    book
}
