//! Physical quantities: one type each, held in SI, with exact factors and their source.
//! Comes in: numbers with a unit. Goes out: typed quantities and ranges of mass. Never guesses a unit.

mod quantity;
mod range;
pub mod show;
pub mod spelling;
mod unit;
pub mod written;

pub use quantity::{Density, Length, Mass, Volume};
pub use quantity::{KG_PER_LB, LB_PER_LONG_TON, LB_PER_SHORT_TON, M_PER_IN, M3_PER_US_GALLON};
pub use range::MassRange;
pub use unit::{LengthUnit, MassUnit};

/// Relative slack of every comparison of weights, lengths and capacities, so that an exact tie passes
/// in floating point (2400 lb on a capacity of 3000 x 24 / 30).
pub const TIE: f64 = 1e-9;

/// `a <= b`, allowing the relative slack [`TIE`].
pub fn at_most(a: f64, b: f64) -> bool {
    a <= b + TIE * a.abs().max(b.abs())
}
