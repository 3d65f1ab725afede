//! Each line's declared weight and verdict, known before any line is planned: a plan may rest on what other lines say.

use super::{Context, Worked};
use crate::compare::{self, Tolerance, Verdict};
use crate::judge::{Doubt, Judged};
use crate::plan::{Hold, Plan};
use crate::settle::Declared;
use crate::understand::Item;

/// What is settled of a line before it is planned.
pub(super) struct Seen {
    /// How far a weight may differ.
    pub(super) tolerance: Tolerance,
    /// Declared weight; none for a line that is judged on its package.
    pub(super) declared: Option<Declared>,
    /// Verdict.
    pub(super) verdict: Verdict,
}

impl Context<'_> {
    /// Compares one line; `packages` is the number of the sheet's packages.
    pub(super) fn seen(&self, item: &Item, worked: &Worked, packages: usize) -> Seen {
        let tolerance = self.tolerance(&worked.estimate);
        if item.shared_with.is_some_and(|index| index < packages) {
            return Seen {
                tolerance,
                declared: None,
                verdict: Verdict::Shared,
            };
        }
        let declared = self.declared_of(item, worked.own(), tolerance);
        let estimate = worked.estimate.as_ref();
        let verdict = compare::verdict(declared.as_ref(), estimate, tolerance);
        Seen {
            tolerance,
            declared,
            verdict,
        }
    }

    /// What holds a line because of what stands on other lines.
    pub(super) fn hold_doubtful(plan: &mut Plan, doubt: Doubt) {
        if doubt.copied {
            plan.held.push(Hold::CopiedDown);
        }
        let overloaded = |times: f64| match (&plan.truck, plan.lift) {
            (Some(_), Some(lift)) => !plan.takes.is_some_and(|takes| (lift * times).fits(takes)),
            _ => false,
        };
        if doubt.heavier.is_some_and(overloaded) {
            plan.held.push(Hold::HeavierElsewhere);
        }
    }
}

/// The lines as the rules of a whole delivery see them.
pub(super) fn judged<'a>(
    items: &'a [Item],
    worked: &'a [Worked],
    seen: &'a [Seen],
) -> Vec<Judged<'a>> {
    let lines = items.iter().zip(worked).zip(seen);
    lines
        .map(|((item, worked), seen)| Judged {
            item,
            estimate: worked.estimate.as_ref(),
            declared: seen.declared.as_ref(),
            verdict: seen.verdict,
            tolerance: seen.tolerance,
        })
        .collect()
}
