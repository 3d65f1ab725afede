//! `see-delivery`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::How;

rule_type! {
    /// # What was seen
    /// The weight column of this line contradicts its heading; the delivery has the finding.
    /// # Why it matters on the dock
    /// The same slip on every line is one question, not hundreds.
    /// # What to do
    /// Settle the delivery's finding; all its lines wait for it.
    /// # Example
    /// 400 lines in kilograms under a heading that says pounds.
    pub struct SeeDelivery;
}

impl Rule for SeeDelivery {
    fn code(&self) -> &'static str {
        "see-delivery"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts
            .declared
            .is_some_and(|declared| declared.how == How::Contradicted)
        {
            found.push(Finding::new(
                self.code(),
                Severity::Note,
                "see the delivery's finding on this weight column; the larger of both readings is planned",
            ));
        }
    }
}
