//! The tables people maintain: CSV with a source column, embedded in the binary.

pub mod goods;
pub mod headings;
pub mod materials;
pub mod packages;
pub mod phrases;
pub mod priors;
pub mod products;
pub mod register_headings;
pub mod row_words;
pub mod title_words;

use serde::de::DeserializeOwned;

/// Spellings of units.
pub const UNITS: &str = include_str!("tables/units.csv");

/// Kinds of goods.
pub const GOODS: &str = include_str!("tables/goods.csv");
/// Words that name goods.
pub const GOODS_WORDS: &str = include_str!("tables/goods_words.csv");
/// Words of column headings.
pub const HEADINGS: &str = include_str!("tables/headings.csv");
/// Densities of materials.
pub const MATERIALS: &str = include_str!("tables/materials.csv");
/// Words that name or do not name materials.
pub const MATERIAL_WORDS: &str = include_str!("tables/material_words.csv");
/// Words of a fleet register's headings.
pub const REGISTER_HEADINGS: &str = include_str!("tables/register_headings.csv");
/// Words for packages and units of count.
pub const PACKAGES: &str = include_str!("tables/packages.csv");
/// How often each kind of slip is the cause of a mismatch.
pub const PRIORS: &str = include_str!("tables/priors.csv");
/// Labels of title rows.
pub const TITLE_WORDS: &str = include_str!("tables/title_words.csv");
/// Words of rows and cells that are not goods.
pub const ROW_WORDS: &str = include_str!("tables/row_words.csv");

/// All rows of an embedded table.
///
/// # Panics
/// When an embedded table is malformed: a fault of the build, caught by the tests of each table, never of the input.
pub fn rows<T: DeserializeOwned>(table: &str) -> Vec<T> {
    csv::Reader::from_reader(table.as_bytes())
        .deserialize()
        .map(|row| row.expect("an embedded table is well formed"))
        .collect()
}

/// Name and text of every embedded table.
pub fn all() -> impl Iterator<Item = (String, &'static str)> {
    let named = [
        ("units", UNITS),
        ("goods", GOODS),
        ("goods words", GOODS_WORDS),
        ("headings", HEADINGS),
        ("packages", PACKAGES),
        ("priors of causes", PRIORS),
        ("title words", TITLE_WORDS),
        ("row words", ROW_WORDS),
        ("materials", MATERIALS),
        ("material words", MATERIAL_WORDS),
        ("register headings", REGISTER_HEADINGS),
    ];
    named
        .into_iter()
        .map(|(name, table)| (name.to_string(), table))
        .chain(
            products::ALL
                .iter()
                .map(|(name, table)| (format!("products: {name}"), *table)),
        )
}

/// Name, size with hash, and source of every embedded table, for the Basis sheet.
pub fn sources() -> Vec<(String, String, String)> {
    use sha2::{Digest, Sha256};
    all()
        .map(|(name, table)| {
            let hash: String = Sha256::digest(table)
                .iter()
                .take(8)
                .map(|byte| format!("{byte:02x}"))
                .collect();
            (
                name,
                format!(
                    "{} rows, SHA-256 begins {hash}",
                    table.lines().count().saturating_sub(1)
                ),
                "a source in every row".to_string(),
            )
        })
        .collect()
}
