//! A truck while its rows are gathered: general statements from whichever row gives them, plate rows, faults.

use super::cells::{Said, Words, same, worded, words};
use super::columns::Field;
use super::words::attachment_key;
use super::{Fault, PlatePoint, Truck, check};
use crate::place::Place;
use crate::site::Units;
use crate::units::{Length, Mass, TIE};
use std::collections::BTreeMap;

/// One truck of the register as far as it has been read.
pub(super) struct Draft {
    /// Its name as first written.
    pub id: String,
    /// Where it was first named.
    pub place: Place,
    /// Whether the register has a class column.
    pub class_column: bool,
    /// Whether anything is wrong with its rows.
    pub faulty: bool,
    /// Its plate rows.
    pub points: Vec<PlatePoint>,
    general: BTreeMap<Field, (Said, Place)>,
}

impl Draft {
    /// A truck named for the first time.
    pub fn new(id: &str, place: Place, class_column: bool) -> Draft {
        Draft {
            id: id.to_string(),
            place,
            class_column,
            faulty: false,
            points: Vec::new(),
            general: BTreeMap::new(),
        }
    }

    /// A fault of this truck.
    pub fn fault(&mut self, place: Place, Words { found, remedy }: Words) -> Fault {
        self.faulty = true;
        Fault {
            truck: Some(self.id.clone()),
            place,
            found,
            remedy,
        }
    }

    /// Takes a general statement; one that differs from an earlier row's is a fault. Remarks are kept side by side.
    pub fn take(&mut self, field: Field, said: Said, place: Place, units: Units) -> Option<Fault> {
        let Some((earlier, first)) = self.general.get_mut(&field) else {
            self.general.insert(field, (said, place));
            return None;
        };
        if same(earlier, &said, TIE) {
            return None;
        }
        let differs = words(
            format!(
                "{} is {} here and {} in {}",
                field.name(),
                worded(&said, units),
                worded(earlier, units),
                first.cell()
            ),
            "a truck has one: correct the wrong row",
        );
        if let (Field::Remark, Said::Text(remarks), Said::Text(more)) = (field, earlier, &said) {
            remarks.push_str("; ");
            remarks.push_str(more);
            return None;
        }
        Some(self.fault(place, differs))
    }

    /// Faults of the plate as a whole, once every row is read.
    pub fn check(&mut self, units: Units) -> Vec<Fault> {
        let mut found = check::plate(&self.points, units);
        let fitted = self.fitted();
        let worn = attachment_key(fitted.as_deref());
        let has_row = |point: &PlatePoint| attachment_key(point.attachment.as_deref()) == worn;
        if !self.points.is_empty() && !self.points.iter().any(has_row) {
            let place = self
                .general
                .get(&Field::Fitted)
                .map_or(&self.place, |(_, place)| place);
            found.push((
                place.clone(),
                words(
                    format!(
                        "it wears {} and has no plate row for that, so its capacity is unknown",
                        fitted.as_deref().unwrap_or("bare forks")
                    ),
                    "enter the plate's row, or what it wears today",
                ),
            ));
        }
        found
            .into_iter()
            .map(|(place, words)| self.fault(place, words))
            .collect()
    }

    /// Whether any row makes a statement of this field.
    pub fn says(&self, field: Field) -> bool {
        self.general.contains_key(&field)
    }

    /// The truck.
    pub fn truck(mut self) -> Truck {
        let fitted = self.fitted();
        let class = match self.general.remove(&Field::Class) {
            Some((Said::Class(class), _)) => Some(class),
            _ => None,
        };
        let fuel = self.text(Field::Fuel);
        let remark = self.text(Field::Remark);
        let places = match self.general.remove(&Field::Places) {
            Some((Said::Places(places), _)) => places,
            _ => Vec::new(),
        };
        Truck {
            class,
            class_assumed: !self.class_column,
            fitted,
            available: self.flag(Field::Available),
            out_until: self.date(Field::OutUntil),
            inspection_due: self.date(Field::InspectionDue),
            fuel,
            places,
            service: self.mass(Field::Service),
            fork_length: self.length(Field::ForkLength),
            vertical_mast: self.flag(Field::VerticalMast),
            axle: self.length(Field::Axle),
            lowered_height: self.length(Field::LoweredHeight),
            remark,
            faulty: self.faulty,
            points: self.points,
            id: self.id,
        }
    }

    fn fitted(&self) -> Option<String> {
        match self.general.get(&Field::Fitted) {
            Some((Said::Attachment(fitted), _)) => fitted.clone(),
            _ => None,
        }
    }

    fn text(&mut self, field: Field) -> Option<String> {
        match self.general.remove(&field) {
            Some((Said::Text(text), _)) => Some(text),
            _ => None,
        }
    }

    fn flag(&self, field: Field) -> Option<bool> {
        match self.general.get(&field) {
            Some((Said::Flag(flag), _)) => Some(*flag),
            _ => None,
        }
    }

    fn date(&self, field: Field) -> Option<chrono::NaiveDate> {
        match self.general.get(&field) {
            Some((Said::Date(date), _)) => Some(*date),
            _ => None,
        }
    }

    fn mass(&self, field: Field) -> Option<Mass> {
        match self.general.get(&field) {
            Some((Said::Mass(mass), _)) => Some(*mass),
            _ => None,
        }
    }

    fn length(&self, field: Field) -> Option<Length> {
        match self.general.get(&field) {
            Some((Said::Length(length), _)) => Some(*length),
            _ => None,
        }
    }
}
