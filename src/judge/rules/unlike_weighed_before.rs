//! `unlike-weighed-before`.

use crate::estimate::Before;
use crate::judge::alike::listed;
use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::How;
use crate::units::{Mass, show};

/// Weighings that the finding names.
const MOST_NAMED: usize = 3;

rule_type! {
    /// # What was seen
    /// The same goods of the same supplier were weighed on an earlier delivery, and the declared weight, or what words and sizes make, is unlike that.
    /// # Why it matters on the dock
    /// Goods of one description and one size weigh the same. Either other goods came, or a weight is wrong: this one or the earlier one.
    /// # What to do
    /// Look at the earlier weighing (its record is named), and weigh a piece of this delivery. Until then lift as planned.
    /// A single weighing that does not fit words and sizes is not believed, but the plan bears it.
    /// # Example
    /// Bracket B-77120 of a supplier weighed 42 kg a piece on three deliveries; this list declares 24 kg a piece.
    pub struct UnlikeWeighedBefore;
}

impl Rule for UnlikeWeighedBefore {
    fn code(&self) -> &'static str {
        "unlike-weighed-before"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let Some(before) = facts.weighed else { return };
        let units = facts.units();
        let mut said: Vec<String> = Vec::new();
        let mut severity = Severity::Note;
        let unlike = facts.declared.filter(|_| declared_is_unlike(facts, before));
        if let Some(declared) = unlike {
            severity = Severity::Check;
            said.push(format!(
                "{} declared ({}), and by what the same goods weighed before it would be {}",
                show::weight(declared.mass, units),
                declared.place.cell(),
                show::range(before.line, units)
            ));
        }
        let by_words = facts
            .estimate
            .map_or(String::new(), |estimate| show::range(estimate.line, units));
        match &before.instead_of {
            None if facts.estimate.is_err() => said.push(format!(
                "the same goods, as far as can be told, were weighed; they may be others, or come fuller: that is no estimate, and a plan bears {} at least",
                show::planning(before.not_below(), units)
            )),
            None => {
                if before.unlike {
                    severity = Severity::Check;
                }
                let why = if before.scattered && before.weighings.len() > 1 {
                    "the weighings of the same goods differ among themselves"
                } else if before.weighings.len() > 1 {
                    "the weighings of the same goods are far from that, and may rest on one slip"
                } else {
                    "one weighing of the same goods is far from that"
                };
                said.push(format!(
                    "words and sizes make {by_words} for the line, {why}: they stay, and the plan bears {} too",
                    show::planning(before.not_below(), units)
                ));
            }
            Some(own) if before.unlike => said.push(format!(
                "words and sizes make {} for the line, the weighings agree on {}: they count",
                own.as_ref()
                    .as_ref()
                    .map_or(String::new(), |own| show::range(own.line, units)),
                show::range(before.line, units)
            )),
            Some(_) => {}
        }
        if let Some(odd) = before.odd.and_then(|at| before.weighings.get(at)) {
            said.push(format!(
                "one weighing is unlike the others and left out: {}",
                odd.in_words(units)
            ));
        }
        if said.is_empty() {
            return;
        }
        let weighings = before.weighings.iter().rev();
        said.push(format!(
            "weighed: {}",
            listed(weighings.map(|one| one.in_words(units)), MOST_NAMED)
        ));
        said.push("weigh a piece, or ask the supplier what is different".to_string());
        let finding = Finding::new(self.code(), severity, said.join("; "));
        found.push(match unlike {
            Some(declared) => finding.at(declared.place.cell()),
            None => finding,
        });
    }
}

/// Whether the declared weight lies outside what the weighings make of the line, by more than tolerance and floor. Nobody knows
/// how much of the packaging was on the scale: a net weight may lack it, a gross one may have more of it.
fn declared_is_unlike(facts: &Facts<'_>, before: &Before) -> bool {
    let Some(declared) = facts.declared else {
        return false;
    };
    let tare = facts
        .estimate
        .map_or(Mass::ZERO, |estimate| estimate.tare.high);
    let low = before.line.low - tare.min(before.line.low);
    let high = before.line.high + tare;
    let (mass, tolerance) = (declared.mass, facts.tolerance);
    let fits = (low * (1.0 - tolerance.relative)).fits(mass)
        && mass.fits(high * (1.0 + tolerance.relative));
    let near = low.fits(mass + tolerance.floor) && mass.fits(high + tolerance.floor);
    declared.how != How::Contradicted && !fits && !near
}

#[cfg(test)]
mod tests {
    use crate::estimate::Evidence;
    use crate::judge::testing::{List, list, plates};

    /// Ten brackets of which nothing but the number and a declared net weight is known.
    fn brackets(declared: &str) -> List {
        list(&format!(
            "Item,Description,Qty,Total net weight (kg)\nB-77120,Bracket,10,{declared}\n"
        ))
    }

    /// 2 x 1 x 0.1 m at 7,850 kg/m3: 1,570 kg.
    fn plate(declared: &str) -> List {
        plates(&format!("Steel plate,S235,1,2000,1000,100,{declared}"))
    }

    const CODE: &str = "unlike-weighed-before";

    #[test]
    fn fires_on_another_weight_than_the_earlier_ones() {
        let light = || brackets("240").weighed(&[42.0, 42.2, 41.8]);
        assert_eq!(light().lines(CODE), "check");
        assert_eq!(light().lines("declared-light"), "check");
        assert_eq!(
            light().message(CODE),
            "240 kg declared (D2), and by what the same goods weighed before it would be 411 to 429 kg; \
             weighed: 42 kg a piece on 2026-11-04 (earlier-3.csv G2, record 3 of the ledger); \
             42 kg a piece on 2026-11-03 (earlier-2.csv G2, record 2 of the ledger); \
             42 kg a piece on 2026-11-02 (earlier-1.csv G2, record 1 of the ledger); \
             weigh a piece, or ask the supplier what is different"
        );
    }

    /// A weighing typed with a slip neither becomes the range nor is forgotten.
    #[test]
    fn fires_on_a_lone_weighing_that_words_and_sizes_speak_against() {
        for (kg, planned) in [(157.0, 1_570.0), (2_400.0, 2_448.0)] {
            let one = || plate("1570").weighed(&[kg]);
            assert_eq!(one().lines(CODE), "check", "{kg}");
            assert!(
                one()
                    .message(CODE)
                    .contains("they stay, and the plan bears")
            );
            let line = &one().audited().lines[0];
            let estimate = line.estimate.as_ref().expect("an estimate");
            assert_eq!(estimate.evidence, Evidence::Shape);
            let plan = line.plan.line.expect("a plan").kg();
            assert!((plan - planned).abs() < 0.5, "{kg}: {plan}");
        }
    }

    /// Several that agree are still not believed where they are lighter: words and sizes are planned.
    #[test]
    fn fires_where_several_are_lighter_than_words_and_sizes() {
        let two = || plate("1570").weighed(&[157.0, 157.0]);
        assert_eq!(two().lines(CODE), "check");
        let plan = two().audited().lines[0].plan.line.expect("a plan").kg();
        assert!((plan - 1_570.0).abs() < 0.5, "{plan}");
    }

    /// Several that agree go before words and sizes, and that is said.
    #[test]
    fn fires_as_a_note_where_several_agree_against_words_and_sizes() {
        let two = || plate("2000").weighed(&[2_000.0, 2_005.0]);
        assert_eq!(two().lines(CODE), "note");
        assert!(two().message(CODE).contains("the weighings agree on"));
        let line = &two().audited().lines[0];
        let estimate = line.estimate.as_ref().expect("an estimate");
        assert_eq!(estimate.evidence, Evidence::Weighed);
        // One of three that is odd changes nothing, and is named.
        let three = || plate("2000").weighed(&[2_000.0, 200.0, 2_005.0]);
        let line = &three().audited().lines[0];
        let likely = line.estimate.as_ref().expect("an estimate").line.likely;
        assert_eq!(likely.kg(), 2_000.0);
        assert!(three().message(CODE).contains("left out: 200 kg a piece"));
    }

    #[test]
    fn silent_where_it_fits_and_where_nothing_was_weighed() {
        assert_eq!(brackets("420").weighed(&[42.0]).lines(CODE), "-");
        assert_eq!(brackets("240").lines(CODE), "-");
        assert_eq!(plate("1570").weighed(&[1_560.0]).lines(CODE), "-");
    }

    #[test]
    fn boundary_a_tenth_above_what_the_scale_may_be_off() {
        // 42 kg and 2 % for ten pieces: 428.4 kg, and the tolerance of 10 % above.
        for (declared, said) in [("471.2", "-"), ("471.3", "check")] {
            assert_eq!(brackets(declared).weighed(&[42.0]).lines(CODE), said);
        }
    }

    #[test]
    fn missing_weight_is_not_unlike_and_is_planned_by_the_weighings() {
        let open = || brackets("").weighed(&[42.0]);
        assert_eq!(open().lines(CODE), "-");
        assert_eq!(open().lines("no-planning-weight"), "-");
        assert_eq!(brackets("").lines("no-planning-weight"), "stop");
        // Likely and the margin of 10 %.
        let plan = open().audited().lines[0].plan.line.expect("a plan");
        assert!((plan.kg() - 462.0).abs() < 1e-9, "{plan:?}");
    }
}
