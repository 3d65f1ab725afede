//! OpenDocument spreadsheets: content.xml (or one flat file) as a stream. Repeated rows and cells are laid out where they
//! hold something; an empty tail of a million rows is nothing. A reader of our own, for calamine lays a sheet out as one dense
//! table: a lone cell in the last row and column of a small file would ask for gigabytes.

mod cell;

use super::gather::{Budget, Gather};
use super::open::Refusal;
use super::package::{Package, damaged, encrypted};
use super::xml::{Xml, attribute, next, number, reader};
use super::{MOST_LIST_COLUMNS, MOST_ROWS, Merged, Reading, Value};
use quick_xml::events::{BytesStart, Event};
use std::collections::HashSet;
use std::io::BufRead;
use std::sync::Arc;

/// Equal filled rows that are laid out one by one; a count beyond it is no list (common practice, no source).
const MOST_EQUAL_ROWS: u32 = 10_000;
/// Most sheets of one file (common practice, no source).
const MOST_SHEETS: usize = 1_024;

/// Reads an ods file.
///
/// # Errors
/// When it is damaged, encrypted or too large.
pub(super) fn read(file: &Arc<str>, package: &mut Package<'_>) -> Result<Reading, Refusal> {
    if is_encrypted(package)? {
        return Err(encrypted());
    }
    match package.part("content.xml")? {
        Some(source) => content(file, reader(source), "workbook (ods)"),
        None => Err(damaged("its content is missing")),
    }
}

/// Reads the XML of a flat OpenDocument file.
///
/// # Errors
/// When it is damaged or too large.
pub(super) fn read_flat(file: &Arc<str>, text: &str) -> Result<Reading, Refusal> {
    content(
        file,
        reader(text.as_bytes()),
        "workbook (flat OpenDocument)",
    )
}

fn is_encrypted(package: &mut Package<'_>) -> Result<bool, Refusal> {
    let Some(source) = package.part("META-INF/manifest.xml")? else {
        return Ok(false);
    };
    let mut xml = reader(source);
    let mut buffer = Vec::new();
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) if element.local_name().as_ref() == "encryption-data" => {
                return Ok(true);
            }
            Event::Eof => return Ok(false),
            _ => {}
        }
    }
}

fn content<R: BufRead>(file: &Arc<str>, mut xml: Xml<R>, kind: &str) -> Result<Reading, Refusal> {
    let mut buffer = Vec::new();
    let mut budget = Budget::new();
    let (mut sheets, mut remarks) = (Vec::new(), Vec::new());
    // Whole sheets are hidden by a style of theirs.
    let mut hiding: HashSet<String> = HashSet::new();
    let mut style = None;
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) => match element.local_name().as_ref() {
                "style" => style = attribute(&element, "name"),
                "table-properties"
                    if attribute(&element, "display").is_some_and(|value| value == "false") =>
                {
                    hiding.extend(style.take());
                }
                "table" => {
                    if sheets.len() >= MOST_SHEETS {
                        return Err(damaged(format!("more than {MOST_SHEETS} sheets")));
                    }
                    let name = attribute(&element, "name").unwrap_or_default();
                    let hidden = attribute(&element, "style-name")
                        .is_some_and(|style| hiding.contains(&style));
                    let mut table = Table {
                        gather: Gather::new(file, &name, hidden),
                        budget: &mut budget,
                        remarks: &mut remarks,
                        row: 0,
                        column: 0,
                    };
                    table.read(&mut xml)?;
                    let gather = table.gather;
                    sheets.push(gather.finish(&mut remarks));
                }
                _ => {}
            },
            Event::Eof => return Ok((kind.to_string(), sheets, remarks)),
            _ => {}
        }
    }
}

struct Table<'a> {
    gather: Gather,
    budget: &'a mut Budget,
    remarks: &'a mut Vec<String>,
    /// Rows and columns finished so far.
    row: u32,
    column: u32,
}

/// A filled cell of a row: its column, what it holds.
struct Filled {
    column: u32,
    cell: cell::Cell,
}

impl Table<'_> {
    fn read<R: BufRead>(&mut self, xml: &mut Xml<R>) -> Result<(), Refusal> {
        let mut buffer = Vec::new();
        loop {
            match next(xml, &mut buffer)? {
                Event::Start(element) => match element.local_name().as_ref() {
                    "table-column" => self.columns(&element),
                    "table-row" => self.rows(&element, xml)?,
                    // Drawings over the sheet may hold tables of their own.
                    "shapes" => cell::skip(xml, "shapes")?,
                    _ => {}
                },
                Event::End(element) if element.local_name().as_ref() == "table" => return Ok(()),
                Event::Eof => return Ok(()),
                _ => {}
            }
        }
    }

    fn columns(&mut self, element: &BytesStart<'_>) {
        let count = repeated(element, "number-columns-repeated");
        let first = self.column.saturating_add(1);
        self.column = self.column.saturating_add(count);
        if is_hidden(element) {
            self.gather.hide_columns(first, self.column);
        }
    }

    fn rows<R: BufRead>(
        &mut self,
        element: &BytesStart<'_>,
        xml: &mut Xml<R>,
    ) -> Result<(), Refusal> {
        let count = repeated(element, "number-rows-repeated");
        let hidden = is_hidden(element);
        let cells = self.cells(xml)?;
        let first = self.row.saturating_add(1);
        self.row = self.row.saturating_add(count);
        if cells.is_empty() {
            return Ok(());
        }
        let laid_out = count
            .min(MOST_EQUAL_ROWS)
            .min(MOST_ROWS.saturating_sub(first - 1));
        if laid_out < count {
            self.remarks.push(format!(
                "row {first}: written as {count} equal rows; the first {laid_out} were read"
            ));
        }
        for row in first..first + laid_out {
            for Filled { column, cell } in &cells {
                match &cell.formula {
                    Some(formula) => self.gather.formula(
                        self.budget,
                        row,
                        *column,
                        formula,
                        cell.value.clone(),
                    )?,
                    None => {
                        if let Some(value) = cell.value.clone() {
                            self.gather.cell(self.budget, row, *column, value)?;
                        }
                    }
                }
            }
            if hidden {
                self.gather.hide_row(row);
            }
        }
        Ok(())
    }

    /// The filled cells of a row; merged blocks are noted on the way.
    fn cells<R: BufRead>(&mut self, xml: &mut Xml<R>) -> Result<Vec<Filled>, Refusal> {
        let mut buffer = Vec::new();
        let mut found = Vec::new();
        let mut before: u32 = 0;
        loop {
            match next(xml, &mut buffer)? {
                Event::Start(element) => {
                    let name = element.local_name();
                    let covered = name.as_ref() == "covered-table-cell";
                    if !covered && name.as_ref() != "table-cell" {
                        continue;
                    }
                    let count = repeated(&element, "number-columns-repeated");
                    let first = before.saturating_add(1);
                    before = before.saturating_add(count);
                    let (down, across) = (
                        repeated(&element, "number-rows-spanned"),
                        repeated(&element, "number-columns-spanned"),
                    );
                    let cell = cell::read(
                        &element,
                        xml,
                        if covered {
                            "covered-table-cell"
                        } else {
                            "table-cell"
                        },
                    )?;
                    // What a merged block covers is not shown.
                    if covered {
                        continue;
                    }
                    if down > 1 || across > 1 {
                        let top = self.row.saturating_add(1);
                        self.gather.merge(Merged {
                            top,
                            left: first,
                            bottom: top.saturating_add(down - 1),
                            right: first.saturating_add(across - 1),
                        });
                    }
                    if cell.value.is_some() || cell.formula.is_some() {
                        // One more than is read, so that what lies beyond is said.
                        let last = before
                            .min(first.saturating_add(MOST_LIST_COLUMNS))
                            .min(super::MOST_COLUMNS);
                        found.extend((first..=last).map(|column| Filled {
                            column,
                            cell: cell.clone(),
                        }));
                    }
                }
                Event::End(element) if element.local_name().as_ref() == "table-row" => {
                    return Ok(found);
                }
                Event::Eof => return Ok(found),
                _ => {}
            }
        }
    }
}

/// A count that is written only when it is not 1.
fn repeated(element: &BytesStart<'_>, name: &str) -> u32 {
    number(element, name).unwrap_or(1).max(1)
}

/// Hidden by hand, or by a filter.
fn is_hidden(element: &BytesStart<'_>) -> bool {
    attribute(element, "visibility").is_some_and(|value| value == "collapse" || value == "filter")
}

/// A text cell, if it holds more than spaces.
fn filled(text: &str) -> Option<Value> {
    (!text.trim().is_empty()).then(|| Value::Text(text.into()))
}
