//! The rows of the export, as objects that the columns are taken from: a load's record with what the ledger says of it.

use crate::ledger::figures::Figure;
use rayon::prelude::*;
use rusqlite::{Connection, Row};
use serde_json::{Value, json};
use std::collections::HashMap;

/// What all loads of a delivery have in common.
pub(super) struct Delivery {
    pub(super) number: i64,
    pub(super) audit: i64,
    pub(super) counts: bool,
    pub(super) name: String,
    /// `dockheft.delivery/1`.
    pub(super) body: String,
    pub(super) day: String,
    pub(super) recorded: String,
    pub(super) site: String,
}

impl Delivery {
    fn ledger(&self) -> Value {
        json!({
            "delivery": self.number, "audit": self.audit, "counts": self.counts, "name": self.name,
            "day": self.day, "recorded": self.recorded, "site": self.site,
        })
    }
}

/// A load as it is read.
struct Load {
    number: i64,
    id: String,
    supplier: Option<String>,
    item: Option<String>,
    order: Option<String>,
    description: String,
    body: String,
}

/// Hands over the loads of a delivery in the order of their records, some at a time.
pub(super) fn loads<E: From<rusqlite::Error>>(
    db: &Connection,
    delivery: &Delivery,
    at_once: usize,
    mut take: impl FnMut(Vec<Value>) -> Result<(), E>,
) -> Result<(), E> {
    let mut found = db.prepare_cached(
        "SELECT number, id, supplier, item, po, description, body FROM load WHERE delivery = ?1 ORDER BY number",
    )?;
    let mut rows = found.query_map([delivery.number], load)?;
    loop {
        let some: Vec<Load> = rows
            .by_ref()
            .take(at_once)
            .collect::<rusqlite::Result<_>>()?;
        if some.is_empty() {
            return Ok(());
        }
        take(some.par_iter().map(|load| whole(delivery, load)).collect())?;
    }
}

fn load(row: &Row<'_>) -> rusqlite::Result<Load> {
    Ok(Load {
        number: row.get(0)?,
        id: row.get(1)?,
        supplier: row.get(2)?,
        item: row.get(3)?,
        order: row.get(4)?,
        description: row.get(5)?,
        body: row.get(6)?,
    })
}

/// The record with what the ledger says of it, and its figures as statistics have them.
fn whole(delivery: &Delivery, load: &Load) -> Value {
    let mut record: Value = serde_json::from_str(&load.body).unwrap_or_default();
    let figure = Figure::of(&load.body, load.supplier.as_deref());
    let kind = match record["schema"].as_str() {
        Some("dockheft.package/1") => "package",
        _ => "line",
    };
    let mut ledger = delivery.ledger();
    ledger["load"] = json!(load.number);
    ledger["id"] = json!(load.id);
    ledger["kind"] = json!(kind);
    ledger["supplier"] = json!(load.supplier);
    ledger["item"] = json!(load.item);
    ledger["order"] = json!(load.order);
    ledger["description"] = json!(load.description);
    ledger["severity"] = json!(figure.severity());
    ledger["flagged"] = json!(figure.is_flagged());
    ledger["codes"] = json!(figure.codes());
    ledger["cause"] = json!(figure.cause());
    if let Some(record) = record.as_object_mut() {
        record.insert("ledger".to_string(), ledger);
    }
    record
}

/// The findings of loads, one a row; they are taken out of them.
pub(super) fn findings(loads: &mut [Value]) -> Vec<Value> {
    loads.iter_mut().flat_map(of_record).collect()
}

/// The findings on a delivery as a whole.
pub(super) fn of_delivery(delivery: &Delivery) -> Vec<Value> {
    let mut record: Value = serde_json::from_str(&delivery.body).unwrap_or_default();
    if let Some(record) = record.as_object_mut() {
        record.insert("ledger".to_string(), delivery.ledger());
    }
    of_record(&mut record)
}

fn of_record(record: &mut Value) -> Vec<Value> {
    let findings = match record.get_mut("findings").map(Value::take) {
        Some(Value::Array(findings)) => findings,
        _ => Vec::new(),
    };
    (1..)
        .zip(findings)
        .map(|(position, finding): (u32, Value)| {
            json!({"ledger": record["ledger"], "position": position, "finding": finding})
        })
        .collect()
}

/// Whether a decision is the one that counts, and the load that it is good for, by its number.
pub(super) type Stands = HashMap<i64, (Option<bool>, Option<i64>)>;

/// A decision by the number of its record.
pub(super) fn decision(db: &Connection, number: i64, stands: &Stands) -> rusqlite::Result<Value> {
    let (is_last, load) = stands.get(&number).copied().unwrap_or_default();
    db.prepare_cached(
        "SELECT load, id, decision, plan_kg, before_kg, evidence, name, remark, dated, origin, time FROM decision WHERE number = ?1",
    )?
    .query_row([number], |row| {
        let text = |at: usize| row.get::<_, Option<String>>(at);
        Ok(json!({
            "number": number, "load": row.get::<_, i64>(0)?, "id": text(1)?, "kind": text(2)?,
            "plan_kg": row.get::<_, Option<f64>>(3)?, "before_kg": row.get::<_, Option<f64>>(4)?,
            "evidence": text(5)?, "name": text(6)?, "remark": text(7)?, "dated": text(8)?, "origin": text(9)?,
            "time": text(10)?, "stands": is_last, "stands_for": load,
        }))
    })
}
