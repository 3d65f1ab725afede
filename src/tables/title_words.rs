//! Labels that stand above a table: supplier, delivery, order, vehicle, date.

use super::phrases::{Phrases, Word};
use serde::Deserialize;
use std::sync::LazyLock;

/// What a label introduces.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum TitleRole {
    /// The supplier's name.
    Supplier,
    /// The receiver's name: never the supplier.
    Consignee,
    /// The delivery's number or name.
    Delivery,
    /// The order.
    Order,
    /// The vehicle.
    Vehicle,
    /// The date.
    Date,
    /// Something else.
    Other,
}

#[derive(Deserialize)]
struct RowOfTable {
    phrase: String,
    role: TitleRole,
}

static PHRASES: LazyLock<Phrases<TitleRole>> = LazyLock::new(|| {
    Phrases::new(
        super::rows::<RowOfTable>(super::TITLE_WORDS)
            .into_iter()
            .map(|row| (row.phrase, row.role)),
    )
});

/// The longest label that starts at word `at`: its length in words and its role.
pub fn at(words: &[Word], at: usize) -> Option<(usize, TitleRole)> {
    PHRASES.at(words, at).map(|(length, role)| (length, *role))
}
