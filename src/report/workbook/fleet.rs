//! Fleet: the register as used that day, one row a point of a capacity plate, faults with their truck; below them what each
//! truck lifts over the load centre.

use super::book::{Book, Keep, Paper};
use super::capacity;
use super::cell::Cell;
use super::table::{Column, column};
use crate::fleet::{Fault, Fleet, PlatePoint, Truck, today};
use crate::report::words;
use crate::site::{Site, Units};
use crate::units::show;
use chrono::NaiveDate;
use rust_xlsxwriter::XlsxError;

/// Name of the sheet.
pub const SHEET: &str = "Fleet";
/// Columns of the sheet.
const COLUMNS: usize = 18;

/// Writes the sheet.
pub fn write(
    book: &mut Book,
    fleet: Option<&Fleet>,
    date: NaiveDate,
    site: &Site,
) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = book.table(SHEET, columns(units).into(), Paper::Large, Keep::Whole)?;
    table.print_to_scale();
    table.leave_unsorted();
    let Some(fleet) = fleet else {
        table.row(&[
            Cell::text("all"),
            Cell::text("no fleet register was given: no truck is named for any lift"),
        ])?;
        return table.finish();
    };
    for truck in &fleet.trucks {
        let faults = fleet
            .faults
            .iter()
            .filter(|fault| fault.truck.as_deref() == Some(&truck.id))
            .map(|fault| format!("{}: {}", fault.place.cell(), fault.message()));
        let remarks: Vec<String> = faults.chain(truck.remark.clone()).collect();
        let remark = remarks.join("\n");
        if truck.points.is_empty() {
            table.row(&row(truck, None, &remark, date, units))?;
        }
        for point in &truck.points {
            table.row(&row(truck, Some(point), &remark, date, units))?;
        }
    }
    let known = |fault: &&Fault| {
        fleet
            .trucks
            .iter()
            .any(|truck| fault.truck.as_ref() == Some(&truck.id))
    };
    for fault in fleet.faults.iter().filter(|fault| !known(fault)) {
        table.row(&remark_row(
            "FAULT",
            fault.place.to_string(),
            &fault.message(),
        ))?;
    }
    for note in &fleet.notes {
        table.row(&remark_row("note", String::new(), note))?;
    }
    capacity::write(&mut table, fleet, site)?;
    table.finish()
}

/// A remark on the register as a whole: its place and text stand in the last two columns.
fn remark_row<'a>(what: &'a str, place: String, text: &'a str) -> Vec<Cell<'a>> {
    let mut cells = vec![Cell::text("all"), Cell::Strong(what.into())];
    cells.resize(COLUMNS - 2, Cell::Blank);
    cells.push(Cell::text(place));
    cells.push(Cell::text(text));
    cells
}

fn columns(units: Units) -> [Column; COLUMNS] {
    let (mass, length) = (show::mass_unit(units), show::length_unit(units));
    [
        column("Delivery", 8.0),
        column("Truck", 10.0),
        column("Class", 15.0),
        column("Ready today?", 21.0),
        column(format!("Capacity ({mass})"), 9.0),
        column(format!("Load centre up to ({length})"), 9.0),
        column(format!("Lift height up to ({length})"), 9.0),
        column("With attachment", 11.0),
        column("Fitted today", 10.0),
        column("Counts today?", 16.0),
        column("Inspection due", 11.0),
        column("May work", 11.0),
        column("Power", 9.0),
        column(format!("Service weight ({mass})"), 9.0),
        column(format!("Fork length ({length})"), 8.0),
        column(format!("Front axle to fork face ({length})"), 9.0),
        column("Row of the register", 14.0),
        column("Faults and remarks", 28.0),
    ]
}

fn row<'a>(
    truck: &'a Truck,
    point: Option<&'a PlatePoint>,
    remark: &str,
    date: NaiveDate,
    units: Units,
) -> Vec<Cell<'a>> {
    let bare = |attachment: Option<&'a str>| Cell::text(attachment.unwrap_or("bare forks"));
    let counts = match point {
        None => Cell::text("no row"),
        Some(point) if point.attachment == truck.fitted => Cell::text("yes"),
        Some(_) => Cell::text("no: not fitted today"),
    };
    vec![
        Cell::text("all"),
        Cell::text(truck.id.as_str()),
        Cell::text(words::class(truck)),
        Cell::text(ready(truck, date)),
        Cell::figure(point.map(|point| show::capacity_value(point.capacity, units))),
        Cell::figure(point.map(|point| show::plate_length_value(point.load_centre, units))),
        match point.map(|point| point.lift_height) {
            Some(Some(height)) => Cell::Figure(show::plate_length_value(height, units)),
            Some(None) => Cell::text("not stated"),
            None => Cell::Blank,
        },
        point.map_or(Cell::Blank, |point| bare(point.attachment.as_deref())),
        bare(truck.fitted.as_deref()),
        counts,
        Cell::text(
            truck
                .inspection_due
                .map_or("not stated".to_string(), |due| due.to_string()),
        ),
        Cell::text(if truck.places.is_empty() {
            "not stated".to_string()
        } else {
            truck.places.join(", ")
        }),
        Cell::text(truck.fuel.as_deref().unwrap_or("not stated")),
        Cell::figure(truck.service.map(|mass| show::high_value(mass, units))),
        Cell::figure(
            truck
                .fork_length
                .map(|length| show::plate_length_value(length, units)),
        ),
        Cell::figure(
            truck
                .axle
                .map(|length| show::plate_length_value(length, units)),
        ),
        point.map_or(Cell::Blank, |point| Cell::text(point.place.to_string())),
        Cell::text(remark.to_string()),
    ]
}

/// Whether a truck is ready on the day, from what the register states, or why not.
fn ready(truck: &Truck, date: NaiveDate) -> String {
    let against = today::against(truck, date);
    match (against.is_empty(), truck.available) {
        (false, _) => format!("NO: {}", against.join("; ")),
        (true, None) => "yes, but availability is not stated".to_string(),
        (true, _) => "yes".to_string(),
    }
}
