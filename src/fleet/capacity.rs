//! What a truck may lift at a load centre and a height, as it is set up today.
//! Comes in: one truck and a demand. Goes out: a capacity with the plate row it rests on, or why there is none.
//! Never interpolates and never goes above the plate.

use super::words::attachment_key;
use super::{Capacity, Class, PlatePoint, Truck};
use crate::place::Place;
use crate::units::{Length, Mass};

/// One plate row of the attachment fitted today, with the height it covers.
struct Row<'a> {
    capacity: Mass,
    load_centre: Length,
    height: Length,
    place: &'a Place,
}

/// Capacity of `truck` at a load centre and a lift height.
///
/// Read off the plate where a row reaches both: the best such row counts. Beyond the last load centre of a
/// counterbalanced fork truck it is worked out by the moment about the front axle,
/// `W = W_r (d + c_r) / (d + c)` with `d` from axle to fork face, 0 where the register does not state it
/// (29 CFR 1910.178 App. A, A-5: leaving the distance out always gives the lower figure), unless the site forbids it.
/// `default_height` is what a row without a lift height covers.
///
/// The error says in words why the truck has no capacity there.
pub fn at(
    truck: &Truck,
    load_centre: Length,
    lift_height: Length,
    default_height: Length,
    calculated_allowed: bool,
) -> Result<Capacity, String> {
    if truck.class == Some(Class::VI) {
        return Err("class VI: tows, never lifts".to_string());
    }
    let rows = fitted_rows(truck, default_height);
    if rows.is_empty() {
        let worn = truck.fitted.as_deref().unwrap_or("bare forks");
        return Err(format!("no plate row with {worn}: capacity unknown"));
    }
    if let Some(best) = on_plate(&rows, load_centre, lift_height) {
        return Ok(Capacity {
            mass: best.capacity,
            calculated: false,
            from: best.place.clone(),
            rated_at: best.load_centre,
        });
    }
    if !rows.iter().any(|row| lift_height.fits(row.height)) {
        return Err("no plate row reaches that lift height".to_string());
    }
    let beyond = "no plate row reaches that load centre";
    if !counterbalanced(truck) {
        return Err(format!(
            "{beyond} and the truck is not a counterbalanced one"
        ));
    }
    if !calculated_allowed {
        return Err(format!(
            "{beyond} and the site allows no calculated capacity"
        ));
    }
    let axle = truck.axle.unwrap_or(Length::ZERO);
    carried_out(&rows, load_centre, lift_height, axle)
        .ok_or_else(|| "load centre or lift height is not known".to_string())
}

/// The largest capacity on the plate, whatever the attachment; zero without a plate row.
pub(super) fn rated(truck: &Truck) -> Mass {
    truck
        .points
        .iter()
        .fold(Mass::ZERO, |most, point| most.max(point.capacity))
}

fn fitted_rows(truck: &Truck, default_height: Length) -> Vec<Row<'_>> {
    let worn = attachment_key(truck.fitted.as_deref());
    let fits = |point: &&PlatePoint| attachment_key(point.attachment.as_deref()) == worn;
    truck
        .points
        .iter()
        .filter(fits)
        .map(|point| Row {
            capacity: point.capacity,
            load_centre: point.load_centre,
            height: point.lift_height.unwrap_or(default_height),
            place: &point.place,
        })
        .collect()
}

/// Moment about the front axle holds for trucks that carry the load in front of it on forks.
fn counterbalanced(truck: &Truck) -> bool {
    match truck.class {
        Some(Class::I | Class::IV | Class::V) => true,
        Some(Class::VII) => truck.vertical_mast == Some(true),
        Some(Class::II | Class::III | Class::VI) => false,
        None => truck.class_assumed,
    }
}

/// The best row whose load centre and height are both at least those asked for.
fn on_plate<'r, 'a>(
    rows: &'r [Row<'a>],
    load_centre: Length,
    height: Length,
) -> Option<&'r Row<'a>> {
    rows.iter()
        .filter(|row| load_centre.fits(row.load_centre) && height.fits(row.height))
        .max_by(|a, b| a.capacity.kg().total_cmp(&b.capacity.kg()))
}

/// Capacity beyond the plate's load centres: the least of the rows that govern this height, carried out by the moment.
///
/// Nor is it ever above the figure for a lesser height: a plate may state a long load centre for low lifts only, and
/// lifting higher must not bring more.
fn carried_out(
    rows: &[Row],
    load_centre: Length,
    height: Length,
    axle: Length,
) -> Option<Capacity> {
    let lower = rows
        .iter()
        .map(|row| row.height)
        .filter(|low| !height.fits(*low));
    lower
        .chain([height])
        .flat_map(|level| limits(rows, load_centre, level, axle))
        .filter(|(mass, _)| mass.kg().is_finite())
        .min_by(|a, b| a.0.kg().total_cmp(&b.0.kg()))
        .map(|(mass, place)| Capacity {
            mass,
            calculated: true,
            from: place.clone(),
            rated_at: rows
                .iter()
                .find(|row| row.place == place)
                .map_or(Length::ZERO, |row| row.load_centre),
        })
}

/// Every figure that bounds the capacity at one height: the plate's own where it reaches; else the rows of the next
/// greater height, and of the heights above it those that are the best of the plate at their load centre. A row that is
/// outdone there (less only because it is higher) says nothing about this height.
fn limits<'a>(
    rows: &[Row<'a>],
    load_centre: Length,
    height: Length,
    axle: Length,
) -> Vec<(Mass, &'a Place)> {
    if let Some(best) = on_plate(rows, load_centre, height) {
        return vec![(best.capacity, best.place)];
    }
    let high_enough = || rows.iter().filter(|row| height.fits(row.height));
    let next_height = high_enough().fold(None, |least: Option<Length>, row| {
        Some(least.map_or(row.height, |least| least.min(row.height)))
    });
    let governs = |row: &&Row| {
        next_height.is_some_and(|next| row.height.fits(next))
            || on_plate(rows, row.load_centre, height)
                .is_some_and(|best| best.capacity.fits(row.capacity))
    };
    high_enough()
        .filter(governs)
        .map(|row| {
            let arm = (axle + row.load_centre) / (axle + load_centre);
            (row.capacity * arm, row.place)
        })
        .collect()
}
