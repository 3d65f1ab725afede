//! `no-register`.

use crate::judge::{DeliveryFacts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// No fleet register (the list of the lift trucks) was given.
    /// # Why it matters on the dock
    /// The weights are checked, but no truck can be named for any lift.
    /// # What to do
    /// Give the register with --fleet FILE, or name it in the site file (fleet = "fleet.xlsx").
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

#[cfg(test)]
mod tests {
    use crate::judge::testing::{FLEET, plates};

    const PLATE: &str = "Steel plate,S235,1,2000,1000,10,157";

    #[test]
    fn fires_without_a_register() {
        assert_eq!(
            plates(PLATE).without_fleet().delivery("no-register"),
            "check"
        );
    }

    #[test]
    fn silent_with_one() {
        assert_eq!(plates(PLATE).delivery("no-register"), "-");
    }

    #[test]
    fn boundary_at_a_register_of_which_no_truck_is_ready() {
        let none_ready = FLEET.replace(",yes,", ",no,");
        assert_eq!(
            plates(PLATE).fleet(&none_ready).delivery("no-register"),
            "-"
        );
        assert_eq!(plates(PLATE).fleet(&none_ready).lines("no-truck"), "stop");
    }

    #[test]
    fn missing_weights_make_no_difference() {
        assert_eq!(plates("Spare parts,,1,,,,").delivery("no-register"), "-");
        assert_eq!(
            plates("Spare parts,,1,,,,")
                .without_fleet()
                .delivery("no-register"),
            "check"
        );
    }
}
