//! How files were understood, for the person who compares it with the list: columns, weights, first lines, rows left out.
//! Comes in: an audit. Goes out: text of at most 100 places a line. Decides nothing.

mod lines;
mod weights;

use super::plain_table::{labelled, table};
use super::words;
use crate::audit::{Audit, Delivery};
use crate::place::{Place, column_letters};
use crate::understand::{How, Skipped, Why};
use crate::units::show;
use std::collections::HashMap;

/// Places on a line.
const WIDTH: usize = 100;
/// Points to settle that are told; a list with more is not read as it should be.
const MOST_POINTS: usize = 40;
/// Cells that a point names one by one.
const MOST_CELLS: usize = 20;
/// Where the texts of the head begin.
const HEAD: usize = 13;

/// Everything that was understood of the audit's files.
pub fn text(audit: &Audit) -> String {
    let mut text = String::new();
    for (at, source) in audit.sources.iter().enumerate() {
        text.push_str(&labelled("", 0, &source.name, WIDTH));
        text.push_str(&labelled("  read as", HEAD, &source.kind, WIDTH));
        for remark in &source.remarks {
            text.push_str(&labelled("  REMARK", HEAD, remark, WIDTH));
        }
        let before = text.len();
        for delivery in audit.deliveries_of(at) {
            text.push('\n');
            sheet(&mut text, delivery, audit);
        }
        if text.len() == before {
            text.push_str("\nNothing stands in this file.\n");
        }
    }
    text.push('\n');
    for caution in words::CAUTIONS {
        text.push_str(caution);
        text.push('\n');
    }
    text
}

/// Whether something must be settled before the reading may be relied on: a remark, an assumed or contradicted reading.
pub fn is_open(audit: &Audit) -> bool {
    let remarks = audit
        .sources
        .iter()
        .any(|source| !source.remarks.is_empty());
    remarks
        || audit
            .deliveries
            .iter()
            .any(|delivery| !open(delivery).is_empty())
}

/// Whether any visible sheet holds a table.
pub fn is_read(audit: &Audit) -> bool {
    audit
        .deliveries
        .iter()
        .any(|delivery| !delivery.reading.columns.is_empty())
}

fn sheet(text: &mut String, delivery: &Delivery, audit: &Audit) {
    let reading = &delivery.reading;
    let name = if reading.place.sheet.is_empty() {
        "The list".to_string()
    } else {
        format!("Sheet \"{}\"", reading.place.sheet)
    };
    let pieces: u64 = delivery
        .lines
        .iter()
        .map(|line| u64::from(line.item.pieces))
        .sum();
    let counts = if reading.columns.is_empty() {
        "no goods lines were read".to_string()
    } else {
        let shared = match delivery.packages.len() {
            0 => String::new(),
            many => format!(
                ", {} with one weight for several lines",
                words::count(many, "package")
            ),
        };
        format!(
            "{}, {}{shared}",
            words::count(delivery.lines.len(), "goods line"),
            count_of_pieces(pieces)
        )
    };
    text.push_str(&labelled("", 0, &format!("{name}: {counts}"), WIDTH));
    if !reading.columns.is_empty() {
        head(text, delivery);
        columns(text, delivery);
        weights::write(text, delivery);
        lines::write(text, delivery, audit.site.units);
    }
    skipped(text, delivery);
    let open = open(delivery);
    if !open.is_empty() {
        text.push_str("\n  To settle\n");
        for point in open.iter().take(MOST_POINTS) {
            text.push_str(&labelled("  -", 4, &words::sentence(point), WIDTH));
        }
        if let Some(more) = open.len().checked_sub(MOST_POINTS + 1) {
            let more = show::figure((more + 1) as f64);
            text.push_str(&labelled("  -", 4, &format!("and {more} more"), WIDTH));
        }
    }
}

fn count_of_pieces(pieces: u64) -> String {
    format!(
        "{} piece{}",
        show::figure(pieces as f64),
        if pieces == 1 { "" } else { "s" }
    )
}

fn head(text: &mut String, delivery: &Delivery) {
    let reading = &delivery.reading;
    let supplier = match (&reading.supplier, reading.supplier_from) {
        (Some(name), "option") => format!("{name} (given with --supplier)"),
        (Some(name), "layout") => {
            format!("{name} (known by the headings of its layout in the site file)")
        }
        (Some(name), "file name") => {
            format!("{name} (guessed from the file's name; --supplier NAME corrects it)")
        }
        (Some(name), _) => format!("{name} (named in the list)"),
        (None, _) => "not named in the list; give it with --supplier".to_string(),
    };
    let layout = reading.columns.iter().any(|column| column.how == How::Site);
    for (label, value) in [
        ("  delivery", Some(reading.delivery.clone())),
        ("  supplier", Some(supplier)),
        (
            "  layout",
            layout.then(|| "the supplier's, from the site file".to_string()),
        ),
        ("  order", reading.order.clone()),
        ("  vehicle", reading.vehicle.clone()),
        ("  date", reading.received.map(|date| date.to_string())),
    ] {
        if let Some(value) = value {
            text.push_str(&labelled(label, HEAD, &value, WIDTH));
        }
    }
}

fn columns(text: &mut String, delivery: &Delivery) {
    let mut rows: Vec<Vec<String>> = Vec::new();
    let mut last = 0;
    for column in &delivery.reading.columns {
        // A second table of the sheet begins again at the left.
        if column.column <= last {
            rows.push(vec!["---".to_string()]);
        }
        last = column.column;
        let used = column.layout.field != Some("not used");
        rows.push(vec![
            column_letters(column.column),
            if column.heading.is_empty() {
                "(no heading)".to_string()
            } else {
                column.heading.clone()
            },
            column.field.clone(),
            column.unit.clone().unwrap_or_default(),
            if used { how(column.how) } else { "" }.to_string(),
        ]);
    }
    text.push('\n');
    text.push_str(&table(
        &["col", "heading in the list", "taken for", "unit", "how"],
        &[3, 32, 34, 9, 12],
        &rows,
    ));
}

/// How a reading came about, in a word.
fn how(how: How) -> &'static str {
    match how {
        How::Stated => "stated",
        How::Inferred => "inferred",
        How::Assumed => "ASSUMED",
        How::Contradicted => "CONTRADICTED",
        How::Site => "site layout",
    }
}

/// Rows that gave no line, in order; neighbours that are blank, or hidden together with their sheet, in one entry.
fn skipped(text: &mut String, delivery: &Delivery) {
    let all = &delivery.reading.skipped;
    if all.is_empty() {
        return;
    }
    text.push_str("\n  Rows that are no goods lines\n");
    let rows: Vec<Vec<String>> = all
        .chunk_by(|one, next| {
            one.why == Why::Blank
                && next.why == Why::Blank
                && one.row.checked_add(1) == Some(next.row)
        })
        .filter_map(|run| {
            let (first, last): (&Skipped, &Skipped) = (run.first()?, run.last()?);
            let rows = if first.row == last.row {
                first.row.to_string()
            } else {
                format!("{} to {}", first.row, last.row)
            };
            Some(vec![
                rows,
                words::skipped(first.why).to_string(),
                first.text.clone(),
            ])
        })
        .collect();
    text.push_str(&table(
        &["row", "why", "what stands there"],
        &[12, 26, 56],
        &rows,
    ));
}

/// What must be settled: remarks on sheet and lines, columns that were assumed or are contradicted. What is said of several
/// rows or columns is said once.
fn open(delivery: &Delivery) -> Vec<String> {
    let reading = &delivery.reading;
    let mut points = Points::default();
    for remark in &reading.remarks {
        points.add(&remark.place, &remark.message);
    }
    for column in &reading.columns {
        let unit = column.unit.as_deref().unwrap_or("no unit");
        let message = match column.how {
            How::Assumed if column.layout.is_weight() => {
                "unit, or what the weights are of, was ASSUMED, as told above, and the heaviest reading still possible is planned; ask the supplier, then keep it in a layout (--save NAME)".to_string()
            }
            How::Assumed => format!("no unit is stated and {unit} was ASSUMED; compare the first lines with the list, then keep it in a layout (--save NAME)"),
            How::Contradicted => "the figures contradict the heading: all lines are held until the supplier has said which unit it is".to_string(),
            How::Stated | How::Inferred | How::Site => continue,
        };
        let name = format!(
            "column {} \"{}\"",
            column_letters(column.column),
            column.heading
        );
        points.told_once(message).names.push(name);
    }
    for remark in delivery.lines.iter().flat_map(|line| &line.item.remarks) {
        points.add(&remark.place, &remark.message);
    }
    points.all.into_iter().map(Point::text).collect()
}

/// Something to settle, and all it is said of.
struct Point {
    rows: Vec<u32>,
    names: Vec<String>,
    message: String,
}

impl Point {
    fn text(mut self) -> String {
        if let Some(more) = self.names.len().checked_sub(MOST_CELLS + 1) {
            self.names.truncate(MOST_CELLS);
            self.names
                .push(format!("and {} more", show::figure((more + 1) as f64)));
        }
        if !self.rows.is_empty() {
            self.names.push(words::rows(&self.rows));
        }
        if self.names.is_empty() {
            self.message
        } else {
            format!("{}: {}", self.names.join(", "), self.message)
        }
    }
}

/// Points in the order in which they were found, each said once.
#[derive(Default)]
struct Points {
    all: Vec<Point>,
    by_message: HashMap<String, usize>,
}

impl Points {
    fn add(&mut self, place: &Place, message: &str) {
        let point = self.told_once(message.to_string());
        match (place.row, place.column) {
            (0, _) => {}
            // It names its row itself.
            (row, 0) if message.starts_with(&format!("row {row} ")) => {}
            (row, 0) => point.rows.push(row),
            _ => point.names.push(place.cell()),
        }
    }

    fn told_once(&mut self, message: String) -> &mut Point {
        let next = self.all.len();
        let at = *self.by_message.entry(message.clone()).or_insert(next);
        if at == next {
            self.all.push(Point {
                rows: Vec::new(),
                names: Vec::new(),
                message,
            });
        }
        &mut self.all[at]
    }
}

#[cfg(test)]
mod tests;
