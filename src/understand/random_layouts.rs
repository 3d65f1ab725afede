//! Any table of known lines, written with a random layout, reads back to the same lines: a property that needs no
//! outside source, because what was written is known. Every case follows from its number alone.

mod chance;
mod figure;
mod goods;
mod layout;
mod rows;
mod words;
mod written;

use super::{Basis, Item, Known, MassUnit, SheetReading, Size1, file};
use figure::Figure;
use goods::Line;
use layout::{Holds, Layout, Weight};

/// Text files in the test run.
const TEXTS: u64 = 2_400;
/// Workbooks in the test run.
const BOOKS: u64 = 400;
/// Failing cases that are shown in full.
const SHOWN: usize = 3;

/// One table with what must be read back.
struct Case {
    layout: Layout,
    lines: Vec<Line>,
    /// Row of each line as a spreadsheet shows it.
    rows: Vec<u32>,
    /// Everything that was written, to show what failed.
    cells: Vec<Vec<String>>,
    bytes: Vec<u8>,
}

#[test]
fn text_files_read_back() {
    all_read_back(TEXTS, written::text_case);
}

#[test]
fn workbooks_read_back() {
    all_read_back(BOOKS, written::book_case);
}

/// Reads every case and compares; tells how many failed and shows the first of them.
fn all_read_back(cases: u64, make: impl Fn(u64) -> Case) {
    let mut failed = Vec::new();
    let mut lines = 0;
    for number in 0..cases {
        let case = make(number);
        lines += case.lines.len();
        if let Err(difference) = compare(&case) {
            failed.push(format!(
                "case {number}, {}: {difference}\n{}",
                case.layout.shown(),
                shown(&case.cells)
            ));
        }
    }
    assert!(lines as u64 > cases, "{lines} lines in {cases} cases");
    assert!(
        failed.is_empty(),
        "{} of {cases} failed\n{}",
        failed.len(),
        failed
            .iter()
            .take(SHOWN)
            .cloned()
            .collect::<Vec<_>>()
            .join("\n")
    );
}

fn shown(cells: &[Vec<String>]) -> String {
    let rows = cells
        .iter()
        .enumerate()
        .map(|(index, row)| format!("{:>3}: {}", index + 1, row.join(" ¦ ")));
    rows.collect::<Vec<_>>().join("\n")
}

/// The first difference between what was written and what was read.
fn compare(case: &Case) -> Result<(), String> {
    let raw = crate::read::bytes("list", &case.bytes).map_err(|(found, _)| found)?;
    let readings = file(&raw, &Known::default());
    let [SheetReading { items, .. }] = readings.as_slice() else {
        return Err(format!("{} sheets ({})", readings.len(), raw.kind));
    };
    let read: Vec<u32> = items.iter().map(|item| item.place.row).collect();
    if read != case.rows {
        return Err(format!(
            "lines in rows {read:?}, written in {:?} ({})",
            case.rows, raw.kind
        ));
    }
    for (item, line) in items.iter().zip(&case.lines) {
        one_line(item, line, &case.layout)
            .map_err(|difference| format!("row {}: {difference} ({})", item.place.row, raw.kind))?;
    }
    Ok(())
}

fn one_line(item: &Item, line: &Line, layout: &Layout) -> Result<(), String> {
    same(
        "description",
        &item.description,
        &line.description.to_string(),
    )?;
    same("pieces", &item.pieces, &line.pieces)?;
    if layout.place(Holds::Material).is_some() {
        same("material", &item.material.as_deref(), &Some(line.material))?;
    }
    let sizes = item.sizes.all();
    let names = ["length", "width", "height", "outside", "inside", "wall"];
    for ((read, written), name) in sizes.into_iter().zip(&line.sizes).zip(names) {
        size(name, read, written.as_ref())?;
    }
    let weights: Vec<(f64, Option<MassUnit>, Option<Basis>)> = item
        .weights
        .iter()
        .map(|weight| (weight.figure, weight.unit, weight.basis))
        .collect();
    let written: Vec<(f64, Option<MassUnit>, Option<Basis>)> = layout
        .weights(line)
        .into_iter()
        .map(
            |Weight {
                 figure,
                 unit,
                 basis,
             }| (figure, Some(unit), basis),
        )
        .collect();
    same("weights", &weights, &written)
}

/// A size is what was written, to the last binary digits.
fn size(name: &str, read: Option<Size1>, written: Option<&Figure>) -> Result<(), String> {
    let found = read.map(|size| size.length.m());
    let expected = written.map(|figure| figure.m());
    match (found, expected) {
        (None, None) => Ok(()),
        (Some(found), Some(expected)) if (found - expected).abs() <= 1e-9 * expected => Ok(()),
        _ => Err(format!("{name} {found:?} m, written {expected:?} m")),
    }
}

fn same<T: PartialEq + std::fmt::Debug>(name: &str, read: &T, written: &T) -> Result<(), String> {
    if read == written {
        Ok(())
    } else {
        Err(format!("{name} {read:?}, written {written:?}"))
    }
}
