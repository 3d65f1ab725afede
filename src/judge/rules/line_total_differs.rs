//! `line-total-differs`.

use crate::judge::{Facts, Finding, Rule, Severity};
use crate::understand::{Basis, WeightKind};
use crate::units::show;

/// Rounding of piece weights: pieces times half of the last printed digit stays below this (common practice, no source).
const ROUNDING: f64 = 0.02;
/// A mass per length is nominal; what was rolled may differ (EN 10034: 4 %, from memory).
const NOMINAL: f64 = 0.05;

rule_type! {
    /// # What was seen
    /// The weight of the line is not the weight of one piece (package, metre, foot) times their number.
    /// # Why it matters on the dock
    /// One of the three figures is wrong. Which one it is may change the truck.
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
            facts.settled.unit_of(weight).mass(weight.figure)
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
            Some((line, mass(line), mass(unit), number, what, allowed))
        });
        if let Some((line, line_mass, unit_mass, number, what, allowed)) = pair {
            let product = unit_mass * number;
            let off = (line_mass - product).kg().abs();
            if off > product.max(line_mass).kg() * allowed && off > 1.0 {
                let message = format!(
                    "{} {what} of {} are {}, the line says {}",
                    show::figure(number),
                    facts.weight(unit_mass),
                    facts.weight(product),
                    facts.weight(line_mass)
                );
                found.push(
                    Finding::new(self.code(), Severity::Check, message).at(line.place.cell()),
                );
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Pieces, weight of one and weight of the line.
    fn pieces(rows: &[&str]) -> List {
        let lines: Vec<String> = rows.iter().map(|row| format!("Brackets,{row}")).collect();
        list(&format!(
            "Description,Qty,Unit weight (kg),Total weight (kg)\n{}\n",
            lines.join("\n")
        ))
    }

    #[test]
    fn fires_on_the_weight_of_one_for_the_line() {
        assert_eq!(pieces(&["12,28,28"]).lines("line-total-differs"), "check");
        assert_eq!(
            pieces(&["12,28,28"]).message("line-total-differs"),
            "12 pieces of 28 kg are 336 kg, the line says 28 kg"
        );
    }

    #[test]
    fn silent_where_they_multiply() {
        assert_eq!(
            pieces(&["12,28,336", "1,28,28"]).lines("line-total-differs"),
            "- -"
        );
    }

    #[test]
    fn boundary_at_two_percent_one_kilogram_and_five_percent_a_metre() {
        // 2 % of 342.8 kg are 6.856 kg, of 342.9 kg 6.858 kg.
        assert_eq!(
            pieces(&["12,28,342.8", "12,28,342.9"]).lines("line-total-differs"),
            "- check"
        );
        assert_eq!(
            pieces(&["4,2.5,11", "4,2.5,11.1"]).lines("line-total-differs"),
            "- check"
        );
        // 2 x 6 m x 50 kg/m = 600 kg; 5 % of 631.5 kg are 31.575 kg, of 631.6 kg 31.58 kg.
        let metres = list(
            "Description,Qty,Length (mm),Weight (kg/m),Total weight (kg)\nBeam,2,6000,50,631.5\nBeam,2,6000,50,631.6\n",
        );
        assert_eq!(metres.lines("line-total-differs"), "- check");
    }

    #[test]
    fn missing_one_of_the_two() {
        assert_eq!(
            pieces(&["12,28,", "12,,28", "12,28,TBA"]).lines("line-total-differs"),
            "- - -"
        );
    }
}
