//! `truck-overloaded`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::{Mass, show};

rule_type! {
    /// # What was seen
    /// The truck that fits the declared weight would be overloaded by the weight that the load is expected to have.
    /// # Why it matters on the dock
    /// This is how trucks tip: the paper says one weight, the load has another.
    /// # What to do
    /// Do not lift with any truck before the weight is settled. Weigh the load, or get its right weight in writing.
    /// # Example
    /// 1,900 lb declared, 4,400 lb expected: a truck for 2,500 lb would have been sent.
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
        let accused = [Verdict::Light, Verdict::Heavy, Verdict::Impossible];
        if !accused.into_iter().any(|verdict| facts.accused(verdict)) {
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

#[cfg(test)]
mod tests {
    use crate::judge::testing::plates;
    use crate::site::Site;

    #[test]
    fn fires_on_a_tenth_of_the_weight() {
        // 2 x 1 x 0.1 m at 7,850 kg/m3: 1,570 kg; 157 kg would send the truck of 1,000 kg.
        let slip = || plates("Steel plate,S235,1,2000,1000,100,157");
        assert_eq!(slip().lines("truck-overloaded"), "stop");
        assert!(slip().message("truck-overloaded").starts_with("YARD-1"));
    }

    #[test]
    fn silent_on_the_right_weight() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,100,1570").lines("truck-overloaded"),
            "-"
        );
    }

    #[test]
    fn boundary_at_the_capacity_of_the_truck() {
        // Planned at likely + 10 %: 895 kg make 984 kg, 911 kg make 1,002 kg.
        let rows = "Steel plate,S235,1,2000,1000,57,400\nSteel plate,S235,1,2000,1000,58,400";
        assert_eq!(plates(rows).lines("truck-overloaded"), "- stop");
    }

    #[test]
    fn only_the_part_that_may_be_used_counts() {
        // 785 kg make 864 kg with the margin: within YARD-1's 1,000 kg, above the 800 kg of them that may be used.
        let row = || plates("Steel plate,S235,1,2000,1000,50,400");
        assert_eq!(row().lines("truck-overloaded"), "-");
        let limited = Site {
            use_limit: 0.8,
            ..Site::default()
        };
        assert_eq!(row().site(limited).lines("truck-overloaded"), "stop");
    }

    #[test]
    fn missing_weight_or_register_sends_no_truck() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,100,").lines("truck-overloaded"),
            "-"
        );
        let slip = plates("Steel plate,S235,1,2000,1000,100,157").without_fleet();
        assert_eq!(slip.lines("truck-overloaded"), "-");
    }
}
