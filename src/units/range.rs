//! A plausible range of mass: never one number.

use super::Mass;
use serde::{Deserialize, Serialize};

/// Low, likely and high mass; `low <= likely <= high`, all finite and not negative.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct MassRange {
    /// Lower end: about two standard deviations below, or a hard bound for an envelope.
    pub low: Mass,
    /// The best single figure.
    pub likely: Mass,
    /// Upper end.
    pub high: Mass,
}

impl MassRange {
    /// A range around `likely` with one-sided relative standard uncertainties (in logarithms):
    /// low and high are `likely * exp(-2 u)` and `likely * exp(2 u)` (JCGM 100 "GUM", 5.1.2, first order).
    pub fn around(likely: Mass, u_low: f64, u_high: f64) -> MassRange {
        MassRange {
            low: likely * (-2.0 * u_low).exp(),
            likely,
            high: likely * (2.0 * u_high).exp(),
        }
    }

    /// The same mass `count` times, errors common to all (one density, one size).
    pub fn times(self, count: f64) -> MassRange {
        MassRange {
            low: self.low * count,
            likely: self.likely * count,
            high: self.high * count,
        }
    }

    /// End to end sum; the ends are kept, so the sum is never narrower than independence would allow.
    pub fn plus(self, other: MassRange) -> MassRange {
        MassRange {
            low: self.low + other.low,
            likely: self.likely + other.likely,
            high: self.high + other.high,
        }
    }

    /// Whether two ranges have a mass in common.
    pub fn meets(self, other: MassRange) -> bool {
        self.low.fits(other.high) && other.low.fits(self.high)
    }
}
