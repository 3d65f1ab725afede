//! xlsx, xlsb, xls and ods by calamine: xlsx as a stream of cells, never as a grid over its outline.

use super::open::Refusal;
use super::{Cell, MOST_CELLS, MOST_COLUMNS, MOST_ROWS, Merged, Row, Sheet, Value};
use calamine::{Data, Dimensions, Reader, SheetVisible, Sheets, open_workbook_auto_from_rs};
use std::io::Cursor;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

type Reading = (String, Vec<Sheet>, Vec<String>);
type Book<'a> = Sheets<Cursor<&'a [u8]>>;

/// Reads a workbook's sheets in order.
pub(super) fn read(file: &Arc<str>, content: &[u8]) -> Result<Reading, Refusal> {
    // A damaged file must never stop the other files of the morning: a panic of the library is a refusal of this file.
    catch_unwind(AssertUnwindSafe(|| sheets(file, content)))
        .unwrap_or_else(|_| Err(damaged("its parts contradict each other")))
}

fn damaged(why: impl std::fmt::Display) -> Refusal {
    (
        format!("is not a workbook that can be read ({why})"),
        "open it in a spreadsheet program, save it again as xlsx, or ask the supplier for a new copy".to_string(),
    )
}

fn refusal(error: impl std::fmt::Display) -> Refusal {
    let why = error.to_string();
    let lower = why.to_lowercase();
    if lower.contains("password") || lower.contains("encrypt") {
        return (
            "is encrypted".to_string(),
            "ask the supplier for a copy without a password".to_string(),
        );
    }
    damaged(why)
}

fn sheets(file: &Arc<str>, content: &[u8]) -> Result<Reading, Refusal> {
    if encrypted_package(content) {
        return Err(refusal("encrypted"));
    }
    let mut book = open_workbook_auto_from_rs(Cursor::new(content)).map_err(refusal)?;
    let kind = match &book {
        Sheets::Xlsx(_) => "workbook (xlsx)",
        Sheets::Xlsb(_) => "workbook (xlsb)",
        Sheets::Xls(_) => "workbook (xls)",
        Sheets::Ods(_) => "workbook (ods)",
    };
    let mut found = Vec::new();
    let mut remarks = Vec::new();
    for meta in book.sheets_metadata().to_vec() {
        if meta.typ != calamine::SheetType::WorkSheet {
            remarks.push(format!(
                "sheet \"{}\" holds no cells (a chart or macro sheet) and was not read",
                meta.name
            ));
            continue;
        }
        let mut sheet = Sheet {
            file: file.clone(),
            name: meta.name.as_str().into(),
            hidden: meta.visible != SheetVisible::Visible,
            rows: Vec::new(),
            merged: merged(&mut book, &meta.name),
            hidden_columns: Vec::new(),
        };
        let mut cells = Cells {
            rows: &mut sheet.rows,
            count: 0,
            sheet: &meta.name,
        };
        if let Sheets::Xlsx(book) = &mut book {
            let mut reader = book.worksheet_cells_reader(&meta.name).map_err(refusal)?;
            while let Some(cell) = reader.next_cell_with_formula().map_err(refusal)? {
                cells.push(cell.pos, value_of(cell.value.into(), cell.formula))?;
            }
        } else {
            let range = book.worksheet_range(&meta.name).map_err(refusal)?;
            let formulas = book.worksheet_formula(&meta.name).ok();
            let (top, left) = range.start().unwrap_or((0, 0));
            for (row, column, value) in range.used_cells() {
                // Positions count from the used area; the sheet's own numbers start at its first cell.
                let place = (
                    top.saturating_add(row as u32),
                    left.saturating_add(column as u32),
                );
                let formula = formulas
                    .as_ref()
                    .and_then(|all| all.get_value(place))
                    .filter(|text| !text.is_empty());
                cells.push(place, value_of(value.clone(), formula.cloned()))?;
            }
        }
        sort(&mut sheet.rows);
        found.push(sheet);
    }
    Ok((kind.to_string(), found, remarks))
}

/// An encrypted xlsx is a compound file with a stream of this name.
fn encrypted_package(content: &[u8]) -> bool {
    let name: Vec<u8> = "EncryptedPackage"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    content.starts_with(&[0xD0, 0xCF])
        && content
            .windows(name.len())
            .any(|window| window == name.as_slice())
}

fn merged(book: &mut Book<'_>, sheet: &str) -> Vec<Merged> {
    let blocks: Vec<Dimensions> = match book {
        Sheets::Xlsx(book) => book.merge_cells_by_sheet_name(sheet).unwrap_or_default(),
        Sheets::Xls(book) => book.merge_cells_by_sheet_name(sheet).unwrap_or_default(),
        _ => Vec::new(),
    };
    let from_one = |number: u32| number.saturating_add(1);
    blocks
        .into_iter()
        .map(|block| Merged {
            top: from_one(block.start.0),
            left: from_one(block.start.1),
            bottom: from_one(block.end.0),
            right: from_one(block.end.1),
        })
        .collect()
}

struct Cells<'a> {
    rows: &'a mut Vec<Row>,
    count: usize,
    sheet: &'a str,
}

impl Cells<'_> {
    /// Adds a cell at a position counted from 0.
    fn push(&mut self, (row, column): (u32, u32), value: Option<Value>) -> Result<(), Refusal> {
        if row >= MOST_ROWS || column >= MOST_COLUMNS {
            return Err((
                format!(
                    "has a cell outside a spreadsheet's limits in sheet \"{}\"",
                    self.sheet
                ),
                "ask the supplier for a file saved by a spreadsheet program".to_string(),
            ));
        }
        let Some(value) = value else { return Ok(()) };
        self.count += 1;
        if self.count > MOST_CELLS {
            return Err((
                format!(
                    "has more than {MOST_CELLS} filled cells in sheet \"{}\"",
                    self.sheet
                ),
                "split it, or save only the sheet with the delivery".to_string(),
            ));
        }
        let cell = Cell {
            column: column + 1,
            value,
        };
        match self.rows.last_mut() {
            Some(last) if last.number == row + 1 => last.cells.push(cell),
            _ => self.rows.push(Row {
                number: row + 1,
                hidden: false,
                cells: vec![cell],
            }),
        }
        Ok(())
    }
}

/// Rows and cells come in the file's order, which a careless writer may have shuffled; the last cell of one place wins.
fn sort(rows: &mut Vec<Row>) {
    rows.sort_by_key(|row| row.number);
    rows.dedup_by(|later, earlier| {
        let same = later.number == earlier.number;
        if same {
            earlier.cells.append(&mut later.cells);
        }
        same
    });
    for row in rows {
        row.cells.sort_by_key(|cell| cell.column);
        row.cells.dedup_by(|later, earlier| {
            let same = later.column == earlier.column;
            if same {
                std::mem::swap(later, earlier);
            }
            same
        });
    }
}

/// A cell's value; a formula that its writer never calculated has none.
fn value_of(data: Data, formula: Option<String>) -> Option<Value> {
    let value = match data {
        Data::Empty => None,
        Data::Int(number) => Some(Value::Number(number as f64)),
        Data::Float(number) => number.is_finite().then_some(Value::Number(number)),
        Data::String(text) => (!text.trim().is_empty()).then(|| Value::Text(text.into())),
        Data::Bool(truth) => Some(Value::Bool(truth)),
        Data::DateTime(stamp) => Some(
            stamp
                .as_datetime()
                .map_or(Value::Text(stamp.to_string().into()), Value::Date),
        ),
        Data::DateTimeIso(text) => Some(iso_date(&text)),
        Data::DurationIso(text) => Some(Value::Text(text.into())),
        Data::Error(error) => Some(Value::Error(error.to_string().into())),
    };
    match (value, formula) {
        (None | Some(Value::Number(0.0)), Some(formula)) if !formula.is_empty() => {
            Some(Value::Formula(formula.into()))
        }
        (value, _) => value,
    }
}

fn iso_date(text: &str) -> Value {
    let date = chrono::NaiveDateTime::parse_from_str(text, "%Y-%m-%dT%H:%M:%S%.f").or_else(|_| {
        chrono::NaiveDate::parse_from_str(text, "%Y-%m-%d")
            .map(|day| day.and_time(chrono::NaiveTime::MIN))
    });
    date.map_or_else(|_| Value::Text(text.into()), Value::Date)
}
