//! What an audit rests on of all that was known from earlier records: only that is kept with it.

use super::{Delivery, substance};
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
    for delivery in deliveries.iter() {
        let of_line = |line: &super::Line| substance::place_of_line(&line.item);
        let lines = delivery.lines.iter();
        let lines = lines.map(|line| (line.decided.as_ref(), of_line(line)));
        let packages = delivery.packages.iter().map(|package| {
            let place = substance::place_of_package(&package.shared);
            (package.decided.as_ref(), place)
        });
        for (decided, place) in lines.chain(packages) {
            if let Some(decided) = decided {
                taken.insert(decided.decision.record);
                used.keep(&place, &decided.decision);
            }
        }
        for line in &delivery.lines {
            if let Some(before) = &line.weighed {
                used.keep_weighings(&before.weighings);
            }
        }
    }
    let left = known.left(list, &taken);
    if let Some(first) = deliveries.first_mut() {
        for (place, decision) in &left {
            used.keep(place, decision);
        }
        judge::say_left(&mut first.findings, &left, units);
    }
}
