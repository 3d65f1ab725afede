//! What the tests of product names share.

use super::{Measure, Product};

pub(super) const US: Option<bool> = Some(false);
pub(super) const SI: Option<bool> = Some(true);

/// The product a description names.
pub(super) fn recognise(description: &str, hint: Option<bool>) -> Option<Product> {
    super::named(description, hint).product
}

/// Kilograms a metre.
#[track_caller]
pub(super) fn per_metre(product: &Product) -> f64 {
    match product.measure {
        Measure::PerLength { kg_per_m } => kg_per_m,
        ref other => panic!("{}: {other:?}", product.designation),
    }
}
