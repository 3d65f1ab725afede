//! Likely causes of a mismatch: which one slip would explain a declared weight that does not fit. One file a hypothesis.
//! Comes in: a [`Slip`], plain data of one line. Goes out: causes with their shares. A cause is a question to the supplier:
//! nothing here changes a weight, a verdict or what may be lifted.

mod confirmed;
mod decimal;
mod digits;
mod kg_lb;
mod line_for_piece;
mod material;
mod net_for_gross;
mod nominal_size;
mod per_length;
mod piece_for_line;
mod quantity;
mod share;
mod size_unit;
mod slip;
mod solid_for_hollow;
#[cfg(test)]
mod testing;
mod ton_scale;

pub use share::named;
pub use slip::{Slip, stated, too_long};

use crate::understand::Sizes;
use crate::units::Mass;
use serde::Serialize;

/// A likely cause of a mismatch: a question to ask the supplier, never a correction.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cause {
    /// Kind of slip, plain kebab-case words (`kg-lb`).
    pub kind: &'static str,
    /// What the line would weigh if this is the cause, kg: of the whole line, net or gross like the declared weight.
    pub would_be_kg: f64,
    /// Share among the possible causes and "no single slip", 0 to 1.
    pub share: f64,
}

/// One way in which a hypothesis could explain the declared weight.
#[derive(Clone, Debug, PartialEq)]
pub struct Candidate {
    /// What the whole line would weigh, net or gross like the declared weight.
    pub would_be: Mass,
    /// What the cause makes of the estimate: 1 where the slip is in the weight alone; the change of the estimate where the
    /// weight would be right and the size, the material or the number of pieces on paper wrong.
    pub factor: f64,
    /// Its part of the hypothesis's prior, 0 to 1; above 1 where the line itself bears the slip out.
    pub odds: f64,
    /// The sizes as they would be, where the cause is that they are written wrong.
    pub sizes: Option<Sizes>,
    /// What the declared weight would fit as ("2,040 kg", "the weight of one of 12 pieces").
    pub reading: String,
}

impl Candidate {
    /// A slip in the weight: the line would weigh something else than declared.
    fn of_weight(would_be: Mass, reading: impl Into<String>) -> Candidate {
        Candidate {
            would_be,
            factor: 1.0,
            odds: 1.0,
            sizes: None,
            reading: reading.into(),
        }
    }

    /// A slip in what the estimate rests on: the line weighs what is declared, and the estimate should be `factor` times as much.
    fn of_estimate(declared: Mass, factor: f64, reading: impl Into<String>) -> Candidate {
        Candidate {
            would_be: declared,
            factor,
            odds: 1.0,
            sizes: None,
            reading: reading.into(),
        }
    }

    /// The same with a part of the prior.
    fn odds(mut self, odds: f64) -> Candidate {
        self.odds = odds;
        self
    }
}

/// A kind of slip.
pub trait Hypothesis: Sync {
    /// Its kind, as the contract names it.
    fn kind(&self) -> &'static str;
    /// What to ask the supplier, in words.
    fn ask(&self) -> &'static str;
    /// Every way in which it could explain the slip; empty where it is not possible for the line. Whether one fits the
    /// expected range is not asked here.
    fn candidates(&self, slip: &Slip) -> Vec<Candidate>;
}

/// A cause with the way in which it explains the declared weight.
#[derive(Clone, Debug, PartialEq)]
pub struct Named {
    /// The cause.
    pub cause: Cause,
    /// How.
    pub candidate: Candidate,
}

/// All hypotheses, by kind.
pub static HYPOTHESES: &[&dyn Hypothesis] = &[
    &decimal::Decimal,
    &digits::Digits,
    &kg_lb::KgLb,
    &line_for_piece::LineForPiece,
    &material::Material,
    &net_for_gross::NetForGross,
    &nominal_size::NominalSize,
    &per_length::PerLength,
    &piece_for_line::PieceForLine,
    &quantity::Quantity,
    &size_unit::SizeUnit,
    &solid_for_hollow::SolidForHollow,
    &ton_scale::TonScale,
];

/// What would fit and what to ask, for the end of a message: "; 2,040 kg would fit: ask whether ..."; empty without a cause.
pub fn in_words(causes: &[Named]) -> String {
    let told = causes.iter().map(|named| {
        let hypothesis = HYPOTHESES
            .iter()
            .find(|hypothesis| hypothesis.kind() == named.cause.kind);
        let ask = hypothesis.map_or("ask the supplier", |hypothesis| hypothesis.ask());
        format!("; {} would fit: {ask}", named.candidate.reading)
    });
    told.collect()
}

#[cfg(test)]
mod tests;
