//! `declared-light`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The declared weight (the one in the supplier's document) is less than goods of this size and material can weigh.
    /// # Why it matters on the dock
    /// A truck chosen by the declared weight may be too small for the real one, and tip.
    /// # What to do
    /// Weigh it, or ask the supplier how the weight was found. Until then lift only as planned, or not at all where the line is held.
    /// # Example
    /// 90 kg declared for a steel plate estimated at 150 to 180 kg.
    pub struct DeclaredLight;
}

impl Rule for DeclaredLight {
    fn code(&self) -> &'static str {
        "declared-light"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.accused(Verdict::Light) {
            let finding = Finding::new(
                self.code(),
                Severity::Check,
                format!("{}: lighter than the goods can be", facts.difference()),
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
    fn fires_on_half_a_plate() {
        let half = || plates("Steel plate,S235,1,2000,1000,10,78.5");
        assert_eq!(half().lines("declared-light"), "check");
        assert!(half().message("declared-light").contains("78.5 kg"));
    }

    #[test]
    fn silent_on_the_right_and_on_a_heavy_weight() {
        let rows = "Steel plate,S235,1,2000,1000,10,157\nSteel plate,S235,1,2000,1000,10,200";
        assert_eq!(plates(rows).lines("declared-light"), "- -");
    }

    #[test]
    fn boundary_a_tenth_below_the_range() {
        // Method, section 3: light below low x (1 - 10 %).
        let plate = |weight: f64| plates(&format!("Steel plate,S235,1,2000,1000,10,{weight:.2}"));
        let delivery = plate(157.0).audited();
        let low = delivery.lines[0]
            .estimate
            .as_ref()
            .expect("an estimate")
            .line
            .low
            .kg();
        assert_eq!(plate(low * 0.9 + 0.02).lines("declared-light"), "-");
        assert_eq!(plate(low * 0.9 - 0.02).lines("declared-light"), "check");
    }

    #[test]
    fn missing_weight_or_size_is_not_light() {
        let rows = "Steel plate,S235,1,2000,1000,10,\nSteel plate,S235,1,2000,,10,20";
        assert_eq!(plates(rows).lines("declared-light"), "- -");
    }
}
