//! Concrete, stone and glass: volume times density.

use super::flat::flat;
use super::goods::{Family, Goods, Sizes};
use super::metal::FT;
use super::random::Random;
use crate::helper::IN;
use std::f64::consts::PI;

/// Reinforced concrete, kg/m3 (150 lb/ft3), and how mixes and steel of works differ (EN 206: normal-weight concrete is 2,000 to
/// 2,600; works with crushed granite or limestone differ by some percent: common practice, no source).
const CONCRETE: f64 = 2_403.0;
const MIXES: f64 = 0.02;
/// Limits of a precast piece's mass by its sizes (common practice, no source).
const PRECAST: f64 = 0.04;

pub fn concrete(random: &mut Random, us: bool) -> Goods {
    let (name, sides) = random.pick(&[
        ("Precast concrete slab", [2.4, 1.2, 0.15]),
        ("Reinforced concrete slab", [3.0, 1.5, 0.2]),
        ("Concrete block, solid", [1.2, 0.6, 0.6]),
        ("Concrete wall panel", [3.0, 2.4, 0.15]),
        ("Precast concrete beam", [6.0, 0.3, 0.45]),
        ("Reinforced concrete plank", [4.8, 1.2, 0.2]),
        ("Concrete barrier block, solid", [1.8, 0.6, 0.6]),
    ]);
    let grid = if us { 2.0 * IN } else { 0.05 };
    let sides = sides.map(|side| (side * random.between(0.6, 1.4) / grid).round().max(2.0) * grid);
    let mut goods = flat(Family::Concrete, random, name, sides, CONCRETE, 20);
    goods.material = random.pick(&["concrete", "reinforced concrete"]);
    goods.off = random.about_one(MIXES) * random.made(PRECAST, PRECAST);
    goods
}

/// Round pipe of wall B (inside / 12 + 1 in, ASTM C76) by name, or rings and pipes by sizes in columns. Joints add 1.4 to 2.6 %
/// to pipe (a producer's figures against the rule).
pub fn concrete_pipe(random: &mut Random, us: bool) -> Goods {
    let joint = random.between(0.0, 0.026);
    if us && random.chance(0.5) {
        let inside = random.pick(&[18.0, 24.0, 30.0, 36.0, 42.0, 48.0]);
        let wall = inside / 12.0 + 1.0;
        let volume = PI * (inside + wall) * wall * IN * IN * 8.0 * FT;
        let mut goods = Goods::new(
            Family::ConcretePipe,
            format!("RCP {inside} in wall B"),
            random.whole(1, 12),
            volume * CONCRETE,
        );
        goods.sizes.length = Some(8.0 * FT);
        goods.off = (1.0 + joint) * random.about_one(MIXES) * random.made(PRECAST, PRECAST);
        goods.long_m = Some(8.0 * FT);
        goods.solid = Some((inside + 2.0 * wall).powi(2) / (4.0 * (inside + wall) * wall));
        return goods;
    }
    let ring = random.chance(0.4);
    let (inside, wall) = if us {
        (
            random.pick(&[24.0, 36.0, 48.0, 60.0]) * IN,
            random.pick(&[4.0, 5.0, 6.0]) * IN,
        )
    } else {
        (
            random.pick(&[0.6, 0.8, 1.0, 1.2]),
            random.pick(&[0.1, 0.12, 0.15]),
        )
    };
    let (name, length, joint) = match (ring, us) {
        (true, true) => ("Manhole ring, concrete", 2.0 * FT, 0.0),
        (true, false) => ("Manhole ring, concrete", 0.5, 0.0),
        (false, true) => ("Reinforced concrete pipe", 8.0 * FT, joint),
        (false, false) => ("Reinforced concrete pipe", 2.5, joint),
    };
    let volume = PI * (inside + wall) * wall * length;
    let mut goods = Goods::new(
        Family::ConcretePipe,
        name,
        random.whole(1, 16),
        volume * CONCRETE,
    );
    goods.material = "reinforced concrete";
    let outside = inside + 2.0 * wall;
    goods.sizes = Sizes {
        length: Some(length),
        outside: Some(outside),
        inside: Some(inside),
        ..Sizes::default()
    };
    goods.off = (1.0 + joint) * random.about_one(MIXES) * random.made(PRECAST, PRECAST);
    goods.solid = Some(PI / 4.0 * outside * outside * length / volume);
    goods.density = Some(CONCRETE);
    goods
}

/// Sawn stone: density by quarry (EN 1936 figures of trade sheets, from memory), sawing limits +-3 % (common practice, no source).
pub fn stone(random: &mut Random, us: bool) -> Goods {
    let (word, density, quarries) = random.pick(&[
        ("granite", 2_680.0, 0.015),
        ("marble", 2_710.0, 0.01),
        ("limestone", 2_450.0, 0.05),
        ("sandstone", 2_300.0, 0.05),
        ("slate", 2_780.0, 0.015),
    ]);
    let grid = if us { 2.0 * IN } else { 0.05 };
    let (name, sides) = random.pick(&[
        ("block", [1.2, 0.8, 0.6]),
        ("kerb", [1.0, 0.3, 0.15]),
        ("slab", [2.0, 1.0, 0.1]),
    ]);
    let sides = sides.map(|side| (side * random.between(0.7, 1.4) / grid).round().max(1.0) * grid);
    let mut goods = flat(
        Family::Stone,
        random,
        &format!("{word} {name}"),
        sides,
        density,
        20,
    );
    goods.material = word;
    goods.off = random.about_one(quarries) * random.made(0.03, 0.03);
    goods
}

/// Float glass: 2,500 kg/m3 and limits of thickness of +-0.2 mm, from 8 mm on 0.3 mm (EN 572, from memory).
pub fn glass(random: &mut Random, us: bool) -> Goods {
    let thick = random.pick(&[4.0, 6.0, 8.0, 10.0, 12.0, 19.0]) / 1e3;
    let limit = if thick < 8e-3 { 0.2e-3 } else { 0.3e-3 };
    let sides = if us {
        [
            random.pick(&[72.0, 96.0]) * IN,
            random.pick(&[36.0, 48.0]) * IN,
            thick,
        ]
    } else {
        [
            random.pick(&[2.0, 2.55, 3.21]),
            random.pick(&[1.0, 1.605, 2.25]),
            thick,
        ]
    };
    let name = random.pick(&["Float glass", "Toughened glass pane", "Glass sheet, clear"]);
    let mut goods = flat(Family::Glass, random, name, sides, 2_500.0, 30);
    goods.material = "glass";
    goods.off = random.made(limit / thick, limit / thick) * random.about_one(0.003);
    goods
}
