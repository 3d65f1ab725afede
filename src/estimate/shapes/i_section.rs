//! I-section by its four sizes: `(2 flange x flange thickness + (depth - 2 flange thickness) x web) x length`, sharp-cornered.

use super::{NoSolid, Solid, term};
use crate::understand::Size1;
use crate::units::Volume;

/// Published masses exceed the sharp-cornered rule by 0.5 to 6.4 % (root fillets): AISC shapes database, EN 10365.
const FILLETS: f64 = 0.064;

/// An I-section of depth, flange width, web and flange thickness.
///
/// # Errors
/// When the flanges are thicker than the depth or the web is wider than the flange.
pub fn i_section(
    length: Size1,
    depth: Size1,
    flange: Size1,
    web: Size1,
    flange_thickness: Size1,
) -> Result<Solid, NoSolid> {
    let (l, h, b, s, t) = (
        length.length.m(),
        depth.length.m(),
        flange.length.m(),
        web.length.m(),
        flange_thickness.length.m(),
    );
    if 2.0 * t >= h || s > b {
        return Err(NoSolid::Impossible(
            "flanges thicker than the depth, or a web wider than the flange".to_string(),
        ));
    }
    let area = 2.0 * b * t + (h - 2.0 * t) * s;
    Ok(Solid {
        shape: "i-section",
        volume: Volume::from_m3(area * l),
        filled: Volume::from_m3(l * h * b),
        solid: false,
        terms: vec![
            term("depth", depth, h * s / area),
            term("flange", flange, 2.0 * b * t / area),
            term("web", web, (h - 2.0 * t) * s / area),
            term(
                "flange thickness",
                flange_thickness,
                2.0 * t * (b - s) / area,
            ),
            term("length", length, 1.0),
        ],
        outline: [length.length, flange.length, depth.length],
        formula: "(2 x flange x flange thickness + (depth - 2 x flange thickness) x web) x length",
        bias: (0.0, FILLETS),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::Length;

    #[test]
    fn sections_of_the_tables() {
        let mm = |value: f64| Size1 {
            length: Length::from_mm(value),
            half_digit: Length::ZERO,
            fine: true,
        };
        // EN 10365: HEA 200, 190 x 200 x 6.5 x 10 mm, 42.3 kg/m; without fillets 40.1 kg/m.
        let hea =
            i_section(mm(1_000.0), mm(190.0), mm(200.0), mm(6.5), mm(10.0)).expect("a section");
        let mass = hea.volume.m3() * 7_850.0;
        assert!(
            (mass - 40.1).abs() < 0.1 && mass < 42.3 && mass * (1.0 + FILLETS) > 42.3,
            "{mass}"
        );
        // AISC: W12x26, 12.2 x 6.49 x 0.23 x 0.38 in, 26 lb/ft; without fillets 25.74.
        let inch = |value: f64| mm(value * 25.4);
        let w = i_section(inch(12.0), inch(12.2), inch(6.49), inch(0.23), inch(0.38))
            .expect("a section");
        let pounds = w.volume.m3() / 0.3048f64.powi(3) * 490.0;
        assert!((pounds - 25.74).abs() < 0.05, "{pounds}");
    }
}
