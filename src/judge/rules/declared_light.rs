//! `declared-light`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The declared weight lies below the whole plausible range of the item.
    /// # Why it matters on the dock
    /// The truck chosen for the declared weight may be too small for the real one: this is the side on which trucks tip.
    /// # What to do
    /// Weigh it, or ask the supplier how the weight was found. Until then lift only as planned, or not at all where the line is held.
    /// # Example
    /// 90 kg declared for a steel plate estimated at 150 to 180 kg.
    pub struct DeclaredLight;
}

impl Rule for DeclaredLight {
    fn code(&self) -> &'static str {
        "declared-light"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.verdict == Verdict::Light {
            let finding = Finding::new(
                self.code(),
                Severity::Check,
                format!("{}: lighter than the goods can be", facts.difference()),
            )
            .explained(facts.causes);
            found.push(facts.declared.map_or(finding.clone(), |declared| {
                finding.at(declared.place.cell())
            }));
        }
    }
}
