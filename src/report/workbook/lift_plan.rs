//! Lift plan: every lift, what to plan it with, and the truck for it. Held loads come last in each delivery. Its columns are as
//! wide as a page of A4 or Letter has room for in print that can be read; longer texts go on over several lines.

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

/// Column of the share of capacity, from 0.
const USED: u16 = 12;
/// Letters of a description that the tallest row has room for.
const MOST_LETTERS: usize = 500;
/// Columns before the line's id.
const BEFORE_LINE: usize = 15;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit, views: &[View<'_>]) -> Result<(), XlsxError> {
    let site = &audit.site;
    let mut table = book.table("Lift plan", columns(site.units), Paper::Small, Keep::Rows)?;
    table.bars(USED);
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
        column("Delivery", 11.0),
        column("Row (cell)", 7.0),
        column("Item", 11.0),
        column("Description", 20.0),
        column("Pieces", 7.0),
        column("Lift now?", 11.0),
        column("Lifts", 10.0),
        column("One lift is; what its weight and load centre rest on", 18.0),
        column(format!("Planning weight of one lift ({mass})"), 10.0),
        column(format!("Load centre ({length})"), 8.0),
        column("Truck", 9.0),
        column(format!("Capacity there ({mass})"), 10.0),
        column("Capacity used", 9.0),
        column("Mind, or why no truck", 18.0),
        column("Why smaller trucks will not do", 22.0),
        column("Line", 9.0),
    ]
}

fn row<'a>(view: &View<'a>, load: Load<'a>, standing: Standing, site: &Site) -> Vec<Cell<'a>> {
    let plan = load.plan();
    let pieces = match load {
        Load::Line(line) if line.item.uncounted() => Cell::text("not read"),
        Load::Line(line) => Cell::count(line.item.pieces as usize),
        Load::Package(..) => Cell::Blank,
    };
    let mut cells = vec![
        Cell::text(delivery_and_vehicle(view, load)),
        Cell::text(load.weight_place().cell()),
        Cell::text(load.item()),
        Cell::text(words::short(&load.description(), MOST_LETTERS).into_owned()),
        pieces,
        standing_cell(standing, load.severity()),
    ];
    if plan.lift_of == LiftOf::Shared {
        let package = view
            .package_of(load)
            .map_or("its package", |package| package.shared.name.as_str());
        cells.push(Cell::Figure(0.0));
        cells.push(Cell::text(format!("lifted with {package}")));
        cells.resize(BEFORE_LINE, Cell::Blank);
    } else {
        cells.extend(lift_cells(load, site));
    }
    cells.push(Cell::text(load.id()));
    cells
}

/// "7718"; where the vehicle is known too, "7718, Trailer 12".
pub fn delivery_and_vehicle(view: &View<'_>, load: Load<'_>) -> String {
    let own = match load {
        Load::Line(line) => line.item.vehicle.as_deref(),
        Load::Package(..) => None,
    };
    let name = &view.delivery.reading.delivery;
    match own.or(view.delivery.reading.vehicle.as_deref()) {
        Some(vehicle) => format!("{name}, {vehicle}"),
        None => name.clone(),
    }
}

fn lift_cells<'a>(load: Load<'a>, site: &Site) -> [Cell<'a>; 9] {
    let units = site.units;
    let plan = load.plan();
    let truck = plan.truck.as_ref();
    let basis = format!(
        "{}; weight: {}; load centre: {}",
        words::lift_of(plan),
        words::planned_from(load),
        words::load_centre_from(plan.load_centre_from)
    );
    let without = match (truck, plan.truck_without.as_deref()) {
        (Some(_), _) => None,
        (None, Some(why)) => Some(why),
        (None, None) if plan.lift.is_none() => Some("no planning weight: do not lift"),
        (None, None) => Some("no adequate truck"),
    };
    let mind = without
        .map(str::to_string)
        .into_iter()
        .chain(marks(load, site));
    [
        Cell::count(plan.lifts as usize),
        Cell::text(basis),
        Cell::figure(plan.lift.map(|mass| show::planning_value(mass, units))),
        Cell::Figure(show::load_centre_value(plan.load_centre, units)),
        Cell::text(truck.map_or("none", |truck| truck.id.as_str())),
        Cell::figure(truck.map(|truck| show::capacity_value(truck.capacity.mass, units))),
        truck.map_or(Cell::Blank, |truck| {
            Cell::Share(show::share_value(truck.used))
        }),
        Cell::text(mind.collect::<Vec<_>>().join("; ")),
        Cell::text(smaller(plan)),
    ]
}

/// Why each smaller truck will not do, one reason a line: "KJ-01 / KJ-02: works indoor only, outdoor needed".
fn smaller(plan: &Plan) -> String {
    let mut reasons: Vec<(&str, Vec<&str>)> = Vec::new();
    for why in &plan.why_not {
        match reasons.iter_mut().find(|(clause, _)| *clause == why.clause) {
            Some((_, trucks)) => trucks.push(&why.truck),
            None => reasons.push((&why.clause, vec![&why.truck])),
        }
    }
    let lines = reasons
        .iter()
        .map(|(clause, trucks)| format!("{}: {clause}", trucks.join(" / ")));
    lines.collect::<Vec<_>>().join("\n")
}

/// What the operator has to mind about a lift with its truck.
pub fn marks(load: Load<'_>, site: &Site) -> Vec<String> {
    let (units, use_limit) = (site.units, site.use_limit);
    let plan = load.plan();
    let mut marks = Vec::new();
    if load.uncounted() {
        marks.push("count the pieces first".to_string());
    }
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
    marks
}
