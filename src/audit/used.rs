//! What an audit rests on of all that was known from earlier records: only that is kept with it.

use super::{Decided, Delivery, substance};
use crate::history::History;
use crate::judge;
use crate::site::Units;
use std::collections::BTreeSet;

/// Adds what the deliveries of a list (its SHA-256) rest on. Decisions on its very bytes that stand for none of its loads are
/// said on the first of them.
pub(super) fn add(
    used: &mut History,
    known: &History,
    list: &str,
    deliveries: &mut [Delivery],
    units: Units,
) {
    let mut taken = BTreeSet::new();
    let mut take = |decided: &Decided, place: String| {
        taken.insert(decided.decision.record);
        used.keep(&place, &decided.decision);
    };
    for delivery in deliveries.iter() {
        for line in &delivery.lines {
            if let Some(decided) = &line.decided {
                take(decided, substance::place_of_line(&line.item));
            }
        }
        for package in &delivery.packages {
            if let Some(decided) = &package.decided {
                take(decided, substance::place_of_package(&package.shared));
            }
        }
    }
    let lines = deliveries.iter().flat_map(|delivery| &delivery.lines);
    for before in lines.filter_map(|line| line.weighed.as_ref()) {
        used.keep_weighings(&before.weighings);
    }
    let left = known.left(list, &taken);
    if let Some(first) = deliveries.first_mut() {
        for (place, decision) in &left {
            used.keep(place, decision);
        }
        judge::say_left(&mut first.findings, &left, units);
    }
}
