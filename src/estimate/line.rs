//! The estimate of one line: the best kind of evidence its words and sizes give.

use super::agreement::checked;
use super::contents::{by_stated_mass_per_length, by_volume, contained};
use super::materials::Vocabulary;
use super::shaped::shaped;
use super::standard::standard;
use super::vessel::filled;
use super::{Estimate, NoEstimate, details, words};
use crate::understand::Item;

/// Heaviest line that is estimated, kg. Lighter ones that are still too heavy for any vehicle are held by their weight.
const HEAVIEST_KG: f64 = 1e9;

/// Longest description that is read, bytes: names are looked for at each of its words, so a cell stuffed with text would cost
/// its square. The longest in the demo and the practice lists has 50 (common practice, no source).
const LONGEST: usize = 2_000;

/// Estimates one line by the materials of the vocabulary. `metric` says whether the file's signs are metric (`Some(true)`), US (`Some(false)`) or neither.
///
/// # Errors
/// Why there is no estimate: what is missing, with the nearest thing known.
pub fn line(
    item: &Item,
    metric: Option<bool>,
    vocabulary: &Vocabulary,
) -> Result<Estimate, NoEstimate> {
    if item.description.len() > LONGEST {
        return Err(no("the description is too long to name goods", None));
    }
    let estimate = by_best_evidence(item, metric, vocabulary)?;
    // Written so that what is no number fails too.
    if estimate.line.high.kg() <= HEAVIEST_KG {
        Ok(estimate)
    } else {
        Err(no(
            "the sizes or the number of pieces are beyond any vehicle",
            estimate.goods,
        ))
    }
}

fn by_best_evidence(
    item: &Item,
    metric: Option<bool>,
    vocabulary: &Vocabulary,
) -> Result<Estimate, NoEstimate> {
    let words = words::read(item, metric, vocabulary);
    if let Some(estimate) = by_stated_mass_per_length(item, &words) {
        return Ok(estimate);
    }
    if let Some(container) = &words.container {
        return contained(item, container, vocabulary);
    }
    match &words.product {
        Some(product)
            if matches!(product.goods, "pipe" | "hollow section" | "concrete pipe")
                && filled(&details::of(item)) =>
        {
            Err(no(
                "what is in the pipe is not part of its standard mass",
                words.goods_name(),
            ))
        }
        Some(product) => {
            standard(item, product, &words).map(|estimate| checked(item, &words, product, estimate))
        }
        // The sizes alone would make it one pane.
        None if words.several_lites => Err(no(
            "how many lites of glass there are, and how thick, is not stated",
            words.goods_name(),
        )),
        None => match by_volume(item, &words) {
            Some(estimate) => Ok(estimate),
            None => shaped(item, &words),
        },
    }
}

fn no(why: &str, goods: Option<&'static str>) -> NoEstimate {
    NoEstimate {
        why: why.to_string(),
        impossible: false,
        goods,
        upper: None,
        outline: None,
    }
}
