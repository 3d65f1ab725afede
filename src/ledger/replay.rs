//! Past audits under other settings, from their kept files: read one by one and handed to the counting (`crate::replay`).
//! Of several audits of one delivery the latest counts. What was decided since is kept out of both readings, so that each
//! flag is the one that was raised before anybody knew better.

mod judged;

use super::Ledger;
use super::again::{self, KEPT, Kept, Under};
use super::chain::{self, Head};
use super::decide::says_more;
use super::past::{self, LATEST, MAY_STAND, Taken};
use super::trace::suppliers;
use crate::error::Error;
use crate::fleet::Fleet;
use crate::history::DecisionKind;
use crate::replay::{Case, Curve, Judged, Replay, Said, Tally, differences};
use crate::site::Site;
use crate::units::Mass;
use chrono::NaiveDate;
use judged::{Key, Seen};
use rusqlite::types::Value as Sql;
use rusqlite::{Connection, params_from_iter};
use std::collections::{BTreeMap, BTreeSet};

/// What is to be compared.
#[derive(Clone, Debug)]
pub struct Asked {
    /// The other settings.
    pub site: Site,
    /// A register in place of those kept with the audits.
    pub fleet: Option<Fleet>,
    /// First day of the audits.
    pub from: Option<NaiveDate>,
    /// Last day of the audits.
    pub to: Option<NaiveDate>,
    /// Part of the supplier's name, small or capital letters.
    pub supplier: Option<String>,
    /// Tolerances, relative, the least first.
    pub tolerances: Vec<f64>,
    /// How far a declared weight may be off the decided one, relative, before it counts as wrong.
    pub wrong_by: f64,
}

impl Asked {
    fn is_of(&self, seen: &Seen) -> bool {
        let lower = |name: &str| name.trim().to_lowercase();
        self.supplier.as_deref().is_none_or(|part| {
            let supplier = seen.named.supplier.as_deref().map(lower);
            supplier.is_some_and(|supplier| supplier.contains(&lower(part)))
        })
    }
}

impl Ledger {
    /// The ledger's lines under other settings, and its head then. `progress` is told after each audit how many of how many are done.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn replay(
        &self,
        asked: &Asked,
        progress: &dyn Fn(usize, usize),
    ) -> Result<(Replay, Head), Error> {
        self.told(all(&self.db, asked, progress))
    }
}

fn all(
    db: &Connection,
    asked: &Asked,
    progress: &dyn Fn(usize, usize),
) -> rusqlite::Result<(Replay, Head)> {
    // One transaction, so that what others decide meanwhile is not seen in part.
    let look = db.unchecked_transaction()?;
    let mut tally = Tally::new(asked.site.tolerance, &asked.tolerances, asked.wrong_by);
    let audits = audits(&look, asked)?;
    for (at, kept) in audits.iter().enumerate() {
        if let Err(why) = one(&look, kept, asked, &mut tally)? {
            tally.not_repeated(kept.not_repeated(&why));
        }
        progress(at + 1, audits.len());
    }
    Ok((tally.done(), chain::head(&look)?))
}

/// The audits that have a load of a delivery which no later one replaces, the oldest first. A list without loads is nobody's
/// to replace, and would count as the latest for ever.
fn audits(db: &Connection, asked: &Asked) -> rusqlite::Result<Vec<Kept>> {
    let mut terms = String::new();
    let mut values = Vec::new();
    for (sign, day) in [(">=", asked.from), ("<=", asked.to)] {
        if let Some(day) = day {
            terms.push_str(&format!(" AND a.day {sign} ?"));
            values.push(Sql::Text(day.to_string()));
        }
    }
    let mut of_supplier = String::new();
    if let Some(part) = &asked.supplier {
        let names = suppliers(db, part)?;
        let places = vec!["?"; names.len()].join(", ");
        of_supplier = format!(" AND l.supplier IN ({places})");
        values.extend(names.into_iter().map(Sql::Text));
    }
    let sql = format!(
        "{KEPT} WHERE 1 = 1{terms} AND EXISTS (SELECT 1 FROM delivery AS d WHERE d.audit = a.number AND {LATEST} \
         AND EXISTS (SELECT 1 FROM load AS l WHERE l.delivery = d.number{of_supplier})) ORDER BY number"
    );
    db.prepare(&sql)?
        .query_map(params_from_iter(values), again::kept)?
        .collect()
}

/// Counts an audit; or says why it cannot be repeated.
fn one(
    db: &Connection,
    kept: &Kept,
    asked: &Asked,
    tally: &mut Tally,
) -> rusqlite::Result<Result<(), String>> {
    let own = match kept.site() {
        Ok(site) => site,
        Err(why) => return Ok(Err(why)),
    };
    let sheets = latest(db, kept.number)?;
    let curve = Curve::new(&asked.site, &asked.tolerances);
    let other = Under {
        site: Some(&asked.site),
        fleet: asked.fleet.as_ref(),
        history: false,
    };
    // One after the other, so that never more than one audit is held.
    let mut would_be = match again::repeated(db, kept, &other)? {
        Ok(audit) => judged::of(&audit, &sheets, &curve),
        Err(why) => return Ok(Err(why)),
    };
    let differences = differences(&own, &asked.site);
    let was = if differences.is_empty() && asked.fleet.is_none() {
        would_be.clone()
    } else {
        match again::repeated(db, kept, &Under::default())? {
            Ok(audit) => judged::of(&audit, &sheets, &Curve::new(&own, &[])),
            Err(why) => return Ok(Err(why)),
        }
    };
    tally.audit(own.tolerance, differences);
    let mut recorded = recorded(db, kept.number)?;
    let mut program_differs = 0;
    let cases = was.into_iter().map(|(key, was)| {
        let now = would_be.remove(&key);
        (key, Some(was), now)
    });
    let mut cases: Vec<(Key, Option<Seen>, Option<Seen>)> = cases.collect();
    cases.extend(
        would_be
            .into_iter()
            .map(|(key, now)| (key, None, Some(now))),
    );
    for (key, was, now) in cases {
        let on_record = recorded.remove(&key);
        let Some(seen) = was
            .as_ref()
            .or(now.as_ref())
            .filter(|seen| asked.is_of(seen))
        else {
            continue;
        };
        let named = seen.named.clone();
        if let (Some(was), Some(record)) = (&was, &on_record) {
            program_differs += usize::from(!record.is_like(&was.judged));
        }
        tally.add(Case {
            named,
            was: was.map(|seen| seen.judged),
            at: now.as_ref().map_or(Vec::new(), |seen| seen.at.clone()),
            would_be: now.map(|seen| seen.judged),
            said: match on_record.and_then(|record| record.decided) {
                Some(load) => said(db, load)?,
                None => None,
            },
        });
    }
    let mut not_found = 0;
    for load in recorded.values().filter_map(|record| record.decided) {
        not_found += usize::from(said(db, load)?.is_some());
    }
    tally.otherwise(program_differs, not_found);
    Ok(Ok(()))
}

/// The sheets of an audit whose deliveries no later audit replaces: position of the file, and the sheet's name.
fn latest(db: &Connection, audit: i64) -> rusqlite::Result<BTreeSet<(usize, String)>> {
    let sql = format!(
        "SELECT (SELECT count(*) FROM source AS s WHERE s.audit = ?1 AND s.number < d.source), coalesce(d.body ->> 'sheet', '') \
         FROM delivery AS d WHERE d.audit = ?1 AND {LATEST}"
    );
    db.prepare_cached(&sql)?
        .query_map([audit], |row| {
            Ok((row.get::<_, u32>(0)? as usize, row.get(1)?))
        })?
        .collect()
}

/// A load on record, in short.
struct OnRecord {
    flagged: bool,
    verdict: String,
    /// Number of its record, where a decision may stand for it.
    decided: Option<i64>,
}

impl OnRecord {
    /// Whether it was judged so.
    fn is_like(&self, judged: &Judged) -> bool {
        let verdict = serde_json::to_value(judged.verdict).unwrap_or_default();
        self.flagged == judged.is_exception() && verdict == self.verdict.as_str()
    }
}

/// The loads on record of the deliveries that no later audit replaces.
fn recorded(db: &Connection, audit: i64) -> rusqlite::Result<BTreeMap<Key, OnRecord>> {
    let sql = format!(
        "SELECT (SELECT count(*) FROM source AS s WHERE s.audit = ?1 AND s.number < d.source), coalesce(d.body ->> 'sheet', ''), \
         l.body ->> 'schema' = 'dockheft.package/1', l.body ->> 'row', l.flagged, l.body ->> 'verdict', \
         iif(EXISTS (SELECT 1 FROM decision AS c WHERE {MAY_STAND}), l.number, NULL) \
         FROM delivery AS d JOIN load AS l ON l.delivery = d.number WHERE d.audit = ?1 AND {LATEST} ORDER BY l.number"
    );
    let mut found = BTreeMap::new();
    let mut loads = db.prepare_cached(&sql)?;
    let mut rows = loads.query([audit])?;
    while let Some(row) = rows.next()? {
        let source = row.get::<_, u32>(0)? as usize;
        let key = Key::next(
            &found,
            source,
            row.get_ref(1)?.as_str()?,
            row.get(2)?,
            row.get(3)?,
        );
        let record = OnRecord {
            flagged: row.get(4)?,
            verdict: row.get(5)?,
            decided: row.get(6)?,
        };
        found.insert(key, record);
    }
    Ok(found)
}

/// What the last decision that stands for a load says; none where none stands.
fn said(db: &Connection, number: i64) -> rusqlite::Result<Option<Said>> {
    let load = past::load(db, number)?;
    let decisions = past::decisions(db, &load)?;
    let standing = decisions.iter().rev().find(|taken| taken.stands);
    Ok(standing.map(|taken| says(taken, &load)))
}

fn says(taken: &Taken, load: &past::Past) -> Said {
    let is = |kind: DecisionKind| taken.decision == kind.words();
    let weight = taken.plan_kg.map(Mass::from_kg);
    match weight {
        Some(weight) if is(DecisionKind::Weighed) || is(DecisionKind::SupplierCorrected) => {
            Said::Weight(weight)
        }
        _ if is(DecisionKind::AcceptDeclared) => {
            let evidence = taken.evidence.as_deref().unwrap_or_default();
            if says_more(evidence, &load.file.0, &load.delivery) {
                Said::Proven
            } else {
                Said::Unproven
            }
        }
        _ => Said::Nothing,
    }
}
