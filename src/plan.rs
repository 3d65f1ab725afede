//! Lifts, planning weight, load centre and the truck for them.
//! Comes in: verdict, estimate, declared weight, and the fleet as a pure function. Goes out: the plan of a line or package.

mod grouping;
mod instead;
mod load;
mod load_centre;
mod truck;
mod weight;

pub use load::{Basics, Load};
pub use truck::{Trucks, plan};

use crate::fleet::{Chosen, WhyNot};
use crate::units::{Length, Mass};
use chrono::NaiveDate;
use serde::Serialize;

/// A lift that is wider than this across the forks is a long load: no road vehicle may be wider (102 in, 23 CFR 658.15,
/// from memory; 2.6 m for the widest bodies, Directive 96/53/EC, Annex I, from memory).
const LONG_M: f64 = 2.6;

/// What one lift takes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum LiftOf {
    /// One piece.
    Piece,
    /// One package.
    Package,
    /// The whole line, or an equal part of it.
    Line,
    /// Lifted with its package's other lines.
    Shared,
}

/// Whether the grouping was stated.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum LiftFrom {
    /// The file says so.
    Stated,
    /// Taken by the rules of the method.
    Assumed,
}

/// What the planning weight rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum PlannedFrom {
    /// A weighing.
    Weighed,
    /// A manager's decision.
    Decided,
    /// The declared weight.
    Declared,
    /// The estimate with its margin.
    Estimate,
    /// The larger of declared and estimate.
    Larger,
    /// None: do not lift.
    None,
}

/// Where the load centre came from.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum LoadCentreFrom {
    /// Stated.
    Stated,
    /// The package's sizes.
    Package,
    /// A near-square pack of the pieces.
    Pack,
    /// The piece's sizes; those of the largest piece, where a package of several lines has none of its own.
    Piece,
    /// The site's default depth.
    Default,
}

/// What would make a truck adequate where none is.
#[derive(Clone, Debug, PartialEq)]
pub enum Instead {
    /// Fewer pieces a lift, where they can be taken apart.
    Fewer {
        /// At most so many.
        pieces: u32,
        /// Of the line's pieces.
        of: u32,
        /// The truck.
        id: String,
    },
    /// Entering the load at its long side.
    Broadside {
        /// The truck.
        id: String,
        /// The load centre then.
        load_centre: Length,
    },
    /// Waiting for a truck that is out.
    Later {
        /// The truck.
        id: String,
        /// The first day.
        day: NaiveDate,
    },
}

/// What holds a load down although it has a planning weight.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hold {
    /// No truck carries the whole line, and how its pieces are bundled is not known.
    Divided,
    /// The figures of its weight column contradict the unit in the heading.
    Contradicted,
    /// Words beside the figure in its weight cell were not understood: they may be those of a unit.
    UnreadWords,
    /// No number of pieces could be read.
    Uncounted,
    /// Something on the same pallet, crate or bundle has no planning weight.
    Unweighed,
    /// Written as not delivered.
    NothingDelivered,
    /// Its weight was copied down from unlike goods, or to them, and nothing else can check it.
    CopiedDown,
    /// The same item weighs more on another line, more than the truck named takes, and nothing else can check it.
    HeavierElsewhere,
    /// It has no declared weight, and the unit of the sizes behind its estimate was assumed.
    SizesAssumed,
    /// Somebody decided that it is not taken.
    Refused,
}

/// The plan of a line or a package.
#[derive(Clone, Debug, PartialEq)]
pub struct Plan {
    /// Number of lifts; 0 for a line lifted with its package.
    pub lifts: u32,
    /// What one lift takes.
    pub lift_of: LiftOf,
    /// Whether that was stated.
    pub lift_from: LiftFrom,
    /// Planning weight of the whole line; none: do not lift.
    pub line: Option<Mass>,
    /// Planning weight of one lift.
    pub lift: Option<Mass>,
    /// Of that, what stands on the same pallet, crate or bundle.
    pub beside: Mass,
    /// What it rests on.
    pub from: PlannedFrom,
    /// The heaviest that the whole line may be beside what is expected: by another reading of its weights, or by earlier
    /// weighings that are no evidence. Zero where nothing says.
    pub still_possible: Mass,
    /// The most that the truck named may take there: its capacity, the site's use limit and the floors.
    pub takes: Option<Mass>,
    /// The sizes behind it are in a unit that nobody states: they prove nothing.
    pub sizes_assumed: bool,
    /// Load centre of one lift.
    pub load_centre: Length,
    /// Where it came from.
    pub load_centre_from: LoadCentreFrom,
    /// Size of one lift along the forks.
    pub depth: Length,
    /// Size of one lift across the forks, where known.
    pub across: Option<Length>,
    /// Smallest adequate truck.
    pub truck: Option<Chosen>,
    /// Why none, and what would do.
    pub truck_without: Option<String>,
    /// What would do, where no truck takes the load as it comes.
    pub instead: Vec<Instead>,
    /// Why each smaller truck will not do.
    pub why_not: Vec<WhyNot>,
    /// The truck that the declared weight alone would have picked, and the kilograms by which the planning weight goes
    /// above what it may take by capacity, use limit and dock rating (0 when it does not).
    pub declared_truck: Option<(String, Mass)>,
    /// Most pieces the named truck may take at once, where the grouping was assumed.
    pub most_pieces: Option<u32>,
    /// The declared weight stands alone: nothing could check it.
    pub unchecked: bool,
    /// The line was divided because no truck carries it whole.
    pub divided: bool,
    /// The load's half height lies above the load centre that the truck's plate stands for.
    pub tall: bool,
    /// Why it is not to be lifted before something is settled, although a truck may be named; empty: nothing holds it.
    pub held: Vec<Hold>,
}

impl Plan {
    /// Wider across the forks than a road vehicle may be.
    pub fn long(&self) -> bool {
        self.across
            .is_some_and(|across| !across.fits(Length::from_m(LONG_M)))
    }
}

#[cfg(test)]
mod tests;
