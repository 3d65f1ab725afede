//! What of one load changes under other settings.

use super::{Case, Changes, Judged, Named, Truth};
use crate::units::Mass;
use serde::Serialize;

/// A change of one load; those that take care away stand first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum Change {
    /// Nobody would have to look at it any more.
    FlagLost,
    /// It was held, and would be free to be lifted.
    Released,
    /// Somebody would have to look at it.
    FlagGained,
    /// It would be held.
    Held,
    /// Only one of the readings has this line.
    ReadOtherwise,
    /// Another truck, or none, or one where there was none.
    Truck,
    /// Another planning weight.
    Plan,
    /// Another verdict.
    Verdict,
}

/// A load that changes.
#[derive(Clone, Debug, PartialEq)]
pub struct Changed {
    /// Where it is.
    pub named: Named,
    /// What changes, at least one.
    pub what: Vec<Change>,
    /// Under the recorded settings.
    pub was: Option<Judged>,
    /// Under the other settings.
    pub would_be: Option<Judged>,
    /// Whether the declared weight was right, where a decision tells.
    pub truth: Option<Truth>,
}

/// What changes for a load; empty where nothing does.
pub(super) fn of(case: &Case) -> Vec<Change> {
    let flagged = |judged: &Option<Judged>| judged.as_ref().is_some_and(Judged::is_exception);
    let (was_flagged, is_flagged) = (flagged(&case.was), flagged(&case.would_be));
    let mut what = Vec::new();
    let mut add = |change: Change, holds: bool| {
        if holds {
            what.push(change);
        }
    };
    add(Change::FlagLost, was_flagged && !is_flagged);
    add(Change::FlagGained, is_flagged && !was_flagged);
    match (&case.was, &case.would_be) {
        (Some(was), Some(now)) => {
            add(Change::Released, now.may_lift && !was.may_lift);
            add(Change::Held, was.may_lift && !now.may_lift);
            add(Change::Truck, was.truck != now.truck);
            add(Change::Plan, !same(was.plan, now.plan));
            add(Change::Verdict, was.verdict != now.verdict);
        }
        (None, None) => {}
        _ => add(Change::ReadOtherwise, true),
    }
    what.sort();
    what
}

/// One planning weight, but for the last binary digits.
fn same(one: Option<Mass>, other: Option<Mass>) -> bool {
    match (one, other) {
        (Some(one), Some(other)) => one.fits(other) && other.fits(one),
        (one, other) => one == other,
    }
}

impl Changes {
    pub(super) fn count(&mut self, what: &[Change]) {
        for change in what {
            let counted = match change {
                Change::FlagLost => &mut self.flags_lost,
                Change::FlagGained => &mut self.flags_gained,
                Change::Released => &mut self.released,
                Change::Held => &mut self.held,
                Change::ReadOtherwise => &mut self.read_otherwise,
                Change::Truck => &mut self.trucks,
                Change::Plan => &mut self.plans,
                Change::Verdict => &mut self.verdicts,
            };
            *counted += 1;
        }
    }
}
