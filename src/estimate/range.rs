//! The range of an estimate: first-order, in logarithms, upper and lower side kept apart (JCGM 100 "GUM", 5.1.2).

use crate::tables::materials::Material;
use crate::understand::Size1;

/// How far a size may be off at most, as a part of it, however coarsely it was written.
const COARSE: f64 = 0.05;
/// The same for a nominal product size or one with three or more significant figures.
const FINE: f64 = 0.005;

/// One source of doubt: relative standard uncertainties below and above.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Doubt {
    /// Below.
    pub low: f64,
    /// Above.
    pub high: f64,
}

impl Doubt {
    /// The same on both sides.
    pub fn both(u: f64) -> Doubt {
        Doubt { low: u, high: u }
    }

    /// A table's band read as two standard deviations: half of the logarithm of each side.
    pub fn of_band(low: f64, typical: f64, high: f64) -> Doubt {
        Doubt {
            low: (typical / low).ln().max(0.0) / 2.0,
            high: (high / typical).ln().max(0.0) / 2.0,
        }
    }

    /// The density band of a material.
    pub fn of_material(material: &Material) -> Doubt {
        Doubt::of_band(
            material.low.kg_m3(),
            material.density.kg_m3(),
            material.high.kg_m3(),
        )
    }

    /// Half of a making tolerance, each side its own.
    pub fn of_making(low: f64, high: f64) -> Doubt {
        Doubt {
            low: low / 2.0,
            high: high / 2.0,
        }
    }

    /// A size with its sensitivity `s = d ln V / d ln x`: `|s| a / (x sqrt 3)`, `a` half of the last stated digit.
    pub fn of_size(size: Size1, sensitivity: f64, nominal: bool) -> Doubt {
        let x = size.length.m();
        let part = (size.half_digit.m() / x).min(if nominal || size.fine { FINE } else { COARSE });
        Doubt::both((sensitivity * part / 3f64.sqrt()).abs())
    }
}

/// Independent doubts together.
pub fn together(doubts: &[Doubt]) -> Doubt {
    let root = |side: fn(&Doubt) -> f64| {
        doubts
            .iter()
            .map(|doubt| side(doubt).powi(2))
            .sum::<f64>()
            .sqrt()
    };
    Doubt {
        low: root(|doubt| doubt.low),
        high: root(|doubt| doubt.high),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::units::{Length, Mass, MassRange};

    #[test]
    fn sides_stay_apart_and_add_in_squares() {
        let doubt = together(&[
            Doubt {
                low: 0.03,
                high: 0.0,
            },
            Doubt {
                low: 0.04,
                high: 0.02,
            },
        ]);
        assert!((doubt.low - 0.05).abs() < 1e-12 && (doubt.high - 0.02).abs() < 1e-12);
        let range = MassRange::around(Mass::from_kg(100.0), doubt.low, doubt.high);
        assert!((range.low.kg() - 100.0 * (-0.1f64).exp()).abs() < 1e-9);
        assert!((range.high.kg() - 100.0 * 0.04f64.exp()).abs() < 1e-9);
    }

    #[test]
    fn a_size_is_as_doubtful_as_it_was_written() {
        let size = |mm: f64, fine: bool| Size1 {
            length: Length::from_mm(mm),
            half_digit: Length::from_mm(0.5),
            fine,
        };
        let close = |a: f64, b: f64| assert!((a - b).abs() < 1e-12, "{a} {b}");
        close(
            Doubt::of_size(size(6_000.0, true), 1.0, false).low,
            0.5 / 6_000.0 / 3f64.sqrt(),
        );
        close(
            Doubt::of_size(size(5.0, false), 1.0, false).low,
            0.05 / 3f64.sqrt(),
        );
        close(
            Doubt::of_size(size(5.0, false), 1.0, true).low,
            0.005 / 3f64.sqrt(),
        );
    }
}
