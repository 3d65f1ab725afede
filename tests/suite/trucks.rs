//! Capacity and choice of truck at the level of whole lines: a delivery text and a register text in, the truck of the record
//! out. Worked cases follow from 29 CFR 1910.178 Appendix A (load moment), checked by hand beside each.

use crate::helper::{IN, LB, cell, codes, line, si, truck, us};
use dockheft::site::Site;
use dockheft::units::Mass;

/// One truck of a register in US units: id, class, rated lb at 24 in, axle to fork face in, service lb, fork in, where.
type Us = (
    &'static str,
    &'static str,
    f64,
    Option<f64>,
    f64,
    f64,
    &'static str,
);

const T1: Us = ("T1", "I", 3000.0, None, 6000.0, 42.0, "indoor");
const T2: Us = ("T2", "V", 5000.0, Some(16.0), 9000.0, 42.0, "both");
const T3: Us = ("T3", "V", 6000.0, None, 9800.0, 48.0, "both");
const T4: Us = ("T4", "V", 8000.0, Some(19.0), 12500.0, 48.0, "outdoor");
const T5: Us = ("T5", "V", 15500.0, None, 23000.0, 72.0, "outdoor");
const T6: Us = ("T6", "V", 10000.0, Some(21.0), 15500.0, 60.0, "both");

/// The six trucks as a register; those in `out` are out of service, and the axle distance is left out on request.
fn register(out: &[&str], with_axle: bool) -> String {
    let mut text = String::from(
        "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Available,Service weight (lb),Fork length (in),Axle distance (in),Where\n",
    );
    for (id, class, rated, axle, service, forks, place) in [T1, T2, T3, T4, T5, T6] {
        let available = if out.contains(&id) { "no" } else { "yes" };
        let axle = axle
            .filter(|_| with_axle)
            .map_or(String::new(), |axle| axle.to_string());
        text.push_str(&format!(
            "{id},{class},{rated},24,160,{available},{service},{forks},{axle},{place}\n"
        ));
    }
    text
}

/// A delivery of one piece whose goods cannot be estimated, so that its gross weight is what is planned.
fn one(description: &str, sides_in: [f64; 3], gross_lb: &str) -> String {
    let [length, width, height] = sides_in;
    format!(
        "Description,Qty,Length (in),Width (in),Height (in),Gross weight (lb)\n{},1,{length},{width},{height},{gross_lb}\n",
        cell(description)
    )
}

fn at(place: &str) -> Site {
    Site {
        place: Some(place.to_string()),
        ..us()
    }
}

/// Worked cases: gross weight and depth of a load, the site, the register, the truck expected.
#[test]
fn the_smallest_adequate_truck_is_named() {
    let whole = register(&["T5"], true);
    let no_axle = register(&["T5"], false);
    let dock = Site {
        dock_rating_kg: Some(Mass::from_lb(16_000.0)),
        operator_kg: Mass::from_lb(200.0),
        ..us()
    };
    let goods = |depth: f64, lb: &str| one("Sundry goods", [depth, 24.0, 20.0], lb);
    #[rustfmt::skip]
    let cases: [(&str, String, &str, &Site, Option<&str>); 12] = [
        // 3000 x 24 / 30 = 2400: an exact tie passes; forks 2/3 x 60 = 40 <= 42.
        ("1: tie", goods(60.0, "2400"), &whole, &at("indoor"), Some("T1")),
        // T1 1 lb short; T2 5000 x (16 + 24) / (16 + 30) = 4347.8.
        ("2: one pound more", goods(60.0, "2401"), &whole, &at("indoor"), Some("T2")),
        // T2 5000 x 40 / 44 = 4545.4.
        ("3: axle stated", goods(56.0, "4400"), &whole, &us(), Some("T2")),
        // T2 5000 x 24 / 28 = 4285.7.
        ("3: axle not stated", goods(56.0, "4400"), &no_axle, &us(), Some("T3")),
        // T2 3846.1; T3 6000 x 24 / 36 = 4000, a tie; forks 2/3 x 72 = 48 <= 48, a tie.
        ("4: two ties", goods(72.0, "4000"), &whole, &us(), Some("T3")),
        // Never above the plate: T2 at 15 in would be 8000 by moment, its plate says 5000.
        ("5: short load", goods(30.0, "5200"), &whole, &us(), Some("T3")),
        // T6 takes 10000, T5 15500 but is out of service.
        ("8: too heavy", goods(48.0, "12000"), &whole, &at("outdoor"), None),
        // T5 back in service.
        ("8: back in service", goods(48.0, "12000"), &register(&[], true), &at("outdoor"), Some("T5")),
        // 9800 + 200 + 5800 = 15800 <= 16000.
        ("11a: dock rating", goods(48.0, "5800"), &whole, &dock, Some("T3")),
        // T4 18500, T6 21500: over the dock.
        ("11b: dock rating", goods(48.0, "5800"), &register(&["T3", "T5"], true), &dock, None),
        // Two trucks of 6000 lb are never proposed.
        ("12: no pair of trucks", goods(48.0, "8400"), &register(&["T4", "T5", "T6"], true), &us(), None),
        // An exact plate tie.
        ("plate tie", goods(48.0, "10000"), &whole, &us(), Some("T6")),
    ];
    for (name, delivery, fleet, site, expected) in cases {
        let line = line(&delivery, Some(fleet), site.clone());
        assert_eq!(truck(&line), expected, "case {name}: {line:#}");
        if expected.is_none() {
            assert!(codes(&line).contains(&"no-truck"), "case {name}: {line:#}");
        }
    }
}

/// Case 12 in words: what is missing and who plans the lift, never a second truck.
#[test]
fn where_none_is_adequate_the_record_says_what_is_missing() {
    let fleet = register(&["T4", "T5", "T6"], true);
    let line = line(
        &one("Sundry goods", [48.0, 24.0, 20.0], "8400"),
        Some(&fleet),
        us(),
    );
    let why = line["truck_without"].as_str().expect("a reason");
    assert!(
        why.contains("6,000 lb") && why.contains("2,400 lb") && why.contains("competent person"),
        "{why}"
    );
    assert!(!why.contains("two trucks"), "{why}");
}

/// Case 6: a long bundle of 5500 lb, 240 x 24 x 12 in. Broadside LC 12: T2 5000 fails, T3 6000. Endwise LC 120: T6
/// 10000 x 45 / 141 = 3191.4 is the most of any truck.
#[test]
fn the_side_of_entry_decides() {
    let fleet = register(&["T5"], true);
    for (entered, expected) in [("broadside", Some("T3")), ("endwise", None)] {
        let delivery = one(
            &format!("Sundry goods, bundled, entered {entered}"),
            [240.0, 24.0, 12.0],
            "5500",
        );
        let line = line(&delivery, Some(&fleet), us());
        assert_eq!(truck(&line), expected, "{entered}: {line:#}");
    }
}

/// Case 7, as far as a delivery can ask it: T4 wears its clamp, so its plate row with the clamp counts, 6300 lb, and not the
/// 8000 lb of its bare forks.
#[test]
fn the_plate_row_of_what_is_fitted_counts() {
    let fleet = |fitted: &str| {
        format!(
            "Truck,Class,Capacity (lb),Load centre (in),Lift height (in),Attachment,Fitted\n\
            T4,V,8000,24,160,,{fitted}\nT4,V,6300,24,160,clamp,{fitted}\nT6,V,10000,24,160,,\n"
        )
    };
    for (fitted, expected) in [("", "T4"), ("clamp", "T6")] {
        let line = line(
            &one("Sundry goods", [48.0, 24.0, 20.0], "7000"),
            Some(&fleet(fitted)),
            us(),
        );
        assert_eq!(truck(&line), Some(expected), "fitted {fitted:?}: {line:#}");
    }
}

/// Case 9: 96 x 48 x 4 in of steel is 5227 lb at 0.2836 lb/in3. 4750 lb declared is within 10 %, and is still not
/// what is planned: T2 would have been named for it.
#[test]
fn a_consistent_weight_is_planned_at_the_likely_one() {
    let fleet = register(&["T5"], true);
    let line = line(
        &one(
            "Steel plate stack, entered broadside",
            [96.0, 48.0, 4.0],
            "4750",
        ),
        Some(&fleet),
        us(),
    );
    assert_eq!(line["verdict"], "consistent", "{line:#}");
    let planned = line["planning"]["lift_kg"].as_f64().expect("a plan") / LB;
    assert!((5224.0..5240.0).contains(&planned), "{planned}");
    assert_eq!(truck(&line), Some("T3"), "{line:#}");
}

/// Case 10: no weight and nothing to work one out from.
#[test]
fn an_unknown_weight_gets_no_truck() {
    let fleet = register(&["T5"], true);
    let line = line(
        "Description,Qty,Weight (lb)\nSundry goods,1,\n",
        Some(&fleet),
        us(),
    );
    assert_eq!(truck(&line), None);
    assert_eq!(line["planning"]["from"], "none");
    assert_eq!(line["verdict"], "missing");
    assert!(codes(&line).contains(&"no-planning-weight"), "{line:#}");
}

/// The examples that OSHA publishes, each rounded down as printed there: rated capacity at 24 in, depth of the load.
#[test]
fn published_load_centre_examples() {
    #[rustfmt::skip]
    let examples = [
        (3000, 60, 2400, "29 CFR 1910.178 App. A, A-5: 72,000 inch-pounds over 30 in"),
        (5000, 56, 4285, "OSHA powered industrial truck eTool, load composition: load centre 28 in"),
        (4000, 72, 2666, "OSHA powered industrial truck eTool, load composition: load centre 36 in"),
    ];
    for (rated, depth, published, source) in examples {
        let fleet = format!(
            "Truck,Class,Capacity (lb),Load centre (in),Lift height (in)\nA,V,{rated},24,160\n"
        );
        let goods = |lb: i32| {
            one(
                "Sundry goods",
                [f64::from(depth), 24.0, 20.0],
                &lb.to_string(),
            )
        };
        let lifted = line(&goods(published), Some(&fleet), us());
        assert_eq!(truck(&lifted), Some("A"), "{source}: {lifted:#}");
        assert_eq!(lifted["truck"]["calculated"], true, "{source}");
        let capacity = lifted["truck"]["capacity_kg"].as_f64().expect("a capacity") / LB;
        assert_eq!(
            (capacity * (1.0 + 1e-9)).floor(),
            f64::from(published),
            "{source}"
        );
        let refused = line(&goods(published + 1), Some(&fleet), us());
        assert_eq!(truck(&refused), None, "{source}: {refused:#}");
        let why = refused["truck_without"].as_str().expect("a reason");
        let shown = format!("{},{:03} lb", published / 1000, published % 1000);
        assert!(why.contains(&shown), "{source}: {why}");
    }
}

/// OSHA powered industrial truck eTool, load composition, figure 2: a 4500 lb box on a 4500 lb truck, turned lengthwise.
#[test]
fn a_box_turned_lengthwise_is_over_capacity() {
    let fleet = "Truck,Class,Capacity (lb),Load centre (in),Lift height (in)\nA,V,4500,24,160\n";
    for (entered, expected) in [("broadside", Some("A")), ("endwise", None)] {
        let line = line(
            &one(
                &format!("Sundry goods, entered {entered}"),
                [72.0, 48.0, 30.0],
                "4500",
            ),
            Some(fleet),
            us(),
        );
        assert_eq!(truck(&line), expected, "{entered}: {line:#}");
    }
}

/// Metric cases 13 and 14: rated kg at 500 mm, axle in mm, fork length in mm.
#[test]
fn metric_registers_and_deliveries() {
    let fleet = |axle: bool, forks: &str| {
        let d = |mm: &'static str| if axle { mm } else { "" };
        format!(
            "Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm),Axle distance (mm),Fork length (mm)\nM1,V,2000,500,4000,,\nM2,V,2500,500,4000,{},\nM3,V,3000,500,4000,,\nM4,V,5000,500,4000,{},{forks}\n",
            d("450"),
            d("500")
        )
    };
    let goods = |words: &str, depth: u32, kg: u32| {
        format!(
            "Description,Qty,Length (mm),Width (mm),Height (mm),Gross weight (kg)\n{},1,{depth},800,500,{kg}\n",
            cell(words)
        )
    };
    #[rustfmt::skip]
    let cases = [
        // M1 1666.6; M2 2500 x 950 / 1050 = 2261.9.
        ("13", goods("Sundry goods", 1200, 2200), fleet(true, ""), Some("M2")),
        // M2 2500 x 500 / 600 = 2083.3; M3 2500.
        ("13 without axle", goods("Sundry goods", 1200, 2200), fleet(false, ""), Some("M3")),
        // M3 1000; M4 5000 x 1000 / 2000 = 2500; forks 2/3 x 3000 = 2000, a tie.
        ("14", goods("Sundry goods, endwise", 3000, 1600), fleet(true, "2000"), Some("M4")),
        ("14, fork length not stated", goods("Sundry goods, endwise", 3000, 1600), fleet(true, ""), Some("M4")),
        ("14, short forks", goods("Sundry goods, endwise", 3000, 1600), fleet(true, "1200"), None),
    ];
    for (name, delivery, fleet, expected) in cases {
        let line = line(&delivery, Some(&fleet), si());
        assert_eq!(truck(&line), expected, "case {name}: {line:#}");
    }
}

/// Cases 15 and 16: one truck with three heights on its plate. At 4800 mm the row for 5500 mm counts, 2100 kg: nothing
/// between two rows is worked out. At 3000 mm and LC 600, 3000 x 500 / 600 = 2500.
#[test]
fn plate_rows_by_lift_height() {
    let fleet = "Truck,Class,Capacity (kg),Load centre (mm),Lift height (mm)\nP,V,3000,500,3300\nP,V,2700,500,4500\nP,V,2100,500,5500\n";
    let goods = |depth: u32, kg: u32, height: u32| {
        format!(
            "Description,Qty,Length (mm),Width (mm),Height (mm),Gross weight (kg),Lift height (mm)\nSundry goods,1,{depth},800,500,{kg},{height}\n"
        )
    };
    #[rustfmt::skip]
    let cases = [
        (goods(1000, 2600, 4800), None),
        (goods(1000, 2100, 4800), Some("P")),
        (goods(1000, 2600, 4500), Some("P")),
        (goods(1200, 2150, 3000), Some("P")),
        (goods(1200, 2501, 3000), None),
        (goods(1000, 500, 5600), None),
    ];
    for (delivery, expected) in cases {
        let line = line(&delivery, Some(fleet), si());
        assert_eq!(truck(&line), expected, "{delivery}{line:#}");
    }
}

/// The load centre of the record is half of the size along the forks.
#[test]
fn the_record_holds_the_load_centre() {
    let line = line(&one("Sundry goods", [60.0, 24.0, 20.0], "2400"), None, us());
    let inches = line["load_centre_m"].as_f64().expect("a load centre") / IN;
    assert!((inches - 30.0).abs() < 1e-9, "{inches}");
}

/// Reference sheet of lift trucks, C-2, row 11 (general web text, weak source): a load 1,000 mm long has its centre at 500 mm.
#[test]
fn a_load_of_1000_mm_has_its_centre_at_500_mm() {
    let text = "Description,Qty,Length (mm),Width (mm),Height (mm),Weight (kg)\nConcrete block,1,1000,800,900,1700\n";
    let line = line(text, None, si());
    assert_eq!(line["load_centre_m"], 0.5);
}
