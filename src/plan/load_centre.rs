//! The load centre of one lift (method, section 5): `gap + half of its length along the forks`.

use super::{Basics, LiftOf, Load, LoadCentreFrom};
use crate::estimate::Estimate;
use crate::site::Site;
use crate::tables::packages;
use crate::understand::{Entered, Size1, Sizes};
use crate::units::Length;

/// The centre of gravity of an odd shape may lie this far into its depth (method, section 5).
const ODD: f64 = 0.6;
/// Goods longer than this many times their width are entered at the long side.
const LONG: f64 = 1.5;

/// Where the forks find the load.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Centre {
    /// Load centre.
    pub load_centre: Length,
    /// Size along the forks.
    pub depth: Length,
    /// Size across the forks, where known.
    pub across: Option<Length>,
    /// Height of the load, where known.
    pub height: Option<Length>,
    /// Where the sizes came from.
    pub from: LoadCentreFrom,
}

/// The load centre of a lift of `pieces` pieces.
pub(super) fn of(load: &Load<'_>, lift_of: LiftOf, pieces: u32, site: &Site) -> Centre {
    let found = sides(load, lift_of, pieces);
    let (depth, across, height, from) = match found {
        Some((sides, from)) => {
            let depth = depth(load, sides, from);
            let [length, width, _] = sides;
            let across = if depth < length.max(width) {
                length.max(width)
            } else {
                length.min(width)
            };
            // A package is never less deep than its widest piece is wide.
            let piece = load
                .basics
                .largest
                .or_else(|| load.outline().filter(|_| !wound(load)))
                .filter(|_| from == LoadCentreFrom::Package);
            let least = piece.map_or(Length::ZERO, |[length, width, _]| length.min(width));
            (depth.max(least), Some(across), sides[2], from)
        }
        None => {
            let (depth, height, from) = without_sizes(load, site);
            (depth, None, height, from)
        }
    };
    let part = if odd(load) { ODD } else { 0.5 };
    Centre {
        load_centre: site.load_gap_m + depth * part,
        depth,
        across,
        height: Some(height).filter(|height| height.m() > 0.0),
        from,
    }
}

/// The same with the load turned so that the forks enter at its long side; none where that is no nearer.
pub(super) fn turned(
    load: &Load<'_>,
    lift_of: LiftOf,
    pieces: u32,
    site: &Site,
    as_it_comes: &Centre,
) -> Option<Centre> {
    let basics = Basics {
        entered: Some(Entered::Broadside),
        ..load.basics.clone()
    };
    let turned = of(&Load { basics, ..*load }, lift_of, pieces, site);
    (!as_it_comes.load_centre.fits(turned.load_centre)).then_some(turned)
}

/// Depth and least height of a load without sizes: the site's default, or its largest piece where that is deeper.
fn without_sizes(load: &Load<'_>, site: &Site) -> (Length, Length, LoadCentreFrom) {
    let [.., height] = load.basics.largest.unwrap_or([Length::ZERO; 3]);
    let piece = load
        .basics
        .largest
        .map(|sides| depth(load, sides, LoadCentreFrom::Package))
        .filter(|piece| !piece.fits(site.default_depth_m));
    match piece {
        Some(piece) => (piece, height, LoadCentreFrom::Piece),
        None => (site.default_depth_m, height, LoadCentreFrom::Default),
    }
}

/// Length, width and height of one piece; of a reel its diameter and width.
pub(super) fn piece(load: &Load<'_>) -> Option<[Length; 3]> {
    let sides = if wound(load) {
        wound_sides(&load.basics.sizes)
    } else {
        load.outline().or_else(|| box_of(&load.basics.sizes))
    };
    sides.filter(|[length, width, _]| length.m() > 0.0 && width.m() > 0.0)
}

fn odd(load: &Load<'_>) -> bool {
    load.estimate.is_ok_and(Estimate::is_outline)
        || load.goods().is_some_and(|goods| {
            matches!(goods.name.as_str(), "machine" | "casting" | "fabrication")
        })
}

/// The length of wound goods is what is on the reel: no side of the load.
fn wound(load: &Load<'_>) -> bool {
    let goods = load.goods().map(|goods| goods.name.as_str());
    [load.basics.packed_as, goods]
        .into_iter()
        .flatten()
        .any(packages::wound)
}

/// Length, width and height of one lift.
fn sides(load: &Load<'_>, lift_of: LiftOf, pieces: u32) -> Option<([Length; 3], LoadCentreFrom)> {
    if let Some(sides) = box_of(&load.basics.package_sizes) {
        return Some((sides, LoadCentreFrom::Package));
    }
    let outline = piece(load)?;
    if pieces > 1 && lift_of != LiftOf::Piece {
        return Some((pack(outline, pieces), LoadCentreFrom::Pack));
    }
    Some((outline, LoadCentreFrom::Piece))
}

/// Diameter and width of a reel.
fn wound_sides(sizes: &Sizes) -> Option<[Length; 3]> {
    let outside = sizes.outside.map(|size| size.length).or_else(|| {
        let (width, height) = (sizes.width?.length, sizes.height?.length);
        Some(width.max(height))
    })?;
    let width = sizes
        .width
        .or(sizes.height)
        .map_or(outside, |size| size.length);
    Some([outside, width.min(outside), outside])
}

fn box_of(sizes: &Sizes) -> Option<[Length; 3]> {
    let side = |size: Option<Size1>| size.map(|size| size.length);
    if let Some(outside) = side(sizes.outside) {
        let other = side(sizes.length.or(sizes.height).or(sizes.width)).unwrap_or(outside);
        return Some([other, outside, outside]);
    }
    Some([
        side(sizes.length)?,
        side(sizes.width)?,
        side(sizes.height).unwrap_or(Length::ZERO),
    ])
}

/// A near-square pack of `n` equal members: `max(1, round(sqrt(n h / w)))` wide, the rest high.
fn pack([length, width, height]: [Length; 3], pieces: u32) -> [Length; 3] {
    let n = f64::from(pieces);
    let high = if height.m() > 0.0 { height } else { width };
    let wide = (n * (high / width)).sqrt().round().clamp(1.0, n);
    let tall = (n / wide).ceil();
    [length, width * wide, high * tall]
}

/// The size along the forks: the shorter side for long unpacked goods that are entered broadside, else the longer one.
fn depth(load: &Load<'_>, [length, width, _]: [Length; 3], from: LoadCentreFrom) -> Length {
    let (longer, shorter) = (length.max(width), length.min(width));
    match load.basics.entered {
        Some(Entered::Broadside) => return shorter,
        Some(Entered::Endwise) => return longer,
        None => {}
    }
    // A bundle of bars, whose sizes are stated, is still entered at its long side.
    let packed = from == LoadCentreFrom::Package && load.basics.packed_as != Some("bundle")
        || load
            .basics
            .packed_as
            .is_some_and(|name| matches!(name, "pallet" | "crate" | "box" | "carton"));
    if load.broadside() && !packed && longer.m() > LONG * shorter.m() {
        shorter
    } else {
        longer
    }
}
