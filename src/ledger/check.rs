//! Proof: every record is as it was recorded, none is missing, and what is kept is what its hash says.

use super::Ledger;
use super::chain::{Hash, Head, from_hex, hash};
use super::schema::{self, TABLES};
use super::sources;
use crate::error::Error;
use rusqlite::types::ValueRef;
use rusqlite::{Connection, Row, Rows};

/// What a check found.
#[derive(Clone, Debug, PartialEq)]
pub struct Checked {
    /// Size and hash of the last record.
    pub head: Head,
    /// Audits, loads and decisions on record.
    pub counts: [i64; 3],
    /// What is not as it was recorded, in words; empty where everything is.
    pub faults: Vec<String>,
    /// Where the head that was asked for stands; none where none was asked for.
    pub found: Option<Found>,
}

/// Where a head stands in the chain.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Found {
    /// It is the hash of this record.
    At(i64),
    /// Of none.
    Nowhere,
}

impl Checked {
    /// Whether everything is proven that could be.
    pub fn is_sound(&self) -> bool {
        self.faults.is_empty() && self.found != Some(Found::Nowhere)
    }
}

impl Ledger {
    /// Walks the whole chain. `head` is a head kept apart from the ledger, 64 hexadecimal digits, to be found in it.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read at all; what is wrong in it is told, not an error.
    pub fn check(&self, head: Option<&str>) -> Result<Checked, Error> {
        let wanted = head.map(from_hex);
        self.told(self.checked(wanted))
    }

    /// `wanted` is some head that was asked for; one of no 64 digits stands nowhere.
    fn checked(&self, wanted: Option<Option<Hash>>) -> rusqlite::Result<Checked> {
        // One transaction, so that what others add meanwhile is not seen in part.
        let look = self.db.unchecked_transaction()?;
        let mut walk = Walk::new(wanted.flatten());
        let (as_made, strayed) = match schema::strayed(&look) {
            Ok(found) => found,
            Err(error) => (
                false,
                vec![format!("list of tables cannot be read ({error})")],
            ),
        };
        if !as_made {
            walk.faults
                .push("no record was checked: the tables are not those that were made".to_string());
        } else if let Err(error) = walk.all(&look) {
            walk.faults.push(format!(
                "after record {} the file cannot be read ({error})",
                walk.head.size
            ));
        }
        walk.faults.extend(strayed.into_iter().map(|part| {
            format!("the ledger's {part}: its tables and guards are not those that were made")
        }));
        match pragmas(&look) {
            Ok(faults) => walk.faults.extend(faults),
            Err(error) => walk.faults.push(format!("the file is damaged ({error})")),
        }
        let [_, audits, _, _, loads, decisions, _] = walk.counts;
        Ok(Checked {
            head: walk.head,
            counts: [audits, loads, decisions],
            faults: walk.faults,
            found: wanted.map(|_| walk.found.map_or(Found::Nowhere, Found::At)),
        })
    }
}

/// What the engine's own checks say.
fn pragmas(db: &Connection) -> rusqlite::Result<Vec<String>> {
    let mut faults = Vec::new();
    let mut integrity = db.prepare("PRAGMA integrity_check(20)")?;
    let said: Vec<String> = integrity
        .query_map([], |row| row.get(0))?
        .collect::<rusqlite::Result<_>>()?;
    let bad = said.iter().filter(|text| *text != "ok");
    faults.extend(bad.map(|text| format!("the file is damaged ({text})")));
    let mut references = db.prepare("PRAGMA foreign_key_check")?;
    let mut rows = references.query([])?;
    while let Some(row) = rows.next()? {
        let (table, number, other): (String, Option<i64>, String) =
            (row.get(0)?, row.get(1)?, row.get(2)?);
        let number = number.unwrap_or(0);
        faults.push(format!(
            "record {number} ({table}) names a record of {other} that is not there"
        ));
    }
    Ok(faults)
}

/// The way along the chain.
struct Walk {
    wanted: Option<Hash>,
    found: Option<i64>,
    head: Head,
    /// Hash of the record before; none where that record is missing.
    before: Option<Hash>,
    counts: [i64; TABLES.len()],
    faults: Vec<String>,
}

impl Walk {
    fn new(wanted: Option<Hash>) -> Walk {
        Walk {
            wanted,
            found: None,
            head: Head::NONE,
            before: Some(Head::NONE.hash),
            counts: [0; TABLES.len()],
            faults: Vec::new(),
        }
    }

    /// The tables side by side, always the record of the least number next.
    fn all(&mut self, db: &Connection) -> rusqlite::Result<()> {
        let mut statements = Vec::new();
        for table in schema::tables(db)? {
            statements.push(db.prepare(&format!("SELECT * FROM {table} ORDER BY number"))?);
        }
        let mut cursors: Vec<(Rows<'_>, Option<i64>)> = Vec::new();
        for statement in &mut statements {
            let mut rows = statement.query([])?;
            let first = number(&mut rows)?;
            cursors.push((rows, first));
        }
        loop {
            let waiting = cursors.iter_mut().enumerate();
            let next = waiting
                .filter_map(|(table, (rows, next))| Some(((*next)?, table, rows, next)))
                .min_by_key(|(number, ..)| *number);
            let Some((at, table, rows, next)) = next else {
                return Ok(());
            };
            if let Some(row) = fallible(rows) {
                self.record(table, at, row)?;
            }
            *next = number(rows)?;
        }
    }

    fn record(&mut self, table: usize, number: i64, row: &Row<'_>) -> rusqlite::Result<()> {
        let name = TABLES[table];
        let Some(expected) = self.head.size.checked_add(1) else {
            self.faults.push(format!(
                "record {number} ({name}) has no number left for it"
            ));
            return Ok(());
        };
        if number > expected {
            self.faults.push(if number - expected == 1 {
                format!("record {expected} is missing")
            } else {
                format!("records {expected} to {} are missing", number - 1)
            });
            self.before = None;
        } else if number < expected {
            self.faults
                .push(format!("record {number} is there twice ({name})"));
            return Ok(());
        }
        let count = row.as_ref().column_count();
        let fields = (0..count - 1)
            .map(|at| row.get_ref(at))
            .collect::<rusqlite::Result<Vec<ValueRef<'_>>>>()?;
        let kept: Option<Hash> = match row.get_ref(count - 1)? {
            ValueRef::Blob(bytes) => bytes.try_into().ok(),
            _ => None,
        };
        let proven = self
            .before
            .is_none_or(|before| Some(hash(name, fields.iter().copied(), &before)) == kept);
        if !proven {
            self.faults.push(format!(
                "record {number} ({}) is not as it was recorded",
                named(name, row)
            ));
        }
        if name == "content"
            && let (ValueRef::Text(sha256), ValueRef::Integer(size), ValueRef::Blob(packed)) =
                (fields[1], fields[2], fields[3])
            && sources::unpacked(
                &String::from_utf8_lossy(sha256),
                size.unsigned_abs(),
                packed,
            )
            .is_err()
        {
            self.faults.push(format!(
                "record {number}: the kept bytes are not those of their SHA-256"
            ));
        }
        if kept.is_some() && kept == self.wanted {
            self.found = Some(number);
        }
        self.before = kept;
        self.counts[table] += 1;
        self.head = Head {
            size: number,
            hash: kept.unwrap_or_default(),
        };
        Ok(())
    }
}

/// The row that a cursor stands on.
fn fallible<'r>(rows: &'r Rows<'_>) -> Option<&'r Row<'r>> {
    use rusqlite::fallible_streaming_iterator::FallibleStreamingIterator;
    rows.get()
}

/// Goes on to the next row and gives its number.
fn number(rows: &mut Rows<'_>) -> rusqlite::Result<Option<i64>> {
    rows.next()?.map(|row| row.get(0)).transpose()
}

/// A record in words: what it is and how people know it.
fn named(table: &str, row: &Row<'_>) -> String {
    let text = |column: &str| row.get::<_, String>(column).unwrap_or_default();
    match table {
        "content" => format!("kept bytes {}", text("sha256")),
        "audit" => format!("audit {} of {}", text("id"), text("day")),
        "source" => format!("file {}", text("name")),
        "delivery" => format!("delivery {}", text("name")),
        "load" => format!("line {}: {}", text("id"), text("description")),
        "history" => format!("what an audit knew from before, {}", text("sha256")),
        _ => format!("decision \"{}\" on line {}", text("decision"), text("id")),
    }
}
