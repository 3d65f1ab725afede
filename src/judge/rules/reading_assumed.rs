//! `reading-assumed`.

use crate::judge::{DeliveryFacts, Facts, Finding, Rule, Severity};
use crate::place::column_letters;
use crate::understand::{ColumnReading, How};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// Nothing says which unit the weight is in, or whether it is of one piece or of the whole line, and the sizes do not settle it.
    /// Or nothing says which unit the sizes are in, and the weights do not settle it.
    /// # Why it matters on the dock
    /// If kilograms are taken for pounds, or the weight of one piece for that of the line, the truck is chosen for a part of the load.
    /// If inches are taken for centimetres, an estimate is a sixteenth of the weight.
    /// # What to do
    /// Ask the supplier for the unit and for what the weight is of. Until then the lift is planned with the heaviest weight that it may mean.
    /// A line whose weight is worked out from such sizes alone is held.
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

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        let Some(first) = facts.assumed_sizes.first() else {
            return;
        };
        let taken: Vec<String> = facts
            .assumed_sizes
            .chunk_by(|one, next| one.unit == next.unit)
            .map(taken_as)
            .collect();
        let message = format!(
            "no unit is stated for the sizes: {}; ask the supplier which unit it is",
            taken.join(", ")
        );
        found.push(
            Finding::new(self.code(), Severity::Check, message).at(column_letters(first.column)),
        );
    }
}

/// `C "Length", D "Width" taken as in`.
fn taken_as(columns: &[&ColumnReading]) -> String {
    let named = columns
        .iter()
        .map(|column| format!("{} \"{}\"", column_letters(column.column), column.heading));
    let unit = columns.first().and_then(|column| column.unit.as_deref());
    format!(
        "{} taken as {}",
        named.collect::<Vec<_>>().join(", "),
        unit.unwrap_or_default()
    )
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

    /// Blocks of steel in centimetres, 7,850 kg/m3, under bare headings for the sizes; the last has no weight.
    fn bare_sizes(weights: &[&str]) -> List {
        let lines = weights
            .iter()
            .map(|weight| format!("Steel block,1,60,40,40,{weight}\n"));
        list(&format!(
            "Description,Qty,Length,Width,Height,Weight (kg)\n{}",
            lines.collect::<String>()
        ))
    }

    #[test]
    fn fires_once_for_all_sizes_of_an_assumed_unit() {
        let block = || bare_sizes(&[""]);
        assert_eq!(block().delivery("reading-assumed"), "check");
        let delivery = block().audited();
        let said = &delivery.findings[0].message;
        assert!(
            said.contains("C \"Length\", D \"Width\", E \"Height\" taken as cm"),
            "{said}"
        );
        // Its plan rests on the sizes alone; where a weight is stated it does not.
        assert_eq!(bare_sizes(&["", "753.6"]).lines("held"), "stop -");
    }

    #[test]
    fn silent_where_sizes_state_their_unit_or_there_are_none() {
        for csv in [
            "Description,Qty,Length (cm),Width,Height,Weight (kg)\nSteel block,1,60,40,40,\n",
            "Description,Qty,Length,Width,Height,Dim unit,Weight (kg)\nSteel block,1,60,40,40,cm,\n",
            "Description,Qty,Length,Width,Height,Weight (kg)\nSteel block,1,,,,753.6\n",
            "Description,Qty,Size,Weight (kg)\nSteel block,1,60 x 40 x 40 cm,\n",
        ] {
            assert_eq!(list(csv).delivery("reading-assumed"), "-", "{csv}");
            assert_eq!(list(csv).lines("held"), "-", "{csv}");
        }
    }

    #[test]
    fn boundary_at_five_weights_that_agree_with_the_sizes() {
        let five = ["", "753.6", "753.6", "753.6", "753.6", "753.6"];
        assert_eq!(bare_sizes(&five).delivery("reading-assumed"), "-");
        assert_eq!(bare_sizes(&five).lines("held"), "- - - - - -");
        assert_eq!(bare_sizes(&five[..5]).delivery("reading-assumed"), "check");
        // Weights that agree with nothing bear nothing out.
        let inches = ["", "12300", "12300", "12300", "12300", "12300"];
        assert_eq!(bare_sizes(&inches).delivery("reading-assumed"), "check");
    }
}
