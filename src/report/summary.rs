//! The counts and sums of an audit, by delivery and by truck.
//! Comes in: an audit. Goes out: plain data, grouped with an eager data frame. Only lifts that may be made now are
//! counted under a truck.

use super::loads::{Load, Standing, View};
use super::words;
use crate::audit::Audit;
use crate::compare::Verdict;
use crate::fleet::{Truck, today};
use crate::plan::LiftOf;
use crate::units::Mass;
use polars::prelude::{
    ChunkAgg, Column, DataFrame, IdxCa, IdxSize, NamedFrom, PolarsResult, Series,
};

/// Counts and sums of a whole audit.
#[derive(Clone, Debug, PartialEq)]
pub struct Summary {
    /// By delivery, in the audit's order.
    pub deliveries: Vec<DeliverySummary>,
    /// By truck over all deliveries, by name.
    pub trucks: Vec<TruckSummary>,
    /// Trucks of the register that have no lift, in its order: the name, and why it is not ready; none where it is ready.
    pub unused: Vec<(String, Option<String>)>,
}

/// Counts and sums of one delivery.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct DeliverySummary {
    /// Goods lines.
    pub lines: usize,
    /// Packages that carry the weight of several lines.
    pub packages: usize,
    /// Lines by verdict, in the contract's order, verdicts without lines left out.
    pub verdicts: Vec<(Verdict, usize)>,
    /// What may be lifted now.
    pub may_lift: Tally,
    /// What waits.
    pub held: Tally,
    /// By truck, by name.
    pub trucks: Vec<TruckSummary>,
}

/// A number of lines and of lifts.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub struct Tally {
    /// Goods lines.
    pub lines: usize,
    /// Lifts, those of packages included.
    pub lifts: usize,
}

/// What one truck is planned to do.
#[derive(Clone, Debug, PartialEq)]
pub struct TruckSummary {
    /// Its name in the register.
    pub truck: String,
    /// Lifts that may be made now.
    pub lifts: usize,
    /// Planning weight of all of them.
    pub planned: Mass,
    /// Planning weight of the heaviest.
    pub heaviest: Mass,
    /// Highest share of its capacity that one of them takes.
    pub highest_share: f64,
    /// Lifts that take more of its capacity than [`crate::fleet::close`] says.
    pub close_calls: usize,
}

impl Summary {
    /// Counts and sums an audit.
    ///
    /// # Errors
    /// When the data frame refuses, which would be a fault of this module.
    pub fn of(audit: &Audit) -> PolarsResult<Summary> {
        let frame = frame(audit)?;
        let mut deliveries = vec![DeliverySummary::default(); audit.deliveries.len()];
        for part in groups(&frame, &["delivery"])? {
            if let Some(delivery) = deliveries.get_mut(first_number(&part, "delivery")?) {
                *delivery = delivery_summary(&part)?;
            }
        }
        let trucks = trucks(&frame)?;
        Ok(Summary {
            deliveries,
            unused: unused(audit, &trucks),
            trucks,
        })
    }
}

impl Summary {
    /// What may be lifted and what waits, over all deliveries.
    pub fn whole(&self) -> DeliverySummary {
        let add = |sum: Tally, one: Tally| Tally {
            lines: sum.lines + one.lines,
            lifts: sum.lifts + one.lifts,
        };
        let none = DeliverySummary::default();
        self.deliveries
            .iter()
            .fold(none, |sum, one| DeliverySummary {
                may_lift: add(sum.may_lift, one.may_lift),
                held: add(sum.held, one.held),
                ..sum
            })
    }
}

impl DeliverySummary {
    /// The answer to the first question of the dock.
    pub fn may_we_start(&self) -> String {
        let part = |tally: Tally| {
            let (lines, lifts) = (tally.lines, tally.lifts);
            format!(
                "{} ({})",
                words::count(lines, "line"),
                words::count(lifts, "lift")
            )
        };
        let (may, held) = (self.may_lift, self.held);
        match (may.lines, held.lines) {
            (0, 0) => "There is nothing to lift.".to_string(),
            (_, 0) => format!("Yes: all {}.", part(may)),
            (0, _) => format!("NO: all {} are HELD.", part(held)),
            _ => format!(
                "Yes, with a part: {} may be lifted now; {} HELD.",
                part(may),
                part(held)
            ),
        }
    }
}

fn unused(audit: &Audit, used: &[TruckSummary]) -> Vec<(String, Option<String>)> {
    let idle = |truck: &&Truck| used.iter().all(|one| one.truck != truck.id);
    let trucks = audit.fleet.iter().flat_map(|fleet| &fleet.trucks);
    trucks
        .filter(idle)
        .map(|truck| {
            let against = today::against(truck, audit.date);
            let why = (!against.is_empty()).then(|| against.join("; "));
            (truck.id.clone(), why)
        })
        .collect()
}

/// One row a line or package.
fn frame(audit: &Audit) -> PolarsResult<DataFrame> {
    let mut delivery: Vec<u32> = Vec::new();
    let (mut kind, mut verdict, mut standing) = (vec![], vec![], vec![]);
    let mut truck: Vec<&str> = Vec::new();
    let (mut lifts, mut close): (Vec<u32>, Vec<u32>) = (vec![], vec![]);
    let (mut planned, mut lift, mut used): (Vec<f64>, Vec<f64>, Vec<f64>) =
        (vec![], vec![], vec![]);
    for (at, one) in audit.deliveries.iter().enumerate() {
        let view = View::new(one);
        for load in view.loads() {
            let plan = load.plan();
            let count = if plan.lift_of == LiftOf::Shared {
                0
            } else {
                plan.lifts
            };
            let share = plan.truck.as_ref().map_or(0.0, |truck| truck.used);
            delivery.push(u32::try_from(at).unwrap_or(u32::MAX));
            kind.push(if matches!(load, Load::Line(_)) {
                "line"
            } else {
                "package"
            });
            verdict.push(words::verdict(load.verdict()));
            standing.push(match view.standing(load) {
                Standing::MayLift => MAY_LIFT,
                Standing::Held => HELD,
            });
            truck.push(plan.truck.as_ref().map_or("", |truck| truck.id.as_str()));
            lifts.push(count);
            planned.push(plan.line.map_or(0.0, Mass::kg));
            lift.push(plan.lift.map_or(0.0, Mass::kg));
            used.push(share);
            let is_close = plan
                .truck
                .as_ref()
                .is_some_and(|truck| truck.is_close(audit.site.use_limit));
            close.push(if is_close { count } else { 0 });
        }
    }
    DataFrame::new_infer_height(vec![
        column("delivery", Series::new("".into(), delivery)),
        column("kind", Series::new("".into(), kind)),
        column("verdict", Series::new("".into(), verdict)),
        column("standing", Series::new("".into(), standing)),
        column("truck", Series::new("".into(), truck)),
        column("lifts", Series::new("".into(), lifts)),
        column("planned", Series::new("".into(), planned)),
        column("lift", Series::new("".into(), lift)),
        column("used", Series::new("".into(), used)),
        column("close", Series::new("".into(), close)),
    ])
}

const MAY_LIFT: &str = "may lift";
const HELD: &str = "held";

fn delivery_summary(part: &DataFrame) -> PolarsResult<DeliverySummary> {
    let mut summary = DeliverySummary {
        trucks: trucks(part)?,
        ..DeliverySummary::default()
    };
    let mut verdicts = Vec::new();
    for group in groups(part, &["kind", "verdict"])? {
        if first_text(&group, "kind")? == "line" {
            summary.lines += group.height();
            verdicts.push((first_text(&group, "verdict")?, group.height()));
        } else {
            summary.packages += group.height();
        }
    }
    for group in groups(part, &["standing", "kind"])? {
        let held = first_text(&group, "standing")? == HELD;
        let tally = if held {
            &mut summary.held
        } else {
            &mut summary.may_lift
        };
        tally.lifts += sum(&group, "lifts")?;
        if first_text(&group, "kind")? == "line" {
            tally.lines += group.height();
        }
    }
    let counted = |found: &[(String, usize)], word: &str| {
        found
            .iter()
            .find(|(name, _)| name == word)
            .map(|(_, count)| *count)
    };
    summary.verdicts = words::VERDICTS
        .iter()
        .filter_map(|(verdict, word, _)| Some((*verdict, counted(&verdicts, word)?)))
        .collect();
    Ok(summary)
}

/// What each truck may lift now, by its name.
fn trucks(frame: &DataFrame) -> PolarsResult<Vec<TruckSummary>> {
    let mut trucks = Vec::new();
    for group in groups(frame, &["standing", "truck"])? {
        let truck = first_text(&group, "truck")?;
        let lifts = sum(&group, "lifts")?;
        if first_text(&group, "standing")? == HELD || lifts == 0 {
            continue;
        }
        trucks.push(TruckSummary {
            truck,
            lifts,
            planned: Mass::from_kg(group.column("planned")?.f64()?.sum().unwrap_or(0.0)),
            heaviest: Mass::from_kg(most(&group, "lift")?),
            highest_share: most(&group, "used")?,
            close_calls: sum(&group, "close")?,
        });
    }
    trucks.sort_by(|a, b| a.truck.cmp(&b.truck));
    Ok(trucks)
}

/// The rows of each group, groups in the order of their first row.
fn groups(frame: &DataFrame, by: &[&str]) -> PolarsResult<Vec<DataFrame>> {
    let grouped = frame.group_by_stable(by.iter().copied())?;
    grouped
        .get_groups()
        .iter()
        .map(|group| {
            let rows: Vec<IdxSize> = match group {
                polars::prelude::GroupsIndicator::Idx((_, rows)) => rows.iter().copied().collect(),
                polars::prelude::GroupsIndicator::Slice([first, length]) => {
                    (first..first + length).collect()
                }
            };
            frame.take(&IdxCa::new("".into(), rows))
        })
        .collect()
}

fn column(name: &str, series: Series) -> Column {
    Column::from(series.with_name(name.into()))
}

fn first_text(frame: &DataFrame, name: &str) -> PolarsResult<String> {
    let column = frame.column(name)?.str()?;
    Ok(column.first().unwrap_or_default().to_string())
}

fn first_number(frame: &DataFrame, name: &str) -> PolarsResult<usize> {
    let column = frame.column(name)?.u32()?;
    Ok(column.first().map_or(usize::MAX, |number| number as usize))
}

/// Sum of a column of counts; wide, because a column of 32 bits sums in 32 bits.
fn sum(frame: &DataFrame, name: &str) -> PolarsResult<usize> {
    let column = frame.column(name)?.u32()?;
    Ok(column.iter().flatten().map(|number| number as usize).sum())
}

fn most(frame: &DataFrame, name: &str) -> PolarsResult<f64> {
    Ok(frame
        .column(name)?
        .f64()?
        .iter()
        .flatten()
        .fold(0.0, f64::max))
}

#[cfg(test)]
mod tests {
    use super::super::testing;
    use super::*;

    /// Counted by hand in `testing.rs`.
    #[test]
    fn counts_follow_the_lines() {
        let summary = Summary::of(&testing::audit()).expect("the frame holds");
        let first = &summary.deliveries[0];
        assert_eq!((first.lines, first.packages), (6, 0));
        assert_eq!(
            first.verdicts,
            [
                (Verdict::Consistent, 1),
                (Verdict::Missing, 2),
                (Verdict::Light, 1),
                (Verdict::Heavy, 1),
                (Verdict::Unverifiable, 1),
            ]
        );
        assert_eq!(first.may_lift, Tally { lines: 3, lifts: 6 });
        assert_eq!(first.held, Tally { lines: 3, lifts: 4 });
        let second = &summary.deliveries[1];
        assert_eq!((second.lines, second.packages), (3, 1));
        assert_eq!(second.may_lift, Tally { lines: 1, lifts: 2 });
        assert_eq!(second.held, Tally { lines: 2, lifts: 1 });
    }

    #[test]
    fn trucks_count_only_what_may_be_lifted() {
        let summary = Summary::of(&testing::audit()).expect("the frame holds");
        let small = &summary.trucks[0];
        assert_eq!(small.truck, "FL-15");
        assert_eq!(small.lifts, 6, "3 plates, 1 crate, 2 coils");
        assert_eq!(small.heaviest, Mass::from_kg(1_425.0));
        assert_eq!(small.planned, Mass::from_kg(480.0 + 300.0 + 2_850.0));
        assert_eq!(small.highest_share, 0.95);
        assert_eq!(small.close_calls, 2);
        assert_eq!(
            summary.trucks.len(),
            2,
            "the held lines' trucks are not counted"
        );
    }

    #[test]
    fn an_empty_audit_has_an_empty_summary() {
        let mut audit = testing::audit();
        audit.deliveries.clear();
        let summary = Summary::of(&audit).expect("the frame holds");
        assert_eq!(
            summary,
            Summary {
                deliveries: vec![],
                trucks: vec![],
                unused: [
                    ("FL-15", None),
                    ("FL-25", None),
                    ("FL-30", Some("inspection overdue since 2026-05-03")),
                    ("HT-5", Some("its rows in the register hold a fault")),
                ]
                .map(|(id, why)| (id.to_string(), why.map(str::to_string)))
                .to_vec(),
            }
        );
    }
}
