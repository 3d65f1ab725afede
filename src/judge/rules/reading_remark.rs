//! `reading-remark`.

use crate::judge::{DeliveryFacts, Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// Something in the row or sheet could not be read as it stands: a size, a quantity, a date where a figure belongs, a formula without a result, a hidden row.
    /// # Why it matters on the dock
    /// A value the program did not take is a value nobody checked.
    /// # What to do
    /// Look at the cell in the supplier's file and ask for what is missing.
    /// # Example
    /// A thickness cell that a spreadsheet program turned from 1/2 into 2 January.
    pub struct ReadingRemark;
}

impl Rule for ReadingRemark {
    fn code(&self) -> &'static str {
        "reading-remark"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        for remark in facts.item.iter().flat_map(|item| &item.remarks) {
            found.push(
                Finding::new(
                    self.code(),
                    Severity::Check,
                    format!("{}: {}", remark.place.cell(), remark.message),
                )
                .at(remark.place.cell()),
            );
        }
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        for remark in &facts.reading.remarks {
            found.push(
                Finding::new(self.code(), Severity::Check, remark.message.clone()).at(remark.code),
            );
        }
    }
}
