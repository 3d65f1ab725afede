//! The rows of a workbook that came back, found by their headings and their marks.

use crate::place::Place;
use crate::read::{self, RawFile, Sheet, Value};
use crate::report::workbook::{ENTRY_HEADINGS, LINE_HEADING, MARK_HEADING, Mark, WHOLE, plain};
use crate::units::written::tidy;
use std::collections::BTreeMap;

/// A row with a mark.
#[derive(Clone, Debug, PartialEq)]
pub struct Row {
    /// Where each cell of the decision stands, filled or not: Decision, Weight, Evidence, Decided by, Date, Remark.
    pub places: [Place; 6],
    /// Its mark.
    pub mark: Mark,
    /// Where that stands.
    pub mark_place: Place,
    /// Every other cell under a heading, by that heading as [`plain`] has it: what it says, and where.
    pub cells: BTreeMap<String, (String, Place)>,
    /// What those cells hold.
    pub entries: [Option<Value>; 6],
    /// Heading of the weights.
    pub weight_heading: String,
}

/// What the sheet Basis says of the audit; empty where it was taken out.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Basis {
    /// Name of the site.
    pub site: String,
    /// Id of the audit.
    pub audit: String,
    /// Size and head of the ledger.
    pub head: Option<(i64, String)>,
}

/// A workbook that came back.
#[derive(Clone, Debug, PartialEq)]
pub struct Workbook {
    /// What its sheet Basis says.
    pub basis: Basis,
    /// Its rows with a mark, in its order.
    pub rows: Vec<Row>,
}

/// Reads a workbook.
///
/// # Errors
/// Every reason against its form, each with its place: no exception workbook, headings taken out, marks altered.
pub fn workbook(file: &RawFile) -> Result<Workbook, Vec<String>> {
    let (mut rows, mut faults, mut found) = (Vec::new(), Vec::new(), false);
    for sheet in &file.sheets {
        if let Some(columns) = columns(sheet, &mut faults) {
            found = true;
            faults.extend(merged(sheet, &columns));
            for row in sheet.rows.iter().filter(|row| row.number != columns.top) {
                match of_row(sheet, row, &columns) {
                    Ok(row) => rows.extend(row),
                    Err(fault) => faults.push(fault),
                }
            }
        }
    }
    if !found && faults.is_empty() {
        faults.push(format!(
            "{}: it is no exception workbook of this program (no sheet has the headings \"Decision\" and \"{MARK_HEADING}\"); give the workbook that \"dockheft audit\" wrote",
            file.name
        ));
    }
    if faults.is_empty() {
        let basis = basis(file);
        Ok(Workbook { basis, rows })
    } else {
        Err(faults)
    }
}

/// Where the columns of a sheet stand.
struct Columns {
    /// The row of the headings.
    top: u32,
    entries: [u32; 6],
    weight_heading: String,
    line: Option<u32>,
    mark: u32,
    /// Headings of all the others.
    others: BTreeMap<u32, String>,
}

/// The row of the headings and what stands under them; none where the sheet is not one to decide in.
fn columns(sheet: &Sheet, faults: &mut Vec<String>) -> Option<Columns> {
    let top = top(sheet)?;
    let mut one = |name: &str| {
        let mut columns = top.cells.iter().filter(|cell| is_headed(cell, name));
        let column = columns.next().map(|cell| cell.column);
        let place = sheet.place(top.number, column.unwrap_or(0));
        if column.is_none() {
            faults.push(format!("{place}: no column is headed \"{name}\"; columns may be moved, but neither taken out nor renamed: put it back"));
        }
        if let Some(second) = columns.next() {
            let second = sheet.place(top.number, second.column).cell();
            faults.push(format!(
                "{place}: a second column is headed \"{name}\" ({second}); leave one of them"
            ));
        }
        column
    };
    let entries = ENTRY_HEADINGS.map(&mut one);
    let mark = one(MARK_HEADING);
    let [Some(a), Some(b), Some(c), Some(d), Some(e), Some(f)] = entries else {
        return None;
    };
    let (entries, mark) = ([a, b, c, d, e, f], mark?);
    let line = top.cells.iter().find(|cell| is_headed(cell, LINE_HEADING));
    let line = line.map(|cell| cell.column);
    let ours = |column: u32| entries.contains(&column) || column == mark || Some(column) == line;
    let others = top.cells.iter().filter(|cell| !ours(cell.column));
    Some(Columns {
        top: top.number,
        entries,
        weight_heading: top
            .cell(b)
            .map(|cell| tidy(&cell.value.text()))
            .unwrap_or_default(),
        line,
        mark,
        others: others
            .map(|cell| (cell.column, plain(&cell.value.text())))
            .collect(),
    })
}

/// The row that has all headings of a decision. In a sheet with marks of this program also one that has some of them: they were
/// spoiled, and its decisions must not be passed over. Elsewhere such words are a supplier's.
fn top(sheet: &Sheet) -> Option<&read::Row> {
    let has = |row: &read::Row, name| row.cells.iter().any(|cell| is_headed(cell, name));
    let whole = |row: &&read::Row| {
        let mut all = ENTRY_HEADINGS.iter().chain([&MARK_HEADING]);
        all.all(|name| has(row, name))
    };
    let part = |row: &&read::Row| {
        has(row, ENTRY_HEADINGS[0]) && (has(row, MARK_HEADING) || has(row, LINE_HEADING))
    };
    let mut cells = sheet.rows.iter().flat_map(|row| &row.cells);
    let mut marked = || cells.any(|cell| Mark::parse(&cell.value.text()).is_some());
    let mut rows = sheet.rows.iter();
    let found = rows.clone().find(whole);
    found.or_else(|| rows.find(part).filter(|_| marked()))
}

/// Whether a cell is a heading of this name; that of the weights goes on with its unit.
fn is_headed(cell: &read::Cell, name: &str) -> bool {
    let heading = tidy(&cell.value.text()).to_lowercase();
    match heading.strip_prefix(&name.to_lowercase()) {
        Some("") => true,
        Some(unit) => name == "Weight" && unit.trim_start().starts_with('('),
        None => false,
    }
}

/// The first block of merged cells that makes one of the cells of several decisions: those below its first row hold nothing.
fn merged(sheet: &Sheet, columns: &Columns) -> Option<String> {
    let block = sheet.merged.iter().find(|block| {
        let mut entries = columns.entries.iter();
        block.bottom > block.top.max(columns.top)
            && entries.any(|column| (block.left..=block.right).contains(column))
    })?;
    Some(format!(
        "{} to {}: these cells are merged, and hold the decision of their first row alone; undo the merge, and fill in every row by itself",
        sheet.place(block.top, block.left),
        sheet.place(block.bottom, block.right).cell()
    ))
}

/// A row; none where it is nothing to decide on; or what is wrong with it.
fn of_row(sheet: &Sheet, row: &read::Row, columns: &Columns) -> Result<Option<Row>, String> {
    let text = |column: u32| row.cell(column).map(|cell| tidy(&cell.value.text()));
    let entries = columns.entries.map(|column| {
        let cell = row.cell(column)?;
        let is_blank = matches!(&cell.value, Value::Text(text) if text.trim().is_empty());
        (!is_blank).then(|| cell.value.clone())
    });
    let places = columns
        .entries
        .map(|column| sheet.place(row.number, column));
    let mark = text(columns.mark).filter(|text| !text.is_empty());
    let Some(mark) = mark else {
        return match entries.iter().position(Option::is_some) {
            None => Ok(None),
            Some(at) => Err(format!(
                "{}: this row takes no decision, it has no mark ({}); clear it, and decide line by line, or restore the row from the workbook as it was written",
                places[at],
                sheet.place(row.number, columns.mark).cell()
            )),
        };
    };
    let altered = |found: &str| {
        format!(
            "{}: the row's mark was altered ({found}); restore the row from the workbook as it was written",
            sheet.place(row.number, columns.mark)
        )
    };
    let Some(mark) = Mark::parse(&mark) else {
        // What somebody wrote over the headings is no row.
        if row.number < columns.top && entries.iter().all(Option::is_none) {
            return Ok(None);
        }
        return Err(altered(&format!("\"{mark}\" is none of this program")));
    };
    let line = columns.line.and_then(text).unwrap_or_default();
    if !line.is_empty() && line != WHOLE && line.to_lowercase() != mark.load {
        let place = sheet.place(row.number, columns.line.unwrap_or(0)).cell();
        return Err(altered(&format!(
            "it is of line {}, and {place} says {line}",
            mark.load
        )));
    }
    let cells = columns.others.iter().map(|(column, heading)| {
        let said = row
            .cell(*column)
            .map_or(String::new(), |cell| cell.value.text());
        (heading.clone(), (said, sheet.place(row.number, *column)))
    });
    Ok(Some(Row {
        places,
        mark,
        mark_place: sheet.place(row.number, columns.mark),
        cells: cells.collect(),
        entries,
        weight_heading: columns.weight_heading.clone(),
    }))
}

/// What the sheet Basis says of the audit.
fn basis(file: &RawFile) -> Basis {
    let sheet = file.sheets.iter().find(|sheet| &*sheet.name == "Basis");
    let rows = sheet.map_or(&[][..], |sheet| &sheet.rows);
    let said = |subject: &str, name: &str| {
        // Subject, name and value stand side by side, wherever the columns were moved to.
        rows.iter().find_map(|row| {
            let texts: Vec<String> = row.cells.iter().map(|cell| cell.value.text()).collect();
            let at = texts
                .windows(3)
                .position(|three| three[0] == subject && three[1] == name)?;
            texts.get(at + 2).cloned()
        })
    };
    let size = said("ledger", "records").and_then(|size| size.trim().parse().ok());
    Basis {
        site: said("setting", "name").unwrap_or_default(),
        audit: said("audit", "id").unwrap_or_default(),
        head: size.zip(said("ledger", "head")),
    }
}
