//! One cell of an OpenDocument table: its stored value, its formula, its text.

use super::filled;
use crate::read::Value;
use crate::read::address::iso_date;
use crate::read::open::Refusal;
use crate::read::xml::{Xml, attribute, next, number, push_text};
use quick_xml::events::{BytesStart, Event};
use std::io::BufRead;

/// Most spaces that one `text:s` stands for.
const MOST_SPACES: usize = 1_024;

/// What a cell holds.
#[derive(Clone, Debug)]
pub(super) struct Cell {
    /// The stored value, or the stored result of the formula.
    pub(super) value: Option<Value>,
    /// The formula, as written.
    pub(super) formula: Option<String>,
}

/// Reads a cell up to its end, whose name is `end`.
///
/// # Errors
/// When the part is damaged.
pub(super) fn read<R: BufRead>(
    element: &BytesStart<'_>,
    xml: &mut Xml<R>,
    end: &str,
) -> Result<Cell, Refusal> {
    let kind = attribute(element, "value-type").unwrap_or_default();
    let formula = attribute(element, "formula").filter(|formula| !formula.is_empty());
    let stored = match kind.as_str() {
        "float" | "percentage" | "currency" => number(element, "value")
            .filter(|number: &f64| number.is_finite())
            .map(Value::Number),
        "date" => attribute(element, "date-value").map(|text| iso_date(&text)),
        "boolean" => attribute(element, "boolean-value").map(|text| Value::Bool(text == "true")),
        "time" => attribute(element, "time-value").map(|text| Value::Text(text.into())),
        "string" => attribute(element, "string-value").and_then(|text| filled(&text)),
        _ => None,
    };
    let shown = text(xml, end)?;
    // An error has no type of its own: it is the text under a formula.
    let failed = formula.is_some() && (shown.starts_with('#') || shown.starts_with("Err:"));
    let value = if failed {
        Some(Value::Error(shown.trim().into()))
    } else {
        stored.or_else(|| filled(&shown))
    };
    // An empty text under a formula is its result.
    let blank_result = value.is_none() && kind == "string";
    Ok(Cell {
        value,
        formula: formula.filter(|_| !blank_result),
    })
}

/// The paragraphs of a cell, a line each; notes and drawings on it are not its text.
fn text<R: BufRead>(xml: &mut Xml<R>, end: &str) -> Result<String, Refusal> {
    let mut buffer = Vec::new();
    let mut all = String::new();
    let mut paragraphs = 0;
    let mut inside = false;
    loop {
        match next(xml, &mut buffer)? {
            Event::Start(element) => match element.local_name().as_ref() {
                "p" | "h" => {
                    if paragraphs > 0 {
                        all.push('\n');
                    }
                    paragraphs += 1;
                    inside = true;
                }
                "s" if inside => {
                    let count = number(&element, "c").unwrap_or(1usize).min(MOST_SPACES);
                    all.extend(std::iter::repeat_n(' ', count));
                }
                "tab" if inside => all.push('\t'),
                "line-break" if inside => all.push('\n'),
                name @ ("annotation" | "frame" | "detective" | "object") => {
                    let name = name.to_string();
                    skip(xml, &name)?;
                }
                _ => {}
            },
            Event::End(element) => match element.local_name().as_ref() {
                "p" | "h" => inside = false,
                name if name == end => return Ok(all),
                _ => {}
            },
            Event::Eof => return Ok(all),
            event if inside => push_text(&event, &mut all),
            _ => {}
        }
    }
}

/// Passes over an element with everything in it.
///
/// # Errors
/// When the part is damaged.
pub(super) fn skip<R: BufRead>(xml: &mut Xml<R>, name: &str) -> Result<(), Refusal> {
    let mut buffer = Vec::new();
    let mut depth = 1u32;
    while depth > 0 {
        match next(xml, &mut buffer)? {
            Event::Start(element) if element.local_name().as_ref() == name => depth += 1,
            Event::End(element) if element.local_name().as_ref() == name => depth -= 1,
            Event::Eof => break,
            _ => {}
        }
    }
    Ok(())
}
