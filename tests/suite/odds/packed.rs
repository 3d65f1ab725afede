//! Goods that come in something: drums, bags, cable on reels; and goods of which only an outline is known.

use super::goods::{Family, Goods, Sizes};
use super::random::Random;
use crate::helper::IN;

/// A US gallon, m3 (231 cubic inches, NIST Handbook 44).
const GALLON: f64 = 231.0 * IN * IN * IN;

/// Liquids, kg/m3: lowest and highest of what the word may stand for (producer data, from memory).
const LIQUIDS: [(&str, f64, f64); 7] = [
    ("water", 998.0, 999.0),
    ("diesel", 820.0, 845.0),
    ("hydraulic oil", 850.0, 885.0),
    ("lubricating oil", 865.0, 900.0),
    ("ethylene glycol", 1_108.0, 1_118.0),
    ("gasoline", 720.0, 775.0),
    ("latex paint", 1_200.0, 1_450.0),
];

/// Steel drums and totes with their tare, kg (drum maker and dealer data), filled to 96 to 100 % (makers leave room for
/// expansion; fill tolerance 1 to 2 %: common practice, no source).
pub fn drum(random: &mut Random) -> Goods {
    let (word, low, high) = random.pick(&LIQUIDS);
    let density = random.between(low, high);
    let (container, gallons, least, most) = random.pick(&[
        ("55 gal steel drum", 55.0, 17.0, 27.0),
        ("208 L steel drum", 55.0, 17.0, 27.0),
        ("275 gal IBC tote", 275.0, 55.0, 65.0),
    ]);
    let mut goods = Goods::new(
        Family::Drum,
        format!("{word}, {container}"),
        random.whole(1, 24),
        density * gallons * GALLON * 0.98,
    );
    goods.off = random.between(0.96, 1.0) / 0.98;
    goods.tare_kg = random.between(least, most);
    goods
}

/// Bags: 1 to 2 % of what stands on them (NIST Handbook 133 and OIML R 87, from memory).
pub fn bag(random: &mut Random, us: bool) -> Goods {
    let (text, kg) = if us {
        random.pick(&[
            ("Portland cement 94 lb bag", 42.64),
            ("Concrete mix 80 lb bag", 36.29),
            ("Sand 50 lb bag", 22.68),
        ])
    } else {
        random.pick(&[
            ("Cement 25 kg bag", 25.0),
            ("Mortar 20 kg bag", 20.0),
            ("Grout 25 kg bags", 25.0),
            ("De-icing salt 25 kg bag", 25.0),
        ])
    };
    let mut goods = Goods::new(Family::Bag, text, random.whole(10, 120), kg);
    goods.off = random.made(0.01, 0.02);
    goods
}

/// Cable by its maker's mass per metre, which is +-5 % (common practice, no source), net of the reel.
pub fn cable(random: &mut Random) -> Goods {
    let (name, kg_m) = random.pick(&[
        ("Power cable 4x35 mm2", 1.95),
        ("Power cable 4x95 mm2", 4.6),
        ("Signal cable 20x1.5 mm2", 0.72),
        ("Control cable 12x2.5", 0.61),
    ]);
    let metres = f64::from(random.whole(2, 20)) * 50.0;
    let text = format!("{name}, {kg_m} kg/m, {metres} m reel");
    let mut goods = Goods::new(Family::Cable, text, random.whole(1, 6), kg_m * metres);
    goods.off = random.made(0.05, 0.05);
    goods
}

fn outline(
    family: Family,
    random: &mut Random,
    us: bool,
    name: &str,
    density: f64,
    fill: (f64, f64),
) -> Goods {
    let grid = if us { 2.0 * IN } else { 0.05 };
    let sides: [f64; 3] = std::array::from_fn(|_| (random.between(0.4, 2.0) / grid).round() * grid);
    let volume: f64 = sides.iter().product();
    let part = random.between(fill.0, fill.1);
    let mut goods = Goods::new(family, name, random.whole(1, 4), volume * density * part);
    let [length, width, height] = sides.map(Some);
    goods.sizes = Sizes {
        length,
        width,
        height,
        ..Sizes::default()
    };
    goods
}

/// Iron castings fill 20 to 60 % of their outline (common practice, no source).
pub fn casting(random: &mut Random, us: bool) -> Goods {
    let name = random.pick(&[
        "Bracket casting",
        "Iron casting, pump body",
        "Bearing housing casting",
    ]);
    let mut goods = outline(Family::Casting, random, us, name, 7_150.0, (0.2, 0.6));
    goods.material = "cast iron";
    goods
}

/// Machines fill 3 to 20 % of their crate's outline (common practice, no source).
pub fn machine(random: &mut Random, us: bool) -> Goods {
    let name = random.pick(&[
        "Centrifugal pump, crated",
        "Compressor, crated",
        "Gearbox, crated",
        "Lathe, crated",
    ]);
    outline(Family::Machine, random, us, name, 7_850.0, (0.03, 0.2))
}
