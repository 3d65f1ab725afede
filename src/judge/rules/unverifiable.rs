//! `unverifiable`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// There is nothing to check the declared weight by: the size or the material is missing, and the goods are no known standard product.
    /// # Why it matters on the dock
    /// The lift is planned by the supplier's word alone.
    /// # What to do
    /// Read the mark on the piece, ask for size and material, or weigh it.
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
        if facts.verdict != Verdict::Unverifiable {
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
    fn boundary_at_solid_lead() {
        // Method, section 3: nothing weighs more than lead; 10 % above its block it is impossible instead.
        let widget = |weight: f64| plates(&format!("Widget,,1,1000,100,100,{weight:.2}"));
        let delivery = widget(50.0).audited();
        let upper = delivery.lines[0]
            .estimate
            .as_ref()
            .expect_err("no material")
            .upper;
        let bound = upper.expect("a block").kg() * 1.1;
        assert!((113.4 * 1.1..125.0 * 1.1).contains(&bound), "{bound}");
        assert_eq!(widget(bound - 0.02).lines("unverifiable"), "check");
        assert_eq!(widget(bound + 0.02).lines("unverifiable"), "-");
    }

    #[test]
    fn missing_weight_has_nothing_to_check() {
        assert_eq!(plates("Spare parts,,1,,,,").lines("unverifiable"), "-");
    }
}
