//! `sizes-impossible`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::Length;

/// Longer than any road vehicle with its load in ordinary traffic (Directive 96/53/EC: 18.75 m; US practice to 30 m with a permit).
const LONGEST: Length = Length::from_m(30.0);

rule_type! {
    /// # What was seen
    /// The sizes of the line contradict each other, or are larger than any vehicle.
    /// # Why it matters on the dock
    /// A size slip turns the estimate into nonsense, and the load centre with it.
    /// # What to do
    /// Ask the supplier for the right sizes.
    /// # Example
    /// An inside diameter above the outside diameter; a post 62 m long.
    pub struct SizesImpossible;
}

impl Rule for SizesImpossible {
    fn code(&self) -> &'static str {
        "sizes-impossible"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let contradicted = facts
            .estimate
            .err()
            .filter(|no| no.why.starts_with("the sizes cannot be"))
            .map(|no| no.why.clone());
        let wound = facts.item.is_some_and(|item| {
            item.packed_as
                .is_some_and(|name| matches!(name, "reel" | "coil"))
        });
        let long = facts
            .item
            .and_then(|item| item.sizes.length)
            .filter(|size| !wound && !size.length.fits(LONGEST));
        let too_long =
            long.map(|size| format!("a piece {:.1} m long fits no vehicle", size.length.m()));
        if let Some(why) = contradicted.or(too_long) {
            found.push(Finding::new(
                self.code(),
                Severity::Check,
                format!("{why}; ask the supplier for the sizes"),
            ));
        }
    }
}
