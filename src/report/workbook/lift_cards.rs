//! Lift cards: for each truck a page, or several, that goes with it: what it may lift now. Large print, black on white. Held
//! loads are on no card.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::lift_plan::{delivery_and_vehicle, marks};
use super::table::{Column, Table, column};
use crate::audit::Audit;
use crate::fleet::Truck;
use crate::plan::LiftOf;
use crate::report::loads::{Load, Standing, View};
use crate::report::words;
use crate::report::wrap;
use crate::site::{Site, Units};
use crate::units::{Mass, show};
use rust_xlsxwriter::XlsxError;
use std::collections::BTreeMap;

/// Name of the sheet.
pub const SHEET: &str = "Lift cards";
/// An empty box to tick.
const BOX: &str = "\u{2610}";
/// Letters of large print that a page has room for.
const WIDE: usize = 90;
/// Letters of a description in large print.
const MOST_LETTERS: usize = 160;
/// What is said at the head of every page of a card.
const READ_FIRST: &str =
    "Read the capacity plate before the first lift: it comes before this card.";
const NOT_HERE: &str = "HELD goods are not on this card. What is not on it stays down.";

/// A lift that may be made now, with its delivery.
type Lift<'a, 'v> = (&'v View<'a>, Load<'a>);

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit, views: &[View<'_>]) -> Result<(), XlsxError> {
    let site = &audit.site;
    let mut table = book.table(SHEET, columns(site.units), Paper::Card, Keep::Rows)?;
    let cards = by_truck(views);
    for (id, lifts) in &cards {
        let trucks = audit.fleet.iter().flat_map(|fleet| &fleet.trucks);
        card(
            &mut table,
            id,
            trucks.into_iter().find(|truck| truck.id == *id),
            lifts,
            site,
        )?;
    }
    if cards.is_empty() {
        let none = "No lift may be made now with a truck of the register: there are no cards.";
        table.row(&[Cell::Across(none.into())])?;
    }
    table.finish()
}

fn columns(units: Units) -> Vec<Column> {
    let (mass, length) = (show::mass_unit(units), show::length_unit(units));
    vec![
        column("Delivery", 12.0),
        column("Row (cell)", 8.0),
        column("Piece or mark", 30.0),
        column("Lifts", 10.0),
        column(format!("Plan one lift with ({mass})"), 13.5),
        column(format!("Load centre ({length})"), 10.0),
        column(format!("Truck lifts there ({mass})"), 13.5),
        column("Used", 8.0),
        column("Plate read", 7.0),
        column("Mind", 27.0),
    ]
}

/// The lifts that may be made now, by truck in the order of their names, of each in the order of the deliveries.
fn by_truck<'a, 'v>(views: &'v [View<'a>]) -> BTreeMap<&'a str, Vec<Lift<'a, 'v>>> {
    let mut cards: BTreeMap<&str, Vec<Lift<'_, '_>>> = BTreeMap::new();
    for view in views {
        for load in view.loads() {
            let plan = load.plan();
            let now = view.standing(load) == Standing::MayLift && plan.lift_of != LiftOf::Shared;
            if let (true, Some(truck)) = (now, &plan.truck) {
                cards
                    .entry(truck.id.as_str())
                    .or_default()
                    .push((view, load));
            }
        }
    }
    cards
}

/// The card of one truck: as many pages as its lifts need, each with the heading.
fn card(
    table: &mut Table<'_>,
    id: &str,
    truck: Option<&Truck>,
    lifts: &[Lift<'_, '_>],
    site: &Site,
) -> Result<(), XlsxError> {
    let name = name(id, truck, lifts, site);
    // The heading of page 10 is as tall as that of page 1.
    let first = heading(&name, (1, 1));
    let room = table.room() - first.iter().map(|row| table.height(row)).sum::<f64>();
    let (mut pages, mut used) = (vec![0], 0.0);
    for (at, lift) in lifts.iter().enumerate() {
        let height = table.height(&row(*lift, site));
        if used > 0.0 && used + height > room {
            pages.push(at);
            used = 0.0;
        }
        used += height;
    }
    let ends = pages.iter().skip(1).copied().chain([lifts.len()]);
    for ((number, first), end) in pages.iter().enumerate().zip(ends) {
        table.new_page()?;
        for row in heading(&name, (number + 1, pages.len())) {
            table.row(&row)?;
        }
        for lift in lifts.get(*first..end).unwrap_or_default() {
            table.row(&row(*lift, site))?;
        }
    }
    Ok(())
}

/// "Truck KJ-04, bare forks: 6 lifts, heaviest 2,426 lb."
fn name(id: &str, truck: Option<&Truck>, lifts: &[Lift<'_, '_>], site: &Site) -> String {
    let plans = || lifts.iter().map(|(_, load)| load.plan());
    let number = plans().map(|plan| plan.lifts as usize).sum();
    let heaviest = plans().filter_map(|plan| plan.lift);
    let heaviest = heaviest.map(Mass::kg).fold(0.0, f64::max);
    let worn = truck.and_then(|truck| truck.fitted.as_deref());
    format!(
        "Truck {id}, {}: {}, heaviest {}.",
        worn.unwrap_or("bare forks"),
        words::count(number, "lift"),
        show::planning(Mass::from_kg(heaviest), site.units)
    )
}

/// What stands at the head of each page of a card.
fn heading(name: &str, (page, of): (usize, usize)) -> Vec<[Cell<'static>; 1]> {
    let name = format!("{name} Page {page} of {of}.");
    [name.as_str(), READ_FIRST, NOT_HERE]
        .iter()
        .flat_map(|text| wrap(text, WIDE))
        .map(|text| [Cell::Across(text.into())])
        .collect()
}

fn row<'a>((view, load): Lift<'a, '_>, site: &Site) -> [Cell<'a>; 10] {
    let units = site.units;
    let plan = load.plan();
    let (item, description) = (load.item(), load.description());
    let description = words::short(&description, MOST_LETTERS);
    let piece = match (item, &*description) {
        (mark, "") | ("", mark) => mark.to_string(),
        (item, description) => format!("{item}: {description}"),
    };
    let truck = plan.truck.as_ref();
    let mut mind = vec![words::lift_of(plan)];
    if load.flagged() {
        mind.push("check today: see Exceptions".to_string());
    }
    mind.extend(marks(load, site));
    [
        Cell::text(delivery_and_vehicle(view, load)),
        Cell::text(load.weight_place().cell()),
        Cell::text(piece),
        Cell::count(plan.lifts as usize),
        Cell::figure(plan.lift.map(|mass| show::planning_value(mass, units))),
        Cell::Figure(show::load_centre_value(plan.load_centre, units)),
        Cell::figure(truck.map(|truck| show::capacity_value(truck.capacity.mass, units))),
        truck.map_or(Cell::Blank, |truck| {
            Cell::Share(show::share_value(truck.used))
        }),
        Cell::Strong(BOX.into()),
        Cell::text(mind.join("; ")),
    ]
}
