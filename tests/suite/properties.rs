//! What must hold whatever the figures are: random goods and registers, whole lines.

use crate::helper::{IN, LB, cell, line, si, truck, us};
use proptest::prelude::*;
use serde_json::Value;

/// Goods that fill their size: length, width, height.
const GOODS: [&str; 5] = [
    "Steel plate",
    "Concrete block, solid",
    "Douglas fir timber",
    "Aluminium sheet",
    "Cast iron block, solid",
];

fn likely(line: &Value) -> f64 {
    line["estimate"]["likely_kg"].as_f64().expect("an estimate")
}

/// One delivery of `pieces` with sizes in inches and an optional weight in pounds.
fn us_text(
    goods: &str,
    pieces: u32,
    [length, width, height]: [f64; 3],
    pounds: Option<f64>,
) -> String {
    let pounds = pounds.map_or(String::new(), |pounds| pounds.to_string());
    format!(
        "Description,Qty,Length (in),Width (in),Height (in),Total gross weight (lb)\n{},{pieces},{length},{width},{height},{pounds}\n",
        cell(goods)
    )
}

/// The same in millimetres and kilograms, unrounded.
fn si_text(goods: &str, pieces: u32, sides: [f64; 3], pounds: Option<f64>) -> String {
    let [length, width, height] = sides.map(|inches| inches * IN * 1000.0);
    let kilograms = pounds.map_or(String::new(), |pounds| (pounds * LB).to_string());
    format!(
        "Description,Qty,Length (mm),Width (mm),Height (mm),Total gross weight (kg)\n{},{pieces},{length},{width},{height},{kilograms}\n",
        cell(goods)
    )
}

/// Rated capacities in units of 500 lb, all at 24 in.
fn us_register(rated: &[u32]) -> String {
    let mut text = String::from("Truck,Class,Capacity (lb),Load centre (in),Lift height (in)\n");
    for (number, capacity) in rated.iter().enumerate() {
        text.push_str(&format!("T{number},V,{},24,160\n", capacity * 500));
    }
    text
}

fn si_register(rated: &[u32]) -> String {
    let mut text = String::from("Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm)\n");
    for (number, capacity) in rated.iter().enumerate() {
        text.push_str(&format!(
            "T{number},V,{},609.6,4064\n",
            f64::from(capacity * 500) * LB
        ));
    }
    text
}

fn goods() -> impl Strategy<Value = &'static str> {
    proptest::sample::select(&GOODS[..])
}

/// Goods whose size is only an outline.
fn outlines() -> impl Strategy<Value = &'static str> {
    proptest::sample::select(&["Bracket casting", "Centrifugal pump", "Steel frame, welded"][..])
}

fn sides() -> impl Strategy<Value = [f64; 3]> {
    (12..96_u32, 12..60_u32, 1..24_u32)
        .prop_map(|(length, width, height)| [length, width, height].map(f64::from))
}

fn register() -> impl Strategy<Value = Vec<u32>> {
    proptest::collection::vec(2..40_u32, 1..5)
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 48, failure_persistence: None, ..ProptestConfig::default() })]

    /// A larger piece is never estimated lighter.
    #[test]
    fn mass_grows_with_every_side(goods in goods(), sides in sides(), side in 0..3_usize, more in 1..24_u32) {
        let mut larger = sides;
        larger[side] += f64::from(more);
        let (small, large) = (line(&us_text(goods, 1, sides, None), None, us()), line(&us_text(goods, 1, larger, None), None, us()));
        prop_assert!(likely(&small) <= likely(&large) * (1.0 + 1e-9), "{small:#}\n{large:#}");
    }

    /// A longer load never gets more capacity from the same truck, and none gets more than the plate.
    #[test]
    fn capacity_falls_with_depth_and_stays_at_or_below_the_plate(rated in 2..40_u32, depth in 12..120_u32, more in 1..60_u32, pounds in 50..900_u32) {
        let fleet = us_register(&[rated]);
        let capacity = |depth: u32| {
            let text = us_text("Sundry goods", 1, [f64::from(depth), 12.0, 12.0], Some(f64::from(pounds)));
            line(&text, Some(&fleet), us())["truck"]["capacity_kg"].as_f64()
        };
        let (short, long) = (capacity(depth), capacity(depth + more));
        let plate = f64::from(rated * 500) * LB * (1.0 + 1e-9);
        prop_assert!(short.is_none_or(|short| short <= plate), "{short:?}");
        prop_assert!(long.is_none_or(|long| short.is_some_and(|short| long <= short * (1.0 + 1e-9))), "{short:?} {long:?}");
    }

    /// Without a weight and without an estimate no truck is named, whatever the register holds.
    #[test]
    fn an_unknown_weight_never_gets_a_truck(sides in sides(), rated in register(), word in "(TBA|0|-5|n/a|#REF!|)") {
        let [length, width, height] = sides;
        let text = format!("Description,Qty,Length (in),Width (in),Height (in),Weight (lb)\nSundry goods,1,{length},{width},{height},{word}\n");
        let line = line(&text, Some(&us_register(&rated)), us());
        prop_assert_eq!(truck(&line), None);
        prop_assert!(line["planning"]["lift_kg"].is_null(), "{:#}", line);
    }

    /// One load, written in pounds and inches and in kilograms and millimetres, gets one truck. The weight is at least the
    /// likely one, so that it is what is planned: below it the range counts, and that is narrower for finer figures.
    #[test]
    fn units_do_not_change_the_truck(goods in goods(), unknown in any::<bool>(), pieces in 1..4_u32, sides in sides(), rated in register(), more in 0..40_u32) {
        let alone = line(&us_text(goods, pieces, sides, None), None, us());
        let pounds = Some((likely(&alone) / LB * (1.0 + f64::from(more) / 20.0)).ceil());
        let goods = if unknown { "Sundry goods" } else { goods };
        let inch = line(&us_text(goods, pieces, sides, pounds), Some(&us_register(&rated)), us());
        let metric = line(&si_text(goods, pieces, sides, pounds), Some(&si_register(&rated)), si());
        let planned = |line: &Value| line["planning"]["lift_kg"].as_f64().expect("a plan");
        prop_assert!((planned(&inch) / planned(&metric) - 1.0).abs() < 1e-9, "{inch:#}\n{metric:#}");
        prop_assert_eq!(truck(&inch), truck(&metric), "{:#}\n{:#}", inch, metric);
    }

    /// Whatever is declared, the truck named carries the likely mass of the lift, and a consistent weight is never planned
    /// below the likely one.
    #[test]
    fn no_truck_below_the_likely_mass(goods in prop_oneof![3 => goods(), 1 => outlines()], pieces in 1..6_u32, sides in sides(), rated in register(), share in 1..80_u32) {
        let alone = line(&us_text(goods, pieces, sides, None), None, us());
        let pounds = likely(&alone) / LB * f64::from(share) / 40.0;
        let line = line(&us_text(goods, pieces, sides, Some(pounds)), Some(&us_register(&rated)), us());
        let likely = likely(&line);
        let lifts = line["lifts"].as_f64().expect("a number of lifts");
        let slack = 1.0 + 1e-9;
        if let Some(capacity) = line["truck"]["capacity_kg"].as_f64() {
            let lift = line["planning"]["lift_kg"].as_f64().expect("a plan");
            prop_assert!(likely / lifts <= capacity * slack, "{:#}", line);
            prop_assert!(lift <= capacity * slack, "{:#}", line);
        }
        if line["verdict"] == "consistent" {
            prop_assert!(line["planning"]["line_kg"].as_f64().is_some_and(|planned| likely <= planned * slack), "{:#}", line);
        }
    }

    /// Bars, pipe, sheet, lumber and whatever is said to be a bundle or on a pallet lift as a whole, and the lift weighs at
    /// least its share of the line: never one piece of many.
    #[test]
    fn a_bundle_is_never_planned_as_its_pieces(at in 0..BUNDLED.len(), pieces in 2..120_u32, rated in register()) {
        let (description, length) = BUNDLED[at];
        let text = format!("Description,Qty,Length (ft),Weight (lb)\n{},{pieces},{length},\n", cell(description));
        let line = line(&text, Some(&us_register(&rated)), us());
        prop_assert_ne!(&line["lift_of"], "piece", "{:#}", line);
        let lifts = line["lifts"].as_u64().expect("a number of lifts");
        let planned = line["planning"]["line_kg"].as_f64().expect("a plan");
        let lift = line["planning"]["lift_kg"].as_f64().expect("a plan");
        prop_assert!(lifts == 1 || lifts <= u64::from(pieces.div_ceil(2)), "{:#}", line);
        prop_assert!(lift * lifts as f64 >= planned * (1.0 - 1e-9), "{:#}", line);
    }
}

/// Goods that come bundled, with a length in feet where the name has none.
const BUNDLED: [(&str, &str); 10] = [
    ("Rebar #5", "20"),
    ("Pipe 6 in sch 40", "21"),
    ("Round bar 2 in dia, steel", "12"),
    ("W12x26", "20"),
    ("HSS4x4x1/4", "20"),
    ("L4x4x1/2", "20"),
    ("2x10 Douglas fir KD", "16"),
    ("Plywood 1/2 in x 48 in x 96 in", ""),
    ("Concrete block 16 x 8 x 8 in, solid, 1 pallet", ""),
    ("Steel block 8 x 8 x 8 in, bundle", ""),
];
