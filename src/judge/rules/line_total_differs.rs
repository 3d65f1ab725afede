//! `line-total-differs`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::{Basis, WeightKind};
use crate::units::show;

/// Rounding of piece weights: pieces times half of the last printed digit stays below this.
const ROUNDING: f64 = 0.02;

rule_type! {
    /// # What was seen
    /// The line's weight is not its pieces times the weight of one.
    /// # Why it matters on the dock
    /// One of the three figures is wrong; which one decides the truck.
    /// # What to do
    /// Ask the supplier, or weigh one piece.
    /// # Example
    /// 12 pieces of 28 kg with a line weight of 28 kg.
    pub struct LineTotalDiffers;
}

impl Rule for LineTotalDiffers {
    fn code(&self) -> &'static str {
        "line-total-differs"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn load(&self, facts: &Facts<'_>, found: &mut Vec<Finding>) {
        let mass = |weight: &crate::understand::StatedWeight| {
            let unit = weight.unit.or(facts.settled.columns.get(&weight.place.column).map(|reading| reading.unit))?;
            Some(unit.mass(weight.figure))
        };
        let same_kind = |one: WeightKind, other: WeightKind| one == other || one == WeightKind::Unstated || other == WeightKind::Unstated;
        let Some(piece) = facts.weights.iter().find(|weight| weight.basis == Some(Basis::Piece)) else { return };
        let line = facts.weights.iter().find(|weight| matches!(weight.basis, None | Some(Basis::Line)) && same_kind(weight.kind, piece.kind));
        if let Some((line_mass, piece_mass, line)) = line.and_then(|line| Some((mass(line)?, mass(piece)?, line))) {
            let product = piece_mass * f64::from(facts.pieces());
            let off = (line_mass - product).kg().abs();
            if off > product.max(line_mass).kg() * ROUNDING && off > 1.0 {
                let message = format!(
                    "{} pieces of {} are {}, the line says {}",
                    facts.pieces(),
                    show::weight(piece_mass, facts.units()),
                    show::weight(product, facts.units()),
                    show::weight(line_mass, facts.units())
                );
                found.push(Finding::new(self.code(), Severity::Check, message).at(line.place.cell()));
            }
        }
    }
}
