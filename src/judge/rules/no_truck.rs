//! `no-truck`.

use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// No truck that is ready today may lift this weight at this load centre (the distance of its centre from the fork face).
    /// # Why it matters on the dock
    /// A lift that no truck can take must not be tried: the truck tips or drops the load.
    /// # What to do
    /// Do what the finding says: fewer pieces a lift where they can be taken apart, or heavier lifting gear, planned by a competent person. Never put two trucks under one load.
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

#[cfg(test)]
mod tests {
    use crate::judge::testing::plates;

    #[test]
    fn fires_on_a_block_above_every_capacity() {
        // 1 x 1 x 0.8 m at 7,850 kg/m3; the strongest truck takes 5,000 kg.
        let block = || plates("Steel block,S235,1,1000,1000,800,6280");
        assert_eq!(block().lines("no-truck"), "stop");
        assert!(block().message("no-truck").contains("YARD-5 lifts most"));
    }

    #[test]
    fn silent_where_a_truck_takes_it() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,10,157").lines("no-truck"),
            "-"
        );
    }

    #[test]
    fn boundary_at_the_strongest_capacity() {
        let rows = "Spare parts,,1,,,,5000\nSpare parts,,1,,,,5000.1";
        assert_eq!(plates(rows).shallow().lines("no-truck"), "- stop");
    }

    #[test]
    fn missing_weight_of_an_outline_is_to_be_weighed_first() {
        // The pump's outline filled with steel: 1.2 x 1 x 0.9 m at 7,850 kg/m3 is more than any truck takes.
        let pump = || plates("Pump,steel,1,1200,1000,900,");
        assert_eq!(pump().lines("no-truck"), "stop");
        let message = pump().message("no-truck");
        assert!(message.starts_with("weigh it first"), "{message}");
    }

    #[test]
    fn missing_weight_or_register_has_its_own_finding() {
        assert_eq!(plates("Spare parts,,1,,,,").lines("no-truck"), "-");
        let block = plates("Steel block,S235,1,1000,1000,800,6280").without_fleet();
        assert_eq!(block.lines("no-truck"), "-");
    }
}
