//! `no-register`.

use crate::judge::{DeliveryFacts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// No fleet register was given.
    /// # Why it matters on the dock
    /// Weights are checked, but nobody has said which truck may take them.
    /// # What to do
    /// Name the register with --fleet, or in the site file.
    /// # Example
    /// An audit in a folder without a site file.
    pub struct NoRegister;
}

impl Rule for NoRegister {
    fn code(&self) -> &'static str {
        "no-register"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        if !facts.with_fleet {
            found.push(Finding::new(
                self.code(),
                Severity::Check,
                "no fleet register was given, so no truck is named: give one with --fleet or in the site file",
            ));
        }
    }
}
