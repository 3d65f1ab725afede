//! The lift trucks as they are set up today, and what each may lift.
//! Comes in: the register and the date. Goes out: capacity at a demand, the smallest adequate truck, why not the smaller.
//! Never picks for a line and never goes above a capacity plate.

mod adequate;
pub mod capacity;
mod cells;
mod check;
pub mod choose;
mod columns;
pub mod curve;
mod draft;
mod figure;
pub mod register;
mod rows;
mod show;
#[cfg(test)]
mod tests;
pub mod today;
mod words;

use crate::place::Place;
use crate::units::{Length, Mass, TIE};
use chrono::NaiveDate;

/// The register as understood.
#[derive(Clone, Debug, Default)]
pub struct Fleet {
    /// File the register came from.
    pub file: String,
    /// Its headings as they were understood, in their order.
    pub headings: Vec<Heading>,
    /// Every truck named in it, faulty ones too.
    pub trucks: Vec<Truck>,
    /// All faults of the register, each with its cell and remedy.
    pub faults: Vec<Fault>,
    /// What was assumed, once each ("no class column: all taken as counterbalanced").
    pub notes: Vec<String>,
}

/// A heading of the register and what its column was read as.
#[derive(Clone, Debug, PartialEq)]
pub struct Heading {
    /// Its cell.
    pub place: Place,
    /// As written.
    pub text: String,
    /// What the column holds ("load centre").
    pub field: &'static str,
    /// The unit that the heading gives to figures without one.
    pub unit: Option<&'static str>,
}

/// A fault in the register.
#[derive(Clone, Debug, PartialEq)]
pub struct Fault {
    /// Truck it belongs to, where one can be named.
    pub truck: Option<String>,
    /// The cell.
    pub place: Place,
    /// What was found.
    pub found: String,
    /// What to do about it.
    pub remedy: String,
}

impl Fault {
    /// What was found and what to do, in one text.
    pub fn message(&self) -> String {
        format!("{}; {}", self.found, self.remedy)
    }
}

/// Truck class by the industry numbering that OSHA uses (I to VII).
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Class {
    /// Electric rider.
    I,
    /// Electric narrow aisle.
    II,
    /// Electric hand or hand-rider.
    III,
    /// Combustion, cushion tyres.
    IV,
    /// Combustion, pneumatic tyres.
    V,
    /// Tractors: tow only, never lift.
    VI,
    /// Rough terrain.
    VII,
}

/// One truck.
#[derive(Clone, Debug)]
pub struct Truck {
    /// Its name in the register.
    pub id: String,
    /// Class, where stated.
    pub class: Option<Class>,
    /// Class taken because the register has no class column at all (counterbalanced).
    pub class_assumed: bool,
    /// Rows of its capacity plate.
    pub points: Vec<PlatePoint>,
    /// Attachment fitted today; none means bare forks.
    pub fitted: Option<String>,
    /// Available today, where stated.
    pub available: Option<bool>,
    /// Out of service until this date.
    pub out_until: Option<NaiveDate>,
    /// Inspection due on this date.
    pub inspection_due: Option<NaiveDate>,
    /// Fuel or power, as written.
    pub fuel: Option<String>,
    /// Where it may work, lower case; empty means not stated.
    pub places: Vec<String>,
    /// Service weight (truck without load).
    pub service: Option<Mass>,
    /// Fork length.
    pub fork_length: Option<Length>,
    /// Class VII with a vertical mast.
    pub vertical_mast: Option<bool>,
    /// Front axle to fork face.
    pub axle: Option<Length>,
    /// Height of the lowered mast.
    pub lowered_height: Option<Length>,
    /// Remark.
    pub remark: Option<String>,
    /// The register's rows of this truck hold a fault: shown, never assigned.
    pub faulty: bool,
}

/// One row of a capacity plate.
#[derive(Clone, Debug, PartialEq)]
pub struct PlatePoint {
    /// What the plate says.
    pub capacity: Mass,
    /// At this load centre.
    pub load_centre: Length,
    /// Up to this lift height; none means the register left it blank (the site's default height only).
    pub lift_height: Option<Length>,
    /// With this attachment; none means bare forks.
    pub attachment: Option<String>,
    /// Its cell in the register: the one of the capacity.
    pub place: Place,
}

/// What one lift asks of a truck.
#[derive(Clone, Debug, PartialEq)]
pub struct Demand {
    /// Planning weight of the lift.
    pub weight: Mass,
    /// Horizontal distance from the fork face to the load's centre of gravity.
    pub load_centre: Length,
    /// How high it is lifted.
    pub lift_height: Length,
    /// Size of the load along the forks, where known.
    pub depth: Option<Length>,
    /// Where the truck must be allowed to work, lower case.
    pub place: Option<String>,
    /// Attachment needed.
    pub attachment: Option<String>,
}

/// What stands beside every capacity that was not read off a plate.
pub const CALCULATED: &str = "calculated, the plate governs";

/// What a truck may lift at a demand.
#[derive(Clone, Debug, PartialEq)]
pub struct Capacity {
    /// The capacity.
    pub mass: Mass,
    /// Not read off a plate row: worked out by the moment about the front axle; the plate governs.
    pub calculated: bool,
    /// The row it rests on.
    pub from: Place,
    /// That row's load centre: the plate counts on a centre of gravity no higher above the forks (EN 1726-1, ISO 22915).
    pub rated_at: Length,
}

/// A truck that is adequate.
#[derive(Clone, Debug, PartialEq)]
pub struct Chosen {
    /// Its name.
    pub id: String,
    /// Capacity at the demand.
    pub capacity: Capacity,
    /// Planning weight over capacity.
    pub used: f64,
    /// What should be known about it ("inspection date not stated").
    pub notes: Vec<String>,
}

/// A lift that takes more than this share of what its truck may be used for is a close call. Common practice, no source.
const CLOSE: f64 = 0.90;

/// The share of a truck's capacity above which a lift is a close call at a site that uses no more than `use_limit` of it.
pub fn close(use_limit: f64) -> f64 {
    CLOSE * use_limit
}

impl Chosen {
    /// Whether the lift takes more of the capacity than [`close`] says.
    pub fn is_close(&self, use_limit: f64) -> bool {
        self.used > close(use_limit) * (1.0 + TIE)
    }
}

/// Why a truck will not do, in one clause.
#[derive(Clone, Debug, PartialEq)]
pub struct WhyNot {
    /// The truck.
    pub truck: String,
    /// "2,400 lb at 30 in, 1 lb short".
    pub clause: String,
}

/// The answer for one demand.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// Smallest adequate truck, or none.
    pub truck: Option<Chosen>,
    /// Every truck that is smaller than the chosen one (all, when there is none), with the reason.
    pub why_not: Vec<WhyNot>,
    /// When there is none: the strongest that is ready today.
    pub strongest: Option<Strongest>,
}

/// The truck that may take most at a demand.
#[derive(Clone, Debug, PartialEq)]
pub struct Strongest {
    /// Its name.
    pub id: String,
    /// The most it may take there by capacity, use limit and the ratings of the floors.
    pub takes: Mass,
    /// Its capacity there is not read off the plate.
    pub calculated: bool,
}
