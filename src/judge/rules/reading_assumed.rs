//! `reading-assumed`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::How;
use crate::units::show;

rule_type! {
    /// # What was seen
    /// The unit of the weight, or what it is the weight of, stands nowhere and could not be found from the figures.
    /// # Why it matters on the dock
    /// Pounds read as kilograms, or a piece weight read as the line's, plans a truck for a part of the load.
    /// # What to do
    /// The heaviest reading still possible was planned. Ask the supplier to name the unit and what the weight is of.
    /// # Example
    /// A column headed "Weight" with three lines.
    pub struct ReadingAssumed;
}

impl Rule for ReadingAssumed {
    fn code(&self) -> &'static str {
        "reading-assumed"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let Some(declared) = facts
            .declared
            .filter(|declared| declared.how == How::Assumed)
        else {
            return;
        };
        let heavier = !declared.heaviest.fits(declared.mass);
        // A size that excludes the heavier readings makes it a note; the other lines' figures alone do not.
        let (severity, planned) = match (heavier, facts.estimate.is_ok()) {
            (true, _) => {
                let heaviest = show::planning(declared.heaviest, facts.units());
                (
                    Severity::Check,
                    format!("; it may be {heaviest}, and no less is planned"),
                )
            }
            (false, true) => (
                Severity::Note,
                "; no heavier reading fits this line's size".to_string(),
            ),
            (false, false) => (
                Severity::Check,
                "; read as on the lines of this column that could be checked".to_string(),
            ),
        };
        let message = format!(
            "what \"{}\" ({}) is the weight of, or in which unit, is not stated{planned}",
            declared.text,
            declared.place.cell()
        );
        found.push(Finding::new(self.code(), severity, message).at(declared.place.cell()));
    }
}
