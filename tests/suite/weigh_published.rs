//! Thirty loads typed in free words, with masses from published figures; each row names its source.

use crate::helper::LB;
use crate::weigh::{folder, record};
use serde_json::Value;

fn kg(record: &Value, key: &str) -> f64 {
    record["estimate"][key].as_f64().unwrap_or(f64::NAN)
}

const AISC: &str = "ASTM A6/A6M nominal weight, AISC shapes database v16.0";
const PLAIN_END: &str = "plain-end weight, ASME B36.10M";
const STEEL: &str = "490 lb/ft3 (AISC Manual)";
const RIGGING: &str =
    "reinforced concrete 150 lb/ft3, unit weights for rigging (trade table, on file)";
const BARS: &str = "ASTM A615/A615M bars, PCI Design Handbook 7th ed., Design Aid 15.4.1";

/// Typed, pieces, mass of the whole load in kg, the source.
#[rustfmt::skip]
const LOADS: &[(&str, u64, f64, &str)] = &[
    // pi / 4 x (2.5^2 - 2^2) x 8 = 14.137 ft3.
    ("pipe OD 30 in ID 24 in L 8 ft reinforced concrete x 3", 3, 3.0 * 14.137 * 150.0 * LB, RIGGING),
    ("3 x pipe OD 30 in ID 24 in L 8 ft reinforced concrete", 3, 3.0 * 14.137 * 150.0 * LB, RIGGING),
    ("reinforced concrete pipe OD 762 mm ID 609.6 mm L 2438.4 mm, 3 pcs", 3, 3.0 * 14.137 * 150.0 * LB, RIGGING),
    ("W12x26 20 ft", 1, 520.0 * LB, AISC),
    ("4 pcs W12x26 20 ft", 4, 2080.0 * LB, AISC),
    ("W12x26 x 20 ft x 4", 4, 2080.0 * LB, AISC),
    ("W 14 x 90 40 ft", 1, 3600.0 * LB, AISC),
    ("C10x20 20 ft qty 2", 2, 800.0 * LB, AISC),
    ("HSS 6x4x1/4 20 ft x 10", 10, 3124.0 * LB, AISC),
    ("angle 4x4x1/2 L 20 ft", 1, 256.0 * LB, AISC),
    ("HEA 200 6 m", 1, 42.3 * 6.0, "HE-A beams, dimensions to Euronorm 53-62"),
    ("IPE 300 L=6000 mm, 2 Stk", 2, 42.2 * 12.0, "EN 10365:2017 mass table, from memory"),
    ("UB 203x133x25 12 m", 1, 300.0, "serial size: the last number is kg/m"),
    ("rebar #5 20 ft x 100", 100, 2086.0 * LB, BARS),
    ("10 x rebar #11 L 40 ft", 10, 2125.2 * LB, BARS),
    ("rebar T16 12 m 50 pcs", 50, 50.0 * 1.579 * 12.0, "BS/EN bar, reinforcement supplier table (trade table, on file)"),
    ("pipe 6 in sch 40 21 ft", 1, 398.8 * LB, PLAIN_END),
    ("pipe 8 in sch 80 20 ft x 2", 2, 2.0 * 868.6 * LB, PLAIN_END),
    ("rail 115RE 39 ft", 1, 1489.0 * LB, "AREMA section, rail supplier table (trade table, on file)"),
    ("copper tube 1 in type L 20 ft x 50", 50, 655.0 * LB, "ASTM B88 table of sizes and weights"),
    ("RCP 36 in wall B L 8 ft", 1, 4190.0 * LB, "ASTM C76 by rule, 523.6 lb/ft"),
    ("steel plate 1/2 x 48 x 96 in x 2", 2, 1306.7 * LB, STEEL),
    ("6 steel plates 1/2\" x 60\" x 120\"", 6, 6.0 * 0.5 * 60.0 * 120.0 / 1728.0 * 490.0 * LB, STEEL),
    ("steel plate 10 mm x 1 m x 2 m", 1, 157.0, "7,850 kg/m3 (EN 1991-1-1)"),
    ("round bar steel dia 60 mm x 1200 mm", 1, std::f64::consts::PI / 4.0 * 0.0036 * 1.2 * 7850.0, "7,850 kg/m3 (EN 1991-1-1)"),
    ("reinforced concrete block 4 ft x 2 ft x 2 ft", 1, 2400.0 * LB, RIGGING),
    ("water, 4 drums 55 gal steel", 4, 4.0 * 499.0 * LB, "NIST Handbook 44 App. C (gallon); drum of 38 to 42 lb (trade table, on file)"),
    ("portland cement 94 lb, 40 bags", 40, 3760.0 * LB, "94 lb a US bag (ASTM C150 trade bag)"),
    ("plywood 1/2 in x 4 ft x 8 ft x 40", 40, 40.0 * 48.0 * LB, "APA panel weight table"),
    ("20 ft container empty", 1, 2170.0, "ISO 668 sizes; forwarder's table (trade table, on file)"),
    ("6 oxygen cylinders 244 cu ft", 6, 6.0 * 153.0 * LB, "133 lb empty and about 20 lb of gas, welding handbook (trade table, on file)"),
    ("27 bundles 3-tab shingles", 27, 9.0 * 195.0 * LB, "195 lb a square of three bundles, roofing weight table (trade table, on file)"),
    ("1 pallet of 500 modular bricks", 500, 2100.0 * LB, "4.2 lb a brick, brick size and weight list (trade table, on file)"),
    ("2x10x16 douglas fir KD x 10", 10, 524.0 * LB, "PS 20 dressed sizes; 34 lb/ft3 air dry, Oregon State University"),
];

#[test]
fn thirty_loads_in_free_words_weigh_what_is_published() {
    assert!(LOADS.len() >= 30);
    let folder = folder();
    let mut wrong = Vec::new();
    for (typed, pieces, published, source) in LOADS {
        let record = record(folder.path(), typed, &["--units", "us"]);
        let likely = kg(&record, "likely_kg");
        let inside = kg(&record, "low_kg") <= *published && *published <= kg(&record, "high_kg");
        // Wood and panels are averages, a drum's tare a range; the others are rounded to the last figure.
        let wide = ["APA", "PS 20", "NIST"]
            .iter()
            .any(|name| source.starts_with(name));
        let near = (likely / published - 1.0).abs() <= if wide { 0.05 } else { 0.005 };
        if record["pieces"] != *pieces || !inside || !near {
            wrong.push(format!(
                "{typed}: {} pieces, {likely:.1} kg, published {published:.1} ({source})",
                record["pieces"]
            ));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
