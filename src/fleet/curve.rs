//! What a truck lifts over the load centre, as it is set up today: the picture of its plate.
//! Comes in: a truck, a height, the site. Goes out: capacities from the nearest load centre to the furthest.

use super::{Capacity, Truck, capacity};
use crate::site::{Site, Units};
use crate::units::Length;

/// One point of the curve.
#[derive(Clone, Debug, PartialEq)]
pub struct Point {
    /// Load centre.
    pub load_centre: Length,
    /// What the truck lifts there.
    pub capacity: Capacity,
}

/// The load centres that curves are shown at. Common practice, no source: from the shortest that plates are usually rated
/// at to three times that.
pub fn load_centres(units: Units) -> [Length; 7] {
    match units {
        Units::Us => [24.0, 30.0, 36.0, 42.0, 48.0, 60.0, 72.0].map(Length::from_in),
        Units::Si => [500.0, 600.0, 750.0, 900.0, 1_000.0, 1_250.0, 1_500.0].map(Length::from_mm),
    }
}

/// The capacity of a truck at [`load_centres`] and at those of its plate, lifted to `height`, nearest first. A load centre
/// where it has no capacity is left out.
///
/// # Errors
/// In words, why it has none at all.
pub fn of(truck: &Truck, height: Length, site: &Site) -> Result<Vec<Point>, String> {
    let of_plate = truck.points.iter().map(|point| point.load_centre);
    let mut centres: Vec<Length> = load_centres(site.units)
        .into_iter()
        .chain(of_plate)
        .collect();
    centres.sort_by(|a, b| a.m().total_cmp(&b.m()));
    centres.dedup_by(|further, nearer| further.fits(*nearer));
    let at = |centre: Length| {
        capacity::at(
            truck,
            centre,
            height,
            site.lift_height_m,
            site.calculated_capacity,
        )
    };
    let points: Vec<Point> = centres
        .iter()
        .filter_map(|centre| {
            Some(Point {
                load_centre: *centre,
                capacity: at(*centre).ok()?,
            })
        })
        .collect();
    match centres.first().map(|nearest| at(*nearest)) {
        Some(Err(why)) if points.is_empty() => Err(why),
        _ => Ok(points),
    }
}

#[cfg(test)]
mod tests {
    use super::super::register::understand;
    use super::super::tests::{table, truck};
    use super::*;

    /// By hand: 3,000 kg at 500 mm is 2,500 at 600, 2,000 at 750, 1,666.7 at 900, 1,500 at 1,000, 1,200 at 1,250, 1,000 at
    /// 1,500 mm with the distance to the axle left out (29 CFR 1910.178 App. A, A-5).
    #[test]
    fn a_curve_says_what_is_calculated() {
        let fleet = understand(
            &[table(
                "Truck | Class | Capacity (kg) | Load centre (mm) | Lift height (mm)\n\
                 A | V | 3000 | 500 | 3300\nA |  | 2600 | 550 | 3300\n\
                 B | II | 1600 | 600 | 3300\nC | V | 2000 | 500 | 1000",
            )],
            Units::Si,
        );
        let site = Site::default();
        let curve = |id: &str| {
            let points = of(truck(&fleet, id), site.lift_height_m, &site)?;
            let shown = points.iter().map(|point| {
                let mark = if point.capacity.calculated { "c" } else { "" };
                let (mm, kg) = (
                    point.load_centre.mm().round(),
                    point.capacity.mass.kg().floor(),
                );
                format!("{mm}:{kg}{mark}")
            });
            Ok::<String, String>(shown.collect::<Vec<_>>().join(" "))
        };
        assert_eq!(
            curve("A").as_deref(),
            // 2,600 x 550 / 600 = 2,383 is less than 3,000 x 500 / 600.
            Ok("500:3000 550:2600 600:2383c 750:1906c 900:1588c 1000:1430c 1250:1144c 1500:953c")
        );
        assert_eq!(curve("B").as_deref(), Ok("500:1600 600:1600"));
        assert_eq!(
            curve("C"),
            Err("no plate row reaches that lift height".to_string())
        );
    }
}
