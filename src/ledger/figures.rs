//! Figures of the loads on record, as columns: what statistics are made of.

mod counting;
mod decided;
mod figure;
mod stored;

pub(super) use counting::deliveries as counting;
pub(super) use decided::decisions;
pub(super) use figure::Figure;
pub(super) use stored::{Keeper, Of, Words, are_kept, are_of, between, fill};

use super::Ledger;
use crate::error::Error;
use figure::{NAMES, WEIGHTS};
use polars::prelude::{
    BooleanChunkedBuilder, ChunkedBuilder, Column, DataFrame, Float64Type, Int64Type, IntoColumn,
    PlSmallStr, PolarsResult, PrimitiveChunkedBuilder, StringChunkedBuilder,
};
use rusqlite::Connection;
use std::collections::HashMap;

impl Ledger {
    /// The figures of all loads that count: one row a goods line or package of each delivery's latest audit, in the order of
    /// their records. Lines that are lifted and judged with their package are left to it.
    ///
    /// | column | type | what |
    /// | --- | --- | --- |
    /// | `load` `delivery` `audit` | i64 | numbers of the records |
    /// | `first` | i64 | number of the delivery's record in its first audit: deliveries come in this order |
    /// | `id` | str | id of the load |
    /// | `day` | str | day of the delivery's first audit, `YYYY-MM-DD`: looking again does not make it younger |
    /// | `recorded` | str | when the audit was recorded (RFC 3339) |
    /// | `supplier` `goods` `material` `truck` | str, null | who sent it, its kind, what of, the truck named |
    /// | `evidence` | str, null | what its estimate rests on: `weighed`, `product`, `shape`, `envelope` |
    /// | `verdict` | str | as the record has it |
    /// | `severity` | str | the worst of its findings: `stop`, `check`, `note`, or `none` |
    /// | `flagged` | bool | it has a `stop` or a `check` |
    /// | `codes` | str | of its findings, worst first, a blank between; empty where it has none |
    /// | `cause` | str, null | kind of the likeliest cause |
    /// | `declared_kg` `low_kg` `likely_kg` `high_kg` `plan_kg` | f64, null | declared, expected, planned: kilograms of the whole load |
    /// | `expected_kg` | f64, null | what the declared weight is held against: with packaging where that is gross; none in records of a program that did not say |
    /// | `overload_kg` | f64, null | by how much a lift would have overloaded the truck that fits the declared weight, before any decision, kg; 0: not |
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn figures(&self) -> Result<DataFrame, Error> {
        // One transaction, so that all columns are of one state.
        let look = self.told(self.db.unchecked_transaction())?;
        self.framed(self.told(figures(&look))?)
    }

    /// Every decision on record, in order: a row for each load that it is good for, one row where it is good for none.
    ///
    /// | column | type | what |
    /// | --- | --- | --- |
    /// | `number` | i64 | number of its record |
    /// | `load` | i64 | number of the load's record that it was made on |
    /// | `id` | str | id of the load |
    /// | `day` | str | day of the first audit of its delivery, `YYYY-MM-DD` |
    /// | `supplier` | str, null | who sent it |
    /// | `kind` | str | `accept declared`, `use estimate`, `weighed`, `supplier corrected`, `refused` |
    /// | `plan_kg` | f64, null | planned with from then on, kilograms of the whole load; none: not lifted |
    /// | `before_kg` | f64, null | planned with until then |
    /// | `name` `time` | str | who, as typed; when it was recorded (RFC 3339) |
    /// | `recorded` | str | when the audit that it was made on was recorded (RFC 3339) |
    /// | `flagged` `stop` | bool | the load that it was made on had a `stop` or a `check`; had a `stop` |
    /// | `stands_for` | i64, null | number of the load of a latest audit that it is good for: the same place of the same bytes, the same figures |
    /// | `stands` | bool | it is good for one, and no later decision is |
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn decisions_taken(&self) -> Result<DataFrame, Error> {
        let look = self.told(self.db.unchecked_transaction())?;
        self.framed(self.told(decisions(&look))?)
    }

    /// Columns of one length and different names always make a table.
    fn framed(&self, frame: PolarsResult<DataFrame>) -> Result<DataFrame, Error> {
        frame.map_err(|error| {
            super::open::refused(
                &self.file,
                &format!("its figures make no table ({error})"),
                "run \"dockheft ledger check\"",
            )
        })
    }
}

fn figures(db: &Connection) -> rusqlite::Result<PolarsResult<DataFrame>> {
    let deliveries = counting(db)?;
    let rows = deliveries.values().filter(|of| of.counts).count();
    let audits: HashMap<i64, (String, String)> = db
        .prepare("SELECT number, day, time FROM audit")?
        .query_map([], |row| Ok((row.get(0)?, (row.get(1)?, row.get(2)?))))?
        .collect::<rusqlite::Result<_>>()?;
    let mut numbers = ["load", "delivery", "audit", "first"].map(|name| numbers(name, rows));
    let mut texts = ["id", "day", "recorded"].map(|name| texts(name, rows));
    let mut names = NAMES.map(|name| self::texts(name, rows));
    let mut flagged = BooleanChunkedBuilder::new("flagged".into(), rows);
    let mut weights = WEIGHTS.map(|name| self::weights(name, rows));
    stored::each(db, |of, figure| {
        let delivery = deliveries
            .get(&of.delivery)
            .filter(|delivery| delivery.counts && !figure.is_shared());
        let Some(delivery) = delivery else { return };
        let of_record = [of.load, of.delivery, delivery.audit, delivery.first];
        for (column, number) in numbers.iter_mut().zip(of_record) {
            column.append_value(number);
        }
        let first = deliveries.get(&delivery.first).unwrap_or(delivery);
        let day = audits.get(&first.audit).map_or("", |(day, _)| day);
        let time = audits.get(&delivery.audit).map_or("", |(_, time)| time);
        for (column, text) in texts.iter_mut().zip([of.id, day, time]) {
            column.append_value(text);
        }
        for (column, name) in names.iter_mut().zip(&figure.names) {
            column.append_option(name.as_deref());
        }
        flagged.append_value(figure.is_flagged());
        for (column, weight) in weights.iter_mut().zip(figure.weights) {
            column.append_option(weight);
        }
    })?;
    let columns: Vec<Column> = numbers
        .into_iter()
        .map(|column| column.finish().into_column())
        .chain(texts.map(|column| column.finish().into_column()))
        .chain(names.map(|column| column.finish().into_column()))
        .chain([flagged.finish().into_column()])
        .chain(weights.map(|column| column.finish().into_column()))
        .collect();
    Ok(DataFrame::new_infer_height(columns))
}

fn numbers(name: &'static str, rows: usize) -> PrimitiveChunkedBuilder<Int64Type> {
    PrimitiveChunkedBuilder::new(PlSmallStr::from_static(name), rows)
}

fn weights(name: &'static str, rows: usize) -> PrimitiveChunkedBuilder<Float64Type> {
    PrimitiveChunkedBuilder::new(PlSmallStr::from_static(name), rows)
}

fn texts(name: &'static str, rows: usize) -> StringChunkedBuilder {
    StringChunkedBuilder::new(PlSmallStr::from_static(name), rows)
}
