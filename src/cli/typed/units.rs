//! Units of a typed text: the country they are of, and sizes whose unit is not clear.

use super::product;
use crate::estimate::materials::{Found, Vocabulary};
use crate::estimate::products::Measure;
use crate::tables::goods;
use crate::understand::described;
use crate::units::written::{Decimal, MassText, mass};
use crate::units::{LengthUnit, MassUnit};

/// A figure below this before a length in metres or feet may be in that unit too (common practice, no source).
const SMALL: f64 = 15.0;

/// Small figures without a unit before a length in metres or feet ("2 x 2 x 1 m"): millimetres or metres, inches or feet.
/// A list would read them as the finer unit; a wrong light weight is worse than a question. The name of a product
/// ("2x10x16 ft") says its own.
pub(super) fn unclear(text: &str) -> Option<String> {
    let named = product(text).is_some_and(|product| match product.measure {
        Measure::PerLength { .. } => true,
        Measure::Dressed { .. } => is_wood(text),
        Measure::PerArea { .. } | Measure::PerPiece { .. } => false,
    });
    if named {
        return None;
    }
    let found = described::read(text, Decimal::Unclear);
    let chain = found.chains.iter().find(|chain| {
        let long = chain.parts.last().and_then(|part| part.written.unit);
        let long = matches!(long, Some(LengthUnit::M | LengthUnit::Ft | LengthUnit::Yd));
        let small = chain.parts.iter().any(|part| {
            let figure = part.written.figure;
            part.written.unit.is_none() && !figure.fraction && figure.value < SMALL
        });
        chain.parts.len() > 1 && long && small
    })?;
    let figures = chain
        .parts
        .iter()
        .map(|part| part.written.figure.value.to_string());
    Some(figures.collect::<Vec<_>>().join(" x "))
}

/// Lumber, or goods of wood: "3 x 4" is the name of a dressed size there only.
fn is_wood(text: &str) -> bool {
    let goods = goods::in_description(text).map(|word| word.goods.name.as_str());
    let wood = match Vocabulary::built_in().in_description(text, false) {
        Found::Known { material, .. } => material.group == "wood",
        _ => false,
    };
    matches!(goods, None | Some("lumber")) && wood || goods == Some("lumber")
}

/// The country of the units that stand in the text.
pub(super) fn us(text: &str, declared: Option<&str>) -> Option<bool> {
    let found = described::read(text, Decimal::Unclear);
    let parts = found.chains.iter().flat_map(|chain| &chain.parts);
    let lengths = parts
        .filter_map(|part| part.written.unit)
        .map(LengthUnit::is_us);
    let weight = declared.and_then(|text| match mass(text, Decimal::Unclear) {
        MassText::Figure { unit, .. } => unit?.unit(None),
        _ => None,
    });
    let weight = weight.map(|unit| !matches!(unit, MassUnit::Kg | MassUnit::G | MassUnit::Tonne));
    let (mut us, mut metric) = (false, false);
    for is_us in lengths.chain(weight) {
        us |= is_us;
        metric |= !is_us;
    }
    (us != metric).then_some(us)
}
