//! Text files: encoding, delimiter, quoting faults. Every record counts, blank ones too; no type is guessed.

use super::decode::decode;
use super::delimiter;
use super::gather::{Budget, Gather};
use super::open::Refusal;
use super::records::Records;
use super::{Reading, Value};
use std::sync::Arc;

/// Rows with quoting faults that are named one by one; the others are counted.
const MOST_NAMED: usize = 50;

/// Reads a text file as one sheet without a name.
///
/// # Errors
/// When it does not decode as text, or holds more cells than are read.
pub(super) fn read(file: &Arc<str>, content: &[u8]) -> Result<Reading, Refusal> {
    let (text, encoding) = decode(content, None)?;
    // Line ends become one kind, so that records can be counted; within a quoted cell a line break stays one.
    let text = if text.contains('\r') {
        text.replace("\r\n", "\n").replace('\r', "\n")
    } else {
        text
    };
    let text = text
        .trim_start_matches('\u{FEFF}')
        .trim_end_matches(['\u{1A}', '\u{FEFF}', '\0']);
    let mut gather = Gather::unlimited(file, "");
    let mut budget = Budget::new();
    let (mut remarks, mut faults) = (Vec::new(), 0);
    let mut number = 0u32;
    let (delimiter, body) = match stated_delimiter(text) {
        Some((line, delimiter)) => {
            number = 1;
            gather.cell(&mut budget, number, 1, Value::Text(line.into()))?;
            (delimiter, text.get(line.len() + 1..).unwrap_or_default())
        }
        None => (delimiter::likely(text), text),
    };
    // The records are split at bytes: any other sign is exchanged for one that no text holds.
    let exchanged;
    let (sign, body) = if delimiter.is_ascii() {
        (delimiter, body)
    } else {
        exchanged = body.replace(delimiter, "\u{1F}");
        ('\u{1F}', exchanged.as_str())
    };
    for record in Records::new(body, sign, delimiter::usual_width(body, sign)) {
        number = number.saturating_add(1);
        for (column, field) in (1u32..).zip(record.fields) {
            if !field.trim().is_empty() {
                gather.cell(
                    &mut budget,
                    number,
                    column.min(super::MOST_COLUMNS),
                    Value::Text(field.into()),
                )?;
            }
        }
        if record.unclosed {
            faults += 1;
            if faults <= MOST_NAMED {
                remarks.push(format!(
                    "row {number}: a quotation mark is opened and never closed; it was read as an ordinary sign (an inch mark?)"
                ));
            }
        }
    }
    if faults > MOST_NAMED {
        remarks.push(format!(
            "{} more rows have a quotation mark that is never closed",
            faults - MOST_NAMED
        ));
    }
    let delimited = match delimiter {
        ',' => "commas",
        ';' => "semicolons",
        '\t' => "tabs",
        '|' => "bars",
        _ => "a sign of its own",
    };
    let sheet = gather.finish(&mut remarks);
    Ok((
        format!("text, {encoding}, {delimited}"),
        vec![sheet],
        remarks,
    ))
}

/// `sep=;` as the first line.
fn stated_delimiter(text: &str) -> Option<(&str, char)> {
    let line = text.split('\n').next()?;
    let bare = line.trim_matches(['"', ' ']);
    let sign = bare
        .get(..4)
        .filter(|word| word.eq_ignore_ascii_case("sep="))
        .and_then(|_| bare.get(4..))?;
    let mut signs = sign.chars();
    match (signs.next(), signs.next()) {
        (None, _) => Some((line, '\t')),
        (Some(sign), None) => Some((line, sign)),
        _ => None,
    }
}
