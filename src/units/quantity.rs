//! The quantities themselves. Operators exist only where physics does.

use serde::{Deserialize, Serialize};
use std::ops::{Add, AddAssign, Div, Mul, Sub};

/// Kilograms in one avoirdupois pound. Exact (international yard and pound agreement, 1959; NIST Handbook 44, App. C).
pub const KG_PER_LB: f64 = 0.453_592_37;
/// Metres in one inch. Exact (as above).
pub const M_PER_IN: f64 = 0.0254;
/// Pounds in one short ton. Exact (NIST Handbook 44, App. C).
pub const LB_PER_SHORT_TON: f64 = 2_000.0;
/// Pounds in one long ton. Exact (NIST Handbook 44, App. C).
pub const LB_PER_LONG_TON: f64 = 2_240.0;
/// Cubic metres in one US gallon of 231 cubic inches. Exact (NIST Handbook 44, App. C).
pub const M3_PER_US_GALLON: f64 = 231.0 * M_PER_IN * M_PER_IN * M_PER_IN;

macro_rules! quantity {
    ($(#[$doc:meta])* $name:ident, $unit:ident, $from:ident) => {
        $(#[$doc])*
        #[derive(Clone, Copy, Debug, Default, PartialEq, PartialOrd, Serialize, Deserialize)]
        #[serde(transparent)]
        pub struct $name(f64);

        impl $name {
            /// Nothing of it.
            pub const ZERO: $name = $name(0.0);

            /// From the SI unit.
            pub const fn $from(value: f64) -> $name {
                $name(value)
            }

            /// In the SI unit.
            pub const fn $unit(self) -> f64 {
                self.0
            }

            /// The larger of two.
            pub fn max(self, other: $name) -> $name {
                $name(self.0.max(other.0))
            }

            /// The smaller of two.
            pub fn min(self, other: $name) -> $name {
                $name(self.0.min(other.0))
            }

            /// `self <= limit`, an exact tie in floating point included ([`crate::units::TIE`]).
            pub fn fits(self, limit: $name) -> bool {
                crate::units::at_most(self.0, limit.0)
            }
        }

        impl Add for $name {
            type Output = $name;
            fn add(self, other: $name) -> $name {
                $name(self.0 + other.0)
            }
        }

        impl AddAssign for $name {
            fn add_assign(&mut self, other: $name) {
                self.0 += other.0;
            }
        }

        impl Sub for $name {
            type Output = $name;
            fn sub(self, other: $name) -> $name {
                $name(self.0 - other.0)
            }
        }

        impl Mul<f64> for $name {
            type Output = $name;
            fn mul(self, factor: f64) -> $name {
                $name(self.0 * factor)
            }
        }

        impl Div<f64> for $name {
            type Output = $name;
            fn div(self, divisor: f64) -> $name {
                $name(self.0 / divisor)
            }
        }

        impl Div for $name {
            type Output = f64;
            fn div(self, other: $name) -> f64 {
                self.0 / other.0
            }
        }

        impl std::iter::Sum for $name {
            fn sum<I: Iterator<Item = $name>>(items: I) -> $name {
                $name(items.map(|item| item.0).sum())
            }
        }
    };
}

quantity!(
    /// Mass. Held in kilograms.
    Mass, kg, from_kg
);
quantity!(
    /// Length. Held in metres.
    Length, m, from_m
);
quantity!(
    /// Volume. Held in cubic metres.
    Volume, m3, from_m3
);
quantity!(
    /// Density. Held in kilograms per cubic metre.
    Density, kg_m3, from_kg_m3
);

impl Mass {
    /// From avoirdupois pounds.
    pub fn from_lb(lb: f64) -> Mass {
        Mass::from_kg(lb * KG_PER_LB)
    }

    /// In avoirdupois pounds.
    pub fn lb(self) -> f64 {
        self.kg() / KG_PER_LB
    }
}

impl Length {
    /// From inches.
    pub fn from_in(inches: f64) -> Length {
        Length::from_m(inches * M_PER_IN)
    }

    /// From millimetres.
    pub fn from_mm(mm: f64) -> Length {
        Length::from_m(mm / 1_000.0)
    }

    /// In inches.
    pub fn inches(self) -> f64 {
        self.m() / M_PER_IN
    }

    /// In millimetres.
    pub fn mm(self) -> f64 {
        self.m() * 1_000.0
    }
}

impl Mul<Volume> for Density {
    type Output = Mass;
    fn mul(self, volume: Volume) -> Mass {
        Mass::from_kg(self.kg_m3() * volume.m3())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn exact_factors() {
        // NIST Handbook 44, Appendix C: 1 ft3 = 28.316846592 L, 1 US gal = 3.785411784 L, 1 long ton = 1016.0469088 kg.
        assert!((M3_PER_US_GALLON * 1e3 - 3.785_411_784).abs() < 1e-12);
        assert!((Mass::from_lb(LB_PER_LONG_TON).kg() - 1_016.046_908_8).abs() < 1e-9);
        assert!((Mass::from_lb(LB_PER_SHORT_TON).kg() - 907.184_74).abs() < 1e-9);
        assert!((Length::from_in(12.0).m().powi(3) * 1e3 - 28.316_846_592).abs() < 1e-9);
    }

    #[test]
    fn a_tie_fits_and_a_pound_more_does_not() {
        let capacity = Mass::from_lb(3_000.0) * (24.0 / 30.0);
        assert!(Mass::from_lb(2_400.0).fits(capacity));
        assert!(!Mass::from_lb(2_401.0).fits(capacity));
    }
}
