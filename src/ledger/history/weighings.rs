//! The weighings on record: what goods of any list weighed, with the goods as they were understood then.

use crate::history::{Goods, Weighing, counted_in};
use crate::ledger::past::{LATEST, STANDS};
use crate::understand::SizeOf;
use crate::units::{Length, Mass};
use chrono::NaiveDate;
use rusqlite::{Connection, Row};
use serde::Deserialize;

/// The weighings from a day on, in the order of their records. One that a later decision on its line took the place of does not
/// count, nor one of a line whose pieces nobody counted, nor one on a list that a later one took the place of. The same bytes under another name are the same list. A day written beside a decision in the future is a slip.
pub(super) fn since(db: &Connection, day: NaiveDate) -> rusqlite::Result<Vec<Weighing>> {
    // From the decisions to their loads, as they are few. Packages are no goods; a line without a supplier is nobody's.
    let sql = format!(
        "SELECT c.number, c.id, s.sha256, s.name, o.shown ->> '$.cell', d.name, o.supplier, \
         min(coalesce(c.dated, substr(c.time, 1, 10)), substr(c.time, 1, 10)) AS weighed, c.name, c.evidence, c.plan_kg, o.body, o.shown ->> '$.unit' \
         FROM decision AS c CROSS JOIN load AS o ON o.number = c.load CROSS JOIN delivery AS d ON d.number = o.delivery \
         CROSS JOIN source AS s ON s.number = d.source \
         WHERE c.decision = 'weighed' AND o.shown ->> '$.counted' = 1 AND c.plan_kg > 0 AND weighed >= ?1 AND o.supplier IS NOT NULL \
         AND NOT EXISTS (SELECT 1 FROM decision AS later JOIN load AS its ON its.number = later.load \
         JOIN delivery AS of_it ON of_it.number = its.delivery \
         WHERE later.id = c.id AND later.number > c.number AND of_it.supplier IS d.supplier) \
         AND NOT EXISTS (SELECT 1 FROM load AS l CROSS JOIN decision AS later ON later.load = l.number \
         WHERE later.number > c.number AND {STANDS}) \
         AND ({LATEST} OR EXISTS (SELECT 1 FROM load AS l JOIN delivery AS d ON d.number = l.delivery \
         WHERE {STANDS} AND {LATEST})) ORDER BY c.number"
    );
    let mut found = db.prepare(&sql)?;
    let mut rows = found.query([day.to_string()])?;
    let mut weighings = Vec::new();
    while let Some(row) = rows.next()? {
        weighings.extend(weighing(row)?);
    }
    Ok(weighings)
}

/// None for a package, and for a record that this program does not understand.
fn weighing(row: &Row<'_>) -> rusqlite::Result<Option<Weighing>> {
    let day: String = row.get(7)?;
    let line = serde_json::from_str::<Line>(row.get_ref(11)?.as_str()?).ok();
    let (Some(line), Ok(day)) = (line, day.parse()) else {
        return Ok(None);
    };
    Ok(Some(Weighing {
        record: row.get(0)?,
        line: row.get(1)?,
        list: row.get(2)?,
        file: row.get(3)?,
        cell: row.get(4)?,
        delivery: row.get(5)?,
        supplier: row.get(6)?,
        day,
        name: row.get(8)?,
        evidence: row.get(9)?,
        mass: Mass::from_kg(row.get(10)?),
        pieces: line.pieces,
        goods: line.goods(row.get_ref(12)?.as_str_or_null()?),
    }))
}

/// What is asked of `dockheft.line/1`.
#[derive(Deserialize)]
struct Line {
    item: Option<String>,
    description: String,
    pieces: u32,
    size: Size,
    size_of: SizeOf,
    estimate: Option<Expected>,
}

#[derive(Deserialize)]
struct Size {
    length_m: Option<Length>,
    width_m: Option<Length>,
    height_m: Option<Length>,
    outside_m: Option<Length>,
    inside_m: Option<Length>,
    wall_m: Option<Length>,
}

#[derive(Deserialize)]
struct Expected {
    evidence: String,
    material: Option<String>,
}

impl Line {
    fn goods(self, unit: Option<&str>) -> Goods {
        let Line { size, estimate, .. } = self;
        // What rested on a weighing itself was goods that could be told from others.
        let described = estimate
            .as_ref()
            .is_some_and(|estimate| estimate.evidence != "envelope");
        Goods {
            item: self.item,
            description: self.description,
            material: estimate.and_then(|estimate| estimate.material),
            sizes: [
                size.length_m,
                size.width_m,
                size.height_m,
                size.outside_m,
                size.inside_m,
                size.wall_m,
            ],
            size_of: self.size_of,
            unit: counted_in(unit),
            described,
        }
    }
}
