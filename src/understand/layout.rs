//! Where the tables of a sheet are: heading rows, and the rows that belong to each.

use super::heading::{self, Field, Heading};
use crate::read::{Row, Sheet, Value};
use crate::units::written::tidy;

/// A column's heading with everything written above and below it.
#[derive(Clone, Debug, PartialEq)]
pub struct HeadedColumn {
    /// Column from 1.
    pub number: u32,
    /// The heading's texts joined.
    pub text: String,
    /// As understood.
    pub heading: Heading,
}

/// One table of a sheet.
#[derive(Clone, Debug, PartialEq)]
pub struct Table {
    /// Index (into the sheet's rows) of the heading row.
    pub heading: usize,
    /// Number of heading rows (2 where units or sub-headings stand below).
    pub depth: usize,
    /// Index of the first row after the headings.
    pub first: usize,
    /// Index after the table's last row.
    pub end: usize,
    /// Headed columns.
    pub columns: Vec<HeadedColumn>,
}

/// Least number of different fields that make a heading row.
const LEAST_FIELDS: usize = 3;

/// Finds the tables of a sheet, in order.
pub fn tables(sheet: &Sheet) -> Vec<Table> {
    let mut found: Vec<Table> = Vec::new();
    let mut at = 0;
    while at < sheet.rows.len() {
        let in_table = found
            .last()
            .is_some_and(|table| holds_a_figure(&sheet.rows[at], table));
        let Some((columns, depth)) = headings_at(sheet, at).filter(|_| !in_table) else {
            at += 1;
            continue;
        };
        if let Some(last) = found.last_mut() {
            if same_headings(&last.columns, &columns) {
                at += depth;
                continue;
            }
            last.end = at;
        }
        found.push(Table {
            heading: at,
            depth,
            first: at + depth,
            end: sheet.rows.len(),
            columns,
        });
        at += depth;
    }
    found
}

/// Whether a row has a figure where the table above it has figures: then it is a line, however like a heading its words are.
fn holds_a_figure(row: &Row, table: &Table) -> bool {
    row.cells.iter().any(|cell| {
        is_figure(&cell.value)
            && table.columns.iter().any(|column| {
                column.number == cell.column && column.heading.field.is_some_and(Field::is_figure)
            })
    })
}

/// Whether a row repeats the table's headings (each page has them again).
pub fn repeats(table: &Table, sheet: &Sheet, at: usize) -> Option<usize> {
    headings_at(sheet, at)
        .filter(|(columns, _)| same_headings(&table.columns, columns))
        .map(|(_, depth)| depth)
}

fn same_headings(one: &[HeadedColumn], other: &[HeadedColumn]) -> bool {
    let same = other
        .iter()
        .filter(|column| {
            one.iter()
                .any(|known| known.number == column.number && known.text == column.text)
        })
        .count();
    same * 5 >= other.len().max(1) * 4
}

/// The headed columns of a heading row at index `at`, with the number of its rows.
fn headings_at(sheet: &Sheet, at: usize) -> Option<(Vec<HeadedColumn>, usize)> {
    let row = sheet.rows.get(at)?;
    let next = sheet
        .rows
        .get(at + 1)
        .filter(|next| next.number == row.number + 1);
    let numbers = row
        .cells
        .iter()
        .filter(|cell| is_figure(&cell.value))
        .count();
    // Told by counting before any word is looked up: most rows of a list hold too many figures for headings.
    if numbers * 4 > row.cells.len() + next.map_or(0, |next| next.cells.len()) {
        return None;
    }
    let single = headed(row, None, sheet);
    let below = next.filter(|below| sub_heading(below));
    let joined = below.map(|below| headed(row, Some(below), sheet));
    // A title above a row of headings is no heading: the upper row must be one by itself, or hold heading words only.
    let upper = qualifies(&single)
        || single
            .iter()
            .all(|column| column.heading.known >= 0.99 && column.heading.field.is_some());
    if !measured(&single) && below.is_some_and(|below| qualifies(&headed(below, None, sheet))) {
        return None;
    }
    let (columns, depth) = match joined {
        Some(joined) if upper && score(&joined) >= score(&single) => (joined, 2),
        _ => (single, 1),
    };
    let texts = columns
        .iter()
        .filter(|column| !column.text.is_empty())
        .count();
    (qualifies(&columns) && numbers * 4 <= texts && followed(sheet, at + depth, &columns))
        .then_some((columns, depth))
}

/// Whether columns make a heading row: enough different fields, most of them known, one of them a measure.
fn qualifies(columns: &[HeadedColumn]) -> bool {
    let texts = columns
        .iter()
        .filter(|column| !column.text.is_empty())
        .count();
    let known = columns
        .iter()
        .filter(|column| column.heading.field.is_some() && column.heading.known >= 0.5)
        .count();
    let measured = measured(columns);
    let named = columns.iter().any(|column| {
        matches!(
            column.heading.field,
            Some(Field::Description | Field::Item | Field::Mark | Field::Material | Field::LineNo)
        )
    });
    let fields = score(columns);
    let enough = fields >= LEAST_FIELDS || (fields == 2 && named && measured && texts <= 3);
    enough && measured && known * 2 >= texts
}

/// Whether a column is headed by a measure: labels above a table ("Supplier", "Order", "Vehicle") are not.
fn measured(columns: &[HeadedColumn]) -> bool {
    columns.iter().any(|column| {
        column.heading.field.is_some_and(|field| {
            !matches!(
                field,
                Field::LineNo
                    | Field::Item
                    | Field::Description
                    | Field::Remarks
                    | Field::NotUsed
                    | Field::Supplier
                    | Field::Order
                    | Field::Vehicle
            )
        })
    })
}

/// Number of different fields understood.
fn score(columns: &[HeadedColumn]) -> usize {
    let mut fields: Vec<(Field, _, _)> = columns
        .iter()
        .filter(|column| column.heading.known >= 0.5)
        .filter_map(|column| {
            Some((
                column.heading.field?,
                column.heading.kind,
                column.heading.basis.map(|basis| basis as u8),
            ))
        })
        .collect();
    fields.sort();
    fields.dedup();
    fields.len()
}

/// Some row within the next ones is filled in at least two of the columns.
fn followed(sheet: &Sheet, from: usize, columns: &[HeadedColumn]) -> bool {
    sheet.rows.iter().skip(from).take(12).any(|row| {
        row.cells
            .iter()
            .filter(|cell| columns.iter().any(|column| column.number == cell.column))
            .count()
            >= 2
            && row.cells.iter().any(|cell| is_figure(&cell.value))
    })
}

fn is_figure(value: &Value) -> bool {
    match value {
        Value::Number(_) => true,
        Value::Text(text) => text
            .trim_start_matches(['\'', '-', '(', '@', ' '])
            .starts_with(|sign: char| sign.is_ascii_digit()),
        _ => false,
    }
}

/// A second heading row: short texts only, each a unit or a known heading word.
fn sub_heading(row: &Row) -> bool {
    let texts: Vec<&str> = row
        .cells
        .iter()
        .filter_map(|cell| {
            if let Value::Text(text) = &cell.value {
                Some(&**text)
            } else {
                None
            }
        })
        .collect();
    texts.len() == row.cells.len()
        && !texts.is_empty()
        && row.cells.iter().all(|cell| !is_figure(&cell.value))
        && texts.iter().filter(|text| sub_word(text)).count() * 5 >= texts.len() * 4
        && texts.iter().any(|text| {
            text.contains(['(', '['])
                || heading::read(text).mass.is_some()
                || heading::read(text).length.is_some()
                || texts.len() > 1
        })
}

fn sub_word(text: &str) -> bool {
    let found = heading::read(text);
    // The longest are names of diameters and walls ("Diámetro exterior", "Espesor de pared").
    text.chars().count() <= 48
        && (found.known >= 0.99 || (text.starts_with('(') && text.ends_with(')')))
}

/// One heading per column: the row's own text, that of the merged or blank cell to the left above a sub-heading, and
/// the sub-heading.
fn headed(row: &Row, below: Option<&Row>, sheet: &Sheet) -> Vec<HeadedColumn> {
    let text_at = |row: &Row, column: u32| row.cell(column).map(|cell| tidy(&cell.value.text()));
    let mut numbers: Vec<u32> = row
        .cells
        .iter()
        .chain(below.iter().flat_map(|below| &below.cells))
        .map(|cell| cell.column)
        .collect();
    numbers.sort_unstable();
    numbers.dedup();
    let mut columns = Vec::with_capacity(numbers.len());
    for number in numbers {
        let own = text_at(row, number);
        let under = below.and_then(|below| text_at(below, number));
        let above = match (&own, &under) {
            (None, Some(_)) => parent(row, number, sheet),
            _ => None,
        };
        let text = [own, above, under]
            .into_iter()
            .flatten()
            .collect::<Vec<_>>()
            .join(" ");
        let heading = heading::read(&text);
        columns.push(HeadedColumn {
            number,
            text,
            heading,
        });
    }
    columns
}

/// The heading that spans a column from its left: merged over it, or (in text files) the nearest filled one.
fn parent(row: &Row, column: u32, sheet: &Sheet) -> Option<String> {
    let spanning = sheet
        .merged
        .iter()
        .find(|block| {
            (block.top..=block.bottom).contains(&row.number)
                && (block.left..=block.right).contains(&column)
        })
        .map(|block| block.left);
    let left = match spanning {
        Some(left) => left,
        // Without merged cells a heading spans the blank cells to its right.
        None if sheet.merged.is_empty() => {
            row.cells
                .iter()
                .rev()
                .find(|cell| cell.column < column)?
                .column
        }
        None => return None,
    };
    row.cell(left).map(|cell| tidy(&cell.value.text()))
}
