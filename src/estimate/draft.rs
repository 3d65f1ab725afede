//! From one piece to the whole line.

use super::{Estimate, Evidence, Step};
use crate::tables::materials::Material;
use crate::tables::packages;
use crate::understand::Item;
use crate::units::{Length, Mass, MassRange, Volume};

/// What a draft is the estimate of.
#[derive(Clone, Copy, PartialEq)]
pub(super) enum Unit {
    /// One piece.
    Piece,
    /// One package of the line, however many pieces it holds.
    Package,
    /// The whole line.
    Line,
}

impl Unit {
    /// How many of them the line has.
    pub fn number(self, item: &Item) -> f64 {
        f64::from(match self {
            Unit::Piece => item.pieces,
            Unit::Package => item.packages.unwrap_or(1),
            Unit::Line => 1,
        })
    }
}

/// The estimate of one piece, on its way to the line's.
pub(super) struct Draft {
    pub evidence: Evidence,
    pub shape: Option<&'static str>,
    pub product: Option<String>,
    pub material: Option<&'static Material>,
    pub goods: Option<&'static str>,
    pub piece: MassRange,
    pub block: Option<Mass>,
    pub solid: bool,
    pub outline: Option<[Length; 3]>,
    pub steps: Vec<Step>,
    pub working: String,
}

impl Draft {
    /// From one piece to the whole line: pieces with errors common to all, and the tare of the packages.
    pub fn finish(self, item: &Item) -> Estimate {
        self.finish_by(item, Unit::Piece)
    }

    /// The same where the draft may be of a package, whose pieces share its mass.
    pub fn finish_by(self, item: &Item, unit: Unit) -> Estimate {
        let number = unit.number(item);
        let (one, many) = match unit {
            Unit::Piece => ("one piece", "pieces"),
            Unit::Package => ("one package", "packages"),
            Unit::Line => ("the line", "lines"),
        };
        let mut steps = self.steps;
        if number > 1.0 {
            steps.push(Step {
                what: "the whole line".to_string(),
                formula: format!("{one} x {many}"),
                inputs: vec![
                    (one.to_string(), self.piece.likely.kg()),
                    (many.to_string(), number),
                ],
                result: self.piece.likely.kg() * number,
                unit: "kg",
                source: format!("the line's number of {many}"),
            });
        }
        let line = self.piece.times(number);
        Estimate {
            evidence: self.evidence,
            shape: self.shape,
            product: self.product,
            material: self.material,
            group: self.material.map(|material| material.group),
            goods: self.goods,
            piece: match unit {
                Unit::Piece => self.piece,
                Unit::Package | Unit::Line => line.times(1.0 / f64::from(item.pieces.max(1))),
            },
            line,
            tare: tare(item, self.goods),
            block: self.block.map(|block| block * number),
            solid: self.solid,
            outline: self.outline,
            steps,
            working: self.working,
            otherwise: None,
        }
    }
}

/// Tare of the line's packages: stated, or by the kind of package. Drums and the like have theirs in the estimate already.
fn tare(item: &Item, goods: Option<&str>) -> MassRange {
    if let Some(stated) = item.tare {
        return MassRange {
            low: stated,
            likely: stated,
            high: stated,
        };
    }
    let counted = f64::from(item.packages.unwrap_or(1));
    match item.packed_as {
        Some(name) if goods != Some(name) => packages::tare(name).times(counted),
        _ => MassRange {
            low: Mass::ZERO,
            likely: Mass::ZERO,
            high: Mass::ZERO,
        },
    }
}

/// Volume of a box.
pub(super) fn box_of(sides: [Length; 3]) -> Volume {
    Volume::from_m3(sides.iter().map(|side| side.m()).product())
}
