//! `lift-divided`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// No truck can take the whole line at once, so it was planned as several equal lifts, as few as one truck can manage.
    /// # Why it matters on the dock
    /// How the pieces are bundled is not known: a bundle may be heavier than the lift planned here.
    /// # What to do
    /// Do not lift before somebody has seen how the pieces are bundled and what one bundle weighs.
    /// # Example
    /// 60 pipes of 6,000 kg together, planned as three lifts of 20.
    pub struct LiftDivided;
}

impl Rule for LiftDivided {
    fn code(&self) -> &'static str {
        "lift-divided"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.plan.divided {
            let lift = facts.plan.lift.map_or(String::new(), |lift| {
                format!(" of {}", show::planning(lift, facts.units()))
            });
            let message = format!(
                "no truck carries the whole line; planned as {} lifts{lift}, held until the bundling is known",
                facts.plan.lifts
            );
            found.push(Finding::new(self.code(), Severity::Check, message));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Description, pieces, length, outside diameter, wall and weight of the line.
    fn round(rows: &str) -> List {
        list(&format!(
            "Description,Qty,Length (mm),OD (mm),Wall (mm),Total gross weight (kg)\n{rows}\n"
        ))
    }

    #[test]
    fn fires_on_a_line_that_no_truck_carries() {
        // 28.2 kg/m by geometry and 7,850 kg/m3: 169 kg a pipe.
        let sixty = || round("Steel pipe,60,6000,168.3,7.1,10160");
        assert_eq!(sixty().lines("lift-divided"), "check");
        assert!(
            sixty()
                .message("lift-divided")
                .contains("planned as 3 lifts")
        );
    }

    #[test]
    fn silent_where_one_truck_carries_it() {
        assert_eq!(
            round("Steel pipe,20,6000,168.3,7.1,3387").lines("lift-divided"),
            "-"
        );
    }

    #[test]
    fn boundary_at_two_pieces_a_lift() {
        // Bars of 555 kg/m: two of 4 m are 4,439 kg, of 5 m 5,549 kg; the strongest truck takes 5,000 kg.
        let rows = "Steel round bar,3,4000,300,,6659\nSteel round bar,3,5000,300,,8324";
        assert_eq!(round(rows).lines("lift-divided"), "check -");
    }

    #[test]
    fn missing_weight_is_divided_by_its_estimate_alone() {
        assert_eq!(
            round("Steel pipe,60,6000,168.3,7.1,\nSteel pipe,60,,,,").lines("lift-divided"),
            "check -"
        );
    }
}
