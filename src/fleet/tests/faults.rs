//! A register with many faults: each is reported with its cell and what to do, the sound truck stays usable.

use super::*;
use crate::fleet::choose::smallest;
use crate::fleet::register;

/// Every fault as (cell, truck, part of the message); the list must be complete.
#[track_caller]
fn expect(fleet: &Fleet, faults: &[(&str, &str, &str)]) {
    let found: Vec<String> = fleet
        .faults
        .iter()
        .map(|fault| {
            let truck = fault.truck.as_deref().unwrap_or("-");
            format!("{} {truck}: {}", fault.place.cell(), fault.message())
        })
        .collect();
    for (cell, truck, part) in faults {
        let start = format!("{cell} {truck}: ");
        assert!(
            found
                .iter()
                .any(|fault| fault.starts_with(&start) && fault.contains(part)),
            "{cell} {truck} {part} is not among\n{found:#?}"
        );
    }
    assert_eq!(found.len(), faults.len(), "{found:#?}");
}

#[test]
fn every_seeded_fault_is_found() {
    let lines = "
Truck | Class | Capacity (lb) | Load centre (in) | Lift height (in) | Attachment | Fitted | Available | Out until | Inspection due | Service weight (lb) | Fork length (in) | Vertical mast
A1 | V | 5000 | 24 | 180 | | | yes | | 2026-12-31 | 9000 | 42
A2 | V | 5000 | 24 | 180
A2 |   | 4900 | 24 | 180
A3 | V | 5000 | 24 | 120
A3 |   | 5100 | 30 | 120
A4 | V | 5000 | 24 | 120
A4 |   | 5200 | 24 | 180
A5 | V |      | 24 | 180
A6 | V | -100 | 24 | 180
A7 | V | 5000 |    | 180
A8 | IX | 5000 | 24 | 180
A9 | V | 5000 | 24 | 180 | | | perhaps
B1 | V | 5000 | 24 | 180 | | | yes | 03/04/2026
B2 | V | 5000 | 24 | 180 | | | yes | | soon
B3 | V | 5000 | 24 | 180 | | clamp
B4 | V | 5000 | 24 | 180 | | | | | | 9000
B4 |   | 4000 | 36 | 180 | | | | | | 9800
B5 | V | five | 24 | 180
B6 | V | 5000 | 24 kg | 180
B7 | V | 5000 | 24 | 180 | | | | | | | 42 to 48
B8 | V | 5000 | 600 | 180
B9 | VII | 5000 | 24 | 180 | | | | | | | | sometimes
C1 | V | 2 tons | 24 | 180
C2 | V | 2.500 kg | 24 | 180
C3 | V | 5000 | 24 | 180 | clamp
";
    let mut sheet = table(lines);
    let hidden = sheet.rows.last().cloned().map(|row| Row {
        number: row.number + 1,
        hidden: true,
        cells: vec![Cell {
            column: 3,
            value: Value::Number(1.0),
        }],
    });
    sheet.rows.extend(hidden);
    let fleet = register::understand(&[sheet], Units::Us);
    expect(
        &fleet,
        &[
            ("C4", "A2", "already given in C3"),
            (
                "C6",
                "A3",
                "capacity rises to 5,100 lb at 30 in up to 120 in from 5,000 lb at 24 in up to 120 in in C5",
            ),
            ("C8", "A4", "capacity rises to 5,200 lb"),
            (
                "C9",
                "A5",
                "capacity is missing; enter what the plate states",
            ),
            ("C10", "A6", "\"-100\" is not more than zero"),
            (
                "D11",
                "A7",
                "load centre is missing; enter what the plate states (trucks of this capacity are usually rated at 24 in; it is not taken for granted)",
            ),
            ("B12", "A8", "class \"IX\" is not one of I to VII"),
            ("H13", "A9", "\"perhaps\" is neither yes nor no"),
            (
                "I14",
                "B1",
                "can be read as two dates; write it as YYYY-MM-DD",
            ),
            ("J15", "B2", "\"soon\" is no date; write it as YYYY-MM-DD"),
            ("G16", "B3", "wears clamp and has no plate row"),
            (
                "K18",
                "B4",
                "service weight is 9,800 lb here and 9,000 lb in K17",
            ),
            ("C19", "B5", "\"five\" is no weight"),
            ("D20", "B6", "none of length"),
            ("L21", "B7", "\"42 to 48\" is no length"),
            ("D22", "B8", "check the figure and its unit"),
            ("M23", "B9", "\"sometimes\" is neither yes nor no"),
            ("C24", "C1", "a ton may be 2,000 lb, 2,240 lb or 1,000 kg"),
            ("C25", "C2", "can be read two ways"),
            ("A26", "C3", "wears bare forks and has no plate row"),
            ("row 27", "C3", "the row is hidden"),
        ],
    );
    for truck in &fleet.trucks {
        assert_eq!(truck.faulty, truck.id != "A1", "{}", truck.id);
    }
    let choice = smallest(&fleet, &load_lb(4_000.0, 48.0), today(), &us_site());
    assert_eq!(name(&choice), "A1");
    let heavy = smallest(&fleet, &load_lb(5_050.0, 48.0), today(), &us_site());
    assert_eq!(name(&heavy), "no truck");
    assert_eq!(
        clause(&heavy, "A4"),
        "its rows in the register hold a fault"
    );
}

#[test]
fn capacity_and_load_centre_need_a_unit() {
    let bare = register::understand(
        &[table(
            "Truck | Capacity | Load centre | Lift height (in)\nT1 | 5000 | 24 | 180\nT2 | 6000 | 24 | 180",
        )],
        Units::Us,
    );
    expect(
        &bare,
        &[
            ("B1", "-", "capacity has no unit anywhere in this column"),
            ("C1", "-", "load centre has no unit anywhere in this column"),
        ],
    );
    assert!(
        bare.trucks
            .iter()
            .all(|truck| truck.faulty && truck.points.is_empty())
    );

    let mixed = register::understand(
        &[table(
            "Truck | Capacity | Load centre\nT1 | 5000 lb | 24 in\nT2 | 6000 | 24 in\nT3 | 2500 kg | 600",
        )],
        Units::Si,
    );
    expect(
        &mixed,
        &[
            (
                "B3",
                "T2",
                "capacity has no unit; write it in the cell or the heading",
            ),
            (
                "C4",
                "T3",
                "load centre has no unit; write it in the cell or the heading",
            ),
        ],
    );
    assert!(!truck(&mixed, "T1").faulty);
}

#[test]
fn the_usual_load_centre_is_suggested_and_not_taken() {
    let fleet = register::understand(
        &[table(
            "Truck | Capacity (kg) | Load centre (mm)\nM1 | 2000 |\nM2 | 6000 |",
        )],
        Units::Si,
    );
    expect(
        &fleet,
        &[
            ("C2", "M1", "usually rated at 500 mm"),
            ("C3", "M2", "usually rated at 600 mm"),
        ],
    );
    assert!(fleet.trucks.iter().all(|truck| truck.points.is_empty()));
}

#[test]
fn columns_and_tables_that_are_missing() {
    let no_centre = register::understand(&[table("Truck | Capacity (lb)\nT1 | 5000")], Units::Us);
    expect(
        &no_centre,
        &[("row 1", "-", "no column for the load centre")],
    );
    assert!(truck(&no_centre, "T1").faulty);

    let no_truck = register::understand(
        &[table("Capacity (lb) | Load centre (in)\n5000 | 24")],
        Units::Us,
    );
    expect(&no_truck, &[("row 1", "-", "no column for the truck")]);
    assert!(no_truck.trucks.is_empty());

    let nothing = register::understand(&[table("Holidays\nMonday | closed")], Units::Us);
    expect(&nothing, &[("row 1", "-", "no table of trucks was found")]);

    let nameless = register::understand(
        &[table(
            "Truck | Capacity (lb) | Load centre (in)\n | 5000 | 24\nT1 | 5000 | 24",
        )],
        Units::Us,
    );
    expect(&nameless, &[("A2", "-", "no truck is named")]);
    assert!(!truck(&nameless, "T1").faulty);
    assert!(register::understand(&[], Units::Us).trucks.is_empty());
}

#[test]
fn errors_and_formulas_without_a_result() {
    let mut sheet = table("Truck | Capacity (lb) | Load centre (in)\nT1 | x | 24\nT2 | 5000 | x");
    for (row, column, value) in [
        (1, 1, Value::Error("#REF!".into())),
        (2, 2, Value::Formula("A1*2".into())),
    ] {
        sheet.rows[row].cells[column].value = value;
    }
    let fleet = register::understand(&[sheet], Units::Us);
    expect(
        &fleet,
        &[
            ("B2", "T1", "the error #REF!"),
            ("C3", "T2", "a formula without a result"),
        ],
    );
}

#[test]
fn two_columns_of_one_field_must_agree() {
    let fleet = register::understand(
        &[table(
            "Truck | Capacity (lb) | Capacity (kg) | Load centre (in) | Load centre (mm)
             T1 | 5000 | 2268 | 24 | 600
             T2 | 5000 | 5000 | 24 | 600",
        )],
        Units::Us,
    );
    expect(
        &fleet,
        &[(
            "C3",
            "T2",
            "capacity is 11,023 lb here and 5,000 lb in another column",
        )],
    );
    let point = &truck(&fleet, "T1").points[0];
    assert!((point.capacity.lb() - 5_000.0).abs() < 1e-6);
    // The shorter load centre is the safer reading of the same point.
    assert!((point.load_centre.mm() - 600.0).abs() < 1e-9);
}

const ONE_TRUCK: &str = "Truck | Capacity (lb) | Load centre (in) | Lift height (in)\n";

#[test]
fn a_plate_of_many_rows_is_a_fault_and_ends() {
    let rows: String = (0..1_000)
        .map(|row| format!("A | {} | {} | 60\n", 5_000 - row, 20 + row % 90))
        .collect();
    let fleet = register::understand(&[table(&format!("{ONE_TRUCK}{rows}"))], Units::Us);
    let truck = truck(&fleet, "A");
    assert!(truck.faulty);
    assert_eq!(truck.points.len(), 100);
    let choice = smallest(&fleet, &load_lb(100.0, 400.0), today(), &us_site());
    assert_eq!(choice.truck, None);
}

#[test]
fn a_register_too_long_is_not_read_in_part() {
    let rows: String = (0..5_001)
        .map(|row| format!("T{row} | 5000 | 24 | 60\n"))
        .collect();
    let fleet = register::understand(&[table(&format!("{ONE_TRUCK}{rows}"))], Units::Us);
    assert!(fleet.trucks.is_empty());
    assert!(
        fleet.faults[0].message().contains("at most 5000"),
        "{:?}",
        fleet.faults
    );
    let within: String = (0..4_000)
        .map(|row| format!("T{row} | 5000 | 24 | 60\n"))
        .collect();
    let fleet = register::understand(&[table(&format!("{ONE_TRUCK}{within}"))], Units::Us);
    assert_eq!((fleet.trucks.len(), fleet.faults.len()), (4_000, 0));
}
