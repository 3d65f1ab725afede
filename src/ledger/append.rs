//! Recording an audit: all of it in one transaction, or nothing.

use super::Ledger;
use super::chain::{Head, Writer};
use super::figures::{Figure, Keeper, Of};
use super::history;
use super::open::refused;
use super::shown::Shown;
use super::sources::Packed;
use super::stamp::Stamp;
use crate::audit::{Audit, Delivery};
use crate::error::Error;
use crate::hash;
use crate::report::loads::{Load, View};
use crate::report::record;
use crate::site::Units;
use rayon::prelude::*;
use rusqlite::types::Value;
use rusqlite::{OptionalExtension, Transaction, TransactionBehavior};

/// Loads that are put into words at a time, on all cores.
const CHUNK: usize = 4_096;

/// What an audit rests on besides what it says itself.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Kept {
    /// The files, in any order; the audit's sources name them by SHA-256.
    pub files: Vec<Packed>,
    /// The site file.
    pub site: Option<Packed>,
    /// The register.
    pub register: Option<Packed>,
    /// Supplier, as given by option.
    pub supplier: Option<String>,
    /// Name of the delivery, as given by option.
    pub delivery: Option<String>,
    /// The newest decision on record when the audit was told what the ledger knows ([`crate::history::History::newest_decision`]).
    pub known_to: i64,
}

/// A failure while recording: of the engine, or of putting into records.
enum Failed {
    Engine(rusqlite::Error),
    Words(serde_json::Error),
    Overtaken,
}

impl From<rusqlite::Error> for Failed {
    fn from(error: rusqlite::Error) -> Failed {
        Failed::Engine(error)
    }
}

impl From<serde_json::Error> for Failed {
    fn from(error: serde_json::Error) -> Failed {
        Failed::Words(error)
    }
}

impl Ledger {
    /// Records an audit with the bytes it rests on. When this returns, it is on the disk.
    ///
    /// # Errors
    /// [`Error::Ledger`] when it could not be recorded, [`Error::Overtaken`] when a decision was that it could not know; nothing
    /// of it is then in the ledger.
    pub fn append(&mut self, audit: &Audit, kept: &Kept, stamp: &Stamp) -> Result<Head, Error> {
        match self.appended(audit, kept, stamp) {
            Ok(head) => Ok(head),
            Err(Failed::Engine(error)) => self.told(Err(error)),
            Err(Failed::Overtaken) => Err(Error::Overtaken {
                file: self.file.clone(),
            }),
            Err(Failed::Words(error)) => Err(refused(
                &self.file,
                &format!("the audit could not be put into records ({error})"),
                "nothing of it was recorded; the workbook has it",
            )),
        }
    }

    fn appended(&mut self, audit: &Audit, kept: &Kept, stamp: &Stamp) -> Result<Head, Failed> {
        let all = self
            .db
            .transaction_with_behavior(TransactionBehavior::Immediate)?;
        if history::newest_decision(&all)? > kept.known_to {
            return Err(Failed::Overtaken);
        }
        let mut writer = Writer::at_end(&all)?;
        let tables = Packed::of(tables().as_bytes());
        let bytes = kept.files.iter().chain(&kept.site).chain(&kept.register);
        for packed in bytes.chain([&tables]) {
            keep(&all, &mut writer, packed)?;
        }
        let known = history::packed(&audit.history)?;
        if let Some(known) = &known {
            keep(&all, &mut writer, known)?;
        }
        let number = writer.add("audit", fields(audit, kept, stamp, &tables.sha256)?)?;
        if let Some(known) = &known {
            writer.add("history", vec![Value::Integer(number), text(&known.sha256)])?;
        }
        let mut sources = Vec::with_capacity(audit.sources.len());
        for source in &audit.sources {
            let of_source = vec![
                Value::Integer(number),
                text(&source.name),
                text(&source.sha256),
                text(&source.kind),
            ];
            sources.push(writer.add("source", of_source)?);
        }
        let mut keeper = Keeper::new(&all)?;
        for delivery in &audit.deliveries {
            let source = sources.get(delivery.source).copied().map(Value::Integer);
            let body = serde_json::to_string(&record::of_delivery(delivery))?;
            let of_delivery = vec![
                Value::Integer(number),
                source.unwrap_or(Value::Null),
                text(&delivery.reading.delivery),
                maybe(delivery.reading.supplier.as_deref()),
                Value::Text(body),
            ];
            let of = writer.add("delivery", of_delivery)?;
            loads(&mut writer, &mut keeper, audit, delivery, of)?;
        }
        let head = writer.head();
        all.commit()?;
        Ok(head)
    }
}

/// Keeps bytes that are not kept yet.
fn keep(all: &Transaction<'_>, writer: &mut Writer<'_>, packed: &Packed) -> rusqlite::Result<()> {
    let known = all
        .prepare_cached("SELECT 1 FROM content WHERE sha256 = ?1")?
        .query_row([&packed.sha256], |_| Ok(()))
        .optional()?;
    if known.is_none() {
        let size = i64::try_from(packed.size).unwrap_or(i64::MAX);
        let fields = vec![
            text(&packed.sha256),
            Value::Integer(size),
            Value::Blob(packed.bytes.clone()),
        ];
        writer.add("content", fields)?;
    }
    Ok(())
}

fn fields(
    audit: &Audit,
    kept: &Kept,
    stamp: &Stamp,
    tables: &str,
) -> serde_json::Result<Vec<Value>> {
    let bare = match audit.site.bare_units() {
        Units::Us => "us",
        Units::Si => "si",
    };
    let site_file = audit.call.site_file.as_ref().map(|(name, _)| name.as_str());
    let sha256 =
        |packed: &Option<Packed>| maybe(packed.as_ref().map(|packed| packed.sha256.as_str()));
    Ok(vec![
        text(&audit.id),
        text(&audit.date.to_string()),
        text(&stamp.time),
        text(&stamp.host),
        text(&stamp.user),
        text(env!("CARGO_PKG_VERSION")),
        text(tables),
        Value::Text(serde_json::to_string(&audit.site)?),
        text(bare),
        maybe(site_file),
        sha256(&kept.site),
        maybe(audit.fleet.as_ref().map(|fleet| fleet.file.as_str())),
        sha256(&kept.register),
        maybe(kept.supplier.as_deref()),
        maybe(kept.delivery.as_deref()),
        Value::Text(serde_json::to_string(&audit.refused)?),
    ])
}

/// Records the lines and packages of a delivery, in its order.
fn loads(
    writer: &mut Writer<'_>,
    keeper: &mut Keeper<'_>,
    audit: &Audit,
    delivery: &Delivery,
    number: i64,
) -> Result<(), Failed> {
    let view = View::new(delivery);
    let all: Vec<Load<'_>> = view.loads().collect();
    for chunk in all.chunks(CHUNK) {
        let rows: Vec<serde_json::Result<(Vec<Value>, Figure<'static>)>> = chunk
            .par_iter()
            .map(|load| row(audit, &view, *load, number))
            .collect();
        for (row, load) in rows.into_iter().zip(chunk) {
            let (row, figure) = row?;
            let of = Of {
                load: writer.add("load", row)?,
                delivery: number,
                id: load.id(),
            };
            keeper.add(of, &figure)?;
        }
    }
    Ok(())
}

fn row(
    audit: &Audit,
    view: &View<'_>,
    load: Load<'_>,
    delivery: i64,
) -> serde_json::Result<(Vec<Value>, Figure<'static>)> {
    let reading = &view.delivery.reading;
    let (supplier, order) = match load {
        Load::Line(line) => (line.item.supplier.as_deref(), line.item.order.as_deref()),
        Load::Package(..) => (None, None),
    };
    let truck = load.plan().truck.as_ref().map(|truck| truck.id.as_str());
    let mut codes = String::new();
    for finding in load.findings() {
        if codes.is_empty() {
            codes.push(' ');
        }
        codes.push_str(finding.code);
        codes.push(' ');
    }
    let body = serde_json::to_string(&record::of_load(audit, view.delivery, load))?;
    let item = Some(load.item()).filter(|item| !item.is_empty());
    let supplier = supplier.or(reading.supplier.as_deref());
    let figure = Figure::of(&body, supplier).into_owned();
    let fields = vec![
        Value::Integer(delivery),
        text(load.id()),
        text(&audit.date.to_string()),
        maybe(supplier),
        maybe(item),
        maybe(order.or(reading.order.as_deref())),
        maybe(truck),
        Value::Text(codes),
        Value::Integer(i64::from(load.flagged())),
        text(load.substance()),
        text(&load.description()),
        Value::Text(body),
        Value::Text(serde_json::to_string(&Shown::of(&audit.site, view, load))?),
    ];
    Ok((fields, figure))
}

/// The tables that the program judges by: name and SHA-256, one a line.
pub(super) fn tables() -> String {
    crate::tables::all()
        .map(|(name, table)| format!("{} {name}\n", hash::sha256(table.as_bytes())))
        .collect()
}

fn text(text: &str) -> Value {
    Value::Text(text.to_string())
}

fn maybe(text: Option<&str>) -> Value {
    text.map_or(Value::Null, |text| Value::Text(text.to_string()))
}
