//! Wood: dry mass by specific gravity, water by moisture content (USDA Wood Handbook FPL-GTR-282, chapter 4).

use super::flat::flat;
use super::goods::{Family, Goods};
use super::metal::FT;
use super::random::Random;
use crate::helper::IN;

/// Water, kg/m3.
const WATER: f64 = 1_000.0;
/// Specific gravity varies by 10 % from piece to piece of a species (Wood Handbook, chapter 5, from memory) ...
const PIECES: f64 = 0.10;
/// ... and the means of lots from different mills and stands by half of that (common practice, no source).
const LOTS: f64 = 0.05;
/// Planed sections of a lot against the standard's size (common practice, no source).
const PLANING: f64 = 0.01;

/// A species: as suppliers write it, basic specific gravity, moisture of green heartwood and sapwood in parts of the dry mass
/// (Wood Handbook Table 4-1), least and most sapwood in a lot (common practice, no source), part of its lumber that is
/// sold undried where nothing is said (common practice, no source).
struct Species {
    name: &'static str,
    basic: f64,
    heart: f64,
    sap: f64,
    sapwood: (f64, f64),
    undried: f64,
}

/// Basic specific gravities: Wood Handbook Table 5-3a; of the mixtures from the ovendry ones of the design tables (0.42 and
/// 0.43, from memory) by G / (1 + 0.265 G).
const SPECIES: [Species; 6] = [
    Species {
        name: "Douglas fir",
        basic: 0.45,
        heart: 0.37,
        sap: 1.15,
        sapwood: (0.1, 0.35),
        undried: 0.35,
    },
    Species {
        name: "southern pine",
        basic: 0.47,
        heart: 0.33,
        sap: 1.10,
        sapwood: (0.5, 0.9),
        undried: 0.1,
    },
    Species {
        name: "SPF",
        basic: 0.378,
        heart: 0.45,
        sap: 1.4,
        sapwood: (0.3, 0.6),
        undried: 0.05,
    },
    Species {
        name: "hem-fir",
        basic: 0.386,
        heart: 0.80,
        sap: 1.5,
        sapwood: (0.2, 0.5),
        undried: 0.2,
    },
    Species {
        name: "red oak",
        basic: 0.56,
        heart: 0.80,
        sap: 0.69,
        sapwood: (0.1, 0.4),
        undried: 0.3,
    },
    Species {
        name: "white oak",
        basic: 0.60,
        heart: 0.64,
        sap: 0.78,
        sapwood: (0.1, 0.4),
        undried: 0.3,
    },
];

/// Density at a moisture content, kg/m3, of a basic specific gravity (Wood Handbook Eq. 4-13 and 4-14; above 30 % moisture
/// the volume is the green one).
fn density(basic: f64, moisture: f64) -> f64 {
    WATER * gravity(basic, moisture) * (1.0 + moisture)
}

/// Dry mass over the volume at that moisture.
fn gravity(basic: f64, moisture: f64) -> f64 {
    let below = (1.0 - moisture / 0.30).max(0.0);
    basic / (1.0 - 0.265 * basic * below)
}

/// Moisture of a lot dried to the standard's 19 % at most (PS 20, from memory).
fn dried(random: &mut Random) -> f64 {
    (0.15 + random.normal(0.02)).clamp(0.08, 0.19)
}

/// Moisture of a lot sold undried: that of the tree, less what it lost on the way (common practice, no source: up to a
/// third; average shipping weights lie below clear green wood).
fn undried(random: &mut Random, species: &Species) -> f64 {
    let sapwood = random.between(species.sapwood.0, species.sapwood.1);
    let tree = sapwood * species.sap + (1.0 - sapwood) * species.heart;
    (tree * random.between(0.67, 1.0)).max(0.30)
}

/// Nominal sizes, in, with the dressed ones dry and green (PS 20 American Softwood Lumber Standard).
const SIZES: [(&str, f64, [f64; 2], [f64; 2]); 9] = [
    ("1x6", 6.0, [0.75, 5.5], [0.78125, 5.625]),
    ("2x4", 8.0, [1.5, 3.5], [1.5625, 3.5625]),
    ("2x6", 12.0, [1.5, 5.5], [1.5625, 5.625]),
    ("2x8", 16.0, [1.5, 7.25], [1.5625, 7.5]),
    ("2x10", 20.0, [1.5, 9.25], [1.5625, 9.5]),
    ("2x12", 24.0, [1.5, 11.25], [1.5625, 11.5]),
    ("4x4", 16.0, [3.5, 3.5], [3.5625, 3.5625]),
    ("4x6", 24.0, [3.5, 5.5], [3.5625, 5.625]),
    ("6x6", 36.0, [5.5, 5.5], [5.5, 5.5]),
];

pub fn lumber(family: Family, random: &mut Random) -> Goods {
    // Oak is sold rough by its full size, not dressed.
    if random.chance(0.2) && family != Family::LumberTreated {
        return rough(family, random);
    }
    let softwoods = &SPECIES[..4];
    let species = &softwoods[random.whole(0, 3) as usize];
    let species = if family == Family::LumberTreated {
        &SPECIES[1]
    } else {
        species
    };
    let (name, nominal, dry, green) = random.pick(&SIZES);
    let feet = random.pick(&[8, 10, 12, 14, 16, 20]);
    let lot = species.basic * random.about_one(LOTS);
    let area = |sides: [f64; 2]| sides[0] * sides[1] * IN * IN;
    let timber = name == "6x6";
    let (words, section, lot_density) = match family {
        // Timbers are not dried through: they are sold green.
        Family::LumberDry => {
            let moisture = dried(random);
            (
                random.pick(&["KD", "S-DRY", "kiln dried"]),
                dry,
                density(lot, moisture),
            )
        }
        Family::LumberGreen => {
            let moisture = undried(random, species);
            (
                random.pick(&["green", "S-GRN"]),
                green,
                density(lot, moisture),
            )
        }
        Family::LumberTreated => {
            // Dried and planed before treatment, wet again after it: 25 to 65 % (common practice, no source).
            let before = gravity(lot, dried(random));
            let after = random.between(0.25, 0.65);
            (
                random.pick(&["treated", "pressure treated", "PT"]),
                dry,
                WATER * before * (1.0 + after),
            )
        }
        _ if timber || random.chance(species.undried) => {
            let moisture = undried(random, species);
            ("", green, density(lot, moisture))
        }
        _ => {
            let moisture = dried(random);
            ("", dry, density(lot, moisture))
        }
    };
    let length = f64::from(feet) * FT;
    let pieces = random.whole(4, 220);
    let description = format!("{name}x{feet} {} {words}", species.name);
    let mut goods = Goods::new(
        family,
        description.trim_end(),
        pieces,
        area(section) * length * lot_density,
    );
    goods.off = random.about_one(PIECES / f64::from(pieces).sqrt()) * random.about_one(PLANING);
    goods.nominal = Some(nominal * IN * IN / area(section));
    goods.long_m = Some(length);
    goods
}

/// Oak dunnage, ties and cribbing by full sizes in columns.
fn rough(family: Family, random: &mut Random) -> Goods {
    let species = &SPECIES[random.pick(&[4, 5])];
    let lot = species.basic * random.about_one(LOTS);
    let (words, lot_density) = match family {
        Family::LumberDry => ("kiln dried", density(lot, dried(random))),
        Family::LumberGreen => ("green", density(lot, undried(random, species))),
        _ if random.chance(species.undried) => ("", density(lot, undried(random, species))),
        _ => ("", density(lot, dried(random))),
    };
    let (wide, high) = random.pick(&[(6.0, 2.0), (6.0, 4.0), (6.0, 6.0), (8.0, 6.0), (9.0, 7.0)]);
    let sides = [f64::from(random.whole(4, 16)) * FT, wide * IN, high * IN];
    let name = random.pick(&["board", "beam", "timber"]);
    let mut goods = flat(
        family,
        random,
        &format!("{} {name} {words}", species.name),
        sides,
        lot_density,
        80,
    );
    goods.description = goods.description.trim_end().to_string();
    // Sawn sizes are off by a sixteenth to an eighth of an inch (common practice, no source).
    let sawing = 0.08 * IN / sides[2].min(sides[1]);
    goods.off =
        random.about_one(PIECES / f64::from(goods.pieces).sqrt()) * random.made(sawing, sawing);
    goods.long_m = Some(sides[0]);
    goods.density = None;
    goods
}

/// Boards by association figures, lb/ft2 an inch or kg/m3, with their scatter: species and glue of the mill, limits of
/// thickness (PS 1 and PS 2, from memory), common practice.
pub fn panel(random: &mut Random, us: bool) -> Goods {
    let (name, density, mills) = random.pick(&[
        ("CDX plywood", 577.0, 0.04),
        ("Plywood", 577.0, 0.04),
        ("OSB", 640.0, 0.03),
        ("MDF", 740.0, 0.03),
        ("Particleboard", 690.0, 0.04),
    ]);
    let sides = if us {
        [
            96.0 * IN,
            48.0 * IN,
            random.pick(&[0.375, 0.5, 0.625, 0.75]) * IN,
        ]
    } else {
        let thick = random.pick(&[9.0, 12.0, 15.0, 18.0, 22.0]) / 1e3;
        let (wide, long) = random.pick(&[(1.22, 2.44), (1.25, 2.5)]);
        [long, wide, thick]
    };
    let mut goods = flat(Family::Panel, random, name, sides, density, 90);
    // Short words count as a material in their column alone.
    goods.material = if name.len() <= 3 { name } else { "" };
    let limit = IN / 32.0 / sides[2];
    goods.off = random.about_one(mills) * random.made(limit, limit);
    goods
}
