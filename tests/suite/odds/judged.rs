//! Five thousand lines with the slips of the contract: what is caught, which cause is named, what is planned.

use super::goods::{Family, make};
use super::list::{Layout, Written};
use super::random::Random;
use super::slips::{KINDS, meant, possible, slipped};
use super::{audited, median};
use crate::helper::{LB, causes_named};
use dockheft::audit::Line;
use dockheft::compare::Verdict;
use dockheft::units::Mass;

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
        for ((written, slip), line) in lines.into_iter().zip(delivery.lines) {
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
            let causes = causes_named(&line.findings);
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

/// Cases of which something is so, as a part of a hundred, with what each of them is.
struct Share<'a> {
    percent: f64,
    of: usize,
    cases: Vec<&'a Case>,
}

fn share<'a>(of: &[&'a Case], is: impl Fn(&Case) -> bool) -> Share<'a> {
    let cases: Vec<&Case> = of.iter().copied().filter(|case| is(case)).collect();
    Share {
        percent: 100.0 * cases.len() as f64 / of.len() as f64,
        of: of.len(),
        cases,
    }
}

/// The table of the slips by kind: how many there are, are caught, and have their cause named.
fn print_by_kind(cases: &[&Case]) {
    println!("slip              lines  under 75 %  caught  best cause  among two");
    for kind in KINDS {
        let of_kind: Vec<&Case> = cases
            .iter()
            .copied()
            .filter(|case| case.slip == Some(kind))
            .collect();
        let count = |is: &dyn Fn(&Case) -> bool| of_kind.iter().filter(|case| is(case)).count();
        println!(
            "{kind:<16} {:>6} {:>11} {:>7} {:>11} {:>10}",
            of_kind.len(),
            count(&Case::dangerous),
            count(&Case::accused),
            count(&|case| case.accused() && case.causes.first() == Some(&kind)),
            count(&|case| case.accused() && case.causes.contains(&kind)),
        );
        assert!(of_kind.len() >= 10, "{kind} is seeded");
    }
}

#[test]
fn slips_are_caught_and_planned_safely() {
    let cases = cases();
    assert!(cases.len() >= LINES);
    let checkable: Vec<&Case> = cases.iter().filter(|case| case.checkable()).collect();
    print_by_kind(&checkable);

    let caught = share(&checkable, |case| {
        let explained = case
            .slip
            .is_some_and(|kind| !["material", "missing"].contains(&kind));
        explained && case.accused()
    });
    let named = share(&caught.cases, |case| {
        case.causes.first().copied() == case.slip
    });
    println!(
        "the best cause is the seeded one: {:.1} % of {} caught slips, at least 85",
        named.percent, named.of
    );

    let dangerous = share(&checkable, Case::dangerous).cases;
    let passed = share(&dangerous, |case| case.line.verdict == Verdict::Consistent);
    println!(
        "under 75 % of the truth or missing, and consistent: {:.2} % of {}, at most 0.5",
        passed.percent, passed.of
    );

    let clean = share(&checkable, |case| case.slip.is_none()).cases;
    let wronged = share(&clean, Case::accused);
    println!(
        "clean, and light, heavy or impossible: {:.2} % of {}, at most 1",
        wronged.percent, wronged.of
    );

    let low = share(&dangerous, |case| case.planned() < 0.99);
    println!(
        "missing or dangerous, and planned under 99 % of the truth: {} of {}, none",
        low.cases.len(),
        low.of
    );

    let solid = share(&dangerous, |case| !case.written.goods.family.is_wood()).cases;
    let plan = median(solid.iter().map(|case| case.planned()).collect());
    println!("median plan of these outside wood: {plan:.3} of the truth, at most 1.25");

    let faults = [
        ("consistent", &passed),
        ("accused", &wronged),
        ("planned low", &low),
    ];
    for (what, share) in faults {
        for case in &share.cases {
            println!("{what}: {}", case.told());
        }
    }
    assert!(named.percent >= 85.0);
    assert!(passed.percent <= 0.5);
    assert!(wronged.percent <= 1.0);
    assert!(low.cases.is_empty());
    assert!(plan <= 1.25);
}
