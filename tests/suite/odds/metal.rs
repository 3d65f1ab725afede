//! Metal goods: nominal mass of the standard, or section times density, and making limits of the standards.

use super::goods::{Family, Goods};
use super::random::Random;
use crate::helper::{IN, LB};
use std::f64::consts::PI;

pub const FT: f64 = 12.0 * IN;
/// Carbon steel, kg/m3 (BS 648; EN 10365 tables are made with it), and its scatter over grades (from memory).
pub const STEEL: f64 = 7_850.0;
pub const GRADES: f64 = 0.003;
/// Mass per length of shapes, either way: ASTM A6 (from memory), EN 10034 (from memory), EN 10279 (from memory).
const SHAPES_US: f64 = 0.025;
const SHAPES_EU: f64 = 0.04;
/// EN 10210-2, a producer's public tolerance page.
const HOLLOW: f64 = 0.06;
/// ASTM A53 (from memory).
const PIPE: f64 = 0.10;

/// A length as sold, m: whole feet or half metres.
pub fn length(random: &mut Random, us: bool) -> f64 {
    if us {
        f64::from(random.whole(8, 40)) * FT
    } else {
        f64::from(random.whole(6, 24)) * 0.5
    }
}

/// A line of long steel of so much a metre. The length stands in its column, or in the name, as some suppliers write it.
fn long(
    family: Family,
    random: &mut Random,
    us: bool,
    name: &str,
    kg_m: f64,
    limits: (f64, f64),
) -> Goods {
    let length = length(random, us);
    let in_name = random.chance(0.25);
    let description = match (in_name, us) {
        (false, _) => name.to_string(),
        (true, true) => format!("{name} x {}'", (length / FT).round()),
        (true, false) => format!("{name} x {} mm", (length * 1000.0).round()),
    };
    let pieces = random.whole(1, 30);
    let mut goods = Goods::new(family, description, pieces, kg_m * length);
    goods.long_m = Some(length);
    goods.sizes.length = (!in_name).then_some(length);
    goods.off = random.made(limits.0, limits.1);
    goods
}

/// Designations whose last number is the mass: AISC, EN 10365 (UB, UC, PFC) and CSA names.
const I_US: [&str; 16] = [
    "W6x15", "W8x31", "W10x33", "W12x26", "W14x90", "W16x40", "W18x50", "W21x44", "W24x76",
    "S8x18.4", "S12x35", "HP10x42", "HP12x53", "HP14x73", "W12x53", "W10x49",
];
const I_EU: [&str; 12] = [
    "UB 203x133x25",
    "UB 305x165x40",
    "UB 254x146x31",
    "UB 406x178x54",
    "UB 457x191x67",
    "UC 152x152x30",
    "UC 203x203x46",
    "UC 254x254x73",
    "W310x39",
    "W250x49",
    "W200x46",
    "W610x113",
];
/// EN 10365 (IPE, HE), kg/m, from memory; they agree with the areas of a section library within 0.6 %.
const I_TABLE: [(&str, f64); 14] = [
    ("IPE 100", 8.1),
    ("IPE 140", 12.9),
    ("IPE 200", 22.4),
    ("IPE 240", 30.7),
    ("IPE 300", 42.2),
    ("IPE 400", 66.3),
    ("HEA 100", 16.7),
    ("HEA 200", 42.3),
    ("HE 240 A", 60.3),
    ("HEA 300", 88.3),
    ("HEB 140", 33.7),
    ("HEB 200", 61.3),
    ("HE 240 B", 83.2),
    ("HEB 300", 117.0),
];

/// The number behind the last `x` of a designation.
fn last(name: &str) -> f64 {
    let (_, number) = name.rsplit_once('x').expect("a designation with x");
    number.parse().expect("a number")
}

pub fn i_section(random: &mut Random, us: bool) -> Goods {
    let family = Family::ISection;
    if us {
        let name = random.pick(&I_US);
        let kg_m = last(name) * LB / FT;
        return long(family, random, us, name, kg_m, (SHAPES_US, SHAPES_US));
    }
    let (name, kg_m) = if random.chance(0.5) {
        let name = random.pick(&I_EU);
        (name, last(name))
    } else {
        random.pick(&I_TABLE)
    };
    long(family, random, us, name, kg_m, (SHAPES_EU, SHAPES_EU))
}

const CHANNEL_US: [&str; 9] = [
    "C3x4.1", "C4x5.4", "C6x8.2", "C8x11.5", "C10x20", "C12x20.7", "C15x33.9", "MC8x20", "MC12x31",
];
/// EN 10365, kg/m, from memory; PFC by its name.
const CHANNEL_EU: [(&str, f64, f64); 9] = [
    ("UPN 80", 8.65, 0.06),
    ("UPN 100", 10.6, 0.06),
    ("UPN 120", 13.4, 0.06),
    ("UPN 160", 18.9, 0.04),
    ("UPN 200", 25.3, 0.04),
    ("UPN 300", 46.1, 0.04),
    ("PFC 150x75x18", 17.9, 0.04),
    ("PFC 200x90x30", 29.7, 0.04),
    ("PFC 260x75x28", 27.6, 0.04),
];

pub fn channel(random: &mut Random, us: bool) -> Goods {
    let family = Family::Channel;
    if us {
        let name = random.pick(&CHANNEL_US);
        let kg_m = last(name) * LB / FT;
        return long(family, random, us, name, kg_m, (SHAPES_US, SHAPES_US));
    }
    let (name, kg_m, limit) = random.pick(&CHANNEL_EU);
    long(family, random, us, name, kg_m, (limit, limit))
}

pub fn angle(random: &mut Random, us: bool) -> Goods {
    let family = Family::Angle;
    if us && random.chance(0.25) {
        let name = random.pick(&["WT5x16.5", "WT6x13", "WT7x45", "WT9x25"]);
        let kg_m = last(name) * LB / FT;
        return long(family, random, us, name, kg_m, (SHAPES_US, SHAPES_US));
    }
    // Two rectangles; fillet and rounded toes add up to 1 % (from memory).
    let section = |leg: f64, other: f64, thick: f64| thick * (leg + other - thick) * STEEL * 1.005;
    if us {
        let (name, leg, other, thick) = random.pick(&[
            ("L2x2x1/4", 2.0, 2.0, 0.25),
            ("L3x2x1/4", 3.0, 2.0, 0.25),
            ("L3x3x3/8", 3.0, 3.0, 0.375),
            ("L4x4x1/2", 4.0, 4.0, 0.5),
            ("L5x3x3/8", 5.0, 3.0, 0.375),
            ("L6x4x1/2", 6.0, 4.0, 0.5),
            ("L6x6x1/2", 6.0, 6.0, 0.5),
        ]);
        let kg_m = section(leg * IN, other * IN, thick * IN);
        return long(family, random, us, name, kg_m, (SHAPES_US, SHAPES_US));
    }
    let (name, leg, other, thick) = random.pick(&[
        ("L50x50x5", 50.0, 50.0, 5.0),
        ("L60x60x6", 60.0, 60.0, 6.0),
        ("L80x80x8", 80.0, 80.0, 8.0),
        ("L100x100x10", 100.0, 100.0, 10.0),
        ("Angle 120x80x10", 120.0, 80.0, 10.0),
    ]);
    let kg_m = section(leg / 1e3, other / 1e3, thick / 1e3);
    long(family, random, us, name, kg_m, (SHAPES_EU, SHAPES_EU))
}

pub fn hollow_section(random: &mut Random, us: bool) -> Goods {
    let (name, high, wide, wall) = if us {
        let (name, high, wide, wall) = random.pick(&[
            ("HSS2x2x1/4", 2.0, 2.0, 0.25),
            ("HSS4x2x1/4", 4.0, 2.0, 0.25),
            ("HSS4x4x1/4", 4.0, 4.0, 0.25),
            ("HSS6x4x1/4", 6.0, 4.0, 0.25),
            ("HSS6x6x3/8", 6.0, 6.0, 0.375),
            ("HSS8x8x1/2", 8.0, 8.0, 0.5),
            ("HSS10x6x3/8", 10.0, 6.0, 0.375),
        ]);
        (name, high * IN, wide * IN, wall * IN)
    } else {
        let (name, high, wide, wall) = random.pick(&[
            ("RHS 60x40x4", 60.0, 40.0, 4.0),
            ("RHS 100x50x5", 100.0, 50.0, 5.0),
            ("RHS 150x100x6.3", 150.0, 100.0, 6.3),
            ("RHS 200x100x8", 200.0, 100.0, 8.0),
            ("SHS 50x50x4", 50.0, 50.0, 4.0),
            ("SHS 100x100x6.3", 100.0, 100.0, 6.3),
            ("SHS 150x150x8", 150.0, 150.0, 8.0),
        ]);
        (name, high / 1e3, wide / 1e3, wall / 1e3)
    };
    // Outer corners of twice the wall, inner ones of once: a corner loses (4 - pi) (R^2 - r^2) / 4 (geometry).
    let corners = (4.0 - PI) * ((2.0 * wall).powi(2) - wall * wall);
    let area = high * wide - (high - 2.0 * wall) * (wide - 2.0 * wall) - corners;
    let mut goods = long(
        Family::HollowSection,
        random,
        us,
        name,
        area * STEEL,
        (HOLLOW, HOLLOW),
    );
    goods.solid = Some(high * wide / area);
    goods
}

/// Round tube by its sizes in columns.
pub fn round_tube(random: &mut Random, us: bool) -> Goods {
    let (outside, wall) = if us {
        random.pick(&[
            (3.5, 0.216),
            (4.0, 0.25),
            (5.0, 0.25),
            (6.0, 0.375),
            (6.625, 0.28),
            (8.625, 0.322),
            (10.75, 0.5),
        ])
    } else {
        random.pick(&[
            (48.3, 3.2),
            (60.3, 3.6),
            (88.9, 4.0),
            (114.3, 5.0),
            (139.7, 6.3),
            (168.3, 7.1),
            (219.1, 8.0),
            (323.9, 10.0),
        ])
    };
    let unit = if us { IN } else { 1e-3 };
    let (outside, wall) = (outside * unit, wall * unit);
    let area = PI * (outside - wall) * wall;
    let name = random.pick(&[
        "Round steel tube",
        "Seamless steel pipe",
        "Welded steel tube, round",
    ]);
    let mut goods = long(
        Family::RoundTube,
        random,
        us,
        name,
        area * STEEL,
        (HOLLOW, 0.08),
    );
    goods.sizes.outside = Some(outside);
    goods.sizes.wall = Some(wall);
    goods.solid = Some(PI / 4.0 * outside * outside / area);
    goods.density = Some(STEEL);
    goods
}

/// Pipe by nominal size and schedule: outside and wall, in (ASME B36.10M).
pub fn pipe(random: &mut Random) -> Goods {
    let (nominal, called, outside, forty, eighty) = random.pick(&[
        (1.0, "1", 1.315, 0.133, 0.179),
        (1.5, "1-1/2", 1.9, 0.145, 0.2),
        (2.0, "2", 2.375, 0.154, 0.218),
        (3.0, "3", 3.5, 0.216, 0.3),
        (4.0, "4", 4.5, 0.237, 0.337),
        (6.0, "6", 6.625, 0.28, 0.432),
        (8.0, "8", 8.625, 0.322, 0.5),
        (10.0, "10", 10.75, 0.365, 0.594),
    ]);
    let (schedule, wall) = random.pick(&[("40", forty), ("80", eighty)]);
    let name = match random.whole(0, 2) {
        0 => format!("Pipe {called}\" SCH {schedule}"),
        1 => format!("NPS {called} SCH {schedule} carbon steel pipe"),
        _ => format!("{called} in sch {schedule} pipe A53"),
    };
    let area = PI * (outside - wall) * wall * IN * IN;
    let mut goods = long(
        Family::Pipe,
        random,
        true,
        &name,
        area * STEEL,
        (PIPE, PIPE),
    );
    goods.solid = Some(PI / 4.0 * (outside * IN).powi(2) / area);
    goods.nominal = Some((nominal - wall) / (outside - wall));
    goods
}

/// Limits of hot-rolled bar, either way of the size, m (EN 10060 and EN 10058, from memory).
fn bar_limit(size: f64) -> f64 {
    let steps = [
        (0.015, 0.4e-3),
        (0.025, 0.5e-3),
        (0.035, 0.6e-3),
        (0.05, 0.8e-3),
        (0.08, 1.0e-3),
    ];
    let step = steps.iter().find(|(up_to, _)| size <= *up_to);
    step.map_or(1.3e-3, |(_, limit)| *limit)
}

pub fn bar(random: &mut Random, us: bool) -> Goods {
    let size = if us {
        random.pick(&[0.5, 0.75, 1.0, 1.5, 2.0, 3.0]) * IN
    } else {
        random.pick(&[12.0, 16.0, 20.0, 25.0, 30.0, 40.0, 50.0, 60.0, 80.0]) / 1e3
    };
    let limit = 2.0 * bar_limit(size) / size;
    let kind = random.whole(0, 2);
    let (name, area) = match kind {
        0 => ("Round bar", PI / 4.0 * size * size),
        1 => ("Square bar", size * size),
        _ => ("Flat bar", size * size * 5.0),
    };
    let mut goods = long(Family::Bar, random, us, name, area * STEEL, (limit, limit));
    goods.pieces = random.whole(1, 80);
    goods.material = random.pick(&["steel", "carbon steel", "mild steel"]);
    goods.off *= random.about_one(GRADES);
    goods.density = Some(STEEL);
    // The name must not have a figure that reads as a size: sizes stand in their columns.
    goods.description = name.to_string();
    goods.sizes.length = goods.long_m;
    match kind {
        0 => goods.sizes.outside = Some(size),
        1 => (goods.sizes.width, goods.sizes.height) = (Some(size), Some(size)),
        _ => (goods.sizes.width, goods.sizes.height) = (Some(size * 5.0), Some(size)),
    }
    goods
}

/// ASTM A615: not more than 6 % under; EN 10080 and BS 4449: +-4.5 %, 6 % up to 8 mm (from memory).
pub fn rebar(random: &mut Random, us: bool) -> Goods {
    let family = Family::Rebar;
    let mut goods = if us {
        let (number, pounds) = random.pick(&[
            (3, 0.376),
            (4, 0.668),
            (5, 1.043),
            (6, 1.502),
            (8, 2.67),
            (9, 3.4),
            (11, 5.313),
        ]);
        let name = random.pick(&["rebar", "rebar Gr 60", "deformed bar"]);
        long(
            family,
            random,
            us,
            &format!("#{number} {name}"),
            pounds * LB / FT,
            (0.06, 0.03),
        )
    } else {
        let mm = random.pick(&[8.0, 10.0, 12.0, 16.0, 20.0, 25.0, 32.0]);
        let limit = if mm <= 8.0 { 0.06 } else { 0.045 };
        let kg_m = PI / 4.0 * (mm / 1e3) * (mm / 1e3) * STEEL;
        long(
            family,
            random,
            us,
            &format!("Rebar {mm} mm B500B"),
            kg_m,
            (limit, limit),
        )
    };
    goods.pieces = random.whole(10, 250);
    goods
}

/// kg/m (EN 13674-1, AREMA; trade tables); +-1 % (EN 13674-1 profile limits, from memory).
pub fn rail(random: &mut Random, us: bool) -> Goods {
    let (name, kg_m) = if us {
        random.pick(&[
            ("Rail 115RE", 56.8),
            ("136RE rail", 67.42),
            ("Rail 132RE", 65.33),
        ])
    } else {
        random.pick(&[
            ("Rail 60E1", 60.21),
            ("Rail 54E1", 54.77),
            ("49E1 rail", 49.39),
        ])
    };
    long(Family::Rail, random, us, name, kg_m, (0.01, 0.01))
}
