//! xls and xlsb by calamine: xls from a mended copy (see `xls`), xlsb as a stream of cells.

use super::gather::{Budget, Gather};
use super::open::Refusal;
use super::package::{Package, damaged, encrypted};
use super::{Merged, Reading, Value, address, xls};
use calamine::{Data, Reader, Sheet, SheetType, SheetVisible, Xls, Xlsb};
use std::collections::HashMap;
use std::io::Cursor;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::sync::Arc;

/// Reads an xls workbook.
///
/// # Errors
/// When it is damaged, encrypted or too large.
pub(super) fn read_xls(file: &Arc<str>, content: &[u8]) -> Result<Reading, Refusal> {
    let (copy, seen) = xls::look_through(content)?;
    guarded(|| {
        let mut book = Xls::new(Cursor::new(copy.as_slice())).map_err(refusal)?;
        let mut found = Sheets::default();
        for (index, meta) in book.sheets_metadata().to_vec().iter().enumerate() {
            let Some(mut gather) = found.begin(file, meta) else {
                continue;
            };
            let range = book.worksheet_range(&meta.name).map_err(refusal)?;
            let formulas = book.worksheet_formula(&meta.name).map_err(refusal)?;
            let (top, left) = range.start().unwrap_or((0, 0));
            for (row, column, value) in range.used_cells() {
                // Positions count from the used area; the sheet's own numbers start at its first cell.
                let place = (
                    top.saturating_add(row as u32),
                    left.saturating_add(column as u32),
                );
                let formula = formulas
                    .get_value(place)
                    .map(String::as_str)
                    .unwrap_or_default();
                found.cell(&mut gather, place, value.clone(), formula)?;
            }
            for block in book
                .merge_cells_by_sheet_name(&meta.name)
                .unwrap_or_default()
            {
                let from_one = |number: u32| number.saturating_add(1);
                gather.merge(Merged {
                    top: from_one(block.start.0),
                    left: from_one(block.start.1),
                    bottom: from_one(block.end.0),
                    right: from_one(block.end.1),
                });
            }
            if let Some(seen) = seen.get(index) {
                seen.tell(&mut gather, &mut found.remarks);
            }
            found.end(gather);
        }
        Ok(found.reading("workbook (xls)"))
    })
}

/// Reads an xlsb workbook.
///
/// # Errors
/// When it is damaged, encrypted or too large.
pub(super) fn read_xlsb(file: &Arc<str>, content: &[u8]) -> Result<Reading, Refusal> {
    // The library has no limits of its own.
    Package::open(content)?.measure()?;
    guarded(|| {
        let mut book = Xlsb::new(Cursor::new(content)).map_err(refusal)?;
        let mut found = Sheets::default();
        for meta in book.sheets_metadata().to_vec() {
            let Some(mut gather) = found.begin(file, &meta) else {
                continue;
            };
            let mut formulas = HashMap::new();
            {
                let mut reader = book.worksheet_cells_reader(&meta.name).map_err(refusal)?;
                while let Some(cell) = reader.next_formula().map_err(refusal)? {
                    found.budget.text(cell.get_value().len())?;
                    formulas.insert(cell.get_position(), cell.get_value().clone());
                }
            }
            let mut reader = book.worksheet_cells_reader(&meta.name).map_err(refusal)?;
            while let Some(cell) = reader.next_cell().map_err(refusal)? {
                let place = cell.get_position();
                let formula = formulas.remove(&place).unwrap_or_default();
                found.cell(
                    &mut gather,
                    place,
                    Data::from(cell.get_value().clone()),
                    &formula,
                )?;
            }
            // Formulas that the reader of cells gives nothing for have an error as result.
            for (place, formula) in formulas {
                found.cell(&mut gather, place, Data::Empty, &formula)?;
            }
            found.end(gather);
        }
        found.remarks.push("hidden rows and columns and merged cells of this kind of file are not seen: ask for it as xlsx".to_string());
        Ok(found.reading("workbook (xlsb)"))
    })
}

/// A damaged file must never stop the other files of the morning: a panic of the library is a refusal of this file.
pub(super) fn guarded<T>(read: impl FnOnce() -> Result<T, Refusal>) -> Result<T, Refusal> {
    catch_unwind(AssertUnwindSafe(read))
        .unwrap_or_else(|_| Err(damaged("its parts contradict each other")))
}

pub(super) fn refusal(error: impl std::fmt::Display) -> Refusal {
    let why = error.to_string();
    let lower = why.to_lowercase();
    if lower.contains("password") || lower.contains("encrypt") {
        encrypted()
    } else {
        damaged(why)
    }
}

/// The sheets of a workbook while they are read.
struct Sheets {
    budget: Budget,
    sheets: Vec<super::Sheet>,
    remarks: Vec<String>,
}

impl Default for Sheets {
    fn default() -> Self {
        Sheets {
            budget: Budget::new(),
            sheets: Vec::new(),
            remarks: Vec::new(),
        }
    }
}

impl Sheets {
    fn begin(&mut self, file: &Arc<str>, meta: &Sheet) -> Option<Gather> {
        if meta.typ != SheetType::WorkSheet {
            self.remarks.push(format!(
                "sheet \"{}\" holds no cells (a chart or macro sheet) and was not read",
                meta.name
            ));
            return None;
        }
        Some(Gather::new(
            file,
            &meta.name,
            meta.visible != SheetVisible::Visible,
        ))
    }

    /// Adds a cell at a position counted from 0.
    fn cell(
        &mut self,
        gather: &mut Gather,
        (row, column): (u32, u32),
        data: Data,
        formula: &str,
    ) -> Result<(), Refusal> {
        let (row, column) = (row.saturating_add(1), column.saturating_add(1));
        // An empty text under a formula is its result.
        let blank_result = matches!(&data, Data::String(text) if text.trim().is_empty());
        match (value_of(data), formula.is_empty()) {
            (Some(value), true) => gather.cell(&mut self.budget, row, column, value),
            (None, true) => Ok(()),
            (None, false) if blank_result => Ok(()),
            (value, false) => gather.formula(&mut self.budget, row, column, formula, value),
        }
    }

    fn end(&mut self, gather: Gather) {
        let sheet = gather.finish(&mut self.remarks);
        self.sheets.push(sheet);
    }

    fn reading(self, kind: &str) -> Reading {
        (kind.to_string(), self.sheets, self.remarks)
    }
}

/// A value of the library as the stage keeps it.
pub(super) fn value_of(data: Data) -> Option<Value> {
    match data {
        Data::Empty => None,
        Data::Int(number) => Some(Value::Number(number as f64)),
        Data::Float(number) => number.is_finite().then_some(Value::Number(number)),
        Data::String(text) => (!text.trim().is_empty()).then(|| Value::Text(text.into())),
        Data::Bool(truth) => Some(Value::Bool(truth)),
        // A number of elapsed hours is a number, not a day.
        Data::DateTime(stamp) if stamp.is_duration() => Some(Value::Number(stamp.as_f64())),
        Data::DateTime(stamp) => Some(
            stamp
                .as_datetime()
                .map_or(Value::Number(stamp.as_f64()), Value::Date),
        ),
        Data::DateTimeIso(text) => Some(address::iso_date(text.trim())),
        Data::DurationIso(text) => Some(Value::Text(text.into())),
        Data::Error(error) => Some(Value::Error(error.to_string().into())),
    }
}
