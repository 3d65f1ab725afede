//! What whole lists lead to: whom it is sent to, what is asked and in which units. Steel plates of 2 x 1 m x 10 mm are 157 kg.

use super::*;
use crate::audit::{self, Audit, Request};
use crate::judge::Finding;
use crate::read;
use crate::report::{testing, text};
use crate::site::{Site, Units};
use chrono::NaiveDate;

fn run(csv: &str, units: Units) -> Audit {
    audit::run(Request {
        files: vec![read::bytes("list.csv", csv.as_bytes()).expect("a list")],
        refused: Vec::new(),
        fleet: None,
        site: Site {
            units,
            ..Site::default()
        },
        date: NaiveDate::from_ymd_opt(2026, 11, 25).expect("a date"),
        supplier: None,
        delivery: None,
        history: Default::default(),
        progress: &|_| {},
    })
}

/// The texts to send, one letter after the other.
fn sent(audit: &Audit) -> String {
    let views: Vec<View<'_>> = audit.deliveries.iter().map(View::new).collect();
    let letters = letters(&views);
    let paragraphs = letters.iter().flat_map(|letter| letter.paragraphs(audit));
    paragraphs.map(|one| one.text + "\n").collect()
}

fn plates(quantity: &str, weight: &str, basis: &str) -> Audit {
    let csv = format!(
        "Item,Description,Qty,Length (mm),Width (mm),Thickness (mm),Weight (kg) {basis}\n\
         A-1,Steel plate,{quantity},2000,1000,10,{weight}\n"
    );
    run(&csv, Units::Us)
}

#[test]
fn the_supplier_is_asked_how_many_pieces_it_is_where_nobody_can_read_it() {
    for (weight, basis, ask) in [
        (
            "",
            "total",
            "How many pieces is it, and what do they weigh together?",
        ),
        ("157", "total", "How many pieces is it?"),
        ("157", "each", "How many pieces is it?"),
    ] {
        let sent = sent(&plates("?", weight, basis));
        assert!(sent.contains(ask), "{ask}\n{sent}");
        assert!(sent.contains("number of pieces not readable"), "{sent}");
        assert!(!sent.contains("1 piece:"), "{sent}");
        assert!(!sent.contains("for all of it"), "{sent}");
    }
    assert!(!sent(&plates("1", "", "total")).contains("How many"));
}

/// 4 x 157 kg = 628 kg; 157 kg = 346.1 lb, 628 kg = 1,384.5 lb, 700 kg = 1,543.2 lb.
#[test]
fn a_supplier_who_writes_kilograms_is_told_kilograms_too() {
    let csv =
        "Item,Description,Qty,Weight each (kg),Total weight (kg)\nA-1,Spare parts,4,157,700\n";
    let said = "4 pieces of 346 lb (157 kg) are 1,385 lb (628 kg), the line says 1,543 lb (700 kg)";
    let audit = run(csv, Units::Us);
    let found = &audit.deliveries[0].lines[0].findings;
    assert!(found.iter().any(|one| one.message == said), "{found:?}");
    // A site that counts in the supplier's own unit has no need of another.
    let audit = run(csv, Units::Si);
    let found = &audit.deliveries[0].lines[0].findings;
    assert!(
        found.iter().all(|one| !one.message.contains(" lb")),
        "{found:?}"
    );
}

#[test]
fn a_sum_that_differs_is_told_in_the_lists_own_unit_too() {
    let csv = "Item,Description,Qty,Total weight (kg)\nA-1,Spare parts,1,1000\nA-2,Spare parts,1,1000\nTotal,,,3000\n";
    let sent = sent(&run(csv, Units::Us));
    assert!(
        sent.contains("(3,000 kg)") && sent.contains("(2,000 kg)"),
        "{sent}"
    );
}

#[test]
fn sizes_without_a_unit_lead_to_a_question_about_sizes() {
    let csv = "Description,Qty,Length,Width,Height,Weight (kg)\nSteel block,1,600,400,400,\n";
    let sent = sent(&run(csv, Units::Si));
    assert!(sent.contains("In which unit are the sizes?"), "{sent}");
    assert!(!sent.contains("In which unit is it, and"), "{sent}");
}

/// A second sheet of the first list's file, hidden, without goods of its own, not read.
fn with_hidden_sheet() -> Audit {
    let mut audit = testing::audit();
    let mut hidden = audit.deliveries[0].clone();
    hidden.lines.clear();
    hidden.packages.clear();
    hidden.reading.place.sheet = "Old".into();
    hidden.reading.delivery.clear();
    hidden.reading.supplier = None;
    hidden.reading.order = None;
    let mut finding = Finding::new(
        "reading-remark",
        Severity::Check,
        "the sheet is hidden and was not read; ask whether it belongs to the delivery",
    );
    finding.field = Some("hidden-sheet".into());
    hidden.findings = vec![finding];
    audit.deliveries.push(hidden);
    audit
}

#[test]
fn a_sheet_without_goods_goes_to_the_sender_of_its_files_other_sheet() {
    let mut audit = with_hidden_sheet();
    let both = sent(&audit);
    assert!(!both.contains("whoever sent"), "{both}");
    assert!(
        both.contains("List bramble-steel.xlsx › Old, delivery bramble-steel:"),
        "{both}"
    );
    // Of two other sheets neither is the one; nothing is said of a delivery that nobody names.
    let other = audit.deliveries[0].clone();
    audit.deliveries.push(other);
    let neither = sent(&audit);
    assert!(
        neither.contains("To: whoever sent bramble-steel.xlsx › Old\n"),
        "{neither}"
    );
    assert!(
        neither.contains("List bramble-steel.xlsx › Old:\n"),
        "{neither}"
    );
}

#[test]
fn the_terminal_asks_about_a_sheet_without_goods() {
    let mut audit = with_hidden_sheet();
    audit.deliveries.drain(..audit.deliveries.len() - 1);
    let text = text::summary(&audit, None).expect("the frame holds");
    assert!(text.contains("does it belong to the delivery?"), "{text}");
}

#[test]
fn who_has_the_most_stops_to_answer_for_is_rung_first() {
    let mut audit = testing::audit();
    audit.deliveries.reverse();
    let views: Vec<View<'_>> = audit.deliveries.iter().map(View::new).collect();
    let to: Vec<String> = letters(&views).iter().map(Letter::to).collect();
    assert_eq!(to[..2], ["Bramble Steelworks", "Tarn Boxworks"]);
    let text = text::summary(&audit, None).expect("the frame holds");
    let ring =
        "to ring: Bramble Steelworks (3 questions, 3 STOP), Tarn Boxworks (1 question, 1 STOP), ";
    assert!(text.contains(ring), "{text}");
}
