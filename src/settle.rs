//! Open readings settled by the whole sheet: units and bases that no heading states, contradicted columns.
//! Comes in: items and estimates of a sheet. Goes out: one declared weight a line. Never changes a stated value.

use crate::place::Place;
use crate::understand::{Basis, How, WeightKind};
use crate::units::Mass;

/// A line's declared weight, settled.
#[derive(Clone, Debug, PartialEq)]
pub struct Declared {
    /// Mass of the whole line.
    pub mass: Mass,
    /// What the figure was the weight of, as read.
    pub of: Basis,
    /// Net, gross or not said.
    pub kind: WeightKind,
    /// How unit and basis were settled.
    pub how: How,
    /// As written, with its unit.
    pub text: String,
    /// The cell.
    pub place: Place,
    /// Heaviest reading of the line still possible, where unit or basis is assumed or contradicted.
    pub heaviest: Mass,
}
