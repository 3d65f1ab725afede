//! Decisions about loads: checked, recorded all together or not at all, each beside the earlier ones.

mod evidence;
mod rules;

pub(super) use evidence::says_more;
pub(super) use rules::would_be_planned;

use super::Ledger;
use super::chain::{Head, Writer};
use super::past::{self, Past, Taken};
use super::stamp::Stamp;
use super::trace::Decided as OnRecord;
use crate::compare::Bounds;
use crate::error::Error;
use crate::history::DecisionKind;
use crate::site::Units;
use crate::units::Mass;
use chrono::NaiveDate;
use rusqlite::types::Value;
use rusqlite::{Connection, TransactionBehavior};

/// A decision about one load.
#[derive(Clone, Debug, PartialEq)]
pub struct Decision {
    /// Id of the line or package.
    pub load: String,
    /// Supplier, where lists of several have a line of this id.
    pub supplier: Option<String>,
    /// Number of the load's record that was looked at, where one is known: the decision stands for the list of that record alone,
    /// and one that is on record already is not recorded again.
    pub seen: Option<i64>,
    /// What was decided.
    pub kind: DecisionKind,
    /// Weight of the whole load, where the decision brings one.
    pub weight: Option<Mass>,
    /// What it rests on: a scale ticket, the supplier's letter.
    pub evidence: Option<String>,
    /// Who decided, as typed.
    pub name: String,
    /// Remark.
    pub remark: Option<String>,
    /// Day written beside the decision, where one was.
    pub dated: Option<NaiveDate>,
    /// How it came in ("command line", a workbook's name).
    pub origin: String,
}

/// A decision that was taken.
#[derive(Clone, Debug, PartialEq)]
pub struct Decided {
    /// Id of the load.
    pub load: String,
    /// Its description.
    pub description: String,
    /// Supplier, file and day of its delivery.
    pub origin: String,
    /// What was decided.
    pub kind: DecisionKind,
    /// By whom, as typed.
    pub name: String,
    /// Planning weight of the whole load until now, kg; none: it was not lifted, or had no weight.
    pub before: Option<Mass>,
    /// A decision until now was that it is not lifted.
    pub was_refused: bool,
    /// Planning weight that the audit matched the truck for, kg.
    pub matched: Option<Mass>,
    /// Truck of that audit.
    pub truck: Option<String>,
    /// From now on; none: it is not lifted.
    pub plan: Option<Mass>,
    /// What a decided weight may be before somebody looks again.
    bounds: Option<Bounds>,
    /// Decisions on it that were taken before.
    pub earlier: usize,
    /// The latest other decision that stands for it.
    pub standing: Option<OnRecord>,
    /// This very decision was on record already and was not recorded again; the time of its record.
    pub again: Option<String>,
}

impl Decided {
    /// What is to be done about a weight outside of what the load should weigh.
    pub fn doubt(&self, units: Units) -> Option<String> {
        let typed = self.plan.filter(|_| self.kind != DecisionKind::UseEstimate);
        self.bounds?.doubt(typed?, units)
    }
}

/// A load of one cause: its id, and what it would weigh if that is the cause, kg.
pub type Weight = (String, Mass);

impl Ledger {
    /// Records decisions, all or none. When this returns, they are on the disk.
    ///
    /// # Errors
    /// [`Error::Decision`] with every reason against them; [`Error::Ledger`] when they could not be recorded.
    pub fn decide(
        &mut self,
        decisions: &[Decision],
        stamp: &Stamp,
    ) -> Result<(Vec<Decided>, Head), Error> {
        let (answers, head) = self.decide_each(decisions, stamp, true)?;
        let (mut taken, mut reasons) = (Vec::new(), Vec::new());
        for (decision, answer) in decisions.iter().zip(answers) {
            match answer {
                Ok(decided) => taken.push(decided),
                Err(reason) => reasons.push(format!("{}: {reason}", decision.load)),
            }
        }
        if reasons.is_empty() {
            Ok((taken, head))
        } else {
            Err(Error::Decision { reasons })
        }
    }

    /// What becomes of each decision, or the reason against it. All are recorded where `record` says so and there is no reason
    /// against any; else none is.
    ///
    /// # Errors
    /// [`Error::Ledger`] when they could not be recorded.
    pub fn decide_each(
        &mut self,
        decisions: &[Decision],
        stamp: &Stamp,
        record: bool,
    ) -> Result<(Vec<Result<Decided, String>>, Head), Error> {
        let done = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)
            .and_then(|all| {
                let mut writer = Writer::at_end(&all)?;
                let answers = decisions
                    .iter()
                    .map(|decision| one(&all, &mut writer, decision, stamp))
                    .collect::<rusqlite::Result<Vec<_>>>()?;
                let head = writer.head();
                if record && answers.iter().all(Result::is_ok) {
                    all.commit()?;
                }
                Ok((answers, head))
            });
        self.told(done)
    }

    /// The loads of a delivery's latest audit whose likely cause is of a kind. `supplier` narrows deliveries of one name.
    ///
    /// # Errors
    /// [`Error::Decision`] when the delivery is not on record, is of several suppliers or files, or has no such load.
    pub fn of_cause(
        &self,
        delivery: &str,
        supplier: Option<&str>,
        cause: &str,
    ) -> Result<Vec<Weight>, Error> {
        let mut loads = self.told(past::latest(&self.db, delivery))?;
        loads.retain(|load| load.is_of(supplier));
        let refused = |reason: String| {
            Err(Error::Decision {
                reasons: vec![reason],
            })
        };
        let Some(first) = loads.first() else {
            return refused(format!(
                "delivery \"{delivery}\" is not on record; \"dockheft trace\" shows what is"
            ));
        };
        let of = |load: &Past| (load.audit.number, load.supplier.clone(), load.file.clone());
        if loads.iter().any(|load| of(load) != of(first)) {
            let what = format!("lists have a delivery \"{delivery}\"");
            return refused(several(&what, &loads));
        }
        let found: Vec<Weight> = loads
            .iter()
            .filter_map(|load| Some((load.id.clone(), rules::would_be_planned(load, cause)?)))
            .collect();
        if found.is_empty() {
            return refused(format!(
                "no line of delivery \"{delivery}\" has the cause {cause}"
            ));
        }
        Ok(found)
    }
}

/// The one load that a decision is on; or why it is none or several.
fn meant(db: &Connection, decision: &Decision) -> rusqlite::Result<Result<Past, String>> {
    let mut records = past::by_id(db, &decision.load)?;
    if records.is_empty() {
        return Ok(Err(
            "no such line is on record; the last column of the sheet Exceptions and \"dockheft trace\" have the ids".to_string(),
        ));
    }
    let seen = decision
        .seen
        .map(|number| past::load(db, number))
        .transpose()?;
    records.retain(|load| match &seen {
        Some(seen) => load.supplier == seen.supplier,
        None => load.is_of(decision.supplier.as_deref()),
    });
    let Some(newest) = records.first() else {
        return Ok(Err("that supplier has no such line".to_string()));
    };
    let gone = format!(
        "a later audit of its delivery ({}) no longer has this line; decide on a line that is still there",
        newest.origin()
    );
    records.retain(|load| load.latest);
    if records.len() > 1 {
        return Ok(Err(several("deliveries have this line", &records)));
    }
    let Some(load) = records.pop() else {
        return Ok(Err(gone));
    };
    Ok(match seen {
        Some(seen) if seen.file.1 != load.file.1 => Err(format!(
            "another list of this delivery was audited since ({}, recorded {}), and a decision on the earlier one does not stand for it; decide in the workbook of that audit",
            load.origin(),
            load.audit.time
        )),
        Some(seen)
            if seen.substance != load.substance
                || rules::taken_up(decision.kind, &seen)
                    != rules::taken_up(decision.kind, &load) =>
        {
            Err(format!(
                "it was worked out otherwise since ({}, recorded {}); decide in the workbook of that audit",
                load.origin(),
                load.audit.time
            ))
        }
        _ => Ok(load),
    })
}

/// That loads are of several deliveries, and which.
fn several(what: &str, loads: &[Past]) -> String {
    let mut origins: Vec<String> = loads.iter().map(Past::origin).collect();
    origins.dedup();
    format!(
        "several {what}: {}; say which with --supplier, or decide line by line with --line",
        origins.join("; ")
    )
}

/// Checks a decision and adds it; or the reason against it.
fn one(
    db: &Connection,
    writer: &mut Writer<'_>,
    decision: &Decision,
    stamp: &Stamp,
) -> rusqlite::Result<Result<Decided, String>> {
    let load = match meant(db, decision)? {
        Ok(load) => load,
        Err(reason) => return Ok(Err(reason)),
    };
    let load = &load;
    if load.record["verdict"] == "shared" {
        return Ok(Err(match past::package_of(db, load)? {
            Some((id, name)) => format!(
                "its weight is that of its package \"{name}\": decide on the package (--line {id})"
            ),
            None => {
                "its weight is that of its package: decide on the package (the workbook has its id)"
                    .to_string()
            }
        }));
    }
    let earlier = past::decisions(db, load)?;
    let standing = earlier.iter().rev().find(|taken| taken.stands);
    let planned = load.record["planning"]["line_kg"].as_f64();
    let before = standing.map_or(planned, |taken| taken.plan_kg);
    let plan = match rules::plan(decision, load) {
        Ok(plan) => plan,
        Err(reason) => return Ok(Err(reason)),
    };
    let again = earlier
        .iter()
        .find(|taken| decision.seen.is_some() && is_on_record(decision, taken));
    let decided = Decided {
        load: load.id.clone(),
        description: load.description.clone(),
        origin: load.origin(),
        kind: decision.kind,
        name: decision.name.trim().to_string(),
        before: before.map(Mass::from_kg),
        was_refused: standing.is_some_and(|taken| taken.plan_kg.is_none()),
        matched: planned.map(Mass::from_kg),
        truck: load.record["truck"]["id"].as_str().map(str::to_string),
        plan,
        bounds: load.shown.bounds,
        earlier: earlier.len(),
        standing: standing
            .filter(|standing| again.is_none_or(|again| again.number != standing.number))
            .cloned()
            .map(OnRecord::from),
        again: again.map(|taken| taken.time.clone()),
    };
    if decided.again.is_some() {
        return Ok(Ok(decided));
    }
    let text = |text: &str| Value::Text(text.to_string());
    let maybe = |given: Option<&str>| given.map_or(Value::Null, text);
    let kg = |mass: Option<f64>| mass.map_or(Value::Null, Value::Real);
    let dated = decision.dated.map(|day| day.to_string());
    writer.add(
        "decision",
        vec![
            Value::Integer(load.number),
            text(&load.id),
            text(decision.kind.words()),
            kg(plan.map(Mass::kg)),
            kg(before),
            maybe(rules::given(&decision.evidence)),
            text(decision.name.trim()),
            maybe(rules::given(&decision.remark)),
            maybe(dated.as_deref()),
            text(&decision.origin),
            text(&stamp.time),
            text(&stamp.host),
            text(&stamp.user),
            text(env!("CARGO_PKG_VERSION")),
        ],
    )?;
    Ok(Ok(decided))
}

/// Whether a decision is word for word one that is on record and stands.
fn is_on_record(decision: &Decision, taken: &Taken) -> bool {
    let same_weight = match (decision.weight, taken.plan_kg) {
        (Some(weight), Some(plan)) => (weight.kg() - plan).abs() <= 1e-9 * plan.abs(),
        // What the other decisions plan with is the load's.
        (weight, _) => weight.is_none(),
    };
    taken.stands
        && same_weight
        && taken.decision == decision.kind.words()
        && taken.name == decision.name.trim()
        && taken.evidence.as_deref() == rules::given(&decision.evidence)
        && taken.remark.as_deref() == rules::given(&decision.remark)
        && taken.dated == decision.dated.map(|day| day.to_string())
}
