//! Box and plate: `length x width x height`, each size in full (sensitivity 1).

use super::{NoSolid, Solid, made, need, term};
use crate::understand::Sizes;

pub(super) fn block(shape: &'static str, sizes: &Sizes) -> Result<Solid, NoSolid> {
    let length = need(sizes.length, "length")?;
    let width = need(sizes.width, "width")?;
    let height = need(
        sizes.height,
        if shape == "plate" {
            "thickness"
        } else {
            "height"
        },
    )?;
    let (thin, formula) = if shape == "plate" {
        ("thickness", "length x width x thickness")
    } else {
        ("height", "length x width x height")
    };
    Ok(made(
        shape,
        formula,
        length.length.m() * width.length.m() * height.length.m(),
        vec![
            term("length", length, 1.0),
            term("width", width, 1.0),
            term(thin, height, 1.0),
        ],
        [length.length, width.length, height.length],
    ))
}

#[cfg(test)]
mod tests {
    use super::super::testing::inches;
    use super::super::{NoSolid, solid};
    use crate::estimate::details::Details;
    use crate::understand::Sizes;

    #[test]
    fn a_plate_of_the_handbook() {
        // AISC Manual: plate 1/2 x 48 x 96 in at 490 lb/ft3 weighs 653 lb.
        let sizes = Sizes {
            length: inches(96.0),
            width: inches(48.0),
            height: inches(0.5),
            ..Sizes::default()
        };
        let plate = solid("plate", &sizes, &Details::default()).expect("a plate");
        let pounds = plate.volume.m3() / 0.3048f64.powi(3) * 490.0;
        assert!((pounds - 653.3).abs() < 0.1, "{pounds}");
    }

    #[test]
    fn what_is_missing_is_named() {
        let sizes = Sizes {
            length: inches(96.0),
            width: inches(48.0),
            ..Sizes::default()
        };
        assert_eq!(
            solid("plate", &sizes, &Details::default()),
            Err(NoSolid::Missing("thickness"))
        );
    }
}
