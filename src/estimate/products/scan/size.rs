//! Sizes as written: a number with its unit, and sizes joined by `x`.

use crate::units::Length;

/// A unit written after a number.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Unit {
    /// Inch, also as a double mark.
    Inch,
    /// Foot, also as a single mark.
    Foot,
    /// Millimetre.
    Millimetre,
    /// Centimetre.
    Centimetre,
    /// Metre.
    Metre,
    /// Pound, pound per foot or yard, or the sign `#`.
    Pound,
    /// Kilogram, or kilogram per metre.
    Kilogram,
}

/// A number as written.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Number {
    /// Its value.
    pub value: f64,
    /// Written with a fraction of a binary denominator: inches.
    pub fraction: bool,
    /// Written with a decimal sign.
    pub decimals: bool,
    /// `1,200`: thousands or decimals, nothing tells; or far too large for a size.
    pub unclear: bool,
}

/// One size of a chain.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Dim {
    /// The number.
    pub number: Number,
    /// Its unit, where one is written.
    pub unit: Option<Unit>,
}

impl Dim {
    /// The figure without its unit.
    pub fn value(&self) -> f64 {
        self.number.value
    }

    /// No unit, or one of these.
    pub fn unit_in(&self, allowed: &[Unit]) -> bool {
        self.unit.is_none_or(|unit| allowed.contains(&unit))
    }

    /// A plain figure without a unit, not above this.
    pub fn bare_up_to(&self, largest: f64) -> bool {
        self.unit.is_none() && !self.number.fraction && self.value() <= largest
    }

    /// As a length along the piece: by its unit, else millimetres from 1,000 up; else not known.
    pub fn length(&self) -> Option<Length> {
        let value = self.value();
        match self.unit {
            Some(Unit::Inch) => Some(Length::from_in(value)),
            Some(Unit::Foot) => Some(Length::from_in(value * 12.0)),
            Some(Unit::Millimetre) => Some(Length::from_mm(value)),
            Some(Unit::Centimetre) => Some(Length::from_mm(value * 10.0)),
            Some(Unit::Metre) => Some(Length::from_m(value)),
            None if value >= 1_000.0 => Some(Length::from_mm(value)),
            _ => None,
        }
    }
}

/// Sizes joined by `x`.
#[derive(Clone, Debug, PartialEq)]
pub struct Chain {
    /// The sizes in their order.
    pub dims: Vec<Dim>,
    /// The first token after it.
    pub end: usize,
    /// Nothing is glued to its end that could make it part of another word.
    pub clean: bool,
}

impl Chain {
    /// The plain figures.
    pub fn values(&self) -> Vec<f64> {
        self.dims.iter().map(Dim::value).collect()
    }
}
