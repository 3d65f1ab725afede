//! What a line should weigh: a range with its evidence and working, or why there is none.
//! Comes in: an item and the tables. Goes out: an estimate. Never looks at the declared weight.

mod agreement;
mod contents;
pub mod details;
mod draft;
mod form;
mod line;
pub mod materials;
pub mod products;
pub mod range;
mod shaped;
pub mod shapes;
mod standard;
#[cfg(test)]
mod tests;
mod unclear;
mod vessel;
mod weighed;
mod words;

pub use line::line;
pub use shaped::LEAD_KG_M3;
pub use weighed::{Before, goods, weighed};

use crate::tables::materials::Material;
use crate::understand::Size1;
use crate::units::{Length, Mass, MassRange};
use serde::Serialize;

/// The kind of evidence an estimate rests on, best first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Evidence {
    /// The same item was weighed before.
    Weighed,
    /// A standard product's nominal mass.
    Product,
    /// The shape's volume and the material's density.
    Shape,
    /// Only the outline: bounds, not a guess.
    Envelope,
}

/// One step of the working, as a clerk would write it on paper.
#[derive(Clone, Debug, PartialEq)]
pub struct Step {
    /// What is worked out ("volume of one piece").
    pub what: String,
    /// Spreadsheet-style letters-free formula in words ("length x width x thickness").
    pub formula: String,
    /// The inputs, SI: name and value.
    pub inputs: Vec<(String, f64)>,
    /// The result, SI.
    pub result: f64,
    /// Unit of the result (`m3`, `kg`, `kg/m`, `kg/m3`).
    pub unit: &'static str,
    /// Table row, cell or standard it rests on.
    pub source: String,
}

/// A plausible mass.
#[derive(Clone, Debug, PartialEq)]
pub struct Estimate {
    /// What it rests on.
    pub evidence: Evidence,
    /// Shape, plain word (`plate`, `pipe`); none for a product without one.
    pub shape: Option<&'static str>,
    /// Product designation, where one was recognised.
    pub product: Option<String>,
    /// Material: a row of the table.
    pub material: Option<&'static Material>,
    /// Group of the material or of a package's materials, as the table names it (`metal`, `wood`).
    pub group: Option<&'static str>,
    /// Kind of goods, as the goods table names it (`plate`, `pipe`, `lumber`, `concrete` ...).
    pub goods: Option<&'static str>,
    /// One piece.
    pub piece: MassRange,
    /// The whole line, net of packaging.
    pub line: MassRange,
    /// Packaging tare to add for a gross weight, whole line.
    pub tare: MassRange,
    /// What a solid bounding block of the upper sizes and the highest density weighs, whole line; where a box is known.
    pub block: Option<Mass>,
    /// Solid shape (no void), for the test of what is impossible.
    pub solid: bool,
    /// Outline of one piece for load centre and packs: length, width, height in the line's own order.
    pub outline: Option<[Length; 3]>,
    /// The working.
    pub steps: Vec<Step>,
    /// The working in one sentence.
    pub working: String,
    /// What the other kind of evidence gives, where the two ranges do not meet; this estimate is then the heavier.
    pub otherwise: Option<Otherwise>,
}

/// Shape of goods of which only the outline is known.
const OUTLINE: &str = "outline";
/// Sizes this near to each other, relative, are one figure: what is left of working in floating point.
const SAME: f64 = 1e-9;

impl Estimate {
    /// What the whole line is planned with where the estimate stands in for a weight (method, section 4): the larger of
    /// likely with its margin (relative) and high, with the packaging's tare.
    pub fn stands_in(&self, margin: f64) -> Mass {
        (self.line.likely * (1.0 + margin)).max(self.line.high) + self.tare.high
    }

    /// Whether only the outline of the goods is known, though weighings may tell their mass.
    pub fn is_outline(&self) -> bool {
        self.evidence == Evidence::Envelope || self.shape == Some(OUTLINE)
    }

    /// Whether it was worked out with this size of the line: the mass of a bag says nothing about the unit of its sizes, and the
    /// figures of a product's name are no sizes.
    pub fn works_with(&self, size: &Size1) -> bool {
        let mut inputs = self.steps.iter().flat_map(|step| &step.inputs);
        inputs.any(|(_, value)| (size.length.m() - value).abs() <= SAME * value.abs())
    }
}

/// A second range for the same line that does not meet the first.
#[derive(Clone, Debug, PartialEq)]
pub struct Otherwise {
    /// The standard product the description names.
    pub product: String,
    /// What it rests on: the product's name or the sizes.
    pub evidence: Evidence,
    /// The whole line, net of packaging.
    pub line: MassRange,
}

/// Why there is no estimate.
#[derive(Clone, Debug, PartialEq)]
pub struct NoEstimate {
    /// In words: what is missing, with the nearest thing known.
    pub why: String,
    /// The sizes contradict each other.
    pub impossible: bool,
    /// Group of goods, where the words of the line say it.
    pub goods: Option<&'static str>,
    /// Upper bound from size alone (solid lead), whole line.
    pub upper: Option<Mass>,
    /// Outline of one piece, where sizes are known.
    pub outline: Option<[Length; 3]>,
}
