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

/// A row of the table; a unit that is not listed here is an error of the table.
#[derive(Deserialize)]
struct RowOfTable {
    spelling: String,
    unit: Unit,
}

#[derive(Clone, Copy, Debug, Deserialize)]
#[serde(rename_all = "lowercase")]
enum Unit {
    Kg,
    Lb,
    G,
    Oz,
    Tonne,
    #[serde(rename = "short ton")]
    ShortTon,
    #[serde(rename = "long ton")]
    LongTon,
    Ton,
    Cwt,
    #[serde(rename = "us cwt")]
    CwtUs,
    #[serde(rename = "uk cwt")]
    CwtUk,
    Mm,
    Cm,
    M,
    In,
    Ft,
    Yd,
}

/// What a spelling stands for.
enum Spelled {
    Mass(MassSpelling),
    Length(LengthUnit),
}

impl Unit {
    fn spelled(self) -> Spelled {
        let mass = |unit| Spelled::Mass(MassSpelling::Known(unit));
        match self {
            Unit::Kg => mass(MassUnit::Kg),
            Unit::Lb => mass(MassUnit::Lb),
            Unit::G => mass(MassUnit::G),
            Unit::Oz => mass(MassUnit::Oz),
            Unit::Tonne => mass(MassUnit::Tonne),
            Unit::ShortTon => mass(MassUnit::ShortTon),
            Unit::LongTon => mass(MassUnit::LongTon),
            Unit::Ton => Spelled::Mass(MassSpelling::Ton),
            Unit::Cwt => Spelled::Mass(MassSpelling::Cwt),
            Unit::CwtUs => mass(MassUnit::CwtUs),
            Unit::CwtUk => mass(MassUnit::CwtUk),
            Unit::Mm => Spelled::Length(LengthUnit::Mm),
            Unit::Cm => Spelled::Length(LengthUnit::Cm),
            Unit::M => Spelled::Length(LengthUnit::M),
            Unit::In => Spelled::Length(LengthUnit::In),
            Unit::Ft => Spelled::Length(LengthUnit::Ft),
            Unit::Yd => Spelled::Length(LengthUnit::Yd),
        }
    }
}

struct Spellings {
    mass: HashMap<String, MassSpelling>,
    length: HashMap<String, LengthUnit>,
    longest_mass: usize,
}

static SPELLINGS: LazyLock<Spellings> = LazyLock::new(|| {
    let (mut mass, mut length) = (HashMap::new(), HashMap::new());
    for row in crate::tables::rows::<RowOfTable>(crate::tables::UNITS) {
        match row.unit.spelled() {
            Spelled::Mass(unit) => {
                mass.insert(row.spelling, unit);
            }
            Spelled::Length(unit) => {
                length.insert(row.spelling, unit);
            }
        }
    }
    let longest_mass = mass.keys().map(String::len).max().unwrap_or(0);
    Spellings {
        mass,
        length,
        longest_mass,
    }
});

/// Bytes of the longest spelling of a unit of mass.
pub(super) fn longest_mass() -> usize {
    SPELLINGS.longest_mass
}

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
    fn every_unit_of_the_table_is_known_and_of_its_quantity() {
        #[derive(Deserialize)]
        struct Row {
            spelling: String,
            quantity: String,
            unit: Unit,
        }
        let rows = crate::tables::rows::<Row>(crate::tables::UNITS);
        assert!(rows.len() > 100, "{}", rows.len());
        for row in rows {
            let quantity = match row.unit.spelled() {
                Spelled::Mass(_) => "mass",
                Spelled::Length(_) => "length",
            };
            assert_eq!(quantity, row.quantity, "{}", row.spelling);
        }
    }

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
