//! `declared-impossible`.

use crate::compare::Verdict;
use crate::estimate::NoEstimate;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// The declared weight (the one in the supplier's document) is more than a solid block of that size and material could weigh.
    /// # Why it matters on the dock
    /// The unit or a digit is wrong, or the weight belongs to other goods. Do not rely on anything in this line before it is settled.
    /// # What to do
    /// Weigh it, or ask the supplier how the weight was found. Until then lift only as planned, or not at all where the line is held.
    /// # Example
    /// 16,700 kg declared for sixteen pipes that weigh 2,700 kg together.
    pub struct DeclaredImpossible;
}

impl Rule for DeclaredImpossible {
    fn code(&self) -> &'static str {
        "declared-impossible"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.accused(Verdict::Impossible) {
            let finding =
                Finding::new(self.code(), Severity::Check, message(facts)).explained(facts.causes);
            found.push(match facts.declared {
                Some(declared) => finding.at(declared.place.cell()),
                None => finding,
            });
        }
    }
}

fn message(facts: &Facts<'_>) -> String {
    // Without a material there is no estimate to differ from: lead is the heaviest that the size could be.
    match (facts.estimate, facts.declared) {
        (
            Err(NoEstimate {
                upper: Some(upper), ..
            }),
            Some(declared),
        ) => format!(
            "{} declared ({}: \"{}\"): more than the {} of a block of solid lead of that size",
            show::weight(declared.mass, facts.units()),
            declared.place.cell(),
            declared.text,
            show::planning(*upper, facts.units())
        ),
        _ => format!(
            "{}: more than a solid block of that size and material can weigh",
            facts.difference()
        ),
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::plates;

    #[test]
    fn fires_on_ten_times_the_plate() {
        let slip = || plates("Steel plate,S235,1,2000,1000,10,1570");
        assert_eq!(slip().lines("declared-impossible"), "check");
        assert!(
            slip()
                .message("declared-impossible")
                .starts_with("1,570 kg declared")
        );
    }

    #[test]
    fn fires_above_solid_lead_where_the_material_is_unknown() {
        // 1 x 0.1 x 0.1 m of lead, 11,340 kg/m3 (method, section 3): 113 kg.
        let bracket = || plates("Widget,,1,1000,100,100,640");
        assert_eq!(bracket().lines("declared-impossible"), "check");
        let message = bracket().message("declared-impossible");
        assert!(
            message.starts_with("640 kg declared (G2: \"640 kg\")"),
            "{message}"
        );
        assert!(message.contains("lead"), "{message}");
    }

    #[test]
    fn silent_on_the_right_and_on_a_heavy_weight() {
        let rows = "Steel plate,S235,1,2000,1000,10,157\nSteel plate,S235,1,2000,1000,10,205";
        assert_eq!(plates(rows).lines("declared-impossible"), "- -");
    }

    #[test]
    fn boundary_of_a_solid_shape_at_one_and_a_half() {
        // Method, section 3: a solid shape is impossible only above 1.5 x high.
        let plate = |weight: f64| plates(&format!("Steel plate,S235,1,2000,1000,10,{weight:.2}"));
        let delivery = plate(157.0).audited();
        let high = delivery.lines[0]
            .estimate
            .as_ref()
            .expect("an estimate")
            .line
            .high
            .kg();
        assert_eq!(plate(high * 1.5 - 0.02).lines("declared-impossible"), "-");
        assert_eq!(
            plate(high * 1.5 + 0.02).lines("declared-impossible"),
            "check"
        );
    }

    #[test]
    fn missing_weight_or_size_is_not_impossible() {
        let rows = "Steel plate,S235,1,2000,1000,10,\nSteel plate,S235,1,2000,,10,9000";
        assert_eq!(plates(rows).lines("declared-impossible"), "- -");
    }
}
