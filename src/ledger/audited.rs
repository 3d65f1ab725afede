//! What is asked of the ledger when a workbook comes back: its audit, its loads, and the audit's files once more.

use super::decide::would_be_planned;
use super::schema::tables;
use super::{Ledger, again, chain, past};
use crate::error::Error;
use crate::read::RawFile;
use crate::report::workbook::{whole_cause, whole_id};
use crate::site::Units;
use crate::units::Mass;
use chrono::NaiveDate;
use rusqlite::{Connection, OptionalExtension, Row};
use serde_json::Value;

/// An audit on record, as a workbook names it.
#[derive(Clone, Debug, PartialEq)]
pub struct Audited {
    /// Number of its record.
    pub number: i64,
    /// Day that it is for.
    pub day: NaiveDate,
    /// Day on which it was recorded.
    pub recorded: NaiveDate,
    /// Version of the program.
    pub program: String,
    /// Units of its reports.
    pub units: Units,
}

/// A load of an audit that a decision is taken on.
#[derive(Clone, Debug, PartialEq)]
pub struct Seen {
    /// Number of its record.
    pub record: i64,
    /// Its id.
    pub id: String,
    /// Its description.
    pub description: String,
    /// What it would weigh by the cause of its whole delivery, kg; none where a decision is on the load alone.
    pub would_be: Option<Mass>,
}

/// The files of an audit once more, with what was said of them.
#[derive(Clone, Debug, Default)]
pub struct OnceMore {
    /// Files as read today.
    pub files: Vec<RawFile>,
    /// Files that could not be read, with the reason.
    pub refused: Vec<(String, String)>,
    /// Supplier, as given by option.
    pub supplier: Option<String>,
    /// Name of the delivery, as given by option.
    pub delivery: Option<String>,
    /// Lists that another took the place of since, in words.
    pub replaced: Vec<String>,
}

impl Ledger {
    /// The latest audit of an id; none where it is not on record.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn audited(&self, id: &str) -> Result<Option<Audited>, Error> {
        let sql = "SELECT number, day, substr(time, 1, 10), program, settings FROM audit WHERE id = ?1 ORDER BY number DESC LIMIT 1";
        self.told(self.db.query_row(sql, [id], audited).optional())
    }

    /// Whether the record of a number had this hash when a report carried it as the ledger's head.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn had_head(&self, size: i64, digits: &str) -> Result<bool, Error> {
        let Some(hash) = chain::from_hex(digits) else {
            return Ok(false);
        };
        let had = |table: &&str| {
            let sql = format!("SELECT 1 FROM {table} WHERE number = ?1 AND hash = ?2");
            let found = self.db.query_row(&sql, (size, hash), |_| Ok(()));
            found.optional().map(|found| found.is_some())
        };
        self.told(tables(&self.db).and_then(|tables| {
            let found: Vec<bool> = tables.iter().map(had).collect::<rusqlite::Result<_>>()?;
            Ok(found.contains(&true))
        }))
    }

    /// The loads that a row of an audit is of, by the id in its mark: a line or package, or all loads of a delivery that have
    /// the cause which its row asks about. None where the audit has no such row.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn seen(&self, audit: &Audited, id: &str) -> Result<Option<Vec<Seen>>, Error> {
        self.told(seen(&self.db, audit.number, id))
    }

    /// The files of an audit once more, from the bytes that are kept: all that no later list took the place of.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn once_more(&self, audit: &Audited) -> Result<Result<OnceMore, String>, Error> {
        self.told(once_more(&self.db, audit.number))
    }
}

fn audited(row: &Row<'_>) -> rusqlite::Result<Audited> {
    let settings = row.get_ref(4)?.as_str()?;
    let settings: Value = serde_json::from_str(settings).unwrap_or_default();
    let day = |at: usize| {
        let text: String = row.get(at)?;
        text.parse().map_err(|error| {
            rusqlite::Error::FromSqlConversionFailure(
                at,
                rusqlite::types::Type::Text,
                Box::<chrono::ParseError>::new(error),
            )
        })
    };
    Ok(Audited {
        number: row.get(0)?,
        day: day(1)?,
        recorded: day(2)?,
        program: row.get(3)?,
        units: match settings["units"].as_str() {
            Some("us") => Units::Us,
            _ => Units::Si,
        },
    })
}

fn seen(db: &Connection, audit: i64, id: &str) -> rusqlite::Result<Option<Vec<Seen>>> {
    let one = db
        .prepare_cached(
            "SELECT l.number, l.description FROM load AS l JOIN delivery AS d ON d.number = l.delivery \
             WHERE l.id = ?1 AND d.audit = ?2",
        )?
        .query_row((id, audit), |row| {
            Ok(Seen {
                record: row.get(0)?,
                id: id.to_string(),
                description: row.get(1)?,
                would_be: None,
            })
        })
        .optional()?;
    match one {
        Some(one) => Ok(Some(vec![one])),
        None => whole(db, audit, id),
    }
}

/// The loads of a delivery that have the cause which one of its findings asks about, by the id of that finding's row.
fn whole(db: &Connection, audit: i64, id: &str) -> rusqlite::Result<Option<Vec<Seen>>> {
    let deliveries: Vec<(i64, String)> = db
        .prepare_cached("SELECT number, body FROM delivery WHERE audit = ?1")?
        .query_map([audit], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect::<rusqlite::Result<_>>()?;
    for (delivery, body) in deliveries {
        let body: Value = serde_json::from_str(&body).unwrap_or_default();
        let findings = body["findings"].as_array().into_iter().flatten();
        let cause = findings
            .filter_map(|finding| finding["code"].as_str())
            .find_map(whole_cause);
        let Some(cause) = cause else { continue };
        let loads: Vec<(i64, String)> = db
            .prepare_cached("SELECT number, id FROM load WHERE delivery = ?1 ORDER BY number")?
            .query_map([delivery], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<rusqlite::Result<_>>()?;
        if whole_id(cause, loads.iter().map(|(_, id)| id.as_str())) != id {
            continue;
        }
        let mut seen = Vec::new();
        for (number, id) in loads {
            let load = past::load(db, number)?;
            if let Some(would_be) = would_be_planned(&load, cause) {
                seen.push(Seen {
                    record: number,
                    id,
                    description: load.description,
                    would_be: Some(would_be),
                });
            }
        }
        return Ok(Some(seen));
    }
    Ok(None)
}

/// The list that was audited last as a delivery of a source, with at least one of its lines: SHA-256, name, day of that audit.
const LATER: &str = "SELECT s.sha256, s.name, a.day FROM delivery AS d JOIN delivery AS later ON later.name = d.name \
    AND later.audit > d.audit AND later.supplier IS d.supplier JOIN source AS s ON s.number = later.source \
    JOIN audit AS a ON a.number = later.audit WHERE d.source = ?1 AND EXISTS (SELECT 1 FROM load AS before \
    JOIN load AS again ON again.id = before.id WHERE before.delivery = d.number AND again.delivery = later.number) \
    ORDER BY later.number DESC LIMIT 1";

fn once_more(db: &Connection, audit: i64) -> rusqlite::Result<Result<OnceMore, String>> {
    let mut more: OnceMore = db.query_row(
        "SELECT supplier, delivery, refused FROM audit WHERE number = ?1",
        [audit],
        |row| {
            Ok(OnceMore {
                supplier: row.get(0)?,
                delivery: row.get(1)?,
                refused: serde_json::from_str(row.get_ref(2)?.as_str()?).unwrap_or_default(),
                ..OnceMore::default()
            })
        },
    )?;
    let sources: Vec<(i64, String, String)> = db
        .prepare_cached("SELECT number, name, sha256 FROM source WHERE audit = ?1 ORDER BY number")?
        .query_map([audit], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))?
        .collect::<rusqlite::Result<_>>()?;
    for (number, name, sha256) in sources {
        let later: Option<(String, String, String)> = db
            .prepare_cached(LATER)?
            .query_row([number], |row| Ok((row.get(0)?, row.get(1)?, row.get(2)?)))
            .optional()?;
        if let Some((_, other, day)) = later.filter(|(other, ..)| *other != sha256) {
            more.replaced.push(format!(
                "{name}: another list of it was audited since ({other}, for {day}), so this one is left out"
            ));
            continue;
        }
        match again::file(db, &name, &sha256)? {
            Ok(file) => more.files.push(file),
            Err(why) => return Ok(Err(why)),
        }
    }
    Ok(Ok(more))
}
