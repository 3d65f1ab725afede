//! The search written a second time, slowly and plainly, in pounds and inches, to hold the first against.

use super::*;
use crate::fleet::Class;
use crate::fleet::words::attachment_key;

const CLOSE: f64 = 1e-7;

fn not_above(a: f64, b: f64) -> bool {
    a < b + CLOSE
}

/// Capacity in pounds; none when the truck has none there.
pub(super) fn capacity(truck: &Truck, demand: &Demand, site: &Site) -> Option<f64> {
    let (c, h) = (demand.load_centre.inches(), demand.lift_height.inches());
    let mut plate: Vec<(f64, f64, f64)> = Vec::new();
    for point in &truck.points {
        if attachment_key(point.attachment.as_deref()) == attachment_key(truck.fitted.as_deref()) {
            let height = point.lift_height.unwrap_or(site.lift_height_m);
            plate.push((
                point.load_centre.inches(),
                height.inches(),
                point.capacity.lb(),
            ));
        }
    }
    let read = |c: f64, h: f64| {
        let mut best = None;
        for (centre, height, lb) in &plate {
            if not_above(c, *centre) && not_above(h, *height) && best.is_none_or(|best| *lb > best)
            {
                best = Some(*lb);
            }
        }
        best
    };
    let carries = match truck.class {
        Some(Class::VI) => return None,
        Some(Class::I | Class::IV | Class::V) => true,
        Some(Class::VII) => truck.vertical_mast == Some(true),
        _ => truck.class.is_none() && truck.class_assumed,
    };
    if let Some(lb) = read(c, h) {
        return Some(lb);
    }
    if !carries
        || !site.calculated_capacity
        || !plate.iter().any(|(_, height, _)| not_above(h, *height))
    {
        return None;
    }
    // At this height and at every lower one of the plate: what the plate gives, else each row that is the plate's best at
    // its own load centre, carried out by the moment; the least of all.
    let d = truck.axle.map_or(0.0, Length::inches);
    let mut most = f64::INFINITY;
    let mut levels: Vec<f64> = plate
        .iter()
        .map(|row| row.1)
        .filter(|level| *level < h)
        .collect();
    levels.push(h);
    for level in levels {
        if let Some(lb) = read(c, level) {
            most = most.min(lb);
            continue;
        }
        for (centre, height, lb) in &plate {
            let outdone = read(*centre, level).is_some_and(|best| best > lb + CLOSE);
            if not_above(level, *height) && !outdone {
                most = most.min(lb * (d + centre) / (d + c));
            }
        }
    }
    most.is_finite().then_some(most)
}

/// Whether a truck is adequate, every condition looked at.
pub(super) fn adequate(truck: &Truck, demand: &Demand, site: &Site) -> bool {
    let Some(lb) = capacity(truck, demand, site) else {
        return false;
    };
    let weight = demand.weight.lb();
    let mut sound = !truck.faulty && weight > 0.0;
    sound &= truck.available != Some(false);
    sound &= truck.out_until.is_none_or(|until| today() > until);
    sound &= truck.inspection_due.is_none_or(|due| today() <= due);
    if let Some(place) = &demand.place {
        sound &= truck.places.iter().any(|allowed| allowed == place);
    }
    sound &= match demand.attachment.as_deref() {
        Some("clamp") => truck.fitted.as_deref() == Some("clamp"),
        Some(_) => truck.fitted.as_deref() == Some("side shift"),
        None => truck.fitted.as_deref() != Some("clamp"),
    };
    sound &= not_above(weight, lb * site.use_limit);
    if let (Some(forks), Some(depth)) = (truck.fork_length, demand.depth) {
        sound &= not_above(2.0 * depth.inches(), 3.0 * forks.inches());
    }
    if let Some(dock) = site.dock_rating_kg {
        sound &= match truck.service {
            Some(service) => not_above(service.lb() + site.operator_kg.lb() + weight, dock.lb()),
            None => false,
        };
    }
    sound
}

/// Name and capacity of the smallest adequate truck: each is held against every other.
pub(super) fn smallest(fleet: &Fleet, demand: &Demand, site: &Site) -> Option<(String, f64)> {
    let measures = |truck: &Truck| {
        let rated = truck
            .points
            .iter()
            .map(|point| point.capacity.lb())
            .fold(0.0, f64::max);
        let service = truck.service.map_or(1e9, Mass::lb);
        [capacity(truck, demand, site).unwrap_or(1e9), rated, service]
    };
    let mut best: Option<&Truck> = None;
    for truck in fleet
        .trucks
        .iter()
        .filter(|truck| adequate(truck, demand, site))
    {
        let smaller = best.is_none_or(|best| {
            for (one, other) in measures(truck).into_iter().zip(measures(best)) {
                if (one - other).abs() > CLOSE {
                    return one < other;
                }
            }
            truck.id < best.id
        });
        if smaller {
            best = Some(truck);
        }
    }
    let best = best?;
    Some((best.id.clone(), capacity(best, demand, site)?))
}
