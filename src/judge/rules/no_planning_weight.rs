//! `no-planning-weight`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// There is neither a usable declared weight nor an estimate.
    /// # Why it matters on the dock
    /// Unknown weight: no truck may be named for it.
    /// # What to do
    /// Do not lift. Weigh it, or get a weight and sizes from the supplier.
    /// # Example
    /// A crate with a blank weight and no sizes.
    pub struct NoPlanningWeight;
}

impl Rule for NoPlanningWeight {
    fn code(&self) -> &'static str {
        "no-planning-weight"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.plan.line.is_none() && facts.verdict != Verdict::Shared {
            let why = facts.estimate.err().map_or(String::new(), |no| {
                format!(" and there is no estimate ({})", no.why)
            });
            found.push(Finding::new(
                self.code(),
                Severity::Stop,
                format!("no usable weight is declared{why}: do not lift before it is weighed or documented"),
            ));
        }
    }
}
