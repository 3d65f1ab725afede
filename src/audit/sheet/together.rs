//! Rows that stand on one numbered pallet, crate or bundle: the forks take them together.

use super::{Context, Seen, Worked};
use crate::plan::Load;
use crate::understand::Item;
use crate::units::Mass;
use std::collections::HashMap;

/// What is lifted together with a line.
#[derive(Clone, Copy, Default)]
pub(super) struct Beside {
    /// Planning weight of the others.
    pub(super) mass: Mass,
    /// Some of it has no planning weight.
    pub(super) unknown: bool,
}

impl Context<'_> {
    /// What the rows that stand on a line's pallet, crate or bundle weigh together, as each is planned by itself.
    pub(super) fn beside(&self, items: &[Item], worked: &[Worked], seen: &[Seen]) -> Vec<Beside> {
        let mut stands: HashMap<&str, Vec<usize>> = HashMap::new();
        for (at, item) in items.iter().enumerate() {
            let one = item.packages.is_none_or(|packages| packages == 1);
            if let Some(name) = item
                .stands_on
                .as_deref()
                .filter(|_| one && item.shared_with.is_none())
            {
                stands.entry(name).or_default().push(at);
            }
        }
        let mut beside = vec![Beside::default(); items.len()];
        for together in stands.into_values().filter(|together| together.len() > 1) {
            let masses: Vec<Option<Mass>> = together
                .iter()
                .map(|at| {
                    let (item, worked, seen) = (&items[*at], &worked[*at], &seen[*at]);
                    if let Some(decided) = self.decided_mass(item, worked.own(), seen) {
                        return Some(decided);
                    }
                    let load = self.load(
                        seen.verdict,
                        seen.declared.as_ref(),
                        &item.unusable,
                        &worked.estimate,
                        self.basics(item),
                        Mass::ZERO,
                    );
                    let load = Load {
                        not_below: worked.not_below(),
                        ..load
                    };
                    self.plan(&load, &item.unusable).line
                })
                .collect();
            let known: Mass = masses.iter().flatten().copied().sum();
            let unknown = masses.iter().filter(|mass| mass.is_none()).count();
            for (at, own) in together.iter().zip(&masses) {
                let others_unknown = unknown - usize::from(own.is_none());
                beside[*at] = Beside {
                    mass: known - own.unwrap_or(Mass::ZERO),
                    unknown: others_unknown > 0,
                };
            }
        }
        beside
    }
}
