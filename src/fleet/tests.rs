//! Whole-register checks: the reference cases, published examples, properties of random fleets, faults and layouts.

mod cases;
mod faults;
mod layouts;
mod properties;
mod published;
mod random;
mod seven;
mod slow;

use super::{Choice, Demand, Fleet, Truck};
use crate::read::{Cell, Row, Sheet, Value};
use crate::site::{Site, Units};
use crate::units::{Length, Mass};
use chrono::NaiveDate;

/// A sheet from lines of cells parted by bars; figures become number cells, empty cells stay empty.
pub(super) fn table(lines: &str) -> Sheet {
    sheet(lines, true)
}

/// The same with every cell as text, as a csv file gives it.
fn text_table(lines: &str) -> Sheet {
    sheet(lines, false)
}

fn sheet(lines: &str, numbers: bool) -> Sheet {
    let rows = lines.trim().lines().zip(1..).filter_map(|(line, number)| {
        let cells: Vec<Cell> = line
            .split('|')
            .map(str::trim)
            .zip(1..)
            .filter(|(text, _)| !text.is_empty())
            .map(|(text, column)| Cell {
                column,
                value: match text.parse() {
                    Ok(figure) if numbers => Value::Number(figure),
                    _ => Value::Text(text.into()),
                },
            })
            .collect();
        (!cells.is_empty()).then_some(Row {
            number,
            hidden: false,
            cells,
        })
    });
    Sheet {
        file: "fleet.xlsx".into(),
        name: "Trucks".into(),
        hidden: false,
        rows: rows.collect(),
        merged: Vec::new(),
        hidden_columns: Vec::new(),
    }
}

/// The truck of that name.
#[track_caller]
pub(super) fn truck<'f>(fleet: &'f Fleet, id: &str) -> &'f Truck {
    let found = fleet.trucks.iter().find(|truck| truck.id == id);
    found.unwrap_or_else(|| panic!("no truck {id} in {:?}", fleet.trucks))
}

fn today() -> NaiveDate {
    NaiveDate::from_ymd_opt(2026, 5, 4).unwrap_or_default()
}

/// Name of the chosen truck, or "no truck".
fn name(choice: &Choice) -> &str {
    choice.truck.as_ref().map_or("no truck", |truck| &truck.id)
}

/// The clause for one truck.
#[track_caller]
fn clause<'c>(choice: &'c Choice, id: &str) -> &'c str {
    let found = choice.why_not.iter().find(|why| why.truck == id);
    found.map_or("", |why| &why.clause)
}

fn us_site() -> Site {
    Site {
        units: Units::Us,
        operator_kg: Mass::from_lb(200.0),
        ..Site::default()
    }
}

/// A load of so many pounds, so many inches deep along the forks, uniform and tight against them.
fn load_lb(weight: f64, depth: f64) -> Demand {
    Demand {
        weight: Mass::from_lb(weight),
        load_centre: Length::from_in(depth / 2.0),
        lift_height: Length::from_in(59.0),
        depth: Some(Length::from_in(depth)),
        place: None,
        attachment: None,
    }
}

/// The same in kilograms and millimetres.
fn load_kg(weight: f64, depth: f64) -> Demand {
    Demand {
        weight: Mass::from_kg(weight),
        load_centre: Length::from_mm(depth / 2.0),
        lift_height: Length::from_mm(1_500.0),
        depth: Some(Length::from_mm(depth)),
        place: None,
        attachment: None,
    }
}
