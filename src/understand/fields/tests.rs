//! What whole rows say beyond their figures. Words of counts and weights: common practice, no source; a dozen is 12.

use crate::understand::{Basis, Item, Known, MassUnit, WeightKind, file};

/// The items of a small list in commas: description, quantity and weight are its columns.
fn items(rows: &str) -> Vec<Item> {
    let text = format!("Description,Qty,Weight\n{rows}\nPlate,1,12 kg\n");
    let Ok(raw) = crate::read::bytes("list.csv", text.as_bytes()) else {
        return Vec::new();
    };
    file(&raw, &Known::default())
        .into_iter()
        .flat_map(|sheet| sheet.items)
        .collect()
}

#[test]
fn counts_of_dozens_and_of_packages() {
    for (quantity, pieces, packages) in [
        ("3 doz", 36, None),
        ("20 ctns of 12", 240, Some(20)),
        ("(10)", 10, None),
        ("2 crates", 2, Some(2)),
    ] {
        let found = items(&format!("Clamp,{quantity},4 kg"));
        assert_eq!(
            found.first().map(|item| (item.pieces, item.packages)),
            Some((pieces, packages)),
            "{quantity}"
        );
    }
}

#[test]
fn what_a_weight_cell_says_of_its_own_figure_beats_the_heading() {
    for (weight, basis, kind) in [
        ("4 kg each", Some(Basis::Piece), WeightKind::Unstated),
        ("@4 kg", Some(Basis::Piece), WeightKind::Unstated),
        ("4 kg gross", None, WeightKind::Gross),
        ("4 kg net total", Some(Basis::Line), WeightKind::Net),
        ("4 kg", None, WeightKind::Unstated),
    ] {
        let found = items(&format!("Clamp,10,{weight}"));
        let read = found
            .first()
            .and_then(|item| item.weights.first())
            .map(|weight| (weight.basis, weight.kind));
        assert_eq!(read, Some((basis, kind)), "{weight}");
    }
}

#[test]
fn a_ton_without_a_country_and_a_count_in_two_readings_are_said() {
    for (row, code) in [
        ("Clamp,10,4 T", "unclear-figure"),
        ("Clamp,24.000,4 kg", "unclear-figure"),
    ] {
        let text = format!("Description,Qty,Weight\n{row}\n");
        let raw = crate::read::bytes("list.csv", text.as_bytes());
        let remarks: Vec<_> = raw
            .iter()
            .flat_map(|raw| file(raw, &Known::default()))
            .flat_map(|sheet| sheet.items)
            .flat_map(|item| item.remarks)
            .collect();
        assert!(
            remarks.iter().any(|remark| remark.code == code),
            "{row}: {remarks:?}"
        );
    }
}

/// Net and gross in one cell: common practice of packing lists, no source.
#[test]
fn the_unit_behind_two_weights_stands_for_both() {
    for (cell, unit) in [
        ("33 /38 lb", Some(MassUnit::Lb)),
        ("26kgs/30.5kgs", Some(MassUnit::Kg)),
        ("33/38", None),
    ] {
        let text = format!("Description,Qty,N.W./G.W.\nClamp,1,{cell}\nPlate,1,12.5/13.5 kg\n");
        let raw = crate::read::bytes("list.csv", text.as_bytes());
        let sheets: Vec<_> = raw
            .iter()
            .flat_map(|raw| file(raw, &Known::default()))
            .collect();
        let weights: Vec<_> = sheets
            .iter()
            .filter_map(|sheet| sheet.items.first())
            .flat_map(|item| &item.weights)
            .map(|weight| (weight.kind, weight.unit))
            .collect();
        assert_eq!(
            weights,
            [(WeightKind::Net, unit), (WeightKind::Gross, unit)],
            "{cell}"
        );
    }
}

#[test]
fn a_ditto_mark_repeats_the_cell_above() {
    let found = items("Oak sleeper,4,60 kg\nditto,6,\"\"\"\"\ndo.,8,70 kg");
    let read: Vec<(&str, u32, Option<f64>)> = found
        .iter()
        .map(|item| {
            (
                item.description.as_str(),
                item.pieces,
                item.weights.first().map(|weight| weight.figure),
            )
        })
        .take(3)
        .collect();
    assert_eq!(
        read,
        [
            ("Oak sleeper", 4, Some(60.0)),
            ("Oak sleeper", 6, Some(60.0)),
            ("Oak sleeper", 8, Some(70.0))
        ]
    );
}
