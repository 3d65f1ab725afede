//! What a plan is made from: a line, or a package of several lines.

use super::load_centre;
use crate::compare::Verdict;
use crate::estimate::{Estimate, NoEstimate};
use crate::history::EarlierDecision;
use crate::settle::Declared;
use crate::tables::goods::{self, Goods};
use crate::tables::packages;
use crate::understand::{Entered, Item, SharedWeight, Sizes};
use crate::units::{Length, Mass, MassRange};

/// What the file says about a load's pieces, packages and sizes.
#[derive(Clone, Debug)]
pub struct Basics<'a> {
    /// Number of pieces.
    pub pieces: u32,
    /// No number could be read: one piece was taken.
    pub uncounted: bool,
    /// Number of packages, where packages are counted.
    pub packages: Option<u32>,
    /// The pieces are counted as packages that lift whole (reels, coils).
    pub counted_as_packages: bool,
    /// Kind of package.
    pub packed_as: Option<&'static str>,
    /// It stands on a numbered pallet, crate or bundle.
    pub on_package: bool,
    /// Description.
    pub description: &'a str,
    /// Sizes of a piece.
    pub sizes: Sizes,
    /// Sizes of the package.
    pub package_sizes: Sizes,
    /// Of a package of several lines: the longest longer side, the longest shorter side and the greatest height of what lies
    /// on it.
    pub largest: Option<[Length; 3]>,
    /// Entry side, where stated.
    pub entered: Option<Entered>,
    /// Lift height, where stated.
    pub lift_height: Option<Length>,
    /// Tare of all packages, for a load without an estimate.
    pub tare: MassRange,
    /// Nobody states the unit of the sizes.
    pub sizes_assumed: bool,
}

impl<'a> Basics<'a> {
    /// Of a line.
    pub fn of_item(item: &'a Item) -> Basics<'a> {
        let counted = item
            .unit
            .as_deref()
            .and_then(packages::of_word)
            .is_some_and(|word| packages::wound(word.name));
        Basics {
            pieces: item.pieces,
            uncounted: item.uncounted(),
            packages: item.packages,
            counted_as_packages: counted,
            packed_as: item.packed_as,
            on_package: item.stands_on.is_some(),
            description: &item.description,
            sizes: item.sizes,
            package_sizes: item.package_sizes,
            largest: None,
            entered: item.entered,
            lift_height: item.lift_height,
            tare: tare(item.tare, item.packed_as, item.packages),
            sizes_assumed: false,
        }
    }

    /// Of a package: one lift. A weight for several lines stands for a pallet where nothing else is said.
    pub fn of_package(shared: &'a SharedWeight) -> Basics<'a> {
        Basics {
            pieces: 1,
            uncounted: false,
            packages: Some(1),
            counted_as_packages: false,
            packed_as: shared.packed_as,
            on_package: false,
            description: &shared.name,
            sizes: Sizes::default(),
            package_sizes: shared.sizes,
            largest: None,
            entered: None,
            lift_height: None,
            tare: tare(shared.tare, shared.packed_as.or(Some("pallet")), Some(1)),
            sizes_assumed: false,
        }
    }

    /// The same with what the lines of the package say: the sizes of the largest piece, the greatest lift height
    /// (`lift_height` where a line states none), and the short side for the forks only where every line says so.
    pub fn holding(
        mut self,
        lines: &[(&Item, &Result<Estimate, NoEstimate>)],
        lift_height: Length,
    ) -> Basics<'a> {
        let outlines = lines.iter().filter_map(|(item, estimate)| {
            load_centre::piece(&Load {
                verdict: Verdict::Shared,
                declared: None,
                decided: None,
                beside: Mass::ZERO,
                spoken: None,
                not_below: Mass::ZERO,
                estimate: estimate.as_ref(),
                basics: Basics::of_item(item),
            })
        });
        self.largest = outlines
            .map(|[length, width, height]| [length.max(width), length.min(width), height])
            .reduce(|[a, b, c], [d, e, f]| [a.max(d), b.max(e), c.max(f)]);
        let heights = lines
            .iter()
            .map(|(item, _)| item.lift_height.unwrap_or(lift_height));
        self.lift_height = heights.reduce(Length::max);
        let broadside = |(item, _): &(&Item, _)| item.entered == Some(Entered::Broadside);
        self.entered = lines.iter().all(broadside).then_some(Entered::Broadside);
        self
    }
}

fn tare(stated: Option<Mass>, packed_as: Option<&str>, packages: Option<u32>) -> MassRange {
    match stated {
        Some(tare) => MassRange {
            low: tare,
            likely: tare,
            high: tare,
        },
        None => packages::tare(packed_as.unwrap_or("")).times(f64::from(packages.unwrap_or(1))),
    }
}

/// A line or a package to be planned.
pub struct Load<'a> {
    /// Verdict.
    pub verdict: Verdict,
    /// Declared weight.
    pub declared: Option<&'a Declared>,
    /// The decision that goes before all of it.
    pub decided: Option<&'a EarlierDecision>,
    /// Planning weight of what stands on the same pallet, crate or bundle and is lifted with it.
    pub beside: Mass,
    /// The heaviest weight that a cell without a usable one speaks of, whole line.
    pub spoken: Option<Mass>,
    /// What the plan may not go below, whole line: what weighings make of it that are no evidence.
    pub not_below: Mass,
    /// Estimate, or why none.
    pub estimate: Result<&'a Estimate, &'a NoEstimate>,
    /// What the file says about pieces, packages and sizes.
    pub basics: Basics<'a>,
}

impl Load<'_> {
    /// The kind of goods.
    pub fn goods(&self) -> Option<&'static Goods> {
        let name = match self.estimate {
            Ok(estimate) => estimate.goods,
            Err(no) => no.goods,
        };
        name.and_then(goods::by_name)
    }

    /// Whether pieces of this kind come together unless something says otherwise.
    pub fn bundled(&self) -> bool {
        self.goods()
            .is_some_and(|goods| goods.bundled && !(goods.broadside && self.massive()))
    }

    /// Whether the forks may find this kind of goods at its long side.
    pub fn broadside(&self) -> bool {
        self.goods().is_some_and(|goods| goods.broadside) && !self.massive()
    }

    /// Made of concrete or stone, whatever word names it, and no thin sheet: pipes and beams that come singly.
    fn massive(&self) -> bool {
        self.estimate.is_ok_and(|estimate| {
            matches!(
                estimate.group,
                Some("concrete and masonry" | "stone and soil")
            ) && estimate.shape != Some("plate")
        })
    }

    /// Outline of one piece: length, width, height.
    pub fn outline(&self) -> Option<[Length; 3]> {
        match self.estimate {
            Ok(estimate) => estimate.outline,
            Err(no) => no.outline,
        }
    }

    /// Tare of all packages of the line.
    pub fn tare(&self) -> MassRange {
        match self.estimate {
            Ok(estimate) => estimate.tare,
            Err(_) => self.basics.tare,
        }
    }

    /// Likely mass of one piece.
    pub fn piece(&self) -> Option<Mass> {
        self.estimate.ok().map(|estimate| estimate.piece.likely)
    }
}
