//! What the ledger knows of the lists of a call before they are audited, and what an audit on record knew.

mod weighings;

use super::sources::{self, Packed};
use super::{Ledger, schema};
use crate::error::Error;
use crate::history::{DECISIONS, EarlierDecision, History, on_list};
use chrono::NaiveDate;
use rusqlite::{Connection, OptionalExtension, Row};
use std::collections::BTreeSet;

impl Ledger {
    /// What is known of lists, named by their SHA-256, and the weighings of all goods of a day and later, where one is given.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn history(
        &self,
        lists: &BTreeSet<&str>,
        since: Option<NaiveDate>,
    ) -> Result<History, Error> {
        self.told(known(&self.db, lists, since))
    }
}

/// From the decisions to their loads: decisions are few, however many loads there are.
const DECISIONS_ON_LISTS: &str = "SELECT o.body ->> 'sheet', c.number, s.sha256, d.supplier, o.substance, c.decision, c.plan_kg, c.evidence, \
    c.name, coalesce(c.dated, substr(c.time, 1, 10)), \
    o.body ->> 'row', o.body ->> 'schema' = 'dockheft.package/1', \
    iif(o.body ->> 'schema' = 'dockheft.package/1', o.body ->> 'package', o.body ->> 'item') FROM decision AS c CROSS JOIN load AS o ON o.number = c.load \
    CROSS JOIN delivery AS d ON d.number = o.delivery CROSS JOIN source AS s ON s.number = d.source ORDER BY c.number";

fn known(
    db: &Connection,
    lists: &BTreeSet<&str>,
    since: Option<NaiveDate>,
) -> rusqlite::Result<History> {
    // One transaction, so that decisions and weighings are of one state.
    let look = db.unchecked_transaction()?;
    let db = &look;
    let mut history = History {
        weighings: since.map_or(Ok(Vec::new()), |day| weighings::since(db, day))?,
        newest_decision: newest_decision(db)?,
        ..History::default()
    };
    let mut decisions = db.prepare(DECISIONS_ON_LISTS)?;
    let mut rows = decisions.query([])?;
    while let Some(row) = rows.next()? {
        if lists.contains(row.get_ref(2)?.as_str()?)
            && let Some(decision) = decision(row)?
        {
            history.keep(&place(row)?, &decision);
        }
    }
    Ok(history)
}

/// Number of the newest decision on record; 0: none.
pub(super) fn newest_decision(db: &Connection) -> rusqlite::Result<i64> {
    let newest = "SELECT coalesce(max(number), 0) FROM decision";
    db.query_row(newest, [], |row| row.get(0))
}

fn place(row: &Row<'_>) -> rusqlite::Result<String> {
    let name: Option<String> = row.get(12)?;
    let sheet = row.get_ref(0)?.as_str()?;
    Ok(on_list(sheet, row.get(10)?, name.as_deref(), row.get(11)?))
}

/// None for a decision in words that this program does not know.
fn decision(row: &Row<'_>) -> rusqlite::Result<Option<EarlierDecision>> {
    let words: String = row.get(5)?;
    let Some((kind, _)) = DECISIONS.iter().find(|(_, known)| *known == words) else {
        return Ok(None);
    };
    let plan: Option<f64> = row.get(6)?;
    Ok(Some(EarlierDecision {
        record: row.get(1)?,
        list: row.get(2)?,
        supplier: row.get(3)?,
        substance: row.get(4)?,
        kind: *kind,
        plan: plan.map(crate::units::Mass::from_kg),
        evidence: row.get(7)?,
        name: row.get(8)?,
        day: row.get(9)?,
    }))
}

/// What an audit knew, as bytes to keep; none where it knew nothing.
pub(super) fn packed(history: &History) -> serde_json::Result<Option<Packed>> {
    if history.is_empty() {
        return Ok(None);
    }
    Ok(Some(Packed::of(&serde_json::to_vec(history)?)))
}

/// What the audit of a record knew; or why that cannot be told.
pub(super) fn of_audit(db: &Connection, audit: i64) -> rusqlite::Result<Result<History, String>> {
    if !schema::tables(db)?.contains(&"history") {
        return Ok(Ok(History::default()));
    }
    let sha256: Option<String> = db
        .prepare_cached("SELECT sha256 FROM history WHERE audit = ?1")?
        .query_row([audit], |row| row.get(0))
        .optional()?;
    let Some(sha256) = sha256 else {
        return Ok(Ok(History::default()));
    };
    Ok(match sources::find(db, &sha256)? {
        None => Err("what it knew from before is not kept".to_string()),
        Some(Err(error)) => Err(format!("what it knew from before: {error}")),
        Some(Ok(content)) => serde_json::from_slice(&content)
            .map_err(|error| format!("what it knew from before is not understood today ({error})")),
    })
}
