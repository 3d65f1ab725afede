//! One sheet: its tables row by row, each row an item or skipped with a reason.

mod head;
mod hidden;
mod kind;
mod shared;
mod sums;

use super::columns::{self};
use super::layout::{self, Table};
use super::title;
use super::{Remark, SheetReading, Skipped, Why, fields, supplier_layout};
use crate::read::{Row, Sheet};
use crate::site::SupplierLayout;
use crate::units::written::tidy;
use kind::{Kind, text_why};
use std::collections::BTreeMap;
use std::collections::HashMap;

/// Blank rows listed one by one; a longer gap is one entry.
const MOST_BLANKS: u32 = 200;
/// A text longer than this in a row of its own is a note, not a section's name.
const LONGEST_SECTION: usize = 50;

/// What the caller knows about a delivery.
#[derive(Clone, Debug, Default)]
pub struct Known {
    /// Supplier, as given by option.
    pub supplier: Option<String>,
    /// Name of the delivery, as given by option.
    pub delivery: Option<String>,
    /// The site writes US units: what bare figures are taken as when nothing else tells.
    pub us: bool,
    /// The file separates its cells by semicolons: a comma is then a decimal sign unless its figures say otherwise.
    pub semicolons: bool,
    /// The site's layouts, by the supplier's name.
    pub layouts: BTreeMap<String, SupplierLayout>,
}

/// Understands a sheet. `others` are the names of the file's other sheets: a table that lists them is a summary.
pub(super) fn sheet(sheet: &Sheet, others: &[&str], known: &Known) -> SheetReading {
    let mut tables = layout::tables(sheet);
    if tables.is_empty() {
        tables = supplier_layout::tables(sheet, &known.layouts);
    }
    let mut reading = Reader {
        sheet,
        known,
        reading: blank_reading(sheet),
        pending: None,
        layout: None,
        blocks: blocks(sheet),
    };
    if sheet.hidden {
        reading.hidden_sheet();
    } else if let Some(start) = summary_start(sheet, &tables, others) {
        reading.summary(start);
    } else if tables.is_empty() {
        reading.without_table();
    } else {
        reading.title(&tables);
        reading.choose_layout(&tables);
        for (index, table) in tables.iter().enumerate() {
            reading.table(table, index + 1 < tables.len());
        }
        reading.blanks();
        reading.hidden_columns();
    }
    let mut reading = reading.reading;
    reading.skipped.sort_by_key(|skipped| skipped.row);
    reading
}

/// Blocks merged over several rows, for look-up by column and row.
fn blocks(sheet: &Sheet) -> HashMap<u32, Vec<(u32, u32)>> {
    let mut blocks: HashMap<u32, Vec<(u32, u32)>> = HashMap::new();
    for block in sheet.merged.iter().filter(|block| block.bottom > block.top) {
        blocks
            .entry(block.left)
            .or_default()
            .push((block.top, block.bottom));
    }
    for rows in blocks.values_mut() {
        rows.sort_unstable();
    }
    blocks
}

fn blank_reading(sheet: &Sheet) -> SheetReading {
    SheetReading {
        place: sheet.place(0, 0),
        delivery: String::new(),
        supplier: None,
        supplier_from: "unknown",
        vehicle: None,
        order: None,
        received: None,
        us: None,
        more_us: None,
        items: Vec::new(),
        shared: Vec::new(),
        skipped: Vec::new(),
        columns: Vec::new(),
        sums: Vec::new(),
        remarks: Vec::new(),
    }
}

/// Rows that begin with the names of the file's other sheets repeat their totals: the index of the heading above them.
fn summary_start(sheet: &Sheet, tables: &[Table], others: &[&str]) -> Option<usize> {
    let names = |row: &Row| {
        first_text(row)
            .is_some_and(|text| others.iter().any(|other| other.eq_ignore_ascii_case(&text)))
    };
    let first = sheet.rows.iter().position(names)?;
    let named = sheet.rows[first..].iter().filter(|row| names(row)).count();
    let start = tables
        .first()
        .map_or(first.saturating_sub(1), |table| table.heading);
    (named * 2 >= sheet.rows.len() - first).then_some(start)
}

fn first_text(row: &Row) -> Option<String> {
    row.cells.first().map(|cell| tidy(&cell.value.text()))
}

fn row_text(row: &Row) -> String {
    let text = tidy(
        &row.cells
            .iter()
            .map(|cell| cell.value.text())
            .collect::<Vec<_>>()
            .join(" "),
    );
    text.chars().take(160).collect()
}

struct Reader<'a> {
    sheet: &'a Sheet,
    known: &'a Known,
    reading: SheetReading,
    /// Package row whose lines follow.
    pending: Option<usize>,
    /// The supplier's layout.
    layout: Option<supplier_layout::Chosen<'a>>,
    /// Merged blocks of several rows by their first column: first and last row, in order.
    blocks: HashMap<u32, Vec<(u32, u32)>>,
}

impl Reader<'_> {
    fn skip(&mut self, row: &Row, why: Why) {
        self.reading.skipped.push(Skipped {
            row: row.number,
            why,
            text: row_text(row),
        });
    }

    fn remark(&mut self, code: &'static str, message: String) {
        self.reading.remarks.push(Remark {
            code,
            place: self.sheet.place(0, 0),
            message,
        });
    }

    fn summary(&mut self, start: usize) {
        for row in &self.sheet.rows[..start] {
            self.skip(row, Why::Title);
        }
        for row in &self.sheet.rows[start..] {
            self.skip(row, Why::Summary);
        }
        self.blanks();
    }

    fn table(&mut self, table: &Table, more: bool) {
        let sheet = self.sheet;
        for (offset, row) in sheet.rows[table.heading..table.first].iter().enumerate() {
            self.skip(
                row,
                if offset == 0 {
                    Why::Heading
                } else {
                    Why::Units
                },
            );
        }
        let layout = self.layout.map(|chosen| chosen.layout);
        let columns = columns::settle(sheet, table, self.known, layout);
        let heading = sheet.rows.get(table.heading).map_or(0, |row| row.number);
        for (column, message) in self
            .layout
            .iter()
            .flat_map(|chosen| supplier_layout::conflicts(chosen.name, chosen.layout, table))
        {
            self.reading.remarks.push(Remark {
                code: "layout-unit-differs",
                place: sheet.place(heading, column),
                message,
            });
        }
        for column in columns
            .all
            .iter()
            .filter(|column| columns.unread.contains(&column.number))
        {
            self.reading.remarks.push(Remark {
                code: "column-not-read",
                place: sheet.place(heading, column.number),
                message: format!(
                    "the heading \"{}\" was not understood and its figures were not used; if they are sizes of the goods, name the column in the supplier's layout (understand --save NAME)",
                    column.text
                ),
            });
        }
        self.reading.columns.extend(columns.readings());
        self.reading.us = self.reading.us.or(columns.us);
        self.reading.more_us = self.reading.more_us.or(columns.more_us);
        self.pending = None;
        let of_packages = self.sizes_of_packages(&columns);
        let first_item = self.reading.items.len();
        let mut sum_from = first_item;
        let mut vehicle = self.reading.vehicle.clone();
        let mut at = table.first;
        let mut last_number = None;
        while at < table.end {
            let Some(row) = sheet.rows.get(at) else { break };
            if last_number.is_some_and(|last| row.number > last + 1) {
                self.pending = None;
            }
            last_number = Some(row.number);
            if let Some(depth) = layout::repeats(table, sheet, at) {
                for (offset, row) in sheet.rows[at..at + depth].iter().enumerate() {
                    self.skip(
                        row,
                        if offset == 0 {
                            Why::Heading
                        } else {
                            Why::Units
                        },
                    );
                }
                last_number = sheet.rows.get(at + depth - 1).map(|row| row.number);
                at += depth;
                continue;
            }
            let kind = match self.kind(row, &columns) {
                Kind::Item => self
                    .unnamed_sum(row, &columns, first_item, sum_from)
                    .map_or(Kind::Item, Kind::Sum),
                kind => kind,
            };
            match kind {
                Kind::Hidden => {
                    self.skip(row, Why::Hidden);
                    let message = format!(
                        "row {} is hidden (\"{}\") and gave no line; show it and ask the supplier whether it was delivered",
                        row.number,
                        row_text(row)
                    );
                    self.reading.remarks.push(Remark {
                        code: "hidden-row",
                        place: sheet.place(row.number, 0),
                        message,
                    });
                }
                Kind::Sum(why) => {
                    self.pending = None;
                    self.sum(
                        row,
                        &columns,
                        why,
                        if why == Why::Subtotal { sum_from } else { 0 },
                    );
                    // What is carried from page to page ends no part sum.
                    if why != Why::Carried {
                        sum_from = self.reading.items.len();
                    }
                    self.skip(row, why);
                }
                Kind::Text => {
                    let goes_on = more
                        || sheet.rows[at + 1..table.end].iter().any(|next| {
                            matches!(self.kind(next, &columns), Kind::Item | Kind::Package)
                        });
                    let why = text_why(row, goes_on);
                    if why == Why::Section {
                        vehicle = section_vehicle(row).or(vehicle);
                    }
                    if !self.spoken_weight(row, &columns, why, first_item) {
                        self.skip(row, why);
                    }
                }
                Kind::Package => self.package_row(row, &columns),
                Kind::Item => {
                    let us = columns.bare_us(self.known);
                    let mut item = fields::item(sheet, row, &columns, us, of_packages);
                    item.vehicle = item.vehicle.or_else(|| vehicle.clone());
                    item.order = item.order.or_else(|| self.reading.order.clone());
                    self.join(item, row, &columns);
                }
            }
            at += 1;
        }
        self.merged_weights(first_item, &columns, of_packages);
        self.numbered_deliveries(first_item, &columns);
        self.supplier_of_lines(first_item);
    }

    /// Blank rows between the first and the last filled one.
    fn blanks(&mut self) {
        let mut before: Option<u32> = None;
        for row in &self.sheet.rows {
            let gap_from = before.map_or(1, |last| last + 1);
            let listed = (row.number.saturating_sub(gap_from)).min(MOST_BLANKS);
            for number in gap_from..gap_from + listed {
                self.reading.skipped.push(Skipped {
                    row: number,
                    why: Why::Blank,
                    text: String::new(),
                });
            }
            before = Some(row.number);
        }
    }
}

/// "CONTAINER C2": the lines below came in it.
fn section_vehicle(row: &Row) -> Option<String> {
    let text = first_text(row)?;
    let found = title::read(&[vec![(1, text)]]);
    found.vehicle
}
