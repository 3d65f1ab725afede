//! What must hold for every fleet and every demand, on random ones.

use super::random::{as_sheet, demand, fleet, site, truck_with_plate};
use super::*;
use crate::fleet::choose::{smallest, takes};
use crate::fleet::{Strongest, capacity, register, words::attachment_key};
use proptest::prelude::*;

/// So many cases; a failing one is printed, not kept in a file.
fn cases(cases: u32) -> ProptestConfig {
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// Capacity of a truck at a demand in pounds; none counts as nothing.
fn lb(truck: &Truck, centre: f64, height: f64) -> f64 {
    let usual = Length::from_m(1.5);
    let found = capacity::at(
        truck,
        Length::from_in(centre),
        Length::from_in(height),
        usual,
        true,
    );
    found.map_or(0.0, |capacity| capacity.mass.lb())
}

/// Capacity of the chosen truck at the demand.
fn chosen_lb(choice: &Choice) -> Option<f64> {
    choice
        .truck
        .as_ref()
        .map(|chosen| chosen.capacity.mass.lb())
}

proptest! {
    #![proptest_config(cases(1_000))]

    #[test]
    fn capacity_never_rises_with_load_centre_or_height(
        truck in truck_with_plate(),
        (c, more) in (6.0..90.0_f64, 0.0..40.0_f64),
        (h, higher) in (10.0..210.0_f64, 0.0..120.0_f64),
    ) {
        let near = lb(&truck, c, h);
        for (c, h) in [(c + more, h), (c, h + higher), (c + more, h + higher)] {
            prop_assert!(lb(&truck, c, h) <= near * (1.0 + 1e-9), "{} at {c}, {h}; {near} nearer in", lb(&truck, c, h));
        }
    }

    #[test]
    fn capacity_never_exceeds_the_plate(truck in truck_with_plate(), c in 6.0..90.0_f64, h in 10.0..210.0_f64) {
        let worn = attachment_key(truck.fitted.as_deref());
        let rows = truck.points.iter().filter(|point| attachment_key(point.attachment.as_deref()) == worn);
        let found = lb(&truck, c, h);
        let most = rows.clone().map(|point| point.capacity.lb()).fold(0.0, f64::max);
        prop_assert!(found <= most * (1.0 + 1e-9));
        for row in rows {
            let height = row.lift_height.unwrap_or(Length::from_m(1.5));
            if row.load_centre.inches() <= c && height.inches() <= h {
                prop_assert!(found <= row.capacity.lb() * (1.0 + 1e-9), "{found} above {row:?}");
            }
        }
    }

    #[test]
    fn a_figure_that_is_not_calculated_stands_on_the_plate(truck in truck_with_plate(), demand in demand()) {
        let found = capacity::at(&truck, demand.load_centre, demand.lift_height, Length::from_m(1.5), true);
        if let Ok(found) = found {
            let on_plate = truck.points.iter().any(|point| {
                point.capacity == found.mass
                    && demand.load_centre.fits(point.load_centre)
                    && demand.lift_height.fits(point.lift_height.unwrap_or(Length::from_m(1.5)))
            });
            prop_assert!(found.calculated || on_plate);
        }
    }

    #[test]
    fn without_axle_distance_never_more(truck in truck_with_plate(), c in 6.0..90.0_f64, h in 10.0..210.0_f64) {
        let without = Truck { axle: None, ..truck.clone() };
        prop_assert!(lb(&without, c, h) <= lb(&truck, c, h) * (1.0 + 1e-9));
    }

    #[test]
    fn out_of_service_brings_no_smaller_truck(fleet in fleet(), demand in demand(), site in site()) {
        let before = smallest(&fleet, &demand, today(), &site);
        for out in 0..fleet.trucks.len() {
            let mut fewer = fleet.clone();
            fewer.trucks[out].available = Some(false);
            let after = smallest(&fewer, &demand, today(), &site);
            match (chosen_lb(&before), chosen_lb(&after)) {
                (Some(before), Some(after)) => prop_assert!(after >= before * (1.0 - 1e-9)),
                (None, after) => prop_assert_eq!(after, None),
                _ => {}
            }
        }
    }

    #[test]
    fn heavier_brings_no_smaller_truck(fleet in fleet(), demand in demand(), site in site(), more in 0.0..5_000.0_f64) {
        let heavier = Demand { weight: demand.weight + Mass::from_lb(more), ..demand.clone() };
        let light = smallest(&fleet, &demand, today(), &site);
        let heavy = smallest(&fleet, &heavier, today(), &site);
        if let Some(heavy) = chosen_lb(&heavy) {
            prop_assert!(chosen_lb(&light).is_some_and(|light| light <= heavy * (1.0 + 1e-9)));
        }
    }

    #[test]
    fn no_name_without_weight_plate_or_row(fleet in fleet(), demand in demand(), site in site(), how in 0..4) {
        let mut fleet = fleet;
        let mut demand = demand;
        match how {
            0 => demand.weight = Mass::from_kg(f64::NAN),
            1 => fleet.trucks.iter_mut().for_each(|truck| truck.points.clear()),
            2 => fleet.trucks.iter_mut().for_each(|truck| truck.faulty = true),
            _ => {
                fleet.trucks.iter_mut().for_each(|truck| truck.fitted = Some("rotator".into()));
                demand.attachment = Some("rotator".into());
            }
        }
        let choice = smallest(&fleet, &demand, today(), &site);
        prop_assert_eq!(&choice.truck, &None);
        prop_assert_eq!(choice.why_not.len(), fleet.trucks.len());
    }

    #[test]
    fn the_slow_search_agrees(fleet in fleet(), demand in demand(), site in site()) {
        let choice = smallest(&fleet, &demand, today(), &site);
        let slow = super::slow::smallest(&fleet, &demand, &site);
        prop_assert_eq!(choice.truck.as_ref().map(|chosen| &chosen.id), slow.as_ref().map(|(id, _)| id));
        if let (Some(fast), Some((_, slow))) = (chosen_lb(&choice), slow) {
            prop_assert!((fast - slow).abs() < 1e-6);
        }
        for truck in &fleet.trucks {
            let fast = capacity::at(truck, demand.load_centre, demand.lift_height, site.lift_height_m, site.calculated_capacity);
            let slow = super::slow::capacity(truck, &demand, &site);
            prop_assert_eq!(fast.is_ok(), slow.is_some());
            if let (Ok(fast), Some(slow)) = (fast, slow) {
                prop_assert!((fast.mass.lb() - slow).abs() < 1e-6, "{} is not {}", fast.mass.lb(), slow);
            }
        }
    }

    #[test]
    fn every_smaller_truck_has_its_reason(fleet in fleet(), demand in demand(), site in site()) {
        let choice = smallest(&fleet, &demand, today(), &site);
        let explained = |truck: &Truck| choice.why_not.iter().filter(|why| why.truck == truck.id && !why.clause.is_empty()).count();
        let rated = |truck: &Truck| truck.points.iter().map(|point| point.capacity.lb()).fold(0.0, f64::max);
        for truck in &fleet.trucks {
            let best = choice.truck.as_ref().and_then(|chosen| fleet.trucks.iter().find(|truck| truck.id == chosen.id));
            let smaller = best.is_none_or(|best| {
                let at = super::slow::capacity(truck, &demand, &site);
                let best_at = super::slow::capacity(best, &demand, &site);
                rated(truck) < rated(best) - 1e-6 || matches!((at, best_at), (Some(at), Some(best)) if at < best - 1e-6)
            });
            prop_assert_eq!(explained(truck), usize::from(smaller), "{}", truck.id);
        }
    }

    #[test]
    fn the_strongest_takes_its_load_and_no_truck_takes_more(fleet in fleet(), demand in demand(), site in site()) {
        let with = |weight: Mass| smallest(&fleet, &Demand { weight, ..demand.clone() }, today(), &site);
        match with(Mass::from_lb(1e12)).strongest {
            Some(Strongest { id, takes: most, .. }) => {
                prop_assert_eq!(takes(&fleet, &id, &demand, today(), &site), Some(most));
                prop_assert!(with(most).truck.is_some());
                // The slack of a tie on a dock rating is relative to truck and load together.
                let more = most * 1.000_001 + Mass::from_lb(0.01);
                prop_assert!(with(more).truck.is_none());
            }
            None => prop_assert!(with(Mass::from_lb(1.0)).truck.is_none()),
        }
    }
}

proptest! {
    #![proptest_config(cases(300))]

    #[test]
    fn units_do_not_change_the_truck(fleet in fleet(), demand in demand(), site in site()) {
        let names = [false, true].map(|metric| {
            let fleet = register::understand(&[as_sheet(&fleet, metric)], Units::Us);
            name(&smallest(&fleet, &demand, today(), &site)).to_string()
        });
        prop_assert_eq!(&names[0], &names[1]);
        // The register says the same as the fleet it was written from, but for trucks that it finds at fault.
        let mut sound = fleet.clone();
        let read = register::understand(&[as_sheet(&fleet, true)], Units::Us);
        for truck in &mut sound.trucks {
            let as_read = read.trucks.iter().find(|read| read.id == truck.id);
            truck.faulty = as_read.is_none_or(|read| read.faulty);
        }
        let choice = smallest(&sound, &demand, today(), &site);
        prop_assert_eq!(name(&choice), names[0].as_str());
    }
}
