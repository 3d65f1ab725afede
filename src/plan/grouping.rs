//! What one lift takes (method, section 4): a package, the whole line, or a piece. A bundle is never planned as its pieces.

use super::{LiftFrom, LiftOf, Load};
use crate::tables::packages;
use crate::units::Mass;

/// Words that say that pieces come singly.
const SINGLY: [&str; 6] = [
    "singly",
    "single pieces",
    "individually",
    "piece by piece",
    "one at a time",
    "separately",
];

/// The lifts of a line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Grouping {
    /// Number of lifts.
    pub lifts: u32,
    /// What one takes.
    pub of: LiftOf,
    /// Whether the file says so.
    pub from: LiftFrom,
}

/// Groups a line's pieces into lifts; of pieces that nobody counted nothing is stated. `planned` is the planning weight of
/// the whole line.
pub(super) fn group(load: &Load<'_>, planned: Option<Mass>, hand_piece: Mass) -> Grouping {
    let grouping = counted(load, planned, hand_piece);
    if load.basics.uncounted {
        return Grouping {
            from: LiftFrom::Assumed,
            ..grouping
        };
    }
    grouping
}

fn counted(load: &Load<'_>, planned: Option<Mass>, hand_piece: Mass) -> Grouping {
    let basics = &load.basics;
    let pieces = basics.pieces.max(1);
    let whole = |from| Grouping {
        lifts: 1,
        of: LiftOf::Line,
        from,
    };
    if let Some(packages) = basics.packages.filter(|packages| *packages > 0) {
        return Grouping {
            lifts: packages,
            of: LiftOf::Package,
            from: LiftFrom::Stated,
        };
    }
    if basics.counted_as_packages {
        return Grouping {
            lifts: pieces,
            of: LiftOf::Package,
            from: LiftFrom::Stated,
        };
    }
    if basics.packed_as.is_some_and(packages::lifts_whole) {
        return whole(LiftFrom::Stated);
    }
    if pieces == 1 {
        return Grouping {
            lifts: 1,
            of: LiftOf::Piece,
            from: LiftFrom::Stated,
        };
    }
    let lower = basics.description.to_lowercase();
    if SINGLY.iter().any(|word| lower.contains(word)) {
        return Grouping {
            lifts: pieces,
            of: LiftOf::Piece,
            from: LiftFrom::Stated,
        };
    }
    let piece = planned
        .map(|planned| planned / f64::from(pieces))
        .or(load.piece());
    if piece.is_some_and(|piece| piece < hand_piece) || load.bundled() {
        return whole(LiftFrom::Assumed);
    }
    Grouping {
        lifts: pieces,
        of: LiftOf::Piece,
        from: LiftFrom::Assumed,
    }
}
