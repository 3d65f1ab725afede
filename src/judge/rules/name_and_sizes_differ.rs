//! `name-and-sizes-differ`.

use crate::estimate::Evidence;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// The description names a standard product (a rolled section, a pipe, sawn timber), and the sizes beside it belong to something lighter or heavier.
    /// # Why it matters on the dock
    /// One of the two is a slip or belongs to another line. Which one decides the weight, so the heavier is planned.
    /// # What to do
    /// Measure a piece and compare it with its name, or ask the supplier which of the two was shipped.
    /// # Example
    /// PL1/2x48x96 beside a thickness of 1 in: 653 lb by the name, 1,307 lb by the sizes.
    pub struct NameAndSizesDiffer;
}

impl Rule for NameAndSizesDiffer {
    fn code(&self) -> &'static str {
        "name-and-sizes-differ"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let Ok(estimate) = facts.estimate else { return };
        let Some(otherwise) = &estimate.otherwise else {
            return;
        };
        let (by_name, by_size) = if otherwise.evidence == Evidence::Product {
            (otherwise.line, estimate.line)
        } else {
            (estimate.line, otherwise.line)
        };
        let message = format!(
            "the name {} makes {} for the line, the sizes {}: they do not describe the same thing; the heavier is expected; \
             measure a piece, or ask the supplier which was shipped",
            otherwise.product,
            facts.shown(|units| show::range(by_name, units)),
            facts.shown(|units| show::range(by_size, units)),
        );
        let finding = Finding::new(self.code(), Severity::Check, message);
        let sizes = facts.item.and_then(|item| item.sizes_from.as_ref());
        found.push(match sizes {
            Some(place) => finding.at(place.cell()),
            None => finding,
        });
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, plates};

    /// A plate named 10 x 1000 x 2000 mm (157 kg) beside a thickness in mm; nothing under and 5 % over (EN 10029).
    fn named(thickness: &str) -> List {
        plates(&format!("PL10x1000x2000,S235,1,2000,1000,{thickness},157"))
    }

    #[test]
    fn fires_when_the_sizes_are_another_plate() {
        let message = named("20").message("name-and-sizes-differ");
        assert!(
            message.contains("PL10x1000x2000 mm makes 157 to 165 kg")
                && message.contains("the heavier is expected"),
            "{message}"
        );
        // 157 kg declared fits the name, and is light against the sizes that are planned.
        assert_eq!(named("20").lines("declared-light"), "check");
        // Lighter sizes: the name is planned.
        assert_eq!(named("5").lines("name-and-sizes-differ"), "check");
        assert_eq!(named("5").lines("declared-heavy"), "-");
    }

    #[test]
    fn silent_where_they_agree() {
        assert_eq!(named("10").lines("name-and-sizes-differ"), "-");
    }

    #[test]
    fn boundary_where_the_ranges_still_meet() {
        // 5 % over on the name: 10.5 mm still meets, 11 mm does not.
        assert_eq!(named("10.5").lines("name-and-sizes-differ"), "-");
        assert_eq!(named("11").lines("name-and-sizes-differ"), "check");
    }

    #[test]
    fn missing_size_leaves_nothing_to_compare() {
        assert_eq!(named("").lines("name-and-sizes-differ"), "-");
    }
}
