//! One sheet from items to audited lines. Lines are worked on in parallel, their order kept.

use super::{Delivery, Line, Package, short_hash};
use super::{columns, packages};
use crate::causes::{self, Named, Slip};
use crate::compare::{self, Tolerance, Verdict};
use crate::estimate::{self, Estimate, NoEstimate};
use crate::judge::{self, DeliveryFacts, Facts};
use crate::plan::{self, Basics, Load, Trucks};
use crate::settle::{self, Declared, Settled};
use crate::site::{Site, Units};
use crate::understand::{
    Basis, How, Item, MassUnit, NOTHING_DELIVERED, SharedWeight, SheetReading, StatedWeight,
    UnusableWeight,
};
use crate::units::Mass;
use rayon::prelude::*;
use std::collections::HashMap;

type Estimated = Result<Estimate, NoEstimate>;
type Fleet<'a> = Option<&'a (dyn Trucks + Sync)>;

/// Audits a sheet's items and packages.
pub(super) fn audit(mut reading: SheetReading, site: &Site, trucks: Fleet<'_>) -> Delivery {
    let items = std::mem::take(&mut reading.items);
    let shared = std::mem::take(&mut reading.shared);
    let metric = reading.us.map(|us| !us);
    let estimates: Vec<Estimated> = items
        .par_iter()
        .map(|item| estimate::line(item, metric))
        .collect();
    // The signs of the list itself go before the site's habit.
    let unit = if reading.more_us.unwrap_or(site.units == Units::Us) {
        MassUnit::Lb
    } else {
        MassUnit::Kg
    };
    let settled = settle::columns(&items, &shared, &estimates, &reading.sums, unit);
    columns::show(&mut reading.columns, &items, &settled);
    let printed = printed(&items, &shared, &settled);
    let context = Context {
        site,
        trucks,
        settled: &settled,
        reading: &reading,
    };
    let mut members: Vec<Vec<usize>> = vec![Vec::new(); shared.len()];
    for (at, item) in items.iter().enumerate() {
        if let Some(of_package) = item.shared_with.and_then(|index| members.get_mut(index)) {
            of_package.push(at);
        }
    }
    let packages: Vec<Package> = shared
        .into_par_iter()
        .zip(&members)
        .map(|(shared, members)| context.package(shared, members, &items, &estimates))
        .collect();
    let beside = context.beside(&items, &estimates);
    let lines: Vec<Line> = items
        .into_par_iter()
        .zip(estimates)
        .zip(beside)
        .map(|((item, estimate), beside)| context.line(item, estimate, beside, &packages))
        .collect();
    let facts = DeliveryFacts {
        reading: &reading,
        declared: &printed,
        settled: &settled,
        site,
        with_fleet: trucks.is_some(),
    };
    let findings = judge::delivery(&facts);
    Delivery {
        lines,
        packages,
        findings,
        reading,
        settled,
    }
}

/// Row, column and mass of every weight as printed, for the sums of the document.
fn printed(items: &[Item], shared: &[SharedWeight], settled: &Settled) -> Vec<(u32, u32, Mass)> {
    let of = |row: u32, weights: &[StatedWeight]| {
        weights
            .iter()
            .map(|weight| {
                let mass = settled.unit_of(weight).mass(weight.figure);
                (row, weight.place.column, mass)
            })
            .collect::<Vec<_>>()
    };
    let lines = items
        .iter()
        .flat_map(|item| of(item.place.row, &item.weights));
    let packages = shared.iter().flat_map(|package| {
        of(
            package.rows.first().copied().unwrap_or(package.place.row),
            &package.weights,
        )
    });
    lines.chain(packages).collect()
}

/// What is lifted together with a line.
#[derive(Clone, Copy, Default)]
struct Beside {
    mass: Mass,
    /// Some of it has no planning weight.
    unknown: bool,
}

struct Context<'a> {
    site: &'a Site,
    trucks: Fleet<'a>,
    settled: &'a Settled,
    reading: &'a SheetReading,
}

impl Context<'_> {
    fn tolerance(&self, estimate: &Estimated) -> Tolerance {
        let group = estimate.as_ref().ok().and_then(|estimate| estimate.group);
        let relative = group
            .and_then(|group| self.site.tolerance_by_group.get(group))
            .copied();
        Tolerance {
            relative: relative.unwrap_or(self.site.tolerance),
            floor: self.site.floor_kg,
        }
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

    fn plan(
        &self,
        verdict: Verdict,
        declared: Option<&Declared>,
        unusable: &[UnusableWeight],
        estimate: &Estimated,
        basics: Basics<'_>,
        beside: Mass,
    ) -> plan::Plan {
        let spoken = settle::spoken(unusable, basics.pieces, basics.packages, self.settled);
        let load = Load {
            verdict,
            declared,
            beside,
            spoken,
            estimate: estimate.as_ref(),
            basics,
        };
        let mut plan = plan::plan(
            &load,
            self.site,
            self.trucks.map(|trucks| trucks as &dyn Trucks),
        );
        plan.held |= declared.is_some_and(|declared| declared.how == How::Contradicted);
        // Words beside a figure may be those of a unit that is not known here.
        let unread = |cell: &UnusableWeight| cell.speaks_of.is_some_and(|spoken| spoken.unread);
        plan.held |= declared.is_none() && unusable.iter().any(unread);
        plan
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
        let flagged = matches!(
            verdict,
            Verdict::Light | Verdict::Heavy | Verdict::Impossible
        );
        let (Some(declared), Ok(estimate), true) = (declared, estimate, flagged) else {
            return Vec::new();
        };
        let slip = Slip::of(item, weights, declared, self.settled, estimate, tolerance);
        slip.map(|slip| causes::named(&slip)).unwrap_or_default()
    }

    /// The plan if the supplier confirms the cause: mass of the line and its truck. Nothing is lifted by it.
    fn if_corrected(
        &self,
        cause: &Named,
        item: &Item,
        declared: Option<&Declared>,
        estimate: &Estimated,
        beside: Mass,
    ) -> Option<(Mass, Option<String>)> {
        let (item, declared, estimate) = cause.confirmed(item, declared?, estimate.as_ref().ok()?);
        let plan = self.plan(
            Verdict::Consistent,
            Some(&declared),
            &[],
            &Ok(estimate),
            Basics::of_item(&item),
            beside,
        );
        Some((plan.line?, plan.truck.map(|truck| truck.id)))
    }

    /// What the rows that stand on a line's pallet, crate or bundle weigh together, as each is planned by itself.
    fn beside(&self, items: &[Item], estimates: &[Estimated]) -> Vec<Beside> {
        let mut stands: HashMap<&str, Vec<usize>> = HashMap::new();
        for (at, item) in items.iter().enumerate() {
            let one = item.packages.is_none_or(|packages| packages == 1);
            if let Some(name) = item
                .stands_on
                .as_deref()
                .filter(|_| one && item.shared_with.is_none())
            {
                stands.entry(name).or_default().push(at);
            }
        }
        let mut beside = vec![Beside::default(); items.len()];
        for together in stands.into_values().filter(|together| together.len() > 1) {
            let masses: Vec<Option<Mass>> = together
                .iter()
                .map(|at| {
                    let (item, estimate) = (&items[*at], &estimates[*at]);
                    let tolerance = self.tolerance(estimate);
                    let declared = self.declared_of(item, estimate, tolerance);
                    let verdict = compare::verdict(declared.as_ref(), estimate.as_ref(), tolerance);
                    self.plan(
                        verdict,
                        declared.as_ref(),
                        &item.unusable,
                        estimate,
                        Basics::of_item(item),
                        Mass::ZERO,
                    )
                    .line
                })
                .collect();
            let known: Mass = masses.iter().flatten().copied().sum();
            let unknown = masses.iter().filter(|mass| mass.is_none()).count();
            for (at, own) in together.iter().zip(&masses) {
                let others_unknown = unknown - usize::from(own.is_none());
                beside[*at] = Beside {
                    mass: known - own.unwrap_or(Mass::ZERO),
                    unknown: others_unknown > 0,
                };
            }
        }
        beside
    }

    fn declared_of(
        &self,
        item: &Item,
        estimate: &Estimated,
        tolerance: Tolerance,
    ) -> Option<Declared> {
        self.declared(
            &item.weights,
            &item.unusable,
            item.pieces,
            item.packages,
            estimate,
            tolerance,
        )
    }

    fn line(&self, item: Item, estimate: Estimated, beside: Beside, packages: &[Package]) -> Line {
        let tolerance = self.tolerance(&estimate);
        let shared = item.shared_with.is_some_and(|index| index < packages.len());
        let declared = if shared {
            None
        } else {
            self.declared_of(&item, &estimate, tolerance)
        };
        let verdict = if shared {
            Verdict::Shared
        } else {
            compare::verdict(declared.as_ref(), estimate.as_ref(), tolerance)
        };
        let mut plan = self.plan(
            verdict,
            declared.as_ref(),
            &item.unusable,
            &estimate,
            Basics::of_item(&item),
            beside.mass,
        );
        // What nobody can weigh stands on the same pallet.
        plan.held |= beside.unknown;
        // One piece was taken where no number could be read: a weight of one piece says nothing of the line.
        let uncounted = item.pieces_how == How::Assumed && item.packages.is_none();
        let of_line = declared
            .as_ref()
            .is_some_and(|declared| declared.of == Basis::Line);
        plan.held |= uncounted && !of_line && !shared;
        // Written as not delivered, and on the list all the same.
        plan.held |= item
            .remarks
            .iter()
            .any(|remark| remark.code == NOTHING_DELIVERED);
        let causes = self.causes(
            verdict,
            Some(&item),
            &item.weights,
            declared.as_ref(),
            &estimate,
            tolerance,
        );
        let findings = judge::load(&Facts {
            place: &item.place,
            item: Some(&item),
            package: None,
            weights: &item.weights,
            unusable: &item.unusable,
            declared: declared.as_ref(),
            estimate: estimate.as_ref(),
            verdict,
            plan: &plan,
            tolerance,
            causes: &causes,
            settled: self.settled,
            site: self.site,
            with_fleet: self.trucks.is_some(),
        });
        let if_corrected = causes.first().and_then(|best| {
            self.if_corrected(best, &item, declared.as_ref(), &estimate, beside.mass)
        });
        let row = item.place.row.to_string();
        let number = item.item.as_deref().unwrap_or("");
        let id = short_hash(
            [
                self.reading.delivery.as_str(),
                &*item.place.sheet,
                number,
                &row,
            ]
            .into_iter(),
        );
        Line {
            id,
            item,
            estimate,
            declared,
            verdict,
            findings,
            plan,
            if_corrected,
        }
    }

    fn package(
        &self,
        shared: SharedWeight,
        members: &[usize],
        items: &[Item],
        estimates: &[Estimated],
    ) -> Package {
        let members: Vec<(&Item, &Estimated)> = members
            .iter()
            .filter_map(|at| items.get(*at).zip(estimates.get(*at)))
            .collect();
        let estimate = packages::estimate(&shared, &members);
        let tolerance = self.tolerance(&estimate);
        let declared = self.declared(
            &shared.weights,
            &shared.unusable,
            1,
            Some(1),
            &estimate,
            tolerance,
        );
        let verdict = compare::verdict(declared.as_ref(), estimate.as_ref(), tolerance);
        let plan = self.plan(
            verdict,
            declared.as_ref(),
            &shared.unusable,
            &estimate,
            Basics::of_package(&shared).holding(&members, self.site.lift_height_m),
            Mass::ZERO,
        );
        let causes = self.causes(
            verdict,
            None,
            &shared.weights,
            declared.as_ref(),
            &estimate,
            tolerance,
        );
        let findings = judge::load(&Facts {
            place: &shared.place,
            item: None,
            package: Some(&shared),
            weights: &shared.weights,
            unusable: &shared.unusable,
            declared: declared.as_ref(),
            estimate: estimate.as_ref(),
            verdict,
            plan: &plan,
            tolerance,
            causes: &causes,
            settled: self.settled,
            site: self.site,
            with_fleet: self.trucks.is_some(),
        });
        Package {
            shared,
            estimate,
            declared,
            verdict,
            findings,
            plan,
        }
    }
}

#[cfg(test)]
mod tests;
