//! `declared-heavy`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The declared weight lies above the whole plausible range of the item.
    /// # Why it matters on the dock
    /// Either the size, the material or the weight is wrong: what is on the vehicle is not what the document describes.
    /// # What to do
    /// Weigh it, or ask the supplier how the weight was found. Until then lift only as planned, or not at all where the line is held.
    /// # Example
    /// 640 kg declared for a steel plate estimated at 150 to 180 kg.
    pub struct DeclaredHeavy;
}

impl Rule for DeclaredHeavy {
    fn code(&self) -> &'static str {
        "declared-heavy"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.verdict == Verdict::Heavy {
            let finding = Finding::new(
                self.code(),
                Severity::Check,
                format!("{}: heavier than the goods should be", facts.difference()),
            )
            .explained(facts.causes);
            found.push(facts.declared.map_or(finding.clone(), |declared| {
                finding.at(declared.place.cell())
            }));
        }
    }
}
