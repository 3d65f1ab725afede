//! Which place each size of a chain takes, by what the goods are.

use super::{LONGEST_IN, SHORTEST, THICKEST, size};
use crate::understand::described::{Chain, Label};
use crate::understand::{Size1, Sizes};
use crate::units::LengthUnit;

/// A figure of a section that is more than so many depths is its length: flanges are no wider than twice the depth (common
/// practice, no source).
const LONG_FOR_DEPTH: f64 = 2.0;

/// Sizes of a chain: a unit behind the last covers those before it, except a foot mark or metre behind finer figures.
pub(super) fn chain_sizes(chain: &Chain, bare: LengthUnit) -> Vec<Option<Size1>> {
    let last = chain.parts.iter().rev().find_map(|part| part.written.unit);
    let decimals = chain
        .parts
        .iter()
        .any(|part| part.written.unit.is_none() && part.written.figure.value.fract() != 0.0);
    let covering = last.filter(|unit| match unit {
        LengthUnit::Ft | LengthUnit::Yd => false,
        LengthUnit::M => {
            decimals
                && chain
                    .parts
                    .iter()
                    .all(|part| part.written.figure.value < 15.0)
        }
        _ => true,
    });
    let marked = chain.parts.iter().any(|part| {
        part.written.unit.is_some_and(LengthUnit::is_us) || part.written.figure.fraction
    });
    // "EPAL pallet 1200x800" in a list in pounds is no 1200 in long.
    let whole = |figure: f64| figure.fract() == 0.0 && figure > LONGEST_IN;
    let bare = if chain
        .parts
        .iter()
        .any(|part| part.written.unit.is_none() && whole(part.written.figure.value))
    {
        LengthUnit::Mm
    } else {
        bare
    };
    let default = covering.unwrap_or(if marked && last.is_none_or(LengthUnit::is_us) {
        LengthUnit::In
    } else {
        bare
    });
    chain
        .parts
        .iter()
        .map(|part| size(part.written, Some(default)))
        .collect()
}

/// `2x10x16` without any unit: nominal inches and a stock length in feet (PS 20, American Softwood Lumber Standard).
fn nominal_lumber(chain: &Chain) -> bool {
    let bare = chain.parts.iter().all(|part| {
        part.written.unit.is_none()
            && part.label.is_none()
            && part.written.figure.value.fract() == 0.0
    });
    let values: Vec<f64> = chain
        .parts
        .iter()
        .map(|part| part.written.figure.value)
        .collect();
    bare && matches!(values.as_slice(), [thickness, width, length] if *thickness <= 8.0 && (2.0..=16.0).contains(width) && (6.0..=26.0).contains(length))
}

/// `4x8` of a board: feet, as the trade writes panel sizes.
fn sheet_in_feet(chain: &Chain) -> bool {
    let values: Vec<f64> = chain
        .parts
        .iter()
        .map(|part| part.written.figure.value)
        .collect();
    let bare = chain
        .parts
        .iter()
        .all(|part| part.written.unit.is_none() && !part.written.figure.fraction);
    bare && matches!(values.as_slice(), [width, length] if (2.0..=5.0).contains(width) && (4.0..=16.0).contains(length))
}

pub(super) fn put_chain(
    sizes: &mut Sizes,
    chain: &Chain,
    goods: &str,
    legged: bool,
    bare: LengthUnit,
) {
    let mut measured = chain_sizes(chain, bare);
    if goods == "lumber" && bare == LengthUnit::In && nominal_lumber(chain) {
        measured[2] = chain
            .parts
            .get(2)
            .and_then(|part| size(part.written, Some(LengthUnit::Ft)));
    }
    if goods == "panel" && bare == LengthUnit::In && sheet_in_feet(chain) {
        measured = chain
            .parts
            .iter()
            .map(|part| size(part.written, Some(LengthUnit::Ft)))
            .collect();
    }
    let mut free: Vec<Size1> = Vec::new();
    for (part, size) in chain.parts.iter().zip(&measured) {
        let label = match part.label {
            // "Ø600/Ø400": the second diameter is the inside one.
            Some(Label::Outside) if sizes.outside.is_some() && chain.slashed => Some(Label::Inside),
            label => label,
        };
        match (label, size) {
            (Some(label), Some(_)) => put(sizes, label, *size),
            (None, Some(size)) => free.push(*size),
            (_, None) => {}
        }
    }
    let round = chain
        .parts
        .first()
        .is_some_and(|part| part.label == Some(Label::Outside));
    let bar = is_bar(goods);
    let pipe = matches!(goods, "pipe" | "plastic pipe" | "concrete pipe") || (round && !bar);
    if bar {
        let mut free = free.into_iter();
        sizes.outside = sizes.outside.or_else(|| free.next());
        sizes.length = sizes.length.or_else(|| free.next());
    } else if legged && free.len() >= 3 {
        sizes.height = Some(free[0]);
        sizes.width = Some(free[1]);
        sizes.wall = Some(free[2]);
        sizes.length = sizes.length.or(free.get(3).copied());
    } else if pipe {
        let by_inside =
            goods == "concrete pipe" && !round && !chain.slashed && sizes.outside.is_none();
        put_pipe(sizes, &free, chain.slashed, by_inside);
    } else if matches!(
        goods,
        "plate" | "sheet" | "flat bar" | "panel" | "glass" | "lumber"
    ) {
        free.sort_by(|one, other| other.length.m().total_cmp(&one.length.m()));
        match free.as_slice() {
            [length, width, height, ..] => {
                sizes.length = sizes.length.or(Some(*length));
                sizes.width = sizes.width.or(Some(*width));
                sizes.height = sizes.height.or(Some(*height));
            }
            // Both too large for a thickness: "4x8" of a board.
            [length, width] if width.length.m() > THICKEST => {
                sizes.length = sizes.length.or(Some(*length));
                sizes.width = sizes.width.or(Some(*width));
            }
            [width, height] => {
                sizes.width = sizes.width.or(Some(*width));
                sizes.height = sizes.height.or(Some(*height));
            }
            _ => {}
        }
    } else if goods == "square bar" && free.len() == 2 {
        sizes.width = sizes.width.or(free.first().copied());
        sizes.length = sizes.length.or(free.get(1).copied());
    } else if goods == "section" {
        put_section(sizes, &free);
    } else {
        let mut free = free.into_iter();
        for side in [&mut sizes.length, &mut sizes.width, &mut sizes.height] {
            *side = side.take().or_else(|| free.next());
        }
    }
}

/// Depth x flange (x web) x length: what is longer than the depth is the length.
fn put_section(sizes: &mut Sizes, free: &[Size1]) {
    let Some(depth) = free.first().copied() else {
        return;
    };
    sizes.height = sizes.height.or(Some(depth));
    for size in &free[1..] {
        let slot = if size.length.m() > LONG_FOR_DEPTH * depth.length.m() {
            &mut sizes.length
        } else if sizes.width.is_none() {
            &mut sizes.width
        } else {
            &mut sizes.wall
        };
        *slot = slot.or(Some(*size));
    }
}

/// Outside x wall (x length), outside / inside, or outside x length.
fn put_pipe(sizes: &mut Sizes, free: &[Size1], slashed: bool, by_inside: bool) {
    // Inside or wall have their labels: what is left over is the length.
    if sizes.outside.is_some() && sizes.inside.is_some()
        || sizes.outside.is_none()
            && (sizes.inside.is_some() || sizes.wall.is_some() && by_inside && free.len() == 1)
    {
        sizes.length = sizes.length.or(free.first().copied());
        return;
    }
    // Concrete pipe goes by its inside diameter (ASTM C76).
    if by_inside {
        let (inside, rest) = (free.first().copied(), free.get(1..).unwrap_or(&[]));
        sizes.inside = sizes.inside.or(inside);
        let is_wall =
            |size: &Size1| inside.is_some_and(|inside| size.length.m() < inside.length.m() / 2.0);
        for size in rest {
            let slot = if is_wall(size) && sizes.wall.is_none() {
                &mut sizes.wall
            } else {
                &mut sizes.length
            };
            *slot = slot.or(Some(*size));
        }
        return;
    }
    let mut rest = free.iter().copied();
    let Some(outside) = sizes.outside.or_else(|| rest.next()) else {
        return;
    };
    sizes.outside = Some(outside);
    if let Some(second) = rest.next() {
        let half = outside.length.m() / 2.0;
        if slashed && second.length.m() < outside.length.m() {
            sizes.inside = sizes.inside.or(Some(second));
        } else if second.length.m() < half && sizes.wall.is_none() {
            sizes.wall = Some(second);
        } else {
            sizes.length = sizes.length.or(Some(second));
        }
    }
    if let Some(third) = rest.next() {
        sizes.length = sizes.length.or(Some(third));
    }
}

pub(super) fn put_labelled(sizes: &mut Sizes, chain: &Chain, bare: LengthUnit) {
    let Some(part) = chain.parts.first() else {
        return;
    };
    let fraction = part.written.figure.fraction;
    let default = if fraction { LengthUnit::In } else { bare };
    if let Some(label) = part.label {
        put(sizes, label, size(part.written, Some(default)));
    }
}

/// A single size without a label: a bar's diameter, or a length when it has a unit.
pub(super) fn put_single(sizes: &mut Sizes, chain: &Chain, goods: &str, bare: LengthUnit) {
    let Some(part) = chain.parts.first().filter(|part| part.label.is_none()) else {
        return;
    };
    let bar = is_bar(goods);
    let bare = if part.written.figure.fraction {
        LengthUnit::In
    } else {
        bare
    };
    let Some(found) = size(part.written, Some(bare)) else {
        return;
    };
    let sheet = matches!(goods, "panel" | "plate" | "sheet" | "glass");
    if sheet && part.written.unit.is_some() && found.length.m() <= THICKEST
        || goods == "panel" && found.length.m() <= THICKEST
    {
        sizes.height = sizes.height.or(Some(found));
        return;
    }
    if bar && sizes.outside.is_none() && found.length.m() < 0.7 {
        sizes.outside = Some(found);
    } else if part.written.unit.is_some()
        && sizes.length.is_none()
        && long_goods(goods)
        && found.length.m() >= SHORTEST
    {
        sizes.length = Some(found);
    }
}

/// Goods named by one size across, then their length.
fn is_bar(goods: &str) -> bool {
    matches!(
        goods,
        "round bar" | "rebar" | "threaded rod" | "hexagonal bar"
    )
}

fn long_goods(goods: &str) -> bool {
    matches!(
        goods,
        "round bar"
            | "rebar"
            | "threaded rod"
            | "flat bar"
            | "square bar"
            | "hexagonal bar"
            | "pipe"
            | "plastic pipe"
            | "concrete pipe"
            | "section"
            | "hollow section"
            | "rail"
            | "lumber"
    )
}

fn put(sizes: &mut Sizes, label: Label, size: Option<Size1>) {
    let slot = match label {
        Label::Length => &mut sizes.length,
        Label::Width => &mut sizes.width,
        Label::Height | Label::Thickness => &mut sizes.height,
        Label::Outside => &mut sizes.outside,
        Label::Inside => &mut sizes.inside,
        Label::Wall => &mut sizes.wall,
        // These never stand in a chain of sizes.
        Label::Further(_) => return,
    };
    *slot = slot.or(size);
}
