//! The smallest adequate truck for one lift, and why the smaller ones will not do.
//! Comes in: the register, a demand, the day, the site. Goes out: a choice. Never puts two trucks under one load.

use super::adequate::{Look, look};
use super::{Capacity, Choice, Chosen, Demand, Fleet, Truck, WhyNot, capacity};
use crate::site::Site;
use crate::units::{Mass, at_most};
use chrono::NaiveDate;

/// The strongest truck for a demand whose weight is left out.
#[derive(Clone, Debug, PartialEq)]
pub struct Strongest {
    /// Its name.
    pub id: String,
    /// Its capacity at the demand's load centre and height.
    pub capacity: Capacity,
    /// The most it may take there: capacity times the site's use limit, and no more than the dock rating leaves.
    pub takes: Mass,
}

/// The smallest adequate truck: the one with the least capacity at this demand; ties go by rated capacity, service weight
/// (not stated comes last) and id. Where there is none, `strongest` names the truck that may take most at this demand and
/// how much that is.
pub fn smallest(fleet: &Fleet, demand: &Demand, date: NaiveDate, site: &Site) -> Choice {
    let looks: Vec<Look> = fleet
        .trucks
        .iter()
        .map(|truck| look(truck, demand, date, site))
        .collect();
    let adequate = looks.iter().filter(|look| look.why_not.is_none()).collect();
    let best = least(adequate);
    let why_not = looks
        .iter()
        .filter(|look| best.is_none_or(|best| smaller(look, best)))
        .map(|look| WhyNot {
            truck: look.truck.id.clone(),
            clause: look
                .why_not
                .clone()
                .unwrap_or_else(|| look.more_than_needed.clone()),
        })
        .collect();
    let truck = best.and_then(|look| chosen(look, demand));
    let strongest = match truck {
        Some(_) => None,
        None => most(&looks).map(|strongest| (strongest.id, strongest.takes)),
    };
    Choice {
        truck,
        why_not,
        strongest,
    }
}

/// The truck that may take most at this demand among those adequate in all but weight; the demand's own weight is not
/// looked at. Ties go to the lower id.
pub fn most_at(fleet: &Fleet, demand: &Demand, date: NaiveDate, site: &Site) -> Option<Strongest> {
    let looks: Vec<Look> = fleet
        .trucks
        .iter()
        .map(|truck| look(truck, demand, date, site))
        .collect();
    most(&looks)
}

fn most(looks: &[Look]) -> Option<Strongest> {
    let mut strongest: Option<Strongest> = None;
    for look in looks.iter().filter(|look| look.ready) {
        let (Ok(capacity), Some(takes)) = (&look.capacity, look.takes) else {
            continue;
        };
        let better = strongest.as_ref().is_none_or(|so_far| {
            !takes.fits(so_far.takes) || (so_far.takes.fits(takes) && look.truck.id < so_far.id)
        });
        if better && takes > Mass::ZERO {
            strongest = Some(Strongest {
                id: look.truck.id.clone(),
                capacity: capacity.clone(),
                takes,
            });
        }
    }
    strongest
}

/// The least of the adequate trucks. Each step keeps what ties within rounding, so the order of the register and the
/// units it is written in cannot change the answer.
fn least<'l, 't>(mut looks: Vec<&'l Look<'t>>) -> Option<&'l Look<'t>> {
    let measures: [fn(&Look) -> f64; 3] = [at_demand, rated, service];
    for measure in measures {
        let low = looks
            .iter()
            .map(|look| measure(look))
            .fold(f64::INFINITY, f64::min);
        // Not stated (infinite) ties only with not stated.
        looks.retain(|look| {
            measure(look) == low || (measure(look).is_finite() && at_most(measure(look), low))
        });
    }
    looks.into_iter().min_by(|a, b| a.truck.id.cmp(&b.truck.id))
}

fn at_demand(look: &Look) -> f64 {
    look.capacity
        .as_ref()
        .map_or(f64::INFINITY, |capacity| capacity.mass.kg())
}

fn rated(look: &Look) -> f64 {
    capacity::rated(look.truck).kg()
}

fn service(look: &Look) -> f64 {
    look.truck.service.map_or(f64::INFINITY, Mass::kg)
}

/// Rated below the chosen truck, or with less capacity at this demand.
fn smaller(look: &Look, best: &Look) -> bool {
    let below = |a: f64, b: f64| !at_most(b, a);
    below(rated(look), rated(best)) || below(at_demand(look), at_demand(best))
}

fn chosen(look: &Look, demand: &Demand) -> Option<Chosen> {
    let capacity = look.capacity.as_ref().ok()?.clone();
    let used = demand.weight / capacity.mass;
    let notes = notes(look.truck, &capacity);
    Some(Chosen {
        id: look.truck.id.clone(),
        capacity,
        used,
        notes,
    })
}

fn notes(truck: &Truck, capacity: &Capacity) -> Vec<String> {
    let on_row = |point: &&super::PlatePoint| point.place == capacity.from;
    let no_height = truck
        .points
        .iter()
        .find(on_row)
        .is_some_and(|point| point.lift_height.is_none());
    [
        (truck.available.is_none(), "availability not stated"),
        (truck.inspection_due.is_none(), "inspection date not stated"),
        (
            no_height,
            "plate row without a lift height: taken for the site's usual height only",
        ),
        (
            capacity.calculated,
            "capacity calculated, the plate governs",
        ),
        (
            capacity.calculated && truck.class_assumed,
            "class not stated, taken as counterbalanced",
        ),
    ]
    .into_iter()
    .filter(|(holds, _)| *holds)
    .map(|(_, note)| note.to_string())
    .collect()
}
