//! A light pass over one sheet part of an xlsx workbook: what stands where, as it is written. The values themselves are
//! read by calamine; this pass tells what calamine does not (hidden rows and columns, merged blocks) and whether
//! calamine would read the part as it is meant.

use crate::read::address::{address, block};
use crate::read::open::Refusal;
use crate::read::xml::{Xml, attribute, flag, next, number, push_text, text_of};
use crate::read::{MOST_ROWS, Merged};
use quick_xml::events::{BytesStart, Event};
use std::io::BufRead;

/// Longest formula that is looked at, bytes (the limit of spreadsheet programs is 8,192 characters).
pub(super) const LONGEST_FORMULA: usize = 32 * 1024;
/// Most shared formulas that are told apart: the library keeps a list as long as the highest number.
const MOST_SHARED: u32 = 65_536;

/// What the pass meets.
pub(super) enum Item<'a> {
    /// A row that is not shown.
    HiddenRow(u32),
    /// Columns that are not shown, first and last.
    HiddenColumns(u32, u32),
    /// A merged block.
    Merged(Merged),
    /// A cell, empty ones too.
    Cell(&'a Cell),
    /// Something outside the cells that the library would stumble over.
    Fault,
}

/// How a cell's stored text is to be taken (ECMA-376 part 1, 18.18.11).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) enum Kind {
    #[default]
    Number,
    Shared,
    Bool,
    Error,
    Date,
    Text,
    Inline,
}

/// A cell as written; row and column count from 1. One is used again and again, so that its texts keep their room.
#[derive(Default)]
pub(super) struct Cell {
    pub(super) row: u32,
    pub(super) column: u32,
    pub(super) kind: Kind,
    pub(super) style: u32,
    /// It has a stored value (which may be empty), the text of which is `stored`.
    pub(super) has_stored: bool,
    pub(super) stored: String,
    pub(super) inline: Option<String>,
    pub(super) formula: Option<String>,
    pub(super) shared: Option<u32>,
    /// It has an address that cannot be read; the place is the next one of its row.
    pub(super) lost: bool,
    /// The library reads it as it is meant, as far as the XML goes.
    plain: bool,
}

impl Cell {
    /// The library reads the value as it is meant, or refuses it, which is noticed.
    pub(super) fn is_plain(&self) -> bool {
        let stored = self.stored.as_str();
        self.plain
            && match self.kind {
                Kind::Shared => stored.bytes().all(|sign| sign.is_ascii_digit()),
                Kind::Number => match stored.trim().parse::<f64>() {
                    Ok(number) => number.is_finite() && stored.trim().len() == stored.len(),
                    Err(_) => true,
                },
                Kind::Inline => self.inline.is_some() || !self.has_stored,
                _ => self.inline.is_none(),
            }
    }

    /// Something is stored in it.
    pub(super) fn is_filled(&self) -> bool {
        self.inline.is_some() || self.formula.is_some() || !self.stored.trim().is_empty()
    }

    fn begin(&mut self, element: &BytesStart<'_>, row: u32, column: u32, row_stated: u32) {
        self.stored.clear();
        (self.inline, self.formula, self.shared) = (None, None, None);
        (self.kind, self.style) = (Kind::Number, 0);
        (self.has_stored, self.lost, self.plain) = (false, false, true);
        (self.row, self.column) = (row, column);
        for attribute in element.attributes().with_checks(false) {
            let Ok(attribute) = attribute else {
                self.plain = false;
                continue;
            };
            match attribute.key.as_ref() {
                "r" => match address(&attribute.value) {
                    Some((row, column)) => {
                        (self.row, self.column) = (row, column);
                        self.plain &= row == row_stated;
                    }
                    None => (self.lost, self.plain) = (true, false),
                },
                "s" => self.style = attribute.value.parse().unwrap_or(0),
                "t" => {
                    self.kind = match &*attribute.value {
                        "s" => Kind::Shared,
                        "b" => Kind::Bool,
                        "e" => Kind::Error,
                        "d" => Kind::Date,
                        "n" => Kind::Number,
                        "inlineStr" | "is" => Kind::Inline,
                        _ => Kind::Text,
                    }
                }
                _ => {}
            }
        }
    }

    /// The stored value. The library takes one stretch of text, and no CDATA.
    fn value<R: BufRead>(&mut self, xml: &mut Xml<R>, buffer: &mut Vec<u8>) -> Result<(), Refusal> {
        self.has_stored = true;
        let mut stretches = 0;
        loop {
            match next(xml, buffer)? {
                Event::End(element) if element.local_name().as_ref() == "v" => break,
                Event::Eof => break,
                event => {
                    stretches += 1;
                    self.plain &= match event {
                        Event::Text(_) => true,
                        Event::GeneralRef(_) => matches!(self.kind, Kind::Text | Kind::Date),
                        _ => false,
                    };
                    push_text(&event, &mut self.stored);
                }
            }
        }
        self.plain &= stretches <= 1 || matches!(self.kind, Kind::Text | Kind::Date);
        Ok(())
    }

    /// The formula. The library takes a shared one from the place that its range begins at.
    fn formula<R: BufRead>(
        &mut self,
        element: &BytesStart<'_>,
        xml: &mut Xml<R>,
        buffer: &mut Vec<u8>,
    ) -> Result<(), Refusal> {
        let is_shared = attribute(element, "t").is_some_and(|kind| kind == "shared");
        let range = attribute(element, "ref");
        self.shared = number(element, "si").filter(|_| is_shared);
        let mut formula = String::new();
        loop {
            match next(xml, buffer)? {
                Event::End(element) if element.local_name().as_ref() == "f" => break,
                Event::Eof => break,
                event => {
                    self.plain &= !matches!(event, Event::CData(_));
                    push_text(&event, &mut formula);
                }
            }
        }
        self.plain &= formula.len() <= LONGEST_FORMULA;
        if is_shared {
            let from = range.as_deref().map(|range| range.split(':').next());
            let begins_here = from
                .flatten()
                .and_then(address)
                .is_some_and(|place| place == (self.row, self.column));
            self.plain &= self.shared.is_some_and(|number| number < MOST_SHARED)
                && if formula.is_empty() {
                    range.is_none()
                } else {
                    begins_here
                };
        }
        self.formula = Some(formula).filter(|formula| formula.len() <= LONGEST_FORMULA);
        Ok(())
    }
}

/// Goes over a sheet part. Cells and rows without an address are the next ones.
///
/// # Errors
/// When the part is damaged, a filled cell lies outside a spreadsheet, or `meet` refuses.
pub(super) fn walk<R: BufRead>(
    mut xml: Xml<R>,
    meet: &mut dyn FnMut(Item<'_>) -> Result<(), Refusal>,
) -> Result<(), Refusal> {
    let (mut buffer, mut inner) = (Vec::new(), Vec::new());
    let mut cell = Cell::default();
    let (mut in_cell, mut tables) = (false, 0);
    // The row and column of the last cell, and the row that the row element states.
    let (mut row, mut column, mut stated) = (0u32, 0u32, 0u32);
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) => match element.local_name().as_ref() {
                "row" => {
                    let number = number::<u32>(&element, "r").filter(|row| *row >= 1);
                    // The library counts on from the last row element, this stage from the last cell.
                    if number.is_none() && (row != stated || attribute(&element, "r").is_some()) {
                        meet(Item::Fault)?;
                    }
                    row = number.unwrap_or(row.saturating_add(1));
                    (stated, column) = (row, 0);
                    // A row without height is as invisible as a hidden one. Rows of a collapsed outline carry the
                    // hidden mark themselves; the mark "collapsed" stands on the visible row beside them.
                    if is_flat(&element, "ht") || flag(&element, "hidden") {
                        meet(Item::HiddenRow(row))?;
                    }
                }
                "c" => {
                    cell.begin(
                        &element,
                        row.max(1),
                        column.saturating_add(1),
                        stated.max(1),
                    );
                    (row, column, in_cell) = (cell.row, cell.column, true);
                }
                "v" if in_cell => cell.value(&mut xml, &mut inner)?,
                "f" if in_cell => cell.formula(&element, &mut xml, &mut inner)?,
                "is" if in_cell => cell.inline = Some(text_of(&mut xml, &mut inner, "is")?),
                "col" if !in_cell && (is_flat(&element, "width") || flag(&element, "hidden")) => {
                    let first = number(&element, "min").unwrap_or(0);
                    meet(Item::HiddenColumns(
                        first,
                        number(&element, "max").unwrap_or(first),
                    ))?;
                }
                "mergeCell" if !in_cell => {
                    if let Some(block) = attribute(&element, "ref").as_deref().and_then(block) {
                        meet(Item::Merged(block))?;
                    }
                }
                "dimension" if !in_cell => {
                    let range = attribute(&element, "ref").unwrap_or_default();
                    if address(&range).is_none() && block(&range).is_none() {
                        meet(Item::Fault)?;
                    }
                }
                "sheetData" => {
                    tables += 1;
                    if tables > 1 {
                        meet(Item::Fault)?;
                    }
                }
                _ => {}
            },
            Event::End(element) if in_cell && element.local_name().as_ref() == "c" => {
                in_cell = false;
                if cell.row > MOST_ROWS && cell.is_filled() {
                    return Err((
                        "has a cell outside a spreadsheet's limits".to_string(),
                        "ask the supplier for a file saved by a spreadsheet program".to_string(),
                    ));
                }
                meet(Item::Cell(&cell))?;
            }
            Event::Eof => return Ok(()),
            _ => {}
        }
    }
}

fn is_flat(element: &BytesStart<'_>, size: &str) -> bool {
    number::<f64>(element, size).is_some_and(|size| size == 0.0)
}
