//! Metal in sheets and plates: sizes in columns times density, with the limits of thickness of the standards.

use super::goods::{Family, Goods, Sizes};
use super::metal::{GRADES, STEEL};
use super::random::Random;
use crate::helper::IN;

/// A flat piece of sizes in columns: length, width, thickness.
pub fn flat(
    family: Family,
    random: &mut Random,
    name: &str,
    sides: [f64; 3],
    density: f64,
    most: u32,
) -> Goods {
    let volume: f64 = sides.iter().product();
    let pieces = random.whole(1, most);
    let mut goods = Goods::new(family, name, pieces, volume * density);
    let [length, width, height] = sides.map(Some);
    goods.sizes = Sizes {
        length,
        width,
        height,
        ..Sizes::default()
    };
    goods.density = Some(density);
    goods
}

/// Hot-rolled plate: at most 0.01 in under (ASTM A6, from memory), over by 3 % (thick) to 10 % (thin) (ASTM A6 Annex A1 and
/// EN 10029, from memory).
pub fn plate(random: &mut Random, us: bool) -> Goods {
    let (sides, name) = if us {
        let thick = random.pick(&[0.25, 0.375, 0.5, 0.75, 1.0, 1.5, 2.0]) * IN;
        let (wide, long) = random.pick(&[
            (48.0, 96.0),
            (48.0, 120.0),
            (60.0, 120.0),
            (96.0, 240.0),
            (24.0, 36.0),
            (12.0, 18.0),
        ]);
        (
            [long * IN, wide * IN, thick],
            random.pick(&["Steel plate A36", "Base plate", "Floor plate, hot rolled"]),
        )
    } else {
        let thick = random.pick(&[6.0, 8.0, 10.0, 12.0, 15.0, 20.0, 25.0, 40.0, 50.0]) / 1e3;
        let (wide, long) = random.pick(&[
            (1.0, 2.0),
            (1.25, 2.5),
            (1.5, 3.0),
            (0.6, 0.6),
            (0.3, 0.45),
            (2.0, 6.0),
        ]);
        (
            [long, wide, thick],
            random.pick(&[
                "Steel plate S275",
                "Base plate",
                "Wear plate",
                "Gusset plate",
            ]),
        )
    };
    let mut goods = flat(Family::Plate, random, name, sides, STEEL, 40);
    goods.material = random.pick(&["steel", "carbon steel", "mild steel"]);
    let thin = (6e-3 / sides[2]).min(1.0);
    goods.off = random.made(0.01 * IN / sides[2], 0.03 + 0.07 * thin) * random.about_one(GRADES);
    goods
}

/// Cold-rolled and coated sheet, 1 to 4 mm: thickness +-8 % at most (EN 10131 and EN 10051, from memory).
pub fn sheet(random: &mut Random, us: bool) -> Goods {
    let sides = if us {
        let thick = random.pick(&[0.06, 0.075, 0.105, 0.135]);
        let (wide, long) = random.pick(&[(36.0, 96.0), (48.0, 96.0), (48.0, 120.0)]);
        [long * IN, wide * IN, thick * IN]
    } else {
        let thick = random.pick(&[1.0, 1.5, 2.0, 3.0, 4.0]);
        let (wide, long) = random.pick(&[(1.0, 2.0), (1.25, 2.5), (1.5, 3.0)]);
        [long, wide, thick / 1e3]
    };
    let name = random.pick(&[
        "Steel sheet, cold rolled",
        "Sheet, galvanised",
        "Steel sheet",
    ]);
    let mut goods = flat(Family::Sheet, random, name, sides, STEEL, 120);
    goods.material = random.pick(&["steel", "carbon steel"]);
    goods.off = random.made(0.08, 0.08) * random.about_one(GRADES);
    goods
}

/// Density of what the supplier's short word may stand for, kg/m3 (Aluminum Association, EN 10088-1 and trade tables, from
/// memory), with limits of thickness as for sheet and plate.
pub fn non_ferrous(random: &mut Random, us: bool) -> Goods {
    let (word, densities): (&str, &[f64]) = random.pick(&[
        (
            "aluminium",
            &[2_700.0, 2_660.0, 2_730.0, 2_710.0, 2_800.0][..],
        ),
        ("aluminium 6082", &[2_700.0, 2_710.0][..]),
        ("stainless steel", &[7_900.0, 8_000.0, 7_700.0][..]),
        ("stainless steel 304", &[7_900.0, 8_000.0][..]),
        ("copper", &[8_930.0, 8_960.0][..]),
        ("brass", &[8_440.0, 8_500.0, 8_530.0][..]),
    ]);
    let density = random.pick(densities);
    let thick = if us {
        random.pick(&[0.125, 0.25, 0.5]) * IN
    } else {
        random.pick(&[3.0, 5.0, 8.0, 12.0]) / 1e3
    };
    let (wide, long) = random.pick(&[(1.0, 2.0), (1.25, 2.5), (0.5, 1.0)]);
    let (wide, long) = if us {
        (
            random.pick(&[24.0, 48.0]) * IN,
            random.pick(&[96.0, 120.0]) * IN,
        )
    } else {
        (wide, long)
    };
    let name = random.pick(&["Sheet", "Plate"]);
    let mut goods = flat(
        Family::NonFerrous,
        random,
        name,
        [long, wide, thick],
        densities[0],
        40,
    );
    goods.material = word;
    goods.off = density / densities[0] * random.made(0.05, 0.05);
    goods
}
