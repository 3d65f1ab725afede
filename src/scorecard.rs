//! What keeps coming back: past loads counted by supplier, goods, material, cause and month, decisions, drift.
//! Comes in: the ledger's figures and decisions as data frames, what was asked, the day. Goes out: plain tables.
//! Reads nothing, words nothing, decides nothing.

mod decided;
pub mod drift;
mod loads;
mod numbers;
mod suppliers;
mod tally;

pub use decided::{Age, Decisions, Kind, Override, Speed};
pub use drift::{Course, Move};
pub use suppliers::{Followed, Supplier};
pub use tally::{FEW, Tally};

use chrono::{Datelike, NaiveDate};
use decided::Settled;
use loads::{Group, Loads, groups};
use polars::prelude::{BooleanChunked, DataFrame, IdxSize, NewChunkedArray, PolarsResult};
use std::collections::BTreeMap;

/// A month: year, and month from 1.
pub type Month = (i32, u32);

/// Which loads are counted. What is not given is not asked for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Asked {
    /// First day of the first audits.
    pub from: Option<NaiveDate>,
    /// Last day of the first audits.
    pub to: Option<NaiveDate>,
    /// Part of the supplier's name, small or capital letters.
    pub supplier: Option<String>,
}

/// The tables.
#[derive(Clone, Debug, PartialEq)]
pub struct Scorecard {
    /// What was asked.
    pub asked: Asked,
    /// The day that ages of open decisions count to.
    pub today: NaiveDate,
    /// First and last day of the first audits of what is counted.
    pub days: Option<(NaiveDate, NaiveDate)>,
    /// All loads together.
    pub all: Tally,
    /// By supplier, worst first.
    pub suppliers: Vec<Supplier>,
    /// By kind of goods, worst first; none: not known.
    pub goods: Vec<(Option<String>, Tally)>,
    /// By material, worst first; none: not known.
    pub materials: Vec<(Option<String>, Tally)>,
    /// By kind of the likely cause, the most frequent first.
    pub causes: Vec<(String, Tally)>,
    /// By month of the first audit, from the first to the last, those between without loads included.
    pub months: Vec<(Month, Tally)>,
    /// The suppliers that are followed through these months.
    pub followed: Vec<Followed>,
    /// The decisions.
    pub decisions: Decisions,
}

impl Scorecard {
    /// Counts loads, `frame` as the ledger's figures have them, and the decisions on them.
    ///
    /// # Errors
    /// When a frame lacks a column, which would be a fault of the program.
    pub fn of(
        frame: &DataFrame,
        decisions: &DataFrame,
        asked: Asked,
        today: NaiveDate,
    ) -> PolarsResult<Scorecard> {
        let frame = &asked.of(frame)?;
        let mut loads = Loads::of(frame)?;
        let asked_for = asked.of(decisions)?;
        let (settled, mut decisions) = decided::decisions(&mut loads, decisions, today)?;
        decisions.overrides = decided::overrides(&asked_for)?;
        let every: Vec<IdxSize> = (0..).take(frame.height()).collect();
        let causes = groups(frame, "cause")?;
        let days = loads.day.iter().flatten();
        let months = by_month(&loads, &settled);
        let names: Vec<Month> = months.iter().map(|(month, _)| *month).collect();
        let (suppliers, followed) = suppliers::suppliers(frame, &loads, &settled, &causes, &names)?;
        Ok(Scorecard {
            asked,
            today,
            days: days.clone().min().copied().zip(days.max().copied()),
            all: Tally::of(&loads, &settled, &every),
            suppliers,
            goods: named(frame, "goods", &loads, &settled)?,
            materials: named(frame, "material", &loads, &settled)?,
            causes: by_cause(causes, &loads, &settled),
            months,
            followed,
            decisions,
        })
    }
}

impl Asked {
    /// The rows that are asked for, of loads or of decisions.
    fn of(&self, frame: &DataFrame) -> PolarsResult<DataFrame> {
        let mut wanted = vec![true; frame.height()];
        let mut leave_out = |column, keeps: &dyn Fn(Option<String>) -> bool| {
            for Group { name, rows } in groups(frame, column)? {
                if !keeps(name) {
                    rows.into_iter()
                        .for_each(|row| wanted[row as usize] = false);
                }
            }
            PolarsResult::Ok(())
        };
        if self.from.is_some() || self.to.is_some() {
            leave_out("day", &|day| {
                let day = day.and_then(|day| day.parse::<NaiveDate>().ok());
                day.is_some_and(|day| {
                    self.from.is_none_or(|from| from <= day) && self.to.is_none_or(|to| day <= to)
                })
            })?;
        }
        if let Some(part) = &self.supplier {
            let part = part.trim().to_lowercase();
            leave_out("supplier", &|name| {
                name.is_some_and(|name| name.to_lowercase().contains(&part))
            })?;
        }
        if wanted.iter().all(|wanted| *wanted) {
            return Ok(frame.clone());
        }
        frame.filter(&BooleanChunked::from_slice("".into(), &wanted))
    }
}

/// The month of a day.
pub(crate) fn month(day: NaiveDate) -> Month {
    (day.year(), day.month())
}

fn named(
    frame: &DataFrame,
    column: &str,
    loads: &Loads,
    settled: &[Option<Settled>],
) -> PolarsResult<Vec<(Option<String>, Tally)>> {
    let of = |group: Group| (group.name, Tally::of(loads, settled, &group.rows));
    let mut all: Vec<_> = groups(frame, column)?.into_iter().map(of).collect();
    all.sort_by(|(a, one), (b, other)| suppliers::worse(one, other).then_with(|| a.cmp(b)));
    Ok(all)
}

fn by_cause(
    causes: Vec<Group>,
    loads: &Loads,
    settled: &[Option<Settled>],
) -> Vec<(String, Tally)> {
    let of = |group: Group| Some((group.name?, Tally::of(loads, settled, &group.rows)));
    let mut all: Vec<_> = causes.into_iter().filter_map(of).collect();
    all.sort_by(|(a, one), (b, other)| other.lines.cmp(&one.lines).then_with(|| a.cmp(b)));
    all
}

fn by_month(loads: &Loads, settled: &[Option<Settled>]) -> Vec<(Month, Tally)> {
    let mut rows: BTreeMap<Month, Vec<IdxSize>> = BTreeMap::new();
    for (row, day) in (0..).zip(&loads.day) {
        if let Some(day) = day {
            rows.entry(month(*day)).or_default().push(row);
        }
    }
    let Some(last) = rows.keys().next_back().copied() else {
        return Vec::new();
    };
    let next = |&(year, month): &Month| match month {
        12 => (year + 1, 1),
        _ => (year, month + 1),
    };
    std::iter::successors(rows.keys().next().copied(), |month| Some(next(month)))
        .take_while(|month| *month <= last)
        .map(|month| {
            let of = rows.get(&month).map_or(&[][..], Vec::as_slice);
            (month, Tally::of(loads, settled, of))
        })
        .collect()
}

#[cfg(test)]
pub(crate) mod testing;
#[cfg(test)]
mod tests;
