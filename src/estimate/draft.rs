//! From one piece to the whole line.

use super::{Estimate, Evidence, Step};
use crate::tables::materials::Material;
use crate::tables::packages;
use crate::understand::Item;
use crate::units::{Length, Mass, MassRange, Volume};

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
        let pieces = f64::from(item.pieces);
        let mut steps = self.steps;
        if item.pieces > 1 {
            steps.push(Step {
                what: "the whole line".to_string(),
                formula: "one piece x pieces".to_string(),
                inputs: vec![
                    ("one piece".to_string(), self.piece.likely.kg()),
                    ("pieces".to_string(), pieces),
                ],
                result: self.piece.likely.kg() * pieces,
                unit: "kg",
                source: "the line's number of pieces".to_string(),
            });
        }
        Estimate {
            evidence: self.evidence,
            shape: self.shape,
            product: self.product,
            material: self.material.map(|material| material.name),
            group: self.material.map(|material| material.group),
            goods: self.goods,
            piece: self.piece,
            line: self.piece.times(pieces),
            tare: tare(item, self.goods),
            block: self.block.map(|block| block * pieces),
            solid: self.solid,
            outline: self.outline,
            steps,
            working: self.working,
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
