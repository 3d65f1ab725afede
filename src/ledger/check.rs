//! Proof: every record is as it was recorded, none is missing, and what is kept is what its hash says.

mod walk;

use super::Ledger;
use super::chain::{Hash, Head, from_hex, head};
use super::figures::{self, Words};
use super::schema;
use crate::error::Error;
use rayon::prelude::*;
use rusqlite::Connection;
use std::path::Path;
use walk::{Walk, Wrong};

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
        self.checked(head.map(from_hex))
    }

    /// `wanted` is some head that was asked for; one of no 64 digits stands nowhere.
    fn checked(&self, wanted: Option<Option<Hash>>) -> Result<Checked, Error> {
        // One transaction, so that what others add meanwhile is not seen in part.
        let look = self.told(self.db.unchecked_transaction())?;
        let (as_made, strayed) = match schema::strayed(&look) {
            Ok(found) => found,
            Err(error) => (
                false,
                vec![format!("list of tables cannot be read ({error})")],
            ),
        };
        // Each on a connection of its own, up to the last record that this one sees.
        let known = match as_made {
            true => Some((self.told(head(&look))?.size, self.told(words(&look))?)),
            false => None,
        };
        let file = self.file.as_path();
        let (walks, engine) = rayon::join(
            || match &known {
                Some((last, words)) => walks(file, *last, wanted.flatten(), words.as_ref()),
                None => Ok(Vec::new()),
            },
            || Ok(pragmas(&Ledger::read(file)?.db)),
        );
        let (walks, engine): (_, rusqlite::Result<Vec<String>>) = (walks?, engine?);
        let mut checked = Checked {
            head: Head::NONE,
            counts: [0; 3],
            faults: Vec::new(),
            found: wanted.map(|_| Found::Nowhere),
        };
        if !as_made {
            let fault = "no record was checked: the tables are not those that were made";
            checked.faults.push(fault.to_string());
        }
        let mut figures = Wrong::default();
        for walk in walks {
            checked.head = walk.head;
            let [_, audits, _, _, loads, decisions, _] = walk.counts;
            for (all, part) in checked.counts.iter_mut().zip([audits, loads, decisions]) {
                *all += part;
            }
            checked.faults.extend(walk.faults);
            if let (Some(found), Some(number)) = (&mut checked.found, walk.found) {
                *found = Found::At(number);
            }
            figures.add(walk.figures);
        }
        checked.faults.extend(figures.told());
        checked.faults.extend(strayed.into_iter().map(|part| {
            format!("the ledger's {part}: its tables and guards are not those that were made")
        }));
        match engine {
            Ok(faults) => checked.faults.extend(faults),
            Err(error) => checked
                .faults
                .push(format!("the file is damaged ({error})")),
        }
        Ok(checked)
    }
}

/// The words of the figures, where the ledger keeps any.
fn words(db: &Connection) -> rusqlite::Result<Option<Words>> {
    figures::are_kept(db)?.then(|| Words::of(db)).transpose()
}

/// Walks parts of the chain side by side.
fn walks(
    file: &Path,
    last: i64,
    wanted: Option<Hash>,
    words: Option<&Words>,
) -> Result<Vec<Walk>, Error> {
    parts(last)
        .into_par_iter()
        .map(|(from, to)| {
            let own = Ledger::read(file)?;
            own.told(Walk::of(&own.db, wanted, words, from, to))
        })
        .collect()
}

/// Records in a part, about.
const PART: i64 = 20_000;

/// The numbers up to the last in parts: first and last of each.
fn parts(last: i64) -> Vec<(i64, i64)> {
    let mut parts = Vec::new();
    let mut from = i64::MIN;
    let count = (last / PART).clamp(0, 100);
    for part in 1..=count {
        // Forged numbers go up to the last that there is.
        let to = (i128::from(last) * i128::from(part) / i128::from(count + 1)) as i64;
        parts.push((from, to));
        from = to + 1;
    }
    parts.push((from, last));
    parts
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
