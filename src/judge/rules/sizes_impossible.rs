//! `sizes-impossible`.

use crate::causes;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The sizes of the line cannot all be right, or a piece is longer than any vehicle.
    /// # Why it matters on the dock
    /// With a wrong size neither the expected weight nor the load centre can be relied on.
    /// # What to do
    /// Measure the goods, or ask the supplier for the right sizes.
    /// # Example
    /// An inside diameter above the outside diameter; a post 62 m long.
    pub struct SizesImpossible;
}

impl Rule for SizesImpossible {
    fn code(&self) -> &'static str {
        "sizes-impossible"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let contradicted = facts
            .estimate
            .err()
            .filter(|no| no.impossible)
            .map(|no| no.why.clone());
        let goods = match facts.estimate {
            Ok(estimate) => estimate.goods,
            Err(no) => no.goods,
        };
        let long = facts.item.filter(|item| causes::too_long(item, goods));
        let too_long = long
            .and_then(|item| item.sizes.length)
            .map(|size| format!("a piece {:.1} m long fits no vehicle", size.length.m()));
        if let Some(why) = contradicted.or(too_long) {
            found.push(Finding::new(
                self.code(),
                Severity::Check,
                format!("{why}; ask the supplier for the sizes"),
            ));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Description, length, outside and inside diameter.
    fn round(rows: &[&str]) -> List {
        let lines: Vec<String> = rows.iter().map(|row| format!("{row},500")).collect();
        list(&format!(
            "Description,Qty,Length (mm),OD (mm),ID (mm),Total gross weight (kg)\n{}\n",
            lines.join("\n")
        ))
    }

    #[test]
    fn fires_on_a_bore_wider_than_the_pipe() {
        assert_eq!(
            round(&["Steel pipe,1,6000,100,120"]).lines("sizes-impossible"),
            "check"
        );
    }

    #[test]
    fn silent_on_a_pipe_and_on_a_long_cable() {
        let rows = [
            "Steel pipe,1,6000,120,100",
            "Copper cable on a reel,1,200000,30,",
            "Copper power cable,1,200000,30,",
        ];
        assert_eq!(round(&rows).lines("sizes-impossible"), "- - -");
    }

    #[test]
    fn boundary_at_the_longest_vehicle() {
        let rows = ["Steel pipe,1,30000,120,100", "Steel pipe,1,30001,120,100"];
        assert_eq!(round(&rows).lines("sizes-impossible"), "- check");
        // A pipe has a wall.
        let rows = ["Steel pipe,1,6000,120,119", "Steel pipe,1,6000,120,120"];
        assert_eq!(round(&rows).lines("sizes-impossible"), "- check");
    }

    #[test]
    fn missing_sizes_contradict_nothing() {
        assert_eq!(
            round(&["Steel pipe,1,6000,,120", "Steel pipe,1,,,"]).lines("sizes-impossible"),
            "- -"
        );
    }
}
