//! Working: each estimate step by step, one figure a row, so that a size can be changed and the weight moves with it.
//! A step whose words say plainly how it is worked out is a live formula; so is the expected range under the steps.

mod block;
mod places;
mod range;

pub use places::Places;

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::table::{Column, column};
use crate::audit::{Audit, Delivery};
use crate::report::loads::{self, Load};
use crate::site::Units;
use block::{Figure, Row, Sources};
use rust_xlsxwriter::XlsxError;

/// Name of the sheet.
pub const SHEET: &str = "Working";
/// Column of the figures, from 1.
const VALUE: u32 = 6;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit, places: &Places) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = book.table(SHEET, columns(units), Paper::Small, Keep::Rows)?;
    for (delivery, number) in audit.deliveries.iter().zip(0..) {
        let sources = Sources::of(delivery, number, places);
        for (load, at) in loads::of(delivery).zip(0..) {
            for row in block::rows(load, at, &sources, units) {
                table.row(&cells(delivery, load, row, units))?;
            }
        }
    }
    table.finish()
}

fn columns(units: Units) -> Vec<Column> {
    let mut columns = vec![
        column("Delivery", 13.0),
        column("Row (cell)", 7.0),
        column("Item", 12.0),
        column("Step", 5.0),
        column("What (figures in boxes may be changed)", 32.0),
        column("Figure (SI)", 13.0),
        column("Unit (SI)", 7.0),
    ];
    if units == Units::Us {
        columns.push(column("The same (US)", 12.0));
        columns.push(column("Unit (US)", 7.0));
    }
    columns.push(column("How it is worked out", 36.0));
    columns.push(column("Source", 42.0));
    columns
}

fn cells<'a>(delivery: &'a Delivery, load: Load<'a>, row: Row<'a>, units: Units) -> Vec<Cell<'a>> {
    let result = row.bold;
    let mut cells = vec![
        Cell::name(delivery.reading.delivery.as_str()),
        Cell::text(load.weight_place().cell()),
        Cell::name(load.item()),
        row.step.map_or(Cell::Blank, Cell::count),
        if result {
            Cell::Strong(row.what)
        } else {
            Cell::Text(row.what)
        },
    ];
    cells.extend(match &row.figure {
        Some(Figure {
            value,
            formula,
            unit,
            ..
        }) => [
            match formula {
                Some(formula) => Cell::Live(formula.clone(), *value),
                None if result => Cell::Exact(*value),
                None => Cell::Input(*value),
            },
            Cell::text(*unit),
        ],
        None => [Cell::Blank, Cell::Blank],
    });
    if units == Units::Us {
        cells.extend(match row.figure.and_then(|figure| figure.shown) {
            Some((formula, value, unit)) => [Cell::Seen(formula, value), Cell::text(unit)],
            None => [Cell::Blank, Cell::Blank],
        });
    }
    cells.push(Cell::Text(row.how));
    cells.push(Cell::Text(row.source));
    cells
}
