//! Changed lines, and Decided lines: what each count is made of.

use super::{Shown, words};
use crate::replay::{Changed, Judged, Lifted, Named, Told};
use crate::report::words as common;
use crate::report::workbook::book::{Book, Keep, Paper};
use crate::report::workbook::cell::Cell;
use crate::report::workbook::table::{Column, column};
use crate::site::Units;
use crate::units::show;
use rust_xlsxwriter::XlsxError;

/// Writes the lines that gain or lose a flag, or change their verdict, plan or truck.
pub(super) fn changed(book: &mut Book, shown: &Shown<'_>) -> Result<(), XlsxError> {
    let units = book.units;
    let unit = show::mass_unit(units);
    let mut columns = whose();
    columns.extend([
        column("What changes", 20.0),
        column(format!("Declared ({unit})"), 10.0),
        column("Declared weight was", 10.0),
        column("To look at for: was", 20.0),
        column("To look at for: would be", 20.0),
        column("Verdict: was", 11.0),
        column("Verdict: would be", 11.0),
        column("May be lifted: was", 8.0),
        column("May be lifted: would be", 8.0),
        column(format!("Planned ({unit}): was"), 10.0),
        column(format!("Planned ({unit}): would be"), 10.0),
        column("Truck: was", 9.0),
        column("Truck: would be", 9.0),
    ]);
    let mut table = book.table("Changed lines", columns, Paper::Large, Keep::Rows)?;
    for line in &shown.replay.changed {
        table.row(&changed_row(line, units))?;
    }
    table.finish()
}

/// Supplier, delivery, day, cell, item, description.
fn whose() -> Vec<Column> {
    vec![
        column("Supplier", 18.0),
        column("Delivery", 13.0),
        column("Day", 11.0),
        column("Cell", 22.0),
        column("Item", 12.0),
        column("Description", 28.0),
    ]
}

fn who(named: &Named) -> Vec<Cell<'_>> {
    vec![
        Cell::text(named.supplier.as_deref().unwrap_or("supplier not named")),
        Cell::text(named.delivery.as_str()),
        Cell::text(named.day.to_string()),
        Cell::text(named.cell.as_str()),
        Cell::text(named.item.as_str()),
        Cell::text(named.description.as_str()),
    ]
}

fn changed_row(line: &Changed, units: Units) -> Vec<Cell<'_>> {
    let both = [&line.was, &line.would_be];
    let what: Vec<&str> = line.what.iter().map(|what| words::change(*what)).collect();
    let declared = both
        .into_iter()
        .flatten()
        .find_map(|judged| judged.declared);
    let mut cells = who(&line.named);
    cells.push(Cell::text(what.join("; ")));
    cells.push(declared_cell(declared, units));
    cells.push(Cell::text(line.truth.map_or("not known", words::truth)));
    let mut pair = |of: &dyn Fn(&Judged) -> Cell<'static>| {
        let absent = || Cell::text("no such line");
        cells.extend(both.map(|judged| judged.as_ref().map_or_else(absent, of)));
    };
    pair(&|judged| {
        Cell::text(if judged.findings.is_empty() {
            "nothing".to_string()
        } else {
            judged.findings.join(", ")
        })
    });
    pair(&|judged| Cell::text(common::verdict(judged.verdict)));
    pair(&|judged| Cell::text(if judged.may_lift { "yes" } else { "HELD" }));
    pair(&|judged| {
        let plan = judged.plan.map(|plan| show::planning_value(plan, units));
        plan.map_or(Cell::text("none"), Cell::Figure)
    });
    pair(&|judged| Cell::text(judged.truck.clone().unwrap_or_else(|| "none".to_string())));
    cells
}

fn declared_cell(declared: Option<Lifted>, units: Units) -> Cell<'static> {
    Cell::figure(declared.map(|lifted| show::weight_value(lifted.declared, units)))
}

/// Writes the decided lines that tell whether their declared weight was right.
pub(super) fn decided(book: &mut Book, shown: &Shown<'_>) -> Result<(), XlsxError> {
    let units = book.units;
    let unit = show::mass_unit(units);
    let mut columns = whose();
    columns.extend([
        column(format!("Declared ({unit})"), 10.0),
        column(format!("Decided ({unit})"), 12.0),
        column("Declared off by", 9.0),
        column("Declared weight was", 10.0),
        column("Flagged as recorded", 10.0),
        column("Flagged up to a tolerance of (%)", 11.0),
    ]);
    let mut table = book.table("Decided lines", columns, Paper::Small, Keep::Rows)?;
    for line in &shown.replay.told {
        table.row(&decided_row(line, units))?;
    }
    table.finish()
}

fn decided_row(line: &Told, units: Units) -> Vec<Cell<'_>> {
    let mut cells = who(&line.named);
    let declared = line.declared.declared;
    cells.push(declared_cell(Some(line.declared), units));
    cells.push(match line.decided {
        Some(weight) => Cell::Figure(show::weight_value(weight, units)),
        None => Cell::text("declared accepted"),
    });
    cells.push(match line.decided {
        Some(weight) => Cell::Share(declared / weight - 1.0),
        None => Cell::Blank,
    });
    cells.push(Cell::text(words::truth(line.truth)));
    cells.push(Cell::text(if line.flagged { "yes" } else { "no" }));
    cells.push(match line.up_to {
        Some(tolerance) => Cell::Figure((tolerance * 1e6).round() / 1e4),
        None => Cell::text("by none"),
    });
    cells
}
