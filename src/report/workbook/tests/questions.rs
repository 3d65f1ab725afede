//! The Questions sheet read back: one text a supplier, each line's cell in it, one question for one cause.

use super::*;
use crate::audit::Delivery;
use crate::judge::{Finding, Severity};

/// The texts by supplier, in the sheet's order.
fn texts(audit: &Audit) -> Vec<(String, String)> {
    let range = sheet(&mut read(bytes(audit)), "Questions");
    let mut texts: Vec<(String, String)> = Vec::new();
    for row in range.rows().skip(1) {
        let (supplier, paragraph) = (row[1].to_string(), row[3].to_string());
        match texts.last_mut() {
            Some((last, text)) if *last == supplier => *text += &format!("\n{paragraph}"),
            _ => texts.push((supplier, paragraph)),
        }
    }
    texts
}

#[test]
fn each_supplier_has_one_text_with_the_cell_of_each_line() {
    let mut audit = testing::audit();
    // A second list of the first supplier, after one of another.
    let mut again: Delivery = audit.deliveries[0].clone();
    again.reading.delivery = "bramble-2".into();
    audit.deliveries.push(again);
    let texts = texts(&audit);
    let suppliers: Vec<&str> = texts.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(
        suppliers,
        [
            "Bramble Steelworks",
            "Tarn Boxworks",
            "+Bramble Steelworks (=1+1)"
        ]
    );
    let of = |at: usize| texts[at].1.as_str();
    for cell in [
        "• G8, item PL-25",
        "• row 10, item XX-1",
        "• G7, item CP-30",
        "• G11, item TR-9",
    ] {
        assert_eq!(
            of(0).matches(cell).count(),
            2,
            "once a list: {cell}\n{}",
            of(0)
        );
    }
    assert!(of(0).contains("List bramble-steel.xlsx › List, delivery bramble-2, order PO 4711:"));
    assert!(
        of(2).contains("• G9, ") && !of(0).contains("G9"),
        "{}",
        of(2)
    );
    assert!(
        of(1).contains("• E2, pallet with the lines of rows 2 to 3: you wrote \"410\""),
        "{}",
        of(1)
    );
}

/// Whom, which line, what was written, what is expected and why, what is asked.
#[test]
fn a_text_can_be_sent_as_it_stands() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    audit.deliveries[0].lines.drain(..2);
    audit.deliveries[0].lines.truncate(1);
    // 800.5 kg = 1,764.8 lb; 1,766.25 kg less and more 5 %: 1,677.9 to 1,854.6 kg, 3,699.2 to 4,088.6 lb.
    assert_eq!(
        texts(&audit)[0].1,
        "To: Bramble Steelworks\n\
         Subject: 1 question about the weights in bramble-steel.xlsx › List\n\
         We check every list before anything comes off the vehicle. Please answer in writing: the number of the question, \
         the weight with its unit, and whether it is of one piece or of the whole line.\n\
         List bramble-steel.xlsx › List, delivery bramble-steel, order PO 4711:\n\
         1. Is the weight in kilograms or in pounds? The goods stay down until we have your answer.\n\
         • G8, item PL-25, Steel plate 3000 x 1500 x 25 mm, 2 pieces: you wrote \"800.5\", which we read as 1,765 lb (801 kg) \
         for all of it; we expect 3,699 to 4,089 lb (1,677 to 1,855 kg), by its sizes and the density of carbon steel.\n\
         Thank you. Kestrel Junction stores & yard, 2026-05-04"
    );
}

#[test]
fn one_question_for_one_cause_over_four_hundred_lines() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let lines = &mut audit.deliveries[0].lines;
    let light = lines[2].clone();
    lines.clear();
    for row in 20..420 {
        let mut line = light.clone();
        line.declared.as_mut().expect("a weight").place.row = row;
        lines.push(line);
    }
    let text = &texts(&audit)[0].1;
    assert_eq!(text.matches("in kilograms or in pounds?").count(), 1);
    assert!(text.lines().count() < 12, "{text}");
    for cell in [
        "• G20, item",
        "• G21, item",
        "• G22, item",
        "• The same on 397 more lines: G23 to G419",
    ] {
        assert!(text.contains(cell), "{cell}\n{text}");
    }
}

#[test]
fn lists_without_a_supplier_are_not_thrown_together() {
    let mut audit = testing::audit();
    for delivery in &mut audit.deliveries {
        delivery.reading.supplier = None;
        delivery.lines.retain(|line| line.item.supplier.is_none());
    }
    let texts = texts(&audit);
    let suppliers: Vec<&str> = texts.iter().map(|(name, _)| name.as_str()).collect();
    assert_eq!(
        suppliers,
        [
            "whoever sent bramble-steel.xlsx › List",
            "whoever sent tarn-boxes.csv"
        ]
    );
}

#[test]
fn where_nobody_is_asked_the_sheet_says_so() {
    let mut audit = testing::audit();
    audit.deliveries.clear();
    let range = sheet(&mut read(bytes(&audit)), "Questions");
    assert_eq!(
        range.get_value((1, 3)),
        Some(&Data::String("Nobody has to be asked anything.".into()))
    );
}

/// On Exceptions too nobody rings the supplier about what he is not asked.
#[test]
fn what_our_own_people_settle_on_a_whole_list_is_no_call() {
    let mut audit = testing::audit();
    let finding = |code, message| Finding::new(code, Severity::Check, message);
    audit.deliveries[0].findings = vec![
        finding(
            "reading-remark",
            "row 14 is hidden; look whether it is goods",
        ),
        finding("total-differs", "H20 states another sum"),
    ];
    let range = sheet(&mut read(bytes(&audit)), "Exceptions");
    let whole = range.rows().filter(|row| row[5] == *"the whole delivery");
    let orders: Vec<String> = whole.map(|row| row[8].to_string()).take(2).collect();
    assert_eq!(
        orders,
        ["Look whether it is goods.", "Ask the supplier today."]
    );
}
