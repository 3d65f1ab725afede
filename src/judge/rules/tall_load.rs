//! `tall-load`.

use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// Half the load's height lies above the height that the capacity plate stands for.
    /// # Why it matters on the dock
    /// The plate counts on a centre of gravity no higher above the forks than it is far from them; a taller load tips sooner.
    /// # What to do
    /// Somebody competent looks at the load before it is lifted: low, slow, mast tilted back, or another way.
    /// # Example
    /// A cabinet 2.1 m high on a truck rated at 24 in.
    pub struct TallLoad;
}

impl Rule for TallLoad {
    fn code(&self) -> &'static str {
        "tall-load"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.plan.tall {
            found.push(Finding::new(
                self.code(),
                Severity::Check,
                "the load is taller than the capacity plate counts on: have it looked at by a competent person before lifting",
            ));
        }
    }
}
