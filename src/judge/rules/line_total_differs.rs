//! `line-total-differs`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::{Basis, WeightKind};
use crate::units::show;

/// Rounding of piece weights: pieces times half of the last printed digit stays below this.
const ROUNDING: f64 = 0.02;
/// A mass per length is nominal; what was rolled may differ (EN 10034: 4 %, from memory).
const NOMINAL: f64 = 0.05;

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
            let unit = weight.unit.or(facts
                .settled
                .columns
                .get(&weight.place.column)
                .map(|reading| reading.unit))?;
            Some(unit.mass(weight.figure))
        };
        let same_kind = |one: WeightKind, other: WeightKind| {
            one == other || one == WeightKind::Unstated || other == WeightKind::Unstated
        };
        let counted = |basis: Option<Basis>| match basis {
            Some(Basis::Piece) => Some((f64::from(facts.pieces()), "pieces", ROUNDING)),
            Some(Basis::Package) => Some((f64::from(facts.item?.packages?), "packages", ROUNDING)),
            Some(Basis::PerMetre) => Some((
                f64::from(facts.pieces()) * facts.item?.sizes.length?.length.m(),
                "metres",
                NOMINAL,
            )),
            Some(Basis::PerFoot) => Some((
                f64::from(facts.pieces()) * facts.item?.sizes.length?.length.m() / 0.3048,
                "feet",
                NOMINAL,
            )),
            _ => None,
        };
        // Gross with gross before net with net.
        let mut units: Vec<_> = facts
            .weights
            .iter()
            .filter(|weight| counted(weight.basis).is_some())
            .collect();
        units.sort_by_key(|weight| std::cmp::Reverse(weight.kind == WeightKind::Gross));
        let pair = units.into_iter().find_map(|unit| {
            let line = facts
                .weights
                .iter()
                .filter(|weight| matches!(weight.basis, None | Some(Basis::Line)));
            let line = line
                .filter(|weight| same_kind(weight.kind, unit.kind))
                .max_by_key(|weight| weight.kind == unit.kind)?;
            let (number, what, allowed) = counted(unit.basis)?;
            Some((line, mass(line)?, mass(unit)?, number, what, allowed))
        });
        if let Some((line, line_mass, unit_mass, number, what, allowed)) = pair {
            let product = unit_mass * number;
            let off = (line_mass - product).kg().abs();
            if off > product.max(line_mass).kg() * allowed && off > 1.0 {
                let message = format!(
                    "{} {what} of {} are {}, the line says {}",
                    show::figure(number),
                    show::weight(unit_mass, facts.units()),
                    show::weight(product, facts.units()),
                    show::weight(line_mass, facts.units())
                );
                found.push(
                    Finding::new(self.code(), Severity::Check, message).at(line.place.cell()),
                );
            }
        }
    }
}
