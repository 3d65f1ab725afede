//! Spreadsheet XML of 2003: one XML file with `Workbook`, `Worksheet`, `Table`, `Row`, `Cell`, `Data`.

use super::address::iso_date;
use super::gather::{Budget, Gather};
use super::open::Refusal;
use super::package::damaged;
use super::xml::{attribute, flag, next, number, push_text, reader};
use super::{Merged, Reading, Value};
use quick_xml::events::{BytesStart, Event};
use std::sync::Arc;

/// Most sheets of one file (common practice, no source).
const MOST_SHEETS: usize = 1_024;

/// Reads a workbook from its decoded text.
///
/// # Errors
/// When it is damaged or too large.
pub(super) fn read(file: &Arc<str>, text: &str) -> Result<Reading, Refusal> {
    let mut xml = reader(text.as_bytes());
    let mut buffer = Vec::new();
    let mut budget = Budget::new();
    let (mut sheets, mut remarks) = (Vec::new(), Vec::new());
    let mut open: Option<Table> = None;
    // The text that is being collected: of a cell's data, or whether the sheet is visible.
    let mut collected: Option<String> = None;
    let mut notes = 0u32;
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) => match (element.local_name().as_ref(), &mut open) {
                ("Worksheet", _) if sheets.len() >= MOST_SHEETS => {
                    return Err(damaged(format!("more than {MOST_SHEETS} sheets")));
                }
                ("Worksheet", _) => open = Some(Table::new(file, &element)),
                ("Column", Some(table)) => table.columns(&element),
                ("Row", Some(table)) => table.row(&element),
                ("Cell", Some(table)) => table.cell(&element),
                ("Comment", _) => notes += 1,
                ("Data", Some(table)) if notes == 0 => {
                    table.kind = attribute(&element, "Type").unwrap_or_default();
                    collected = Some(String::new());
                }
                ("Visible", Some(_)) => collected = Some(String::new()),
                _ => {}
            },
            Event::End(element) => match (element.local_name().as_ref(), &mut open) {
                ("Comment", _) => notes = notes.saturating_sub(1),
                ("Data", Some(table)) if notes == 0 => table.stored = collected.take(),
                ("Visible", Some(table)) if collected.take().is_some_and(is_hidden) => {
                    table.gather.hide();
                }
                ("Cell", Some(table)) => table.end_cell(&mut budget)?,
                ("Worksheet", _) => {
                    if let Some(table) = open.take() {
                        sheets.push(table.gather.finish(&mut remarks));
                    }
                }
                _ => {}
            },
            Event::Eof => {
                return Ok((
                    "workbook (spreadsheet XML 2003)".to_string(),
                    sheets,
                    remarks,
                ));
            }
            event => {
                if let Some(text) = &mut collected {
                    push_text(&event, text);
                }
            }
        }
    }
}

fn is_hidden(state: String) -> bool {
    state.trim() != "SheetVisible"
}

/// The table of a sheet while it is read. Rows, columns and cells without an index follow the one before.
struct Table {
    gather: Gather,
    row: u32,
    rows_after: u32,
    column: u32,
    cell: u32,
    cells_after: u32,
    kind: String,
    stored: Option<String>,
    formula: Option<String>,
}

impl Table {
    fn new(file: &Arc<str>, element: &BytesStart<'_>) -> Self {
        Table {
            gather: Gather::new(file, &attribute(element, "Name").unwrap_or_default(), false),
            row: 0,
            rows_after: 0,
            column: 0,
            cell: 0,
            cells_after: 0,
            kind: String::new(),
            stored: None,
            formula: None,
        }
    }

    fn columns(&mut self, element: &BytesStart<'_>) {
        let first = number(element, "Index").unwrap_or(self.column.saturating_add(1));
        self.column = first.saturating_add(number(element, "Span").unwrap_or(0));
        if flag(element, "Hidden") || number::<f64>(element, "Width") == Some(0.0) {
            self.gather.hide_columns(first, self.column);
        }
    }

    fn row(&mut self, element: &BytesStart<'_>) {
        let following = self.row.saturating_add(self.rows_after).saturating_add(1);
        self.row = number(element, "Index").unwrap_or(following);
        self.rows_after = number(element, "Span").unwrap_or(0);
        (self.cell, self.cells_after) = (0, 0);
        if flag(element, "Hidden") || number::<f64>(element, "Height") == Some(0.0) {
            self.gather.hide_row(self.row);
        }
    }

    fn cell(&mut self, element: &BytesStart<'_>) {
        let following = self.cell.saturating_add(self.cells_after).saturating_add(1);
        self.cell = number(element, "Index").unwrap_or(following);
        self.cells_after = number(element, "MergeAcross").unwrap_or(0);
        let down = number(element, "MergeDown").unwrap_or(0);
        self.gather.merge(Merged {
            top: self.row,
            left: self.cell,
            bottom: self.row.saturating_add(down),
            right: self.cell.saturating_add(self.cells_after),
        });
        self.formula = attribute(element, "Formula")
            .map(|formula| formula.trim_start_matches('=').to_string());
        self.kind.clear();
        self.stored = None;
    }

    fn end_cell(&mut self, budget: &mut Budget) -> Result<(), Refusal> {
        let value = self
            .stored
            .take()
            .filter(|text| !text.trim().is_empty())
            .map(|text| match self.kind.as_str() {
                "Number" => match text.trim().parse::<f64>() {
                    Ok(number) if number.is_finite() => Value::Number(number),
                    _ => Value::Text(text.into()),
                },
                "DateTime" => iso_date(text.trim()),
                "Boolean" => Value::Bool(text.trim() == "1"),
                "Error" => Value::Error(text.trim().into()),
                _ => Value::Text(text.into()),
            });
        let blank_result = value.is_none() && self.kind == "String";
        match (self.formula.take(), value) {
            (Some(_), None) if blank_result => Ok(()),
            (Some(formula), value) => self
                .gather
                .formula(budget, self.row, self.cell, &formula, value),
            (None, Some(value)) => self.gather.cell(budget, self.row, self.cell, value),
            (None, None) => Ok(()),
        }
    }
}
