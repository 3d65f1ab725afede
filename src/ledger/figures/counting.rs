//! Which deliveries count: of several audits of one delivery the latest, as `past::LATEST` has it for a single load.

use crate::ledger::supplier::folded;
use rusqlite::{Connection, OptionalExtension};
use std::collections::{BTreeMap, HashMap};

/// A delivery on record.
pub(in crate::ledger) struct Delivery {
    /// Number of its audit.
    pub(in crate::ledger) audit: i64,
    /// No later audit of it is on record.
    pub(in crate::ledger) counts: bool,
    /// Number of the earliest delivery on record that has one of its lines: its first audit. One that counts no
    /// more has that of the one that took its place.
    pub(in crate::ledger) first: i64,
}

/// A delivery among those of its name.
struct Sheet {
    number: i64,
    supplier: Option<String>,
    /// SHA-256 of its file.
    list: String,
}

/// What makes an earlier audit one of the same delivery, besides its name and a line.
#[derive(PartialEq, Eq, Hash)]
enum Same {
    Supplier(Option<String>),
    List(String),
}

/// Every delivery by its number.
pub(in crate::ledger) fn deliveries(db: &Connection) -> rusqlite::Result<HashMap<i64, Delivery>> {
    let mut all = HashMap::new();
    let mut of_name: HashMap<String, BTreeMap<i64, Vec<Sheet>>> = HashMap::new();
    let mut found = db.prepare(
        "SELECT d.number, d.audit, d.name, d.supplier, s.sha256 FROM delivery AS d JOIN source AS s ON s.number = d.source",
    )?;
    let mut rows = found.query([])?;
    while let Some(row) = rows.next()? {
        let (number, audit): (i64, i64) = (row.get(0)?, row.get(1)?);
        let delivery = Delivery {
            audit,
            counts: true,
            first: number,
        };
        all.insert(number, delivery);
        let supplier: Option<String> = row.get(3)?;
        let sheet = Sheet {
            number,
            supplier: supplier.as_deref().and_then(folded),
            list: row.get(4)?,
        };
        let audits = of_name.entry(row.get(2)?).or_default();
        audits.entry(audit).or_default().push(sheet);
    }
    for audits in of_name.into_values().filter(|audits| audits.len() > 1) {
        follow(db, audits, &mut all)?;
    }
    Ok(all)
}

/// Goes back through the audits of one name. A list of one name that comes every morning has hundreds: each of its lines is
/// looked at once.
fn follow(
    db: &Connection,
    audits: BTreeMap<i64, Vec<Sheet>>,
    all: &mut HashMap<i64, Delivery>,
) -> rusqlite::Result<()> {
    let some_nameless = audits.values().flatten().any(|one| one.supplier.is_none());
    // The lines of later audits, each with the number of the newest delivery that has it.
    let mut later: HashMap<Same, HashMap<String, i64>> = HashMap::new();
    let mut closed: Vec<(i64, i64)> = Vec::new();
    for sheets in audits.into_values().rev() {
        let mut own = Vec::new();
        for Sheet {
            number,
            supplier,
            list,
        } in sheets
        {
            let nameless = supplier.is_none();
            let mut same = vec![Same::Supplier(supplier)];
            if some_nameless {
                same.push(Same::List(list));
            }
            // A list of nobody knows whom goes on in the same bytes under a name, never the other way round.
            let closing = &same[..if nameless { same.len() } else { 1 }];
            let closing: Vec<_> = closing.iter().filter_map(|same| later.get(same)).collect();
            let (mut lines, mut took_place) = (Vec::new(), None);
            for id in ids(db, number)? {
                let newest = closing.iter().find_map(|lines| lines.get(&id)).copied();
                if let Some(newest) = newest.and_then(|newest| all.get_mut(&newest)) {
                    newest.first = newest.first.min(number);
                }
                took_place = took_place.max(newest);
                lines.push((id, newest.unwrap_or(number)));
            }
            closed.extend(took_place.map(|newest| (number, newest)));
            own.push((same, lines));
        }
        for (same, lines) in own {
            for same in same {
                let known = later.entry(same).or_default();
                for (id, newest) in &lines {
                    known.entry(id.clone()).or_insert(*newest);
                }
            }
        }
    }
    // The newest stand first: what took a place knows its own first audit by now.
    for (number, newest) in closed {
        let first = all.get(&newest).map_or(number, |newest| newest.first);
        if let Some(delivery) = all.get_mut(&number) {
            delivery.counts = false;
            delivery.first = delivery.first.min(first);
        }
    }
    Ok(())
}

/// The ids of a delivery's loads.
fn ids(db: &Connection, delivery: i64) -> rusqlite::Result<Vec<String>> {
    // Its loads stand together: no need to look each up among the large records.
    let span: Option<(i64, i64)> = db
        .prepare_cached(
            "SELECT (SELECT min(number) FROM load WHERE delivery = ?1), (SELECT max(number) FROM load WHERE delivery = ?1)",
        )?
        .query_row([delivery], |row| Ok((row.get(0)?, row.get(1)?)))
        .optional()?
        .and_then(|span: (Option<i64>, Option<i64>)| span.0.zip(span.1));
    let Some(span) = span else {
        return Ok(Vec::new());
    };
    db.prepare_cached(&format!(
        "SELECT id FROM {} WHERE delivery = ?3",
        super::stored::ids(db)?
    ))?
    .query_map((span.0, span.1, delivery), |row| row.get(0))?
    .collect()
}
