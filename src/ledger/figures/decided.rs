//! The decisions on record as columns, each beside the loads that it is good for.

use super::counting::{self, Delivery};
use crate::ledger::past::PLACE;
use polars::prelude::{Column, DataFrame, NamedFrom, PolarsResult, Series};
use rusqlite::Connection;
use std::collections::HashMap;

/// A decision on its way into columns.
struct Taken {
    number: i64,
    load: i64,
    /// Id, kind, name, time, time of the audit.
    texts: [String; 5],
    supplier: Option<String>,
    /// Of the first audit of its list.
    day: String,
    /// From then on, until then.
    weights: [Option<f64>; 2],
    /// Whether the load was flagged, and had a `stop`.
    said: [bool; 2],
    /// Where the load stands, as [`PLACE`] has it.
    place: String,
}

/// The decisions, as [`crate::ledger::Ledger::decisions_taken`] has them.
pub(in crate::ledger) fn decisions(db: &Connection) -> rusqlite::Result<PolarsResult<DataFrame>> {
    let deliveries = counting::deliveries(db)?;
    let taken = taken(db, &deliveries)?;
    let loads = loads(db, &deliveries)?;
    let last: HashMap<&str, i64> = taken
        .iter()
        .map(|one| (one.place.as_str(), one.number))
        .collect();
    let rows: Vec<(&Taken, Option<i64>)> = taken
        .iter()
        .flat_map(|one| {
            let good_for = loads.get(&one.place).map_or(&[][..], Vec::as_slice);
            let none = good_for.is_empty().then_some((one, None));
            let each = good_for.iter().map(move |load| (one, Some(*load)));
            none.into_iter().chain(each)
        })
        .collect();
    let stands = |(one, load): &(&Taken, Option<i64>)| {
        load.is_some() && last.get(one.place.as_str()) == Some(&one.number)
    };
    let rows = &rows;
    Ok(DataFrame::new_infer_height(vec![
        column(rows, "number", |(one, _)| one.number),
        column(rows, "load", |(one, _)| one.load),
        column(rows, "id", |(one, _)| one.texts[0].as_str()),
        column(rows, "day", |(one, _)| one.day.as_str()),
        column(rows, "supplier", |(one, _)| one.supplier.as_deref()),
        column(rows, "kind", |(one, _)| one.texts[1].as_str()),
        column(rows, "plan_kg", |(one, _)| one.weights[0]),
        column(rows, "before_kg", |(one, _)| one.weights[1]),
        column(rows, "name", |(one, _)| one.texts[2].as_str()),
        column(rows, "time", |(one, _)| one.texts[3].as_str()),
        column(rows, "recorded", |(one, _)| one.texts[4].as_str()),
        column(rows, "flagged", |(one, _)| one.said[0]),
        column(rows, "stop", |(one, _)| one.said[1]),
        column(rows, "stands_for", |(_, load)| *load),
        column(rows, "stands", stands),
    ]))
}

fn column<'r, R, T>(rows: &'r [R], name: &str, of: impl Fn(&'r R) -> T) -> Column
where
    Series: NamedFrom<Vec<T>, [T]>,
{
    Column::new(name.into(), rows.iter().map(of).collect::<Vec<T>>())
}

fn taken(db: &Connection, deliveries: &HashMap<i64, Delivery>) -> rusqlite::Result<Vec<Taken>> {
    let days: HashMap<i64, String> = db
        .prepare("SELECT number, day FROM audit")?
        .query_map([], |row| Ok((row.get(0)?, row.get(1)?)))?
        .collect::<rusqlite::Result<_>>()?;
    let first_day = |delivery: i64| {
        let first = deliveries.get(&deliveries.get(&delivery)?.first)?;
        days.get(&first.audit).cloned()
    };
    let sql = format!(
        "SELECT c.number, c.load, c.id, c.decision, c.name, c.time, a.time, c.plan_kg, c.before_kg, l.flagged, \
         EXISTS (SELECT 1 FROM json_each(l.body, '$.findings') WHERE value ->> 'severity' = 'stop'), {PLACE}, l.supplier, l.delivery \
         FROM decision AS c JOIN load AS l ON l.number = c.load JOIN delivery AS d ON d.number = l.delivery \
         JOIN source AS s ON s.number = d.source JOIN audit AS a ON a.number = d.audit ORDER BY c.number"
    );
    db.prepare(&sql)?
        .query_map([], |row| {
            Ok(Taken {
                number: row.get(0)?,
                load: row.get(1)?,
                texts: [
                    row.get(2)?,
                    row.get(3)?,
                    row.get(4)?,
                    row.get(5)?,
                    row.get(6)?,
                ],
                weights: [row.get(7)?, row.get(8)?],
                said: [row.get(9)?, row.get(10)?],
                place: row.get(11)?,
                supplier: row.get(12)?,
                day: first_day(row.get(13)?).unwrap_or_default(),
            })
        })?
        .collect()
}

/// The loads of latest audits by their place ([`PLACE`]), in the order of their records: all that a decision may be good for.
fn loads(
    db: &Connection,
    deliveries: &HashMap<i64, Delivery>,
) -> rusqlite::Result<HashMap<String, Vec<i64>>> {
    // By substance first, which has an index; the place is in the large records, and only those of decided lists are opened.
    let sql = format!(
        "SELECT l.number, l.delivery, {PLACE} FROM load AS l CROSS JOIN delivery AS d ON d.number = l.delivery \
         CROSS JOIN source AS s ON s.number = d.source \
         WHERE l.substance IN (SELECT substance FROM load WHERE number IN (SELECT load FROM decision)) \
         AND s.sha256 IN (SELECT s.sha256 FROM decision AS c JOIN load AS l ON l.number = c.load \
         JOIN delivery AS d ON d.number = l.delivery JOIN source AS s ON s.number = d.source)"
    );
    let mut found = db.prepare(&sql)?;
    let mut rows = found.query([])?;
    let mut loads: HashMap<String, Vec<i64>> = HashMap::new();
    while let Some(row) = rows.next()? {
        if deliveries.get(&row.get(1)?).is_some_and(|of| of.counts) {
            loads.entry(row.get(2)?).or_default().push(row.get(0)?);
        }
    }
    loads.values_mut().for_each(|of| of.sort_unstable());
    Ok(loads)
}
