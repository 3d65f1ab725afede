//! Bare figures of a description whose unit the words leave open: no estimate is better than one that is a thousand times
//! too light.

use super::words::sizes_in_columns;
use crate::tables::goods::Goods;
use crate::understand::described::{self, Chain, Part};
use crate::understand::{Item, Size1};
use crate::units::LengthUnit;
use crate::units::written::Decimal;

/// Largest figure that may be feet before a foot mark: no vehicle is wider or higher than 10 ft (common practice, no source).
const WIDEST_FT: f64 = 10.0;
/// Plates and blocks of this width and less in millimetres are strips (common practice, no source).
const NARROWEST_MM: f64 = 100.0;
/// Goods all of whose sides are below this are no goods of a delivery; then the figures are metres (common practice, no source).
const SMALLEST_MM: f64 = 20.0;
/// Lumber up to this both ways in millimetres is a lath; the trade names beams by centimetres (`Kantholz 10x10`) (common practice,
/// no source).
const LATH_MM: f64 = 30.0;

/// Why the unit of the description's bare figures is not known, where it is not.
pub(super) fn unit(item: &Item, kind: Option<&Goods>) -> Option<&'static str> {
    if sizes_in_columns(item) {
        return None;
    }
    let found = described::read(&item.description, Decimal::Unclear);
    let open = |test: fn(&Chain) -> bool| found.chains.iter().any(test);
    let mm = |size: Option<Size1>| size.map(|size| size.length.mm());
    let (length, width, height) = (
        mm(item.sizes.length),
        mm(item.sizes.width),
        mm(item.sizes.height),
    );
    let all_below = |sides: &[Option<f64>], limit: f64| {
        sides
            .iter()
            .all(|side| side.is_some_and(|side| side <= limit))
    };
    if !kind.is_some_and(|kind| kind.nominal) && open(before_feet) {
        Some("whether the figures before the foot mark are feet or inches is not stated")
    } else if kind.is_none_or(in_sheets_or_blocks) && open(before_metres) {
        Some("whether the figures before the metre mark are metres or millimetres is not stated")
    } else if open(without_unit) && all_below(&[length, width, height], SMALLEST_MM) {
        Some("the unit of the sizes is not stated")
    } else if kind.is_some_and(|kind| kind.name == "lumber")
        && open(starts_without_unit)
        && all_below(&[width, height], LATH_MM)
    {
        Some("whether the section is in centimetres or millimetres is not stated")
    } else {
        None
    }
}

fn bare(part: &Part) -> bool {
    part.written.unit.is_none() && !part.written.figure.fraction
}

/// "Concrete block 2x2x4'": bare figures before a foot mark that are feet as well as inches, 144 times the volume.
fn before_feet(chain: &Chain) -> bool {
    chain.parts.split_last().is_some_and(|(last, before)| {
        !before.is_empty()
            && last.written.unit == Some(LengthUnit::Ft)
            && before
                .iter()
                .all(|part| bare(part) && part.written.figure.value <= WIDEST_FT)
    })
}

/// Goods as wide as they are long; bars and pipes have their section before the mark.
fn in_sheets_or_blocks(kind: &Goods) -> bool {
    !kind.nominal || matches!(kind.name.as_str(), "plate" | "sheet" | "panel" | "glass")
}

/// "Steel plate 20 x 2 x 6 m": a strip of 20 mm, or a plate of 2 m.
fn before_metres(chain: &Chain) -> bool {
    chain.parts.split_last().is_some_and(|(last, before)| {
        before.len() > 1
            && last.written.unit == Some(LengthUnit::M)
            && before.iter().all(|part| {
                let figure = part.written.figure.value;
                bare(part) && figure.fract() == 0.0 && figure <= NARROWEST_MM
            })
    })
}

/// "Block 0.6 x 0.6 x 1.2": metres in a list whose bare figures are millimetres.
fn without_unit(chain: &Chain) -> bool {
    chain.parts.len() > 1 && chain.parts.iter().all(bare)
}

/// "10x10 4 m", "10x10x4 m".
fn starts_without_unit(chain: &Chain) -> bool {
    chain.parts.len() > 1 && chain.parts.iter().take(2).all(bare)
}
