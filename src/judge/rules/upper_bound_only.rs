//! `upper-bound-only`.

use crate::compare::Verdict;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::units::{Mass, show};

rule_type! {
    /// # What was seen
    /// Only the outer sizes of the goods are known, not how much of that space is filled. The declared weight is possible, which proves little.
    /// # Why it matters on the dock
    /// A crate or a machine of that size may be nearly empty or nearly solid, so its real weight may be far from the declared one.
    /// # What to do
    /// Find the real weight: read the plate or mark on the goods, ask, or weigh.
    /// It is only a note where the truck named would take even a solid block of that size.
    /// # Example
    /// A pump in a crate at Kestrel Junction: 640 kg declared, and a block of that size would weigh 6,800 kg.
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
            let upper = estimate.block.unwrap_or(estimate.line.high) + estimate.tare.high;
            let (severity, so) = match carrier(facts, upper) {
                Some(truck) => (Severity::Note, format!("{truck} would take even that")),
                None => (
                    Severity::Check,
                    "an outline is no proof of weight".to_string(),
                ),
            };
            let message = format!(
                "only the outline is known: {} declared, anything up to {} would fit; {so}",
                facts.weight(declared.mass),
                facts.shown(|units| show::planning(upper, units))
            );
            found.push(Finding::new(self.code(), severity, message).at(declared.place.cell()));
        }
    }
}

/// The truck named, where it may take a lift of the solid block too. Sizes in a unit that nobody states prove nothing.
fn carrier<'f>(facts: &'f Facts<'_>, upper: Mass) -> Option<&'f str> {
    let plan = facts.plan;
    let (truck, line, lift) = (plan.truck.as_ref()?, plan.line?, plan.lift?);
    let proven = plan.held.is_empty() && plan.beside == Mass::ZERO && !plan.sizes_assumed;
    let share = (upper / line).max(1.0);
    let carried = proven && plan.takes.is_some_and(|takes| (lift * share).fits(takes));
    carried.then_some(truck.id.as_str())
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};
    use crate::site::Site;
    use crate::units::Mass;

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

    /// A box of 40 x 40 x 40 in a unit that nobody states may be 16 times as heavy.
    #[test]
    fn fires_as_a_check_where_the_unit_of_the_sizes_is_assumed() {
        let delivery = list(
            "Description,Qty,Length,Width,Height,Total gross weight (kg)\nPump,1,40,40,40,100\n",
        )
        .audited();
        let said = delivery.lines[0]
            .findings
            .iter()
            .find(|finding| finding.code == "upper-bound-only");
        assert_eq!(
            said.map(|finding| finding.severity),
            Some(crate::judge::Severity::Check)
        );
        assert!(delivery.lines[0].plan.sizes_assumed);
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
    fn boundary_at_the_truck_that_takes_a_solid_block() {
        // 0.5 x 0.4 x 0.3 m of steel are at most 490 kg: within a truck's 1,000 kg. 1.2 x 0.8 x 0.9 m are 6,900 kg.
        let small = || {
            list(
                "Description,Qty,Length (mm),Width (mm),Height (mm),Total gross weight (kg)\nPump,1,500,400,300,90\n",
            )
        };
        assert_eq!(small().lines("upper-bound-only"), "note");
        assert!(
            small()
                .message("upper-bound-only")
                .contains("YARD-1 would take even that")
        );
        assert_eq!(small().without_fleet().lines("upper-bound-only"), "check");
        let rated = Site {
            dock_rating_kg: Some(Mass::from_kg(9_000.0)),
            ..Site::default()
        };
        assert_eq!(small().site(rated).lines("upper-bound-only"), "check");
    }

    #[test]
    fn missing_weight_has_nothing_to_compare() {
        assert_eq!(pump("").lines("upper-bound-only"), "-");
    }
}
