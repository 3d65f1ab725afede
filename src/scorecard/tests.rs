//! The counts against a computation of their own, over plain rows.

mod course;

use super::testing::{Row, Taken, card, day, decisions, frame};
use super::*;
use chrono::Days;
use std::collections::BTreeSet;

const SUPPLIERS: [Option<&str>; 4] = [
    Some("Tarn Steel"),
    Some("Larkspur Castings"),
    Some(" TARN STEEL"),
    None,
];
const GOODS: [Option<&str>; 3] = [Some("plate"), Some("casting"), None];
const MATERIALS: [Option<&str>; 3] = [None, Some("cast iron"), Some("carbon steel")];
const EVIDENCE: [Option<&str>; 5] = [
    Some("shape"),
    Some("product"),
    Some("weighed"),
    Some("envelope"),
    None,
];
const VERDICTS: [(&str, &str); 5] = [
    ("consistent", "none"),
    ("consistent", "note"),
    ("light", "stop"),
    ("heavy", "check"),
    ("impossible", "check"),
];
const CAUSES: [Option<&str>; 4] = [None, Some("kg-lb"), None, Some("digits")];

/// Rows of every kind, by remainders that have no common measure.
fn mixed() -> Vec<Row> {
    let of = |at: usize| {
        let delivery = at / 7;
        let (verdict, severity) = VERDICTS[at % 11 % 5];
        let declared = 100.0 + (at * 37 % 101) as f64;
        Row {
            supplier: SUPPLIERS[delivery % 4],
            goods: GOODS[at % 13 % 3],
            material: MATERIALS[at % 17 % 3],
            evidence: EVIDENCE[at % 19 % 5],
            verdict,
            severity,
            cause: CAUSES[at % 23 % 4].filter(|_| verdict != "consistent"),
            declared_kg: (!at.is_multiple_of(29)).then_some(declared),
            expected_kg: (!at.is_multiple_of(31)).then_some(150.0),
            overload_kg: (!at.is_multiple_of(5)).then_some((at % 3) as f64 * 12.5),
            ..Row::new(
                1_000 + at as i64,
                delivery as i64,
                day("2026-01-20") + Days::new(delivery as u64),
            )
        }
    };
    (0..900).map(of).collect()
}

fn decided() -> Vec<Taken> {
    let of = |at: usize| Taken {
        load: (!at.is_multiple_of(7)).then_some(1_000 + (at * 3) as i64),
        kind: ["weighed", "accept declared", "refused", "use estimate"][at % 4],
        name: "J. Rook",
        supplier: Some("Tarn Steel"),
        recorded: "2026-01-20T08:00:00+00:00".to_string(),
        time: format!("2026-01-20T{:02}:30:00+01:00", 9 + at % 14),
        plan_kg: (at % 4 != 2).then_some(120.0),
        severity: if at.is_multiple_of(3) { "stop" } else { "none" },
        stands: true,
    };
    (0..250).map(of).collect()
}

/// The middle, by sorting.
fn middle(mut values: Vec<f64>) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let count = values.len();
    match (count, count % 2) {
        (0, _) => None,
        (_, 1) => Some(values[count / 2]),
        _ => Some((values[count / 2 - 1] + values[count / 2]) / 2.0),
    }
}

/// The counts of the rows that are wanted.
fn plain(rows: &[Row], taken: &[Taken], wanted: impl Fn(&Row) -> bool) -> Tally {
    let rows: Vec<&Row> = rows.iter().filter(|row| wanted(row)).collect();
    let decision = |row: &Row| taken.iter().find(|one| one.load == Some(row.load));
    // What was flagged before it was decided counts as flagged.
    let flagged =
        |row: &Row| row.is_flagged() || decision(row).is_some_and(|one| one.severity != "none");
    let count = |of: &dyn Fn(&Row) -> bool| rows.iter().filter(|row| of(row)).count();
    let off: Vec<f64> = rows
        .iter()
        .filter(|row| matches!(row.evidence, Some("product" | "shape")))
        .filter_map(|row| Some((row.declared_kg? / row.expected_kg?).ln()))
        .collect();
    let median = middle(off.clone());
    let away = median.map(|median| off.iter().map(|off| (off - median).abs()).collect());
    let hours = |one: &Taken| {
        let [from, to] = [&one.recorded, &one.time]
            .map(|text| chrono::DateTime::parse_from_rfc3339(text).expect("a time"));
        (to - from).num_minutes() as f64 / 60.0
    };
    let decided: Vec<&Taken> = rows
        .iter()
        .filter(|row| flagged(row))
        .filter_map(|row| decision(row))
        .collect();
    let avoided = |row: &&&Row| {
        let accepted = decision(row).is_some_and(|one| one.kind == "accept declared");
        !accepted && row.overload_kg.is_some_and(|kg| kg > 0.0)
    };
    Tally {
        lines: rows.len(),
        deliveries: rows
            .iter()
            .map(|row| row.delivery)
            .collect::<BTreeSet<_>>()
            .len(),
        flagged: count(&flagged),
        light: count(&|row| row.verdict == "light"),
        compared: off.len(),
        median_ln: median,
        spread_ln: away
            .and_then(middle)
            .map(|middle| 1.482_602_218_505_602 * middle),
        overloads: rows.iter().filter(avoided).count(),
        overload_kg: (rows.iter().filter(avoided))
            .filter_map(|row| row.overload_kg)
            .sum(),
        decided: decided.len(),
        open: count(&|row| flagged(row) && decision(row).is_none()),
        median_hours: middle(decided.into_iter().map(hours).collect()),
    }
}

#[test]
fn every_table_is_as_counted_row_by_row() {
    let (rows, taken) = (mixed(), decided());
    let card = card(&rows, &taken, "2026-07-01");
    assert_eq!(card.all, plain(&rows, &taken, |_| true));
    assert!(
        card.all.decided > 20 && card.all.open > 20,
        "{:?}",
        card.all
    );
    assert_eq!(card.suppliers.len(), 3, "one supplier in two spellings");
    let folded = |name: Option<&str>| name.map(|name| name.trim().to_lowercase());
    for one in &card.suppliers {
        let of = plain(&rows, &taken, |row| {
            folded(row.supplier) == folded(one.name.as_deref())
        });
        assert_eq!(one.tally, of, "{:?}", one.name);
    }
    assert_eq!((card.goods.len(), card.materials.len()), (3, 3));
    for (name, tally) in &card.goods {
        let of = plain(&rows, &taken, |row| row.goods == name.as_deref());
        assert_eq!(*tally, of, "{name:?}");
    }
    for (name, tally) in &card.materials {
        let of = plain(&rows, &taken, |row| row.material == name.as_deref());
        assert_eq!(*tally, of, "{name:?}");
    }
    assert_eq!(card.causes.len(), 2, "a line without a cause has none");
    for (kind, tally) in &card.causes {
        let of = plain(&rows, &taken, |row| row.cause == Some(kind));
        assert_eq!(*tally, of, "{kind}");
    }
    let months: Vec<Month> = card.months.iter().map(|(month, _)| *month).collect();
    assert_eq!(
        months,
        [(2026, 1), (2026, 2), (2026, 3), (2026, 4), (2026, 5)]
    );
    for (of, tally) in &card.months {
        assert_eq!(
            *tally,
            plain(&rows, &taken, |row| month(row.day) == *of),
            "{of:?}"
        );
    }
    assert_eq!(card.days, Some((day("2026-01-20"), day("2026-05-28"))));
}

#[test]
fn only_what_is_asked_for_counts() {
    let (rows, taken) = (mixed(), decided());
    let asked = Asked {
        from: Some(day("2026-02-01")),
        to: Some(day("2026-03-15")),
        supplier: Some("tarn".to_string()),
    };
    let found = Scorecard::of(&frame(&rows), &decisions(&taken), asked, day("2026-07-01"));
    let wanted = |row: &Row| {
        row.day >= day("2026-02-01")
            && row.day <= day("2026-03-15")
            && row
                .supplier
                .is_some_and(|name| name.to_lowercase().contains("tarn"))
    };
    let card = found.expect("all columns");
    assert_eq!(card.all, plain(&rows, &taken, wanted));
    assert!(card.all.lines > 50 && card.suppliers.len() == 1);
    let nobody = Asked {
        supplier: Some("nobody".to_string()),
        ..Asked::default()
    };
    let none = Scorecard::of(&frame(&rows), &decisions(&taken), nobody, day("2026-07-01"));
    let none = none.expect("all columns");
    assert_eq!(
        (none.all, none.days, none.months),
        (Tally::default(), None, vec![])
    );
}

/// A hundred ordinary lines, five a delivery, a delivery a day.
fn ordinary() -> Vec<Row> {
    let of = |at: i64| Row::new(at, at / 5, day("2026-01-05") + Days::new(at as u64 / 5));
    (0..100).map(of).collect()
}

#[test]
fn the_worst_come_first_and_few_lines_last() {
    let mut rows = ordinary();
    for (at, row) in rows.iter_mut().enumerate() {
        let (supplier, every) = match at {
            ..10 => ("Few and bad", 2),
            10..60 => ("Good", 10),
            _ => ("Bad", 4),
        };
        row.supplier = Some(supplier);
        if at % every == 0 {
            row.severity = "check";
        }
    }
    let card = card(&rows, &[], "2026-02-01");
    let shares: Vec<_> = (card.suppliers.iter())
        .map(|one| {
            (
                one.name.as_deref(),
                one.tally.flagged,
                one.tally.share_flagged(),
            )
        })
        .collect();
    assert_eq!(
        shares,
        [
            (Some("Bad"), 10, Some(0.25)),
            (Some("Good"), 5, Some(0.1)),
            (Some("Few and bad"), 5, None),
        ]
    );
}

/// A supplier that moves by 6 % after 40 deliveries, one delivery a day; slips and outlines say nothing of it.
#[test]
fn a_supplier_that_moved_is_named_with_its_day() {
    let off = |at: i64| [0.0, 0.012, -0.01, 0.004, -0.006][at as usize % 5];
    let mut rows = Vec::new();
    for at in 0..60 {
        let level: f64 = if at < 40 { 0.0 } else { -0.06 };
        for line in 0..3 {
            let declared = 100.0 * (level + off(at + line)).exp();
            rows.push(Row {
                declared_kg: Some(declared),
                ..Row::new(at * 5 + line, at, day("2026-08-01") + Days::new(at as u64))
            });
        }
        let odd = |load: i64| Row {
            declared_kg: Some(100.0 * 2.2046),
            ..Row::new(load, at, day("2026-08-01") + Days::new(at as u64))
        };
        rows.push(odd(at * 5 + 3));
        rows.push(Row {
            evidence: Some("envelope"),
            declared_kg: Some(70.0),
            ..odd(at * 5 + 4)
        });
    }
    // The order of the records is not that of the days.
    rows.reverse();
    let card = card(&rows, &[], "2026-10-01");
    let Some(Course::Moved(found)) = card.suppliers[0].course else {
        panic!("{:?}", card.suppliers[0].course)
    };
    assert_eq!(found.since, day("2026-09-10"));
    assert_eq!((found.deliveries_before, found.deliveries), (40, 20));
    assert!((found.after + 0.06).abs() < 0.01, "{found:?}");
    assert_eq!(card.followed.len(), 1);
    let medians = &card.followed[0].medians;
    assert!(
        medians[1].is_some_and(|september| september < -0.02),
        "{medians:?}"
    );
}

#[test]
fn decisions_are_counted_with_their_age_and_overrides() {
    let mut rows = ordinary();
    for (at, row) in rows.iter_mut().enumerate().take(8) {
        row.severity = if at % 2 == 0 { "stop" } else { "check" };
    }
    // Audited again after the decision: what was found holds nothing any more.
    rows[2].severity = "note";
    let decision = |load: i64, kind: &'static str, hour: u32, stands: bool| Taken {
        load: Some(load),
        kind,
        name: "J. Rook",
        supplier: Some("Tarn Steel"),
        recorded: "2026-01-05T06:00:00+00:00".to_string(),
        time: format!("2026-01-05T{hour:02}:00:00+00:00"),
        plan_kg: (kind != "refused").then_some(110.0),
        severity: match load {
            0 | 2 | 4 => "stop",
            1 => "check",
            _ => "none",
        },
        stands,
    };
    let taken = [
        decision(0, "accept declared", 8, false),
        decision(0, "weighed", 16, true),
        decision(1, "accept declared", 7, true),
        decision(2, "use estimate", 10, true),
        decision(4, "refused", 9, true),
        decision(50, "weighed", 9, true),
        // Its list was replaced: 6 is open again, but the STOP was overridden.
        Taken {
            load: None,
            severity: "stop",
            ..decision(6, "accept declared", 9, false)
        },
    ];
    let card = card(&rows, &taken, "2026-01-10");
    let found = &card.decisions;
    // Hours to the first decision: 2, 1, 4, 3.
    let speed = Speed {
        lines: 4,
        median_hours: Some(2.5),
        nine_in_ten_hours: Some(4.0),
    };
    assert_eq!(found.all, speed);
    let kinds: Vec<(&str, usize)> = (found.kinds.iter())
        .map(|kind| (kind.decision.as_str(), kind.speed.lines))
        .collect();
    assert_eq!(
        kinds,
        [
            ("accept declared", 1),
            ("refused", 1),
            ("use estimate", 1),
            ("weighed", 1)
        ]
    );
    assert_eq!(found.not_flagged, 1);
    let open: Vec<(usize, usize)> = found
        .open
        .iter()
        .map(|age| (age.lines, age.stops))
        .collect();
    assert_eq!(
        open,
        [(0, 0), (4, 1), (0, 0), (0, 0), (0, 0)],
        "3, 5, 6, 7 are open"
    );
    let overrides: Vec<(&str, &str, bool, bool)> = (found.overrides.iter())
        .map(|one| {
            (
                one.id.as_str(),
                one.decision.as_str(),
                one.stands,
                one.replaced,
            )
        })
        .collect();
    assert_eq!(
        overrides,
        [
            ("id0", "accept declared", false, false),
            ("id2", "use estimate", true, false),
            ("gone", "accept declared", false, true)
        ]
    );
}
