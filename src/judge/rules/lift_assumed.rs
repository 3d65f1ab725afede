//! `lift-assumed`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::plan::{LiftFrom, LiftOf};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// Nothing says how the pieces come; the lifts were taken by the rules for that kind of goods.
    /// # Why it matters on the dock
    /// A stack or bundle on the vehicle may hold more pieces than the plan takes at once.
    /// # What to do
    /// Count what hangs together before lifting, and keep to the most pieces named.
    /// # Example
    /// Twelve plates planned one by one; they may lie in one stack.
    pub struct LiftAssumed;
}

impl Rule for LiftAssumed {
    fn code(&self) -> &'static str {
        "lift-assumed"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let plan = facts.plan;
        if plan.lift_from != LiftFrom::Assumed || plan.divided || plan.lift_of == LiftOf::Shared {
            return;
        }
        let Some(lift) = plan.lift else { return };
        let how = match plan.lift_of {
            LiftOf::Line => format!("all {} pieces as one lift", facts.pieces()),
            _ => "piece by piece".to_string(),
        };
        let most = match (plan.most_pieces, &plan.truck) {
            (Some(most), Some(truck)) => format!("; {} may take at most {most} at once", truck.id),
            _ => String::new(),
        };
        let message = format!(
            "how the pieces come is not stated: planned {how}, {} a lift{most}",
            show::planning(lift, facts.units())
        );
        found.push(Finding::new(self.code(), Severity::Note, message));
    }
}
