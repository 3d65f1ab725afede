//! The sixteen reference cases: worked by hand from the moment rule of 29 CFR 1910.178 App. A, A-5, floor to a whole unit.
//! Every case runs on the register with the axle distance and on the same register without it.

use super::*;
use crate::fleet::choose::{smallest, takes};
use crate::fleet::{capacity, register};

const US: &str = "
Lift trucks of the stores
Truck | Class | Capacity (lb) | Load centre (in) | Lift height (in) | Attachment | Fitted | Available | Inspection due | Fuel | Where it may work | Service weight (lb) | Fork length (in) | Axle distance (in)
T1 | I | 3000 | 24 | 180 | | | yes | 2026-12-31 | electric | indoor | 6000 | 42 |
T2 | V | 5000 | 24 | 180 | | | yes | 2026-12-31 | LP | both | 9000 | 42 | 16
T3 | V | 6000 | 24 | 180 | | | yes | 2026-12-31 | LP | both | 9800 | 48 |
T4 | V | 8000 | 24 | 180 | | | yes | 2026-12-31 | diesel | outdoor | 12500 | 48 | 19
T4 | | 6300 | 24 | 180 | clamp
T6 | V | 10000 | 24 | 180 | | | yes | 2026-12-31 | LP | both | 15500 | 60 | 21
T5 | V | 15500 | 24 | 180 | | | out of service | 2026-12-31 | diesel | outdoor | 23000 | 72 |
";

const METRIC: &str = "
Truck | Class | Capacity (kg) | Load centre (mm) | Lift height (mm) | Axle distance (mm)
M1 | V | 2000 | 500 | 4500
M2 | V | 2500 | 500 | 4500 | 450
M3 | V | 3000 | 500 | 4500
M4 | V | 5000 | 500 | 4500 | 500
";

const THREE_HEIGHTS: &str = "
Truck | Class | Capacity (kg) | Load centre (mm) | Lift height (mm)
M7 | V | 3000 | 500 | 3300
   |   | 2700 | 500 | 4500
   |   | 2100 | 500 | 5500
";

/// With the axle distance (P1, what the project takes) and without it (P0).
fn registers(lines: &str) -> [Fleet; 2] {
    let with = register::understand(&[table(lines)], Units::Us);
    assert_eq!(with.faults, []);
    let mut without = with.clone();
    for truck in &mut without.trucks {
        truck.axle = None;
    }
    [with, without]
}

fn change(fleets: &mut [Fleet], id: &str, change: impl Fn(&mut Truck)) {
    for fleet in fleets {
        fleet
            .trucks
            .iter_mut()
            .filter(|truck| truck.id == id)
            .for_each(&change);
    }
}

/// Chosen trucks with the axle distance and without it.
#[track_caller]
fn expect(fleets: &[Fleet; 2], demand: &Demand, site: &Site, names: [&str; 2]) -> [Choice; 2] {
    let choices = fleets
        .each_ref()
        .map(|fleet| smallest(fleet, demand, today(), site));
    assert_eq!(choices.each_ref().map(name), names, "{choices:#?}");
    choices
}

/// Whole pounds that a truck lifts at a load centre in inches, rounded down.
fn floor_lb(fleet: &Fleet, id: &str, inches: f64) -> f64 {
    let low = Length::from_in(59.0);
    let capacity = capacity::at(truck(fleet, id), Length::from_in(inches), low, low, true);
    capacity.map_or(f64::NAN, |capacity| (capacity.mass.lb() + 1e-6).floor())
}

#[test]
fn case_1_an_exact_tie_passes() {
    let site = Site {
        place: Some("indoor".into()),
        ..us_site()
    };
    let [choice, _] = expect(&registers(US), &load_lb(2_400.0, 60.0), &site, ["T1"; 2]);
    let chosen = choice.truck.expect("T1");
    assert!((chosen.used - 1.0).abs() < 1e-9 && chosen.capacity.calculated);
    assert_eq!(chosen.notes, ["capacity calculated, the plate governs"]);
    assert_eq!(choice.why_not, []);
}

#[test]
fn case_2_a_pound_more_does_not() {
    let site = Site {
        place: Some("indoor".into()),
        ..us_site()
    };
    let fleets = registers(US);
    let [choice, _] = expect(&fleets, &load_lb(2_401.0, 60.0), &site, ["T2"; 2]);
    assert_eq!(
        clause(&choice, "T1"),
        "lifts 2,400 lb at 30 in (calculated, the plate governs), 1 lb short"
    );
    assert_eq!(choice.why_not.len(), 1);
    assert_eq!(
        fleets.each_ref().map(|fleet| floor_lb(fleet, "T2", 30.0)),
        [4_347.0, 4_000.0]
    );
}

#[test]
fn case_3_the_axle_distance_decides() {
    let fleets = registers(US);
    let [_, without] = expect(&fleets, &load_lb(4_400.0, 56.0), &us_site(), ["T2", "T3"]);
    assert_eq!(
        fleets.each_ref().map(|fleet| floor_lb(fleet, "T2", 28.0)),
        [4_545.0, 4_285.0]
    );
    assert_eq!(
        clause(&without, "T2"),
        "lifts 4,285 lb at 28 in (calculated, the plate governs), 115 lb short"
    );
}

#[test]
fn case_4_a_tie_in_floating_point_and_in_fork_length() {
    let fleets = registers(US);
    expect(&fleets, &load_lb(4_000.0, 72.0), &us_site(), ["T3"; 2]);
    assert_eq!(floor_lb(&fleets[0], "T2", 36.0), 3_846.0);
    assert_eq!(floor_lb(&fleets[0], "T3", 36.0), 4_000.0);
}

#[test]
fn case_5_a_shorter_load_centre_never_raises_capacity() {
    let fleets = registers(US);
    let [choice, _] = expect(&fleets, &load_lb(5_200.0, 30.0), &us_site(), ["T3"; 2]);
    assert_eq!(
        clause(&choice, "T2"),
        "lifts 5,000 lb at 15 in, 200 lb short"
    );
    assert!(
        choice
            .truck
            .is_some_and(|chosen| !chosen.capacity.calculated)
    );
}

#[test]
fn case_6a_a_long_bundle_broadside() {
    expect(
        &registers(US),
        &load_lb(5_500.0, 24.0),
        &us_site(),
        ["T3"; 2],
    );
}

#[test]
fn case_6b_the_same_endwise() {
    let fleets = registers(US);
    expect(
        &fleets,
        &load_lb(5_500.0, 240.0),
        &us_site(),
        ["no truck"; 2],
    );
    assert_eq!(floor_lb(&fleets[0], "T3", 120.0), 1_200.0);
    assert_eq!(floor_lb(&fleets[0], "T6", 120.0), 3_191.0);
}

#[test]
fn case_7_only_the_plate_row_of_the_clamp_counts() {
    let mut fleets = registers(US);
    change(&mut fleets, "T4", |truck| {
        truck.fitted = Some("Clamp".into())
    });
    let site = Site {
        place: Some("outdoor".into()),
        ..us_site()
    };
    let demand = Demand {
        attachment: Some("clamp".into()),
        ..load_lb(7_000.0, 48.0)
    };
    let [choice, _] = expect(&fleets, &demand, &site, ["no truck"; 2]);
    assert_eq!(
        clause(&choice, "T4"),
        "lifts 6,300 lb at 24 in, 700 lb short"
    );
    assert_eq!(clause(&choice, "T6"), "wears bare forks, clamp needed");
    assert_eq!(clause(&choice, "T5"), "out of service");
    let strongest = choice.strongest.expect("T4");
    assert_eq!(
        (strongest.id.as_str(), strongest.takes.lb().round()),
        ("T4", 6_300.0)
    );
    let lighter = Demand {
        weight: Mass::from_lb(6_300.0),
        ..demand
    };
    expect(&fleets, &lighter, &site, ["T4"; 2]);
}

#[test]
fn case_8_the_large_truck_is_out() {
    let site = Site {
        place: Some("outdoor".into()),
        ..us_site()
    };
    let [choice, _] = expect(
        &registers(US),
        &load_lb(12_000.0, 48.0),
        &site,
        ["no truck"; 2],
    );
    assert_eq!(clause(&choice, "T1"), "works indoor only, outdoor needed");
    assert_eq!(
        clause(&choice, "T6"),
        "lifts 10,000 lb at 24 in, 2,000 lb short"
    );
    assert_eq!(clause(&choice, "T5"), "out of service");
    assert_eq!(choice.why_not.len(), 6);
    let strongest = choice.strongest.expect("T6");
    assert_eq!(
        (strongest.id.as_str(), strongest.takes.lb().round()),
        ("T6", 10_000.0)
    );
}

/// The planning weight of the case (a plate stack declared 4,750 lb, likely 5,227 lb) is given here; the plan makes it.
#[test]
fn case_9_the_likely_weight_needs_the_next_truck() {
    let fleets = registers(US);
    expect(&fleets, &load_lb(5_227.0, 48.0), &us_site(), ["T3"; 2]);
    expect(&fleets, &load_lb(4_750.0, 48.0), &us_site(), ["T2"; 2]);
}

/// Case 10 has no planning weight and so no demand; a demand without a usable weight must not name a truck either.
#[test]
fn case_10_no_weight_no_truck() {
    for weight in [f64::NAN, f64::INFINITY, 0.0, -1.0] {
        let [choice, _] = expect(
            &registers(US),
            &load_lb(weight, 48.0),
            &us_site(),
            ["no truck"; 2],
        );
        assert_eq!(clause(&choice, "T6"), "the weight is not known");
    }
}

#[test]
fn case_11_the_dock_carries_truck_operator_and_load() {
    let site = Site {
        dock_rating_kg: Some(Mass::from_lb(16_000.0)),
        ..us_site()
    };
    let mut fleets = registers(US);
    expect(&fleets, &load_lb(5_800.0, 48.0), &site, ["T3"; 2]);
    expect(&fleets, &load_lb(6_000.0, 48.0), &site, ["T3"; 2]);
    change(&mut fleets, "T3", |truck| truck.available = Some(false));
    let [choice, _] = expect(&fleets, &load_lb(5_800.0, 48.0), &site, ["no truck"; 2]);
    assert_eq!(
        clause(&choice, "T4"),
        "dock rating: truck, operator and load are 18,500 lb, the dock carries 16,000 lb"
    );
    assert!(clause(&choice, "T6").contains("21,500 lb"));
    // What would still go: T2 with all of its 5,000 lb, although T6 is rated higher.
    let strongest = choice.strongest.clone().expect("T2");
    assert_eq!(
        (strongest.id.as_str(), strongest.takes.lb().round()),
        ("T2", 5_000.0)
    );
    // T4 and its operator leave 16,000 - 12,700 lb of the rating, whatever its plate says.
    let most = takes(&fleets[0], "T4", &load_lb(5_800.0, 48.0), today(), &site);
    assert_eq!(most.map(|most| most.lb().round()), Some(3_300.0));
    change(&mut fleets, "T2", |truck| truck.service = None);
    let choice = smallest(&fleets[0], &load_lb(4_000.0, 48.0), today(), &site);
    assert_eq!(
        clause(&choice, "T2"),
        "service weight not stated, so the dock rating cannot be checked"
    );
}

#[test]
fn case_12_never_two_trucks() {
    let mut fleets = registers(US);
    for out in ["T4", "T6"] {
        change(&mut fleets, out, |truck| truck.available = Some(false));
    }
    let [choice, _] = expect(
        &fleets,
        &load_lb(8_400.0, 48.0),
        &us_site(),
        ["no truck"; 2],
    );
    assert_eq!(
        clause(&choice, "T3"),
        "lifts 6,000 lb at 24 in, 2,400 lb short"
    );
    assert_eq!(
        choice.strongest.map(|truck| truck.id).as_deref(),
        Some("T3")
    );
}

#[test]
fn case_13_metric_pallet() {
    let fleets = registers(METRIC);
    let [with, without] = expect(
        &fleets,
        &load_kg(2_200.0, 1_200.0),
        &Site::default(),
        ["M2", "M3"],
    );
    assert_eq!(
        clause(&with, "M1"),
        "lifts 1,666 kg at 600 mm (calculated, the plate governs), 534 kg short"
    );
    assert_eq!(
        clause(&without, "M2"),
        "lifts 2,083 kg at 600 mm (calculated, the plate governs), 117 kg short"
    );
    let capacity = with
        .truck
        .map_or(0.0, |chosen| chosen.capacity.mass.kg().floor());
    assert_eq!(capacity, 2_261.0);
}

#[test]
fn case_14_forks_of_two_thirds_of_the_depth() {
    let mut fleets = registers(METRIC);
    let demand = load_kg(1_600.0, 3_000.0);
    expect(&fleets, &demand, &Site::default(), ["M4"; 2]);
    change(&mut fleets, "M4", |truck| {
        truck.fork_length = Some(Length::from_mm(2_000.0))
    });
    let [with, _] = expect(&fleets, &demand, &Site::default(), ["M4"; 2]);
    assert_eq!(
        with.truck.map(|chosen| chosen.capacity.mass.kg().round()),
        Some(2_500.0)
    );
    change(&mut fleets, "M4", |truck| {
        truck.fork_length = Some(Length::from_mm(1_200.0))
    });
    let [choice, _] = expect(&fleets, &demand, &Site::default(), ["no truck"; 2]);
    assert_eq!(
        clause(&choice, "M4"),
        "forks too short: 1,200 mm, 2,000 mm needed"
    );
    assert_eq!(
        clause(&choice, "M3"),
        "lifts 1,000 kg at 1,500 mm (calculated, the plate governs), 600 kg short"
    );
}

#[test]
fn case_15_the_next_greater_height_without_interpolation() {
    let fleets = registers(THREE_HEIGHTS);
    let demand = Demand {
        lift_height: Length::from_mm(4_800.0),
        ..load_kg(2_600.0, 1_000.0)
    };
    let [choice, _] = expect(&fleets, &demand, &Site::default(), ["no truck"; 2]);
    assert_eq!(
        clause(&choice, "M7"),
        "lifts 2,100 kg at 500 mm, 500 kg short"
    );
    let higher = Demand {
        lift_height: Length::from_mm(5_501.0),
        ..load_kg(1.0, 1_000.0)
    };
    let [choice, _] = expect(&fleets, &higher, &Site::default(), ["no truck"; 2]);
    assert_eq!(
        clause(&choice, "M7"),
        "no plate row reaches that lift height (load centre 500 mm, lift height 5,501 mm)"
    );
}

#[test]
fn case_16_the_row_of_that_height_carried_out() {
    let demand = Demand {
        lift_height: Length::from_mm(3_000.0),
        ..load_kg(2_150.0, 1_200.0)
    };
    let [choice, _] = expect(
        &registers(THREE_HEIGHTS),
        &demand,
        &Site::default(),
        ["M7"; 2],
    );
    let chosen = choice.truck.expect("M7");
    assert_eq!(chosen.capacity.mass.kg().round(), 2_500.0);
    assert_eq!(chosen.capacity.from.cell(), "C2");
}
