//! `total-differs`.

use crate::judge::{DeliveryFacts, Finding, Rule, Severity};
use crate::units::Mass;
use std::collections::BTreeMap;

/// Rounding of printed line weights (common practice, no source).
const ROUNDING: f64 = 0.005;

rule_type! {
    /// # What was seen
    /// The sum the document states is not the sum of its lines.
    /// # Why it matters on the dock
    /// A line may be missing from the list, stand twice, or have been changed after adding up.
    /// # What to do
    /// Count the goods, and go through the sum with the supplier.
    /// # Example
    /// A total of 24,263 kg under lines that add up to 23,000 kg.
    pub struct TotalDiffers;
}

impl Rule for TotalDiffers {
    fn code(&self) -> &'static str {
        "total-differs"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        let mut printed: BTreeMap<u32, Vec<(u32, Mass)>> = BTreeMap::new();
        for (row, column, mass) in facts.declared {
            printed.entry(*row).or_default().push((*column, *mass));
        }
        for sum in &facts.reading.sums {
            let rows = || sum.rows.iter().filter_map(|row| printed.get(row));
            let in_column: Vec<Mass> = rows()
                .flatten()
                .filter(|(column, _)| *column == sum.column)
                .map(|(_, mass)| *mass)
                .collect();
            if in_column.len() < 2 {
                continue;
            }
            let stated = facts.settled.reading(sum.column).unit.mass(sum.figure);
            // A total may cover the tables above it, whose weights stand in other columns.
            let in_all = rows().filter_map(|weights| {
                let own = weights.iter().find(|(column, _)| *column == sum.column);
                own.or(weights.first()).map(|(_, mass)| *mass)
            });
            let sums: [Mass; 2] = [in_column.into_iter().sum(), in_all.sum()];
            let [added, _] = sums;
            if !sums.into_iter().any(|added| agree(stated, added)) {
                let message = format!(
                    "{} states a sum of {}, the lines above it add up to {}",
                    sum.place.cell(),
                    facts.weight(stated),
                    facts.weight(added)
                );
                found
                    .push(Finding::new(self.code(), Severity::Check, message).at(sum.place.cell()));
            }
        }
    }
}

/// Whether a stated sum is that of its lines, rounding allowed.
pub(super) fn agree(stated: Mass, added: Mass) -> bool {
    let off = (stated - added).kg().abs();
    off <= added.max(stated).kg() * ROUNDING || off <= 1.0
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Two lines and the total below them.
    fn sum(one: &str, other: &str, total: &str) -> List {
        list(&format!(
            "Description,Qty,Total weight (kg)\nSpare parts,1,{one}\nPump,1,{other}\nTotal,,{total}\n"
        ))
    }

    #[test]
    fn fires_on_another_sum() {
        assert_eq!(
            sum("1000", "1000", "2400").delivery("total-differs"),
            "check"
        );
    }

    #[test]
    fn silent_on_the_right_sum() {
        assert_eq!(sum("1000", "1000", "2000").delivery("total-differs"), "-");
    }

    #[test]
    fn boundary_at_half_a_percent_and_one_kilogram() {
        // 0.5 % of 2,010 kg are 10.05 kg, of 2,010.1 kg 10.0505 kg.
        assert_eq!(sum("1000", "1000", "2010").delivery("total-differs"), "-");
        assert_eq!(
            sum("1000", "1000", "2010.1").delivery("total-differs"),
            "check"
        );
        assert_eq!(sum("50", "50", "101").delivery("total-differs"), "-");
        assert_eq!(sum("50", "50", "101.1").delivery("total-differs"), "check");
    }

    #[test]
    fn missing_total_or_lines_add_up_to_nothing() {
        assert_eq!(sum("1000", "1000", "").delivery("total-differs"), "-");
        // One weight alone is no sum.
        assert_eq!(sum("1000", "", "2400").delivery("total-differs"), "-");
    }
}
