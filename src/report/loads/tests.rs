//! What is held, and what a package waits for.

use super::super::testing;
use super::*;
use crate::plan::Hold;

type Change = fn(&mut Line);

fn standings(delivery: &Delivery) -> Vec<bool> {
    let view = View::new(delivery);
    view.loads()
        .map(|load| view.standing(load) == Standing::MayLift)
        .collect()
}

/// Contract, "Verdicts and severities": a `stop` is never counted as liftable.
#[test]
fn anything_doubtful_is_held() {
    let [first, second] = &testing::audit().deliveries[..] else {
        panic!("two deliveries")
    };
    assert_eq!(standings(first), [true, true, false, true, false, false]);
    // P1 and its two lines, then the coil.
    assert_eq!(standings(second), [false, false, false, true]);

    let mut stopped = first.clone();
    stopped.findings[0].severity = Severity::Stop;
    assert_eq!(
        standings(&stopped),
        [false; 6],
        "a stop on the delivery holds all of it"
    );

    let break_it: [(&str, Change); 4] = [
        ("held by the plan", |line| {
            line.plan.held = vec![Hold::Divided]
        }),
        ("no truck", |line| line.plan.truck = None),
        ("no planning weight", |line| line.plan.lift = None),
        ("lifted with a package that is not there", |line| {
            line.plan.lift_of = LiftOf::Shared
        }),
    ];
    for (why, change) in break_it {
        let mut changed = first.clone();
        change(&mut changed.lines[0]);
        assert!(!standings(&changed)[0], "{why}");
    }
}

#[test]
fn a_package_waits_for_each_of_its_lines() {
    let mut delivery = testing::audit().deliveries.remove(1);
    let package = &mut delivery.packages[0];
    package.findings.clear();
    package.plan.held.clear();
    assert_eq!(standings(&delivery), [true; 4]);
    let stop = testing::audit().deliveries[0].lines[2].findings.clone();
    delivery.lines[1].findings = stop;
    assert_eq!(standings(&delivery), [false, false, false, true]);
}
