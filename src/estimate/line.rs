//! The estimate of one line: the best kind of evidence its words and sizes give.

use super::agreement::checked;
use super::contents::{by_amount, by_stated_mass_per_length, by_volume, contained};
use super::materials::Vocabulary;
use super::products::Measure;
use super::shaped::shaped;
use super::standard::standard;
use super::vessel::filled;
use super::words::Words;
use super::{Estimate, NoEstimate, details, words};
use crate::tables::goods;
use crate::tables::packages::{self, Counts};
use crate::understand::{How, Item};

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
    if let Some(gross) = words.loaded {
        let why = format!(
            "what is in the freight container is not known, nor that it is empty; with its load it may weigh {:.0} kg ({:.0} lb), newer ones more",
            gross.kg(),
            gross.lb()
        );
        return Err(no(&why, None));
    }
    if let Some(amount) = item.amount {
        return by_amount(item, &words, amount).map_err(|why| no(why, words.goods_name()));
    }
    if let Some(estimate) = by_stated_mass_per_length(item, &words) {
        return Ok(estimate);
    }
    if let Some(container) = &words.container {
        return contained(item, container, vocabulary);
    }
    if let Some(package) = uncounted(item, &words) {
        return Err(no(
            &format!("how many are in the {package} is not stated"),
            words.goods_name(),
        ));
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

/// The package of a standard product that comes by several, where nobody says by how many.
fn uncounted(item: &Item, words: &Words) -> Option<&'static str> {
    let product = words.product.as_ref()?;
    let by_piece = matches!(
        product.measure,
        Measure::PerPiece { .. } | Measure::PerArea { .. }
    );
    let bundled = goods::by_name(product.goods).is_some_and(|goods| goods.bundled);
    let several = by_piece || bundled || item.packed_as == Some("bundle");
    let package = item.packed_as.filter(|name| {
        *name != product.goods
            && !(*name == "bundle" && product.goods == "shingle bundle")
            && packages::of_word(name).is_some_and(|word| word.counts == Counts::Package)
    });
    // "Pallet of glass", 1: the number counts the pallet.
    let unknown = item.pieces_how == How::Assumed || item.pieces == 1 && says_package_of(item);
    package.filter(|_| several && unknown)
}

fn says_package_of(item: &Item) -> bool {
    let words: Vec<&str> = item.description.split(' ').collect();
    words.windows(2).any(|pair| {
        let package = packages::of_word(pair[0]).is_some_and(|word| word.counts == Counts::Package);
        package && matches!(pair[1].to_lowercase().as_str(), "of" | "de" | "di" | "von")
    })
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
