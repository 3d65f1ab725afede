//! Lift plan: every lift, what to plan it with, and the truck for it. Held loads come last in each delivery.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::exceptions::standing_cell;
use super::table::{Column, column};
use crate::audit::Audit;
use crate::fleet::CALCULATED;
use crate::plan::{LiftOf, Plan};
use crate::report::loads::{Load, Standing, View};
use crate::report::words;
use crate::site::{Site, Units};
use crate::units::show;
use rust_xlsxwriter::XlsxError;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit, views: &[View<'_>]) -> Result<(), XlsxError> {
    let site = &audit.site;
    let mut table = book.table("Lift plan", columns(site.units), Paper::Large, Keep::Rows)?;
    for view in views {
        for (load, standing) in view.loads_held_last() {
            table.row(&row(view, load, standing, site))?;
        }
    }
    if audit.deliveries.is_empty() {
        table.row(&[Cell::text("no delivery was read")])?;
    }
    table.finish()
}

fn columns(units: Units) -> Vec<Column> {
    let (mass, length) = (show::mass_unit(units), show::length_unit(units));
    vec![
        column("Delivery", 15.0),
        column("Row (cell)", 8.0),
        column("Item", 12.0),
        column("Description", 28.0),
        column("Vehicle", 10.0),
        column("Pieces", 7.0),
        column("Lift now?", 13.0),
        column("Lifts", 6.0),
        column("One lift is", 16.0),
        column(format!("Planning weight of one lift ({mass})"), 11.0),
        column("It rests on", 17.0),
        column(format!("Load centre ({length})"), 9.0),
        column("From", 14.0),
        column("Truck", 11.0),
        column(format!("Capacity there ({mass})"), 10.0),
        column("Capacity used", 9.0),
        column("Mark", 22.0),
        column("Why no truck", 26.0),
        column("Why smaller trucks will not do", 36.0),
        column("Line", 18.0),
    ]
}

fn row<'a>(view: &View<'a>, load: Load<'a>, standing: Standing, site: &Site) -> Vec<Cell<'a>> {
    let plan = load.plan();
    let (pieces, vehicle) = match load {
        Load::Line(line) => (
            Cell::count(line.item.pieces as usize),
            line.item.vehicle.as_deref(),
        ),
        Load::Package(..) => (Cell::Blank, None),
    };
    let vehicle = vehicle.or(view.delivery.reading.vehicle.as_deref());
    let head = [
        Cell::text(view.delivery.reading.delivery.as_str()),
        Cell::text(load.place().cell()),
        Cell::text(load.item()),
        Cell::text(load.description()),
        Cell::maybe(vehicle),
        pieces,
        standing_cell(standing, load.severity()),
    ];
    let mut cells = Vec::from(head);
    if plan.lift_of == LiftOf::Shared {
        let package = view
            .package_of(load)
            .map_or("its package", |package| package.shared.name.as_str());
        cells.push(Cell::Figure(0.0));
        cells.push(Cell::text(format!("lifted with {package}")));
        cells.resize(19, Cell::Blank);
    } else {
        cells.extend(lift_cells(load, site));
    }
    cells.push(Cell::text(load.id()));
    cells
}

fn lift_cells<'a>(load: Load<'a>, site: &Site) -> [Cell<'a>; 12] {
    let units = site.units;
    let plan = load.plan();
    let truck = plan.truck.as_ref();
    let smaller: Vec<String> = plan
        .why_not
        .iter()
        .map(|why| format!("{}: {}", why.truck, why.clause))
        .collect();
    let without = match (&plan.truck, plan.truck_without.as_deref()) {
        (Some(_), _) => Cell::Blank,
        (None, Some(why)) => Cell::text(why),
        (None, None) if plan.lift.is_none() => Cell::text("no planning weight: do not lift"),
        (None, None) => Cell::text("no adequate truck"),
    };
    [
        Cell::count(plan.lifts as usize),
        Cell::text(words::lift_of(plan)),
        Cell::figure(plan.lift.map(|mass| show::planning_value(mass, units))),
        Cell::text(words::planned_from(load)),
        Cell::Figure(show::load_centre_value(plan.load_centre, units)),
        Cell::text(words::load_centre_from(plan.load_centre_from)),
        Cell::text(truck.map_or("none", |truck| truck.id.as_str())),
        Cell::figure(truck.map(|truck| show::capacity_value(truck.capacity.mass, units))),
        truck.map_or(Cell::Blank, |truck| {
            Cell::Share(show::share_value(truck.used))
        }),
        Cell::text(marks(plan, site)),
        without,
        Cell::text(smaller.join("\n")),
    ]
}

fn marks(plan: &Plan, site: &Site) -> String {
    let (units, use_limit) = (site.units, site.use_limit);
    let mut marks = Vec::new();
    if let Some(truck) = &plan.truck {
        if truck.capacity.calculated {
            marks.push(CALCULATED.to_string());
        }
        if truck.is_close(use_limit) {
            marks.push(format!("over {} of capacity", words::close(use_limit)));
        }
        let more = |note: &&String| !note.ends_with(CALCULATED);
        marks.extend(truck.notes.iter().filter(more).cloned());
    }
    if let Some(pieces) = plan.most_pieces {
        marks.push(format!(
            "at most {} at once",
            words::count(pieces as usize, "piece")
        ));
    }
    for instead in plan.instead.iter().filter(|_| plan.divided) {
        marks.push(format!("whole: {}", instead.in_words(units)));
    }
    marks.join("; ")
}
