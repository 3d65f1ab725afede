//! Kinds of goods: how they come, how they are made, how much of their outline is material.

use super::phrases::{Phrases, words};
use crate::units::written::fold;
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// A kind of goods.
#[derive(Clone, Debug, PartialEq, Deserialize)]
pub struct Goods {
    /// Its name (`plate`, `round bar`, `concrete`).
    #[serde(rename = "goods")]
    pub name: String,
    #[serde(deserialize_with = "yes")]
    /// Several pieces come as one lift unless something says that they come singly.
    pub bundled: bool,
    #[serde(deserialize_with = "yes")]
    /// Long goods that the forks enter at the long side.
    pub broadside: bool,
    /// The shape its sizes describe; empty: only an envelope.
    pub shape: String,
    /// Made to nominal sizes: a written size is as good as three figures, and bare inches stay inches beside feet.
    #[serde(deserialize_with = "yes")]
    pub nominal: bool,
    /// Named by its true sizes, so that a standard name and the sizes beside it must agree.
    #[serde(deserialize_with = "yes")]
    pub true_size: bool,
    /// Fills its shape; where it does not (threads), the fill counts even where the shape is known.
    #[serde(deserialize_with = "yes")]
    pub filled: bool,
    /// Part of the outline that is material: lowest.
    pub fill_low: Option<f64>,
    /// Likely.
    pub fill_likely: Option<f64>,
    /// Highest.
    pub fill_high: Option<f64>,
    /// Making tolerance below, relative.
    pub make_low: f64,
    /// Making tolerance above, relative.
    pub make_high: f64,
    /// Material that the word alone implies; empty: none.
    pub material: String,
}

/// What the words of a description say about the goods.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GoodsWord {
    /// The kind of goods.
    pub goods: &'static Goods,
    /// The word as the table has it.
    pub word: &'static str,
    /// The shape that the word says; empty: none.
    pub shape: &'static str,
    /// Material that the word implies.
    pub material: Option<&'static str>,
}

fn yes<'de, D: serde::Deserializer<'de>>(input: D) -> Result<bool, D::Error> {
    Ok(String::deserialize(input)? == "yes")
}

static GOODS: LazyLock<HashMap<String, Goods>> = LazyLock::new(|| {
    super::rows::<Goods>(super::GOODS)
        .into_iter()
        .map(|goods| (goods.name.clone(), goods))
        .collect()
});

#[derive(Clone, Deserialize)]
struct RowOfTable {
    word: String,
    goods: String,
    shape: String,
    material: String,
}

static WORDS: LazyLock<Phrases<RowOfTable>> = LazyLock::new(|| {
    Phrases::new(
        super::rows::<RowOfTable>(super::GOODS_WORDS)
            .into_iter()
            .map(|row| (row.word.clone(), row)),
    )
});

/// A kind of goods by its name.
pub fn by_name(name: &str) -> Option<&'static Goods> {
    GOODS.get(name)
}

/// Every kind of goods, by name.
pub fn all() -> Vec<&'static Goods> {
    let mut all: Vec<&Goods> = GOODS.values().collect();
    all.sort_by(|a, b| a.name.cmp(&b.name));
    all
}

/// The goods that a description speaks of: the last goods word with a shape in the clause of its sizes ("signal post base,
/// steel plate 500x500x30"), else the last one of the first clause before any figure ("rail clip, spring steel"), else
/// the last one anywhere.
pub fn in_description(text: &str) -> Option<GoodsWord> {
    let text = fold(text);
    let found = words(&text);
    let first_comma = text.find([',', ';']).unwrap_or(text.len());
    let first_figure = text
        .find(|sign: char| sign.is_ascii_digit())
        .unwrap_or(text.len());
    let clause = text
        .get(..first_figure)
        .and_then(|before| before.rfind([',', ';']))
        .unwrap_or(0);
    let (mut beside_sizes, mut first_clause, mut anywhere) = (None, None, None);
    let mut at = 0;
    while at < found.len() {
        let Some((length, row)) = WORDS.at(&found, at) else {
            at += 1;
            continue;
        };
        let start = found[at].start;
        if start >= clause
            && start < first_figure
            && first_figure < text.len()
            && !row.shape.is_empty()
        {
            beside_sizes = Some(row);
        }
        if start < first_comma.min(first_figure) {
            first_clause = Some(row);
        }
        anywhere = Some(row);
        at += length;
    }
    // Beside the sizes in the very clause of the name, the last word of the clause is meant, with a shape or without.
    let row: &'static RowOfTable = beside_sizes
        .filter(|_| clause > 0)
        .or(first_clause)
        .or(beside_sizes)
        .or(anywhere)?;
    let goods = by_name(&row.goods)?;
    let material = [row.material.as_str(), goods.material.as_str()]
        .into_iter()
        .find(|name| !name.is_empty());
    Some(GoodsWord {
        goods,
        word: &row.word,
        shape: &row.shape,
        material,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_word_names_goods_of_the_table() {
        for row in crate::tables::rows::<RowOfTable>(crate::tables::GOODS_WORDS) {
            assert!(by_name(&row.goods).is_some(), "{}: {}", row.word, row.goods);
        }
    }

    #[test]
    fn descriptions_name_goods() {
        for (text, goods) in [
            ("Base plate", "plate"),
            ("Signal post base, steel plate 500x500x30", "plate"),
            ("Counterweight, cast iron 400x300x150", "casting"),
            ("Gear oil ISO 220, 205 L drum", "drum"),
            ("Riffelblech", "plate"),
            ("Aluminiumblech", "sheet"),
            ("Rail clip, spring steel", "small parts"),
            ("Cast iron rail chair", "casting"),
            ("Concrete pipe DN450", "concrete pipe"),
            ("60 PCS STEEL PIPE 4.500 OD", "pipe"),
            ("Cable trough 1000x250x200", "concrete trough"),
            ("1 PUMP SKID CRATED 72X48X60 IN", "equipment skid"),
            ("Edelstahlrohr 60,3", "pipe"),
            ("Softwood bearer treated", "lumber"),
            ("Kerb 915x255x125", "concrete"),
        ] {
            assert_eq!(
                in_description(text).map(|word| word.goods.name.as_str()),
                Some(goods),
                "{text}"
            );
        }
        assert_eq!(in_description("M24x130 A4-80"), None);
    }
}
