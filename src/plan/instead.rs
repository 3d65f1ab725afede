//! What to do where no truck takes a load as it comes: what is missing, and what would do. Never two trucks under one load.

use super::truck::{Planner, Trucks};
use super::{Instead, LiftOf, LoadCentreFrom, Plan, load_centre};
use crate::estimate::{Estimate, Evidence};
use crate::fleet::{CALCULATED, Strongest};
use crate::units::{Mass, show};

/// Trucks that a sentence names with their reasons; the others stand in the list of reasons.
const MOST_NAMED: usize = 2;

impl Planner<'_> {
    /// What would make a truck adequate for a lift of this weight: the load turned, fewer pieces, a truck that is out.
    pub(super) fn instead(
        &self,
        trucks: &dyn Trucks,
        plan: &Plan,
        lift: Mass,
        centre: &load_centre::Centre,
    ) -> Vec<Instead> {
        let mut found = Vec::new();
        let pieces = self.load.basics.pieces.max(1);
        // A divided line is asked about as a whole.
        let (lift_of, in_lift) = if plan.divided {
            (LiftOf::Line, pieces)
        } else {
            (plan.lift_of, pieces.div_ceil(plan.lifts.max(1)))
        };
        if let Some(turned) = load_centre::turned(self.load, lift_of, in_lift, self.site, centre)
            && let Some(truck) = trucks.smallest(&self.demand(lift, &turned)).truck
        {
            found.push(Instead::Broadside {
                id: truck.id,
                load_centre: turned.load_centre,
            });
        }
        let apart = !plan.divided
            && self.load.beside == Mass::ZERO
            && centre.from != LoadCentreFrom::Package;
        if let Some(line) = plan.line.filter(|_| apart) {
            let fewer = |at_once: u32| {
                let centre = load_centre::of(self.load, LiftOf::Line, at_once, self.site);
                let weight = self.weight_of(line, at_once);
                trucks.smallest(&self.demand(weight, &centre)).truck
            };
            let most = most_carried(in_lift - 1, |at_once| fewer(at_once).is_some());
            if let Some(truck) = fewer(most).filter(|_| most > 0) {
                found.push(Instead::Fewer {
                    pieces: most,
                    of: pieces,
                    id: truck.id,
                });
            }
        }
        if let Some((id, day)) = trucks.later(&self.demand(lift, centre)) {
            found.push(Instead::Later { id, day });
        }
        found
    }

    /// How much is missing, and what would do.
    pub(super) fn why_none(&self, plan: &Plan, lift: Mass, strongest: Option<Strongest>) -> String {
        let units = self.site.units;
        // Bounds are no weight: only a weighing says whether a truck would do.
        let envelope = |estimate: &Estimate| estimate.evidence == Evidence::Envelope;
        if let Some(strongest) = &strongest
            && self.load.declared.is_none()
            && self.load.estimate.is_ok_and(envelope)
        {
            return format!(
                "weigh it first: nothing but its outline is known, it may weigh up to {}, and {} lifts no more than {} at this load centre",
                show::planning(lift, units),
                strongest.id,
                show::capacity(strongest.takes, units)
            );
        }
        let mut parts = vec![match strongest {
            Some(Strongest {
                id,
                takes,
                calculated,
            }) => {
                let mark = if calculated {
                    format!(" ({CALCULATED})")
                } else {
                    String::new()
                };
                format!(
                    "no truck is adequate: {id} lifts most at this load centre, {}{mark}, {} short",
                    show::capacity(takes, units),
                    show::planning(lift - takes, units)
                )
            }
            None => {
                let first = plan.why_not.len().saturating_sub(MOST_NAMED);
                let named = plan.why_not.iter().skip(first);
                let clauses: Vec<String> = named
                    .map(|no| format!("{}: {}", no.truck, no.clause))
                    .collect();
                let named = if clauses.is_empty() {
                    String::new()
                } else {
                    format!(" ({})", clauses.join("; "))
                };
                format!("no truck of the register can take this lift{named}")
            }
        }];
        parts.extend(plan.instead.iter().map(|instead| instead.in_words(units)));
        parts.push("heavier lifting gear, planned by a competent person".to_string());
        parts.join("; ")
    }
}

impl Instead {
    /// In words: "B would do from 2026-12-05".
    pub fn in_words(&self, units: crate::site::Units) -> String {
        match self {
            Instead::Fewer { pieces, of, id } => format!(
                "with at most {pieces} of the {of} pieces a lift {id} would do, if they can be taken apart"
            ),
            Instead::Broadside { id, load_centre } => format!(
                "{id} would do, if the load is turned and entered broadside (load centre {})",
                show::load_centre(*load_centre, units)
            ),
            Instead::Later { id, day } => format!("{id} would do from {day}"),
        }
    }
}

/// The largest number of pieces, no more than `most`, that is carried at once; 0 where not even one is. Fewer pieces are
/// lighter and no deeper, so it is found by halving.
pub(super) fn most_carried(most: u32, carried: impl Fn(u32) -> bool) -> u32 {
    if carried(most) {
        return most;
    }
    let (mut least, mut too_many) = (0, most);
    while too_many - least > 1 {
        let middle = least + (too_many - least) / 2;
        if carried(middle) {
            least = middle;
        } else {
            too_many = middle;
        }
    }
    least
}
