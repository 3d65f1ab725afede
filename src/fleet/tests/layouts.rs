//! Registers in other layouts: titles, column order, units, languages, text cells, merged cells.

use super::*;
use crate::fleet::register;
use crate::fleet::{Class, choose::smallest};
use crate::read::Merged;

/// Truck, capacity in kilograms, load centre and lift height in millimetres, of each row.
fn points(fleet: &Fleet) -> Vec<(String, i64, i64, Option<i64>)> {
    let whole = |value: f64| value.round() as i64;
    fleet
        .trucks
        .iter()
        .flat_map(|truck| {
            truck.points.iter().map(move |point| {
                (
                    truck.id.clone(),
                    whole(point.capacity.kg()),
                    whole(point.load_centre.mm()),
                    point.lift_height.map(|height| whole(height.mm())),
                )
            })
        })
        .collect()
}

#[track_caller]
fn sound(sheet: Sheet) -> Fleet {
    let fleet = register::understand(&[sheet], Units::Si);
    assert_eq!(fleet.faults, []);
    fleet
}

#[test]
fn one_fleet_in_many_layouts() {
    let expected = vec![
        ("M1".to_string(), 2_000, 500, Some(3_300)),
        ("M1".to_string(), 1_500, 600, Some(4_500)),
        ("M2".to_string(), 5_000, 600, Some(4_000)),
    ];
    for lines in [
        "
Kestrel Junction stores

Lift trucks, as of spring
Truck | Capacity (kg) | Load centre (mm) | Lift height (mm)
M1 | 2000 | 500 | 3300
M1 | 1500 | 600 | 4500
M2 | 5000 | 600 | 4000",
        "
Max. lift height [m] | Remark | LC / mm | Rated capacity, t | Truck no.
3.3 | | 500 | 2 | M1
4.5 | second point | 600 | 1.5 |
4 | | 600 | 5 | M2",
        "
Truck | Capacity | Load center | Lift height
M1 | 2,000 kg | 500 mm | 3.3 m
   | 1 500 kg | 60 cm | 4,5 m
M2 | 5'000 kg | 0.6 m | 4 m",
        "
Truck | Capacity | Load centre | Lift height
      | kg | mm | m
M1 | 2000 | 500 | 3.3
M1 | 1500 | 600 | 4.5
Truck | Capacity | Load centre | Lift height
M2 | 5000 | 600 | 4
Figures copied from the capacity plates",
        "
Stapler | Tragfähigkeit (kg) | Lastschwerpunkt (mm) | Hubhöhe (mm)
M1 | 2000 | 500 | 3300
 | 1500 | 600 | 4500
M2 | 5000 | 600 | 4000",
        "
Chariot | Capacité nominale (kg) | Centre de charge (mm) | Hauteur de levée (mm)
M1 | 2000 | 500 | 3300
 | 1500 | 600 | 4500
M2 | 5000 | 600 | 4000",
        "
Carretilla | Capacidad nominal (kg) | Centro de carga (mm) | Altura de elevación (mm)
M1 | 2000 | 500 | 3300
 | 1500 | 600 | 4500
M2 | 5000 | 600 | 4000",
    ] {
        assert_eq!(points(&sound(table(lines))), expected, "{lines}");
        assert_eq!(
            points(&sound(text_table(lines))),
            expected,
            "as text: {lines}"
        );
    }
}

#[test]
fn us_units_as_people_write_them() {
    let fleet = sound(text_table(
        "
Truck | Capacity | Load centre | Lift height | Fork length | Axle distance
T1 | 5,000 lbs | 24\" | 15' 9\" | 3 ft 6 in | 16 1/2 in",
    ));
    let truck = truck(&fleet, "T1");
    assert!((truck.points[0].capacity.lb() - 5_000.0).abs() < 1e-9);
    assert!((truck.points[0].load_centre.inches() - 24.0).abs() < 1e-9);
    assert!(
        truck.points[0]
            .lift_height
            .is_some_and(|height| (height.inches() - 189.0).abs() < 1e-9)
    );
    assert!(
        truck
            .fork_length
            .is_some_and(|length| (length.inches() - 42.0).abs() < 1e-9)
    );
    assert!(
        truck
            .axle
            .is_some_and(|length| (length.inches() - 16.5).abs() < 1e-9)
    );
}

#[test]
fn every_column_is_taken() {
    let mut sheet = table(
        "
Truck | Class | Capacity (lb) | Load centre (in) | Lift height (in) | Attachment | Fitted | Available | Out until | Inspection due | Fuel | Where it may work | Service weight (lb) | Fork length (in) | Vertical mast | Axle distance (in) | Lowered height (in) | Remark | Lease
T1 | 7 | 5000 | 24 | 180 | | sideshift | yes | 25/04/2026 | x | diesel | Yard 2, outside | 9000 | 42 | yes | 16 | 84 | new tyres | 2027
   |   | 4800 | 24 | 180 | Side-Shift | | | | | | | | | | | | plate of 2024",
    );
    let due = NaiveDate::from_ymd_opt(2026, 12, 31).and_then(|date| date.and_hms_opt(0, 0, 0));
    let cell = sheet.rows[1]
        .cells
        .iter_mut()
        .find(|cell| cell.column == 10);
    cell.expect("a cell").value = Value::Date(due.expect("a date"));
    let fleet = sound(sheet);
    let truck = truck(&fleet, "T1");
    assert_eq!(truck.class, Some(Class::VII));
    assert!(!truck.class_assumed && !truck.faulty);
    assert_eq!(truck.fitted.as_deref(), Some("sideshift"));
    assert_eq!(truck.available, Some(true));
    assert_eq!(truck.out_until, NaiveDate::from_ymd_opt(2026, 4, 25));
    assert_eq!(truck.inspection_due, NaiveDate::from_ymd_opt(2026, 12, 31));
    assert_eq!(truck.fuel.as_deref(), Some("diesel"));
    assert_eq!(truck.places, ["yard 2", "outdoor"]);
    assert!(
        truck
            .service
            .is_some_and(|mass| (mass.lb() - 9_000.0).abs() < 1e-6)
    );
    assert_eq!(truck.vertical_mast, Some(true));
    assert!(
        truck
            .lowered_height
            .is_some_and(|height| (height.inches() - 84.0).abs() < 1e-9)
    );
    assert_eq!(truck.remark.as_deref(), Some("new tyres; plate of 2024"));
    assert_eq!(
        fleet.notes,
        ["column S, \"Lease\", is not used: no heading of a fleet register is known by that name"]
    );
    // The row of the attachment that is fitted counts, however it is spelled, and a side-shift still carries on forks.
    let choice = smallest(&fleet, &load_lb(4_800.0, 48.0), today(), &us_site());
    assert_eq!(name(&choice), "T1");
    let choice = smallest(&fleet, &load_lb(4_801.0, 48.0), today(), &us_site());
    assert_eq!(clause(&choice, "T1"), "lifts 4,800 lb at 24 in, 1 lb short");
}

#[test]
fn a_cell_merged_downwards_counts_for_each_row() {
    let mut sheet = table(
        "
Truck | Capacity (kg) | Load centre (mm) | Attachment | Fitted
M1 | 1500 | 500 | clamp | clamp
   | 1200 | 600
   | 2000 | 500",
    );
    sheet.merged.push(Merged {
        top: 2,
        left: 4,
        bottom: 3,
        right: 4,
    });
    let fleet = sound(sheet);
    let worn: Vec<Option<&str>> = truck(&fleet, "M1")
        .points
        .iter()
        .map(|point| point.attachment.as_deref())
        .collect();
    assert_eq!(worn, [Some("clamp"), Some("clamp"), None]);
}

#[test]
fn what_is_assumed_is_said_once() {
    let fleet = sound(table(
        "Truck | Capacity (kg) | Load centre (mm)\nM1 | 2000 | 500\nM2 | 3000 | 500",
    ));
    assert_eq!(
        fleet.notes,
        [
            "no column for lift height: every plate row covers the site's usual lift height only",
            "no column for availability: every truck counts as available unless a date says otherwise",
            "no column for inspection due: inspections are not checked",
            "no class column: all trucks taken as counterbalanced",
        ]
    );
    assert!(fleet.trucks.iter().all(|truck| truck.class_assumed));
    let choice = smallest(
        &fleet,
        &load_kg(1_500.0, 1_200.0),
        today(),
        &Site::default(),
    );
    assert_eq!(
        choice.truck.map(|chosen| chosen.notes).unwrap_or_default(),
        [
            "capacity calculated, the plate governs",
            "availability not stated",
            "inspection date not stated",
            "plate row without a lift height: taken for the site's usual height only",
            "class not stated, taken as counterbalanced",
        ]
    );
    let blank = sound(table(
        "Truck | Class | Capacity (kg) | Load centre (mm)\nM1 | | 2000 | 500",
    ));
    assert!(
        blank
            .notes
            .contains(&"class not stated, so plate rows only: M1".to_string())
    );
}

#[test]
fn other_sheets_and_hidden_ones_are_named() {
    let mut trucks = table("Truck | Capacity (kg) | Load centre (mm)\nM1 | 2000 | 500");
    let mut old = trucks.clone();
    (old.name, old.hidden) = ("Old".into(), true);
    let mut drivers = table("Name | Licence\nfirst shift | yes");
    drivers.name = "Drivers".into();
    trucks.hidden_columns.push(3);
    let fleet = register::understand(&[old, drivers, trucks], Units::Si);
    assert_eq!(fleet.faults, []);
    assert_eq!(points(&fleet).len(), 1);
    for note in [
        "sheet \"Old\" is hidden and was not read",
        "sheet \"Drivers\" holds no table of trucks and was not read",
        "the column \"Load centre (mm)\" is hidden and was read",
    ] {
        assert!(
            fleet.notes.iter().any(|said| said == note),
            "{:?}",
            fleet.notes
        );
    }
}

#[test]
fn days_on_which_a_truck_stays_out() {
    let lines = "
Truck | Capacity (lb) | Load centre (in) | Out of service? | Out until | Inspection due
T1 | 5000 | 24 | no | 2026-05-04 | 2026-12-31
T2 | 6000 | 24 | yes | | 2026-12-31
T3 | 7000 | 24 | no | | 2026-05-03
T4 | 8000 | 24 | no | 2026-05-03 | 2026-05-04";
    let fleet = sound(table(lines));
    let choice = smallest(&fleet, &load_lb(4_000.0, 48.0), today(), &us_site());
    assert_eq!(name(&choice), "T4");
    assert_eq!(clause(&choice, "T1"), "out of service until 2026-05-04");
    assert_eq!(clause(&choice, "T2"), "out of service");
    assert_eq!(clause(&choice, "T3"), "inspection overdue since 2026-05-03");
}
