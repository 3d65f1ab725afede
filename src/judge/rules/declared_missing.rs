//! `declared-missing`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::{Mass, show};

/// Lighter lines without a weight are for the record only (method, section 3).
const LIGHT_ENOUGH: Mass = Mass::from_kg(25.0);

rule_type! {
    /// # What was seen
    /// The line has no weight that can be used: the cell is blank, or holds a dash, "TBA", zero, a negative figure, an error or two figures.
    /// # Why it matters on the dock
    /// Nobody has said what is about to be lifted weighs. The lift may be planned by an estimate, but an estimate is not a weighing.
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::judge::testing::{list, plates};

    #[test]
    fn fires_on_what_is_no_weight() {
        let rows = "Steel plate,S235,1,2000,1000,10,TBA\nSteel plate,S235,1,2000,1000,10,0\nSteel plate,S235,1,2000,1000,10,-5";
        assert_eq!(plates(rows).lines("declared-missing"), "check check check");
        let message = plates(rows).message("declared-missing");
        assert!(message.starts_with("G2 (\"TBA\")"), "{message}");
    }

    #[test]
    fn silent_on_a_weight() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,10,157").lines("declared-missing"),
            "-"
        );
    }

    #[test]
    fn boundary_at_what_one_person_lifts() {
        // Plates 0.28 to 0.33 m long, 22 to 26 kg at 7,850 kg/m3: a note while the upper end is at most 25 kg.
        let rows: Vec<String> = (280..=330)
            .map(|length| format!("Steel plate,S235,1,{length},1000,10,"))
            .collect();
        let delivery = plates(&rows.join("\n")).audited();
        let mut seen = [0, 0];
        for line in &delivery.lines {
            let high = line.estimate.as_ref().expect("an estimate").line.high;
            let finding = line
                .findings
                .iter()
                .find(|found| found.code == "declared-missing");
            let note = finding.expect("the finding").severity == Severity::Note;
            assert_eq!(note, high.kg() <= 25.0, "{high:?}");
            seen[usize::from(note)] += 1;
        }
        assert!(seen[0] > 5 && seen[1] > 5, "{seen:?}");
    }

    #[test]
    fn missing_cell_column_or_estimate() {
        let rows = "Steel plate,S235,1,2000,1000,10,\nSpare parts,,1,,,,";
        assert_eq!(plates(rows).lines("declared-missing"), "check check");
        let no_column = list(
            "Description,Qty,Length (mm),Width (mm)\nSpare parts,2,800,600\nSpare parts,1,800,600\n",
        );
        assert_eq!(no_column.lines("declared-missing"), "check check");
    }
}
