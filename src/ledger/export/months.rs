//! The folders of the export, one a site and month, each written and closed before the next: memory does not grow with the years.

use super::columns::{Column, TABLES};
use super::folder::encoded;
use super::part::Part;
use super::rows::{self, Delivery, Stands};
use super::{Failed, File};
use crate::ledger::figures;
use rusqlite::Connection;
use serde_json::Value;
use std::collections::BTreeMap;
use std::path::Path;

/// Rows that are worked on at a time.
const AT_ONCE: usize = 4_096;

/// Site, year and month.
type Month = (String, u32, u32);

/// What falls into a month.
#[derive(Default)]
struct Falls {
    deliveries: Vec<i64>,
    decisions: Vec<i64>,
}

/// Writes all files below a folder.
pub(super) fn files(db: &Connection, root: &Path) -> Result<Vec<File>, Failed> {
    let counting = figures::counting(db)?;
    let stands = stands(db)?;
    let mut files = Vec::new();
    for ((site, year, month), falls) in months(db)? {
        let folder = root
            .join(format!("site={}", encoded(&site)))
            .join(format!("year={year}"))
            .join(format!("month={month}"));
        let mut parts = Parts::new(&folder);
        for number in falls.deliveries {
            let counts = counting.get(&number).is_some_and(|of| of.counts);
            let delivery = delivery(db, number, counts, &site)?;
            parts.add("findings", &rows::of_delivery(&delivery))?;
            rows::loads(db, &delivery, AT_ONCE, |mut loads| {
                // Taken out of the loads, which have no column for them.
                let findings = rows::findings(&mut loads);
                parts.add("loads", &loads)?;
                parts.add("findings", &findings)
            })?;
        }
        for numbers in falls.decisions.chunks(AT_ONCE) {
            let taken = numbers
                .iter()
                .map(|number| rows::decision(db, *number, &stands))
                .collect::<rusqlite::Result<Vec<Value>>>()?;
            parts.add("decisions", &taken)?;
        }
        files.extend(parts.end(root)?);
    }
    Ok(files)
}

/// The files of a month; one that gets no row is not made.
struct Parts<'p> {
    folder: &'p Path,
    open: BTreeMap<&'static str, Part>,
}

impl<'p> Parts<'p> {
    fn new(folder: &'p Path) -> Parts<'p> {
        let open = BTreeMap::new();
        Parts { folder, open }
    }

    fn add(&mut self, table: &'static str, rows: &[Value]) -> Result<(), Failed> {
        if rows.is_empty() {
            return Ok(());
        }
        if !self.open.contains_key(table) {
            let part = Part::begin(self.folder, table, columns(table))?;
            self.open.insert(table, part);
        }
        self.open
            .get_mut(table)
            .map_or(Ok(()), |part| part.add(rows))
    }

    fn end(self, root: &Path) -> Result<Vec<File>, Failed> {
        self.open.into_values().map(|part| part.end(root)).collect()
    }
}

fn columns(table: &str) -> &'static [Column] {
    let found = TABLES.iter().find(|(name, ..)| *name == table);
    found.map_or(&[], |(_, _, columns)| columns)
}

/// What falls into each month: deliveries by the day of their audit, decisions by the day that they were recorded.
fn months(db: &Connection) -> rusqlite::Result<BTreeMap<Month, Falls>> {
    let mut months: BTreeMap<Month, Falls> = BTreeMap::new();
    let mut each = |sql: &str, of: fn(&mut Falls) -> &mut Vec<i64>| -> rusqlite::Result<()> {
        let mut found = db.prepare(sql)?;
        let mut rows = found.query([])?;
        while let Some(row) = rows.next()? {
            let (year, month) = year_and_month(row.get_ref(2)?.as_str()?);
            let site: Option<String> = row.get(1)?;
            let falls = months
                .entry((site.unwrap_or_default(), year, month))
                .or_default();
            of(falls).push(row.get(0)?);
        }
        Ok(())
    };
    each(
        "SELECT d.number, a.settings ->> 'name', a.day FROM audit AS a JOIN delivery AS d ON d.audit = a.number ORDER BY d.number",
        |falls| &mut falls.deliveries,
    )?;
    each(
        "SELECT c.number, a.settings ->> 'name', c.time FROM decision AS c JOIN load AS l ON l.number = c.load \
         JOIN delivery AS d ON d.number = l.delivery JOIN audit AS a ON a.number = d.audit ORDER BY c.number",
        |falls| &mut falls.decisions,
    )?;
    Ok(months)
}

/// Year and month of a day or time (RFC 3339); zeros where it is none.
fn year_and_month(text: &str) -> (u32, u32) {
    let figure = |from: usize, to: usize| text.get(from..to).and_then(|part| part.parse().ok());
    figure(0, 4).zip(figure(5, 7)).unwrap_or_default()
}

fn delivery(db: &Connection, number: i64, counts: bool, site: &str) -> rusqlite::Result<Delivery> {
    db.prepare_cached(
        "SELECT d.audit, d.name, d.body, a.day, a.time FROM delivery AS d JOIN audit AS a ON a.number = d.audit WHERE d.number = ?1",
    )?
    .query_row([number], |row| {
        Ok(Delivery {
            number,
            audit: row.get(0)?,
            counts,
            name: row.get(1)?,
            body: row.get(2)?,
            day: row.get(3)?,
            recorded: row.get(4)?,
            site: site.to_string(),
        })
    })
}

/// Which decisions are good for what.
fn stands(db: &Connection) -> Result<Stands, Failed> {
    let taken = figures::decisions(db)??;
    let (numbers, loads) = (
        taken.column("number")?.i64()?,
        taken.column("stands_for")?.i64()?,
    );
    let stands = taken.column("stands")?.bool()?;
    let of = numbers.iter().zip(stands.iter().zip(loads.iter()));
    Ok(of.filter_map(|(number, of)| Some((number?, of))).collect())
}
