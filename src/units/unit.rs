//! Units of mass and length that people write, with exact factors.

use super::{KG_PER_LB, LB_PER_LONG_TON, LB_PER_SHORT_TON, Length, M_PER_IN, Mass};
use crate::site::Units;
use serde::Serialize;

/// A unit of mass as a column or cell states it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum MassUnit {
    /// Kilogram.
    #[default]
    Kg,
    /// Pound.
    Lb,
    /// Gram.
    G,
    /// Ounce, avoirdupois.
    Oz,
    /// Tonne of 1,000 kg.
    Tonne,
    /// Short ton of 2,000 lb.
    ShortTon,
    /// Long ton of 2,240 lb.
    LongTon,
    /// US hundredweight of 100 lb.
    CwtUs,
    /// British hundredweight of 112 lb.
    CwtUk,
}

impl MassUnit {
    /// Kilograms in one of it. Exact (NIST Handbook 44, App. C).
    pub fn kg(self) -> f64 {
        match self {
            MassUnit::Kg => 1.0,
            MassUnit::Lb => KG_PER_LB,
            MassUnit::G => 0.001,
            MassUnit::Oz => KG_PER_LB / 16.0,
            MassUnit::Tonne => 1_000.0,
            MassUnit::ShortTon => LB_PER_SHORT_TON * KG_PER_LB,
            MassUnit::LongTon => LB_PER_LONG_TON * KG_PER_LB,
            MassUnit::CwtUs => 100.0 * KG_PER_LB,
            MassUnit::CwtUk => 112.0 * KG_PER_LB,
        }
    }

    /// The system it is of.
    pub fn system(self) -> Units {
        match self {
            MassUnit::Kg | MassUnit::G | MassUnit::Tonne => Units::Si,
            MassUnit::Lb
            | MassUnit::Oz
            | MassUnit::ShortTon
            | MassUnit::LongTon
            | MassUnit::CwtUs
            | MassUnit::CwtUk => Units::Us,
        }
    }

    /// So many of it.
    pub fn mass(self, figure: f64) -> Mass {
        Mass::from_kg(figure * self.kg())
    }

    /// As people write it.
    pub fn symbol(self) -> &'static str {
        match self {
            MassUnit::Kg => "kg",
            MassUnit::Lb => "lb",
            MassUnit::G => "g",
            MassUnit::Oz => "oz",
            MassUnit::Tonne => "t",
            MassUnit::ShortTon => "short ton",
            MassUnit::LongTon => "long ton",
            MassUnit::CwtUs => "cwt (100 lb)",
            MassUnit::CwtUk => "cwt (112 lb)",
        }
    }
}

/// A unit of length as a column or cell states it.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "kebab-case")]
pub enum LengthUnit {
    /// Millimetre.
    Mm,
    /// Centimetre.
    Cm,
    /// Metre.
    M,
    /// Inch.
    In,
    /// Foot.
    Ft,
    /// Yard.
    Yd,
}

impl LengthUnit {
    /// Metres in one of it. Exact (international yard, 1959).
    pub fn m(self) -> f64 {
        match self {
            LengthUnit::Mm => 0.001,
            LengthUnit::Cm => 0.01,
            LengthUnit::M => 1.0,
            LengthUnit::In => M_PER_IN,
            LengthUnit::Ft => 12.0 * M_PER_IN,
            LengthUnit::Yd => 36.0 * M_PER_IN,
        }
    }

    /// So many of it.
    pub fn length(self, figure: f64) -> Length {
        Length::from_m(figure * self.m())
    }

    /// As people write it.
    pub fn symbol(self) -> &'static str {
        match self {
            LengthUnit::Mm => "mm",
            LengthUnit::Cm => "cm",
            LengthUnit::M => "m",
            LengthUnit::In => "in",
            LengthUnit::Ft => "ft",
            LengthUnit::Yd => "yd",
        }
    }

    /// Inch, foot or yard.
    pub fn is_us(self) -> bool {
        matches!(self, LengthUnit::In | LengthUnit::Ft | LengthUnit::Yd)
    }
}
