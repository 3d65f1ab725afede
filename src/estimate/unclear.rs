//! Bare figures of a description whose unit the words leave open: no estimate is better than one that is a thousand times
//! too light.

use super::words::sizes_in_columns;
use crate::tables::goods::Goods;
use crate::understand::described::{self, Chain, Part};
use crate::understand::{Item, Size1};
use crate::units::written::Decimal;
use crate::units::{Length, LengthUnit};

/// Largest figure that may be feet before a foot mark: no vehicle is wider or higher than 10 ft (common practice, no source).
const WIDEST_FT: f64 = 10.0;
/// Plates and blocks of this width and less in millimetres are strips (common practice, no source).
const NARROWEST_MM: f64 = 100.0;
/// Goods all of whose sides are below this are no goods of a delivery; then the figures are metres (common practice, no source).
const SMALLEST_MM: f64 = 20.0;
/// The same of goods that lifting gear is there for: slabs, rings and basins are named by inches or centimetres too (common practice,
/// no source).
const SMALLEST_HEAVY_MM: f64 = 150.0;
/// Goods that are that heavy.
const HEAVY: [&str; 6] = [
    "block",
    "concrete",
    "concrete pipe",
    "concrete trough",
    "shaped piece",
    "stone",
];
/// Lumber up to this both ways in millimetres is a lath; the trade names beams by centimetres (`Kantholz 10x10`) (common practice,
/// no source).
const LATH_MM: f64 = 30.0;

/// Longest bare length in inches that may be feet, and in millimetres that may be metres: the longest stock lengths but for
/// rails (common practice, no source).
const LONGEST_FT: f64 = 40.0;
const LONGEST_M: f64 = 24.0;

/// Why the unit of the description's bare figures is not known, where it is not.
pub(super) fn unit(item: &Item, kind: Option<&Goods>) -> Option<&'static str> {
    if sizes_in_columns(item) {
        return None;
    }
    let found = described::read(&item.description, Decimal::Unclear);
    if found.open_labels {
        return Some("which figure the words for its sizes belong to is not clear");
    }
    let open = |test: fn(&Chain) -> bool| found.chains.iter().any(test);
    let sizes = &item.sizes;
    let below = |sides: &[Option<Size1>], limit: f64| {
        let mm = |size: &Size1| size.length.mm();
        sides
            .iter()
            .all(|side| side.as_ref().map(mm).is_some_and(|side| side <= limit))
    };
    let all = [sizes.length, sizes.width, sizes.height];
    let named = |names: &[&str]| kind.is_some_and(|kind| names.contains(&kind.name.as_str()));
    let nominal = kind.is_some_and(|kind| kind.nominal);
    let sheet = named(&["plate", "sheet", "panel", "glass"]);
    let by_the_length = kind.is_some_and(|kind| kind.broadside);
    let given = [sizes.length, sizes.width, sizes.height, sizes.outside];
    let given: Vec<Option<Size1>> = given.into_iter().filter(Option::is_some).collect();
    let small = below(&all, SMALLEST_MM) || named(&HEAVY) && below(&given, SMALLEST_HEAVY_MM);
    if open(without_unit) && small {
        Some("the unit of the sizes is not stated")
    } else if !nominal && (open(before_feet) || open(few_feet)) {
        Some("whether the figures are feet or inches is not stated")
    } else if (!nominal || sheet) && open(before_metres) {
        Some("whether the figures before the metre mark are metres or millimetres is not stated")
    } else if named(&["lumber"]) && open(starts_without_unit) && below(&all[1..], LATH_MM) {
        Some("whether the section is in centimetres or millimetres is not stated")
    } else if sheet && open(without_unit) && below(&all[1..2], LONGEST_M) {
        Some("whether the figures are metres or millimetres is not stated")
    } else if by_the_length && !named(&["lumber", "panel"]) && length(item) {
        Some("whether the last figure is feet, inches or metres is not stated")
    } else {
        None
    }
}

/// Whether the description's length is a bare figure that may be feet or metres: "Plate 1/2 x 4 x 8", "Rod 60 x 6". A figure
/// beside an equal one is a side.
pub(super) fn length(item: &Item) -> bool {
    let sizes = &item.sizes;
    let sides = [sizes.length, sizes.width, sizes.height];
    let sides = sides.into_iter().flatten().map(|size| size.length);
    let length = sides.clone().fold(Length::ZERO, Length::max);
    if sides.filter(|side| *side == length).count() != 1 {
        return false;
    }
    let same = |figure: f64, read: f64| (figure / read - 1.0).abs() < 1e-6;
    described::read(&item.description, Decimal::Unclear)
        .chains
        .iter()
        .filter(|chain| chain.parts.len() > 1)
        .any(|chain| {
            let figures = chain.parts.iter().map(|part| part.written.figure.value);
            let largest = figures.clone().fold(0.0, f64::max);
            let smallest = figures.fold(f64::MAX, f64::min);
            // A unit behind a figure covers it; a thickness written last is no length.
            let open = chain.parts.iter().rev().take_while(|part| bare(part));
            let open: Vec<f64> = open.map(|part| part.written.figure.value).collect();
            let last = open.first().filter(|last| **last > smallest);
            if same(largest, length.inches()) {
                last.is_some_and(|last| *last <= LONGEST_FT)
                    || open.contains(&largest) && largest <= LONGEST_FT
            } else {
                same(largest, length.mm()) && open.contains(&largest) && largest <= LONGEST_M
            }
        })
}

fn bare(part: &Part) -> bool {
    part.written.unit.is_none() && !part.written.figure.fraction
}

/// "Concrete block 2x2x4'": bare figures before a foot mark that are feet as well as inches, 144 times the volume.
fn before_feet(chain: &Chain) -> bool {
    let Some((last, before)) = chain.parts.split_last() else {
        return false;
    };
    // One of three may be a length: "10 x 12 x 8 ft" stands in no vehicle but lies on one.
    let wide = |part: &&Part| part.written.figure.value > WIDEST_FT;
    let long = chain.parts.len() > 2 && chain.parts.iter().filter(wide).count() == 1;
    !before.is_empty()
        && last.written.unit == Some(LengthUnit::Ft)
        && before.iter().all(|part| {
            let figure = part.written.figure.value;
            bare(part) && (figure <= WIDEST_FT || long && figure <= LONGEST_FT)
        })
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

/// "Counterweight 2x3x4": few feet or few inches, 1,728 times the volume.
fn few_feet(chain: &Chain) -> bool {
    let few = |part: &Part| bare(part) && part.written.figure.value <= WIDEST_FT;
    chain.parts.len() > 2 && chain.parts.iter().all(few)
}

/// "Block 0.6 x 0.6 x 1.2": metres in a list whose bare figures are millimetres.
fn without_unit(chain: &Chain) -> bool {
    chain.parts.len() > 1 && chain.parts.iter().all(bare)
}

/// "10x10 4 m", "10x10x4 m".
fn starts_without_unit(chain: &Chain) -> bool {
    chain.parts.len() > 1 && chain.parts.iter().take(2).all(bare)
}
