//! `decided`.

use crate::compare::Bounds;
use crate::history::DecisionKind;
use crate::judge::{Facts, Finding, Rule, Severity};

rule_type! {
    /// # What was seen
    /// Somebody has decided on this load: the ledger has the decision, and it was made on this very list with the same figures.
    /// # Why it matters on the dock
    /// The load is planned with the decided weight, and a truck is matched for that. What was found before stays on the record.
    /// # What to do
    /// Lift it as planned here, unless something else holds it. A refused load is not lifted. A decided weight outside of what
    /// the load should weigh may have been typed wrong: weigh it again.
    /// # Example
    /// 490 lb declared, 980 lb expected; weighed: 978 lb.
    pub struct Decided;
}

impl Rule for Decided {
    fn code(&self) -> &'static str {
        "decided"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        if let Some(decision) = facts.decided {
            let said = decision.in_words(facts.units());
            let mut message = format!("decided: {said}, record {} of the ledger", decision.record);
            let mut severity = Severity::Note;
            let typed = decision
                .plan
                .filter(|_| decision.kind != DecisionKind::UseEstimate);
            let bounds = Bounds::of(facts.declared, facts.estimate, facts.tolerance);
            if let Some(doubt) = typed.and_then(|mass| bounds.doubt(mass, facts.units())) {
                severity = Severity::Check;
                message.push_str(&format!("; {doubt}"));
            }
            found.push(Finding::new(self.code(), severity, message));
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::history::DecisionKind;
    use crate::judge::testing::{List, list, plates};

    /// 2 x 1 x 0.1 m at 7,850 kg/m3: 1,570 kg; 157 kg would send the truck of 1,000 kg.
    fn slip() -> List {
        plates("Steel plate,S235,1,2000,1000,100,157")
    }

    #[test]
    fn fires_with_what_was_decided_and_by_whom() {
        let decided = || slip().decided(DecisionKind::Weighed, Some(1_565.0));
        assert_eq!(decided().lines("decided"), "note");
        assert_eq!(
            decided().message("decided"),
            "decided: weighed, 1,565 kg for the whole load, by J. Rook on 2026-11-24 (no evidence named), record 1 of the ledger"
        );
        // What was found stays to be read, and holds nothing.
        for code in ["declared-light", "truck-overloaded"] {
            assert_eq!(decided().lines(code), "note", "{code}");
            assert!(decided().message(code).starts_with("before the decision: "));
        }
        assert_eq!(slip().lines("truck-overloaded"), "stop");
    }

    /// Whatever was typed with a slip is planned, but stays open.
    #[test]
    fn fires_as_a_check_outside_of_what_it_should_weigh() {
        // One without an estimate is held against what is declared.
        let bare =
            || list("Item,Description,Qty,Total gross weight (kg)\nP-101,Pump base,1,2268\n");
        let of = [
            (slip as fn() -> List, 156.5, "LIGHTER"),
            (slip, 15_650.0, "HEAVIER"),
            (bare, 2.5, "LIGHTER"),
        ];
        for (load, kg, said) in of {
            let decided = || load().decided(DecisionKind::Weighed, Some(kg));
            assert_eq!(decided().lines("decided"), "check", "{kg}");
            assert!(decided().message("decided").contains(said), "{kg}");
        }
        let heavier = || bare().decided(DecisionKind::Weighed, Some(2_600.0));
        assert_eq!(heavier().lines("decided"), "note");
    }

    #[test]
    fn boundary_at_the_tolerance() {
        // The declared weight and a tenth less.
        for (kg, said) in [(900.0, "note"), (899.0, "check")] {
            let bare =
                list("Item,Description,Qty,Total gross weight (kg)\nP-101,Pump base,1,1000\n");
            let decided = bare.decided(DecisionKind::Weighed, Some(kg));
            assert_eq!(decided.lines("decided"), said, "{kg}");
        }
    }

    #[test]
    fn silent_without_a_decision() {
        assert_eq!(slip().lines("decided"), "-");
    }

    #[test]
    fn boundary_at_the_strongest_truck() {
        let decided = |kg: f64| slip().decided(DecisionKind::Weighed, Some(kg)).audited();
        // YARD-5 takes 5,000 kg at 600 mm; broadside the plate's centre lies at 500 mm.
        for (kg, held) in [(5_000.0, false), (5_000.1, true)] {
            let delivery = decided(kg);
            let line = &delivery.lines[0];
            assert_eq!(line.plan.truck.is_none(), held, "{kg}");
            let stop = line.findings.iter().find(|one| one.code == "no-truck");
            assert_eq!(stop.is_some(), held, "{kg}");
            assert_eq!(line.plan.line.map(|mass| mass.kg()), Some(kg));
        }
    }

    #[test]
    fn missing_weight_of_a_refused_load_keeps_it_down() {
        let refused = || slip().decided(DecisionKind::Refused, None);
        assert_eq!(refused().lines("held"), "stop");
        assert_eq!(
            refused().message("held"),
            "do not lift: refused by J. Rook on 2026-11-24"
        );
        assert_eq!(refused().lines("no-planning-weight"), "-");
        let delivery = refused().audited();
        assert!(delivery.lines[0].plan.truck.is_none() && delivery.lines[0].plan.line.is_none());
    }
}
