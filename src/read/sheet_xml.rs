//! One sheet part of an xlsx workbook as a stream: cells with their places, hidden rows and columns, merged blocks.
//! Places come from the cells; the declared dimension of the sheet is never looked at.

use super::gather::{Budget, Gather};
use super::number_format::NumberFormat;
use super::open::Refusal;
use super::xml::{Xml, attribute, is_yes, next, number, push_text, without_sign_codes};
use super::{MOST_COLUMNS, Merged, Value};
use calamine::{ExcelDateTime, ExcelDateTimeType, expand_shared_formula};
use quick_xml::events::{BytesStart, Event};
use std::collections::{BTreeMap, HashMap};
use std::io::BufRead;

/// Longest formula that is looked at, bytes (the limit of spreadsheet programs is 8,192 characters).
const LONGEST_FORMULA: usize = 32 * 1024;

/// What the cells of a workbook's sheets refer to.
pub(super) struct Book {
    /// Shared texts by their number.
    pub(super) strings: Vec<Box<str>>,
    /// Number formats by the number of the cell style.
    pub(super) formats: Vec<NumberFormat>,
    /// Days count from 1904 instead of 1900.
    pub(super) from_1904: bool,
}

/// How a cell's stored text is to be taken (ECMA-376 part 1, 18.18.11).
#[derive(Clone, Copy, Debug, Default, PartialEq)]
enum Kind {
    #[default]
    Number,
    Shared,
    Bool,
    Error,
    Date,
    Text,
}

/// A cell while it is read; row and column count from 1. One is used again and again, so that its texts keep their room.
#[derive(Default)]
struct Open {
    row: u32,
    column: u32,
    kind: Kind,
    style: usize,
    stored: Option<String>,
    inline: Option<String>,
    formula: Option<String>,
    shared: Option<u32>,
}

/// Reads a sheet part.
///
/// # Errors
/// When the part is damaged, or the sheet larger than a spreadsheet or the file's allowance.
pub(super) fn read<R: BufRead>(
    mut xml: Xml<R>,
    book: &Book,
    gather: &mut Gather,
    budget: &mut Budget,
    remarks: &mut Vec<String>,
) -> Result<(), Refusal> {
    let mut sheet = Reader {
        book,
        gather,
        budget,
        row: 0,
        column: 0,
        masters: HashMap::new(),
        shown: BTreeMap::new(),
    };
    let (mut buffer, mut inner) = (Vec::new(), Vec::new());
    let (mut text, mut spare) = (String::new(), String::new());
    let mut cell: Option<Open> = None;
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) => match (element.local_name().as_ref(), &mut cell) {
                ("row", _) => sheet.row(&element),
                ("c", _) => cell = Some(sheet.open(&element)),
                ("v", Some(cell)) => {
                    text.clear();
                    text_until(&mut xml, &mut inner, "v", &mut text)?;
                    cell.stored = Some(std::mem::replace(&mut text, std::mem::take(&mut spare)));
                }
                ("f", Some(cell)) => {
                    let shared = attribute(&element, "t").is_some_and(|kind| kind == "shared");
                    cell.shared = number(&element, "si").filter(|_| shared);
                    let mut formula = String::new();
                    text_until(&mut xml, &mut inner, "f", &mut formula)?;
                    cell.formula = Some(formula).filter(|formula| formula.len() <= LONGEST_FORMULA);
                }
                ("is", Some(cell)) => cell.inline = Some(text_of(&mut xml, &mut inner, "is")?),
                ("col", None) => sheet.columns(&element),
                ("mergeCell", None) => {
                    if let Some(block) = attribute(&element, "ref").as_deref().and_then(block) {
                        sheet.gather.merge(block);
                    }
                }
                _ => {}
            },
            Event::End(element) if element.local_name().as_ref() == "c" => {
                if let Some(mut cell) = cell.take() {
                    sheet.close(&mut cell)?;
                    spare = cell.stored.unwrap_or(spare);
                }
            }
            Event::Eof => break,
            _ => {}
        }
    }
    remarks.extend(sheet.shown.into_iter().map(|(unit, (count, first))| {
        let more = if count == 1 { String::new() } else { format!(" and {} more", count - 1) };
        format!("{first}{more}: only the number format shows \"{unit}\", the stored number does not hold it; check the column's unit")
    }));
    Ok(())
}

struct Reader<'a> {
    book: &'a Book,
    gather: &'a mut Gather,
    budget: &'a mut Budget,
    row: u32,
    column: u32,
    /// Formulas that other cells share, with their own place.
    masters: HashMap<u32, (String, (u32, u32))>,
    /// Units that only a number format shows: how many cells, and the first.
    shown: BTreeMap<&'static str, (u64, String)>,
}

impl Reader<'_> {
    /// A row; without a number it is the next one.
    fn row(&mut self, element: &BytesStart<'_>) {
        self.row = number(element, "r").unwrap_or(self.row.saturating_add(1));
        self.column = 0;
        // A row without height is as invisible as a hidden one. Rows of a collapsed outline carry the hidden mark
        // themselves; the mark "collapsed" stands on the row beside them, which is visible.
        let flat = number::<f64>(element, "ht").is_some_and(|height| height == 0.0);
        if flat || attribute(element, "hidden").is_some_and(|value| is_yes(&value)) {
            self.gather.hide_row(self.row);
        }
    }

    /// Column settings that may hide columns.
    fn columns(&mut self, element: &BytesStart<'_>) {
        let flat = number::<f64>(element, "width").is_some_and(|width| width == 0.0);
        if flat || attribute(element, "hidden").is_some_and(|value| is_yes(&value)) {
            let first = number(element, "min").unwrap_or(0);
            self.gather
                .hide_columns(first, number(element, "max").unwrap_or(first));
        }
    }

    /// A cell begins; without an address it is the next one of its row.
    fn open(&mut self, element: &BytesStart<'_>) -> Open {
        let mut cell = Open::default();
        let mut place = None;
        let mut attributes = element.attributes();
        for attribute in attributes.with_checks(false).flatten() {
            match attribute.key.as_ref() {
                "r" => place = address(&attribute.value),
                "s" => cell.style = attribute.value.parse().unwrap_or(0),
                "t" => {
                    cell.kind = match &*attribute.value {
                        "s" => Kind::Shared,
                        "b" => Kind::Bool,
                        "e" => Kind::Error,
                        "d" => Kind::Date,
                        "n" => Kind::Number,
                        _ => Kind::Text,
                    }
                }
                _ => {}
            }
        }
        let (row, column) = place.unwrap_or((self.row.max(1), self.column.saturating_add(1)));
        (self.row, self.column) = (row, column);
        (cell.row, cell.column) = (row, column);
        cell
    }

    fn close(&mut self, cell: &mut Open) -> Result<(), Refusal> {
        let (row, column) = (cell.row, cell.column);
        let value = self.value(cell);
        let Some(mut formula) = cell.formula.take() else {
            return value.map_or(Ok(()), |value| {
                self.gather.cell(self.budget, row, column, value)
            });
        };
        if let Some(shared) = cell.shared {
            if !formula.is_empty() {
                self.budget.text(formula.len())?;
                self.masters
                    .insert(shared, (formula.clone(), (row, column)));
            } else if matches!(value, None | Some(Value::Number(0.0))) {
                formula = self.derived(shared, (row, column)).unwrap_or_default();
            }
        }
        match value {
            // An empty text is a result too: the formula of a blank line of a form.
            None if cell.kind == Kind::Text && cell.stored.is_some() => Ok(()),
            None if formula.is_empty() => Ok(()),
            value => self
                .gather
                .formula(self.budget, row, column, &formula, value),
        }
    }

    /// The formula of a cell that shares another cell's, moved to its own place.
    fn derived(&self, shared: u32, (row, column): (u32, u32)) -> Option<String> {
        let (formula, (from_row, from_column)) = self.masters.get(&shared)?;
        let from_zero = |row: u32, column: u32| (row.saturating_sub(1), column.saturating_sub(1));
        expand_shared_formula(
            formula,
            from_zero(*from_row, *from_column),
            from_zero(row, column),
        )
        .ok()
    }

    fn value(&mut self, cell: &Open) -> Option<Value> {
        if let Some(text) = &cell.inline {
            return filled(text);
        }
        let stored = cell.stored.as_deref()?;
        let trimmed = stored.trim();
        if trimmed.is_empty() {
            return None;
        }
        Some(match cell.kind {
            Kind::Shared => match trimmed
                .parse::<usize>()
                .ok()
                .and_then(|index| self.book.strings.get(index))
            {
                Some(text) => return (!text.trim().is_empty()).then(|| Value::Text(text.clone())),
                None => Value::Error("a text that the file does not hold".into()),
            },
            Kind::Bool => Value::Bool(is_yes(trimmed)),
            Kind::Error => Value::Error(trimmed.into()),
            Kind::Date => iso_date(trimmed),
            Kind::Number => match trimmed.parse::<f64>() {
                Ok(number) if number.is_finite() => self.number(number, cell),
                _ => Value::Text(stored.into()),
            },
            Kind::Text => Value::Text(without_sign_codes(stored).into()),
        })
    }

    /// A number, or the date that its format shows.
    fn number(&mut self, number: f64, cell: &Open) -> Value {
        let Some(format) = self.book.formats.get(cell.style) else {
            return Value::Number(number);
        };
        if format.date {
            let stamp =
                ExcelDateTime::new(number, ExcelDateTimeType::DateTime, self.book.from_1904);
            return stamp
                .as_datetime()
                .map_or(Value::Number(number), Value::Date);
        }
        if let Some(unit) = format.shows {
            match self.shown.get_mut(unit) {
                Some((count, _)) => *count += 1,
                None => drop(
                    self.shown
                        .insert(unit, (1, self.gather.cell_name(cell.row, cell.column))),
                ),
            }
        }
        Value::Number(number)
    }
}

/// A text cell, if it holds more than spaces.
fn filled(text: &str) -> Option<Value> {
    (!text.trim().is_empty()).then(|| Value::Text(text.into()))
}

/// A date or date and time by ISO 8601; other texts stay texts.
pub(super) fn iso_date(text: &str) -> Value {
    let date =
        chrono::NaiveDateTime::parse_from_str(text.trim_end_matches('Z'), "%Y-%m-%dT%H:%M:%S%.f")
            .or_else(|_| {
                chrono::NaiveDate::parse_from_str(text, "%Y-%m-%d")
                    .map(|day| day.and_time(chrono::NaiveTime::MIN))
            });
    date.map_or_else(|_| Value::Text(text.into()), Value::Date)
}

/// Row and column of an address such as `C7` or `$C$7`, both from 1.
pub(super) fn address(text: &str) -> Option<(u32, u32)> {
    let text = text.trim().trim_start_matches('$');
    let letters = text.bytes().take_while(u8::is_ascii_alphabetic).count();
    let (letters, digits) = text.split_at(letters);
    let digits = digits.trim_start_matches('$');
    if letters.is_empty()
        || letters.len() > 3
        || !digits.bytes().all(|digit| digit.is_ascii_digit())
    {
        return None;
    }
    let column = letters.bytes().fold(0, |sum, letter| {
        sum * 26 + u32::from(letter.to_ascii_uppercase() - b'A') + 1
    });
    let row = digits.parse().ok()?;
    (row >= 1 && column <= MOST_COLUMNS).then_some((row, column))
}

/// A block such as `A4:A6`.
fn block(text: &str) -> Option<Merged> {
    let (from, to) = text.split_once(':')?;
    let ((top, left), (bottom, right)) = (address(from)?, address(to)?);
    Some(Merged {
        top: top.min(bottom),
        left: left.min(right),
        bottom: top.max(bottom),
        right: left.max(right),
    })
}

/// Adds the text up to the end of an element.
fn text_until<R: BufRead>(
    xml: &mut Xml<R>,
    buffer: &mut Vec<u8>,
    end: &str,
    text: &mut String,
) -> Result<(), Refusal> {
    loop {
        match next(xml, buffer)? {
            Event::End(element) if element.local_name().as_ref() == end => return Ok(()),
            Event::Eof => return Ok(()),
            event => push_text(&event, text),
        }
    }
}

/// The text of a cell up to the end of its element: all runs, without the phonetic guides (`rPh`) of Japanese text.
///
/// # Errors
/// When the part is damaged.
pub(super) fn text_of<R: BufRead>(
    xml: &mut Xml<R>,
    buffer: &mut Vec<u8>,
    end: &str,
) -> Result<String, Refusal> {
    let mut all = String::new();
    let mut run = String::new();
    let (mut in_text, mut keep_spaces, mut guide) = (false, false, false);
    loop {
        match next(xml, buffer)? {
            Event::Start(element) => match element.local_name().as_ref() {
                "rPh" => guide = true,
                "t" if !guide => {
                    in_text = true;
                    keep_spaces =
                        attribute(&element, "space").is_some_and(|value| value == "preserve");
                    run.clear();
                }
                _ => {}
            },
            Event::End(element) => match element.local_name().as_ref() {
                "rPh" => guide = false,
                "t" if in_text => {
                    in_text = false;
                    // Without xml:space, spaces at the ends come from the layout of the file.
                    let text = if keep_spaces {
                        &run
                    } else {
                        run.trim_matches([' ', '\t', '\r', '\n'])
                    };
                    all.push_str(&without_sign_codes(text));
                }
                name if name == end => return Ok(all),
                _ => {}
            },
            Event::Eof => return Ok(all),
            event if in_text => push_text(&event, &mut run),
            _ => {}
        }
    }
}
