//! Tables of a web page, whatever the file is called: all tables of the page are the rows of one sheet, each `<tr>` a row
//! from 1. Cells are text. Comes in: bytes or decoded text. Goes out: a sheet with its merged blocks.

mod scan;
mod table;

use super::decode::{decode, head};
use super::gather::{Budget, Gather};
use super::open::Refusal;
use super::{Reading, Sheet, mime};
use scan::{Token, Tokens, attribute};
use std::sync::Arc;
use table::Table;

/// Words outside the tables that a remark repeats, characters.
const MOST_OUTSIDE: usize = 200;

/// Reads a page.
///
/// # Errors
/// When it has no table, or more than a spreadsheet can hold.
pub(super) fn read(file: &Arc<str>, content: &[u8]) -> Result<Reading, Refusal> {
    let (text, encoding) = decode(content, stated_encoding(&head(content)).as_deref())?;
    let mut remarks = Vec::new();
    let sheet = page(file, "", &text, &mut Budget::new(), &mut remarks)?.ok_or_else(no_table)?;
    Ok((format!("html, {encoding}"), vec![sheet], remarks))
}

/// Reads a page that was saved as one file with its parts (MIME): each part with a table is a sheet.
///
/// # Errors
/// When no part has a table, or one has more than a spreadsheet can hold.
pub(super) fn read_mime(file: &Arc<str>, content: &[u8]) -> Result<Reading, Refusal> {
    let mut budget = Budget::new();
    let (mut sheets, mut remarks) = (Vec::new(), Vec::new());
    let mut encodings = Vec::new();
    for part in mime::pages(content) {
        let stated = part.charset.or_else(|| stated_encoding(&head(&part.bytes)));
        let (text, encoding) = decode(&part.bytes, stated.as_deref())?;
        if let Some(sheet) = page(file, &part.name, &text, &mut budget, &mut remarks)? {
            sheets.push(sheet);
            encodings.push(encoding);
        }
    }
    // One table needs no name to tell it from others.
    if let [only] = sheets.as_mut_slice() {
        only.name = "".into();
    }
    let encoding = encodings.first().ok_or_else(no_table)?;
    Ok((
        format!("html with its parts in one file (MIME), {encoding}"),
        sheets,
        remarks,
    ))
}

fn no_table() -> Refusal {
    (
        "is a web page without a table".to_string(),
        "ask the supplier for the list as xlsx, xls, ods or csv".to_string(),
    )
}

/// The encoding that a page states: `charset=` of a meta element, `encoding=` of an XML declaration.
fn stated_encoding(head: &str) -> Option<String> {
    let lower = head.to_ascii_lowercase();
    let after = |mark: &str| lower.find(mark).and_then(|at| lower.get(at + mark.len()..));
    let xml = || {
        if lower.starts_with("<?xml") {
            after("encoding=")
        } else {
            None
        }
    };
    let label: String = after("charset=")
        .or_else(xml)?
        .trim_start_matches(['"', '\'', ' '])
        .chars()
        .take_while(|sign| sign.is_ascii_alphanumeric() || matches!(sign, '-' | '_' | ':' | '.'))
        .collect();
    (!label.is_empty()).then_some(label)
}

/// The tables of a page as one sheet, none when it has no table.
fn page(
    file: &Arc<str>,
    name: &str,
    text: &str,
    budget: &mut Budget,
    remarks: &mut Vec<String>,
) -> Result<Option<Sheet>, Refusal> {
    let mut table = Table::new(Gather::unlimited(file, name), budget);
    let mut outside = String::new();
    // Tables inside cells are text of their cell.
    let mut depth = 0u32;
    let mut tables = 0u32;
    for token in Tokens::new(text) {
        match token {
            Token::Text(text) if table.in_cell() => table.text(&scan::entities(text)),
            Token::Text(text) => {
                if outside.len() < 4 * MOST_OUTSIDE {
                    outside.push_str(&scan::entities(text));
                }
            }
            Token::Open { name: "table", .. } => {
                depth += 1;
                tables += 1;
                if depth > 1 {
                    table.separate(' ');
                }
            }
            Token::Close("table") => {
                if depth <= 1 {
                    table.end_table()?;
                }
                depth = depth.saturating_sub(1);
            }
            Token::Open {
                name: "tr" | "td" | "th",
                ..
            }
            | Token::Close("tr" | "td" | "th")
                if depth > 1 =>
            {
                table.separate(' ')
            }
            Token::Open {
                name: "tr",
                attributes,
            } => table.row(is_hidden(attributes))?,
            Token::Close("tr") => table.end_row()?,
            Token::Open {
                name: "td" | "th",
                attributes,
            } => {
                let span = |name: &str| {
                    attribute(attributes, name)
                        .and_then(|text| text.trim().parse().ok())
                        .unwrap_or(1)
                };
                table.cell(span("rowspan"), span("colspan"))?;
            }
            Token::Close("td" | "th") => table.end_cell()?,
            Token::Open {
                name: "col",
                attributes,
            } => {
                let span = attribute(attributes, "span")
                    .and_then(|text| text.trim().parse().ok())
                    .unwrap_or(1);
                table.column(span, is_hidden(attributes));
            }
            Token::Open { name: "br", .. } => table.separate('\n'),
            Token::Open {
                name: "p" | "div" | "li" | "h1" | "h2" | "h3",
                ..
            }
            | Token::Close("p" | "div" | "li") => {
                table.new_line();
                outside.push(' ');
            }
            Token::Open { .. } | Token::Close(_) => {}
        }
    }
    table.end_table()?;
    if tables == 0 {
        return Ok(None);
    }
    let sheet = table.into_gather().finish(remarks);
    let outside = outside.split_whitespace().collect::<Vec<_>>().join(" ");
    if !outside.is_empty() {
        let shown: String = outside.chars().take(MOST_OUTSIDE).collect();
        let more = if shown.len() < outside.len() {
            "..."
        } else {
            ""
        };
        remarks.push(format!(
            "words outside the tables of the page were not read: \"{shown}{more}\""
        ));
    }
    Ok(Some(sheet))
}

/// Hidden by its style or by the attribute of that name.
fn is_hidden(attributes: &str) -> bool {
    let style = attribute(attributes, "style")
        .unwrap_or_default()
        .to_ascii_lowercase();
    style.split(';').any(|rule| {
        rule.split_once(':')
            .is_some_and(|(name, value)| name.trim() == "display" && value.trim() == "none")
    }) || attribute(attributes, "hidden").is_some()
}
