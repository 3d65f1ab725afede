//! `reading-assumed`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::How;
use crate::units::show;

rule_type! {
    /// # What was seen
    /// Nothing says which unit the weight is in, or whether it is of one piece or of the whole line, and the sizes do not settle it.
    /// # Why it matters on the dock
    /// If kilograms are taken for pounds, or the weight of one piece for that of the line, the truck is chosen for a part of the load.
    /// # What to do
    /// Ask the supplier for the unit and for what the weight is of. Until then the lift is planned with the heaviest weight that it may mean.
    /// # Example
    /// A column headed only "Weight": 500 kg or 500 lb, of one piece or of all four?
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

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Steel plates of 2 x 1 m: four of each thickness in mm, with the figure of a column that says only "Weight".
    fn open(rows: &[(u32, &str)], more: &str) -> List {
        let lines = rows
            .iter()
            .map(|(thick, weight)| format!("Steel plate,S235,4,2000,1000,{thick},{weight}\n"));
        list(&format!(
            "Description,Material,Qty,Length (mm),Width (mm),Thickness (mm),Weight\n{}{more}",
            lines.collect::<String>()
        ))
    }

    /// Four plates each, geometry x 7,850 kg/m3: as pounds of a piece they would fit nothing.
    const RIGHT: [(u32, &str); 5] = [
        (10, "628"),
        (12, "753.6"),
        (15, "942"),
        (20, "1256"),
        (25, "1570"),
    ];
    /// Nothing to check it with.
    const PARTS: &str = "Spare parts,,2,,,,100\n";

    #[test]
    fn fires_where_a_heavier_reading_is_possible() {
        // 100 of something for two parts: each may weigh that.
        let open_basis = list("Description,Qty,Weight (kg)\nSpare parts,2,100\n");
        assert_eq!(open_basis.lines("reading-assumed"), "check");
        // In kilograms the size of the plates leaves no heavier reading.
        assert_eq!(open(&RIGHT[..1], "").lines("reading-assumed"), "note");
    }

    #[test]
    fn silent_where_unit_and_basis_are_stated() {
        let stated = list("Description,Qty,Total weight (kg)\nSpare parts,2,100\n");
        assert_eq!(stated.lines("reading-assumed"), "-");
    }

    #[test]
    fn boundary_at_three_lines_that_lean_and_five_that_settle() {
        let parts = |lines: usize| {
            let delivery = open(&RIGHT[..lines], PARTS).audited();
            let parts = delivery.lines.last().expect("a line");
            let finding = parts
                .findings
                .iter()
                .find(|found| found.code == "reading-assumed");
            finding.map(|finding| finding.message.contains("it may be"))
        };
        let found: Vec<Option<bool>> = (2..=5).map(parts).collect();
        assert_eq!(found, [Some(true), Some(false), Some(false), None]);
    }

    #[test]
    fn missing_weight_has_no_reading() {
        assert_eq!(
            open(&[(10, ""), (12, "TBA")], "").lines("reading-assumed"),
            "- -"
        );
    }
}
