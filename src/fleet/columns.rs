//! Where a register's table starts and what its columns are.
//! Comes in: a sheet. Goes out: the heading row, each column with its field and unit. A heading that names no field, or
//! two, is left out and said.

use super::figure::{Unit, unit};
use crate::place::{Place, column_letters};
use crate::read::{Row, Sheet, Value};
use crate::tables::register_headings::{entries, fold, meaning};
use std::collections::BTreeSet;

/// What a column of the register holds.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Field {
    Truck,
    Class,
    Capacity,
    LoadCentre,
    LiftHeight,
    Attachment,
    Fitted,
    Available,
    Unavailable,
    OutUntil,
    InspectionDue,
    Fuel,
    Places,
    Service,
    ForkLength,
    VerticalMast,
    Axle,
    LoweredHeight,
    Remark,
}

impl Field {
    const ALL: [(Field, &'static str, &'static str); 19] = [
        (Field::Truck, "truck", "truck"),
        (Field::Class, "class", "class"),
        (Field::Capacity, "capacity", "capacity"),
        (Field::LoadCentre, "load-centre", "load centre"),
        (Field::LiftHeight, "lift-height", "lift height"),
        (Field::Attachment, "attachment", "attachment"),
        (Field::Fitted, "fitted", "fitted attachment"),
        (Field::Available, "available", "availability"),
        (Field::Unavailable, "unavailable", "out of service"),
        (Field::OutUntil, "out-until", "out until"),
        (Field::InspectionDue, "inspection-due", "inspection due"),
        (Field::Fuel, "fuel", "fuel"),
        (Field::Places, "places", "where it may work"),
        (Field::Service, "service", "service weight"),
        (Field::ForkLength, "fork-length", "fork length"),
        (Field::VerticalMast, "vertical-mast", "vertical mast"),
        (Field::Axle, "axle", "axle distance"),
        (Field::LoweredHeight, "lowered-height", "lowered height"),
        (Field::Remark, "remark", "remark"),
    ];

    /// The field that a word of the headings table stands for.
    fn of(meaning: &str) -> Option<Field> {
        let row = Field::ALL.iter().find(|(_, key, _)| *key == meaning)?;
        Some(row.0)
    }

    /// Its name for people.
    pub fn name(self) -> &'static str {
        let row = Field::ALL.iter().find(|(field, ..)| *field == self);
        row.map_or("", |(.., name)| name)
    }

    /// Whether it is a mass (true), a length (false) or no size at all.
    pub fn is_mass(self) -> Option<bool> {
        match self {
            Field::Capacity | Field::Service => Some(true),
            Field::LoadCentre
            | Field::LiftHeight
            | Field::ForkLength
            | Field::Axle
            | Field::LoweredHeight => Some(false),
            _ => None,
        }
    }
}

/// One column of the register.
#[derive(Clone, Debug)]
pub(super) struct Column {
    /// Column from 1.
    pub number: u32,
    /// What it holds.
    pub field: Field,
    /// Unit of its heading, or of the row of units below.
    pub unit: Option<Unit>,
    /// The heading as written.
    pub heading: String,
}

/// A register's table.
pub(super) struct Layout {
    /// Columns that were understood, in their order.
    pub columns: Vec<Column>,
    /// The heading row.
    pub heading: Place,
    /// First row below headings and units.
    pub first: u32,
    /// Headings that were not used, in words.
    pub unused: Vec<String>,
}

impl Layout {
    /// Whether the table has a column for a field.
    pub fn has(&self, field: Field) -> bool {
        self.columns.iter().any(|column| column.field == field)
    }

    /// The first column for a field; 0 (the whole row) without one.
    pub fn column(&self, field: Field) -> u32 {
        let first = self.columns.iter().find(|column| column.field == field);
        first.map_or(0, |column| column.number)
    }
}

/// Rows that may stand above the headings.
const TITLE_ROWS: usize = 100;

/// The table of a sheet: the row that names most fields, among them truck, capacity or load centre.
pub(super) fn layout(sheet: &Sheet) -> Option<Layout> {
    let mut best: Option<(usize, usize)> = None;
    for (at, row) in sheet.rows.iter().take(TITLE_ROWS).enumerate() {
        let fields: BTreeSet<Field> = row
            .cells
            .iter()
            .filter_map(|cell| {
                let Value::Text(text) = &cell.value else {
                    return None;
                };
                heading(text).ok().map(|(field, _)| field)
            })
            .collect();
        let register = [Field::Truck, Field::Capacity, Field::LoadCentre]
            .iter()
            .filter(|field| fields.contains(field))
            .count();
        if register >= 2 && best.is_none_or(|(_, most)| fields.len() > most) {
            best = Some((at, fields.len()));
        }
    }
    let (at, _) = best?;
    let row = sheet.rows.get(at)?;
    let mut layout = Layout {
        columns: Vec::new(),
        heading: sheet.place(row.number, 0),
        first: row.number + 1,
        unused: Vec::new(),
    };
    for cell in &row.cells {
        let text = cell.value.text();
        match heading(&text) {
            Ok((field, unit)) => layout.columns.push(Column {
                number: cell.column,
                field,
                unit,
                heading: text,
            }),
            Err(why) => layout.unused.push(format!(
                "column {}, \"{}\", is not used: {why}",
                column_letters(cell.column),
                text.trim()
            )),
        }
    }
    if let Some(below) = sheet.rows.get(at + 1) {
        take_units(&mut layout, below);
    }
    Some(layout)
}

/// Whether a row repeats the headings, as printed pages do.
pub(super) fn repeats_headings(row: &Row, columns: &[Column]) -> bool {
    let mut filled = 0;
    let all = columns.iter().all(|column| match row.cell(column.number) {
        None => true,
        Some(cell) => {
            filled += 1;
            fold(&cell.value.text()) == fold(&column.heading)
        }
    });
    all && filled > 1
}

/// A row below the headings that holds only units gives them to columns that have none.
fn take_units(layout: &mut Layout, row: &Row) {
    let unit_of = |value: &Value| unit(value.text().trim().trim_matches(['(', ')', '[', ']']));
    if row.cells.is_empty() || !row.cells.iter().all(|cell| unit_of(&cell.value).is_some()) {
        return;
    }
    for column in &mut layout.columns {
        let below = row
            .cell(column.number)
            .and_then(|cell| unit_of(&cell.value));
        let right = below.filter(|unit| column.field.is_mass() == Some(unit.mass));
        column.unit = column.unit.or(right);
    }
    layout.first = row.number + 1;
}

/// The field and the unit that a heading names, or why it names none.
fn heading(text: &str) -> Result<(Field, Option<Unit>), &'static str> {
    const UNKNOWN: &str = "no heading of a fleet register is known by that name";
    let folded = fold(text);
    if let Some(field) = meaning("heading", &folded).and_then(Field::of) {
        return Ok((field, None));
    }
    let (name, units) = units_behind(&folded);
    let field = match meaning("heading", &name) {
        Some(known) => Field::of(known).ok_or(UNKNOWN)?,
        None => contained(&name)?.ok_or(UNKNOWN)?,
    };
    // Two units in one heading settle nothing: then each cell must say its own.
    let stated = match (units.as_slice(), field.is_mass()) {
        ([unit], Some(mass)) if unit.mass == mass => Some(*unit),
        ([], _) | (_, Some(_)) => None,
        (_, None) => return Err(UNKNOWN),
    };
    Ok((field, stated))
}

/// Takes the unit words off the end of a folded heading ("capacity in lb" is capacity, lb).
fn units_behind(folded: &str) -> (String, Vec<Unit>) {
    let mut words: Vec<&str> = folded.split(' ').collect();
    let mut units = Vec::new();
    'words: while words.len() > 1 {
        for count in [2, 1] {
            let from = words.len().saturating_sub(count);
            let Some(found) = words
                .get(from..)
                .filter(|_| from > 0)
                .and_then(|tail| unit(&tail.join(" ")))
            else {
                continue;
            };
            // "capacity in lb": the word before the unit is no inch.
            let preposition = found.name == "in" && !units.is_empty();
            if !preposition && !units.contains(&found) {
                units.push(found);
            }
            words.truncate(from);
            continue 'words;
        }
        break;
    }
    (words.join(" "), units)
}

/// The one field whose heading of two or more words stands inside this one. Single words are taken only whole:
/// "battery capacity" is no capacity.
fn contained(name: &str) -> Result<Option<Field>, &'static str> {
    let padded = format!(" {name} ");
    let found: BTreeSet<Field> = entries()
        .iter()
        .filter(|entry| entry.kind == "heading")
        .filter(|entry| {
            entry
                .words
                .iter()
                .any(|word| word.contains(' ') && padded.contains(&format!(" {word} ")))
        })
        .filter_map(|entry| Field::of(&entry.meaning))
        .collect();
    // "Out of service until" holds "out of service".
    let fields: Vec<Field> = if found.contains(&Field::OutUntil) {
        found
            .into_iter()
            .filter(|field| *field != Field::Unavailable)
            .collect()
    } else {
        found.into_iter().collect()
    };
    match fields.as_slice() {
        [] => Ok(None),
        [field] => Ok(Some(*field)),
        _ => Err("it names more than one thing"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn headings() {
        for (text, field, unit) in [
            ("Truck", Field::Truck, None),
            ("Rated capacity (lb)", Field::Capacity, Some("lb")),
            ("Capacity, kg", Field::Capacity, Some("kg")),
            ("Capacity in lb", Field::Capacity, Some("lb")),
            ("Capacity [t]", Field::Capacity, Some("t")),
            ("Load center / mm", Field::LoadCentre, Some("mm")),
            ("Load centre (\")", Field::LoadCentre, Some("in")),
            ("Load centre in", Field::LoadCentre, Some("in")),
            (
                "Max. lift height of mast, ft",
                Field::LiftHeight,
                Some("ft"),
            ),
            ("Capacity (lb / kg)", Field::Capacity, None),
            ("Capacity (mm)", Field::Capacity, None),
            ("Out of service until", Field::OutUntil, None),
            ("Truck out of service until", Field::OutUntil, None),
            ("Out of service?", Field::Unavailable, None),
            (
                "Axle distance (front axle to fork face), in",
                Field::Axle,
                Some("in"),
            ),
            ("Tragfähigkeit (kg)", Field::Capacity, Some("kg")),
            ("Centre de charge (mm)", Field::LoadCentre, Some("mm")),
            ("Altura de elevación (m)", Field::LiftHeight, Some("m")),
        ] {
            let read = heading(text).map(|(field, unit)| (field, unit.map(|unit| unit.name)));
            assert_eq!(read, Ok((field, unit)), "{text}");
        }
        for text in [
            "Battery capacity (Ah)",
            "Door height (in)",
            "Lease",
            "Rated capacity at load centre",
        ] {
            assert!(heading(text).is_err(), "{text}");
        }
    }

    #[test]
    fn every_field_has_headings_and_every_heading_a_field() {
        for (field, key, _) in Field::ALL {
            assert_eq!(Field::of(key), Some(field));
            assert!(
                entries()
                    .iter()
                    .any(|entry| entry.kind == "heading" && entry.meaning == key)
            );
        }
        for entry in entries().iter().filter(|entry| entry.kind == "heading") {
            assert!(Field::of(&entry.meaning).is_some(), "{}", entry.meaning);
        }
    }
}
