//! The text as a person sees it, from lists of an invented supplier.

use super::*;
use crate::audit::{Request, run};
use crate::read;
use crate::report::testing;
use crate::site::Site;

fn audited(list: &str) -> Audit {
    run(Request {
        files: vec![read::bytes("list.csv", list.as_bytes()).expect("read")],
        refused: Vec::new(),
        fleet: None,
        site: Site::default(),
        date: chrono::NaiveDate::default(),
        supplier: None,
        delivery: None,
        history: Default::default(),
        progress: &|_| {},
    })
}

const HEAD: &str = "Bramble Steelworks,,,,,\nPacking list 77,,,,,\n,,,,,\n,,,,,\n";

/// Too few lines to find the unit from the sizes, and nothing else says it.
#[test]
fn a_list_that_leaves_the_unit_open() {
    let list = format!(
        "{HEAD}Goods,Pcs,Length mm,Width mm,Thickness mm,Weight\n\
         Base plate,2,1000,500,10,78.5\nFloor plate,3,1000,500,10,TBA\n"
    );
    let audit = audited(&list);
    assert!(is_read(&audit) && is_open(&audit));
    let text = text(&audit);
    for expected in [
        "list.csv\n  read as    text, ",
        "\nThe list: 2 goods lines, 5 pieces\n  delivery   77\n  supplier   Bramble Steelworks (named in the list)\n",
        "  F    Weight                            declared weight of the line         kg         ASSUMED\n",
        "  C    Length mm                         length                              mm         stated\n",
        "\n  Declared weights\n  F    in kg, ASSUMED: no unit is stated",
        "thickness 10 mm",
        "none: \"TBA\" in F7 states",
        "  3 to 4        blank\n",
        "  5             heading                     Goods Pcs Length mm",
        "\n  To settle\n  - column F \"Weight\": unit, or what the weights are of, was ASSUMED",
    ] {
        assert!(text.contains(expected), "{expected}\n---\n{text}");
    }
    for caution in words::CAUTIONS {
        assert!(text.contains(caution), "{caution}");
    }
}

#[test]
fn a_list_that_says_everything_leaves_nothing_to_settle() {
    let list = format!(
        "{HEAD}Goods,Pcs,Length mm,Width mm,Thickness mm,Weight each kg\nBase plate,2,1000,500,10,39.25\n"
    );
    let audit = audited(&list);
    let text = text(&audit);
    assert!(is_read(&audit) && !is_open(&audit), "{text}");
    assert!(
        !text.contains("To settle") && !text.contains("ASSUMED"),
        "{text}"
    );
    assert!(text.contains("F    in kg, as the heading says; each figure is the weight of one piece, as the heading says"), "{text}");
    assert!(text.contains("79 kg for the line, from"), "{text}");
}

/// A plate of 1000 x 500 x 10 mm is 39.25 kg at 7,850 kg/m3 (materials table); the figures are kilograms under a heading that says pounds.
#[test]
fn a_heading_that_the_figures_contradict_is_told() {
    let mut list = format!("{HEAD}Goods,Pcs,Length mm,Width mm,Thickness mm,Weight of line lb\n");
    for pieces in 2..9 {
        list.push_str(&format!(
            "Base plate steel S235,{pieces},1000,500,10,{}\n",
            39.25 * f64::from(pieces)
        ));
    }
    let audit = audited(&list);
    let text = text(&audit);
    assert!(is_open(&audit));
    assert!(text.contains("lb         CONTRADICTED\n"), "{text}");
    assert!(
        text.contains("on 7 lines the figures fit the sizes only in kg: CONTRADICTED"),
        "{text}"
    );
}

#[test]
fn remarks_on_several_rows_are_told_once() {
    let list = format!(
        "{HEAD}Goods,Pcs,Length mm,Weight of line kg\nBase plate,,1000,78\nFloor plate,,1000,78\nAngle,,500,9\n"
    );
    let text = text(&audited(&list));
    assert_eq!(
        text.matches("no number of pieces could be read").count(),
        1,
        "{text}"
    );
    assert!(
        text.contains("  - rows 6 to 8: no number of pieces could be read"),
        "{text}"
    );
}

#[test]
fn a_file_without_a_table_shows_its_rows() {
    let audit = audited("only words\nand more of them\n");
    let text = text(&audit);
    assert!(!is_read(&audit) && is_open(&audit));
    assert!(
        text.contains("The list: no goods lines were read\n") && text.contains("only words"),
        "{text}"
    );
    assert!(text.contains("no table was recognised"), "{text}");
}

#[test]
fn no_line_is_wider_than_the_page_and_no_sign_steers_the_terminal() {
    let long = "Bewehrungsstahlmattenabstandhalter".repeat(5);
    let list = format!(
        "{HEAD}Goods\u{1b}[2J,Pcs,Length mm,Width mm,Thickness mm,{long} Weight kg\n{long},2,1000,500,10,{long}\n"
    );
    for audit in [audited(&list), testing::audit()] {
        let text = text(&audit);
        assert!(!text.contains('\u{1b}'));
        let cautions = words::CAUTIONS;
        for line in text.lines().filter(|line| !cautions.contains(line)) {
            assert!(line.chars().count() <= WIDTH, "{line}");
        }
    }
}

#[test]
fn many_points_are_cut_short_and_counted() {
    let mut audit = testing::audit();
    audit.deliveries.truncate(1);
    let reading = &mut audit.deliveries[0].reading;
    let remark = reading.remarks.remove(0);
    for row in 1..=100 {
        let mut one = remark.clone();
        (one.place.row, one.place.column) = (row, 3);
        one.message = "the same of each cell".into();
        reading.remarks.push(one.clone());
        one.message = format!("something else about {row}");
        reading.remarks.push(one);
    }
    let text = text(&audit);
    let settle = text.split("  To settle\n").nth(1).expect("points");
    let points = settle.lines().filter(|line| line.starts_with("  - "));
    assert_eq!(points.count(), MOST_POINTS + 1, "{settle}");
    let words = settle.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        words.contains("C20, and 80 more: the same of each cell."),
        "{words}"
    );
    // 101 points of the sheet, 40 told.
    assert!(words.contains("- and 61 more"), "{words}");
}
