//! A load as the ledger has it, with its delivery, its audit and its file.

use super::shown::Shown;
use super::supplier::folded;
use rusqlite::{Connection, OptionalExtension, Row};
use serde_json::Value;
use std::collections::HashMap;

/// A load on record.
#[derive(Clone, Debug)]
pub(super) struct Past {
    /// Number of the record.
    pub(super) number: i64,
    /// The load's id.
    pub(super) id: String,
    /// Its description.
    pub(super) description: String,
    /// Hash of what a decision rests on.
    pub(super) substance: String,
    /// Its record, as the contract has it.
    pub(super) record: Value,
    /// The words of that day's reports.
    pub(super) shown: Shown,
    /// The delivery's name.
    pub(super) delivery: String,
    /// The delivery's supplier.
    pub(super) supplier: Option<String>,
    /// File, its SHA-256.
    pub(super) file: (String, String),
    /// The audit.
    pub(super) audit: Audit,
    /// No later audit of the same delivery is on record.
    pub(super) latest: bool,
}

/// An audit on record.
#[derive(Clone, Debug)]
pub(super) struct Audit {
    pub(super) number: i64,
    pub(super) id: String,
    pub(super) day: String,
    pub(super) time: String,
    pub(super) host: String,
    pub(super) user: String,
    pub(super) program: String,
}

/// A decision on record.
#[derive(Clone, Debug)]
pub(super) struct Taken {
    pub(super) number: i64,
    pub(super) decision: String,
    pub(super) plan_kg: Option<f64>,
    pub(super) before_kg: Option<f64>,
    pub(super) evidence: Option<String>,
    pub(super) name: String,
    pub(super) remark: Option<String>,
    pub(super) dated: Option<String>,
    pub(super) time: String,
    /// It was made on the load of the very file that was asked about, with the same figures.
    pub(super) stands: bool,
    /// Number of the load's record that it was made on.
    pub(super) load: i64,
}

/// That no later audit of the delivery `d` is on record. A later one has its name, its supplier in whatever letters and at
/// least one of its lines: a list of the same name with other lines, or of nobody knows whom, is another delivery and closes
/// nothing. A list of nobody knows whom is closed by the same bytes under a supplier's name too.
/// Line by line and not list by list: a supplier may send a list of one name every morning for years.
pub(super) const LATEST: &str = "NOT (EXISTS (SELECT 1 FROM delivery AS later WHERE later.name = d.name AND later.audit > d.audit) \
    AND EXISTS (SELECT 1 FROM load AS before CROSS JOIN load AS again ON again.id = before.id \
    CROSS JOIN delivery AS later ON later.number = again.delivery WHERE before.delivery = d.number AND later.audit > d.audit \
    AND later.name = d.name AND (folded(later.supplier) IS folded(d.supplier) OR folded(d.supplier) IS NULL \
    AND (SELECT sha256 FROM source WHERE number = later.source) = (SELECT sha256 FROM source WHERE number = d.source))))";

/// Of deliveries that were asked about before, whether no later audit is on record.
pub(super) type Latest = HashMap<i64, bool>;

/// A load by the number of its record.
pub(super) fn load(db: &Connection, number: i64) -> rusqlite::Result<Past> {
    one_of(db, number, &mut Latest::new())
}

/// The same as one of several, whose deliveries are asked about once.
pub(super) fn one_of(db: &Connection, number: i64, latest: &mut Latest) -> rusqlite::Result<Past> {
    let sql = "SELECT l.number, l.id, l.description, l.substance, l.body, l.shown, d.name, s.name, s.sha256, \
         a.number, a.id, a.day, a.time, a.host, a.user, a.program, d.supplier, d.number \
         FROM load AS l JOIN delivery AS d ON d.number = l.delivery JOIN source AS s ON s.number = d.source \
         JOIN audit AS a ON a.number = d.audit WHERE l.number = ?1";
    db.prepare_cached(sql)?.query_row([number], |row| {
        let delivery: i64 = row.get(17)?;
        let is_latest = match latest.get(&delivery) {
            Some(known) => *known,
            None => {
                let sql = format!("SELECT {LATEST} FROM delivery AS d WHERE d.number = ?1");
                let found = db
                    .prepare_cached(&sql)?
                    .query_row([delivery], |row| row.get(0))?;
                latest.insert(delivery, found);
                found
            }
        };
        past(row, is_latest)
    })
}

/// The records of a load, the newest first.
pub(super) fn by_id(db: &Connection, id: &str) -> rusqlite::Result<Vec<Past>> {
    let mut found =
        db.prepare_cached("SELECT number FROM load WHERE id = ?1 ORDER BY number DESC")?;
    let numbers: Vec<i64> = found
        .query_map([id], |row| row.get(0))?
        .collect::<rusqlite::Result<_>>()?;
    loads(db, &numbers)
}

/// Loads by the numbers of their records.
fn loads(db: &Connection, numbers: &[i64]) -> rusqlite::Result<Vec<Past>> {
    let mut latest = Latest::new();
    numbers
        .iter()
        .map(|number| one_of(db, *number, &mut latest))
        .collect()
}

/// Id and name of the package that a line is judged on; none where it is on record under no one name.
pub(super) fn package_of(
    db: &Connection,
    line: &Past,
) -> rusqlite::Result<Option<(String, String)>> {
    let Some(name) = line.record["package"].as_str() else {
        return Ok(None);
    };
    let row = line.record["row"].as_i64();
    db.prepare_cached(
        "SELECT id FROM load WHERE delivery = (SELECT delivery FROM load WHERE number = ?1) \
         AND body ->> 'schema' = 'dockheft.package/1' AND body ->> 'package' = ?2 \
         AND EXISTS (SELECT 1 FROM json_each(body, '$.rows') WHERE value = ?3)",
    )?
    .query_row((line.number, name, row), |row| row.get(0))
    .optional()
    .map(|id| id.map(|id| (id, name.to_string())))
}

impl Past {
    /// Whether its delivery is of a supplier, in small or capital letters; whoever names none means all.
    pub(super) fn is_of(&self, supplier: Option<&str>) -> bool {
        supplier.is_none_or(|asked| self.supplier.as_deref().and_then(folded) == folded(asked))
    }

    /// Supplier, file and day, as people tell deliveries of one name apart.
    pub(super) fn origin(&self) -> String {
        let supplier = self.supplier.as_deref().unwrap_or("no supplier");
        format!("{supplier}, {} of {}", self.file.0, self.audit.day)
    }
}

fn past(row: &Row<'_>, latest: bool) -> rusqlite::Result<Past> {
    let json = |at: usize, error: serde_json::Error| {
        rusqlite::Error::FromSqlConversionFailure(at, rusqlite::types::Type::Text, Box::new(error))
    };
    let record = row.get_ref(4)?.as_str()?;
    let shown = row.get_ref(5)?.as_str()?;
    Ok(Past {
        number: row.get(0)?,
        id: row.get(1)?,
        description: row.get(2)?,
        substance: row.get(3)?,
        record: serde_json::from_str(record).map_err(|error| json(4, error))?,
        shown: serde_json::from_str(shown).map_err(|error| json(5, error))?,
        delivery: row.get(6)?,
        file: (row.get(7)?, row.get(8)?),
        audit: Audit {
            number: row.get(9)?,
            id: row.get(10)?,
            day: row.get(11)?,
            time: row.get(12)?,
            host: row.get(13)?,
            user: row.get(14)?,
            program: row.get(15)?,
        },
        latest,
        supplier: row.get(16)?,
    })
}

/// That a decision on the load `o` stands for the load `l`: only where both stand on the same place of the same bytes, of the same
/// supplier (`history::History::decision` says the same), and what was worked out is the same. The same words in another file
/// may be other goods; the same file may come under other names, which are in the id.
pub(super) const STANDS: &str = "(o.substance = l.substance AND \
    (SELECT s.sha256 FROM delivery AS d JOIN source AS s ON s.number = d.source WHERE d.number = o.delivery) = \
    (SELECT s.sha256 FROM delivery AS d JOIN source AS s ON s.number = d.source WHERE d.number = l.delivery) AND \
    (SELECT supplier FROM delivery WHERE number = o.delivery) IS (SELECT supplier FROM delivery WHERE number = l.delivery) \
    COLLATE NOCASE AND (o.id = l.id OR (o.body ->> 'sheet' = l.body ->> 'sheet' AND o.body ->> 'row' = l.body ->> 'row' \
    AND o.body ->> 'item' IS l.body ->> 'item')))";

/// Where the load `l` of the delivery `d` and the file `s` stands, and what was worked out of it: [`STANDS`] as one text, the same for
/// all loads that a decision on one of them stands for.
pub(super) const PLACE: &str = "json_array(s.sha256, lower(d.supplier), l.substance, \
    l.body ->> 'sheet', l.body ->> 'row', l.body ->> 'item')";

/// That the decision `c` was made on a load like the load `l`, so that it may stand for it: few are, and an index has them.
pub(super) const MAY_STAND: &str =
    "c.load IN (SELECT number FROM load WHERE substance = l.substance)";

/// The decisions on a load's id of its supplier, and those that stand for it, the oldest first. Those on another list do not
/// stand for this one.
pub(super) fn decisions(db: &Connection, load: &Past) -> rusqlite::Result<Vec<Taken>> {
    let sql = format!(
        "SELECT c.number, c.decision, c.plan_kg, c.before_kg, c.evidence, c.name, c.remark, c.dated, c.time, {STANDS}, c.load \
         FROM load AS l JOIN decision AS c JOIN load AS o ON o.number = c.load \
         WHERE l.number = ?1 AND (c.id = l.id OR {MAY_STAND}) AND ({STANDS} OR (c.id = l.id \
         AND (SELECT supplier FROM delivery WHERE number = o.delivery) \
         IS (SELECT supplier FROM delivery WHERE number = l.delivery))) ORDER BY c.number"
    );
    db.prepare_cached(&sql)?
        .query_map([load.number], |row| {
            Ok(Taken {
                number: row.get(0)?,
                decision: row.get(1)?,
                plan_kg: row.get(2)?,
                before_kg: row.get(3)?,
                evidence: row.get(4)?,
                name: row.get(5)?,
                remark: row.get(6)?,
                dated: row.get(7)?,
                time: row.get(8)?,
                stands: row.get(9)?,
                load: row.get(10)?,
            })
        })?
        .collect()
}

/// The loads of the deliveries of a name that no later audit replaces, the oldest first.
pub(super) fn latest(db: &Connection, delivery: &str) -> rusqlite::Result<Vec<Past>> {
    let sql = format!(
        "SELECT l.number FROM load AS l JOIN delivery AS d ON d.number = l.delivery \
         WHERE d.name = ?1 AND {LATEST} ORDER BY l.number"
    );
    let numbers: Vec<i64> = db
        .prepare(&sql)?
        .query_map([delivery], |row| row.get(0))?
        .collect::<rusqlite::Result<_>>()?;
    loads(db, &numbers)
}
