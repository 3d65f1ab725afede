//! Fleet: the register as used that day, one row a point of a capacity plate, faults with their truck.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::table::{Column, column};
use crate::audit::Audit;
use crate::fleet::{Class, Fault, PlatePoint, Truck};
use crate::site::Units;
use crate::units::show;
use chrono::NaiveDate;
use rust_xlsxwriter::XlsxError;

/// Columns of the sheet.
const COLUMNS: usize = 18;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = book.table("Fleet", columns(units).into(), Paper::Large, Keep::Rows)?;
    let Some(fleet) = &audit.fleet else {
        table.row(&[
            Cell::text("all"),
            Cell::text("no fleet register was given: no truck is named for any lift"),
        ])?;
        return table.finish();
    };
    for truck in &fleet.trucks {
        let faults: Vec<&str> = fleet
            .faults
            .iter()
            .filter(|fault| fault.truck.as_deref() == Some(&truck.id))
            .map(|fault| fault.message.as_str())
            .collect();
        let remark = [faults.as_slice(), truck.remark.as_deref().as_slice()]
            .concat()
            .join("; ");
        if truck.points.is_empty() {
            table.row(&row(truck, None, &remark, audit.date, units))?;
        }
        for point in &truck.points {
            table.row(&row(truck, Some(point), &remark, audit.date, units))?;
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
            &fault.message,
        ))?;
    }
    for note in &fleet.notes {
        table.row(&remark_row("note", String::new(), note))?;
    }
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
        column("Delivery", 9.0),
        column("Truck", 12.0),
        column("Class", 16.0),
        column("Ready today?", 26.0),
        column(format!("Capacity ({mass})"), 10.0),
        column(format!("Load centre up to ({length})"), 10.0),
        column(format!("Lift height up to ({length})"), 10.0),
        column("With attachment", 14.0),
        column("Fitted today", 14.0),
        column("Row counts today?", 14.0),
        column("Inspection due", 11.0),
        column("May work", 14.0),
        column("Power", 10.0),
        column(format!("Service weight ({mass})"), 10.0),
        column(format!("Fork length ({length})"), 9.0),
        column(format!("Front axle to fork face ({length})"), 11.0),
        column("Row of the register", 18.0),
        column("Faults and remarks", 36.0),
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
        Cell::text(class(truck)),
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
    let mut why = Vec::new();
    if truck.faulty {
        why.push("fault in the register: never assigned".to_string());
    }
    if truck.class == Some(Class::VI) {
        why.push("tows only".to_string());
    }
    if truck.available == Some(false) {
        why.push("not available".to_string());
    }
    if let Some(until) = truck.out_until.filter(|until| *until >= date) {
        why.push(format!("out of service until {until}"));
    }
    if let Some(due) = truck.inspection_due.filter(|due| *due < date) {
        why.push(format!("inspection overdue since {due}"));
    }
    match (why.is_empty(), truck.available) {
        (false, _) => format!("NO: {}", why.join("; ")),
        (true, None) => "yes, but availability is not stated".to_string(),
        (true, _) => "yes".to_string(),
    }
}

/// Class by the industry numbering that OSHA uses, in words.
fn class(truck: &Truck) -> String {
    let words = match truck.class {
        Some(Class::I) => "I, electric rider",
        Some(Class::II) => "II, electric narrow aisle",
        Some(Class::III) => "III, electric hand or hand-rider",
        Some(Class::IV) => "IV, combustion, cushion tyres",
        Some(Class::V) => "V, combustion, pneumatic tyres",
        Some(Class::VI) => "VI, tractor",
        Some(Class::VII) => "VII, rough terrain",
        None => "not stated",
    };
    if truck.class_assumed {
        format!("{words}; taken as counterbalanced")
    } else {
        words.to_string()
    }
}
