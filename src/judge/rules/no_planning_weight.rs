//! `no-planning-weight`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The line has no weight that can be used, and too little is known to estimate one.
    /// # Why it matters on the dock
    /// Nobody knows what it weighs, so no truck can be named for it.
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
        let refused = facts.decided.is_some();
        if facts.plan.line.is_none() && facts.verdict != Verdict::Shared && !refused {
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

#[cfg(test)]
mod tests {
    use crate::judge::testing::plates;

    #[test]
    fn fires_without_weight_and_estimate() {
        let crate_ = || plates("Spare parts,,1,,,,TBA");
        assert_eq!(crate_().lines("no-planning-weight"), "stop");
        assert!(
            crate_()
                .message("no-planning-weight")
                .contains("do not lift")
        );
    }

    #[test]
    fn silent_with_a_weight_or_an_estimate() {
        let rows = "Spare parts,,1,,,,640\nSteel plate,S235,1,2000,1000,10,TBA";
        assert_eq!(plates(rows).lines("no-planning-weight"), "- -");
    }

    #[test]
    fn boundary_at_zero() {
        assert_eq!(
            plates("Spare parts,,1,,,,0\nSpare parts,,1,,,,0.1").lines("no-planning-weight"),
            "stop -"
        );
    }

    #[test]
    fn missing_cell_with_and_without_sizes_to_estimate_by() {
        let rows =
            "Spare parts,,1,,,,\nSteel plate,S235,1,2000,,10,\nSteel plate,S235,1,2000,1000,10,";
        assert_eq!(plates(rows).lines("no-planning-weight"), "stop stop -");
    }
}
