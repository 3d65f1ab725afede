//! What was decided about flagged loads, how fast, what is open since when, and each `stop` that was overridden.

use super::loads::Loads;
use super::numbers::{median, nine_in_ten};
use chrono::{DateTime, NaiveDate};
use polars::prelude::{DataFrame, PolarsResult};
use serde::Serialize;
use std::cmp::Reverse;
use std::collections::{HashMap, HashSet};

/// Decisions that bring no new weight: on a load that says `stop`, they override it.
const WITHOUT_WEIGHT: [&str; 2] = [ACCEPTED, "use estimate"];
const ACCEPTED: &str = "accept declared";
/// Ages of open decisions: the most days, in words.
const AGES: [(i64, &str); 5] = [
    (1, "up to 1 day"),
    (7, "2 to 7 days"),
    (30, "8 to 30 days"),
    (90, "31 to 90 days"),
    (i64::MAX, "over 90 days"),
];

/// The decisions on the loads that count.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Decisions {
    /// All flagged loads that are decided.
    pub all: Speed,
    /// The same by what was decided last, the most frequent first.
    pub kinds: Vec<Kind>,
    /// Loads decided though they were not flagged.
    pub not_flagged: usize,
    /// Flagged loads that nobody has decided, by days since the first audit.
    pub open: Vec<Age>,
    /// Decisions that brought no new weight and let a load be lifted that said `stop`, in the order of time: also those on lists
    /// that others took the place of since.
    pub overrides: Vec<Override>,
}

/// How many loads, and the hours from the record of the audit to the first decision on it.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Speed {
    /// Loads.
    pub lines: usize,
    /// Median of the hours.
    pub median_hours: Option<f64>,
    /// Nine in ten took no more hours.
    pub nine_in_ten_hours: Option<f64>,
}

/// Loads by what was decided.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Kind {
    /// What.
    pub decision: String,
    /// How many, how fast.
    #[serde(flatten)]
    pub speed: Speed,
}

/// Open decisions of an age.
#[derive(Clone, Copy, Debug, PartialEq, Serialize)]
pub struct Age {
    /// The age in words.
    pub age: &'static str,
    /// Flagged loads.
    pub lines: usize,
    /// Those of them that say `stop`.
    pub stops: usize,
}

/// A `stop` that was overridden.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Override {
    /// Id of the load.
    pub id: String,
    /// Supplier, where known.
    pub supplier: Option<String>,
    /// What was decided.
    pub decision: String,
    /// Who, as typed.
    pub name: String,
    /// When it was recorded (RFC 3339).
    pub time: String,
    /// Planned with until then, kg.
    pub before_kg: Option<f64>,
    /// Planned with from then on, kg.
    pub plan_kg: f64,
    /// It is good for a load that counts, and no later decision took its place.
    pub stands: bool,
    /// It is good for no load any more: another list took the place of its own, or the load was worked out otherwise since.
    pub replaced: bool,
}

/// What was decided about a load.
pub(super) struct Settled {
    /// The decision that stands.
    kind: String,
    /// From the record of the audit to the first decision on it; none where a clock was wrong.
    pub(super) hours: Option<f64>,
}

impl Settled {
    /// The declared weight was accepted.
    pub(super) fn accepted(&self) -> bool {
        self.kind == ACCEPTED
    }
}

/// One row of the ledger's frame of decisions.
struct Taken<'f> {
    number: i64,
    id: &'f str,
    supplier: Option<&'f str>,
    kind: &'f str,
    name: &'f str,
    time: &'f str,
    recorded: &'f str,
    plan_kg: Option<f64>,
    before_kg: Option<f64>,
    /// What the load said when it was made.
    flagged: bool,
    stop: bool,
    /// The load that it is good for.
    load: Option<i64>,
    stands: bool,
}

/// The decisions, oldest first, of each a row for every load that it is good for.
fn taken(decisions: &DataFrame) -> PolarsResult<Vec<Taken<'_>>> {
    let text = |column: &str| decisions.column(column)?.str();
    let number = |column: &str| decisions.column(column)?.i64();
    let weight = |column: &str| decisions.column(column)?.f64();
    let yes = |column: &str| decisions.column(column)?.bool();
    let (numbers, load) = (number("number")?, number("stands_for")?);
    let (id, supplier) = (text("id")?, text("supplier")?);
    let (kind, name) = (text("kind")?, text("name")?);
    let (time, recorded) = (text("time")?, text("recorded")?);
    let (plan, before) = (weight("plan_kg")?, weight("before_kg")?);
    let (flagged, stop, stands) = (yes("flagged")?, yes("stop")?, yes("stands")?);
    let of = |at: usize| {
        Some(Taken {
            number: numbers.get(at)?,
            id: id.get(at)?,
            supplier: supplier.get(at),
            kind: kind.get(at)?,
            name: name.get(at)?,
            time: time.get(at)?,
            recorded: recorded.get(at)?,
            plan_kg: plan.get(at),
            before_kg: before.get(at),
            flagged: flagged.get(at)?,
            stop: stop.get(at)?,
            load: load.get(at),
            stands: stands.get(at)?,
        })
    };
    Ok((0..decisions.height()).filter_map(of).collect())
}

/// What was decided about each load, by its row; and all of it together. A list that is audited again after a decision no
/// longer flags what was decided: such loads count as flagged all the same.
pub(super) fn decisions(
    loads: &mut Loads,
    decisions: &DataFrame,
    today: NaiveDate,
) -> PolarsResult<(Vec<Option<Settled>>, Decisions)> {
    let taken = taken(decisions)?;
    let decided: HashSet<i64> = taken.iter().filter_map(|one| one.load).collect();
    let rows: HashMap<i64, usize> = (loads.number.iter().copied().zip(0..))
        .filter(|(number, _)| decided.contains(number))
        .collect();
    let mut settled: Vec<Option<Settled>> = loads.number.iter().map(|_| None).collect();
    for one in &taken {
        let Some(&row) = one.load.and_then(|load| rows.get(&load)) else {
            continue;
        };
        loads.flagged[row] |= one.flagged;
        loads.stop[row] |= one.stop;
        let place = &mut settled[row];
        let first = match place {
            Some(earlier) => earlier.hours,
            None => hours(one.recorded, one.time),
        };
        *place = Some(Settled {
            kind: one.kind.to_string(),
            hours: first,
        });
    }
    let all = Decisions {
        all: speed(flagged(loads, &settled)),
        kinds: kinds(loads, &settled),
        not_flagged: settled.iter().flatten().count() - flagged(loads, &settled).count(),
        open: open(loads, &settled, today),
        overrides: Vec::new(),
    };
    Ok((settled, all))
}

/// Those of the flagged loads.
fn flagged<'s>(
    loads: &'s Loads,
    settled: &'s [Option<Settled>],
) -> impl Iterator<Item = &'s Settled> {
    let both = loads.flagged.iter().zip(settled);
    both.filter(|(flagged, _)| **flagged)
        .filter_map(|(_, settled)| settled.as_ref())
}

fn kinds(loads: &Loads, settled: &[Option<Settled>]) -> Vec<Kind> {
    let mut by_kind: HashMap<&str, Vec<&Settled>> = HashMap::new();
    for one in flagged(loads, settled) {
        by_kind.entry(&one.kind).or_default().push(one);
    }
    let mut kinds: Vec<Kind> = by_kind
        .into_iter()
        .map(|(kind, of)| Kind {
            decision: kind.to_string(),
            speed: speed(of.into_iter()),
        })
        .collect();
    let order = |kind: &Kind| (Reverse(kind.speed.lines), kind.decision.clone());
    kinds.sort_by_key(order);
    kinds
}

fn speed<'s>(of: impl Iterator<Item = &'s Settled>) -> Speed {
    let all: Vec<Option<f64>> = of.map(|settled| settled.hours).collect();
    let mut hours: Vec<f64> = all.iter().copied().flatten().collect();
    Speed {
        lines: all.len(),
        median_hours: median(&mut hours),
        nine_in_ten_hours: nine_in_ten(&mut hours),
    }
}

fn open(loads: &Loads, settled: &[Option<Settled>], today: NaiveDate) -> Vec<Age> {
    let mut ages = AGES.map(|(_, age)| Age {
        age,
        lines: 0,
        stops: 0,
    });
    for (row, settled) in settled.iter().enumerate() {
        if !loads.flagged[row] || settled.is_some() {
            continue;
        }
        let days = loads.day[row].map_or(i64::MAX, |day| (today - day).num_days());
        let at = AGES.iter().position(|(most, _)| days <= *most);
        if let Some(age) = at.and_then(|at| ages.get_mut(at)) {
            age.lines += 1;
            age.stops += usize::from(loads.stop[row]);
        }
    }
    ages.into()
}

/// The overrides among decisions, each once.
pub(super) fn overrides(decisions: &DataFrame) -> PolarsResult<Vec<Override>> {
    let mut taken = taken(decisions)?;
    taken.dedup_by_key(|one| one.number);
    let overrides = taken
        .iter()
        .filter(|one| one.stop && WITHOUT_WEIGHT.contains(&one.kind))
        .filter_map(|one| {
            Some(Override {
                id: one.id.to_string(),
                supplier: one.supplier.map(str::to_string),
                decision: one.kind.to_string(),
                name: one.name.to_string(),
                time: one.time.to_string(),
                before_kg: one.before_kg,
                plan_kg: one.plan_kg?,
                stands: one.stands,
                replaced: one.load.is_none(),
            })
        });
    Ok(overrides.collect())
}

/// Hours from one time to a later one; none where either is no time or the clock went back.
fn hours(from: &str, to: &str) -> Option<f64> {
    let time = |text| DateTime::parse_from_rfc3339(text).ok();
    let seconds = (time(to)? - time(from)?).num_seconds();
    (seconds >= 0).then_some(seconds as f64 / 3_600.0)
}
