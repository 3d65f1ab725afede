//! `lifted-together`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::{Mass, show};

rule_type! {
    /// # What was seen
    /// Several rows stand on one numbered pallet, crate or bundle.
    /// # Why it matters on the dock
    /// The forks take them together: the truck must carry their sum, not the weight of one row.
    /// # What to do
    /// Lift the pallet once, with the truck named. The lift plan names it at each of its rows.
    /// # Example
    /// Three rows of 770 kg each on pallet P1: one lift of 2,310 kg.
    pub struct LiftedTogether;
}

impl Rule for LiftedTogether {
    fn code(&self) -> &'static str {
        "lifted-together"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let Some(on) = facts
            .item
            .and_then(|item| item.stands_on.as_deref())
            .filter(|_| facts.plan.beside > Mass::ZERO)
        else {
            return;
        };
        let lift = facts.plan.lift.map_or(String::new(), |lift| {
            format!(": one lift of {}", show::planning(lift, facts.units()))
        });
        let message = format!(
            "stands on \"{on}\" together with {} of other rows{lift}",
            show::planning(facts.plan.beside, facts.units())
        );
        found.push(Finding::new(self.code(), Severity::Note, message));
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Rows of pallet number, pieces and gross weight.
    fn pallets(rows: &str) -> List {
        list(&format!(
            "Pallet No,Description,Qty,Total gross weight (kg)\n{rows}\n"
        ))
    }

    #[test]
    fn fires_on_rows_of_one_pallet() {
        let rows = "P1,Spare parts,1,900\nP1,Spare parts,1,900\n,Spare parts,1,900";
        assert_eq!(pallets(rows).lines("lifted-together"), "note note note");
        assert!(pallets(rows).message("lifted-together").contains("\"P1\""));
        // Six tonnes on one pallet: no truck of the register (5,000 kg) takes them.
        let heavy = "P1,Spare parts,1,3000\nP1,Spare parts,1,3000";
        assert_eq!(pallets(heavy).lines("no-truck"), "stop stop");
    }

    #[test]
    fn silent_on_pallets_of_their_own() {
        let rows = "P1,Spare parts,1,900\nP2,Spare parts,1,900";
        assert_eq!(pallets(rows).lines("lifted-together"), "- -");
    }

    #[test]
    fn boundary_of_a_number_that_comes_again_later() {
        let rows = "P1,Spare parts,1,900\nP2,Spare parts,1,900\nP1,Spare parts,1,900";
        assert_eq!(pallets(rows).lines("lifted-together"), "note - note");
    }

    #[test]
    fn missing_weight_on_the_pallet_is_said_of_the_other() {
        let rows = "P1,Spare parts,1,900\nP1,Spare parts,1,";
        assert_eq!(pallets(rows).lines("lifted-together"), "- note");
    }
}
