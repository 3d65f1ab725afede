//! The smallest adequate truck for one lift, and why the smaller ones will not do.
//! Comes in: the register, a demand, the day, the site. Goes out: a choice. Never puts two trucks under one load.

use super::adequate::{Look, look};
use super::words::attachment_key;
use super::{
    CALCULATED, Capacity, Choice, Chosen, Demand, Fleet, Strongest, Truck, WhyNot, capacity,
};
use crate::site::Site;
use crate::units::{Mass, at_most};
use chrono::{Days, NaiveDate};

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
            clause: look.clause(demand, site),
        })
        .collect();
    let truck = best.and_then(|look| chosen(look, demand));
    let strongest = match truck {
        Some(_) => None,
        None => most(&looks),
    };
    Choice {
        truck,
        why_not,
        strongest,
    }
}

/// The most that the named truck may take at this demand by its capacity, the site's use limit and the dock rating, whatever
/// the demand weighs; none where the truck will not do there at any weight.
pub fn takes(
    fleet: &Fleet,
    id: &str,
    demand: &Demand,
    date: NaiveDate,
    site: &Site,
) -> Option<Mass> {
    let truck = fleet.trucks.iter().find(|truck| truck.id == id)?;
    at_any_weight(&look(truck, demand, date, site))
}

fn at_any_weight(look: &Look) -> Option<Mass> {
    look.takes.filter(|takes| look.ready && *takes > Mass::ZERO)
}

/// The first later day on which a truck that is out until then would take the lift, and that truck. Nothing is assigned by
/// it: on that day the register must say that the truck is back.
pub fn later(
    fleet: &Fleet,
    demand: &Demand,
    date: NaiveDate,
    site: &Site,
) -> Option<(String, NaiveDate)> {
    let back = |truck: &Truck| {
        let day = truck.out_until?.checked_add_days(Days::new(1))?;
        let back = Truck {
            available: None,
            ..truck.clone()
        };
        let would_do = day > date && look(&back, demand, day, site).why_not.is_none();
        would_do.then_some((day, back.id))
    };
    let (day, id) = fleet.trucks.iter().filter_map(back).min()?;
    Some((id, day))
}

/// The truck that may take most among those adequate in all but weight. Ties go to the lower id.
fn most(looks: &[Look]) -> Option<Strongest> {
    let mut strongest: Option<Strongest> = None;
    for look in looks {
        let Some(takes) = at_any_weight(look) else {
            continue;
        };
        let id = look.truck.id.as_str();
        let better = strongest.as_ref().is_none_or(|so_far| {
            !takes.fits(so_far.takes) || (so_far.takes.fits(takes) && id < so_far.id.as_str())
        });
        if better {
            strongest = Some(Strongest {
                id: id.to_string(),
                takes,
                calculated: look.capacity.as_ref().is_ok_and(|at| at.calculated),
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
    let notes = notes(look.truck, &capacity, demand);
    Some(Chosen {
        id: look.truck.id.clone(),
        capacity,
        used,
        notes,
    })
}

fn notes(truck: &Truck, capacity: &Capacity, demand: &Demand) -> Vec<String> {
    let on_row = |point: &&super::PlatePoint| point.place == capacity.from;
    let no_height = truck
        .points
        .iter()
        .find(on_row)
        .is_some_and(|point| point.lift_height.is_none());
    let calculated = format!("capacity {CALCULATED}");
    let needed = demand.attachment.as_deref().unwrap_or_default();
    let with = format!("with its {needed}");
    [
        (capacity.calculated, calculated.as_str()),
        (attachment_key(Some(needed)).is_some(), with.as_str()),
        (truck.available.is_none(), "availability not stated"),
        (truck.inspection_due.is_none(), "inspection date not stated"),
        (
            no_height,
            "plate row without a lift height: taken for the site's usual height only",
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
