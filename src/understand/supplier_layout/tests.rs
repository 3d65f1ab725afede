//! Supplier layouts on lists of invented suppliers: no figure here comes from outside, only which rule is followed.

use super::*;
use crate::read;
use crate::site::supplier;
use crate::understand::{self, Known, SheetReading};

/// Layouts from the site file's text.
fn layouts(text: &str) -> BTreeMap<String, SupplierLayout> {
    toml::from_str(text).expect("layouts")
}

fn read_with(
    layouts: &BTreeMap<String, SupplierLayout>,
    name: Option<&str>,
    list: &str,
) -> SheetReading {
    let raw = read::bytes("list.csv", list.as_bytes()).expect("read");
    let known = Known {
        supplier: name.map(str::to_string),
        layouts: layouts.clone(),
        ..Known::default()
    };
    understand::file(&raw, &known).remove(0)
}

fn codes(reading: &SheetReading) -> Vec<&'static str> {
    reading.remarks.iter().map(|remark| remark.code).collect()
}

/// Unit, basis and how of the first line's only weight.
fn weight(reading: &SheetReading) -> (Option<MassUnit>, Option<Basis>, How) {
    let weight = reading.items[0].weights.first().expect("a weight");
    let column = reading
        .columns
        .iter()
        .find(|column| column.layout.is_weight());
    (
        weight.unit,
        weight.basis,
        column.expect("a weight column").how,
    )
}

const LIST: &str = "Goods,Pcs,Length mm,Weight\nSteel bar,2,1000,86.5\n";
const BRAMBLE: &str = "[Bramble]\nheadings = [\"Goods\", \"Pcs\", \"Length mm\", \"Weight\"]\n\
    columns = { Weight = { unit = \"lb\", of = \"piece\" } }\n";

#[test]
fn the_site_file_knows_every_field() {
    let names: Vec<&str> = FIELDS.iter().map(|field| field.name()).collect();
    assert_eq!(names, supplier::FIELDS);
}

#[test]
fn a_list_is_known_by_its_headings() {
    let reading = read_with(
        &layouts(BRAMBLE),
        None,
        &LIST.replace("Pcs", " PCS").replace("Weight", "Weight,Heat"),
    );
    assert_eq!(reading.supplier.as_deref(), Some("Bramble"));
    assert_eq!(reading.supplier_from, "layout");
    assert_eq!(
        weight(&reading),
        (Some(MassUnit::Lb), Some(Basis::Piece), How::Site)
    );
    assert_eq!(codes(&reading), [""; 0]);

    let lacking = read_with(
        &layouts(BRAMBLE),
        None,
        &LIST.replace("Length mm", "Length cm"),
    );
    assert_eq!((lacking.supplier, lacking.supplier_from), (None, "unknown"));
    assert_eq!(
        weight(&read_with(
            &layouts(BRAMBLE),
            None,
            &LIST.replace("Length mm", "Length cm")
        ))
        .0,
        None
    );
}

#[test]
fn a_list_is_known_by_its_suppliers_name() {
    let by_name = layouts(BRAMBLE);
    let reading = read_with(
        &by_name,
        Some("BRAMBLE"),
        &LIST.replace("Length mm", "Length cm"),
    );
    assert_eq!(
        weight(&reading),
        (Some(MassUnit::Lb), Some(Basis::Piece), How::Site)
    );
    assert_eq!(
        (reading.supplier.as_deref(), reading.supplier_from),
        (Some("Bramble"), "option")
    );
    assert_eq!(codes(&reading), ["layout-headings-differ"]);
    let titled = read_with(
        &by_name,
        None,
        &format!("Supplier: bramble,,,\n,,,\n{LIST}"),
    );
    assert_eq!(weight(&titled).2, How::Site);
    assert_eq!((titled.supplier_from, codes(&titled)), ("cell", vec![]));
}

#[test]
fn a_list_that_names_somebody_else_is_not_read_with_it() {
    let foreign = format!("Supplier: Sedge Metals,,,\n,,,\n{LIST}");
    let reading = read_with(&layouts(BRAMBLE), None, &foreign);
    assert_eq!(weight(&reading).0, None);
    assert_eq!(reading.supplier.as_deref(), Some("Sedge Metals"));
    assert_eq!(codes(&reading), ["layout-not-used"]);
    let same = BRAMBLE.replace("[Bramble]", "[Bramble]\nnames = [\"SEDGE METALS\"]");
    let reading = read_with(&layouts(&same), None, &foreign);
    assert_eq!(
        (weight(&reading).2, reading.supplier.as_deref()),
        (How::Site, Some("Bramble"))
    );
}

#[test]
fn headings_of_two_layouts_decide_nothing() {
    let two = format!(
        "{BRAMBLE}\n{}",
        BRAMBLE.replace("[Bramble]", "[Sedge]").replace("lb", "kg")
    );
    let reading = read_with(&layouts(&two), None, LIST);
    assert_eq!(
        (weight(&reading).0, codes(&reading)),
        (None, vec!["layout-unclear"])
    );
    // The one with more headings is the better known.
    let more = two.replacen("\"Weight\"]", "\"Weight\", \"Heat\"]", 1);
    let reading = read_with(
        &layouts(&more),
        None,
        &LIST.replace("Weight\n", "Weight,Heat\n"),
    );
    assert_eq!(weight(&reading).0, Some(MassUnit::Lb));
}

#[test]
fn a_unit_in_the_heading_stays() {
    for (heading, layout, unit, conflict) in [
        ("Weight (kg)", "lb", MassUnit::Kg, true),
        ("Weight (kg)", "kg", MassUnit::Kg, false),
        ("Weight T", "short ton", MassUnit::ShortTon, false),
        ("Weight", "lb", MassUnit::Lb, false),
    ] {
        let text = BRAMBLE
            .replace("Weight =", "\"Weight\" =")
            .replace("\"Weight\"", &format!("\"{heading}\""))
            .replace("\"lb\"", &format!("\"{layout}\""));
        let reading = read_with(&layouts(&text), None, &LIST.replace("Weight", heading));
        assert_eq!(weight(&reading).0, Some(unit), "{heading} {layout}");
        assert_eq!(
            codes(&reading) == ["layout-unit-differs"],
            conflict,
            "{heading} {layout}: {:?}",
            reading.remarks
        );
        if conflict {
            let message = &reading.remarks[0].message;
            assert!(
                message.contains("says kg") && message.contains("says lb"),
                "{message}"
            );
            assert_eq!(reading.remarks[0].place.cell(), "D1");
        }
    }
    let length = BRAMBLE.replace(
        "columns = {",
        "columns = { \"Length mm\" = { unit = \"in\" },",
    );
    let reading = read_with(&layouts(&length), None, LIST);
    assert_eq!(codes(&reading), ["layout-unit-differs"]);
    assert_eq!(
        reading.items[0].sizes.length.map(|size| size.length.m()),
        Some(1.0)
    );
}

#[test]
fn a_unit_in_the_cell_stays() {
    let reading = read_with(&layouts(BRAMBLE), None, &LIST.replace("86.5", "86.5 kg"));
    assert_eq!(weight(&reading).0, Some(MassUnit::Kg));
}

#[test]
fn headings_that_say_nothing_make_a_table_with_a_layout() {
    let list = "Bramble,,\nTavara,Kpl,Paino\nKulmatanko,4,120\nLevy,2,80\n";
    let layout = layouts(
        "[Bramble]\nheadings = [\"Tavara\", \"Kpl\", \"Paino\"]\n[Bramble.columns]\n\
         Tavara = { field = \"description\" }\nKpl = { field = \"number of pieces\" }\n\
         Paino = { field = \"declared weight\", unit = \"kg\", of = \"line\", kind = \"gross\" }\n",
    );
    assert_eq!(read_with(&BTreeMap::new(), None, list).items, []);
    let reading = read_with(&layout, None, list);
    let items: Vec<(&str, u32)> = reading
        .items
        .iter()
        .map(|item| (item.description.as_str(), item.pieces))
        .collect();
    assert_eq!(items, [("Kulmatanko", 4), ("Levy", 2)]);
    assert_eq!(
        weight(&reading),
        (Some(MassUnit::Kg), Some(Basis::Line), How::Site)
    );
    assert_eq!(reading.items[0].weights[0].kind, WeightKind::Gross);
}

#[test]
fn the_layout_decides_between_two_columns_for_one_field() {
    let list = "Goods,Qty,Qty loaded,Length mm,Weight kg\nSteel bar,9,4,1000,86.5\n";
    let text = "[Bramble]\nheadings = [\"Goods\", \"Qty\"]\ncolumns = { \"Qty\" = { field = \"number of pieces\" }, \"Weight kg\" = { field = \"not used\" } }\n";
    let reading = read_with(&layouts(text), None, list);
    assert_eq!(reading.items[0].pieces, 9);
    assert_eq!(reading.items[0].weights, []);
}

#[test]
fn twin_headings_are_left_alone() {
    let list = "Goods,Pcs,Length mm,Weight,Weight\nSteel bar,2,1000,86.5,90\n";
    let reading = read_with(&layouts(BRAMBLE), None, list);
    assert_eq!(reading.supplier.as_deref(), Some("Bramble"));
    assert!(
        reading.items[0]
            .weights
            .iter()
            .all(|weight| weight.unit.is_none())
    );
}

#[test]
fn what_was_assumed_is_not_learnt() {
    let reading = read_with(
        &BTreeMap::new(),
        None,
        "Goods,Pcs,Length,Gross Weight\nSteel bar,2,1000,86.5\n",
    );
    let learnt = of_file(&[&reading], "Bramble").expect("a layout");
    let column = |heading: &str| {
        learnt
            .columns
            .iter()
            .find(|column| column.heading == heading)
            .expect("kept")
    };
    assert_eq!(column("Length").layout.unit(), None);
    assert!(
        column("Length")
            .note
            .as_ref()
            .is_some_and(|note| note.contains("ask the supplier"))
    );
    assert_eq!(
        (
            column("Gross Weight").layout.unit(),
            column("Gross Weight").layout.kind
        ),
        (None, Some("gross"))
    );
    assert_eq!(learnt.headings, ["Goods", "Pcs", "Length", "Gross Weight"]);
}

#[test]
fn a_learnt_layout_reads_the_list_as_before() {
    let list = "Supplier: Sedge Metals,,,,\n,,,,\nGoods,Pcs,Pkg length cm,Net Wt kg/pc,Heat\nSteel bar,2,100,86.5,X1\n";
    let before = read_with(&BTreeMap::new(), None, list);
    let learnt = of_file(&[&before], "Sedge").expect("a layout");
    assert_eq!(learnt.names, ["Sedge Metals"]);
    let after = read_with(
        &BTreeMap::from([(learnt.name.clone(), learnt.layout())]),
        None,
        list,
    );
    assert_eq!(after.items, before.items);
    assert_eq!(after.supplier.as_deref(), Some("Sedge"));
    let again = of_file(&[&after], "Sedge").expect("a layout").layout();
    assert_eq!(
        (again.columns, again.headings),
        (learnt.layout().columns, learnt.headings)
    );
}
