//! Published examples of capacity at a longer load centre, and the rules about kinds of truck.

use super::*;
use crate::fleet::{Class, capacity, register};

fn one(class: &str, capacity: f64, load_centre: f64) -> Truck {
    let lines = format!(
        "Truck | Class | Capacity (lb) | Load centre (in) | Lift height (in)\nT | {class} | {capacity} | {load_centre} | 180"
    );
    let fleet = register::understand(&[table(&lines)], Units::Us);
    truck(&fleet, "T").clone()
}

fn lb_at(truck: &Truck, inches: f64) -> Result<f64, String> {
    let low = Length::from_in(59.0);
    capacity::at(truck, Length::from_in(inches), low, low, true).map(|capacity| capacity.mass.lb())
}

#[test]
fn published_worked_examples() {
    for (source, rated, at, asked, printed) in [
        (
            "29 CFR 1910.178 App. A, A-5: 72,000 in-lb",
            3_000.0,
            24.0,
            30.0,
            2_400.0,
        ),
        (
            "OSHA eTool, load composition; rounded down",
            5_000.0,
            24.0,
            28.0,
            4_285.0,
        ),
        (
            "OSHA eTool, load composition; rounded down",
            4_000.0,
            24.0,
            36.0,
            2_666.0,
        ),
        (
            "training text, on file: 120,000 in-lb",
            5_000.0,
            24.0,
            30.0,
            4_000.0,
        ),
        (
            "training text, on file: 144,000 in-lb over 30",
            6_000.0,
            24.0,
            30.0,
            4_800.0,
        ),
        // C-2, 7: the slides' rule of 100 lb an inch would leave 3,400 lb; the moment rule, which is safer, leaves 3,000.
        ("training slides, load 80 in", 5_000.0, 24.0, 40.0, 3_000.0),
        // College exercise, on file: its inputs; results by the moment rule with d = 0.
        ("college exercise", 4_000.0, 28.0, 34.0, 3_294.0),
        ("college exercise", 4_000.0, 28.0, 38.0, 2_947.0),
        ("college exercise", 4_000.0, 28.0, 40.0, 2_800.0),
        ("college exercise", 6_000.0, 34.0, 34.0, 6_000.0),
        ("college exercise", 6_000.0, 34.0, 38.0, 5_368.0),
        ("college exercise", 6_000.0, 34.0, 40.0, 5_100.0),
    ] {
        let lifted = lb_at(&one("V", rated, at), asked).map(|lb| (lb + 1e-6).floor());
        assert_eq!(
            lifted,
            Ok(printed),
            "{source}: {rated} lb at {at} in, asked at {asked} in"
        );
    }
}

/// C-2, 8 (Wickert and Lewis, An Introduction to Mechanical Engineering, s. 4.5): a truck of 3,500 lb with its centre 42 in
/// behind the axle tips at 6,125 lb held 24 in before it. That is no capacity: nothing is worked out of a truck's weight.
#[test]
fn a_tipping_load_is_no_capacity() {
    let fleet = register::understand(
        &[table(
            "Truck | Class | Capacity (lb) | Load centre (in) | Service weight (lb) | Axle distance (in)\nT | V | | 24 | 3500 | 16",
        )],
        Units::Us,
    );
    let truck = truck(&fleet, "T");
    assert!(truck.faulty && truck.points.is_empty());
    assert_eq!(
        lb_at(truck, 24.0),
        Err("no plate row with bare forks: capacity unknown".to_string())
    );
}

/// C-2, 9 (training page on capacity plates): 1,600 kg at 500 mm hold up to 3,890 mm of lift and no further; and 10
/// (accreditor's article): a truck of 7,000 kg with a heavy attachment is plated at 4,500 kg.
#[test]
fn a_plate_row_holds_for_its_height_and_its_attachment() {
    let fleet = register::understand(
        &[table(
            "Truck | Class | Capacity (kg) | Load centre (mm) | Lift height (mm) | Attachment | Fitted\n\
             P | V | 1600 | 500 | 3890 | |\n\
             Q | V | 7000 | 500 | 3890 | | rotator\nQ | | 4500 | 500 | 3890 | rotator",
        )],
        Units::Si,
    );
    let kg_at = |id: &str, mm: f64| {
        let (centre, height) = (Length::from_mm(500.0), Length::from_mm(mm));
        let found = capacity::at(truck(&fleet, id), centre, height, centre, true);
        found.map(|capacity| capacity.mass.kg().round())
    };
    assert_eq!(kg_at("P", 3_890.0), Ok(1_600.0));
    assert!(kg_at("P", 3_891.0).is_err());
    assert_eq!(kg_at("Q", 1_500.0), Ok(4_500.0));
}

/// OSHA eTool, load composition, figure 2: a 4,500 lb box on a 4,500 lb truck is over capacity once turned lengthwise.
#[test]
fn any_longer_load_centre_is_over_a_full_rating() {
    let truck = one("V", 4_500.0, 24.0);
    assert_eq!(lb_at(&truck, 24.0).map(|lb| lb.round()), Ok(4_500.0));
    for inches in [24.1, 25.0, 30.0, 48.0] {
        assert!(
            lb_at(&truck, inches).is_ok_and(|lb| lb < 4_500.0),
            "{inches}"
        );
    }
}

/// The table of factors for d = 0 and for a stated d (C-1 of the reference, from the same moment rule).
#[test]
fn factors_with_and_without_axle_distance() {
    for (inches, without, with) in [
        (20.0, 1.0, 1.0),
        (30.0, 0.8, 0.870),
        (36.0, 0.667, 0.769),
        (42.0, 0.571, 0.690),
        (48.0, 0.5, 0.625),
        (60.0, 0.4, 0.526),
        (72.0, 0.333, 0.455),
    ] {
        let mut truck = one("V", 1_000.0, 24.0);
        assert!(lb_at(&truck, inches).is_ok_and(|lb| (lb / 1_000.0 - without).abs() < 6e-4));
        truck.axle = Some(Length::from_in(16.0));
        assert!(lb_at(&truck, inches).is_ok_and(|lb| (lb / 1_000.0 - with).abs() < 6e-4));
    }
}

/// Classes after the OSHA powered industrial truck eTool: the moment about the front axle is that of a counterbalanced
/// fork truck; narrow-aisle and hand trucks keep to their plate rows; tractors never lift.
#[test]
fn kinds_of_truck() {
    for (class, beyond, on_plate) in [
        ("I", true, true),
        ("II", false, true),
        ("III", false, true),
        ("IV", true, true),
        ("V", true, true),
        ("VI", false, false),
        ("VII", false, true),
        ("", false, true),
    ] {
        let truck = one(class, 5_000.0, 24.0);
        assert_eq!(lb_at(&truck, 24.0).is_ok(), on_plate, "class {class}");
        assert_eq!(lb_at(&truck, 25.0).is_ok(), beyond, "class {class}");
    }
    let mut rough = one("VII", 5_000.0, 24.0);
    rough.vertical_mast = Some(true);
    assert!(lb_at(&rough, 30.0).is_ok_and(|lb| (lb - 4_000.0).abs() < 1e-6));
    let assumed = Truck {
        class: None,
        class_assumed: true,
        ..one("V", 5_000.0, 24.0)
    };
    assert!(lb_at(&assumed, 30.0).is_ok());
    let stated = Truck {
        class: Some(Class::II),
        ..assumed
    };
    assert!(lb_at(&stated, 30.0).is_err());
}

#[test]
fn a_site_may_forbid_calculated_capacity() {
    let low = Length::from_in(59.0);
    let truck = one("V", 5_000.0, 24.0);
    assert!(capacity::at(&truck, Length::from_in(25.0), low, low, false).is_err());
    assert!(capacity::at(&truck, Length::from_in(24.0), low, low, false).is_ok());
}

#[test]
fn a_blank_lift_height_covers_the_usual_height_only() {
    let mut truck = one("V", 5_000.0, 24.0);
    truck
        .points
        .iter_mut()
        .for_each(|point| point.lift_height = None);
    let usual = Length::from_m(1.5);
    let at = |height| capacity::at(&truck, Length::from_in(24.0), height, usual, true);
    assert!(at(usual).is_ok());
    assert_eq!(
        at(Length::from_m(1.51)),
        Err("no plate row reaches that lift height".to_string())
    );
}

/// Beyond the last load centre nothing exceeds what the plate gives nearer in, at the same or at a lesser height.
#[test]
fn carried_out_figures_stay_below_every_nearer_row() {
    let lines = "
Truck | Class | Capacity (lb) | Load centre (in) | Lift height (in)
T | V | 3000 | 24 | 100
  |   | 1500 | 36 | 200
  |   | 1000 | 48 | 50
";
    let fleet = register::understand(&[table(lines)], Units::Us);
    assert_eq!(fleet.faults, []);
    for (inches, height, lb) in [
        // Next greater height 100 in: 3000 x 24 / 40 = 1800; the plate gives 1500 at 36 in: 1500 x 36 / 40 = 1350.
        (40.0, 60.0, 1_000.0),
        (36.0, 60.0, 1_500.0),
        // At 50 in the plate itself gives 1000 lb as far as 48 in; lifting higher must not bring more.
        (40.0, 50.0, 1_000.0),
        // 3000 x 24 / 60 = 1200, 1500 x 36 / 60 = 900, 1000 x 48 / 60 = 800.
        (60.0, 50.0, 800.0),
        (60.0, 200.0, 800.0),
    ] {
        let found = capacity::at(
            truck(&fleet, "T"),
            Length::from_in(inches),
            Length::from_in(height),
            Length::from_m(1.5),
            true,
        );
        let found = found.map(|capacity| capacity.mass.lb().round());
        assert_eq!(found, Ok(lb), "{inches} in, lifted {height} in");
    }
}
