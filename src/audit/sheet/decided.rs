//! What a decision on record changes of a load: its plan, and how urgent what was found about its weight still is.

use super::{Context, Estimated, Seen};
use crate::audit::{Decided, Line, Package, substance};
use crate::history::{DecisionKind, EarlierDecision};
use crate::judge::{self, Finding};
use crate::plan::{Hold, Load, Plan};
use crate::settle::Declared;
use crate::understand::{How, Item};
use crate::units::Mass;

impl Context<'_> {
    fn decision(&self, place: &str, substance: &str) -> Option<&EarlierDecision> {
        let supplier = self.reading.supplier.as_deref();
        self.history
            .decision(place, self.from.sha256, supplier, substance)
    }

    /// The weight decided for a line; none where none is, or it is refused: it stands where it stands all the same.
    pub(super) fn decided_mass(
        &self,
        item: &Item,
        estimate: &Estimated,
        seen: &Seen,
    ) -> Option<Mass> {
        if self.history.decisions.is_empty() {
            return None;
        }
        let substance = substance::of_line(item, seen.declared.as_ref(), estimate);
        self.decision(&substance::place_of_line(item), &substance)?
            .plan
    }

    /// Plan and findings of a load after the decision on it, where one stands; as they were where none does. `before` is its
    /// plan without one, `judged` what is found about it with a plan and a decision.
    pub(super) fn settled_by(
        &self,
        place: &str,
        substance: &str,
        load: Load<'_>,
        before: Plan,
        judged: impl Fn(&Plan, Option<&EarlierDecision>) -> Vec<Finding>,
    ) -> (Plan, Vec<Finding>, Option<Box<Decided>>) {
        let open = judged(&before, None);
        let Some(decision) = self.decision(place, substance) else {
            return (before, open, None);
        };
        let load = Load {
            decided: Some(decision),
            ..load
        };
        let mut plan = self.planned(&load);
        let kept = before.held.iter().copied();
        plan.held
            .extend(kept.filter(|hold| outlasts(*hold, decision.kind)));
        if decision.plan.is_none() {
            plan.held.push(Hold::Refused);
            plan.truck_without = Some(format!("refused {}", decision.by()));
        }
        let findings = judge::after_decision(open, judged(&plan, Some(decision)));
        let decided = Decided {
            decision: decision.clone(),
            before,
        };
        (plan, findings, Some(Box::new(decided)))
    }
}

/// Whether what holds a load down is still open once its weight is decided. Whether the line must be divided is found anew at
/// the decided weight.
fn outlasts(hold: Hold, decision: DecisionKind) -> bool {
    match hold {
        Hold::Unweighed => true,
        // What was weighed, or corrected by the supplier, came after all, however many pieces it is.
        Hold::NothingDelivered | Hold::Uncounted => !decision.brings_weight(),
        Hold::Divided
        | Hold::Contradicted
        | Hold::UnreadWords
        | Hold::CopiedDown
        | Hold::HeavierElsewhere
        | Hold::SizesAssumed
        | Hold::Refused => false,
    }
}

/// Whether weight columns contradict their headings and a decision stands for every load of them.
pub(super) fn contradicted(lines: &[Line], packages: &[Package]) -> bool {
    let lines = lines
        .iter()
        .map(|line| (&line.declared, line.decided.is_some()));
    let packages = packages
        .iter()
        .map(|package| (&package.declared, package.decided.is_some()));
    let of_column = |declared: &Option<Declared>| {
        let how = declared.as_ref().map(|declared| declared.how);
        how == Some(How::Contradicted)
    };
    let mut loads = lines
        .chain(packages)
        .filter(|(declared, _)| of_column(declared))
        .peekable();
    loads.peek().is_some() && loads.all(|(_, decided)| decided)
}
