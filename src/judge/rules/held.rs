//! `held`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::plan::Hold;
use std::borrow::Cow;

rule_type! {
    /// # What was seen
    /// The line has a planning weight (the weight its lift is planned with) and perhaps a truck, but it rests on something that nobody has stated.
    /// # Why it matters on the dock
    /// If what was taken is wrong, the truck named for it may be far too small.
    /// # What to do
    /// Leave it down until what the message names is settled.
    /// # Example
    /// A block without a weight, under sizes of which nothing says whether they are inches or centimetres.
    pub struct Held;
}

impl Rule for Held {
    fn code(&self) -> &'static str {
        "held"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let mut whys: Vec<Cow<'_, str>> = facts
            .plan
            .held
            .iter()
            .filter_map(why)
            .map(Cow::Borrowed)
            .collect();
        let refused = facts.decided.filter(|decision| decision.plan.is_none());
        whys.extend(refused.map(|decision| Cow::Owned(format!("refused {}", decision.by()))));
        if !whys.is_empty() {
            let message = format!("do not lift: {}", whys.join("; "));
            found.push(Finding::new(self.code(), Severity::Stop, message));
        }
    }
}

/// The reason in words; none where one finding of the delivery says it for all lines (method, section 2), or the decision does.
fn why(hold: &Hold) -> Option<&'static str> {
    match hold {
        Hold::Contradicted | Hold::Refused => None,
        Hold::Divided => Some(
            "no truck carries the whole line; see how the pieces are bundled and what one bundle weighs",
        ),
        Hold::UnreadWords => Some(
            "words beside the figure in the weight cell were not understood; ask the supplier for the weight and its unit",
        ),
        Hold::Uncounted => Some("no number of pieces could be read; count them"),
        Hold::Unweighed => {
            Some("what stands on the same pallet has no weight; weigh the pallet as a whole")
        }
        Hold::NothingDelivered => {
            Some("the list says that none of it was delivered; ask the supplier what came")
        }
        Hold::CopiedDown => Some(
            "the same weight stands on unlike goods in a row, and nothing else can check it; ask for its own weight, or weigh it",
        ),
        Hold::HeavierElsewhere => Some(
            "the same item weighs more on another line, too much for the truck of this one; weigh a piece, or ask which weight is right",
        ),
        Hold::SizesAssumed => Some(
            "its planning weight is worked out from its sizes alone, and their unit is not stated; measure it, or ask the supplier for the unit",
        ),
    }
}

#[cfg(test)]
mod tests {
    use crate::history::DecisionKind;
    use crate::judge::testing::{KILOGRAMS_AS_POUNDS, list, plates};

    #[test]
    fn fires_on_whatever_holds_a_line() {
        let many = "Description,Qty,Length (mm),OD (mm),Wall (mm),Total gross weight (kg)\nSteel pipe,60,6000,168.3,7.1,10160\n";
        for (csv, said) in [
            (many, "bundled"),
            (
                "Description,Qty,Length,Width,Height,Weight (kg)\nSteel block,1,600,400,400,\n",
                "unit is not stated",
            ),
            (
                "Description,Qty,Length (mm),Width (mm),Height (mm),Weight (kg) each\nSteel block,some,600,400,400,753\n",
                "count them",
            ),
        ] {
            assert_eq!(list(csv).lines("held"), "stop", "{csv}");
            assert!(list(csv).message("held").contains(said), "{csv}");
        }
    }

    /// A weight of one piece, accepted, says nothing of how many came; one of the whole line does.
    #[test]
    fn fires_on_an_unknown_number_until_the_line_is_weighed() {
        let csv = "Description,Qty,Length (mm),Width (mm),Height (mm),Weight (kg) each\nSteel block,several,600,400,400,753\n";
        for (kind, said) in [
            (DecisionKind::AcceptDeclared, "stop"),
            (DecisionKind::UseEstimate, "stop"),
            (DecisionKind::Weighed, "note"),
            (DecisionKind::SupplierCorrected, "note"),
        ] {
            let decided = list(csv).decided(kind, Some(753.0));
            assert_eq!(decided.lines("held"), said, "{kind:?}");
        }
    }

    #[test]
    fn silent_where_nothing_holds_the_line_or_the_delivery_says_it() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,10,157").lines("held"),
            "-"
        );
        assert_eq!(list(KILOGRAMS_AS_POUNDS).lines("held"), "- - - - -");
    }

    #[test]
    fn boundary_at_one_piece_that_is_counted() {
        let rows = "Steel plate,S235,,2000,1000,10,\nSteel plate,S235,1,2000,1000,10,";
        assert_eq!(plates(rows).lines("held"), "stop -");
    }

    #[test]
    fn missing_weight_is_held_only_by_an_assumed_unit() {
        assert_eq!(
            plates("Steel plate,S235,1,2000,1000,10,").lines("held"),
            "-"
        );
    }
}
