//! The seven properties of the reference (lift-trucks.md, section H) and the slow search, on random fleets of up to 60
//! trucks and 20,000 demands in all.

use super::random::{as_sheet, demand, fleet_of, site};
use super::*;
use crate::fleet::choose::smallest;
use crate::fleet::{capacity, register, words::attachment_key};
use proptest::collection::vec;
use proptest::prelude::*;

/// A few more than 20,000 demands need, because some fleets are empty.
const FLEETS: u32 = 105;
const DEMANDS: usize = 200;
const MOST_TRUCKS: usize = 60;

/// Most fleets are small, as yards have them, so that the whole stays quick; some have up to sixty trucks.
fn some_fleet() -> impl Strategy<Value = Fleet> {
    prop_oneof![7 => fleet_of(10).boxed(), 1 => fleet_of(MOST_TRUCKS).boxed()]
}

fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// Capacity of a truck in pounds, nothing where it has none.
fn lb(truck: &Truck, demand: &Demand, site: &Site) -> f64 {
    let found = capacity::at(
        truck,
        demand.load_centre,
        demand.lift_height,
        site.lift_height_m,
        site.calculated_capacity,
    );
    found.map_or(0.0, |capacity| capacity.mass.lb())
}

fn chosen_lb(choice: &Choice) -> Option<f64> {
    choice.truck.as_ref().map(|truck| truck.capacity.mass.lb())
}

const SLACK: f64 = 1.0 + 1e-9;

proptest! {
    #![proptest_config(cases(FLEETS))]

    #[test]
    fn the_assigned_truck_is_that_of_the_slow_search(fleet in some_fleet(), demands in vec(demand(), DEMANDS), site in site()) {
        for demand in &demands {
            let choice = smallest(&fleet, demand, today(), &site);
            let slow = super::slow::smallest(&fleet, demand, &site);
            prop_assert_eq!(choice.truck.as_ref().map(|chosen| &chosen.id), slow.as_ref().map(|(id, _)| id));
        }
    }

    #[test]
    fn property_1_capacity_never_rises_with_load_centre(fleet in some_fleet(), demands in vec(demand(), DEMANDS), site in site(), more in 0.0..40.0_f64) {
        for (truck, demand) in fleet.trucks.iter().cycle().zip(&demands) {
            let further = Demand { load_centre: demand.load_centre + Length::from_in(more), ..demand.clone() };
            prop_assert!(lb(truck, &further, &site) <= lb(truck, demand, &site) * SLACK);
        }
    }

    #[test]
    fn property_2_capacity_never_exceeds_the_plate(fleet in some_fleet(), demands in vec(demand(), DEMANDS), site in site()) {
        for (truck, demand) in fleet.trucks.iter().cycle().zip(&demands) {
            let worn = attachment_key(truck.fitted.as_deref());
            let rows = truck.points.iter().filter(|point| attachment_key(point.attachment.as_deref()) == worn);
            let most = rows.map(|point| point.capacity.lb()).fold(0.0, f64::max);
            prop_assert!(lb(truck, demand, &site) <= most * SLACK);
        }
    }

    #[test]
    fn property_3_no_axle_distance_never_gives_more(fleet in some_fleet(), demands in vec(demand(), DEMANDS), site in site()) {
        for (truck, demand) in fleet.trucks.iter().cycle().zip(&demands) {
            let without = Truck { axle: None, ..truck.clone() };
            prop_assert!(lb(&without, demand, &site) <= lb(truck, demand, &site) * SLACK);
        }
    }

    #[test]
    fn property_5_a_truck_out_of_service_never_brings_a_smaller_one(fleet in some_fleet(), demands in vec(demand(), DEMANDS), site in site(), out in any::<prop::sample::Index>()) {
        let mut fewer = fleet.clone();
        if !fewer.trucks.is_empty() {
            let at = out.index(fewer.trucks.len());
            fewer.trucks[at].available = Some(false);
        }
        for demand in &demands {
            let (before, after) = (smallest(&fleet, demand, today(), &site), smallest(&fewer, demand, today(), &site));
            if let Some(after) = chosen_lb(&after) {
                prop_assert!(chosen_lb(&before).is_some_and(|before| before <= after * SLACK));
            }
        }
    }

    #[test]
    fn property_6_a_heavier_item_never_gets_a_smaller_truck(fleet in some_fleet(), demands in vec(demand(), DEMANDS), site in site(), more in 0.0..5_000.0_f64) {
        for demand in &demands {
            let heavier = Demand { weight: demand.weight + Mass::from_lb(more), ..demand.clone() };
            let (light, heavy) = (smallest(&fleet, demand, today(), &site), smallest(&fleet, &heavier, today(), &site));
            if let Some(heavy) = chosen_lb(&heavy) {
                prop_assert!(chosen_lb(&light).is_some_and(|light| light <= heavy * SLACK));
            }
        }
    }

    #[test]
    fn property_7_unknown_weight_plate_or_row_never_yields_a_name(fleet in some_fleet(), demands in vec(demand(), DEMANDS), site in site()) {
        let unreadable = |how: fn(&mut Truck)| {
            let mut fleet = fleet.clone();
            fleet.trucks.iter_mut().for_each(how);
            fleet
        };
        let no_plate = unreadable(|truck| truck.points.clear());
        let without_row = unreadable(|truck| truck.fitted = Some("rotator".into()));
        for (demand, kind) in demands.iter().zip((0..4).cycle()) {
            let unknown = Demand { weight: Mass::from_kg(f64::NAN), ..demand.clone() };
            let rotator = Demand { attachment: Some("rotator".into()), ..demand.clone() };
            let (fleet, demand) = match kind {
                0 => (&fleet, &unknown),
                1 => (&no_plate, demand),
                2 => (&without_row, &rotator),
                _ => (&without_row, demand),
            };
            prop_assert_eq!(&smallest(fleet, demand, today(), &site).truck, &None);
        }
    }
}

proptest! {
    // Each case writes and reads two registers, so there are fewer fleets and more demands of each.
    #![proptest_config(cases(30))]

    #[test]
    fn property_4_units_never_change_the_truck(fleet in some_fleet(), demands in vec(demand(), 700), site in site()) {
        let [us, si] = [false, true].map(|metric| register::understand(&[as_sheet(&fleet, metric)], Units::Us));
        for demand in &demands {
            let named = |fleet: &Fleet| name(&smallest(fleet, demand, today(), &site)).to_string();
            prop_assert_eq!(named(&us), named(&si));
        }
    }
}
