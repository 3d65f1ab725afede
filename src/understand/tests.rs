//! Whole lists read through: what suppliers write, and what a careful clerk reads there.

use super::{Known, SheetReading, file};

fn list(text: &str) -> SheetReading {
    let raw = crate::read::bytes("list.csv", text.as_bytes()).expect("readable");
    file(&raw, &Known::default()).remove(0)
}

fn codes(reading: &SheetReading) -> Vec<&'static str> {
    let lines = reading.items.iter().flat_map(|item| &item.remarks);
    lines
        .chain(&reading.remarks)
        .map(|remark| remark.code)
        .collect()
}

/// Length, width and height of the first line in millimetres.
fn sides(text: &str) -> [Option<f64>; 3] {
    let sizes = list(text).items[0].sizes;
    [sizes.length, sizes.width, sizes.height]
        .map(|size| size.map(|size| (size.length.mm() * 10.0).round() / 10.0))
}

#[test]
fn bare_figures_follow_the_units_of_the_list() {
    let text = "Description,Qty,Meas. (cm),Gross wt (kg),Remark\nPoint motor,1,120x80x60,400,\nCounterweight 400x300x150,1,,120,\nReel,1,\"48\"\" x 30\"\"\",200,\n";
    let raw = crate::read::bytes("list.csv", text.as_bytes()).expect("readable");
    let us_site = Known {
        us: true,
        ..Known::default()
    };
    let reading = file(&raw, &us_site).remove(0);
    let length = reading.items[1].sizes.length.expect("a length");
    assert_eq!(length.length.mm().round(), 400.0);
}

#[test]
fn a_depth_is_the_size_that_no_other_column_holds() {
    let head = "Description,Qty,Weight (kg),";
    for (columns, row, expected) in [
        (
            "Width (mm),Depth (mm),Height (mm)",
            "800,600,1800",
            [600.0, 800.0, 1800.0],
        ),
        (
            "Length (mm),Width (mm),Depth (mm)",
            "2000,800,600",
            [2000.0, 800.0, 600.0],
        ),
        (
            "Breite mm,Tiefe mm,Höhe mm",
            "800,600,1800",
            [600.0, 800.0, 1800.0],
        ),
        ("WxHxD (mm)", "800x1800x600", [600.0, 800.0, 1800.0]),
    ] {
        let text = format!("{head}{columns}\nRelay cabinet,1,90,{row}\n");
        assert_eq!(sides(&text), expected.map(Some), "{columns}");
    }
}

#[test]
fn two_figures_beside_a_length_are_the_section() {
    for goods in [
        "Oak sleeper 250x150 mm",
        "Concrete kerb 250 x 150",
        "Steel billet 250x150",
    ] {
        let text = format!("Description,Qty,Length (mm),Weight (kg)\n{goods},1,2600,90\n");
        assert_eq!(
            sides(&text),
            [Some(2600.0), Some(250.0), Some(150.0)],
            "{goods}"
        );
    }
}

#[test]
fn feet_and_inches_of_two_columns_are_one_size() {
    let text = "Description,Qty,Length (ft),Length (in),Weight (lb)\nW12x26 beam,1,20,11,544\nW12x26 beam,1,,9,20\n";
    assert_eq!(sides(text)[0], Some(6375.4));
    // The same size twice is no sum.
    let twins = "Description,Qty,Length (ft),Length (in),Weight (lb)\nW12x26 beam,1,20,240,520\n";
    assert_eq!(sides(twins)[0], Some(6096.0));
}

#[test]
fn a_line_with_a_figure_is_no_heading() {
    let text = "Delivery note,Description,Qty,Length (mm),Weight (kg)\nA1,Plate,1,1000,20\nDelivery Note,Description,7,Units,Weight\nA3,Bar,2,3000,40\n";
    let rows: Vec<u32> = list(text).items.iter().map(|item| item.place.row).collect();
    assert_eq!(rows, [2, 3, 4]);
}

#[test]
fn nothing_delivered_is_said() {
    let text = "Description,Ordered,Shipped,Weight (kg)\nPlate,5,0,200\nPlate,5,5,200\n";
    assert_eq!(
        codes(&list(text)),
        ["nothing-delivered", "quantity-assumed"]
    );
}

#[test]
fn several_deliveries_in_a_list_are_said() {
    let text = |second: &str| {
        format!("Delivery No,Description,Qty,Weight (kg)\nD1001,Plate,1,20\n{second},Bar,2,40\n")
    };
    assert_eq!(codes(&list(&text("D1002"))), ["several-deliveries"]);
    let one = list(&text("D1001"));
    assert!(codes(&one).is_empty());
    assert_eq!(one.delivery, "D1001");
}

#[test]
fn a_size_under_a_heading_nobody_knows_is_said() {
    let text = "Description,Qty,Blarg (mm),Weight (kg)\nPlate,1,12,20\n";
    assert_eq!(codes(&list(text)), ["column-not-read"]);
}

/// The packages of a list: kilograms and rows.
fn packages(text: &str) -> Vec<(f64, Vec<u32>)> {
    list(text)
        .shared
        .into_iter()
        .map(|shared| (shared.weights[0].figure, shared.rows))
        .collect()
}

#[test]
fn a_weight_in_words_is_that_of_its_package() {
    let section = "Description,Qty,Weight (kg)\nPallet 2 - 640 kg gross,,\nBolts,20,\nNuts,50,\n\nPlate,1,90\n";
    assert_eq!(packages(section), [(640.0, vec![3, 4])]);
    let sized =
        "Description,Qty,Size,Weight (kg)\nPallet 1 - 850 kg gross,,1200x800x900,\nBolts,20,,\n";
    assert_eq!(packages(sized), [(850.0, vec![3])]);
    let footer = "Description,Qty,Weight (kg)\nBolts,20,\nNuts,50,\n\nAll goods packed on one pallet with a gross weight of 640 kg.,,\n";
    assert_eq!(packages(footer), [(640.0, vec![2, 3])]);
}

#[test]
fn lines_with_weights_below_a_pallet_stand_on_it() {
    let text = "Description,Qty,Weight (kg)\nPallet 1 - 850 kg gross,,\nBolts,20,400\nNuts,50,390\n\nPlate,1,90\n";
    let stands: Vec<_> = list(text)
        .items
        .into_iter()
        .map(|item| item.stands_on)
        .collect();
    let pallet = Some("Pallet 1 - 850 kg gross".to_string());
    assert_eq!(stands, [pallet.clone(), pallet, None]);
}

#[test]
fn a_weight_in_words_that_is_no_lines_is_said() {
    let list_with = |note: &str| {
        codes(&list(&format!(
            "Description,Qty,Weight (kg)\nBolts,20,100\nNuts,50,200\n\n{note},,\n"
        )))
    };
    assert_eq!(list_with("Pallets 1-3: 850 kg gross."), ["weight-in-words"]);
    assert!(list_with("We certify a gross weight of 300 kg.").is_empty());
    assert!(list_with("Deliver to gate 2.").is_empty());
}

#[test]
fn rows_of_sums_are_no_goods() {
    for row in [
        "Gross weight of the consignment,,300",
        "Weight incl. packing,,320",
        "Shipping weight,,320",
        "Bundle total,29,300",
        "Net total,,300",
        "Poids brut,,300",
        "总重量,,300",
    ] {
        let text = format!("Description,Qty,Weight (kg)\nBolts,20,100\nNuts,50,200\n{row}\n");
        assert_eq!(list(&text).items.len(), 2, "{row}");
    }
}
