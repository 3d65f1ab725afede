//! The slips of the contract, made by a supplier who has the right goods and writes something else.

use super::goods::{Family, Goods};
use super::list::{Layout, Written};
use super::metal::FT;
use super::random::Random;
use crate::helper::{IN, LB};

pub const KINDS: [&str; 14] = [
    "decimal",
    "digits",
    "kg-lb",
    "line-for-piece",
    "material",
    "missing",
    "net-for-gross",
    "nominal-size",
    "per-length",
    "piece-for-line",
    "quantity",
    "size-unit",
    "solid-for-hollow",
    "ton-scale",
];

/// What the supplier means to write, kg: of the line or of a piece, net or gross as the heading says; half of them weigh, the
/// others write what their books say, which for wood is a weighing too (common practice, no source).
pub fn meant(goods: &Goods, layout: Layout, random: &mut Random) -> f64 {
    // A trade scale is right within some tenths of a percent (NIST Handbook 44, from memory).
    let weighed = goods.off * random.about_one(0.003);
    let by_books = !goods.family.is_wood() && !goods.family.is_envelope() && random.chance(0.5);
    let net = goods.book_kg * if by_books { 1.0 } else { weighed };
    let piece = net + if layout.gross { goods.tare_kg } else { 0.0 };
    piece
        * if layout.each {
            1.0
        } else {
            f64::from(goods.pieces)
        }
}

/// Every kind of slip that can befall the goods in that layout.
pub fn possible(goods: &Goods, layout: Layout) -> Vec<&'static str> {
    let several = goods.pieces > 1;
    let is = |kind: &str| match kind {
        "line-for-piece" => several,
        "piece-for-line" => several && !layout.each,
        "material" => other_density(goods).is_some(),
        "net-for-gross" => goods.tare_kg > 0.0,
        "nominal-size" => goods
            .nominal
            .is_some_and(|nominal| (nominal - 1.0).abs() > 0.1),
        "per-length" => goods.long_m.is_some_and(|length| length > 2.0),
        "size-unit" => goods.density.is_some() && !layout.us,
        "solid-for-hollow" => goods.solid.is_some(),
        // A name that ends in its own figures is not followed by a count.
        "quantity" => {
            goods.long_m.is_none() && goods.family != Family::Bag && goods.family != Family::Cable
        }
        _ => true,
    };
    KINDS.into_iter().filter(|kind| is(kind)).collect()
}

/// The line with the slip.
pub fn slipped(kind: &str, goods: Goods, layout: Layout, random: &mut Random) -> Written {
    let meant = meant(&goods, layout, random);
    let pieces = f64::from(goods.pieces);
    let ratio = if layout.us { 1.0 / LB } else { LB };
    let figure = layout.figure(meant);
    let mut written = Written::clean(goods, layout);
    let goods = &written.goods;
    let in_total = if layout.each { 1.0 } else { pieces };
    let kg = match kind {
        "kg-lb" => meant / ratio,
        "piece-for-line" => meant / pieces,
        "line-for-piece" => meant * pieces,
        "per-length" => {
            let unit = if layout.us { FT } else { 1.0 };
            meant / in_total / (goods.long_m.unwrap_or(unit) / unit)
        }
        "decimal" => meant * random.pick(&[0.1, 0.1, 10.0, 10.0, 0.01, 100.0]),
        "solid-for-hollow" => meant * goods.solid.unwrap_or(1.0),
        "nominal-size" => meant * goods.nominal.unwrap_or(1.0),
        "material" => meant * other_density(goods).unwrap_or(1.0),
        "net-for-gross" if layout.gross => meant - goods.tare_kg * in_total,
        "net-for-gross" => meant + goods.tare_kg * in_total,
        _ => meant,
    };
    written.weight = layout.figure(kg).to_string();
    match kind {
        "digits" => written.weight = mistyped(&figure.to_string(), random),
        "ton-scale" => {
            let ton = if layout.us { 2_000.0 } else { 1_000.0 };
            written.weight = format!("{:.3}", figure / ton);
        }
        "missing" => written.weight = random.pick(&["", "TBA", "0", "n/a"]).to_string(),
        "quantity" => {
            let other = other_count(written.goods.pieces, random);
            written
                .goods
                .description
                .push_str(&format!(", {other} pcs"));
            let change = f64::from(other) / pieces;
            written.weight = layout.figure(meant * change).to_string();
        }
        "size-unit" => {
            // Centimetres, inches or metres under a heading of millimetres.
            let unit = random.pick(&[0.01, IN, 1.0]);
            let at_face = |size: Option<f64>| size.map(|size| size / unit * 1e-3);
            let sizes = written.sizes;
            written.sizes.length = at_face(sizes.length);
            written.sizes.width = at_face(sizes.width);
            written.sizes.height = at_face(sizes.height);
            written.sizes.outside = at_face(sizes.outside);
            written.sizes.inside = at_face(sizes.inside);
            written.sizes.wall = at_face(sizes.wall);
        }
        _ => {}
    }
    written
}

/// Density of the material that the weight was worked out with instead, as a factor (kg/m3, EN 1991-1-1 and trade tables,
/// from memory).
fn other_density(goods: &Goods) -> Option<f64> {
    let density = goods.density?;
    let other = match goods.family {
        Family::Concrete | Family::ConcretePipe => 1_750.0,
        Family::NonFerrous if density < 3_000.0 => 7_850.0,
        Family::Plate | Family::Sheet | Family::Bar | Family::RoundTube | Family::NonFerrous => {
            2_700.0
        }
        _ => return None,
    };
    Some(other / density)
}

/// Another number of pieces than the column's, at least a third off.
fn other_count(pieces: u32, random: &mut Random) -> u32 {
    let more = pieces + random.whole(pieces.div_ceil(2), pieces * 2);
    let fewer = (pieces / 2).max(1);
    if pieces > 3 && random.chance(0.5) {
        fewer
    } else {
        more
    }
}

/// Two neighbours exchanged, one digit dropped or one typed twice.
fn mistyped(figure: &str, random: &mut Random) -> String {
    let signs: Vec<char> = figure.chars().collect();
    let digits: Vec<usize> = (0..signs.len())
        .filter(|at| signs[*at].is_ascii_digit())
        .collect();
    loop {
        let mut signs = signs.clone();
        let at = random.pick(&digits);
        match random.whole(0, 2) {
            0 if at + 1 < signs.len() && signs[at + 1].is_ascii_digit() => signs.swap(at, at + 1),
            1 if digits.len() > 1 => drop(signs.remove(at)),
            2 => signs.insert(at, signs[at]),
            _ => continue,
        }
        let text: String = signs.into_iter().collect();
        if text != figure && text.parse::<f64>().is_ok_and(|value| value > 0.0) {
            return text;
        }
    }
}
