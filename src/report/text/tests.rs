//! The summary on the terminal: what it says, how long it is, what it lets through.

use super::*;
use crate::judge::Finding;
use crate::report::testing;

fn text(audit: &Audit) -> String {
    summary(audit, Some(Path::new("monday.xlsx"))).expect("the frame holds")
}

#[test]
fn it_says_what_may_be_lifted_what_waits_and_why() {
    let text = text(&testing::audit());
    for expected in [
        "bramble-steel.xlsx › List  (delivery bramble-steel, Bramble Steelworks)\n",
        "  6 lines: 1 consistent, 2 missing, 1 light, 1 heavy, 1 unverifiable\n",
        "  May be lifted now: 3 lines, 6 lifts\n",
        // 1,100.2 kg = 2,425.5 lb, up; 1,100.2 / 2,400 = 45.8 %, up.
        "    FL-25: 2 lifts, heaviest 2,426 lb, at most 46 % of its capacity\n",
        "at most 95 % of its capacity (2 over 90 %)\n",
        "  HELD: 3 lines, 4 lifts\n",
        "    G8, PL-25, Steel plate 3000 x 1500 x 25 mm: STOP: declared 800.5 kg",
        "  To ask Bramble Steelworks:\n    PO 4711, G8, PL-25, Steel plate 3000 x 1500 x 25 mm: is the weight in kilograms or in pounds? (STOP)\n",
        "In all: Yes, with a part: 4 lines (8 lifts) may be lifted now; 5 lines (5 lifts) HELD.\n",
        "scan.pdf: not a spreadsheet",
        "C5: capacity \"about 500\" is not a number",
        "Exception workbook: monday.xlsx\n",
    ] {
        assert!(text.contains(expected), "{expected}\n{text}");
    }
    for caution in words::CAUTIONS {
        assert!(text.contains(caution), "{caution}");
    }
    let first = text.find("G8, PL-25").expect("the worst");
    assert!(
        first < text.find("Sundries").expect("the next"),
        "worst first"
    );
}

#[test]
fn a_block_has_about_twenty_lines_however_much_waits() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let mut waiting = audit.deliveries[0].lines[2].clone();
    for row in 20..220 {
        waiting.item.place.row = row;
        waiting.findings[0].message = format!("row {row} is light");
        audit.deliveries[0].lines.push(waiting.clone());
    }
    let text = text(&audit);
    let block = text.split("\n\n").nth(1).expect("a block");
    assert!(block.lines().count() <= 24, "{block}");
    assert!(
        block.contains("    and 198 more on Exceptions in the workbook"),
        "{block}"
    );
}

#[test]
fn a_suppliers_text_does_not_steer_the_terminal() {
    let mut audit = testing::audit();
    audit.deliveries[0].lines[2].item.description = "plate\u{1b}[2J\nMay be lifted now".into();
    assert!(!text(&audit).contains('\u{1b}'));
    assert!(!text(&audit).contains("\nMay be lifted now"));
}

#[test]
fn one_question_for_all_lines_of_one_cause_and_what_we_do_ourselves_apart() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let delivery = &mut audit.deliveries[0];
    let mut light = delivery.lines[2].clone();
    delivery.lines.truncate(1);
    let tall = Finding::new("tall-load", Severity::Check, "it is tall");
    delivery.lines[0].findings = vec![tall];
    for row in 20..420 {
        light.item.place.row = row;
        delivery.lines.push(light.clone());
    }
    let text = text(&audit);
    let asked = "G8, PL-25, Steel plate 3000 x 1500 x 25 mm and 399 more lines: is the weight in kilograms or in pounds?";
    assert_eq!(
        text.matches("in kilograms or in pounds?").count(),
        1,
        "{text}"
    );
    assert!(text.contains(asked), "{text}");
    assert!(
        text.contains(
            "  To do ourselves:\n    G6, PL-10, Steel plate 2000 x 1000 x 10 mm: it is tall.\n"
        ),
        "{text}"
    );
}

#[test]
fn a_sheet_without_goods_takes_one_line_and_what_is_odd_about_it() {
    let mut audit = testing::audit();
    audit.deliveries[0].lines.clear();
    let text = text(&audit);
    let block = text.split("\n\n").nth(1).expect("a block");
    let lines: Vec<&str> = block.lines().collect();
    assert_eq!(lines[0], "bramble-steel.xlsx › List: no goods lines");
    assert!(
        lines.len() == 2 && lines[1].contains("row 14 is hidden"),
        "{block}"
    );
}

/// An override of direction would show 054 where 450 stands.
#[test]
fn nothing_that_steers_a_terminal_is_printed() {
    assert_eq!(
        printable("Tarn\u{1b}[2J\u{202e}450\u{2069} Steel\u{200f}"),
        "Tarn [2J 450  Steel "
    );
    assert_eq!(printable("Lagerhöfe 鋼板 ماسورة"), "Lagerhöfe 鋼板 ماسورة");
}
