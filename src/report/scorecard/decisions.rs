//! The Decisions sheet: how flagged loads were decided and how fast, what is open since when, each `stop` that was overridden.

use super::tables::tenth;
use super::{charts, words};
use crate::report::workbook::book::{Book, Keep, Paper};
use crate::report::workbook::cell::Cell;
use crate::report::workbook::table::{Table, column};
use crate::scorecard::{Decisions, Override, Speed};
use crate::site::Units;
use crate::units::{Mass, show};
use rust_xlsxwriter::XlsxError;

const SHEET: &str = "Decisions";

/// Writes the sheet.
pub(super) fn write(book: &mut Book, decisions: &Decisions) -> Result<(), XlsxError> {
    let units = book.units;
    let unit = show::mass_unit(units);
    let columns = vec![
        column("What", 26.0),
        column("Which", 22.0),
        column("Lines", 8.0),
        column("Of them STOP", 8.0),
        column("Median hours to decide", 10.0),
        column("Nine in ten within hours", 10.0),
        column("By", 18.0),
        column("When", 17.0),
        column(format!("Planned before ({unit})"), 11.0),
        column(format!("Planned since ({unit})"), 11.0),
        column("Supplier", 24.0),
        column("Line", 18.0),
        column("Remark", 24.0),
    ];
    let mut table = book.table(SHEET, columns, Paper::Large, Keep::Whole)?;
    speed(&mut table, "Flagged and decided", "all", &decisions.all)?;
    for kind in &decisions.kinds {
        speed(&mut table, "decided as", &kind.decision, &kind.speed)?;
    }
    table.row(&[
        Cell::text("decided though not flagged"),
        Cell::text("all"),
        Cell::count(decisions.not_flagged),
    ])?;
    let first = table.next_row()? - 1;
    for age in &decisions.open {
        table.row(&[
            Cell::text("Flagged and open"),
            Cell::text(age.age),
            Cell::count(age.lines),
            Cell::count(age.stops),
        ])?;
    }
    let open = decisions.open.len();
    if decisions.overrides.is_empty() {
        table.row(&[Cell::Strong("STOP overridden".into()), Cell::text("none")])?;
    }
    for one in &decisions.overrides {
        overridden(&mut table, one, units)?;
    }
    let title = "Flagged lines that nobody has decided, by age";
    charts::bars(&mut table, SHEET, title, (first, open), (1, 2))?;
    table.finish()
}

fn speed(table: &mut Table<'_>, what: &str, which: &str, of: &Speed) -> Result<(), XlsxError> {
    table.row(&[
        Cell::text(what),
        Cell::text(which),
        Cell::count(of.lines),
        Cell::Blank,
        Cell::figure(of.median_hours.map(tenth)),
        Cell::figure(of.nine_in_ten_hours.map(tenth)),
    ])
}

fn overridden(table: &mut Table<'_>, one: &Override, units: Units) -> Result<(), XlsxError> {
    let planned = |kg: f64| Cell::Figure(show::planning_value(Mass::from_kg(kg), units));
    table.row(&[
        Cell::Strong("STOP overridden".into()),
        Cell::text(one.decision.as_str()),
        Cell::Blank,
        Cell::Blank,
        Cell::Blank,
        Cell::Blank,
        Cell::text(one.name.as_str()),
        Cell::text(words::time(&one.time)),
        one.before_kg.map_or(Cell::text("not lifted"), planned),
        planned(one.plan_kg),
        Cell::text(one.supplier.as_deref().unwrap_or(words::NO_SUPPLIER)),
        Cell::text(one.id.as_str()),
        Cell::text(words::since(one)),
    ])
}
