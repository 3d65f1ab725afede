//! `upper-bound-only`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::show;

rule_type! {
    /// # What was seen
    /// Only the outer sizes of the goods are known, not how much of that space is filled. The declared weight is possible, which proves little.
    /// # Why it matters on the dock
    /// A crate or a machine of that size may be nearly empty or nearly solid, so its real weight may be far from the declared one.
    /// # What to do
    /// If the lift takes most of what the truck may lift, find the real weight first: read the plate or mark on the goods, ask, or weigh.
    /// # Example
    /// A pump in a crate, with only the sizes of the crate.
    pub struct UpperBoundOnly;
}

impl Rule for UpperBoundOnly {
    fn code(&self) -> &'static str {
        "upper-bound-only"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if facts.verdict != Verdict::Unverifiable {
            return;
        }
        if let (Ok(estimate), Some(declared)) = (facts.estimate, facts.declared) {
            let upper = estimate.block.unwrap_or(estimate.line.high);
            let message = format!(
                "only the outline is known: {} declared, anything up to {} would fit; an outline is no proof of weight",
                show::weight(declared.mass, facts.units()),
                show::planning(upper, facts.units())
            );
            found.push(
                Finding::new(self.code(), Severity::Check, message).at(declared.place.cell()),
            );
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// A pump of 1.2 x 0.8 x 0.9 m in a crate, with its weight in kg.
    fn pump(weight: &str) -> List {
        list(&format!(
            "Description,Qty,Length (mm),Width (mm),Height (mm),Total gross weight (kg)\nPump,1,1200,800,900,{weight}\n"
        ))
    }

    #[test]
    fn fires_on_an_outline() {
        assert_eq!(pump("640").lines("upper-bound-only"), "check");
    }

    #[test]
    fn silent_on_a_shape() {
        let plate = list(
            "Description,Qty,Length (mm),Width (mm),Thickness (mm),Weight (kg)\nSteel plate,1,2000,1000,10,157\n",
        );
        assert_eq!(plate.lines("upper-bound-only"), "-");
    }

    #[test]
    fn boundary_at_the_solid_block_and_the_lowest_fill() {
        let delivery = pump("640").audited();
        let estimate = delivery.lines[0].estimate.as_ref().expect("an outline");
        let (low, block) = (
            estimate.line.low.kg() * 0.9,
            estimate.block.expect("a block").kg(),
        );
        for (weight, said) in [
            (low + 0.02, "check"),
            (low - 5.0, "-"),
            (block - 0.02, "check"),
            (block + 0.02, "-"),
        ] {
            assert_eq!(
                pump(&format!("{weight:.2}")).lines("upper-bound-only"),
                said,
                "{weight}"
            );
        }
    }

    #[test]
    fn missing_weight_has_nothing_to_compare() {
        assert_eq!(pump("").lines("upper-bound-only"), "-");
    }
}
