//! `unverifiable`.

use super::unknown_material;
use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// There is nothing to check the declared weight by: a size is missing, or nothing says what the goods are, and they are no known standard product.
    /// # Why it matters on the dock
    /// The lift is planned by the supplier's word alone.
    /// # What to do
    /// Read the mark on the piece, ask for size and material, or weigh it. Until then the declared weight is planned unchecked.
    /// # Example
    /// "Spare parts, 1 pallet, 640 kg" without a size.
    pub struct Unverifiable;
}

impl Rule for Unverifiable {
    fn code(&self) -> &'static str {
        "unverifiable"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        // An unknown material is said by the rule for it.
        if facts.verdict != Verdict::Unverifiable || unknown_material::is_it(facts) {
            return;
        }
        if let (Err(no), Some(declared)) = (facts.estimate, facts.declared) {
            let message = format!(
                "\"{}\" ({}) could not be checked: {}; plan with it only as unchecked",
                declared.text,
                declared.place.cell(),
                no.why
            );
            found.push(
                Finding::new(self.code(), Severity::Check, message).at(declared.place.cell()),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::plates;

    #[test]
    fn fires_without_a_size() {
        let parts = || plates("Spare parts,,1,,,,640");
        assert_eq!(parts().lines("unverifiable"), "check");
        assert!(
            parts()
                .message("unverifiable")
                .starts_with("\"640 kg\" (G2)")
        );
    }

    #[test]
    fn silent_where_size_and_material_are_known() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,10,157").lines("unverifiable"),
            "-"
        );
    }

    #[test]
    fn boundary_at_the_last_missing_size() {
        // With all three sizes only the material is missing: unknown-material says so.
        let rows = "Widget,,1,1000,100,,50\nWidget,,1,1000,100,100,50";
        assert_eq!(plates(rows).lines("unverifiable"), "check -");
        assert_eq!(plates(rows).lines("unknown-material"), "- check");
    }

    #[test]
    fn missing_weight_has_nothing_to_check() {
        assert_eq!(plates("Spare parts,,1,,,,").lines("unverifiable"), "-");
    }
}
