//! `see-delivery`.

use crate::judge::{Cause, Facts, Finding, Rule, Severity};
use crate::settle::Declared;
use crate::understand::How;

rule_type! {
    /// # What was seen
    /// The weights in this line's column do not fit the unit in its heading. That is one finding of the whole delivery (column-contradicted).
    /// # Why it matters on the dock
    /// The whole column may be in the wrong unit, this line too. One answer from the supplier settles all of its lines.
    /// # What to do
    /// Do not lift before the delivery's finding is settled: all lines of the column wait for it.
    /// # Example
    /// 400 lines in kilograms under a heading that says pounds.
    pub struct SeeDelivery;
}

impl Rule for SeeDelivery {
    fn code(&self) -> &'static str {
        "see-delivery"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let contradicted = |declared: &&Declared| declared.how == How::Contradicted;
        if let Some(declared) = facts.declared.filter(contradicted) {
            let finding = Finding::new(
                self.code(),
                Severity::Note,
                "see the delivery's finding on this weight column; the larger of both readings is planned",
            );
            found.push(Finding {
                cause: other_unit(facts, declared),
                ..finding
            });
        }
    }
}

/// The unit that fits the column as the line's cause, so that one decision settles all lines; its share is the part of the
/// column's lines that agree. None where the figures would also be of something else: that is more than one slip.
fn other_unit(facts: &Facts<'_>, declared: &Declared) -> Option<Cause> {
    let mut columns = facts.settled.contradicted.iter();
    let column = columns.find(|column| column.column == declared.place.column)?;
    let mut weights = facts.weights.iter();
    let weight = weights.find(|weight| weight.place == declared.place)?;
    let packages = facts.item.and_then(|item| item.packages);
    (column.basis == declared.of).then(|| Cause {
        kind: "kg-lb",
        would_be_kg: column.mass(weight.figure, facts.pieces(), packages).kg(),
        share: column.lines as f64 / column.of.max(1) as f64,
    })
}

#[cfg(test)]
mod tests {
    use crate::judge::Severity;
    use crate::judge::testing::{KILOGRAMS_AS_POUNDS, list};

    #[test]
    fn fires_on_each_line_of_the_column() {
        let all = list(KILOGRAMS_AS_POUNDS).lines("see-delivery");
        assert_eq!(all, "note note note note note");
    }

    /// Method, section 2: each line carries only the note; nothing of it is judged by the figure that is in doubt.
    #[test]
    fn it_is_all_that_a_line_of_the_column_carries() {
        let heavy = KILOGRAMS_AS_POUNDS.replace("2000,1000,25,392.5", "2000,1000,100,1570");
        for line in list(&heavy).audited().lines {
            let said: Vec<(&str, Severity)> = line
                .findings
                .iter()
                .map(|finding| (finding.code, finding.severity))
                .filter(|(code, _)| *code != "lift-assumed")
                .collect();
            assert_eq!(said, [("see-delivery", Severity::Note)]);
        }
    }

    /// 392.5 kg headed as pounds: the supplier's answer makes them kilograms.
    #[test]
    fn fires_with_what_the_line_would_weigh_in_the_unit_that_fits() {
        let audited = list(KILOGRAMS_AS_POUNDS).audited();
        let causes = audited.lines.iter().map(|line| {
            let mut found = line.findings.iter();
            let cause = found.find_map(|finding| finding.cause.as_ref());
            cause.map(|cause| (cause.kind, cause.would_be_kg.round()))
        });
        let said: Vec<_> = causes.collect();
        assert!(said.contains(&Some(("kg-lb", 393.0))), "{said:?}");
        assert!(said.iter().all(Option::is_some), "{said:?}");
    }

    #[test]
    fn silent_under_the_right_heading() {
        let right = KILOGRAMS_AS_POUNDS.replace("(lb)", "(kg)");
        assert_eq!(list(&right).lines("see-delivery"), "- - - - -");
    }

    #[test]
    fn boundary_at_five_lines() {
        // Method, section 2: at least five lines agree.
        let four = KILOGRAMS_AS_POUNDS.replace("Steel plate,S235,1,2000,1000,25,392.5\n", "");
        assert_eq!(list(&four).lines("see-delivery"), "- - - -");
    }

    #[test]
    fn missing_weight_has_nothing_to_ask_of_the_column() {
        let six = format!("{KILOGRAMS_AS_POUNDS}Steel plate,S235,1,2000,1000,30,\n");
        assert_eq!(
            list(&six).lines("see-delivery"),
            "note note note note note -"
        );
    }
}
