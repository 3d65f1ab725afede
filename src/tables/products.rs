//! Tables of standard products: what a standard or its published table says about each name.
//! Comes in: the embedded CSV files. Goes out: rows by name. Never reads a description.

mod row;

pub use row::*;

use crate::units::Length;
use serde::de::DeserializeOwned;
use std::collections::HashMap;
use std::sync::LazyLock;

/// A key of a table: a figure in thousandths, so that equal figures are equal keys.
pub fn milli(value: f64) -> i64 {
    (value * 1_000.0).round() as i64
}

/// The rows of a table. Each one's source is told with its basis ("ASTM B88 table of sizes and weights, from memory"), so that
/// no report shows the one without the other.
fn rows<T: DeserializeOwned>(text: &str) -> Vec<T> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let head = reader.headers().cloned().unwrap_or_default();
    let place = |title: &str| head.iter().position(|cell| cell == title);
    let (source, basis) = (place("source"), place("basis"));
    let told = |row: &csv::StringRecord| -> csv::StringRecord {
        let basis = basis.and_then(|at| row.get(at)).unwrap_or("");
        row.iter()
            .enumerate()
            .map(
                |(at, cell)| match Some(at) == source && !cell.contains(basis) {
                    true => format!("{cell}, {basis}"),
                    false => cell.to_string(),
                },
            )
            .collect()
    };
    reader
        .records()
        .map(|row| {
            row.and_then(|row| told(&row).deserialize(Some(&head)))
                .expect("an embedded table is well formed")
        })
        .collect()
}

macro_rules! embedded {
    ($(#[$doc:meta])* $text:ident, $file:literal) => {
        $(#[$doc])*
        pub const $text: &str = include_str!(concat!("products/", $file));
    };
}

embedded!(/** Shapes named by depth and lb/ft. */ SECTIONS_INCH, "sections-inch.csv");
embedded!(/** Inch angles. */ ANGLES_INCH, "angles-inch.csv");
embedded!(/** Sections named by one number. */ SECTIONS_EURO, "sections-euro.csv");
embedded!(/** Serial sizes. */ SECTIONS_SERIAL, "sections-serial.csv");
embedded!(/** Steel pipe. */ PIPE_STEEL, "pipe-steel.csv");
embedded!(/** Reinforcing bars. */ REBAR, "rebar.csv");
embedded!(/** Rails. */ RAILS, "rails.csv");
embedded!(/** Copper tube. */ COPPER, "copper.csv");
embedded!(/** Ductile iron pipe. */ DUCTILE, "ductile.csv");
embedded!(/** Panels. */ PANELS, "panels.csv");
embedded!(/** Dressed lumber. */ DRESSED, "dressed.csv");
embedded!(/** Drums, pails, totes. */ CONTAINERS, "containers.csv");
embedded!(/** Empty pallets. */ PALLETS, "pallets.csv");
embedded!(/** Walls of precast concrete. */ PRECAST, "precast.csv");
embedded!(/** Concrete masonry units and bricks. */ MASONRY, "masonry.csv");
embedded!(/** Flat glass. */ GLASS, "glass.csv");
embedded!(/** Sheet metal by gauge. */ GAUGES, "gauges.csv");
embedded!(/** Steel drums by the gauge of their sheet. */ DRUMS, "drums.csv");
embedded!(/** Freight containers, gas cylinders, bundles of shingles. */ PIECES, "pieces.csv");

/// Every embedded table with its name.
pub const ALL: &[(&str, &str)] = &[
    ("sections-inch", SECTIONS_INCH),
    ("angles-inch", ANGLES_INCH),
    ("sections-euro", SECTIONS_EURO),
    ("sections-serial", SECTIONS_SERIAL),
    ("pipe-steel", PIPE_STEEL),
    ("rebar", REBAR),
    ("rails", RAILS),
    ("copper", COPPER),
    ("ductile", DUCTILE),
    ("panels", PANELS),
    ("dressed", DRESSED),
    ("containers", CONTAINERS),
    ("pallets", PALLETS),
    ("precast", PRECAST),
    ("masonry", MASONRY),
    ("glass", GLASS),
    ("gauges", GAUGES),
    ("drums", DRUMS),
    ("pieces", PIECES),
];

static INCH: LazyLock<Vec<InchSection>> = LazyLock::new(|| rows(SECTIONS_INCH));
static INCH_BY_DEPTH: LazyLock<HashMap<(&'static str, i64), Vec<&'static InchSection>>> =
    LazyLock::new(|| {
        let mut index: HashMap<_, Vec<_>> = HashMap::new();
        for row in INCH.iter() {
            index
                .entry((row.family.as_str(), milli(row.nominal_depth)))
                .or_default()
                .push(row);
        }
        index
    });
static ANGLE: LazyLock<HashMap<[i64; 3], InchAngle>> = LazyLock::new(|| {
    rows(ANGLES_INCH)
        .into_iter()
        .map(|row: InchAngle| {
            (
                [row.leg_in, row.other_leg_in, row.thickness_in].map(milli),
                row,
            )
        })
        .collect()
});
static EURO: LazyLock<Vec<EuropeanSection>> = LazyLock::new(|| rows(SECTIONS_EURO));
static EURO_BY_NAME: LazyLock<HashMap<(&'static str, i64), &'static EuropeanSection>> =
    LazyLock::new(|| {
        EURO.iter()
            .map(|row| ((row.family.as_str(), milli(row.number)), row))
            .collect()
    });
static SERIAL: LazyLock<Vec<SerialSection>> = LazyLock::new(|| rows(SECTIONS_SERIAL));
static PIPE: LazyLock<Vec<Pipe>> = LazyLock::new(|| rows(PIPE_STEEL));
static PIPE_BY_NAME: LazyLock<HashMap<(i64, &'static str), &'static Pipe>> = LazyLock::new(|| {
    PIPE.iter()
        .map(|row| ((milli(row.nps), row.schedule.as_str()), row))
        .collect()
});
static BARS: LazyLock<Vec<Rebar>> = LazyLock::new(|| rows(REBAR));
static RAIL: LazyLock<Vec<Rail>> = LazyLock::new(|| rows(RAILS));
static RAIL_BY_NAME: LazyLock<HashMap<&'static str, &'static Rail>> = LazyLock::new(|| {
    RAIL.iter()
        .flat_map(|row| {
            std::iter::once(row.name.as_str())
                .chain(row.also.split(';').filter(|name| !name.is_empty()))
                .map(move |name| (name, row))
        })
        .collect()
});
static COPPER_TUBE: LazyLock<Vec<Copper>> = LazyLock::new(|| rows(COPPER));
static DUCTILE_PIPE: LazyLock<Vec<Ductile>> = LazyLock::new(|| rows(DUCTILE));
static PANEL: LazyLock<Vec<Panel>> = LazyLock::new(|| rows(PANELS));
static DRESSED_SIZE: LazyLock<Vec<Dressed>> = LazyLock::new(|| rows(DRESSED));
static CONTAINER: LazyLock<Vec<Container>> = LazyLock::new(|| rows(CONTAINERS));
static PALLET: LazyLock<Vec<Pallet>> = LazyLock::new(|| rows(PALLETS));
static PRECAST_WALL: LazyLock<Vec<PrecastWall>> = LazyLock::new(|| rows(PRECAST));
static MASONRY_UNIT: LazyLock<Vec<MasonryUnit>> = LazyLock::new(|| rows(MASONRY));
static GLASS_PANE: LazyLock<Vec<GlassPane>> = LazyLock::new(|| rows(GLASS));
static GAUGE: LazyLock<Vec<Gauge>> = LazyLock::new(|| rows(GAUGES));
static DRUM: LazyLock<Vec<Drum>> = LazyLock::new(|| rows(DRUMS));
static PIECE: LazyLock<Vec<Piece>> = LazyLock::new(|| rows(PIECES));

/// The shapes of one family and nominal depth in inches, lightest first; empty for a depth that is not made.
pub fn inch_sections(family: &'static str, nominal_depth: f64) -> &'static [&'static InchSection] {
    INCH_BY_DEPTH
        .get(&(family, milli(nominal_depth)))
        .map_or(&[], Vec::as_slice)
}

/// The inch angle with these legs (longer first) and thickness.
pub fn inch_angle(leg: f64, other: f64, thickness: f64) -> Option<&'static InchAngle> {
    ANGLE.get(&[leg, other, thickness].map(milli))
}

/// The European section of this family and number.
pub fn european(family: &'static str, number: f64) -> Option<&'static EuropeanSection> {
    EURO_BY_NAME.get(&(family, milli(number))).copied()
}

/// The serial size of this family, depth, width and mass.
pub fn serial(family: &str, depth: f64, width: f64, mass: f64) -> Option<&'static SerialSection> {
    SERIAL.iter().find(|row| {
        row.family == family
            && row.serial_depth_mm == depth
            && row.serial_width_mm == width
            && (row.mass_kg_m - mass).abs() < 1e-9
    })
}

/// The steel pipe of this nominal size (in) and schedule.
pub fn pipe(nps: f64, schedule: &'static str) -> Option<&'static Pipe> {
    PIPE_BY_NAME.get(&(milli(nps), schedule)).copied()
}

/// All steel pipes.
pub fn pipes() -> &'static [Pipe] {
    &PIPE
}

/// All reinforcing bars.
pub fn rebars() -> &'static [Rebar] {
    &BARS
}

/// The rail of this name, upper case, without spaces.
pub fn rail(name: &str) -> Option<&'static Rail> {
    RAIL_BY_NAME.get(name).copied()
}

/// The copper tube of this nominal size (in) and type.
pub fn copper(nominal_in: f64, kind: &str) -> Option<&'static Copper> {
    COPPER_TUBE
        .iter()
        .find(|row| milli(row.nominal_in) == milli(nominal_in) && row.kind == kind)
}

/// The ductile iron pipe of this nominal size (in) and pressure class.
pub fn ductile(nominal_in: f64, class: f64) -> Option<&'static Ductile> {
    DUCTILE_PIPE
        .iter()
        .find(|row| milli(row.nominal_in) == milli(nominal_in) && milli(row.class) == milli(class))
}

/// The panel of this kind and thickness (in).
pub fn panel(kind: &str, thickness_in: f64) -> Option<&'static Panel> {
    PANEL
        .iter()
        .find(|row| row.kind == kind && (row.thickness_in - thickness_in).abs() < 0.002)
}

/// The dressed size of a nominal one: dry and green.
pub fn dressed(side: &str, nominal_in: f64) -> Option<&'static Dressed> {
    DRESSED_SIZE
        .iter()
        .find(|row| row.side == side && milli(row.nominal_in) == milli(nominal_in))
}

/// All containers.
pub fn containers() -> &'static [Container] {
    &CONTAINER
}

/// The container of this kind, stuff and capacity (US gallons, within 4.5 %: 200 and 208 litres are one drum, 1,000 and
/// 1,041 one tote).
pub fn container(kind: &str, stuff: &str, capacity_us_gal: f64) -> Option<&'static Container> {
    CONTAINER.iter().find(|row| {
        row.kind == kind
            && row.stuff == stuff
            && (row.capacity_us_gal / capacity_us_gal - 1.0).abs() <= 0.045
    })
}

/// The empty pallet of this name.
pub fn pallet(name: &str) -> Option<&'static Pallet> {
    PALLET.iter().find(|row| row.name == name)
}

/// The wall of a precast piece of this kind and inside width (in or mm, as `unit` says).
pub fn precast_wall(kind: &str, inside: f64, unit: &str) -> Option<&'static PrecastWall> {
    PRECAST_WALL
        .iter()
        .find(|row| row.kind == kind && row.unit == unit && milli(row.inside) == milli(inside))
}

/// All masonry units.
pub fn masonry() -> &'static [MasonryUnit] {
    &MASONRY_UNIT
}

/// The flat glass of this nominal thickness (in or mm, as `unit` says).
pub fn glass_pane(nominal: f64, unit: &str) -> Option<&'static GlassPane> {
    GLASS_PANE
        .iter()
        .find(|row| row.unit == unit && milli(row.nominal) == milli(nominal))
}

/// The sheet of this kind and gauge number.
pub fn gauge(kind: &str, number: f64) -> Option<&'static Gauge> {
    GAUGE
        .iter()
        .find(|row| row.kind == kind && milli(row.gauge) == milli(number))
}

/// All steel drums whose gauge is known.
pub fn drums() -> &'static [Drum] {
    &DRUM
}

/// The pieces of one kind (`freight container`, `gas cylinder`, `shingle bundle`).
pub fn pieces(kind: &str) -> impl Iterator<Item = &'static Piece> {
    PIECE.iter().filter(move |row| row.kind == kind)
}

/// Millimetres as a length.
pub(crate) fn mm(value: f64) -> Length {
    Length::from_mm(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_row_is_read_and_has_a_source_and_a_basis() {
        for (name, text) in ALL {
            let mut reader = csv::Reader::from_reader(text.as_bytes());
            let head = reader.headers().expect("a heading").clone();
            let column = |title: &str| {
                head.iter()
                    .position(|cell| cell == title)
                    .unwrap_or_else(|| panic!("{name}: no column {title}"))
            };
            let (source, basis) = (column("source"), column("basis"));
            for row in reader.records() {
                let row = row.unwrap_or_else(|error| panic!("{name}: {error}"));
                assert!(!row[source].is_empty(), "{name}: {row:?}");
                assert!(
                    ["published", "from memory", "rule", "common practice"].contains(&&row[basis]),
                    "{name}: {row:?}"
                );
            }
        }
        let lines = |text: &str| text.lines().count() - 1;
        for (read, text) in [
            (INCH.len(), SECTIONS_INCH),
            (ANGLE.len(), ANGLES_INCH),
            (EURO.len(), SECTIONS_EURO),
            (SERIAL.len(), SECTIONS_SERIAL),
            (PIPE.len(), PIPE_STEEL),
            (BARS.len(), REBAR),
            (RAIL.len(), RAILS),
            (COPPER_TUBE.len(), COPPER),
            (DUCTILE_PIPE.len(), DUCTILE),
            (PANEL.len(), PANELS),
            (DRESSED_SIZE.len(), DRESSED),
            (CONTAINER.len(), CONTAINERS),
            (PALLET.len(), PALLETS),
            (PRECAST_WALL.len(), PRECAST),
            (MASONRY_UNIT.len(), MASONRY),
            (GLASS_PANE.len(), GLASS),
            (GAUGE.len(), GAUGES),
            (DRUM.len(), DRUMS),
            (PIECE.len(), PIECES),
        ] {
            assert_eq!(read, lines(text));
        }
    }

    #[test]
    fn a_rail_without_a_name_is_none() {
        assert!(rail("").is_none());
        assert!(rail("115RE").is_some());
    }

    #[test]
    fn geometry_gives_the_published_mass_of_european_sections() {
        // EN 10365 masses against the area of two flanges, web and root fillets at 7,850 kg/m3; rounding of the table is up to 0.5 kg/m.
        #[derive(serde::Deserialize)]
        struct Row {
            root_radius_mm: f64,
        }
        let radii: Vec<Row> = rows(SECTIONS_EURO);
        for (row, Row { root_radius_mm }) in EURO.iter().zip(radii) {
            let fillets = if row.family == "UPE" { 2.0 } else { 4.0 };
            let area = 2.0 * row.width_mm * row.flange_mm
                + (row.depth_mm - 2.0 * row.flange_mm) * row.web_mm
                + fillets * (1.0 - std::f64::consts::FRAC_PI_4) * root_radius_mm.powi(2);
            let off = area * 0.007_85 / row.mass_kg_m - 1.0;
            assert!(off.abs() < 0.012, "{} {}: {off:.4}", row.family, row.number);
        }
    }

    #[test]
    fn a_thickness_times_legs_gives_the_published_mass_of_angles() {
        // ASTM A6 nominal weights against t (a + b - t) at 490 lb/ft3; fillets make the published figure up to 2.1 % heavier.
        for row in ANGLE.values() {
            let rule =
                row.thickness_in * (row.leg_in + row.other_leg_in - row.thickness_in) * 3.4028;
            let off = row.mass_lb_ft / rule - 1.0;
            assert!((-0.012..0.025).contains(&off), "{row:?}: {off:.4}");
        }
    }

    #[test]
    fn the_rule_of_a_ring_gives_the_published_mass_of_pipe() {
        // ASME B36.10M and AISC lb/ft, and the SI columns as a second source (rounded sizes: 0.5 %).
        #[derive(serde::Deserialize)]
        struct Row {
            mass_kg_m_si: Option<f64>,
        }
        let published: Vec<Row> = rows(PIPE_STEEL);
        let mut compared = 0;
        for (row, Row { mass_kg_m_si }) in PIPE.iter().zip(published) {
            let rule = 10.69 * (row.od_in - row.wall_in) * row.wall_in;
            if let Some(published) = row.mass_lb_ft {
                assert!((rule / published - 1.0).abs() < 0.004, "{row:?}");
                compared += 1;
            }
            if let Some(si) = mass_kg_m_si {
                assert!((rule * 1.488_164 / si - 1.0).abs() < 0.008, "{row:?}");
            }
            assert!(row.wall_in * 2.0 < row.od_in, "{row:?}");
        }
        assert!(compared >= 33);
    }
}
