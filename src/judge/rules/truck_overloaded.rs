//! `truck-overloaded`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::{Mass, show};

rule_type! {
    /// # What was seen
    /// The truck that the declared weight alone would have picked would be overloaded at the planning weight.
    /// # Why it matters on the dock
    /// This is how trucks tip: the paper says one weight, the forks feel another.
    /// # What to do
    /// Do not lift before the weight is settled, with any truck.
    /// # Example
    /// 1,900 lb declared, 4,400 lb planned: the 2,500 lb truck would have been sent.
    pub struct TruckOverloaded;
}

impl Rule for TruckOverloaded {
    fn code(&self) -> &'static str {
        "truck-overloaded"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if !matches!(
            facts.verdict,
            Verdict::Light | Verdict::Heavy | Verdict::Impossible
        ) {
            return;
        }
        if let Some((truck, over)) = facts
            .plan
            .declared_truck
            .as_ref()
            .filter(|(_, over)| *over > Mass::ZERO)
        {
            let message = format!(
                "{truck}, the truck for the declared weight, would be overloaded by {} at the planning weight: do not lift before it is settled",
                show::planning(*over, facts.units())
            );
            found.push(Finding::new(self.code(), Severity::Stop, message));
        }
    }
}
