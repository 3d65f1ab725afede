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
        let heaviest = if heavier {
            format!(
                "; it may be {}, which is what was planned",
                show::planning(declared.heaviest, facts.units())
            )
        } else {
            "; no heavier reading is possible for this line".to_string()
        };
        let message = format!(
            "what \"{}\" ({}) is the weight of, or in which unit, is not stated{heaviest}",
            declared.text,
            declared.place.cell()
        );
        found.push(
            Finding::new(
                self.code(),
                if heavier {
                    Severity::Check
                } else {
                    Severity::Note
                },
                message,
            )
            .at(declared.place.cell()),
        );
    }
}
