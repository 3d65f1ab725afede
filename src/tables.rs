//! The tables people maintain: CSV with a source column, embedded in the binary.

pub mod goods;
pub mod headings;
pub mod materials;
pub mod packages;
pub mod phrases;
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
/// Words for packages and units of count.
pub const PACKAGES: &str = include_str!("tables/packages.csv");
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
