//! The fleet register: one row a point of a capacity plate.
//! Comes in: the sheets of its file. Goes out: the trucks, every fault with its cell, and what was assumed.
//! Never guesses a unit, a date or a load centre, and never assigns a truck whose rows hold a fault.

use super::columns::{Field, Layout, layout, repeats_headings};
use super::draft::Draft;
use super::rows::Rows;
use super::{Fault, Fleet, Heading};
use crate::read::Sheet;
use crate::site::Units;

/// Most rows of a sheet with trucks: far above any yard's, far below what a damaged file may hold. Common practice, no
/// source.
const MOST_ROWS: usize = 5_000;

/// Understands a register.
///
/// `units` only words the faults (a usual load centre in inches or millimetres); no size is ever taken in it. A capacity
/// or a load centre without a unit in its cell or heading is a fault. Faults never stop the reading: all are collected,
/// their trucks marked faulty, the others stay usable.
pub fn understand(sheets: &[Sheet], units: Units) -> Fleet {
    let mut fleet = Fleet {
        file: sheets
            .first()
            .map_or(String::new(), |sheet| sheet.file.to_string()),
        ..Fleet::default()
    };
    let mut rows = Rows::new(units);
    let mut tables = 0;
    for sheet in sheets {
        match layout(sheet) {
            Some(_) if sheet.hidden => {
                fleet.notes.push(format!(
                    "sheet \"{}\" is hidden and was not read",
                    sheet.name
                ));
            }
            // Read in part, a truck could lack the plate row that bounds it.
            Some(_) if sheet.rows.len().max(sheet.merged.len()) > MOST_ROWS => {
                tables += 1;
                fleet.faults.push(Fault {
                    truck: None,
                    place: sheet.place(0, 0),
                    found: format!(
                        "the sheet has {} rows and {} merged blocks and none was read",
                        sheet.rows.len(),
                        sheet.merged.len()
                    ),
                    remedy: format!(
                        "a register has at most {MOST_ROWS}: take out what is no truck"
                    ),
                });
            }
            Some(layout) => {
                tables += 1;
                fleet.headings.extend(headings(&layout));
                fleet.notes.extend(column_notes(sheet, &layout));
                fleet.faults.extend(missing_columns(&layout));
                for row in sheet.rows.iter().filter(|row| row.number >= layout.first) {
                    if layout.has(Field::Truck) && !repeats_headings(row, &layout.columns) {
                        rows.read(sheet, &layout, row);
                    }
                }
            }
            None if sheet.rows.is_empty() => {}
            None => fleet.notes.push(format!(
                "sheet \"{}\" holds no table of trucks and was not read",
                sheet.name
            )),
        }
    }
    if let (0, Some(sheet)) = (tables, sheets.first()) {
        fleet.faults.push(Fault {
            truck: None,
            place: sheet.place(1, 0),
            found: "no table of trucks was found".to_string(),
            remedy: "the register needs one heading row with truck, capacity and load centre"
                .to_string(),
        });
    }
    let (drafts, faults, notes) = rows.finish();
    fleet.faults.extend(faults);
    fleet.notes.extend(notes);
    fleet.notes.extend(class_notes(&drafts));
    fleet.trucks = drafts.into_iter().map(Draft::truck).collect();
    fleet
}

fn headings(layout: &Layout) -> impl Iterator<Item = Heading> {
    layout.columns.iter().map(|column| Heading {
        place: layout.heading.at_column(column.number),
        text: column.heading.trim().to_string(),
        field: column.field.name(),
        unit: column.unit.map(|unit| unit.name),
    })
}

fn missing_columns(layout: &Layout) -> Vec<Fault> {
    [Field::Truck, Field::Capacity, Field::LoadCentre]
        .into_iter()
        .filter(|field| !layout.has(*field))
        .map(|field| Fault {
            truck: None,
            place: layout.heading.clone(),
            found: format!(
                "there is no column for the {}, so no truck of this table can be used",
                field.name()
            ),
            remedy: "add it with what the plates state".to_string(),
        })
        .collect()
}

fn column_notes(sheet: &Sheet, layout: &Layout) -> Vec<String> {
    let mut notes = layout.unused.clone();
    for (field, consequence) in [
        (
            Field::LiftHeight,
            "every plate row covers the site's usual lift height only",
        ),
        (
            Field::Available,
            "every truck counts as available unless a date says otherwise",
        ),
        (Field::InspectionDue, "inspections are not checked"),
    ] {
        let there =
            layout.has(field) || (field == Field::Available && layout.has(Field::Unavailable));
        if !there {
            notes.push(format!("no column for {}: {consequence}", field.name()));
        }
    }
    for column in &layout.columns {
        if sheet.hidden_columns.contains(&column.number) {
            notes.push(format!(
                "the column \"{}\" is hidden and was read",
                column.heading.trim()
            ));
        }
    }
    notes
}

fn class_notes(drafts: &[Draft]) -> Vec<String> {
    let mut notes = Vec::new();
    if drafts.iter().any(|draft| !draft.class_column) {
        notes.push("no class column: all trucks taken as counterbalanced".to_string());
    }
    let blank: Vec<&str> = drafts
        .iter()
        .filter(|draft| draft.class_column && !draft.says(Field::Class))
        .map(|draft| draft.id.as_str())
        .collect();
    if !blank.is_empty() {
        notes.push(format!(
            "class not stated, so plate rows only: {}",
            blank.join(", ")
        ));
    }
    notes
}
