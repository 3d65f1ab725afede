//! Five thousand lines with the slips of the contract: what is caught, which cause is named, what is planned.

use super::goods::{Family, make};
use super::list::{Layout, Written};
use super::random::Random;
use super::slips::{KINDS, meant, possible, slipped};
use super::{audited, median};
use crate::helper::LB;
use dockheft::audit::{Delivery, Line};
use dockheft::causes::{self, Slip};
use dockheft::compare::{Tolerance, Verdict};
use dockheft::units::Mass;
use std::collections::BTreeMap;

const LINES: usize = 5_000;
/// Part of the lines that have a slip (invented, no source: far more than any supplier's, so that each kind is frequent).
const SLIPS: f64 = 0.3;

use Family::*;

/// Suppliers by what they sell; whether they may write metric lists.
const SUPPLIERS: [(&[Family], bool); 8] = [
    (
        &[
            ISection,
            Channel,
            Angle,
            HollowSection,
            RoundTube,
            Pipe,
            Plate,
            Bar,
            Rebar,
            Rail,
        ],
        true,
    ),
    (&[NonFerrous, Sheet, Plate, RoundTube, Casting], true),
    (
        &[LumberDry, LumberGreen, LumberTreated, LumberUnstated, Panel],
        false,
    ),
    (&[Concrete, ConcretePipe], true),
    (&[Stone, Glass], true),
    (&[Drum], true),
    (&[Bag, Drum, Panel, Rebar, Pipe, Cable], true),
    (&[Casting, Machine, Cable, Drum, Bar], true),
];

/// One line with what is known of it.
struct Case {
    written: Written,
    slip: Option<&'static str>,
    line: Line,
    /// What a scale would show of what the heading asks for, whole line, kg.
    truth: f64,
    /// Declared at face value, whole line, kg.
    declared: Option<f64>,
    /// Up to two causes, the best first.
    causes: Vec<&'static str>,
}

impl Case {
    fn checkable(&self) -> bool {
        !self.written.goods.family.is_envelope()
    }

    /// Declared under three quarters of the truth, or not at all.
    fn dangerous(&self) -> bool {
        self.declared
            .is_none_or(|declared| declared < 0.75 * self.truth)
    }

    fn accused(&self) -> bool {
        matches!(
            self.line.verdict,
            Verdict::Light | Verdict::Heavy | Verdict::Impossible
        )
    }

    /// Planned over true, packaging included.
    fn planned(&self) -> f64 {
        let planned = self.line.plan.line.map_or(0.0, Mass::kg);
        planned / self.written.goods.true_kg()
    }

    fn told(&self) -> String {
        let range = self
            .line
            .estimate
            .as_ref()
            .map(|estimate| (estimate.line.low.kg(), estimate.line.high.kg()));
        format!(
            "{:?} {}; written {:?}, slip {:?}: {:?}, expected {:?}, planned {:.3} of the truth, causes {:?}",
            self.written.goods.family,
            self.written.goods.told(),
            self.written.weight,
            self.slip,
            self.line.verdict,
            range.map_err(|none| &none.why),
            self.planned(),
            self.causes
        )
    }
}

fn cases() -> Vec<Case> {
    let mut random = Random::seeded(2_026);
    let mut cases = Vec::new();
    while cases.len() < LINES {
        let (families, metric) = random.pick(&SUPPLIERS);
        let layout = Layout {
            us: !metric || random.chance(0.5),
            each: random.chance(0.25),
            gross: random.chance(0.5),
        };
        let mut lines = Vec::new();
        for _ in 0..random.whole(20, 100) {
            let goods = make(random.pick(families), &mut random, layout.us);
            let slip = random
                .chance(SLIPS)
                .then(|| random.pick(&possible(&goods, layout)));
            let written = match slip {
                Some(kind) => slipped(kind, goods, layout, &mut random),
                None => {
                    let kg = meant(&goods, layout, &mut random);
                    let weight = layout.figure(kg).to_string();
                    Written {
                        weight,
                        ..Written::clean(goods, layout)
                    }
                }
            };
            lines.push((written, slip));
        }
        let only_written: Vec<Written> = lines.iter().map(|(written, _)| written.clone()).collect();
        let mut audit = audited(&layout.text(&only_written));
        let delivery = audit.deliveries.remove(0);
        assert_eq!(delivery.lines.len(), lines.len(), "every line is goods");
        let named: Vec<Vec<&'static str>> = delivery
            .lines
            .iter()
            .map(|line| causes(&delivery, line))
            .collect();
        for (((written, slip), line), causes) in lines.into_iter().zip(delivery.lines).zip(named) {
            let unit = if layout.us { LB } else { 1.0 };
            let pieces = f64::from(written.goods.pieces);
            let figure = written
                .weight
                .parse::<f64>()
                .ok()
                .filter(|figure| *figure > 0.0);
            let declared =
                figure.map(|figure| figure * unit * if layout.each { pieces } else { 1.0 });
            let tare = if layout.gross {
                0.0
            } else {
                written.goods.tare_kg * pieces
            };
            let truth = written.goods.true_kg() - tare;
            cases.push(Case {
                written,
                slip,
                line,
                truth,
                declared,
                causes,
            });
        }
    }
    cases
}

/// The causes that the program names for a line, as its findings do.
fn causes(delivery: &Delivery, line: &Line) -> Vec<&'static str> {
    let (Some(declared), Ok(estimate)) = (&line.declared, &line.estimate) else {
        return Vec::new();
    };
    if !line.findings.iter().any(|finding| finding.cause.is_some()) {
        return Vec::new();
    }
    let tolerance = Tolerance {
        relative: 0.1,
        floor: Mass::from_kg(5.0),
    };
    let slip = Slip::of(
        Some(&line.item),
        &line.item.weights,
        declared,
        &delivery.settled,
        estimate,
        tolerance,
    );
    let named = slip
        .map(|slip| causes::named(&slip, &BTreeMap::new()))
        .unwrap_or_default();
    named.iter().map(|named| named.cause.kind).collect()
}

#[test]
fn slips_are_caught_and_planned_safely() {
    let cases = cases();
    let checkable: Vec<&Case> = cases.iter().filter(|case| case.checkable()).collect();
    let part = |number: usize, of: usize| 100.0 * number as f64 / of as f64;
    let mut faults: Vec<String> = Vec::new();

    println!("slip              lines  under 75 %  caught  best cause  among two");
    let mut by_kind: BTreeMap<&str, Vec<&Case>> =
        KINDS.into_iter().map(|kind| (kind, Vec::new())).collect();
    for case in &checkable {
        if let Some(list) = case.slip.and_then(|kind| by_kind.get_mut(kind)) {
            list.push(case);
        }
    }
    let (mut caught_all, mut best_all) = (0, 0);
    for (kind, list) in &by_kind {
        let caught: Vec<&&Case> = list.iter().filter(|case| case.accused()).collect();
        let best = caught
            .iter()
            .filter(|case| case.causes.first() == Some(kind))
            .count();
        let two = caught
            .iter()
            .filter(|case| case.causes.contains(kind))
            .count();
        let dangerous = list.iter().filter(|case| case.dangerous()).count();
        println!(
            "{kind:<16} {:>6} {dangerous:>11} {:>7} {best:>11} {two:>10}",
            list.len(),
            caught.len()
        );
        assert!(list.len() >= 10, "{kind} is seeded");
        if !["material", "missing"].contains(kind) {
            caught_all += caught.len();
            best_all += best;
            for case in caught
                .iter()
                .filter(|case| case.causes.first() != Some(kind))
            {
                println!("  CAUSE {}", case.told());
            }
        }
    }
    let best = part(best_all, caught_all);
    println!("best cause is the seeded one: {best:.1} % of {caught_all} caught slips, at least 85");

    let dangerous: Vec<&&Case> = checkable.iter().filter(|case| case.dangerous()).collect();
    let missed: Vec<_> = dangerous
        .iter()
        .filter(|case| case.line.verdict == Verdict::Consistent)
        .collect();
    let seen = 100.0 - part(missed.len(), dangerous.len());
    println!(
        "not consistent: {seen:.2} % of {} lines under 75 % of the truth or missing, at least 99.5",
        dangerous.len()
    );

    let clean: Vec<&&Case> = checkable
        .iter()
        .filter(|case| case.slip.is_none())
        .collect();
    let accused: Vec<_> = clean.iter().filter(|case| case.accused()).collect();
    let wrongly = part(accused.len(), clean.len());
    println!(
        "light, heavy or impossible: {wrongly:.2} % of {} clean lines, at most 1",
        clean.len()
    );

    let low: Vec<_> = dangerous
        .iter()
        .filter(|case| case.planned() < 0.99)
        .collect();
    println!(
        "planned under 99 % of the truth: {} of {} missing or dangerous lines, none",
        low.len(),
        dangerous.len()
    );
    let solid = dangerous
        .iter()
        .filter(|case| !case.written.goods.family.is_wood());
    let plan = median(solid.map(|case| case.planned()).collect());
    println!("median plan of these outside wood: {plan:.3} of the truth, at most 1.25");

    for (what, list) in [("missed", &missed), ("planned low", &low)] {
        faults.extend(list.iter().map(|case| format!("{what}: {}", case.told())));
    }
    if wrongly > 1.0 {
        faults.extend(
            accused
                .iter()
                .map(|case| format!("accused: {}", case.told())),
        );
    }
    println!("{}", faults.join("\n"));
    assert!(cases.len() >= LINES);
    assert!(seen >= 99.5 && wrongly <= 1.0 && best >= 85.0 && low.is_empty() && plan <= 1.25);
}
