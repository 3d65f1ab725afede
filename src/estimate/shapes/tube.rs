//! Rectangular tube: `(2 wall (width + height - 2 wall) - 2.575 wall^2) x length`, corners rounded to twice the wall outside
//! (the rule that EN 10210-2 and the AISC tables agree with within 0.1 %; sharp corners weigh 3 to 9 % too much).

use super::{NoSolid, Solid, made, need, term};
use crate::understand::Sizes;

/// Four rounded corners, outside radius twice the wall and inside radius once: area lost, in squares of the wall.
const CORNERS: f64 = 2.575;

pub(super) fn tube(sizes: &Sizes) -> Result<Solid, NoSolid> {
    let length = need(sizes.length, "length")?;
    let width = need(sizes.width, "width")?;
    let height = need(sizes.height, "height")?;
    let wall = need(sizes.wall, "wall")?;
    let (l, w, h, t) = (
        length.length.m(),
        width.length.m(),
        height.length.m(),
        wall.length.m(),
    );
    if 2.0 * t > w.min(h) {
        return Err(NoSolid::Impossible(
            "the wall is more than half of the smaller side".to_string(),
        ));
    }
    let area = 2.0 * t * (w + h - 2.0 * t) - CORNERS * t * t;
    let solid = made(
        "rectangular tube",
        "(2 x wall x (width + height - 2 x wall) - 2.575 x wall^2) x length",
        area * l,
        vec![
            term("width", width, 2.0 * t * w / area),
            term("height", height, 2.0 * t * h / area),
            term(
                "wall",
                wall,
                (2.0 * t * (w + h - 4.0 * t) - 2.0 * CORNERS * t * t) / area,
            ),
            term("length", length, 1.0),
        ],
        [length.length, width.length, height.length],
    );
    // A maker may round less: sharp corners add up to the area taken off.
    Ok(solid
        .hollow_in(l * w * h)
        .biased(0.0, CORNERS * t * t / area / 2.0))
}

#[cfg(test)]
mod tests {
    use super::super::solid;
    use super::super::testing::inches;
    use crate::estimate::details::Details;
    use crate::understand::Sizes;

    #[test]
    fn a_hollow_section_of_the_tables() {
        // AISC shapes database: HSS6x4x1/4 weighs 15.62 lb/ft (nominal wall 0.25 in, rounded corners).
        let sizes = Sizes {
            length: inches(12.0),
            width: inches(4.0),
            height: inches(6.0),
            wall: inches(0.25),
            ..Sizes::default()
        };
        let tube = solid("rectangular tube", &sizes, &Details::default()).expect("a tube");
        let pounds = tube.volume.m3() / 0.3048f64.powi(3) * 490.0;
        assert!((pounds - 15.62).abs() < 0.02, "{pounds}");
    }
}
