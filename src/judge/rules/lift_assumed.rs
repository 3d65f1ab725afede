//! `lift-assumed`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::plan::{LiftFrom, LiftOf};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// The file does not say how the pieces come (singly, bundled, stacked), so it was taken as usual for such goods.
    /// # Why it matters on the dock
    /// A stack or bundle on the vehicle may hold more pieces than the plan takes at once.
    /// # What to do
    /// Count what hangs together before lifting, and lift no more pieces at once than the finding names.
    /// # Example
    /// Twelve plates planned one by one; they may lie in one stack.
    pub struct LiftAssumed;
}

impl Rule for LiftAssumed {
    fn code(&self) -> &'static str {
        "lift-assumed"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let plan = facts.plan;
        if plan.lift_from != LiftFrom::Assumed || plan.divided || plan.lift_of == LiftOf::Shared {
            return;
        }
        // How one piece comes is no question; where none could be counted, that is said by itself.
        if facts.pieces() < 2 {
            return;
        }
        let Some(lift) = plan.lift else { return };
        let how = match plan.lift_of {
            LiftOf::Line => format!("all {} pieces as one lift", facts.pieces()),
            _ => "piece by piece".to_string(),
        };
        let most = match (plan.most_pieces, &plan.truck) {
            (Some(most), Some(truck)) => format!("; {} may take at most {most} at once", truck.id),
            _ => String::new(),
        };
        let message = format!(
            "how the pieces come is not stated: planned {how}, {} a lift{most}",
            show::planning(lift, facts.units())
        );
        found.push(Finding::new(self.code(), Severity::Note, message));
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::plates;

    #[test]
    fn fires_on_pieces_that_may_hang_together() {
        let three = || plates("Steel plate,S235,3,2000,1000,10,471");
        assert_eq!(three().lines("lift-assumed"), "note");
        // 1,000 kg take six plates of 157 kg; the line has three.
        let message = three().message("lift-assumed");
        assert!(
            message.contains("piece by piece") && message.contains("YARD-1 may take at most 3"),
            "{message}"
        );
    }

    #[test]
    fn silent_where_the_file_says_how_they_come() {
        let rows = "\"Steel plate, singly\",S235,3,2000,1000,10,471\nSteel plate in one bundle,S235,3,2000,1000,10,471";
        assert_eq!(plates(rows).lines("lift-assumed"), "- -");
    }

    #[test]
    fn boundary_at_two_pieces_and_at_hand_weight() {
        let rows = "Steel plate,S235,1,2000,1000,10,157\nSteel plate,S235,2,2000,1000,10,314";
        assert_eq!(plates(rows).lines("lift-assumed"), "- note");
        // Pieces under 25 kg are lifted together (site settings).
        for (weight, how) in [("48", "all 2 pieces as one lift"), ("52", "piece by piece")] {
            let message = plates(&format!("Spare parts,,2,,,,{weight}")).message("lift-assumed");
            assert!(message.contains(how), "{message}");
        }
    }

    #[test]
    fn boundary_at_a_deeper_stack() {
        // Blocks of 612 kg: four stand 1 m deep, eight are 4,894 kg and stand three wide, 1.5 m deep, where the moment leaves
        // YARD-5 5,000 x 600 / 750 = 4,000 kg: six, two wide.
        let row = "Concrete block,,8,1000,500,500,4900";
        let fleet = "Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm),Available,Inspection due\n\
                     YARD-5,V,5000,600,4000,yes,2027-06-01\n";
        let message = plates(row).fleet(fleet).message("lift-assumed");
        assert!(message.contains("YARD-5 may take at most 6"), "{message}");
    }

    #[test]
    fn missing_weight_or_number_plans_no_lift_to_ask_about() {
        let rows = "Spare parts,,3,,,,\nSpare parts,,,,,,471";
        assert_eq!(plates(rows).lines("lift-assumed"), "- -");
    }
}
