//! One sheet from items to audited lines. Lines are worked on in parallel, their order kept.

use super::{Delivery, Line, Package};
use super::{assumed_sizes, columns};
use crate::causes::{self, Named, Slip};
use crate::compare::{self, Tolerance, Verdict};
use crate::estimate::materials::Vocabulary;
use crate::estimate::{self, Estimate, NoEstimate};
use crate::history::History;
use crate::judge::{self, DeliveryFacts};
use crate::plan::{self, Basics, Hold, Load, Trucks};
use crate::settle::{self, Declared, Settled};
use crate::site::{Site, Units};
use crate::understand::{
    ColumnReading, How, Item, MassUnit, SheetReading, StatedWeight, UnusableWeight,
};
use crate::units::Mass;
use rayon::prelude::*;

mod decided;
mod line;
mod package;
mod seen;
mod together;

use seen::Seen;
use together::Beside;

type Estimated = Result<Estimate, NoEstimate>;
type Fleet<'a> = Option<&'a (dyn Trucks + Sync)>;

/// The file that a sheet stands in.
#[derive(Clone, Copy)]
pub(super) struct Origin<'a> {
    /// Its position among the sources.
    pub(super) source: usize,
    /// What stands for it in the ids of its lines.
    pub(super) mark: &'a str,
    /// SHA-256 of its bytes.
    pub(super) sha256: &'a str,
}

/// Audits a sheet's items and packages.
pub(super) fn audit(
    mut reading: SheetReading,
    from: Origin<'_>,
    site: &Site,
    vocabulary: &Vocabulary,
    trucks: Fleet<'_>,
    history: &History,
) -> Delivery {
    let items = std::mem::take(&mut reading.items);
    let shared = std::mem::take(&mut reading.shared);
    let metric = reading.us.map(|us| !us);
    let estimates: Vec<Estimated> = items
        .par_iter()
        .map(|item| estimate::line(item, metric, vocabulary))
        .collect();
    // The signs of the list itself go before the site's habit.
    let unit = if reading.more_us.unwrap_or(site.bare_units() == Units::Us) {
        MassUnit::Lb
    } else {
        MassUnit::Kg
    };
    let settled = settle::columns(&items, &shared, &estimates, &reading.sums, unit);
    columns::show(&mut reading.columns, &items, &settled);
    let printed = columns::printed(&items, &shared, &settled);
    let mut context = Context {
        site,
        trucks,
        settled: &settled,
        reading: &reading,
        from,
        history,
        assumed_sizes: Vec::new(),
    };
    context.assumed_sizes =
        assumed_sizes::columns(&reading.columns, &items, &estimates, |item, estimate| {
            context.borne_out(item, estimate)
        });
    let mut members: Vec<Vec<usize>> = vec![Vec::new(); shared.len()];
    for (at, item) in items.iter().enumerate() {
        if let Some(of_package) = item.shared_with.and_then(|index| members.get_mut(index)) {
            of_package.push(at);
        }
    }
    let seen: Vec<Seen> = items
        .par_iter()
        .zip(&estimates)
        .map(|(item, estimate)| context.seen(item, estimate, shared.len()))
        .collect();
    let judged = seen::judged(&items, &estimates, &seen);
    let doubts = judge::doubts(&judged, site.hand_piece_kg);
    let packages: Vec<Package> = shared
        .into_par_iter()
        .zip(&members)
        .map(|(shared, members)| context.package(shared, members, &items, &estimates))
        .collect();
    let facts = DeliveryFacts {
        reading: &reading,
        lines: &judged,
        packages: &packages
            .iter()
            .zip(&members)
            .filter_map(|(package, members)| {
                let mass = package.declared.as_ref()?.mass;
                Some((one_vehicle(members, &items), mass))
            })
            .collect::<Vec<(&str, Mass)>>(),
        declared: &printed,
        settled: &settled,
        assumed_sizes: &context.assumed_sizes,
        site,
        with_fleet: trucks.is_some(),
    };
    let mut findings = judge::delivery(&facts);
    let beside = context.beside(&items, &estimates, &seen);
    let lines: Vec<Line> = items
        .into_par_iter()
        .zip(estimates)
        .zip(seen)
        .zip(beside)
        .zip(doubts)
        .map(|((((item, estimate), seen), beside), doubt)| {
            context.line(item, estimate, seen, beside, doubt)
        })
        .collect();
    if decided::contradicted(&lines, &packages) {
        judge::settle_contradicted(&mut findings);
    }
    Delivery {
        source: from.source,
        lines,
        packages,
        findings,
        reading,
        settled,
        off: judge::Off::new(),
    }
}

struct Context<'a> {
    site: &'a Site,
    trucks: Fleet<'a>,
    settled: &'a Settled,
    reading: &'a SheetReading,
    from: Origin<'a>,
    history: &'a History,
    /// Size columns whose unit was assumed and is borne out by no weights.
    assumed_sizes: Vec<&'a ColumnReading>,
}

/// The vehicle that the lines of a package name; empty where they name none or several.
fn one_vehicle<'i>(members: &[usize], items: &'i [Item]) -> &'i str {
    let mut vehicles = members
        .iter()
        .filter_map(|at| items.get(*at))
        .map(|item| item.vehicle.as_deref().unwrap_or_default());
    let first = vehicles.next().unwrap_or_default();
    if vehicles.all(|vehicle| vehicle == first) {
        first
    } else {
        ""
    }
}

impl Context<'_> {
    fn tolerance(&self, estimate: &Estimated) -> Tolerance {
        let group = estimate.as_ref().ok().and_then(|estimate| estimate.group);
        Tolerance::of(self.site, group)
    }

    /// Whether a weight that was not itself assumed agrees with the line's sizes.
    fn borne_out(&self, item: &Item, estimate: &Estimated) -> bool {
        let tolerance = self.tolerance(estimate);
        let declared = self.declared_of(item, estimate, tolerance);
        let known = |declared: &Declared| !matches!(declared.how, How::Assumed | How::Contradicted);
        declared.as_ref().is_some_and(known)
            && compare::verdict(declared.as_ref(), estimate.as_ref(), tolerance)
                == Verdict::Consistent
    }

    fn sizes_assumed(&self, item: &Item) -> bool {
        let mut columns = self.assumed_sizes.iter();
        columns.any(|column| assumed_sizes::takes_from(item, column))
    }

    fn basics<'i>(&self, item: &'i Item) -> Basics<'i> {
        Basics {
            sizes_assumed: self.sizes_assumed(item),
            ..Basics::of_item(item)
        }
    }

    fn declared_of(
        &self,
        item: &Item,
        estimate: &Estimated,
        tolerance: Tolerance,
    ) -> Option<Declared> {
        let (weights, unusable) = (&item.weights, &item.unusable);
        self.declared(
            weights,
            unusable,
            item.pieces,
            item.packages,
            estimate,
            tolerance,
        )
    }

    fn declared(
        &self,
        weights: &[StatedWeight],
        unusable: &[UnusableWeight],
        pieces: u32,
        packages: Option<u32>,
        estimate: &Estimated,
        tolerance: Tolerance,
    ) -> Option<Declared> {
        // A reading is possible unless the goods cannot weigh that much.
        let possible = |mass: Mass| match estimate {
            Ok(estimate) => mass.fits(
                (estimate.line.high + estimate.tare.high) * (1.0 + tolerance.relative)
                    + tolerance.floor,
            ),
            Err(no) => no.upper.is_none_or(|upper| mass.fits(upper)),
        };
        settle::declared(weights, unusable, pieces, packages, self.settled, possible)
    }

    /// A load as the plan takes it, without any decision.
    fn load<'l>(
        &self,
        verdict: Verdict,
        declared: Option<&'l Declared>,
        unusable: &[UnusableWeight],
        estimate: &'l Estimated,
        basics: Basics<'l>,
        beside: Mass,
    ) -> Load<'l> {
        let spoken = settle::spoken(unusable, basics.pieces, basics.packages, self.settled);
        Load {
            verdict,
            declared,
            decided: None,
            beside,
            spoken,
            estimate: estimate.as_ref(),
            basics,
        }
    }

    fn plan(&self, load: &Load<'_>, unusable: &[UnusableWeight]) -> plan::Plan {
        let mut plan = self.planned(load);
        let declared = load.declared;
        if declared.is_some_and(|declared| declared.how == How::Contradicted) {
            plan.held.push(Hold::Contradicted);
        }
        // Words beside a figure may be those of a unit that is not known here.
        let unread = |cell: &UnusableWeight| cell.speaks_of.is_some_and(|spoken| spoken.unread);
        if declared.is_none() && unusable.iter().any(unread) {
            plan.held.push(Hold::UnreadWords);
        }
        plan
    }

    fn planned(&self, load: &Load<'_>) -> plan::Plan {
        plan::plan(
            load,
            self.site,
            self.trucks.map(|trucks| trucks as &dyn Trucks),
        )
    }

    /// The likely causes of a flagged weight; none for any other.
    fn causes(
        &self,
        verdict: Verdict,
        item: Option<&Item>,
        weights: &[StatedWeight],
        declared: Option<&Declared>,
        estimate: &Estimated,
        tolerance: Tolerance,
    ) -> Vec<Named> {
        let (Some(declared), Ok(estimate), true) = (declared, estimate, verdict.doubts_weight())
        else {
            return Vec::new();
        };
        let slip = Slip::of(item, weights, declared, self.settled, estimate, tolerance);
        slip.map(|slip| causes::named(&slip, &self.site.priors))
            .unwrap_or_default()
    }
}

#[cfg(test)]
mod tests;
