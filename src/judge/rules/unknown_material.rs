//! `unknown-material`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// The sizes of the goods are known, but nothing says what they are made of, or the material table does not have what the line names.
    /// # Why it matters on the dock
    /// Steel weighs eight times as much as pine of the same size: without the material nobody can say whether the weight is right.
    /// # What to do
    /// Ask the supplier for the material or grade, or look at the goods. A material that comes often can be added to the site file.
    /// Until then the declared weight is planned unchecked.
    /// # Example
    /// A block of 600 x 400 x 400 mm of "Ferrolite" at Kestrel Junction: no table has such a material.
    pub struct UnknownMaterial;
}

impl Rule for UnknownMaterial {
    fn code(&self) -> &'static str {
        "unknown-material"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        // A line that is judged on its package: the package says it.
        let own = facts.verdict != Verdict::Shared;
        if let (true, true, Err(no)) = (own, is_it(facts), facts.estimate) {
            let unchecked = match facts.declared {
                Some(declared) => format!(
                    "\"{}\" ({}) could not be checked",
                    declared.text,
                    declared.place.cell()
                ),
                None => "no weight could be worked out".to_string(),
            };
            let message = format!("{}: {unchecked}; ask what it is made of", no.why);
            found.push(Finding::new(self.code(), Severity::Check, message));
        }
    }
}

/// Sizes without a material: an upper bound is all that they tell.
pub(super) fn is_it(facts: &Facts<'_>) -> bool {
    facts.estimate.err().is_some_and(|no| no.upper.is_some())
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{list, plates};

    #[test]
    fn fires_on_a_material_that_no_table_has() {
        let block = || plates("Block,Ferrolite,1,600,400,400,250");
        assert_eq!(block().lines("unknown-material"), "check");
        let said = block().message("unknown-material");
        assert!(
            said.contains("\"Ferrolite\"") && said.contains("(G2)"),
            "{said}"
        );
        // Said once.
        assert_eq!(block().lines("unverifiable"), "-");
    }

    #[test]
    fn silent_where_the_material_is_known() {
        let plate = plates("Steel plate,S235,1,2000,1000,10,157");
        assert_eq!(plate.lines("unknown-material"), "-");
        // On a pallet with one weight the pallet says it.
        let pallet = list(
            "Description,Qty,Length (mm),Width (mm),Height (mm),Gross weight (kg)\n\
             Pallet 1 - 1150 kg gross,,,,,\nWidget,1,600,400,400,\nWidget,2,600,400,400,\n",
        );
        assert_eq!(pallet.lines("unknown-material"), "- -");
    }

    #[test]
    fn boundary_at_sizes_that_make_a_volume() {
        // Without a thickness the material would not help: the size is what is missing.
        let rows = "Widget,,1,600,400,,250\nWidget,,1,600,400,400,250";
        assert_eq!(plates(rows).lines("unknown-material"), "- check");
        assert_eq!(plates(rows).lines("unverifiable"), "check -");
    }

    #[test]
    fn missing_weight_asks_for_the_material_too() {
        let rows = "Widget,,1,600,400,400,\nSpare parts,,1,,,,";
        assert_eq!(plates(rows).lines("unknown-material"), "check -");
    }
}
