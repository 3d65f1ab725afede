//! Past audits once more, from their kept files and settings: whether today's program says the same of every line.

mod words;

use super::sources;
use super::{Ledger, history};
use crate::audit::{self, Audit, Request};
use crate::error::Error;
use crate::fleet::{Fleet, register};
use crate::history::History;
use crate::read::{self, RawFile};
use crate::report::{loads, record};
use crate::site::{Site, Units};
use rusqlite::{Connection, Row};
use serde_json::Value;
use std::collections::{BTreeMap, VecDeque};

/// What repeating all audits gave.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Again {
    /// Audits that were repeated.
    pub audits: usize,
    /// Records that came out the same, bit for bit.
    pub same: usize,
    /// What today's program says otherwise.
    pub differences: Vec<Difference>,
    /// Audits that could not be repeated, with the reason.
    pub not_repeated: Vec<String>,
}

/// A record that came out otherwise.
#[derive(Clone, Debug, PartialEq)]
pub struct Difference {
    /// Number of the record; 0 for one that was not there.
    pub record: i64,
    /// Version of the program that recorded it.
    pub program: String,
    /// What was, and what would be.
    pub what: String,
}

/// What is kept of an audit to repeat it.
pub(super) struct Kept {
    pub(super) number: i64,
    pub(super) id: String,
    pub(super) day: String,
    program: String,
    settings: String,
    bare_units: String,
    register: Option<(String, String)>,
    supplier: Option<String>,
    delivery: Option<String>,
    refused: String,
}

/// What is read of an audit, as [`kept`] takes it.
pub(super) const KEPT: &str = "SELECT number, id, day, program, settings, bare_units, register_file, register, supplier, delivery, refused \
    FROM audit AS a";

/// What an audit is repeated with.
#[derive(Default)]
pub(super) struct Under<'o> {
    /// Settings in place of the recorded ones.
    pub(super) site: Option<&'o Site>,
    /// Register in place of the kept one.
    pub(super) fleet: Option<&'o Fleet>,
    /// With what the audit knew of earlier records.
    pub(super) history: bool,
}

/// With what the audit had.
const AS_RECORDED: Under<'static> = Under {
    site: None,
    fleet: None,
    history: true,
};

impl Ledger {
    /// Repeats every audit on record, the oldest first.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn again(&self) -> Result<Again, Error> {
        self.told(all(&self.db))
    }

    /// The audit of a record as today's program makes it; or why it cannot be repeated.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read or has no such audit.
    pub fn repeated(&self, number: i64) -> Result<Result<Audit, String>, Error> {
        let sql = format!("{KEPT} WHERE number = ?1");
        let kept = self.db.query_row(&sql, [number], kept);
        self.told(kept.and_then(|kept| repeated(&self.db, &kept, &AS_RECORDED)))
    }
}

fn all(db: &Connection) -> rusqlite::Result<Again> {
    let mut done = Again::default();
    let kept: Vec<Kept> = db
        .prepare(&format!("{KEPT} ORDER BY number"))?
        .query_map([], kept)?
        .collect::<rusqlite::Result<_>>()?;
    for kept in &kept {
        match repeated(db, kept, &AS_RECORDED)? {
            Ok(audit) => {
                done.audits += 1;
                compare(db, kept, audit, &mut done)?;
            }
            Err(why) => done.not_repeated.push(kept.not_repeated(&why)),
        }
    }
    Ok(done)
}

impl Kept {
    /// That it cannot be repeated, and why.
    pub(super) fn not_repeated(&self, why: &str) -> String {
        format!(
            "audit {} of {} (record {}): {why}",
            self.id, self.day, self.number
        )
    }

    /// The settings that it was made with; or why they are not understood.
    pub(super) fn site(&self) -> Result<Site, String> {
        let mut site: Site =
            serde_json::from_str(&self.settings).map_err(|error| unread("settings", &error))?;
        site.own_units = Some(match self.bare_units.as_str() {
            "us" => Units::Us,
            _ => Units::Si,
        });
        Ok(site)
    }
}

fn unread(what: &str, error: &dyn std::fmt::Display) -> String {
    format!("its {what} is not understood today ({error})")
}

pub(super) fn kept(row: &Row<'_>) -> rusqlite::Result<Kept> {
    let register: (Option<String>, Option<String>) = (row.get(6)?, row.get(7)?);
    Ok(Kept {
        number: row.get(0)?,
        id: row.get(1)?,
        day: row.get(2)?,
        program: row.get(3)?,
        settings: row.get(4)?,
        bare_units: row.get(5)?,
        register: register.0.zip(register.1),
        supplier: row.get(8)?,
        delivery: row.get(9)?,
        refused: row.get(10)?,
    })
}

/// A kept file as read today; or why not.
pub(super) fn file(
    db: &Connection,
    name: &str,
    sha256: &str,
) -> rusqlite::Result<Result<RawFile, String>> {
    Ok(match sources::find(db, sha256)? {
        None => Err(format!("{name} is not kept")),
        Some(Err(error)) => Err(format!("{name}: {error}")),
        Some(Ok(content)) => {
            read::bytes(name, &content).map_err(|(found, _)| format!("{name} {found}"))
        }
    })
}

/// The audit as today's program makes it, under the recorded settings or others; or why it cannot.
pub(super) fn repeated(
    db: &Connection,
    kept: &Kept,
    under: &Under<'_>,
) -> rusqlite::Result<Result<Audit, String>> {
    let names: Vec<(String, String)> = db
        .prepare_cached("SELECT name, sha256 FROM source WHERE audit = ?1 ORDER BY number")?
        .query_map([kept.number], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect::<rusqlite::Result<_>>()?;
    let mut files = Vec::new();
    for (name, sha256) in &names {
        match file(db, name, sha256)? {
            Ok(file) => files.push(file),
            Err(why) => return Ok(Err(why)),
        }
    }
    let register = match &kept.register {
        Some((name, sha256)) if under.fleet.is_none() => match file(db, name, sha256)? {
            Ok(file) => Some(file),
            Err(why) => return Ok(Err(why)),
        },
        _ => None,
    };
    let history = if under.history {
        match history::of_audit(db, kept.number)? {
            Ok(history) => history,
            Err(why) => return Ok(Err(why)),
        }
    } else {
        History::default()
    };
    Ok(run(kept, files, register, under, history))
}

fn run(
    kept: &Kept,
    files: Vec<RawFile>,
    register: Option<RawFile>,
    under: &Under<'_>,
    history: History,
) -> Result<Audit, String> {
    let site = under.site.cloned().map_or_else(|| kept.site(), Ok)?;
    let kept_fleet = || {
        register.map(|raw| Fleet {
            file: raw.name.to_string(),
            ..register::understand(&raw.sheets, site.bare_units())
        })
    };
    let fleet = under.fleet.cloned().or_else(kept_fleet);
    let refused =
        serde_json::from_str(&kept.refused).map_err(|error| unread("list of files", &error))?;
    let date = kept.day.parse().map_err(|error| unread("day", &error))?;
    Ok(audit::run(Request {
        files,
        refused,
        fleet,
        site,
        date,
        supplier: kept.supplier.clone(),
        delivery: kept.delivery.clone(),
        history,
        progress: &|_| {},
    }))
}

/// Holds every record against the one made today. The id of the audit is the recorded one in both: it names the program.
fn compare(
    db: &Connection,
    kept: &Kept,
    mut today: Audit,
    done: &mut Again,
) -> rusqlite::Result<()> {
    let differs = |record: i64, what: String| Difference {
        record,
        program: kept.program.clone(),
        what,
    };
    if kept.program == env!("CARGO_PKG_VERSION") && today.id != kept.id {
        let what = format!(
            "audit {}: its files, settings or register give the id {}",
            kept.id, today.id
        );
        done.differences.push(differs(kept.number, what));
    }
    today.id.clone_from(&kept.id);
    let mut made = Made::of(&today);
    let mut recorded = db.prepare_cached(
        "SELECT r.number, r.body, (SELECT count(*) FROM source AS s WHERE s.audit = ?1 AND s.number < r.source) FROM \
         (SELECT number, body, source FROM delivery WHERE audit = ?1 UNION ALL \
         SELECT l.number, l.body, d.source FROM load AS l JOIN delivery AS d ON d.number = l.delivery WHERE d.audit = ?1) \
         AS r ORDER BY r.number",
    )?;
    let mut rows = recorded.query([kept.number])?;
    while let Some(row) = rows.next()? {
        let body = row.get_ref(1)?.as_str()?;
        let was: Value = serde_json::from_str(body).unwrap_or_default();
        match made.take(&key(row.get::<_, u32>(2)? as usize, &was)) {
            Some(record) if record == body => done.same += 1,
            Some(record) => done
                .differences
                .push(differs(row.get(0)?, words::changed(&was, &record))),
            None => done
                .differences
                .push(differs(row.get(0)?, words::gone(&was))),
        }
    }
    done.differences
        .extend(made.rest().map(|record| differs(0, words::new(&record))));
    Ok(())
}

/// Where a record stands: position of its file, schema, sheet, row. A program that reads a name otherwise gives other ids, and
/// the row is still the row.
type Key = (usize, String, String, u64);

fn key(source: usize, record: &Value) -> Key {
    let text = |key: &str| record[key].as_str().unwrap_or_default().to_string();
    let row = record["row"].as_u64().unwrap_or(0);
    (source, text("schema"), text("sheet"), row)
}

/// The records that today's program makes, by where they stand; several of one place in their order.
struct Made(BTreeMap<Key, VecDeque<String>>);

impl Made {
    fn of(audit: &Audit) -> Made {
        let mut all = Made(BTreeMap::new());
        for delivery in &audit.deliveries {
            let loads = loads::of(delivery).map(|load| record::of_load(audit, delivery, load));
            for record in std::iter::once(record::of_delivery(delivery)).chain(loads) {
                let text = serde_json::to_string(&record).unwrap_or_default();
                let parsed = serde_json::from_str(&text).unwrap_or_default();
                let of_place = all.0.entry(key(delivery.source, &parsed)).or_default();
                of_place.push_back(text);
            }
        }
        all
    }

    fn take(&mut self, key: &Key) -> Option<String> {
        self.0.get_mut(key)?.pop_front()
    }

    fn rest(self) -> impl Iterator<Item = String> {
        self.0.into_values().flatten()
    }
}
