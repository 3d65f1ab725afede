//! `close-call`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// The lift takes more than 90 % of what the truck may be used for at this load centre (the distance of the load's centre from the fork face).
    /// # Why it matters on the dock
    /// Little is left if the load is heavier or deeper than the papers say.
    /// # What to do
    /// Take the next larger truck if it is free.
    /// # Example
    /// A lift planned at 4,700 lb with a truck that may lift 5,000 lb.
    pub struct CloseCall;
}

impl Rule for CloseCall {
    fn code(&self) -> &'static str {
        "close-call"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let limit = facts.site.use_limit;
        let truck = facts.plan.truck.as_ref();
        if let Some(truck) = truck.filter(|truck| truck.is_close(limit)) {
            let message = format!(
                "{} of {}'s capacity is used: consider the next larger truck",
                show::share(truck.used),
                truck.id
            );
            found.push(Finding::new(self.code(), Severity::Note, message));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{list, plates};
    use crate::site::Site;
    use crate::units::Length;

    #[test]
    fn fires_on_a_lift_near_the_capacity() {
        // 2 x 1 x 0.06 m of steel: 942 kg for a truck of 1,000 kg.
        let lift = || plates("Steel plate,S235,1,2000,1000,60,940");
        assert_eq!(lift().lines("close-call"), "note");
        assert!(lift().message("close-call").contains("YARD-1"));
    }

    #[test]
    fn silent_where_much_is_left() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,50,785").lines("close-call"),
            "-"
        );
    }

    #[test]
    fn boundary_at_nine_tenths() {
        let rows = "Description,Qty,Gross weight (kg)\nSpare parts,1,900\nSpare parts,1,900.1\n";
        assert_eq!(list(rows).shallow().lines("close-call"), "- note");
        // Of a site that uses 80 % of a capacity: 720 kg of the truck's 1,000 kg.
        let site = Site {
            use_limit: 0.8,
            default_depth_m: Length::from_m(1.0),
            ..Site::default()
        };
        let rows = "Description,Qty,Gross weight (kg)\nSpare parts,1,720\nSpare parts,1,720.1\n";
        assert_eq!(list(rows).site(site).lines("close-call"), "- note");
    }

    #[test]
    fn missing_weight_or_register_names_no_truck() {
        assert_eq!(plates("Spare parts,,1,,,,TBA").lines("close-call"), "-");
        let lift = plates("Steel plate,S235,1,2000,1000,60,940").without_fleet();
        assert_eq!(lift.lines("close-call"), "-");
    }
}
