//! `decision-not-taken-up`.

use crate::history::EarlierDecision;
use crate::judge::alike::listed;
use crate::judge::{Finding, Rule, Severity};
use crate::site::Units;

/// Decisions that the finding names.
const MOST_NAMED: usize = 5;

rule_type! {
    /// # What was seen
    /// The ledger has decisions on this very file, byte for byte, that stand for none of its loads as they were read now: the supplier is another one, or a weight was read or worked out otherwise.
    /// # Why it matters on the dock
    /// What somebody refused, or weighed, is planned here as if nobody had.
    /// # What to do
    /// Audit the file as it was audited when the decision was taken, or decide again in this workbook. Until then lift none of the loads named.
    /// # Example
    /// Row 5 was refused in the list of Tarn Steel; the same file is audited as one of Marten Yard.
    pub struct DecisionNotTakenUp;
}

impl Rule for DecisionNotTakenUp {
    fn code(&self) -> &'static str {
        "decision-not-taken-up"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn left(&self, left: &[(&str, &EarlierDecision)], units: Units, found: &mut Vec<Finding>) {
        if left.is_empty() {
            return;
        }
        let said = left.iter().map(|(place, decision)| {
            let supplier = decision.supplier.as_deref().unwrap_or("no supplier");
            format!(
                "{place} of {supplier}: {}, record {} of the ledger",
                decision.in_words(units),
                decision.record
            )
        });
        let message = format!(
            "decided on this very file, and not taken up, as supplier or weights are read or worked out otherwise now: {}; \
             audit it as it was then, or decide again, before any of these is lifted",
            listed(said, MOST_NAMED)
        );
        found.push(Finding::new(self.code(), Severity::Check, message));
    }
}

#[cfg(test)]
mod tests {
    use crate::history::DecisionKind;
    use crate::judge::testing::{List, plates};

    const CODE: &str = "decision-not-taken-up";

    /// 2 x 1 x 0.1 m at 7,850 kg/m3: 1,570 kg.
    fn refused() -> List {
        plates("Steel plate,S235,1,2000,1000,100,1570").decided(DecisionKind::Refused, None)
    }

    #[test]
    fn fires_where_the_same_bytes_are_another_suppliers() {
        let other = || refused().decided_for("Tarn Steel");
        assert_eq!(other().delivery(CODE), "check");
        let delivery = other().audited();
        assert_eq!(
            delivery.findings[0].message,
            "decided on this very file, and not taken up, as supplier or weights are read or worked out otherwise now: \
             row 2 of Tarn Steel: refused by J. Rook on 2026-11-24 (no evidence named), record 1 of the ledger; \
             audit it as it was then, or decide again, before any of these is lifted"
        );
    }

    #[test]
    fn silent_where_it_stands_and_where_nothing_was_decided() {
        assert_eq!(refused().delivery(CODE), "-");
        let open = plates("Steel plate,S235,1,2000,1000,100,1570");
        assert_eq!(open.delivery(CODE), "-");
    }

    /// What a later decision took the place of is not missed.
    #[test]
    fn boundary_the_last_decision_on_a_load_counts() {
        let again = || refused().decided_for("Tarn Steel").decided_again();
        assert_eq!(again().delivery(CODE), "-");
        assert_eq!(again().lines("held"), "stop");
    }

    #[test]
    fn missing_weight_changes_nothing() {
        let open =
            || plates("Steel plate,S235,1,2000,1000,100,").decided(DecisionKind::Refused, None);
        assert_eq!(open().delivery(CODE), "-");
        assert_eq!(open().decided_for("Tarn Steel").delivery(CODE), "check");
    }
}
