//! `declared-missing`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::{Mass, show};

/// Lighter lines without a weight are for the record only (method, section 3).
const LIGHT_ENOUGH: Mass = Mass::from_kg(25.0);

rule_type! {
    /// # What was seen
    /// The line states no weight that can be used: the cell is blank, a dash, "TBA", zero, negative, an error or two figures.
    /// # Why it matters on the dock
    /// Nobody has vouched for what is about to be lifted. An estimate may stand in for planning; it is not a weighing.
    /// # What to do
    /// Get the weight from the supplier in writing, or weigh the load before it is needed elsewhere.
    /// # Example
    /// A weight cell that reads "TBA" on a line of twelve round bars.
    pub struct DeclaredMissing;
}

impl Rule for DeclaredMissing {
    fn code(&self) -> &'static str {
        "declared-missing"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.verdict != Verdict::Missing {
            return;
        }
        let cell = facts.unusable.first();
        let seen = cell.map_or("no weight is stated".to_string(), |cell| {
            format!("{} (\"{}\") {}", cell.place.cell(), cell.text, cell.why)
        });
        let (severity, expected) = match facts.estimate {
            Ok(estimate) => {
                let range = show::range(estimate.line.plus(estimate.tare), facts.units());
                let small = estimate.line.high.fits(LIGHT_ENOUGH);
                (
                    if small {
                        Severity::Note
                    } else {
                        Severity::Check
                    },
                    format!("; {range} expected"),
                )
            }
            Err(_) => (Severity::Check, String::new()),
        };
        let finding = Finding::new(
            self.code(),
            severity,
            format!("{seen}{expected}; get the weight in writing or weigh it"),
        );
        found.push(match cell {
            Some(cell) => finding.at(cell.place.cell()),
            None => finding,
        });
    }
}
