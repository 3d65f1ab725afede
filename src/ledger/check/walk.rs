//! The way along the chain: each record against its hash, each load's figures against its record.

use crate::ledger::chain::{Hash, Head, hash};
use crate::ledger::figures::{self, Words};
use crate::ledger::schema::{self, TABLES};
use crate::ledger::sources;
use rusqlite::types::ValueRef;
use rusqlite::{Connection, OptionalExtension, Row, Rows};

/// The way along a part of the chain.
pub(super) struct Walk {
    wanted: Option<Hash>,
    /// Number of the record whose hash is the head that was asked for.
    pub(super) found: Option<i64>,
    /// As of the last record.
    pub(super) head: Head,
    /// Hash of the record before; none where that record is missing.
    before: Option<Hash>,
    /// Records of each table.
    pub(super) counts: [i64; TABLES.len()],
    /// What is not as it was recorded, in words.
    pub(super) faults: Vec<String>,
    /// Figures that are not those of their records.
    pub(super) figures: Wrong,
}

/// Figures that are not those of their records.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(super) struct Wrong {
    count: u64,
    /// Number of the first record.
    first: Option<i64>,
}

impl Wrong {
    fn one(&mut self, number: i64) {
        self.count += 1;
        self.first = self.first.or(Some(number));
    }

    /// With those of the part after it.
    pub(super) fn add(&mut self, after: Wrong) {
        self.count += after.count;
        self.first = self.first.or(after.first);
    }

    /// All of them as one fault: somebody who changes a word changes the figures of thousands.
    pub(super) fn told(self) -> Option<String> {
        let first = self.first?;
        let loads = if self.count == 1 { "load" } else { "loads" };
        Some(format!(
            "the figures of {} {loads} are not those on record (first at record {first}): statistics rest on them",
            self.count
        ))
    }
}

impl Walk {
    /// Walks the records from a number to another. `words` are those of the figures, where the ledger keeps any.
    pub(super) fn of(
        db: &Connection,
        wanted: Option<Hash>,
        words: Option<&Words>,
        from: i64,
        to: i64,
    ) -> rusqlite::Result<Walk> {
        let head = before(db, from)?;
        let mut walk = Walk {
            wanted,
            found: None,
            head,
            before: Some(head.hash),
            counts: [0; TABLES.len()],
            faults: Vec::new(),
            figures: Wrong::default(),
        };
        if let Err(error) = walk.all(db, words, from, to) {
            walk.faults.push(format!(
                "after record {} the file cannot be read ({error})",
                walk.head.size
            ));
        }
        Ok(walk)
    }

    /// The tables side by side, always the record of the least number next.
    fn all(
        &mut self,
        db: &Connection,
        words: Option<&Words>,
        from: i64,
        to: i64,
    ) -> rusqlite::Result<()> {
        let mut statements = Vec::new();
        for table in schema::tables(db)? {
            statements.push(db.prepare(&format!(
                "SELECT * FROM {table} WHERE number BETWEEN ?1 AND ?2 ORDER BY number"
            ))?);
        }
        let mut cursors: Vec<(Rows<'_>, Option<i64>)> = Vec::new();
        for statement in &mut statements {
            let mut rows = statement.query([from, to])?;
            let first = number(&mut rows)?;
            cursors.push((rows, first));
        }
        let mut kept = match words {
            Some(words) => Some((words, figures::between(db)?)),
            None => None,
        };
        let mut figures = match &mut kept {
            Some((words, kept)) => Some(Figures::new(words, kept.query([from, to])?)?),
            None => None,
        };
        loop {
            let waiting = cursors.iter_mut().enumerate();
            let next = waiting
                .filter_map(|(table, (rows, next))| Some(((*next)?, table, rows, next)))
                .min_by_key(|(number, ..)| *number);
            let Some((at, table, rows, next)) = next else {
                break;
            };
            if let Some(row) = fallible(rows) {
                self.record(table, at, row)?;
                if let Some(figures) = figures.as_mut().filter(|_| TABLES[table] == "load") {
                    figures.compare(at, row, &mut self.figures)?;
                }
            }
            *next = number(rows)?;
        }
        match figures {
            Some(figures) => figures.end(&mut self.figures),
            None => Ok(()),
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

/// The last record before a number; zeros where there is none.
fn before(db: &Connection, number: i64) -> rusqlite::Result<Head> {
    let mut last = Head::NONE;
    for table in schema::tables(db)? {
        let sql = format!(
            "SELECT number, hash FROM {table} WHERE number < ?1 ORDER BY number DESC LIMIT 1"
        );
        let found = db.prepare(&sql)?.query_row([number], |row| {
            let hash = row
                .get_ref(1)?
                .as_blob()
                .ok()
                .and_then(|hash| hash.try_into().ok());
            Ok((row.get(0)?, hash))
        });
        if let Some((size, hash)) = found.optional()?
            && size > last.size
        {
            let hash: Option<Hash> = hash;
            last = Head {
                size,
                hash: hash.unwrap_or_default(),
            };
        }
    }
    Ok(last)
}

/// The figures beside the records that they are of.
struct Figures<'r> {
    words: &'r Words,
    rows: Rows<'r>,
    /// Number of the load that the next are of.
    next: Option<i64>,
}

impl<'r> Figures<'r> {
    fn new(words: &'r Words, mut rows: Rows<'r>) -> rusqlite::Result<Figures<'r>> {
        let next = number(&mut rows)?;
        Ok(Figures { words, rows, next })
    }

    /// Holds the figures of a load against its record. What stands before them is of no load.
    fn compare(&mut self, load: i64, record: &Row<'_>, wrong: &mut Wrong) -> rusqlite::Result<()> {
        while let Some(next) = self.next.filter(|next| *next < load) {
            wrong.one(next);
            self.next = number(&mut self.rows)?;
        }
        if self.next != Some(load) {
            wrong.one(load);
            return Ok(());
        }
        if let Some(row) = fallible(&self.rows)
            && !figures::are_of(row, self.words, record)
        {
            wrong.one(load);
        }
        self.next = number(&mut self.rows)?;
        Ok(())
    }

    fn end(mut self, wrong: &mut Wrong) -> rusqlite::Result<()> {
        while let Some(next) = self.next {
            wrong.one(next);
            self.next = number(&mut self.rows)?;
        }
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
