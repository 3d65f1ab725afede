//! The figures as the ledger keeps them, beside the records that they are taken from.

use super::figure::{Figure, NAMES, WEIGHTS};
use crate::ledger::schema;
use rusqlite::types::{ToSql, ToSqlOutput, Value, ValueRef};
use rusqlite::{Connection, Row, Statement, params_from_iter};
use std::borrow::Cow;
use std::collections::HashMap;

/// The load that figures are of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(in crate::ledger) struct Of<'a> {
    /// Number of its record.
    pub(in crate::ledger) load: i64,
    /// Number of its delivery.
    pub(in crate::ledger) delivery: i64,
    /// Its id.
    pub(in crate::ledger) id: &'a str,
}

/// Keeps figures, inside a transaction of the caller's.
pub(in crate::ledger) struct Keeper<'t> {
    db: &'t Connection,
    /// Codes of the words.
    codes: HashMap<String, i64>,
    sql: String,
}

impl<'t> Keeper<'t> {
    /// Goes on with the words that the ledger has.
    pub(in crate::ledger) fn new(db: &'t Connection) -> rusqlite::Result<Keeper<'t>> {
        let codes = db
            .prepare("SELECT text, code FROM word")?
            .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
            .collect::<rusqlite::Result<_>>()?;
        let places = vec!["?"; 3 + NAMES.len() + WEIGHTS.len()].join(", ");
        let sql = format!("INSERT INTO figure VALUES ({places})");
        Ok(Keeper { db, codes, sql })
    }

    /// Keeps the figures of a load.
    pub(in crate::ledger) fn add(
        &mut self,
        of: Of<'_>,
        figure: &Figure<'_>,
    ) -> rusqlite::Result<()> {
        let mut codes = [None; NAMES.len()];
        for (code, name) in codes.iter_mut().zip(&figure.names) {
            *code = name.as_deref().map(|name| self.code(name)).transpose()?;
        }
        let whole = |number: i64| ToSqlOutput::Owned(Value::Integer(number));
        let id = ToSqlOutput::Borrowed(ValueRef::Text(of.id.as_bytes()));
        let codes = codes.iter().map(|code| code.to_sql());
        let weights = figure.weights.iter().map(|weight| weight.to_sql());
        let values = [Ok(whole(of.load)), Ok(whole(of.delivery)), Ok(id)]
            .into_iter()
            .chain(codes)
            .chain(weights)
            .collect::<rusqlite::Result<Vec<_>>>()?;
        self.db
            .prepare_cached(&self.sql)?
            .execute(params_from_iter(values))?;
        Ok(())
    }

    fn code(&mut self, word: &str) -> rusqlite::Result<i64> {
        if let Some(code) = self.codes.get(word) {
            return Ok(*code);
        }
        let code: i64 = self
            .db
            .prepare_cached("INSERT INTO word VALUES ((SELECT coalesce(max(code), 0) + 1 FROM word), ?1) RETURNING code")?
            .query_row([word], |row| row.get(0))?;
        self.codes.insert(word.to_string(), code);
        Ok(code)
    }
}

/// Keeps the figures of all loads that were recorded before there were any.
pub(in crate::ledger) fn fill(db: &Connection) -> rusqlite::Result<()> {
    let mut keeper = Keeper::new(db)?;
    let mut failed = Ok(());
    of_records(db, |of, figure| {
        if failed.is_ok() {
            failed = keeper.add(of, figure);
        }
    })?;
    failed
}

/// Whether the ledger keeps figures: one of an older version that nobody has written since does not.
pub(in crate::ledger) fn are_kept(db: &Connection) -> rusqlite::Result<bool> {
    Ok(schema::version(db)? >= schema::WITH_FIGURES)
}

/// Hands over the figures of every load, in the order of the records.
pub(super) fn each(
    db: &Connection,
    mut take: impl FnMut(Of<'_>, &Figure<'_>),
) -> rusqlite::Result<()> {
    if !are_kept(db)? {
        return of_records(db, take);
    }
    let words = Words::of(db)?;
    let mut all = db.prepare("SELECT * FROM figure ORDER BY load")?;
    let mut rows = all.query([])?;
    while let Some(row) = rows.next()? {
        let of = of(row)?;
        take(of, &kept(row, &words)?);
    }
    Ok(())
}

/// The same, out of the records themselves.
fn of_records(db: &Connection, mut take: impl FnMut(Of<'_>, &Figure<'_>)) -> rusqlite::Result<()> {
    let mut all =
        db.prepare("SELECT number, delivery, id, supplier, body FROM load ORDER BY number")?;
    let mut rows = all.query([])?;
    while let Some(row) = rows.next()? {
        let supplier = row.get_ref(3)?.as_str_or_null()?;
        take(of(row)?, &Figure::of(row.get_ref(4)?.as_str()?, supplier));
    }
    Ok(())
}

/// Where the ids of the loads ?1 to ?2 are read at the least cost.
pub(super) fn ids(db: &Connection) -> rusqlite::Result<&'static str> {
    Ok(if are_kept(db)? {
        "(SELECT id, delivery FROM figure WHERE load BETWEEN ?1 AND ?2)"
    } else {
        "(SELECT id, delivery FROM load WHERE number BETWEEN ?1 AND ?2)"
    })
}

/// The words of the ledger by their codes, which count from 1.
pub(in crate::ledger) struct Words(Vec<String>);

impl Words {
    /// All of them.
    pub(in crate::ledger) fn of(db: &Connection) -> rusqlite::Result<Words> {
        let mut all = db.prepare("SELECT code, text FROM word ORDER BY code")?;
        let mut rows = all.query([])?;
        let mut words = Vec::new();
        while let Some(row) = rows.next()? {
            // A code that does not count on was put there by somebody else, and has no word.
            if row.get::<_, i64>(0)? == words.len() as i64 + 1 {
                words.push(row.get(1)?);
            }
        }
        Ok(Words(words))
    }

    fn word(&self, code: i64) -> Option<&str> {
        let at = usize::try_from(code.checked_sub(1)?).ok()?;
        self.0.get(at).map(String::as_str)
    }
}

/// The figures of the loads ?1 to ?2, in their order.
pub(in crate::ledger) fn between(db: &Connection) -> rusqlite::Result<Statement<'_>> {
    db.prepare("SELECT * FROM figure WHERE load BETWEEN ?1 AND ?2 ORDER BY load")
}

/// Whether kept figures are those of a load's record: a row of the table `load`.
pub(in crate::ledger) fn are_of(row: &Row<'_>, words: &Words, record: &Row<'_>) -> bool {
    let same = || -> rusqlite::Result<bool> {
        let of_record = Of {
            load: record.get("number")?,
            delivery: record.get("delivery")?,
            id: record.get_ref("id")?.as_str()?,
        };
        let supplier = record.get_ref("supplier")?.as_str_or_null()?;
        let figure = Figure::of(record.get_ref("body")?.as_str()?, supplier);
        Ok(of(row)? == of_record && kept(row, words)? == figure)
    };
    // What cannot even be read is not what was kept.
    same().unwrap_or(false)
}

/// The load that a row is of.
fn of<'r>(row: &'r Row<'_>) -> rusqlite::Result<Of<'r>> {
    Ok(Of {
        load: row.get(0)?,
        delivery: row.get(1)?,
        id: row.get_ref(2)?.as_str()?,
    })
}

/// The figures in a row; a code without a word is no name.
fn kept<'w>(row: &Row<'_>, words: &'w Words) -> rusqlite::Result<Figure<'w>> {
    let mut figure = Figure::default();
    for (at, name) in (3..).zip(&mut figure.names) {
        let code: Option<i64> = row.get(at)?;
        *name = code.and_then(|code| words.word(code)).map(Cow::Borrowed);
    }
    for (at, weight) in (3 + NAMES.len()..).zip(&mut figure.weights) {
        *weight = row.get(at)?;
    }
    Ok(figure)
}
