//! One line, audited: its plan, what is odd about it, and what a decision on it changes.

use super::{Beside, Context, Seen, Worked};
use crate::audit::{Line, short_hash, substance};
use crate::causes::Named;
use crate::compare::Verdict;
use crate::history::EarlierDecision;
use crate::judge::{self, Doubt, Facts};
use crate::plan::{Hold, Load, Plan};
use crate::settle::Declared;
use crate::understand::{Basis, Item, NOTHING_DELIVERED, Remark};
use crate::units::Mass;

impl Context<'_> {
    /// Id of a line: a hash of file, delivery, sheet, item and row.
    pub(super) fn line_id(&self, item: &Item) -> String {
        let (delivery, sheet) = (self.reading.delivery.as_str(), &*item.place.sheet);
        let (number, row) = (
            item.item.as_deref().unwrap_or(""),
            item.place.row.to_string(),
        );
        short_hash([self.from.mark, delivery, sheet, number, &row].into_iter())
    }

    /// The plan if the supplier confirms the cause: mass of the line and its truck. Nothing is lifted by it.
    fn if_corrected(
        &self,
        cause: &Named,
        item: &Item,
        declared: Option<&Declared>,
        worked: &Worked,
        beside: Mass,
    ) -> Option<(Mass, Option<String>)> {
        let estimate = worked.estimate.as_ref().ok()?;
        let (item, declared, estimate) = cause.confirmed(item, declared?, estimate);
        let estimate = Ok(estimate);
        let load = self.load(
            Verdict::Consistent,
            Some(&declared),
            &[],
            &estimate,
            self.basics(&item),
            beside,
        );
        let load = Load {
            not_below: worked.not_below(),
            ..load
        };
        let plan = self.plan(&load, &[]);
        Some((plan.line?, plan.truck.map(|truck| truck.id)))
    }

    pub(super) fn line(
        &self,
        item: Item,
        worked: Worked,
        seen: Seen,
        beside: Beside,
        doubt: Doubt,
    ) -> Line {
        let Seen {
            tolerance,
            declared,
            verdict,
        } = seen;
        let shared = verdict == Verdict::Shared;
        let estimate = &worked.estimate;
        let load = self.load(
            verdict,
            declared.as_ref(),
            &item.unusable,
            estimate,
            self.basics(&item),
            beside.mass,
        );
        let load = Load {
            not_below: worked.not_below(),
            ..load
        };
        let mut plan = self.plan(&load, &item.unusable);
        // What nobody can weigh stands on the same pallet.
        if beside.unknown {
            plan.held.push(Hold::Unweighed);
        }
        // One piece was taken where no number could be read: a weight of one piece says nothing of the line.
        let of_line = declared
            .as_ref()
            .is_some_and(|declared| declared.of == Basis::Line);
        if item.uncounted() && !of_line && !shared {
            plan.held.push(Hold::Uncounted);
        }
        Self::hold_doubtful(&mut plan, doubt);
        // Written as not delivered, and on the list all the same.
        let nothing_delivered = |remark: &Remark| remark.code == NOTHING_DELIVERED;
        if item.remarks.iter().any(nothing_delivered) {
            plan.held.push(Hold::NothingDelivered);
        }
        if verdict == Verdict::Missing && estimate.is_ok() && self.sizes_assumed(&item) {
            plan.held.push(Hold::SizesAssumed);
        }
        let causes = self.causes(
            verdict,
            Some(&item),
            &item.weights,
            declared.as_ref(),
            estimate,
            tolerance,
        );
        let judged = |plan: &Plan, decided: Option<&EarlierDecision>| {
            judge::load(&Facts {
                place: &item.place,
                item: Some(&item),
                package: None,
                weights: &item.weights,
                unusable: &item.unusable,
                declared: declared.as_ref(),
                estimate: estimate.as_ref(),
                weighed: worked.weighed.as_deref(),
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
        let id = self.line_id(&item);
        let substance = substance::of_line(&item, declared.as_ref(), worked.own());
        let place = substance::place_of_line(&item);
        let (plan, findings, decided) = self.settled_by(&place, &substance, load, plan, judged);
        let if_corrected = causes.first().filter(|_| decided.is_none());
        let if_corrected = if_corrected.and_then(|best| {
            self.if_corrected(best, &item, declared.as_ref(), &worked, beside.mass)
        });
        Line {
            id,
            substance,
            item,
            estimate: worked.estimate,
            weighed: worked.weighed,
            declared,
            verdict,
            findings,
            plan,
            decided,
            if_corrected,
        }
    }
}
