//! Which lines and deliveries the course of a supplier is of.

use super::*;

/// Twenty deliveries of a supplier that fit, then as many as `later` makes of the same.
fn forty(later: impl Fn(Row) -> Row) -> Vec<Row> {
    let of = |at: i64| {
        let row = Row::new(at, at, day("2026-01-05") + Days::new(at as u64));
        if at < 20 { row } else { later(row) }
    };
    (0..40).map(of).collect()
}

#[test]
fn a_supplier_whose_lines_are_all_slips_is_told_of() {
    let light = forty(|row| Row {
        declared_kg: Some(60.0),
        ..row
    });
    let impossible = forty(|row| Row {
        declared_kg: Some(900.0),
        verdict: "impossible",
        ..row
    });
    for rows in [light, impossible] {
        let card = card(&rows, &[], "2026-03-01");
        let of = &card.suppliers[0];
        assert_eq!(of.left_out, 20);
        let steady = |course| matches!(course, Some(Course::Steady { deliveries: 20, .. }));
        assert!(steady(of.course), "{:?}", of.course);
    }
}

/// Goods that come 6 % light by their sizes and were weighed for some time are no move of the supplier's.
#[test]
fn our_own_weighings_move_no_supplier() {
    let rows = forty(|row| Row {
        evidence: Some("weighed"),
        expected_kg: Some(94.0),
        ..row
    });
    let card = card(&rows, &[], "2026-03-01");
    assert_eq!(card.all.compared, 20);
    let course = card.suppliers[0].course;
    assert!(
        matches!(course, Some(Course::Steady { biased: false, .. })),
        "{course:?}"
    );
}

#[test]
fn those_who_name_nobody_have_no_course() {
    let rows = forty(|row| Row {
        declared_kg: Some(90.0),
        ..row
    });
    let nameless: Vec<Row> = rows
        .into_iter()
        .map(|row| Row {
            supplier: None,
            ..row
        })
        .collect();
    let card = card(&nameless, &[], "2026-03-01");
    assert_eq!(card.suppliers[0].course, None);
    assert!(card.followed.is_empty());
}
