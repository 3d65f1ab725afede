//! The estimate of one line: the best kind of evidence its words and sizes give.

use super::contents::{by_stated_mass_per_length, contained};
use super::shaped::shaped;
use super::standard::standard;
use super::{Estimate, NoEstimate, products, words};
use crate::understand::Item;

/// Estimates one line. `metric` says whether the file's signs are metric (`Some(true)`), US (`Some(false)`) or neither.
///
/// # Errors
/// Why there is no estimate: what is missing, with the nearest thing known.
pub fn line(item: &Item, metric: Option<bool>) -> Result<Estimate, NoEstimate> {
    let words = words::read(item, metric);
    if let Some(estimate) = by_stated_mass_per_length(item, &words) {
        return Ok(estimate);
    }
    if let Some(container) = products::container(&item.description) {
        return contained(item, &container);
    }
    match &words.product {
        Some(product) => standard(item, product, &words),
        None => shaped(item, &words),
    }
}
