//! `close-call`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

/// Above this share of capacity a lift is called close (common practice, no source).
const CLOSE: f64 = 0.9;

rule_type! {
    /// # What was seen
    /// The lift uses more than 90 % of the truck's capacity.
    /// # Why it matters on the dock
    /// Little is left for what the paper does not know.
    /// # What to do
    /// Consider the next larger truck.
    /// # Example
    /// A planning weight of 4,700 lb on a capacity of 5,000 lb.
    pub struct CloseCall;
}

impl Rule for CloseCall {
    fn code(&self) -> &'static str {
        "close-call"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if let Some(truck) = facts.plan.truck.as_ref().filter(|truck| truck.used > CLOSE) {
            let message = format!(
                "{} of {}'s capacity is used: consider the next larger truck",
                show::share(truck.used),
                truck.id
            );
            found.push(Finding::new(self.code(), Severity::Note, message));
        }
    }
}
