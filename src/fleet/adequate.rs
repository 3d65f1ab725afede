//! Whether one truck is adequate for one demand on one day, with the first reason why not.

use super::show;
use super::words::{attachment_key, lifts_on_forks, places};
use super::{CALCULATED, Capacity, Demand, Truck, capacity, today};
use crate::site::Site;
use crate::units::Mass;
use chrono::NaiveDate;

/// One truck looked at for one demand.
pub(super) struct Look<'t> {
    /// The truck.
    pub truck: &'t Truck,
    /// Its capacity at the demand, or why it has none.
    pub capacity: Result<Capacity, String>,
    /// The most it may take there by capacity, use limit and the ratings of the floors; none when one of them is not known.
    pub takes: Option<Mass>,
    /// Adequate in all but the weight.
    pub ready: bool,
    /// The first reason why it will not do; none when it is adequate.
    pub why_not: Option<String>,
}

impl Look<'_> {
    /// Why it is not the one: what speaks against it, or that it would do and yet is not the least.
    pub fn clause(&self, demand: &Demand, site: &Site) -> String {
        match (&self.why_not, &self.capacity) {
            (Some(why), _) | (None, Err(why)) => why.clone(),
            (None, Ok(capacity)) => {
                format!("{}: more than is needed", lifts(capacity, demand, site))
            }
        }
    }
}

/// Looks at one truck: status first, then place, attachment, capacity, forks, dock.
pub(super) fn look<'t>(
    truck: &'t Truck,
    demand: &Demand,
    date: NaiveDate,
    site: &Site,
) -> Look<'t> {
    let capacity = capacity::at(
        truck,
        demand.load_centre,
        demand.lift_height,
        site.lift_height_m,
        site.calculated_capacity,
    );
    let usable = capacity
        .as_ref()
        .ok()
        .map(|capacity| capacity.mass * site.use_limit);
    let floor = floor(truck, site);
    let unfit = today::against(truck, date)
        .into_iter()
        .next()
        .or_else(|| place(truck, demand, site))
        .or_else(|| attachment(truck, demand));
    let short_forks = forks(truck, demand, site);
    let ready = unfit.is_none() && short_forks.is_none();
    let why_not = unfit
        .or_else(|| no_weight(demand))
        .or_else(|| no_rating(&capacity, demand, site))
        .or_else(|| too_heavy(&capacity, demand, site))
        .or(short_forks)
        .or_else(|| beyond_floor(floor, demand, site));
    let takes = usable.and_then(|usable| match floor {
        Floor::Unrated => Some(usable),
        Floor::Rated { rating, burden, .. } => Some(usable.min(rating - burden)),
        Floor::Unknown { .. } => None,
    });
    Look {
        truck,
        capacity,
        takes,
        ready,
        why_not,
    }
}

/// A weight that is not known, or is none, is never lifted.
fn no_weight(demand: &Demand) -> Option<String> {
    let known = demand.weight.kg().is_finite() && demand.weight > Mass::ZERO;
    (!known).then(|| "the weight is not known".to_string())
}

/// `lifts 2,400 lb at 30 in (calculated, the plate governs)`.
fn lifts(capacity: &Capacity, demand: &Demand, site: &Site) -> String {
    let mark = if capacity.calculated {
        format!(" ({CALCULATED})")
    } else {
        String::new()
    };
    format!(
        "lifts {} at {}{mark}",
        show::down(capacity.mass, site.units),
        show::length(demand.load_centre, site.units)
    )
}

fn place(truck: &Truck, demand: &Demand, site: &Site) -> Option<String> {
    let needed = places(demand.place.as_ref().or(site.place.as_ref())?);
    if needed.iter().all(|place| truck.places.contains(place)) {
        return None;
    }
    let needed = needed.join(" and ");
    Some(if truck.places.is_empty() {
        format!("{needed} work needed, and where it may work is not stated")
    } else {
        format!("works {} only, {needed} needed", truck.places.join(" and "))
    })
}

fn attachment(truck: &Truck, demand: &Demand) -> Option<String> {
    let worn = truck.fitted.as_deref();
    let needed = attachment_key(demand.attachment.as_deref());
    let right = match &needed {
        Some(needed) => attachment_key(worn).as_ref() == Some(needed),
        None => lifts_on_forks(worn),
    };
    if right {
        return None;
    }
    let needed = demand.attachment.as_deref().filter(|_| needed.is_some());
    Some(format!(
        "wears {}, {} needed",
        worn.unwrap_or("bare forks"),
        needed.unwrap_or("forks")
    ))
}

fn no_rating(capacity: &Result<Capacity, String>, demand: &Demand, site: &Site) -> Option<String> {
    let why = capacity.as_ref().err()?;
    Some(format!(
        "{why} (load centre {}, lift height {})",
        show::length(demand.load_centre, site.units),
        show::length(demand.lift_height, site.units)
    ))
}

fn too_heavy(capacity: &Result<Capacity, String>, demand: &Demand, site: &Site) -> Option<String> {
    let capacity = capacity.as_ref().ok()?;
    let usable = capacity.mass * site.use_limit;
    if demand.weight.fits(usable) {
        return None;
    }
    let lifts = lifts(capacity, demand, site);
    let limited = if site.use_limit == 1.0 {
        String::new()
    } else {
        let part = site.use_limit * 100.0;
        format!(", of which {part} % may be used")
    };
    let short = show::short(demand.weight, usable, site.units);
    Some(format!("{lifts}{limited}, {short} short"))
}

fn forks(truck: &Truck, demand: &Demand, site: &Site) -> Option<String> {
    let (forks, depth) = (truck.fork_length?, demand.depth?);
    // Forks carry at least two thirds of the load's depth (CCOHS, lift trucks: load handling).
    let needed = depth * (2.0 / 3.0);
    (!needed.fits(forks)).then(|| {
        format!(
            "forks too short: {}, {} needed",
            show::length(forks, site.units),
            show::length(needed, site.units)
        )
    })
}

/// What the floors that the truck drives over have to carry beside the load.
#[derive(Clone, Copy)]
enum Floor {
    /// The site gives no rating.
    Unrated,
    /// The weaker floor's rating, and truck (its attachment counted in) with operator (29 CFR 1910.26).
    Rated {
        name: &'static str,
        rating: Mass,
        burden: Mass,
    },
    /// The truck's service weight is not stated.
    Unknown { name: &'static str },
}

/// The weaker of dockboard and vehicle floor.
fn floor(truck: &Truck, site: &Site) -> Floor {
    let ratings = [
        ("dock", site.dock_rating_kg),
        ("vehicle's floor", site.vehicle_floor_kg),
    ];
    let rated = ratings
        .into_iter()
        .filter_map(|(name, rating)| Some((name, rating?)));
    let Some((name, rating)) = rated.min_by(|a, b| a.1.kg().total_cmp(&b.1.kg())) else {
        return Floor::Unrated;
    };
    match truck.service {
        Some(service) => Floor::Rated {
            name,
            rating,
            burden: service + site.operator_kg,
        },
        None => Floor::Unknown { name },
    }
}

fn beyond_floor(floor: Floor, demand: &Demand, site: &Site) -> Option<String> {
    match floor {
        Floor::Unrated => None,
        Floor::Unknown { name } => Some(format!(
            "service weight not stated, so the {name} rating cannot be checked"
        )),
        Floor::Rated {
            name,
            rating,
            burden,
        } => {
            let total = burden + demand.weight;
            (!total.fits(rating)).then(|| {
                format!(
                    "{name} rating: truck, operator and load are {}, the {name} carries {}",
                    show::up(total, site.units),
                    show::down(rating, site.units)
                )
            })
        }
    }
}
