//! The Dock sheet read back: what it answers, whom it has rung and what it has done.

use super::*;
use crate::judge::{Finding, Severity};
use crate::understand::How;

#[test]
fn dock_answers_and_warns() {
    let mut workbook = read(bytes(&testing::audit()));
    let range = sheet(&mut workbook, "Dock");
    let text: String = range
        .rows()
        .map(|row| format!("{} | {}\n", row[1], row[2]))
        .collect();
    for expected in [
        "May we start? | Yes, with a part: 4 lines (8 lifts) may be lifted now; 5 lines (5 lifts) HELD.",
        "Whom to ring? | Bramble Steelworks: 3 questions, 3 of them STOP. The text to send stands on Questions.",
        "May we start? | Yes, with a part: 3 lines (6 lifts) may be lifted now; 3 lines (4 lifts) HELD.",
        "What waits, and why? | G8, PL-25, Steel plate",
        "Whom to ring, what to ask? | Bramble Steelworks, PO 4711, G8, PL-25, Steel plate 3000 x 1500 x 25 mm: is the weight in kilograms or in pounds?",
        "REFUSED file | not a spreadsheet",
        "Fault in the register | fleet.csv › C5",
        "Caution | An estimate is not a weighing.",
        "Caution | Not judged: slings",
    ] {
        assert!(text.contains(expected), "{expected}\n{text}");
    }
    assert_eq!(
        find(&range, "Answer", "FL-15", "Lifts"),
        6.0,
        "of both deliveries, in the first rows"
    );
    assert_eq!(
        find(
            &range,
            "Question",
            "Trucks of this call",
            "Most of capacity used"
        ),
        0.95
    );
}

/// Answers of the Dock sheet to a question.
fn answers(audit: &Audit, question: &str) -> Vec<String> {
    let range = sheet(&mut read(bytes(audit)), "Dock");
    let rows = range.rows().filter(|row| row[1] == *question);
    rows.map(|row| row[2].to_string()).collect()
}

#[test]
fn calls_to_the_supplier_and_orders_to_our_own_people_stand_apart() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let line = &mut audit.deliveries[0].lines[0];
    line.findings = vec![Finding::new(
        "tall-load",
        Severity::Check,
        "its half height lies above the load centre",
    )];
    assert_eq!(
        answers(&audit, "What have we to do ourselves?"),
        ["G6, PL-10, Steel plate 2000 x 1000 x 10 mm: its half height lies above the load centre."]
    );
    let calls = answers(&audit, "Whom to ring, what to ask?");
    assert!(
        calls.len() > 1 && calls.iter().all(|call| !call.contains("half height")),
        "{calls:?}"
    );
}

#[test]
fn five_odd_things_of_a_delivery_are_named_and_the_others_stand_on_as_read() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let delivery = &mut audit.deliveries[0];
    delivery.reading.supplier = None;
    delivery.findings = (1..=7)
        .map(|at| Finding::new("hidden-row", Severity::Check, format!("sum {at} is odd")))
        .collect();
    let odd = answers(&audit, "What is odd about all of it?");
    assert_eq!(odd.len(), 6, "{odd:?}");
    assert_eq!(odd[5], "and 2 more on As read.");
    let range = sheet(&mut read(bytes(&audit)), "As read");
    for at in 1..=7 {
        let said = format!("sum {at} is odd.");
        assert!(range.rows().any(|row| row[6] == *said.as_str()), "{said}");
    }
    let what = answers(&audit, "What is it?");
    assert!(
        what[0].contains(", supplier not named: 6 lines"),
        "{what:?}"
    );
}

/// One question for the column; its lines are not asked about one by one.
#[test]
fn a_contradicted_column_is_one_call() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let delivery = &mut audit.deliveries[0];
    delivery.lines.drain(..2);
    delivery.lines.truncate(1);
    let declared = delivery.lines[0].declared.as_mut().expect("a weight");
    declared.how = How::Contradicted;
    delivery.findings = vec![Finding::new(
        "column-contradicted",
        Severity::Stop,
        "column H is headed in lb, its figures fit only as kg: ask the supplier which unit it is",
    )];
    assert_eq!(
        answers(&audit, "Whom to ring, what to ask?"),
        [
            "Bramble Steelworks, PO 4711, column H is headed in lb, its figures fit only as kg: \
          in which unit are the weights of this column? (STOP)"
        ]
    );
}

#[test]
fn a_sheet_without_goods_takes_one_row_on_dock() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    audit.deliveries[0].lines.clear();
    audit.deliveries[0].findings.clear();
    assert_eq!(
        answers(&audit, "What is it?"),
        ["bramble-steel.xlsx › List: no goods lines."]
    );
    assert_eq!(answers(&audit, "Whom to ring, what to ask?"), [""; 0]);
}

/// Each truck's row stands there once: of one delivery its block says all.
#[test]
fn one_delivery_is_said_once() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    assert_eq!(answers(&audit, "May we start?").len(), 1);
    assert_eq!(answers(&audit, "With what?"), ["FL-15", "FL-25"]);
    assert_eq!(answers(&audit, "Trucks of this call"), [""; 0]);
}

#[test]
fn lines_that_wait_for_one_reason_are_named_together() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let lines = &mut audit.deliveries[0].lines;
    let waiting = lines[4].clone();
    lines.truncate(1);
    lines.extend(std::iter::repeat_n(waiting, 30));
    assert_eq!(
        answers(&audit, "What waits, and why?"),
        ["row 10, XX-1, Sundries as per drawing and 29 more lines: \
          STOP: no weight declared and nothing to estimate it from; weigh it."]
    );
}

/// What the supplier is asked about a sheet stands there although it has no goods.
#[test]
fn a_question_about_a_sheet_without_goods_is_named() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    audit.deliveries[0].lines.clear();
    let mut hidden = Finding::new(
        "reading-remark",
        Severity::Check,
        "it is hidden; ask about it",
    );
    hidden.field = Some("hidden-sheet".into());
    audit.deliveries[0].findings = vec![hidden];
    assert_eq!(
        answers(&audit, "Whom to ring, what to ask?"),
        ["Bramble Steelworks, PO 4711, it is hidden: does it belong to the delivery?"]
    );
}
