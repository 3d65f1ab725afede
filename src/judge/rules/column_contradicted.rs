//! `column-contradicted`.

use crate::judge::{DeliveryFacts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The weights of a whole column fit the sizes of the goods only in another unit than the heading says.
    /// # Why it matters on the dock
    /// If the heading is wrong, every line of the column weighs about half or twice what it says.
    /// # What to do
    /// All its lines are held. Ask the supplier one question: which unit is the column in?
    /// # Example
    /// A column headed "lb" whose figures fit as kilograms on every line.
    pub struct ColumnContradicted;
}

impl Rule for ColumnContradicted {
    fn code(&self) -> &'static str {
        "column-contradicted"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        for column in &facts.settled.contradicted {
            let message = format!(
                "column {} is headed in {}, but on {} lines its figures fit the sizes only as {}: ask the supplier which unit it is; all its lines are held",
                crate::place::column_letters(column.column),
                column.stated.symbol(),
                column.lines,
                column.fits.symbol()
            );
            found.push(
                Finding::new(self.code(), Severity::Stop, message)
                    .at(crate::place::column_letters(column.column)),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{KILOGRAMS_AS_POUNDS, list};

    #[test]
    fn fires_on_kilograms_headed_as_pounds() {
        assert_eq!(
            list(KILOGRAMS_AS_POUNDS).delivery("column-contradicted"),
            "stop"
        );
    }

    #[test]
    fn silent_under_the_right_heading() {
        let right = KILOGRAMS_AS_POUNDS.replace("(lb)", "(kg)");
        assert_eq!(list(&right).delivery("column-contradicted"), "-");
    }

    #[test]
    fn boundary_at_five_lines() {
        // Method, section 2: at least five lines agree.
        let four = KILOGRAMS_AS_POUNDS.replace("Steel plate,S235,1,2000,1000,25,392.5\n", "");
        assert_eq!(list(&four).delivery("column-contradicted"), "-");
    }

    #[test]
    fn missing_weights_contradict_nothing() {
        let four = KILOGRAMS_AS_POUNDS.replace("392.5", "");
        assert_eq!(list(&four).delivery("column-contradicted"), "-");
    }
}
