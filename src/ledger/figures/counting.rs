//! Which deliveries count: of several audits of one delivery the latest, as `past::LATEST` has it for a single load.

use rusqlite::{Connection, OptionalExtension};
use std::collections::{BTreeMap, HashMap, HashSet};

/// A delivery on record.
pub(in crate::ledger) struct Delivery {
    /// Number of its audit.
    pub(in crate::ledger) audit: i64,
    /// No later audit of it is on record.
    pub(in crate::ledger) counts: bool,
}

/// Every delivery by its number.
pub(in crate::ledger) fn deliveries(db: &Connection) -> rusqlite::Result<HashMap<i64, Delivery>> {
    let mut all = HashMap::new();
    let mut of_name: HashMap<(String, Option<String>), BTreeMap<i64, Vec<i64>>> = HashMap::new();
    let mut found = db.prepare("SELECT number, audit, name, supplier FROM delivery")?;
    let mut rows = found.query([])?;
    while let Some(row) = rows.next()? {
        let (number, audit): (i64, i64) = (row.get(0)?, row.get(1)?);
        let counts = true;
        all.insert(number, Delivery { audit, counts });
        let audits = of_name.entry((row.get(2)?, row.get(3)?)).or_default();
        audits.entry(audit).or_default().push(number);
    }
    // A list of one name that comes every morning has hundreds of audits: each of its lines is looked at once.
    for audits in of_name.into_values().filter(|audits| audits.len() > 1) {
        let mut later: HashSet<String> = HashSet::new();
        for numbers in audits.into_values().rev() {
            let mut own = Vec::new();
            for number in numbers {
                let ids = ids(db, number)?;
                let again = ids.iter().any(|id| later.contains(id));
                if let Some(delivery) = all.get_mut(&number) {
                    delivery.counts = !again;
                }
                own.extend(ids);
            }
            later.extend(own);
        }
    }
    Ok(all)
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
