//! Lines as suppliers write them, read whole: what they must weigh, and what must have no estimate rather than a light one.
//! Masses: G = geometry at 7,850 kg/m3 worked by hand; other sources beside the line.

mod pieces;
mod refused;

use super::materials::Vocabulary;
use super::{Estimate, Evidence, NoEstimate, line};
use crate::read;
use crate::understand::{self, Item, Known};

/// The item of the one row of a list, and whether the list is metric.
#[track_caller]
fn item(heading: &str, row: &str) -> (Item, Option<bool>) {
    let text = format!("{heading}\n{row}\n");
    let raw = match read::bytes("a.csv", text.as_bytes()) {
        Ok(raw) => raw,
        Err((found, _)) => panic!("{found}"),
    };
    let mut readings = understand::file(&raw, &Known::default());
    let reading = readings.first_mut().expect("a sheet");
    (reading.items.remove(0), reading.us.map(|us| !us))
}

/// The estimate of the one row of a list.
#[track_caller]
fn of(heading: &str, row: &str) -> Result<Estimate, NoEstimate> {
    let (item, metric) = item(heading, row);
    line(&item, metric, Vocabulary::built_in())
}

/// The estimate of a description in a list whose weights are pounds or kilograms.
#[track_caller]
fn described(text: &str, us: bool) -> Result<Estimate, NoEstimate> {
    let unit = if us { "lb" } else { "kg" };
    let quoted = text.replace('"', "\"\"");
    of(
        &format!("Description,Qty,Weight {unit}"),
        &format!("\"{quoted}\",1,5"),
    )
}

#[test]
fn masses_of_descriptions() {
    let (us, si) = (true, false);
    let cases = [
        // The section is no length, whatever stands first. G: 2 in hexagon, 0.866 x 50.8 mm squared.
        ("HEX BAR 2 x 12'", us, 64.2),
        ("hex 50 x 3 m", si, 51.0),
        ("SQ BAR 2 x 20'", us, 123.5),
        ("Flat bar 100x12x600", si, 5.65),
        // EN 10056-1: 10.9 kg/m, from memory.
        ("RSA 90x90x8 6 m", si, 65.4),
        ("CHS 114.3x5 6m", si, 80.9),
        ("H beam 300x300x10x15 12 m", si, 1_102.0),
        ("W310x39 x 12 m", si, 468.0),
        // EN 10365 masses per metre with a length that stands alone.
        ("IPE200 12m", si, 268.8),
        ("UB 254x146x31 9 m", si, 279.0),
        // Walls of an inch and of less than a millimetre. G: pi (D - t) t; EN 10219-2 rule.
        ("PIPE 12.750 OD X 1.000 WALL X 20'", us, 1_139.6),
        ("SHS 30x30x0.8 x 6 m", si, 4.32),
        ("HSS 12x12x1/2 x 20'", us, 690.1), // AISC: 76.07 lb/ft
        ("Seamless pipe 60.3x3.6 x 6 m", si, 30.2),
        // The wound length, not the drum's side: arithmetic.
        ("Cable 4x25 500 m 1.35 kg/m on reel", si, 675.0),
        // 208.2 l x 0.98 x 840 kg/m3 and 18.1 kg of drum (containers and materials tables); contents, not the drum's steel.
        ("Steel drum 200 L diesel", si, 189.5),
        ("HDPE drum 200 L sulphuric acid", si, 385.4),
        // 508 mm are 20 in, which is chance. G.
        ("Fishplate 508x120x20 steel", si, 9.57),
        ("Steel plate 96 x 48 x 1", us, 592.7),
        ("Lead sheet 1/8 x 36 x 48", us, 40.1),
        // A North American name in a metric list. AISC: 18.99 lb/ft; 0.5 in wall by pi (D - t) t.
        ("HSS 6.625x0.500 x 6 m", si, 292.0),
        ("Pipe 8.625 OD x 0.500 wall x 6 m", si, 387.4),
        // 240 x 115 x 71 mm at the table's 1,920 kg/m3 for brick.
        ("Brick 240x115x71", si, 3.76),
        // Sides alike, or a mark: inches. 490 lb/ft3.
        ("Steel plate 14 x 14 x 1", us, 25.2),
        ("Steel plate 1/2 x 4 x 8 in", us, 2.06),
        // Geometry: a cast plate is no concrete, whatever its ending; 7,208 kg/m3 (materials table).
        ("Gussplatte 400x300x50", si, 43.2),
        // PS 20: 1.5 x 9.25 in at the table's density of Douglas fir.
        ("2x10x16' Douglas fir", us, 23.5),
    ];
    let mut wrong = Vec::new();
    for (text, us, kg) in cases {
        match described(text, us) {
            Ok(found) if (found.line.likely.kg() / kg - 1.0).abs() < 0.005 => {}
            Ok(found) => wrong.push(format!(
                "{text}: {} kg against {kg}",
                found.line.likely.kg()
            )),
            Err(no) => wrong.push(format!("{text}: {}", no.why)),
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}

#[test]
fn no_estimate_rather_than_a_light_one() {
    let (us, si) = (true, false);
    for (text, us, why) in [
        // Feet as well as inches: 12 or 144 times the weight.
        ("FLAT BAR 1/2 x 6 x 20", us, "may be feet"),
        ("PL 1/2x12x20", us, "may be feet"),
        ("Flat bar 100x12x6", si, "metres"),
        ("Concrete block 2x2x4'", us, "feet or inches"),
        ("Transformer 4x4x6'", us, "feet or inches"),
        ("SHS 60x60x4 x 6", si, "metres"),
        ("HSS 6X6X1/2 X 20", us, "may be feet"),
        ("W12x26x20", us, "may be feet"),
        ("L 80x80x8 6000", si, "length is not stated"),
        ("Steel plate 20 x 2 x 6 m", si, "metres or millimetres"),
        (
            "Concrete block 0.6 x 0.6 x 1.2",
            si,
            "the unit of the sizes",
        ),
        ("Kantholz 10x10 Fichte 4 m", si, "centimetres"),
        // An outside diameter makes no pipe.
        ("Steel pipe OD 168 6 m", si, "wall is not stated"),
        ("Steel plate 1/2 x 4 x 8", us, "feet, inches or metres"),
        ("Steel plate 0.5 x 48 x 20", us, "feet, inches or metres"),
        ("Steel plate 10x1500x6", si, "metres or millimetres"),
        ("Steel sheet 1/4 x 4 x 8", us, "feet, inches or metres"),
        ("Brass rod 1 x 12", us, "feet, inches or metres"),
        ("Rebar 1/2 x 20", us, "length is not stated"),
        ("Steel counterweight 2x3x4", us, "feet or inches"),
        // No rail is named by "as".
        ("Rail 60 as per drawing", si, "no size"),
        ("Crane rail 100 as drawing", us, "no size"),
        // What it may carry, what it pumps, what it weighs an area.
        ("Walkway, load 75 kg/m, 3 m", si, "no size"),
        ("Steg, Traglast 75 kg/m, 3 m", si, "no size"),
        ("Pump 3 kg/min 2 m", si, "no size"),
        ("Grating 30 kg/m^2, 3 m", si, "no size"),
        // The drum is no contents.
        ("Steel drum 200 L", si, "what is in"),
        ("HDPE drum 200 L", si, "what is in"),
    ] {
        match described(text, us) {
            Err(no) => assert!(no.why.contains(why), "{text}: {}", no.why),
            Ok(found) => panic!("{text}: {} kg, {}", found.line.likely.kg(), found.working),
        }
    }
}

#[test]
fn a_column_says_what_a_container_holds_or_what_it_is_made_of() {
    let heading = "Description,Material,Qty,Weight kg";
    let held = |row: &str| of(heading, row).map(|found| found.material.map(|row| row.name));
    assert_eq!(held("55 gal steel drum,diesel,1,5"), Ok(Some("diesel")));
    assert_eq!(held("HDPE drum 200 L diesel,HDPE,1,5"), Ok(Some("diesel")));
    assert!(held("Drum 200 L,steel,1,5").is_err());
}

#[test]
fn a_product_of_another_metal_is_worked_out_in_the_open() {
    let heading = "Description,Material,Qty,Length mm,Weight kg";
    // EN 10365: IPE 300 has 42.2 kg/m of carbon steel; the densities are the table's.
    let ratio = |name: &str| {
        let density = |name| {
            crate::tables::materials::by_name(name)
                .expect("a material")
                .density
                .kg_m3()
        };
        density(name) / density("carbon steel")
    };
    for (row, name, steel_kg) in [
        ("IPE 300,1.4301,1,6000,5", "stainless steel 304", 42.2 * 6.0),
        // 1/2 x 48 x 96 in of lead: 653 lb of steel (490 lb/ft3).
        ("PL1/2x48x96,lead,1,,5", "lead", 653.3 * 0.453_592_37),
    ] {
        let found = of(heading, row).unwrap_or_else(|no| panic!("{row}: {}", no.why));
        let expected = steel_kg * ratio(name);
        assert!(
            (found.line.likely.kg() / expected - 1.0).abs() < 0.002,
            "{row}: {} against {expected}",
            found.line.likely.kg()
        );
        let step = found.steps.first().expect("a step");
        let product: f64 = step.inputs.iter().map(|(_, value)| value).product();
        assert!(
            step.inputs
                .iter()
                .any(|(input, value)| input == "density ratio"
                    && (value / ratio(name) - 1.0).abs() < 1e-9)
                && (product / step.result - 1.0).abs() < 1e-9
                && found.working.contains(name),
            "{step:?} {}",
            found.working
        );
    }
    // Another group is another product.
    for row in [
        "PVC pipe 4 in sch 40,carbon steel,1,6000,5",
        "IPE 300,oak,1,6000,5",
        "Plywood sheet 18 mm,carbon steel,1,2440,5",
    ] {
        let no = of(heading, row).expect_err(row);
        assert!(no.why.contains("the line says"), "{row}: {}", no.why);
    }
}

#[test]
fn the_sizes_of_a_package_give_each_piece_its_share() {
    let heading = "Description,Material,Qty,Length mm,Width mm,Height mm,Weight kg";
    let (mut item, metric) = item(heading, "Brackets,carbon steel,40,1200,800,600,900");
    item.package_sizes = std::mem::take(&mut item.sizes);
    item.packages = Some(2);
    let found = line(&item, metric, Vocabulary::built_in()).expect("bounds");
    assert_eq!(found.evidence, Evidence::Envelope);
    assert!((found.piece.high.kg() * 40.0 / found.line.high.kg() - 1.0).abs() < 1e-9);
    let last = found.steps.last().expect("a step");
    let product: f64 = last.inputs.iter().map(|(_, value)| value).product();
    assert!(
        last.formula == "one package x packages"
            && (product / found.line.likely.kg() - 1.0).abs() < 1e-9,
        "{last:?}"
    );
}

#[test]
fn figures_beyond_any_goods_give_no_estimate() {
    let digits = "9".repeat(400);
    for text in [
        format!("Steel plate 10x1000x{digits}"),
        format!("UB 203x133x25 x {digits} m"),
        format!("Round bar 50 x {digits}"),
        format!("Cable {digits} m 1.35 kg/m"),
        "Round bar 50 x 99999999 m".to_string(),
        format!("Rail 60E1 {digits} kg/m"),
    ] {
        if let Ok(found) = described(&text, false) {
            panic!("{text}: {} kg", found.line.likely.kg());
        }
    }
}

#[test]
fn a_stuffed_cell_is_not_searched() {
    // 30,000 signs: together they took more than a minute, the square of their length.
    let (mut item, metric) = item("Description,Qty,Weight kg", "Rail 60E1 x 18 m,1,5");
    assert!(line(&item, metric, Vocabulary::built_in()).is_ok());
    for text in ["rail 60E1 x 18 m ", "1x", "sand "] {
        item.description = text.repeat(30_000 / text.len());
        let no = line(&item, metric, Vocabulary::built_in()).expect_err(text);
        assert!(no.why.contains("too long"), "{}", no.why);
    }
}

#[test]
fn a_name_beside_sizes_that_are_its_own_is_believed() {
    // Each line's columns repeat the name, or leave out what only the name tells: nothing contradicts.
    let heading = "Description,Material,Qty,Length (in),Width (in),Height (in),Weight lb";
    for row in [
        "SQ TUBE 2x2x.188,A500,1,240,,,5",
        "HSS6x4x1/4,A500,1,240,4,6,5",
        "HSS6x4x1/4,A500,1,240,6,4,5",
        "Flat bar 1/2x6,A36,1,240,6,0.5,5",
        "PL1/2x48x96,A36,1,96,48,0.5,5",
        "ROUND BAR 3,A36,1,240,,,5",
        "L4x4x1/2,A36,1,240,4,4,5",
        "W12x26,A992,1,240,6.5,12.2,5",
        "2x10 SPF,,1,192,10,2,5",
    ] {
        let found = of(heading, row).unwrap_or_else(|no| panic!("{row}: {}", no.why));
        assert!(
            found.otherwise.is_none() && found.evidence == Evidence::Product,
            "{row}: {found:?}"
        );
    }
}

#[test]
fn a_working_says_how_well_its_figure_is_founded() {
    // The basis of each row stands in its table; W12x27 is in none, so the rule of the name carries on.
    for (text, us, source, working) in [
        ("W12x26 x 20'", true, ", published", "26 lb/ft (38.7 kg/m)"),
        ("HEA 120 x 6 m", false, ", from memory", "table of sections"),
        ("W12x27 x 20'", true, "", "by the rule, not from a table"),
        (
            "2x14x16' Douglas fir",
            true,
            ", from memory",
            "a dressed 2x14",
        ),
        ("Steel drum 200 L diesel", false, ", published", "its tare"),
    ] {
        let found = described(text, us).unwrap_or_else(|no| panic!("{text}: {}", no.why));
        let step = found.steps.last().expect("a step");
        assert!(
            step.source.contains(source) && found.working.contains(working),
            "{text}: {}; {}",
            step.source,
            found.working
        );
        assert_eq!(
            found.working.contains("by the rule"),
            working.contains("by the rule"),
            "{text}"
        );
    }
}

/// Short names of species decide beside a size of lumber; elsewhere they are anything (method, section 1).
#[test]
fn a_species_in_short_counts_beside_a_dressed_size_alone() {
    for (text, material) in [
        ("2x10x16' SYP", Some("southern pine")),
        ("2x10x16' SYP green", Some("southern pine green")),
        ("2x6x12' SPF No. 2 KD", Some("spruce-pine-fir dry")),
        ("2x4x8' DF studs", Some("Douglas fir")),
        ("IPE 200 6 m SPF", Some("carbon steel")),
        ("Bracket DF 200", None),
    ] {
        let found = described(text, true).ok();
        let found = found.and_then(|estimate| estimate.material.map(|material| material.name));
        assert_eq!(found, material, "{text}");
    }
}

/// Timbers of 5 in and more ship green unless said to be dry (PS 20, from memory).
#[test]
fn a_timber_of_unstated_moisture_is_taken_as_green() {
    let of = |text: &str| described(text, true).expect("an estimate");
    let (unstated, green, dry) = (
        of("6x6x12' Douglas fir"),
        of("6x6x12' Douglas fir green"),
        of("6x6x12' Douglas fir KD"),
    );
    assert_eq!(unstated.line.likely, green.line.likely);
    assert_eq!(unstated.line.high, green.line.high);
    // The dry one stays possible.
    assert!(unstated.line.low < dry.line.likely && dry.line.high < green.line.high);
    // A joist is dry or green.
    assert!(of("2x10x16' Douglas fir").line.likely < of("2x10x16' Douglas fir green").line.likely);
}
