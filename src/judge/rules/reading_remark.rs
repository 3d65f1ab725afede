//! `reading-remark`.

use crate::judge::{DeliveryFacts, Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// Something in the row or sheet could not be read as it stands. It may be a size, a quantity, a date where a figure belongs, a formula without a result, or a hidden row.
    /// # Why it matters on the dock
    /// What could not be read was not checked.
    /// # What to do
    /// Look at the cell in the supplier's file and ask for what is missing.
    /// # Example
    /// A thickness cell that a spreadsheet program turned from 1/2 into 2 January.
    pub struct ReadingRemark;
}

impl Rule for ReadingRemark {
    fn code(&self) -> &'static str {
        "reading-remark"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        for remark in facts.item.iter().flat_map(|item| &item.remarks) {
            found.push(
                Finding::new(
                    self.code(),
                    Severity::Check,
                    format!("{}: {}", remark.place.cell(), remark.message),
                )
                .at(remark.place.cell()),
            );
        }
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        for remark in &facts.reading.remarks {
            found.push(
                Finding::new(self.code(), Severity::Check, remark.message.clone()).at(remark.code),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{list, plates};

    #[test]
    fn fires_on_a_quantity_that_is_no_number() {
        let plate = || plates("Steel plate,S235,some,2000,1000,10,157");
        // The cell, and what was taken in its place.
        assert_eq!(plate().lines("reading-remark"), "check+check");
        assert!(
            plate()
                .message("reading-remark")
                .starts_with("C2: \"some\"")
        );
    }

    #[test]
    fn silent_on_a_row_that_reads_as_it_stands() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,10,157").lines("reading-remark"),
            "-"
        );
    }

    #[test]
    fn boundary_at_whole_pieces_from_one() {
        let rows = "Steel plate,S235,0,2000,1000,10,157\nSteel plate,S235,1,2000,1000,10,157\nSteel plate,S235,1.5,2000,1000,10,157";
        assert_eq!(
            plates(rows).lines("reading-remark"),
            "check+check - check+check"
        );
    }

    #[test]
    fn missing_quantity_cell_or_column() {
        assert_eq!(
            plates("Steel plate,S235,,2000,1000,10,157").lines("reading-remark"),
            "check"
        );
        let no_column =
            list("Description,Length (mm),Width (mm),Weight (kg)\nSteel plate,2000,1000,157\n");
        assert_eq!(no_column.lines("reading-remark"), "check");
    }
}
