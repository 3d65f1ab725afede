//! How units are spelled: the table of `tables/units.csv`, built once.

use super::{LengthUnit, MassUnit};
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// A unit of mass as spelled; some spellings mean different units in different countries.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MassSpelling {
    /// One meaning.
    Known(MassUnit),
    /// `ton`, `T`: a short ton beside feet, inches and pounds, a tonne beside millimetres and kilograms.
    Ton,
    /// `cwt`: 100 lb in the US, 112 lb in Britain.
    Cwt,
}

impl MassSpelling {
    /// The unit, in a file whose other signs are US (`Some(true)`), metric (`Some(false)`) or none at all.
    /// `None` where the file does not say: ask.
    pub fn unit(self, us: Option<bool>) -> Option<MassUnit> {
        match (self, us) {
            (MassSpelling::Known(unit), _) => Some(unit),
            (MassSpelling::Ton, Some(true)) => Some(MassUnit::ShortTon),
            (MassSpelling::Ton, Some(false)) => Some(MassUnit::Tonne),
            (MassSpelling::Cwt, Some(true)) => Some(MassUnit::CwtUs),
            (MassSpelling::Cwt, Some(false)) => Some(MassUnit::CwtUk),
            (MassSpelling::Ton | MassSpelling::Cwt, None) => None,
        }
    }
}

#[derive(Deserialize)]
struct RowOfTable {
    spelling: String,
    quantity: String,
    unit: String,
}

struct Spellings {
    mass: HashMap<String, MassSpelling>,
    length: HashMap<String, LengthUnit>,
}

static SPELLINGS: LazyLock<Spellings> = LazyLock::new(|| {
    let mut spellings = Spellings {
        mass: HashMap::new(),
        length: HashMap::new(),
    };
    for row in crate::tables::rows::<RowOfTable>(crate::tables::UNITS) {
        let unit = row.unit.as_str();
        if row.quantity == "mass" {
            let spelled = match unit {
                "kg" => MassSpelling::Known(MassUnit::Kg),
                "lb" => MassSpelling::Known(MassUnit::Lb),
                "g" => MassSpelling::Known(MassUnit::G),
                "oz" => MassSpelling::Known(MassUnit::Oz),
                "tonne" => MassSpelling::Known(MassUnit::Tonne),
                "short ton" => MassSpelling::Known(MassUnit::ShortTon),
                "long ton" => MassSpelling::Known(MassUnit::LongTon),
                "cwt" => MassSpelling::Cwt,
                _ => MassSpelling::Ton,
            };
            spellings.mass.insert(row.spelling, spelled);
        } else {
            let length = match unit {
                "mm" => LengthUnit::Mm,
                "cm" => LengthUnit::Cm,
                "m" => LengthUnit::M,
                "in" => LengthUnit::In,
                "ft" => LengthUnit::Ft,
                _ => LengthUnit::Yd,
            };
            spellings.length.insert(row.spelling, length);
        }
    }
    spellings
});

/// A unit of mass as spelled; capital and small letters matter only for `T` and `t`.
pub fn mass(text: &str) -> Option<MassSpelling> {
    let text = text.trim();
    SPELLINGS
        .mass
        .get(text)
        .or_else(|| SPELLINGS.mass.get(&text.to_lowercase()))
        .copied()
}

/// A unit of length as spelled.
pub fn length(text: &str) -> Option<LengthUnit> {
    let text = text.trim();
    SPELLINGS
        .length
        .get(text)
        .or_else(|| SPELLINGS.length.get(&text.to_lowercase()))
        .copied()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_same_letters_in_two_countries() {
        assert_eq!(
            mass("T").and_then(|ton| ton.unit(Some(true))),
            Some(MassUnit::ShortTon)
        );
        assert_eq!(
            mass("T").and_then(|ton| ton.unit(Some(false))),
            Some(MassUnit::Tonne)
        );
        assert_eq!(mass("T").and_then(|ton| ton.unit(None)), None);
        assert_eq!(mass("t"), Some(MassSpelling::Known(MassUnit::Tonne)));
        assert_eq!(mass("KGS"), Some(MassSpelling::Known(MassUnit::Kg)));
        assert_eq!(
            mass("st"),
            None,
            "in delivery lists st is pieces, never stone"
        );
        assert_eq!(length("MM"), Some(LengthUnit::Mm));
        assert_eq!(length("\""), Some(LengthUnit::In));
    }
}
