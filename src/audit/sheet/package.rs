//! A weight that stands for several lines, audited: the lines are judged on their package.

use super::{Context, Estimated, Worked};
use crate::audit::{Package, packages, short_hash, substance};
use crate::compare::{self, Verdict};
use crate::history::EarlierDecision;
use crate::judge::{self, Facts};
use crate::plan::{Basics, Hold, Load, Plan};
use crate::understand::{Item, SharedWeight};
use crate::units::Mass;

impl Context<'_> {
    pub(super) fn package(
        &self,
        shared: SharedWeight,
        members: &[usize],
        items: &[Item],
        worked: &[Worked],
    ) -> Package {
        let items = members.iter().filter_map(|at| items.get(*at));
        let worked: Vec<&Worked> = members.iter().filter_map(|at| worked.get(*at)).collect();
        let by_words: Vec<(&Item, &Estimated)> = items
            .zip(&worked)
            .map(|(item, worked)| (item, worked.own()))
            .collect();
        let members: Vec<(&Item, &Estimated)> = by_words
            .iter()
            .zip(&worked)
            .map(|((item, _), worked)| (*item, &worked.estimate))
            .collect();
        let estimate = packages::estimate(&shared, &members);
        let by_words = packages::estimate(&shared, &by_words);
        let tolerance = self.tolerance(&estimate);
        let declared = self.declared(
            &shared.weights,
            &shared.unusable,
            1,
            Some(1),
            &by_words,
            tolerance,
        );
        let verdict = compare::verdict(declared.as_ref(), estimate.as_ref(), tolerance);
        let of_member = members.iter().any(|(item, _)| self.sizes_assumed(item));
        let basics = Basics {
            sizes_assumed: of_member,
            ..Basics::of_package(&shared).holding(&members, self.site.lift_height_m)
        };
        let load = self.load(
            verdict,
            declared.as_ref(),
            &shared.unusable,
            &estimate,
            basics,
            Mass::ZERO,
        );
        let load = Load {
            not_below: packages::not_below(&estimate, &worked),
            ..load
        };
        let mut plan = self.plan(&load, &shared.unusable);
        if verdict == Verdict::Missing && estimate.is_ok() && of_member {
            plan.held.push(Hold::SizesAssumed);
        }
        let causes = self.causes(
            verdict,
            None,
            &shared.weights,
            declared.as_ref(),
            &estimate,
            tolerance,
        );
        let judged = |plan: &Plan, decided: Option<&EarlierDecision>| {
            judge::load(&Facts {
                place: &shared.place,
                item: None,
                package: Some(&shared),
                weights: &shared.weights,
                unusable: &shared.unusable,
                declared: declared.as_ref(),
                estimate: estimate.as_ref(),
                weighed: None,
                verdict,
                plan,
                decided,
                tolerance,
                causes: &causes,
                settled: self.settled,
                site: self.site,
                with_fleet: self.trucks.is_some(),
            })
        };
        let (reading, cell) = (self.reading, shared.place.cell());
        let supplier = reading.supplier.as_deref().unwrap_or_default();
        let known = [
            self.from.mark,
            &reading.delivery,
            supplier,
            &shared.place.sheet,
        ];
        let own = [shared.name.as_str(), &cell];
        let id = short_hash(known.into_iter().chain(own));
        let substance = substance::of_package(&shared, declared.as_ref(), &by_words);
        let place = substance::place_of_package(&shared);
        let (plan, findings, decided) = self.settled_by(&place, &substance, load, plan, judged);
        Package {
            id,
            substance,
            shared,
            estimate,
            declared,
            verdict,
            findings,
            plan,
            decided,
        }
    }
}
