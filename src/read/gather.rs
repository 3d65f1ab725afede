//! Gathers the cells of one sheet in whatever order they come, within limits that hold for the whole file.
//! Memory follows the number of filled cells, never a number written in the file.

use super::open::Refusal;
use super::{
    Cell, MOST_CELLS, MOST_COLUMNS, MOST_LIST_COLUMNS, MOST_ROWS, MOST_TEXT, Merged, Row, Sheet,
    Value,
};
use crate::place::column_letters;
use std::collections::HashSet;
use std::sync::Arc;

/// Most merged blocks of a sheet that are kept (common practice, no source).
const MOST_MERGED: usize = 100_000;

/// What a file may still put into memory.
#[derive(Clone, Debug)]
pub(super) struct Budget {
    cells: usize,
    text: usize,
}

impl Budget {
    /// The whole allowance of one file.
    pub(super) fn new() -> Self {
        Budget {
            cells: MOST_CELLS,
            text: MOST_TEXT,
        }
    }

    /// Takes the bytes of a text off the allowance.
    pub(super) fn text(&mut self, bytes: usize) -> Result<(), Refusal> {
        self.text = self.text.checked_sub(bytes).ok_or_else(|| {
            (
                format!("holds more than {} MiB of text", MOST_TEXT / 1024 / 1024),
                "save only the sheet with the delivery, as values".to_string(),
            )
        })?;
        Ok(())
    }

    fn cell(&mut self, value: &Value) -> Result<(), Refusal> {
        self.cells = self.cells.checked_sub(1).ok_or_else(|| {
            (
                format!("has more than {MOST_CELLS} filled cells"),
                "split it, or save only the sheet with the delivery".to_string(),
            )
        })?;
        match value {
            Value::Text(text) | Value::Error(text) | Value::Formula(text) => self.text(text.len()),
            _ => Ok(()),
        }
    }
}

/// A sheet that is being read.
#[derive(Clone)]
pub(super) struct Gather {
    sheet: Sheet,
    hidden_rows: HashSet<u32>,
    hidden_columns: Vec<(u32, u32)>,
    /// Cells too far to the right: how many, and the first one.
    far: Option<(u64, u32, u32)>,
    /// Formula cells with a stored 0, by row and column.
    zeros: HashSet<(u32, u32)>,
    formulas: bool,
    most_rows: u32,
}

impl Gather {
    /// An empty sheet.
    pub(super) fn new(file: &Arc<str>, name: &str, hidden: bool) -> Self {
        Gather {
            sheet: Sheet {
                file: file.clone(),
                name: name.into(),
                hidden,
                rows: Vec::new(),
                merged: Vec::new(),
                hidden_columns: Vec::new(),
            },
            hidden_rows: HashSet::new(),
            hidden_columns: Vec::new(),
            far: None,
            zeros: HashSet::new(),
            formulas: false,
            most_rows: MOST_ROWS,
        }
    }

    /// The sheet of a text or a page, which may be longer than a spreadsheet.
    pub(super) fn unlimited(file: &Arc<str>, name: &str) -> Self {
        Gather {
            most_rows: u32::MAX,
            ..Gather::new(file, name, false)
        }
    }

    /// Says that the sheet is hidden (some files say so after the cells).
    pub(super) fn hide(&mut self) {
        self.sheet.hidden = true;
    }

    /// Adds a cell; row and column count from 1. A blank text is no cell.
    ///
    /// # Errors
    /// When the place lies outside a spreadsheet or the file's allowance is used up.
    pub(super) fn cell(
        &mut self,
        budget: &mut Budget,
        row: u32,
        column: u32,
        value: Value,
    ) -> Result<(), Refusal> {
        if row == 0 || column == 0 || row > self.most_rows || column > MOST_COLUMNS {
            return Err((
                format!(
                    "has a cell outside a spreadsheet's limits in sheet \"{}\"",
                    self.sheet.name
                ),
                "ask the supplier for a file saved by a spreadsheet program".to_string(),
            ));
        }
        if matches!(&value, Value::Text(text) if text.trim().is_empty()) {
            return Ok(());
        }
        if column > MOST_LIST_COLUMNS {
            let (count, ..) = self.far.get_or_insert((0, row, column));
            *count += 1;
            return Ok(());
        }
        budget.cell(&value)?;
        self.formulas |= matches!(value, Value::Formula(_));
        let cell = Cell { column, value };
        match self.sheet.rows.last_mut() {
            Some(last) if last.number == row => last.cells.push(cell),
            _ => self.sheet.rows.push(Row {
                number: row,
                hidden: false,
                cells: vec![cell],
            }),
        }
        Ok(())
    }

    /// Adds a formula cell with what its writer stored, none for nothing. A stored 0 is no result to rely on.
    pub(super) fn formula(
        &mut self,
        budget: &mut Budget,
        row: u32,
        column: u32,
        formula: &str,
        stored: Option<Value>,
    ) -> Result<(), Refusal> {
        match stored {
            Some(Value::Number(0.0)) => {
                self.zeros.insert((row, column));
            }
            None => {}
            Some(value) => return self.cell(budget, row, column, value),
        }
        self.cell(budget, row, column, Value::Formula(formula.into()))
    }

    /// Marks a row as hidden.
    pub(super) fn hide_row(&mut self, row: u32) {
        // One entry a row of the file's own making: a repeated row is marked once for each row that holds something.
        self.hidden_rows.insert(row);
    }

    /// Marks the columns from `first` to `last` as hidden.
    pub(super) fn hide_columns(&mut self, first: u32, last: u32) {
        if first >= 1 && first <= last {
            self.hidden_columns.push((first, last));
        }
    }

    /// Adds a merged block of more than one cell.
    pub(super) fn merge(&mut self, block: Merged) {
        let sound = block.top >= 1
            && block.left >= 1
            && block.bottom >= block.top
            && block.right >= block.left
            && (block.bottom, block.right) != (block.top, block.left);
        if sound && self.sheet.merged.len() < MOST_MERGED {
            self.sheet.merged.push(Merged {
                bottom: block.bottom.min(self.most_rows),
                right: block.right.min(MOST_COLUMNS),
                ..block
            });
        }
    }

    /// How a cell is named in a remark: `Sheet1!H8`, or `H8` in a file without sheets.
    pub(super) fn cell_name(&self, row: u32, column: u32) -> String {
        cell_name(&self.sheet, row, column)
    }

    /// The sheet in order, its simple formulas recalculated; what was left out or recalculated is said.
    pub(super) fn finish(mut self, remarks: &mut Vec<String>) -> Sheet {
        sort(&mut self.sheet.rows);
        if !self.hidden_rows.is_empty() {
            for row in &mut self.sheet.rows {
                row.hidden = self.hidden_rows.contains(&row.number);
            }
        }
        if !self.hidden_columns.is_empty() {
            let used: HashSet<u32> = self
                .sheet
                .rows
                .iter()
                .flat_map(|row| row.cells.iter().map(|cell| cell.column))
                .collect();
            let hidden = |column: &u32| {
                self.hidden_columns
                    .iter()
                    .any(|(first, last)| (first..=last).contains(&column))
            };
            self.sheet.hidden_columns = used.into_iter().filter(hidden).collect();
            self.sheet.hidden_columns.sort_unstable();
        }
        if let Some((count, row, column)) = self.far {
            remarks.push(format!(
                "{}: {} left out, too far to the right to belong to the list (beyond column {})",
                self.cell_name(row, column),
                cells(count),
                column_letters(MOST_LIST_COLUMNS),
            ));
        }
        if self.formulas {
            super::recalculate::sheet(&mut self.sheet, &self.zeros, remarks);
        }
        self.sheet
    }
}

/// How a cell of a sheet is named in a remark.
pub(super) fn cell_name(sheet: &Sheet, row: u32, column: u32) -> String {
    let cell = sheet.place(row, column).cell();
    if sheet.name.is_empty() {
        cell
    } else {
        format!("{}!{cell}", sheet.name)
    }
}

/// `a cell was` or `3 cells were`.
pub(super) fn cells(count: u64) -> String {
    if count == 1 {
        "a cell was".to_string()
    } else {
        format!("{count} cells were")
    }
}

/// Rows and cells come in the file's order, which a careless writer may have shuffled; the last cell of one place wins.
fn sort(rows: &mut Vec<Row>) {
    if !rows.is_sorted_by(|one, next| one.number < next.number) {
        rows.sort_by_key(|row| row.number);
        rows.dedup_by(|later, earlier| {
            let same = later.number == earlier.number;
            if same {
                earlier.cells.append(&mut later.cells);
            }
            same
        });
    }
    for row in rows {
        if !row.cells.is_sorted_by(|one, next| one.column < next.column) {
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
}
