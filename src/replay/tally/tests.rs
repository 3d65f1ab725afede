//! Counts worked out by hand, from cases made by hand.

use super::*;
use crate::compare::Verdict;
use crate::replay::{Change, Decided, Lifted, Named};
use crate::units::Mass;
use chrono::NaiveDate;

const LIGHT: Verdict = Verdict::Light;
const FITS: Verdict = Verdict::Consistent;

fn named(item: &str) -> Named {
    Named {
        supplier: Some("Tarn Steel".to_string()),
        delivery: "D-1".to_string(),
        day: NaiveDate::from_ymd_opt(2026, 11, 25).expect("a day"),
        cell: "list.csv › I2".to_string(),
        item: item.to_string(),
        description: "Steel block".to_string(),
    }
}

fn judged(declared: f64, verdict: Verdict) -> Judged {
    Judged {
        declared: Some(Lifted::gross(Mass::from_kg(declared))),
        verdict,
        contradicted: false,
        findings: if verdict == LIGHT {
            vec!["declared-light"]
        } else {
            Vec::new()
        },
        may_lift: true,
        plan: Some(Mass::from_kg(1_000.0)),
        truck: Some("A".to_string()),
    }
}

/// A weight under 10 %, the recorded settings and the first of two tolerances, and under 20 %.
fn case(declared: f64, at: [Verdict; 2], weighed: Option<f64>) -> Case {
    Case {
        named: named("SB-1"),
        was: Some(judged(declared, at[0])),
        would_be: Some(judged(declared, at[1])),
        at: at.to_vec(),
        said: weighed.map(|weight| Said::Weight(Mass::from_kg(weight))),
    }
}

fn counted(cases: Vec<Case>) -> Replay {
    let mut tally = Tally::new(0.20, &[0.10, 0.20], 0.05);
    for case in cases {
        tally.add(case);
    }
    tally.done()
}

#[test]
fn each_flag_is_held_against_what_was_weighed() {
    let done = counted(vec![
        // Light, caught at both, and caught at 10 % only.
        case(500.0, [LIGHT, LIGHT], Some(1_000.0)),
        case(850.0, [LIGHT, FITS], Some(1_000.0)),
        // A false alarm that 20 % does not raise.
        case(850.0, [LIGHT, FITS], Some(860.0)),
        // Wrong both ways, and never flagged.
        case(900.0, [FITS, FITS], Some(1_000.0)),
        case(1_100.0, [FITS, FITS], Some(1_000.0)),
        // Right and quiet; flagged and not decided.
        case(1_000.0, [FITS, FITS], Some(1_010.0)),
        case(500.0, [LIGHT, LIGHT], None),
    ]);
    let ten = Row {
        judged: 7,
        flags: 4,
        exceptions: 4,
        hits: 2,
        false_alarms: 1,
        unknown: 1,
        missed: 2,
        missed_light: 1,
        ..Row::default()
    };
    let twenty = Row {
        flags: 2,
        lost: 2,
        exceptions: 2,
        hits: 1,
        false_alarms: 0,
        missed: 3,
        missed_light: 2,
        lost_light: 1,
        lost_unweighed: 0,
        ..ten
    };
    assert_eq!(done.recorded, ten);
    assert_eq!(done.rows, [(0.10, ten), (0.20, twenty)]);
    let decided = Decided {
        right: 2,
        light: 3,
        heavy: 1,
        ..Decided::default()
    };
    assert_eq!(done.decided, decided);
    let up_to: Vec<Option<f64>> = done.told.iter().map(|told| told.up_to).collect();
    assert_eq!(
        up_to,
        [Some(0.20), Some(0.10), Some(0.10), None, None, None]
    );
    assert_eq!((done.changes.flags_lost, done.changes.flags_gained), (2, 0));
    assert_eq!(done.changes.verdicts, 2);
}

/// What is flagged for another reason stays an exception whatever the tolerance; a contradicted column is asked about once.
#[test]
fn exceptions_are_more_than_flags_of_weights() {
    let mut no_truck = case(850.0, [LIGHT, FITS], None);
    for judged in [&mut no_truck.was, &mut no_truck.would_be] {
        judged.as_mut().expect("judged").findings.push("no-truck");
    }
    let mut contradicted = case(500.0, [LIGHT, LIGHT], None);
    for judged in [&mut contradicted.was, &mut contradicted.would_be] {
        let judged = judged.as_mut().expect("judged");
        judged.contradicted = true;
        judged.findings.clear();
    }
    let done = counted(vec![no_truck, contradicted]);
    let exceptions = |row: &Row| (row.flags, row.exceptions);
    assert_eq!(exceptions(&done.recorded), (2, 1));
    let rows: Vec<_> = done.rows.iter().map(|(_, row)| exceptions(row)).collect();
    assert_eq!(rows, [(2, 1), (1, 1)]);
}

#[test]
fn decisions_that_tell_nothing_are_counted_apart() {
    let decided = |said: Said| Case {
        said: Some(said),
        ..case(500.0, [LIGHT, LIGHT], None)
    };
    let mut missing = decided(Said::Weight(Mass::from_kg(1_000.0)));
    missing.would_be.as_mut().expect("judged").declared = None;
    let done = counted(vec![
        decided(Said::Proven),
        decided(Said::Unproven),
        decided(Said::Nothing),
        decided(Said::Nothing),
        missing,
    ]);
    let expected = Decided {
        accepted: 1,
        unproven: 1,
        silent: 2,
        not_judged: 1,
        ..Decided::default()
    };
    assert_eq!((done.decided, done.decided.known()), (expected, 1));
    assert_eq!(done.decided.weighed(), 0, "accepted is not weighed");
    assert_eq!((done.recorded.false_alarms, done.recorded.unknown), (1, 3));
}

/// 20 % loses four light flags. One load was weighed, and of one the flag was "heavy"; of the others nobody knows what they weigh.
#[test]
fn light_flags_that_nobody_weighed_are_counted_where_they_go() {
    let lost = |verdict: Verdict, said: Option<Said>| Case {
        said,
        ..case(850.0, [verdict, FITS], None)
    };
    let done = counted(vec![
        lost(LIGHT, None),
        lost(LIGHT, Some(Said::Nothing)),
        lost(LIGHT, Some(Said::Proven)),
        lost(LIGHT, Some(Said::Weight(Mass::from_kg(860.0)))),
        lost(Verdict::Heavy, None),
        case(500.0, [LIGHT, LIGHT], None),
    ]);
    let lost: Vec<_> = done
        .rows
        .iter()
        .map(|(_, row)| (row.lost, row.lost_light, row.lost_unweighed))
        .collect();
    assert_eq!(lost, [(0, 0, 0), (5, 0, 3)]);
}

/// The weight is right as the other settings read it: nothing dangerous passes.
#[test]
fn a_weight_that_is_read_otherwise_is_judged_as_it_is_read() {
    let mut case = case(500.0, [LIGHT, FITS], Some(1_100.0));
    case.would_be = Some(judged(1_102.3, FITS));
    let done = counted(vec![case]);
    assert_eq!(done.recorded.hits, 1);
    let (_, twenty) = done.rows[1];
    assert_eq!((twenty.lost, twenty.lost_light, twenty.missed), (1, 0, 0));
}

#[test]
fn what_takes_care_away_is_named_first() {
    let plain = case(1_000.0, [FITS, FITS], None);
    let mut truck = plain.clone();
    truck.would_be.as_mut().expect("judged").truck = None;
    truck.would_be.as_mut().expect("judged").may_lift = false;
    let mut plan = plain.clone();
    plan.would_be.as_mut().expect("judged").plan = Some(Mass::from_kg(1_100.0));
    let gone = Case {
        would_be: None,
        at: Vec::new(),
        ..case(500.0, [LIGHT, LIGHT], Some(1_000.0))
    };
    let done = counted(vec![plain, plan, truck, gone]);
    let what: Vec<Vec<Change>> = done.changed.into_iter().map(|line| line.what).collect();
    assert_eq!(
        what,
        [
            vec![Change::FlagLost, Change::ReadOtherwise],
            vec![Change::Held, Change::Truck],
            vec![Change::Plan],
        ]
    );
    let (_, ten) = done.rows[0];
    assert_eq!((ten.lost, ten.lost_light), (1, 1));
}

/// Both plan with 1,000 kg; 5 % of 1,050 kg are 52.5 kg, of 1,060 kg 53 kg.
#[test]
fn a_plan_below_the_decided_weight_is_counted() {
    let below = |weight: f64, would_be: f64| {
        let mut case = case(1_000.0, [FITS, FITS], Some(weight));
        case.would_be.as_mut().expect("judged").plan = Some(Mass::from_kg(would_be));
        counted(vec![case]).planned_below
    };
    assert_eq!(below(1_050.0, 1_000.0), (0, 0));
    assert_eq!(below(1_060.0, 1_060.0), (1, 0));
    assert_eq!(below(1_050.0, 990.0), (0, 1));
}

#[test]
fn days_and_settings_are_counted_once_each() {
    let margin = Difference {
        key: "margin".to_string(),
        was: "0.1".to_string(),
        would_be: "0.2".to_string(),
    };
    let mut tally = Tally::new(0.10, &[], 0.05);
    tally.audit(0.10, vec![margin.clone()]);
    tally.audit(0.08, Vec::new());
    tally.audit(0.10, vec![margin.clone()]);
    let day = |day: u32| NaiveDate::from_ymd_opt(2026, 11, day).expect("a day");
    for at in [25, 24, 25] {
        let mut case = case(1_000.0, [FITS, FITS], None);
        case.named.day = day(at);
        tally.add(case);
    }
    let done = tally.done();
    // An audit without a load that counts gives no day.
    assert_eq!((done.audits, done.days), (3, vec![day(24), day(25)]));
    assert_eq!(done.own_tolerances, [0.08, 0.10]);
    assert_eq!(done.settings, [(margin, 2)]);
}
