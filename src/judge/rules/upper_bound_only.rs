//! `upper-bound-only`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// Only the outline of the goods is known. The declared weight fits into it, which proves little.
    /// # Why it matters on the dock
    /// A crate or casting may weigh a tenth of its solid block or all of it: an outline may prove that a lift is safe, never what the piece weighs.
    /// # What to do
    /// If the lift is close to the truck's capacity, find the real weight first.
    /// # Example
    /// A crated pump with only the crate's sizes.
    pub struct UpperBoundOnly;
}

impl Rule for UpperBoundOnly {
    fn code(&self) -> &'static str {
        "upper-bound-only"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.verdict != Verdict::Unverifiable {
            return;
        }
        if let (Ok(estimate), Some(declared)) = (facts.estimate, facts.declared) {
            let upper = estimate.block.unwrap_or(estimate.line.high);
            let message = format!(
                "only the outline is known: {} declared, anything up to {} would fit; an outline is no proof of weight",
                show::weight(declared.mass, facts.units()),
                show::planning(upper, facts.units())
            );
            found.push(
                Finding::new(self.code(), Severity::Check, message).at(declared.place.cell()),
            );
        }
    }
}
