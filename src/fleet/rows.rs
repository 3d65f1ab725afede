//! The rows of a register's table, one after another, into trucks.

use super::cells::{Said, Words, Wrong, said, same, worded, words};
use super::check::usual_load_centre;
use super::columns::{Column, Field, Layout};
use super::draft::Draft;
use super::{Fault, PlatePoint};
use crate::place::Place;
use crate::read::{Row, Sheet, Value};
use crate::site::Units;
use crate::tables::register_headings::fold;
use std::collections::{BTreeMap, HashMap};

/// Most rows of one plate; plates have a dozen. Common practice, no source.
const MOST_POINTS: usize = 100;

/// Two columns of one field (pounds and kilograms) may differ by this much: 24 in and 600 mm name the same point
/// (common practice, no source).
const ROUNDED: f64 = 0.02;

/// A size without a unit, kept until its whole column is known.
struct Bare {
    truck: usize,
    place: Place,
    heading: Place,
    field: Field,
}

/// The rows as far as they have been read.
pub(super) struct Rows {
    units: Units,
    drafts: Vec<Draft>,
    /// The drafts by their folded names.
    names: HashMap<String, usize>,
    faults: Vec<Fault>,
    notes: Vec<String>,
    current: Option<usize>,
    bare: Vec<Bare>,
    /// Columns with a size that has its unit, by the place of the heading.
    with_unit: Vec<Place>,
}

impl Rows {
    /// Nothing read yet; `units` words the faults.
    pub fn new(units: Units) -> Rows {
        Rows {
            units,
            drafts: Vec::new(),
            names: HashMap::new(),
            faults: Vec::new(),
            notes: Vec::new(),
            current: None,
            bare: Vec::new(),
            with_unit: Vec::new(),
        }
    }

    /// Reads one row below the headings.
    pub fn read(&mut self, sheet: &Sheet, layout: &Layout, row: &Row) {
        let cells = filled(sheet, layout, row);
        let names = |field: Field| cells.iter().any(|(column, _)| column.field == field);
        let first_text = cells
            .first()
            .map_or(String::new(), |(_, value)| value.text());
        let only_words = cells
            .iter()
            .all(|(column, _)| column.field == Field::Remark)
            || (cells.len() == 1
                && names(Field::Truck)
                && first_text.split_whitespace().count() > 3);
        if only_words {
            let place = sheet.place(row.number, 0);
            self.notes.push(format!(
                "{}: no truck, not read: {}",
                place.cell(),
                first_text.trim()
            ));
            return;
        }
        let Some(truck) = self.truck_of(sheet, layout, row, &cells) else {
            self.faults.push(Fault {
                truck: None,
                place: sheet.place(row.number, layout.column(Field::Truck)),
                found: "no truck is named in this row or above it".to_string(),
                remedy: "enter its name".to_string(),
            });
            return;
        };
        if !names(Field::Truck) && names(Field::Class) {
            let (id, place) = (
                self.drafts.get(truck).map_or("", |draft| draft.id.as_str()),
                sheet.place(row.number, 0),
            );
            self.notes.push(format!(
                "{}: no truck is named; read as another plate row of {id}",
                place.cell()
            ));
        }
        if row.hidden {
            let hidden = words(
                "the row is hidden",
                "show it, or delete it if it no longer holds",
            );
            self.fault(truck, sheet.place(row.number, 0), hidden);
            return;
        }
        let mut statements = self.statements(sheet, layout, row, &cells, truck);
        self.point(sheet, layout, row, truck, &mut statements);
        for (field, (said, place)) in statements {
            if let Some(fault) = self
                .drafts
                .get_mut(truck)
                .and_then(|draft| draft.take(field, said, place, self.units))
            {
                self.faults.push(fault);
            }
        }
    }

    /// Trucks, faults and notes, once every row is read.
    pub fn finish(mut self) -> (Vec<Draft>, Vec<Fault>, Vec<String>) {
        self.settle_bare();
        for draft in &mut self.drafts {
            self.faults.extend(draft.check(self.units));
        }
        self.faults.sort_by_key(|fault| {
            (
                fault.place.sheet.clone(),
                fault.place.row,
                fault.place.column,
            )
        });
        (self.drafts, self.faults, self.notes)
    }

    fn fault(&mut self, truck: usize, place: Place, words: Words) {
        if let Some(draft) = self.drafts.get_mut(truck) {
            self.faults.push(draft.fault(place, words));
        }
    }

    /// The truck a row belongs to; a blank name continues the truck above.
    fn truck_of(
        &mut self,
        sheet: &Sheet,
        layout: &Layout,
        row: &Row,
        cells: &[(&Column, &Value)],
    ) -> Option<usize> {
        let named = cells
            .iter()
            .find(|(column, _)| column.field == Field::Truck)
            .map(|(_, value)| value.text().trim().to_string())
            .filter(|name| !fold(name).is_empty());
        if let Some(name) = named {
            let next = self.drafts.len();
            let at = *self.names.entry(fold(&name)).or_insert(next);
            if at == next {
                let place = sheet.place(row.number, layout.column(Field::Truck));
                self.drafts
                    .push(Draft::new(&name, place, layout.has(Field::Class)));
            }
            self.current = Some(at);
        }
        let unusable = !layout.has(Field::Capacity) || !layout.has(Field::LoadCentre);
        if let Some(draft) = self.current.and_then(|at| self.drafts.get_mut(at)) {
            draft.faulty |= unusable;
            draft.class_column |= layout.has(Field::Class);
        }
        self.current
    }

    /// What the cells of a row say, by field; what is wrong with them goes to the faults.
    fn statements(
        &mut self,
        sheet: &Sheet,
        layout: &Layout,
        row: &Row,
        cells: &[(&Column, &Value)],
        truck: usize,
    ) -> BTreeMap<Field, (Said, Place)> {
        let mut statements: BTreeMap<Field, (Said, Place)> = BTreeMap::new();
        for (column, value) in cells
            .iter()
            .filter(|(column, _)| column.field != Field::Truck)
        {
            let place = sheet.place(row.number, column.number);
            let heading = layout.heading.at_column(column.number);
            let field = match column.field {
                Field::Unavailable => Field::Available,
                field => field,
            };
            match said(value, column) {
                Ok(None) => {}
                Ok(Some(said)) => {
                    if field.is_mass().is_some() && !self.with_unit.contains(&heading) {
                        self.with_unit.push(heading);
                    }
                    match statements.remove(&field) {
                        Some((other, _)) if !same(&other, &said, ROUNDED) => {
                            let differs = words(
                                format!(
                                    "{} is {} here and {} in another column of the row",
                                    field.name(),
                                    worded(&said, self.units),
                                    worded(&other, self.units)
                                ),
                                "correct one of them",
                            );
                            self.fault(truck, place.clone(), differs);
                            statements.insert(field, (other, place));
                        }
                        Some((other, first)) => {
                            statements.insert(field, (safer(field, other, said), first));
                        }
                        None => {
                            statements.insert(field, (said, place));
                        }
                    }
                }
                Err(Wrong::NoUnit) => self.bare.push(Bare {
                    truck,
                    place,
                    heading,
                    field,
                }),
                Err(Wrong::Because(words)) => self.fault(truck, place, words),
            }
        }
        statements
    }

    /// Takes the plate point out of a row's statements; what it lacks is a fault.
    fn point(
        &mut self,
        sheet: &Sheet,
        layout: &Layout,
        row: &Row,
        truck: usize,
        statements: &mut BTreeMap<Field, (Said, Place)>,
    ) {
        let capacity = statements.remove(&Field::Capacity);
        let load_centre = statements.remove(&Field::LoadCentre);
        let lift_height = statements.remove(&Field::LiftHeight);
        let attachment = match statements.remove(&Field::Attachment) {
            Some((Said::Attachment(attachment), _)) => attachment,
            _ => None,
        };
        if let (Some((Said::Mass(capacity), place)), Some((Said::Length(load_centre), _))) =
            (&capacity, &load_centre)
        {
            let lift_height = match lift_height {
                Some((Said::Length(height), _)) => Some(height),
                _ => None,
            };
            let point = PlatePoint {
                capacity: *capacity,
                load_centre: *load_centre,
                lift_height,
                attachment,
                place: place.clone(),
            };
            let points = self.drafts.get_mut(truck).map(|draft| &mut draft.points);
            match points.filter(|points| points.len() < MOST_POINTS) {
                Some(points) => points.push(point),
                None => {
                    let too_many = words(
                        format!(
                            "it has more than {MOST_POINTS} plate rows, and this one was not read"
                        ),
                        "keep those that the plate shows",
                    );
                    self.fault(truck, place.clone(), too_many);
                }
            }
            return;
        }
        for (field, found) in [
            (Field::Capacity, &capacity),
            (Field::LoadCentre, &load_centre),
        ] {
            let place = sheet.place(row.number, layout.column(field));
            if found.is_some() || !layout.has(field) || self.reported(&place) {
                continue;
            }
            let usual = match (&capacity, field) {
                (Some((Said::Mass(capacity), _)), Field::LoadCentre) => format!(
                    " (trucks of this capacity are usually rated at {}; it is not taken for granted)",
                    usual_load_centre(*capacity, self.units)
                ),
                _ => String::new(),
            };
            let missing = words(
                format!("{} is missing", field.name()),
                format!("enter what the plate states{usual}"),
            );
            self.fault(truck, place, missing);
        }
    }

    /// Whether something is already said about a cell.
    fn reported(&self, place: &Place) -> bool {
        // What is said about a row stands together at the end.
        let row = |other: &&Place| other.row == place.row && other.sheet == place.sheet;
        let faults = self.faults.iter().rev().map(|fault| &fault.place);
        let bare = self.bare.iter().rev().map(|bare| &bare.place);
        faults.take_while(row).any(|other| other == place)
            || bare.take_while(row).any(|other| other == place)
    }

    /// Sizes without a unit: one fault for a column that states none at all, else one for each cell.
    fn settle_bare(&mut self) {
        let mut columns_done: Vec<Place> = Vec::new();
        for bare in std::mem::take(&mut self.bare) {
            let example = if bare.field.is_mass() == Some(true) {
                "(lb) or (kg)"
            } else {
                "(in) or (mm)"
            };
            let name = bare.field.name();
            if self.with_unit.contains(&bare.heading) {
                let no_unit = words(
                    format!("{name} has no unit"),
                    format!("write it in the cell or the heading, such as {example}"),
                );
                self.fault(bare.truck, bare.place, no_unit);
                continue;
            }
            if let Some(draft) = self.drafts.get_mut(bare.truck) {
                draft.faulty = true;
            }
            if !columns_done.contains(&bare.heading) {
                columns_done.push(bare.heading.clone());
                self.faults.push(Fault {
                    truck: None,
                    place: bare.heading,
                    found: format!(
                        "{name} has no unit anywhere in this column, so no truck with a figure in it can be used"
                    ),
                    remedy: format!("add the unit to the heading, such as {example}"),
                });
            }
        }
    }
}

/// The filled cells of a row in columns that are understood; a cell merged downwards counts for each of its rows.
fn filled<'s>(sheet: &'s Sheet, layout: &'s Layout, row: &'s Row) -> Vec<(&'s Column, &'s Value)> {
    layout
        .columns
        .iter()
        .filter_map(|column| {
            let own = row.cell(column.number);
            let cell = own.or_else(|| {
                let block = sheet.merged.iter().find(|block| {
                    block.left == column.number
                        && block.top < row.number
                        && row.number <= block.bottom
                })?;
                let top = sheet.rows.iter().find(|above| above.number == block.top)?;
                top.cell(column.number)
            })?;
            (!matches!(&cell.value, Value::Text(text) if text.trim().is_empty()))
                .then_some((column, &cell.value))
        })
        .collect()
}

/// The safer of two statements that agree but for rounding: the lesser, of a service weight the greater.
fn safer(field: Field, one: Said, other: Said) -> Said {
    match (one, other) {
        (Said::Mass(a), Said::Mass(b)) if field == Field::Service => Said::Mass(a.max(b)),
        (Said::Mass(a), Said::Mass(b)) => Said::Mass(a.min(b)),
        (Said::Length(a), Said::Length(b)) => Said::Length(a.min(b)),
        (one, _) => one,
    }
}
