//! `load-centre-assumed`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::plan::LoadCentreFrom;
use crate::units::show;

rule_type! {
    /// # What was seen
    /// No size tells where the load's centre of gravity lies; the site's usual depth was taken.
    /// # Why it matters on the dock
    /// A deeper load takes capacity away: the truck may be too small although the weight is right.
    /// # What to do
    /// Measure the load along the forks before lifting.
    /// # Example
    /// A pallet without sizes, taken as 48 in deep.
    pub struct LoadCentreAssumed;
}

impl Rule for LoadCentreAssumed {
    fn code(&self) -> &'static str {
        "load-centre-assumed"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.plan.load_centre_from == LoadCentreFrom::Default
            && facts.plan.lift.is_some()
            && facts.verdict != Verdict::Shared
        {
            let message = format!(
                "no size is known; {} deep was taken: measure it along the forks",
                show::load_centre(facts.plan.depth, facts.units())
            );
            found.push(Finding::new(self.code(), Severity::Check, message));
        }
    }
}
