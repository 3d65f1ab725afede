//! Random fleets and demands in whole pounds and inches, where ties are common.

use super::*;
use crate::fleet::{Class, PlatePoint};
use crate::place::Place;
use proptest::collection::vec;
use proptest::option;
use proptest::prelude::*;
use proptest::sample::{select, subsequence};

/// A plate whose capacity never rises with load centre or height: a base less so much a step outwards and upwards.
/// Heights are blank (the usual height) or so many inches.
fn plate() -> impl Strategy<Value = Vec<(f64, f64, Option<f64>)>> {
    let steps: Vec<(usize, usize)> = (0..4)
        .flat_map(|out| (0..4).map(move |up| (out, up)))
        .collect();
    (subsequence(steps, 1..=6), 4..32_i32, 0..4_i32, 0..4_i32).prop_map(
        |(points, base, out, up)| {
            let (centres, heights) = (
                [24.0, 30.0, 36.0, 48.0],
                [None, Some(120.0), Some(160.0), Some(200.0)],
            );
            points
                .into_iter()
                .map(|(c, h)| {
                    let capacity = base * 500 - out * 100 * c as i32 - up * 150 * h as i32;
                    (f64::from(capacity.max(200)), centres[c], heights[h])
                })
                .collect()
        },
    )
}

fn worn() -> impl Strategy<Value = Option<String>> {
    prop_oneof![
        6 => Just(None),
        1 => Just(Some("clamp".to_string())),
        1 => Just(Some("side shift".to_string())),
    ]
}

prop_compose! {
    fn any_truck()(
        rows in vec((plate(), worn()), 1..=2),
        class in select(vec![
            Some(Class::I), Some(Class::II), Some(Class::III), Some(Class::IV), Some(Class::V), Some(Class::V),
            Some(Class::VI), Some(Class::VII), None,
        ]),
        (fitted, places) in (worn(), select(vec![vec!["indoor"], vec!["outdoor"], vec!["indoor", "outdoor"], vec![]])),
        (available, mast) in (option::of(prop::bool::weighted(0.8)), option::of(any::<bool>())),
        (out, due) in (option::weighted(0.2, -3..3_i64), option::weighted(0.5, -3..9_i64)),
        service in option::weighted(0.8, 3_000..20_000_i32),
        forks in option::of(select(vec![36.0, 42.0, 48.0, 60.0, 72.0])),
        axle in option::of(12..24_i32),
        faulty in prop::bool::weighted(0.1),
    ) -> Truck {
        let day = |days: i64| today() + chrono::Duration::days(days);
        let mut points: Vec<PlatePoint> = Vec::new();
        for (plate, attachment) in rows {
            if points.iter().any(|point| point.attachment == attachment) {
                continue;
            }
            points.extend(plate.into_iter().map(|(capacity, centre, height)| PlatePoint {
                capacity: Mass::from_lb(capacity),
                load_centre: Length::from_in(centre),
                lift_height: height.map(Length::from_in),
                attachment: attachment.clone(),
                place: Place { file: "".into(), sheet: "".into(), row: 0, column: 0 },
            }));
        }
        Truck {
            id: String::new(),
            class,
            class_assumed: false,
            points,
            fitted,
            available,
            out_until: out.map(day),
            inspection_due: due.map(day),
            fuel: None,
            places: places.into_iter().map(str::to_string).collect(),
            service: service.map(|lb| Mass::from_lb(f64::from(lb))),
            fork_length: forks.map(Length::from_in),
            vertical_mast: mast,
            axle: axle.map(|inches| Length::from_in(f64::from(inches))),
            lowered_height: None,
            remark: None,
            faulty,
        }
    }
}

/// One truck with a plate row for what it wears, so that it has a capacity somewhere.
pub(super) fn truck_with_plate() -> impl Strategy<Value = Truck> {
    any_truck().prop_map(|mut truck| {
        truck.fitted = truck
            .points
            .first()
            .and_then(|point| point.attachment.clone());
        truck
    })
}

/// Up to 20 trucks.
pub(super) fn fleet() -> impl Strategy<Value = Fleet> {
    fleet_of(20)
}

/// Up to so many trucks.
pub(super) fn fleet_of(most: usize) -> impl Strategy<Value = Fleet> {
    vec(
        prop_oneof![any_truck().boxed(), truck_with_plate().boxed()],
        0..=most,
    )
    .prop_map(|trucks| Fleet {
        trucks: trucks
            .into_iter()
            .zip(1..)
            .map(|(truck, number)| Truck {
                id: format!("T{number}"),
                ..truck
            })
            .collect(),
        ..Fleet::default()
    })
}

prop_compose! {
    /// A demand, heights from the floor to above every plate.
    pub(super) fn demand()(
        weight in 100..9_000_i32,
        centre in 6..90_i32,
        height in select(vec![20.0, 59.0, 100.0, 120.0, 121.0, 160.0, 180.0, 200.0, 201.0]),
        deep in any::<bool>(),
        place in option::weighted(0.3, select(vec!["indoor", "outdoor"])),
        attachment in option::weighted(0.2, select(vec!["clamp", "Side-Shift"])),
    ) -> Demand {
        Demand {
            weight: Mass::from_lb(f64::from(weight)),
            load_centre: Length::from_in(f64::from(centre)),
            lift_height: Length::from_in(height),
            depth: deep.then(|| Length::from_in(2.0 * f64::from(centre))),
            place: place.map(str::to_string),
            attachment: attachment.map(str::to_string),
        }
    }
}

prop_compose! {
    /// A site: with or without a dock rating, a use limit, calculated capacity.
    pub(super) fn site()(
        dock in option::weighted(0.3, 10_000..30_000_i32),
        use_limit in select(vec![1.0, 1.0, 0.9, 0.75]),
        calculated in prop::bool::weighted(0.8),
    ) -> Site {
        Site {
            dock_rating_kg: dock.map(|lb| Mass::from_lb(f64::from(lb))),
            use_limit,
            calculated_capacity: calculated,
            ..us_site()
        }
    }
}

/// The register of a fleet, in pounds and inches or in kilograms and millimetres.
pub(super) fn as_sheet(fleet: &Fleet, metric: bool) -> Sheet {
    let mass = |mass: Mass| if metric { mass.kg() } else { mass.lb() }.to_string();
    let length = |length: Length| if metric { length.mm() } else { length.inches() }.to_string();
    let (m, l) = if metric { ("kg", "mm") } else { ("lb", "in") };
    let mut lines = vec![format!(
        "Truck|Class|Capacity ({m})|Load centre ({l})|Lift height ({l})|Attachment|Fitted|Available|Out until|Inspection due|Where it may work|Service weight ({m})|Fork length ({l})|Vertical mast|Axle distance ({l})"
    )];
    let yes_no = |flag: Option<bool>| flag.map_or("", |yes| if yes { "yes" } else { "no" });
    for truck in &fleet.trucks {
        for point in &truck.points {
            let cells = [
                truck.id.clone(),
                truck
                    .class
                    .map_or(String::new(), |class| format!("{class:?}")),
                mass(point.capacity),
                length(point.load_centre),
                point.lift_height.map_or(String::new(), length),
                point.attachment.clone().unwrap_or_default(),
                truck.fitted.clone().unwrap_or_default(),
                yes_no(truck.available).to_string(),
                truck
                    .out_until
                    .map_or(String::new(), |date| date.to_string()),
                truck
                    .inspection_due
                    .map_or(String::new(), |date| date.to_string()),
                truck.places.join(", "),
                truck.service.map_or(String::new(), mass),
                truck.fork_length.map_or(String::new(), length),
                yes_no(truck.vertical_mast).to_string(),
                truck.axle.map_or(String::new(), length),
            ];
            lines.push(cells.join("|"));
        }
    }
    table(&lines.join("\n"))
}
