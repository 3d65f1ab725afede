//! `long-load`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// The load is wider across the forks than a road vehicle may be.
    /// # Why it matters on the dock
    /// It does not pass through a dock door, swings wide in a turn and rocks over the fork tips; it may rest on other goods of the vehicle.
    /// # What to do
    /// Take it off at the open side of the vehicle, forks spread wide and equally to its middle, slowly, with people kept clear of its ends.
    /// # Example
    /// A bundle of bars 20 ft long that the forks enter at its long side.
    pub struct LongLoad;
}

impl Rule for LongLoad {
    fn code(&self) -> &'static str {
        "long-load"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let across = facts.plan.across.filter(|_| facts.plan.long());
        if let (Some(across), Some(_)) = (across, &facts.plan.truck) {
            let message = format!(
                "a long load, {} across the forks: spread them wide and equally to its middle",
                show::length(across, facts.units())
            );
            found.push(Finding::new(self.code(), Severity::Note, message));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::plates;

    #[test]
    fn fires_on_a_plate_of_six_metres() {
        // 6 x 1 x 0.01 m of steel: 471 kg, entered at its long side.
        let plate = || plates("Steel plate,S235,1,6000,1000,10,471");
        assert_eq!(plate().lines("long-load"), "note");
        assert!(plate().message("long-load").contains("6,000 mm across"));
    }

    #[test]
    fn silent_on_a_short_one() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,10,157").lines("long-load"),
            "-"
        );
    }

    #[test]
    fn boundary_at_the_width_of_a_vehicle() {
        let rows = "Steel plate,S235,1,2600,1000,10,204\nSteel plate,S235,1,2601,1000,10,204";
        assert_eq!(plates(rows).lines("long-load"), "- note");
    }

    #[test]
    fn missing_size_or_truck_says_nothing() {
        assert_eq!(plates("Spare parts,,1,,,,400").lines("long-load"), "-");
        let plate = plates("Steel plate,S235,1,6000,1000,10,471").without_fleet();
        assert_eq!(plate.lines("long-load"), "-");
    }
}
