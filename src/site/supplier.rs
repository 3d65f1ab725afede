//! Supplier layouts of the site file: what each column of a supplier's lists holds, in the words that people see.
//! Comes in: `[supplier."NAME"]` sections. Goes out: words that are known. What they mean for reading is told elsewhere.

use crate::units::written::{fold, tidy};
use crate::units::{LengthUnit, MassUnit};
use serde::{Deserialize, Deserializer, Serialize};
use std::collections::BTreeMap;

/// What a column may hold.
pub const FIELDS: [&str; 31] = [
    "line number",
    "item number",
    "piece mark",
    "description",
    "material or grade",
    "number of pieces",
    "pieces in one package",
    "unit of the quantity",
    "number of packages",
    "kind of package",
    "package number",
    "length",
    "width",
    "height",
    "thickness",
    "outside diameter",
    "inside diameter",
    "wall thickness",
    "sizes",
    "volume",
    "declared weight",
    "tare",
    "unit of the weights",
    "unit of the sizes",
    "delivery number",
    "purchase order",
    "supplier",
    "vehicle or container",
    "remarks",
    "lift height",
    "not used",
];
/// Fields that have a unit of mass.
const WEIGHTS: [&str; 2] = ["declared weight", "tare"];
/// Fields that have a unit of length.
const SIZES: [&str; 9] = [
    "length",
    "width",
    "height",
    "thickness",
    "outside diameter",
    "inside diameter",
    "wall thickness",
    "sizes",
    "lift height",
];
/// What a weight may be of.
pub const WEIGHT_OF: [&str; 5] = ["line", "piece", "package", "metre", "foot"];
/// What sizes may be of.
pub const SIZE_OF: [&str; 2] = ["piece", "package"];
/// Kinds of weight.
pub const KINDS: [&str; 4] = ["net", "gross", "net and gross", "unstated"];
const KEYS: [&str; 4] = ["field", "unit", "of", "kind"];
/// Units of mass that a layout may name.
pub const MASS_UNITS: [MassUnit; 9] = [
    MassUnit::Kg,
    MassUnit::Lb,
    MassUnit::G,
    MassUnit::Oz,
    MassUnit::Tonne,
    MassUnit::ShortTon,
    MassUnit::LongTon,
    MassUnit::CwtUs,
    MassUnit::CwtUk,
];
/// Units of length that a layout may name.
pub const LENGTH_UNITS: [LengthUnit; 6] = [
    LengthUnit::Mm,
    LengthUnit::Cm,
    LengthUnit::M,
    LengthUnit::In,
    LengthUnit::Ft,
    LengthUnit::Yd,
];

/// How the lists of one supplier are read: `[supplier."NAME"]`.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(default, deny_unknown_fields)]
pub struct SupplierLayout {
    /// What the supplier's lists call it. A list that has the headings and names somebody else is not read with the layout.
    pub names: Vec<String>,
    /// Headings that a table must all have to be known as the supplier's; none, and the layout is used by name only.
    pub headings: Vec<String>,
    /// What the columns hold, by their heading as written.
    pub columns: BTreeMap<String, ColumnLayout>,
}

/// What one column holds: `{ field = "declared weight", unit = "kg", of = "line", kind = "gross" }`. Each word may be left
/// out; the heading then speaks for itself.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[serde(into = "BTreeMap<String, String>")]
pub struct ColumnLayout {
    /// What it holds, one of [`FIELDS`].
    pub field: Option<&'static str>,
    /// Unit of mass, of a weight.
    pub mass: Option<MassUnit>,
    /// Unit of length, of a size.
    pub length: Option<LengthUnit>,
    /// What the figure is of: one of [`WEIGHT_OF`], or of [`SIZE_OF`] for a size.
    pub of: Option<&'static str>,
    /// Kind of weight, one of [`KINDS`].
    pub kind: Option<&'static str>,
}

impl ColumnLayout {
    /// The unit's word.
    pub fn unit(&self) -> Option<&'static str> {
        self.mass
            .map(MassUnit::symbol)
            .or(self.length.map(LengthUnit::symbol))
    }

    /// Whether it holds declared weights.
    pub fn is_weight(&self) -> bool {
        self.field == Some(WEIGHTS[0])
    }

    /// Whether it holds sizes.
    pub fn is_size(&self) -> bool {
        self.field.is_some_and(|field| SIZES.contains(&field))
    }

    /// The words that are said, in the order in which they are written.
    pub fn words(&self) -> impl Iterator<Item = (&'static str, &'static str)> {
        KEYS.into_iter()
            .zip([self.field, self.unit(), self.of, self.kind])
            .filter_map(|(key, word)| Some((key, word?)))
    }
}

impl From<ColumnLayout> for BTreeMap<String, String> {
    fn from(column: ColumnLayout) -> BTreeMap<String, String> {
        column
            .words()
            .map(|(key, word)| (key.to_string(), word.to_string()))
            .collect()
    }
}

impl<'de> Deserialize<'de> for ColumnLayout {
    fn deserialize<D: Deserializer<'de>>(from: D) -> Result<ColumnLayout, D::Error> {
        let words = BTreeMap::<String, String>::deserialize(from)?;
        ColumnLayout::try_from(words).map_err(serde::de::Error::custom)
    }
}

impl TryFrom<BTreeMap<String, String>> for ColumnLayout {
    type Error = String;

    fn try_from(words: BTreeMap<String, String>) -> Result<ColumnLayout, String> {
        let mut column = ColumnLayout::default();
        for (key, word) in &words {
            match key.as_str() {
                "field" => column.field = Some(known(key, word, &FIELDS)?),
                "of" => column.of = Some(known(key, word, &WEIGHT_OF)?),
                "kind" => column.kind = Some(known(key, word, &KINDS)?),
                "unit" => {
                    let all: Vec<&str> = MASS_UNITS
                        .map(MassUnit::symbol)
                        .into_iter()
                        .chain(LENGTH_UNITS.map(LengthUnit::symbol))
                        .collect();
                    let unit = known(key, word, &all)?;
                    column.mass = MASS_UNITS.into_iter().find(|mass| mass.symbol() == unit);
                    column.length = LENGTH_UNITS
                        .into_iter()
                        .find(|length| length.symbol() == unit);
                }
                _ => {
                    return Err(format!(
                        "the key \"{key}\" is not known: the nearest known key is \"{}\"",
                        nearest(key, &KEYS)
                    ));
                }
            }
        }
        column.fits()
    }
}

impl ColumnLayout {
    /// Refuses words that do not belong to the field: a weight in metres would be worse than no layout.
    fn fits(self) -> Result<ColumnLayout, String> {
        let Some(field) = self.field else {
            return Ok(self);
        };
        let (weight, size) = (WEIGHTS.contains(&field), SIZES.contains(&field));
        if let Some(unit) = self.unit()
            && !(weight && self.mass.is_some() || size && self.length.is_some())
        {
            return Err(format!(
                "unit = \"{unit}\" is no unit of field = \"{field}\""
            ));
        }
        if let Some(of) = self.of
            && !(self.is_weight() || size && SIZE_OF.contains(&of))
        {
            return Err(format!(
                "of = \"{of}\" does not belong to field = \"{field}\""
            ));
        }
        match self.kind {
            Some(kind) if !self.is_weight() => Err(format!(
                "kind = \"{kind}\" does not belong to field = \"{field}\", only to \"declared weight\""
            )),
            _ => Ok(self),
        }
    }
}

fn known<'a>(key: &str, word: &str, all: &[&'a str]) -> Result<&'a str, String> {
    let found = all.iter().find(|one| **one == word).copied();
    found.ok_or_else(|| {
        format!(
            "{key} = \"{word}\" is not known: the nearest known word is \"{}\"",
            nearest(word, all)
        )
    })
}

/// The word of a list that is most like another.
pub fn nearest<'a>(word: &str, all: &[&'a str]) -> &'a str {
    let like = |one: &str| strsim::jaro_winkler(one, word);
    all.iter()
        .copied()
        .max_by(|one, other| like(one).total_cmp(&like(other)))
        .unwrap_or_default()
}

/// A name or heading as it is compared: signs folded, spaces single, small letters.
pub fn folded(text: &str) -> String {
    tidy(&fold(text)).to_lowercase()
}

/// The first text that is blank or, but for its spelling, there before.
fn twice<'a>(mut texts: impl Iterator<Item = &'a String>) -> Option<&'a String> {
    let mut seen: Vec<String> = Vec::new();
    texts.find(|text| {
        let text = folded(text);
        let again = text.is_empty() || seen.contains(&text);
        seen.push(text);
        again
    })
}

/// Layouts that could not be told apart, or would be taken for any list, are refused: what was found, what to do.
pub(super) fn check(layouts: &BTreeMap<String, SupplierLayout>) -> Result<(), (String, String)> {
    if let Some(name) = twice(layouts.keys()) {
        return Err((
            format!("supplier.\"{name}\" is blank or there twice"),
            "give each supplier one section".to_string(),
        ));
    }
    for (name, layout) in layouts {
        if let Some(heading) = twice(layout.columns.keys()) {
            return Err((
                format!("supplier.\"{name}\".columns.\"{heading}\" is blank or there twice"),
                "name each heading once".to_string(),
            ));
        }
        if layout.headings.len() == 1 || layout.headings.iter().any(|one| folded(one).is_empty()) {
            return Err((
                format!(
                    "supplier.\"{name}\".headings holds a single or a blank heading, which any list may have"
                ),
                "name all headings of the supplier's table, or leave the key out".to_string(),
            ));
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    fn column(words: &[(&str, &str)]) -> Result<ColumnLayout, String> {
        let words: BTreeMap<String, String> = words
            .iter()
            .map(|(key, word)| (key.to_string(), word.to_string()))
            .collect();
        ColumnLayout::try_from(words)
    }

    #[test]
    fn known_words_are_taken_and_given_back() {
        let words = [
            ("field", "declared weight"),
            ("unit", "short ton"),
            ("of", "piece"),
            ("kind", "net"),
        ];
        let read = column(&words).expect("known words");
        assert_eq!((read.mass, read.length), (Some(MassUnit::ShortTon), None));
        assert_eq!(read.words().collect::<Vec<_>>(), words);
        let back: BTreeMap<String, String> = read.clone().into();
        assert_eq!(ColumnLayout::try_from(back), Ok(read));
    }

    #[test]
    fn unknown_words_name_the_nearest() {
        for (key, word, nearest) in [
            ("field", "declared wieght", "\"declared weight\""),
            ("unit", "kgs", "\"kg\""),
            ("unit", "lbs", "\"lb\""),
            ("of", "pieces", "\"piece\""),
            ("kind", "grosss", "\"gross\""),
            ("feild", "length", "\"field\""),
        ] {
            let error = column(&[(key, word)]).expect_err(word);
            assert!(error.contains(nearest) && error.contains(key), "{error}");
        }
    }

    #[test]
    fn words_of_another_field_are_refused() {
        for words in [
            [("field", "declared weight"), ("unit", "mm")],
            [("field", "length"), ("unit", "kg")],
            [("field", "description"), ("unit", "kg")],
            [("field", "length"), ("of", "line")],
            [("field", "tare"), ("kind", "net")],
            [("field", "description"), ("of", "piece")],
        ] {
            assert!(column(&words).is_err(), "{words:?}");
        }
        assert!(column(&[("field", "width"), ("unit", "in"), ("of", "package")]).is_ok());
        assert!(
            column(&[("unit", "kg")]).is_ok(),
            "the heading names the field"
        );
    }
}
