//! `unverifiable`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// There is nothing to check the declared weight with: no size, no material, or no product that is known.
    /// # Why it matters on the dock
    /// The planning weight is the supplier's word alone.
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
