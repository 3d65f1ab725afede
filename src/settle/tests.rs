//! Open and contradicted columns (method, section 2).

use super::*;
use crate::estimate;
use crate::estimate::materials::Vocabulary;
use crate::read;
use crate::understand::{self, Item, Known};

/// Settles the weight columns of a csv text of steel plates.
fn settle(text: &str) -> (Vec<Item>, Settled) {
    let raw = read::bytes("a.csv", text.as_bytes()).expect("readable");
    let mut readings = understand::file(&raw, &Known::default());
    let items = std::mem::take(&mut readings[0].items);
    let estimates: Vec<_> = items
        .iter()
        .map(|item| estimate::line(item, Some(true), Vocabulary::built_in()))
        .collect();
    let settled = columns(&items, &[], &estimates, &readings[0].sums, MassUnit::Kg);
    (items, settled)
}

/// Plates of 1000 x 500 x 10 mm, 39.25 kg each at 7,850 kg/m3, so many pieces with so much weight a line.
fn plates(heading: &str, lines: &[(u32, f64)]) -> String {
    let mut text = format!("Description,Qty,Length mm,Width mm,Thickness mm,Material,{heading}\n");
    for (pieces, weight) in lines {
        text.push_str(&format!("Base plate,{pieces},1000,500,10,S235,{weight}\n"));
    }
    text
}

#[test]
fn a_cell_that_states_its_basis_speaks_for_itself_alone() {
    let text = "Description,Qty,Weight\nPump unit,4,850 kg\nMotor unit,2,640 kg\nGear unit,2,640 kg total\n";
    let (_, settled) = settle(text);
    assert_eq!(reading(&settled).basis_how, How::Assumed);
}

#[test]
fn most_cells_tell_the_unit_of_a_bare_one() {
    let rows = |bare: &str| {
        let text = format!(
            "Description,Qty,Total weight\nPump,1,10,180#\nPump,1,500 lb\nGear,1,700 lbs\nMotor,1,{bare}\n"
        );
        let (_, settled) = settle(&text.replace("10,180#", "\"10,180#\""));
        let read = reading(&settled);
        (read.unit, read.unit_how)
    };
    assert_eq!(rows("2212"), (MassUnit::Lb, How::Inferred));
}

#[test]
fn a_total_tells_what_the_figures_are_of() {
    let list = |total: u32| {
        let text = format!(
            "Description,Pallets,Gross Weight (kg)\nMachine parts,4,850\nSpare parts,2,640\nTotal,6,{total}\n"
        );
        let (_, settled) = settle(&text);
        let read = reading(&settled);
        (read.basis, read.customary)
    };
    assert_eq!(list(1490), (Basis::Line, false));
    assert!(!list(4680).1);
    assert_ne!(list(4680).0, Basis::Line);
    // Nothing adds up to it: a packing list's habit, and open where a row counts several packages.
    assert_eq!(list(5000), (Basis::Line, true));
}

#[test]
fn a_packing_lists_weight_beside_several_packages_may_be_one_packages() {
    let (items, settled) =
        settle("Description,Pallets,Gross Weight (kg)\nMachine parts,4,850\nSpare parts,1,640\n");
    let read = |item: &Item| {
        let found = declared(
            &item.weights,
            &[],
            item.pieces,
            item.packages,
            &settled,
            |_| true,
        );
        found.map(|found| (found.heaviest.kg(), found.how))
    };
    assert_eq!(read(&items[0]), Some((3400.0, How::Assumed)));
    assert_eq!(read(&items[1]), Some((640.0, How::Inferred)));
}

#[test]
fn a_weight_per_package_without_their_number_may_be_that_of_each_piece() {
    let (items, settled) = settle("Description,Qty,Weight per carton (kg)\nGear housing,100,25\n");
    let item = &items[0];
    let found = declared(
        &item.weights,
        &[],
        item.pieces,
        item.packages,
        &settled,
        |_| true,
    );
    let found = found.expect("a weight");
    assert_eq!((found.heaviest.kg(), found.how), (2500.0, How::Assumed));
}

#[test]
fn weights_of_packages_are_compared_by_packages() {
    // Plates of 39.25 kg, two in a crate.
    let row = "Steel plate 1000x500x10 mm,2,4,78.5\n";
    let text = format!(
        "Description,Crates,Total pcs,Weight per crate (kg)\n{}",
        row.repeat(6)
    );
    let (_, settled) = settle(&text);
    assert!(settled.contradicted.is_empty());
}

fn reading(settled: &Settled) -> ColumnReading {
    *settled.columns.values().next().expect("a weight column")
}

const PLATE_KG: f64 = 39.25;

#[test]
fn five_lines_settle_an_open_unit_and_basis() {
    let of_line: Vec<(u32, f64)> = (2..7).map(|n| (n, PLATE_KG * f64::from(n))).collect();
    let found = reading(&settle(&plates("Weight", &of_line)).1);
    assert_eq!(
        (found.unit, found.unit_how, found.basis, found.basis_how),
        (MassUnit::Kg, How::Inferred, Basis::Line, How::Inferred)
    );
    let of_piece: Vec<(u32, f64)> = (2..7).map(|n| (n, PLATE_KG / 0.453_592_37)).collect();
    let found = reading(&settle(&plates("Weight", &of_piece)).1);
    assert_eq!(
        (found.unit, found.basis, found.basis_how),
        (MassUnit::Lb, Basis::Piece, How::Inferred)
    );
}

#[test]
fn four_lines_settle_nothing() {
    let lines: Vec<(u32, f64)> = (2..6).map(|n| (n, PLATE_KG * f64::from(n))).collect();
    let (items, settled) = settle(&plates("Weight", &lines));
    let found = reading(&settled);
    assert_eq!(
        (found.unit_how, found.basis_how),
        (How::Assumed, How::Assumed)
    );
    let declared = declared(
        &items[0].weights,
        &[],
        items[0].pieces,
        None,
        &settled,
        |_| true,
    )
    .expect("declared");
    assert_eq!(declared.how, How::Assumed);
}

#[test]
fn lines_of_one_piece_say_nothing_about_the_basis() {
    let lines = vec![(1, PLATE_KG); 8];
    let (items, settled) = settle(&plates("Weight kg", &lines));
    assert_eq!(reading(&settled).basis_how, How::Assumed);
    // But one piece weighs what its line weighs: nothing is doubtful about it.
    let declared = declared(&items[0].weights, &[], 1, None, &settled, |_| true).expect("declared");
    assert_eq!(
        (declared.how, declared.mass),
        (How::Inferred, declared.heaviest)
    );
}

#[test]
fn an_assumed_reading_plans_with_the_heaviest_still_possible() {
    let (items, settled) = settle(&plates("Weight kg", &[(10, 100.0), (4, 900.0)]));
    let all = declared(&items[0].weights, &[], 10, None, &settled, |_| true).expect("declared");
    assert_eq!((all.mass.kg(), all.heaviest.kg()), (100.0, 1_000.0));
    let bounded = declared(&items[0].weights, &[], 10, None, &settled, |mass| {
        mass.kg() < 500.0
    })
    .expect("declared");
    assert_eq!(bounded.heaviest.kg(), 100.0);
}

#[test]
fn a_column_that_contradicts_its_heading_is_one_finding() {
    let in_kg: Vec<(u32, f64)> = (2..9).map(|n| (n, PLATE_KG * f64::from(n))).collect();
    let (items, settled) = settle(&plates("Line weight lb", &in_kg));
    let found = settled.contradicted.first().expect("contradicted");
    assert_eq!(
        (found.stated, found.fits, found.lines),
        (MassUnit::Lb, MassUnit::Kg, 7)
    );
    let declared = declared(
        &items[0].weights,
        &[],
        items[0].pieces,
        None,
        &settled,
        |_| true,
    )
    .expect("declared");
    assert_eq!(declared.how, How::Contradicted);
    // At face value, with the heavier reading kept for the plan.
    assert!(
        (declared.mass.lb() - PLATE_KG * 2.0).abs() < 1e-9
            && (declared.heaviest.kg() - PLATE_KG * 2.0).abs() < 1e-9
    );
}

#[test]
fn what_the_line_withholds_a_piece_weight_does_not_say() {
    let text =
        "Description,Qty,Weight each kg,Total weight kg\nBase plate,4,39,TBA\nBase plate,4,39,\n";
    let (items, settled) = settle(text);
    let of = |item: &Item| {
        declared(
            &item.weights,
            &item.unusable,
            item.pieces,
            None,
            &settled,
            |_| true,
        )
        .map(|declared| declared.mass.kg())
    };
    assert_eq!(of(&items[0]), None);
    assert_eq!(of(&items[1]), Some(156.0));
}

#[test]
fn gross_comes_before_net_and_the_line_before_the_piece() {
    let text =
        "Description,Qty,Net weight kg,Gross weight kg,Weight each kg\nBase plate,4,150,160,38\n";
    let (items, settled) = settle(text);
    let declared = declared(&items[0].weights, &[], 4, None, &settled, |_| true).expect("declared");
    assert_eq!(
        (declared.mass.kg(), declared.kind),
        (160.0, WeightKind::Gross)
    );
}
