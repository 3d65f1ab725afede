//! `declared-impossible`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The declared weight is more than a solid block of that size and material could weigh.
    /// # Why it matters on the dock
    /// A slip in a unit or a digit, or somebody else's part. Nothing planned from this line can be trusted before it is settled.
    /// # What to do
    /// Weigh it, or ask the supplier how the weight was found. Until then lift only as planned, or not at all where the line is held.
    /// # Example
    /// 16,700 kg declared for sixteen pipes that weigh 2,700 kg together.
    pub struct DeclaredImpossible;
}

impl Rule for DeclaredImpossible {
    fn code(&self) -> &'static str {
        "declared-impossible"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.verdict == Verdict::Impossible {
            let finding = Finding::new(
                self.code(),
                Severity::Check,
                format!(
                    "{}: more than a solid block of that size and material can weigh",
                    facts.difference()
                ),
            )
            .explained(facts.causes);
            found.push(facts.declared.map_or(finding.clone(), |declared| {
                finding.at(declared.place.cell())
            }));
        }
    }
}
