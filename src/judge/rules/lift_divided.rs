//! `lift-divided`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// No truck carries the whole line, so it was divided into the fewest equal lifts that one truck carries.
    /// # Why it matters on the dock
    /// How the pieces are bundled is not known: a bundle may be heavier than the part planned here.
    /// # What to do
    /// Held until somebody has seen how the pieces are bundled and what one bundle weighs.
    /// # Example
    /// 60 pipes of 6,000 kg together, planned as three lifts of 20.
    pub struct LiftDivided;
}

impl Rule for LiftDivided {
    fn code(&self) -> &'static str {
        "lift-divided"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.plan.divided {
            let lift = facts.plan.lift.map_or(String::new(), |lift| {
                format!(" of {}", show::planning(lift, facts.units()))
            });
            let message = format!(
                "no truck carries the whole line; planned as {} lifts{lift}, held until the bundling is known",
                facts.plan.lifts
            );
            found.push(Finding::new(self.code(), Severity::Check, message));
        }
    }
}
