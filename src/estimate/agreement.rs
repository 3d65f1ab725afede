//! Whether a standard product's name and the sizes beside it describe the same thing (method, section 1).

use super::form;
use super::products::Product;
use super::shaped::{of_solid, whole};
use super::words::{Named, Words, sizes_in_columns};
use super::{Estimate, Otherwise, details, shapes};
use crate::tables::goods;
use crate::understand::Item;

/// The estimate by the product's name, or the one by the sizes where that is heavier and the ranges do not meet; either then
/// tells what the other gives.
pub(super) fn checked(
    item: &Item,
    words: &Words,
    product: &Product,
    by_name: Estimate,
) -> Estimate {
    let Some(by_size) = by_size(item, words, product) else {
        return by_name;
    };
    if by_name.line.meets(by_size.line) {
        return by_name;
    }
    let (heavier, lighter) = if by_name.line.likely.fits(by_size.line.likely) {
        (by_size, by_name)
    } else {
        (by_name, by_size)
    };
    Estimate {
        product: Some(product.designation.clone()),
        otherwise: Some(Otherwise {
            product: product.designation.clone(),
            evidence: lighter.evidence,
            line: lighter.line,
        }),
        ..heavier
    }
}

/// The estimate by size columns, where the kind of goods is made to the sizes it is named by: not lumber, boards and pipe,
/// whose names are nominal, and not sections, whose sizes are an outline.
fn by_size(item: &Item, words: &Words, product: &Product) -> Option<Estimate> {
    // Sizes that the description gives are the name's own.
    let kind =
        goods::by_name(product.goods).filter(|kind| kind.true_size && sizes_in_columns(item))?;
    let Named::Known(material, _) = &words.material else {
        return None;
    };
    // A diameter beside a flat or a square thing is a misread figure of the description.
    let solid = shapes::solid(&kind.shape, &item.sizes, &details::of(item))
        .ok()
        .filter(|solid| solid.shape == kind.shape)?;
    let form = form::of(words, &item.sizes, Some(material));
    let (piece, fill, steps) = of_solid(words, Some(kind), material, &solid, &form);
    Some(whole(
        item,
        Some(kind),
        material,
        &solid,
        piece,
        fill,
        steps,
    ))
}
