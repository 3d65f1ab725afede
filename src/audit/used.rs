//! What an audit rests on of all that was known from earlier records: only that is kept with it.

use super::Delivery;
use crate::history::History;

/// The part of the history that the deliveries rest on.
pub(super) fn history(deliveries: &[Delivery]) -> History {
    let mut used = History::default();
    for delivery in deliveries {
        let lines = delivery.lines.iter().map(|line| (&line.id, &line.decided));
        let packages = delivery.packages.iter();
        let packages = packages.map(|package| (&package.id, &package.decided));
        for (id, decided) in lines.chain(packages) {
            if let Some(decided) = decided {
                used.keep(id, &decided.decision);
            }
        }
        for before in delivery
            .lines
            .iter()
            .filter_map(|line| line.weighed.as_ref())
        {
            used.keep_weighings(&before.weighings);
        }
    }
    used
}
