//! `no-truck`.

use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// No truck of the register is adequate for the lift at its planning weight and load centre today.
    /// # Why it matters on the dock
    /// A lift that no truck can take safely must not be tried.
    /// # What to do
    /// Follow what the line says: fewer pieces a lift where they can be taken apart, or heavier lifting gear, planned by a competent person. Two trucks under one load is no way out.
    /// # Example
    /// A 16,000 lb block where the strongest truck ready today lifts 12,000 lb.
    pub struct NoTruck;
}

impl Rule for NoTruck {
    fn code(&self) -> &'static str {
        "no-truck"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.with_fleet && facts.plan.lift.is_some() && facts.plan.truck.is_none() {
            let why = facts
                .plan
                .truck_without
                .clone()
                .unwrap_or_else(|| "no truck is adequate".to_string());
            found.push(Finding::new(self.code(), Severity::Stop, why));
        }
    }
}
