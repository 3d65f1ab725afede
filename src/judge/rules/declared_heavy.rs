//! `declared-heavy`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The declared weight (the one in the supplier's document) is more than goods of this size and material should weigh.
    /// # Why it matters on the dock
    /// The size, the material or the weight is wrong: what is on the vehicle is not what the document describes.
    /// # What to do
    /// Weigh it, or ask the supplier how the weight was found. Until then lift only as planned, or not at all where the line is held.
    /// # Example
    /// 640 kg declared for a steel plate estimated at 150 to 180 kg.
    pub struct DeclaredHeavy;
}

impl Rule for DeclaredHeavy {
    fn code(&self) -> &'static str {
        "declared-heavy"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.accused(Verdict::Heavy) {
            let finding = Finding::new(
                self.code(),
                Severity::Check,
                format!("{}: heavier than the goods should be", facts.difference()),
            )
            .explained(facts.causes);
            found.push(match facts.declared {
                Some(declared) => finding.at(declared.place.cell()),
                None => finding,
            });
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::plates;

    #[test]
    fn fires_on_a_third_too_much() {
        let heavy = || plates("Steel plate,S235,1,2000,1000,10,205");
        assert_eq!(heavy().lines("declared-heavy"), "check");
        assert!(heavy().message("declared-heavy").contains("205 kg"));
    }

    #[test]
    fn silent_on_the_right_a_light_and_an_impossible_weight() {
        let rows = "Steel plate,S235,1,2000,1000,10,157\nSteel plate,S235,1,2000,1000,10,50\nSteel plate,S235,1,2000,1000,10,900";
        assert_eq!(plates(rows).lines("declared-heavy"), "- - -");
    }

    #[test]
    fn boundary_a_tenth_above_the_range() {
        // Method, section 3: heavy above high x (1 + 10 %).
        let plate = |weight: f64| plates(&format!("Steel plate,S235,1,2000,1000,10,{weight:.2}"));
        let delivery = plate(157.0).audited();
        let high = delivery.lines[0]
            .estimate
            .as_ref()
            .expect("an estimate")
            .line
            .high
            .kg();
        assert_eq!(plate(high * 1.1 - 0.02).lines("declared-heavy"), "-");
        assert_eq!(plate(high * 1.1 + 0.02).lines("declared-heavy"), "check");
    }

    #[test]
    fn missing_weight_or_size_is_not_heavy() {
        let rows = "Steel plate,S235,1,2000,1000,10,\nSteel plate,S235,1,2000,,10,205";
        assert_eq!(plates(rows).lines("declared-heavy"), "- -");
    }
}
