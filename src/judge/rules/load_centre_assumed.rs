//! `load-centre-assumed`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::plan::LoadCentreFrom;
use crate::units::show;

rule_type! {
    /// # What was seen
    /// No size says how deep the load is along the forks (of a pallet of several lines at most the sizes of the pieces on it are known), so the depth from the site settings was taken.
    /// # Why it matters on the dock
    /// A deeper load has its weight further out, and the truck may lift less: it may be too small although the weight is right.
    /// # What to do
    /// Measure the load along the forks before lifting.
    /// # Example
    /// A pallet without sizes, taken as 48 in deep.
    pub struct LoadCentreAssumed;
}

impl Rule for LoadCentreAssumed {
    fn code(&self) -> &'static str {
        "load-centre-assumed"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.plan.load_centre_from == LoadCentreFrom::Default
            && facts.plan.lift.is_some()
            && facts.verdict != Verdict::Shared
        {
            let message = format!(
                "how deep the load is along the forks is not stated; {} deep was taken: measure it along the forks",
                show::load_centre(facts.plan.depth, facts.units())
            );
            found.push(Finding::new(self.code(), Severity::Check, message));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{list, plates};

    #[test]
    fn fires_on_a_load_without_sizes() {
        assert_eq!(
            plates("Spare parts,,1,,,,400").lines("load-centre-assumed"),
            "check"
        );
    }

    #[test]
    fn fires_on_a_pallet_of_pieces_smaller_than_the_depth_taken() {
        let csv = "Description,Qty,Length (mm),Width (mm),Thickness (mm),Gross weight (kg)\n\
                   Pallet 1 - 1150 kg gross,,,,,\nSteel plate,8,1000,900,16,\nSteel plate,1,1000,900,32,\n";
        let delivery = list(csv).audited();
        let said = delivery
            .packages
            .iter()
            .flat_map(|package| &package.findings);
        let said: Vec<&str> = said
            .filter(|finding| finding.code == "load-centre-assumed")
            .map(|finding| finding.message.as_str())
            .collect();
        let [message] = said[..] else {
            panic!("{said:?}")
        };
        assert!(message.starts_with("how deep the load is"), "{message}");
    }

    #[test]
    fn silent_on_a_load_of_known_sizes() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,10,157").lines("load-centre-assumed"),
            "-"
        );
    }

    #[test]
    fn boundary_at_two_sides() {
        let rows = "Spare parts,,1,1000,,,400\nSpare parts,,1,1000,800,,400";
        assert_eq!(plates(rows).lines("load-centre-assumed"), "check -");
    }

    #[test]
    fn missing_weight_plans_no_lift_to_ask_about() {
        assert_eq!(
            plates("Spare parts,,1,,,,").lines("load-centre-assumed"),
            "-"
        );
    }
}
