//! Finding past loads, the newest first.

use super::Ledger;
use super::figures;
use super::past::{self, Latest, Taken};
use crate::error::Error;
use chrono::NaiveDate;
use rusqlite::types::Value as Sql;
use rusqlite::{Connection, params_from_iter};
use serde::Serialize;
use serde_json::Value;

/// What is looked for. What is not given is not asked for.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Query {
    /// Part of the supplier's name, small or capital letters.
    pub supplier: Option<String>,
    /// The item, whole.
    pub item: Option<String>,
    /// The order, whole.
    pub order: Option<String>,
    /// First day of the audit.
    pub from: Option<NaiveDate>,
    /// Last day of the audit.
    pub to: Option<NaiveDate>,
    /// Code of a finding.
    pub finding: Option<String>,
    /// What was decided.
    pub decision: Option<DecisionFilter>,
    /// Truck that was named.
    pub truck: Option<String>,
    /// Words that stand in supplier, description, item, order or id.
    pub text: Vec<String>,
}

/// What was decided.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum DecisionFilter {
    /// Flagged, of the latest audit of its delivery, and not decided yet.
    Open,
    /// The latest decision has these words.
    Words(String),
}

/// A load that was found.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Traced {
    schema: &'static str,
    /// Number of its record.
    pub record: i64,
    /// Id of the load.
    pub id: String,
    /// Name of the delivery.
    pub delivery: String,
    /// When the audit was recorded.
    pub time: String,
    /// Day of the audit.
    pub day: String,
    /// No later audit of the delivery is on record.
    pub latest: bool,
    /// Latest decision that stands for it: what, by whom, when, kg planned with from then on.
    pub decision: Option<Decided>,
    /// Latest decision where none stands for it: it was made on an earlier list, and this one is open.
    pub on_earlier_list: Option<Decided>,
    /// Description.
    pub description: String,
    /// Its record: `dockheft.line/1` or `dockheft.package/1`.
    pub load: Value,
}

/// A decision in short.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Decided {
    /// What.
    pub decision: String,
    /// By whom, as typed.
    pub name: String,
    /// When it was recorded.
    pub time: String,
    /// Planned with from then on; none where it is not lifted.
    pub plan_kg: Option<f64>,
}

impl From<Taken> for Decided {
    fn from(taken: Taken) -> Decided {
        Decided {
            decision: taken.decision,
            name: taken.name,
            time: taken.time,
            plan_kg: taken.plan_kg,
        }
    }
}

impl Ledger {
    /// How many loads answer to a query, and those from `skip` on, at most `most`.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn trace(
        &self,
        query: &Query,
        skip: usize,
        most: usize,
    ) -> Result<(usize, Vec<Traced>), Error> {
        self.told(found(&self.db, query, skip, most))
    }
}

fn found(
    db: &Connection,
    query: &Query,
    skip: usize,
    most: usize,
) -> rusqlite::Result<(usize, Vec<Traced>)> {
    // One transaction, so that count and page are of one state.
    let look = db.unchecked_transaction()?;
    let mut asked = Asked::default();
    asked.all(&look, query)?;
    let numbers: Vec<i64> = look
        .prepare(&asked.sql())?
        .query_map(params_from_iter(&asked.values), |row| row.get(0))?
        .collect::<rusqlite::Result<_>>()?;
    let page = numbers.iter().skip(skip).take(most);
    let mut latest = Latest::new();
    let traced = page
        .map(|number| traced(&look, *number, &mut latest))
        .collect::<rusqlite::Result<_>>()?;
    Ok((numbers.len(), traced))
}

fn traced(db: &Connection, number: i64, latest: &mut Latest) -> rusqlite::Result<Traced> {
    let load = past::one_of(db, number, latest)?;
    let mut decisions = past::decisions(db, &load)?;
    let standing = decisions.iter().rposition(|taken| taken.stands);
    let decision = standing.map(|at| Decided::from(decisions.swap_remove(at)));
    let on_earlier_list = match decision {
        Some(_) => None,
        None => decisions
            .into_iter()
            .rfind(|taken| taken.load < load.number)
            .map(Decided::from),
    };
    Ok(Traced {
        schema: "dockheft.trace/1",
        record: load.number,
        id: load.id,
        delivery: load.delivery,
        time: load.audit.time,
        day: load.audit.day,
        latest: load.latest,
        decision,
        on_earlier_list,
        description: load.description,
        load: load.record,
    })
}

/// The latest decision that stands for the load `l`.
fn standing() -> String {
    format!(
        "(SELECT c.decision FROM decision AS c JOIN load AS o ON o.number = c.load \
         WHERE {} AND {} ORDER BY c.number DESC LIMIT 1)",
        past::MAY_STAND,
        past::STANDS
    )
}

/// A query on its way to the engine.
#[derive(Default)]
struct Asked {
    index: Option<&'static str>,
    terms: Vec<String>,
    values: Vec<Sql>,
}

impl Asked {
    fn all(&mut self, db: &Connection, query: &Query) -> rusqlite::Result<()> {
        if let Some(part) = &query.supplier {
            let names = suppliers(db, part)?;
            let places = vec!["?"; names.len()].join(", ");
            self.terms.push(format!("l.supplier IN ({places})"));
            self.values.extend(names.into_iter().map(Sql::Text));
            self.index = Some("load_by_supplier");
        }
        for (given, column, index) in [
            (&query.item, "item", "load_by_item"),
            (&query.order, "po", "load_by_order"),
        ] {
            if let Some(given) = given {
                self.term(&format!("l.{column} = ? COLLATE NOCASE"), given.trim());
                self.index = Some(index);
            }
        }
        if let Some(day) = query.from {
            self.term("l.day >= ?", &day.to_string());
        }
        if let Some(day) = query.to {
            self.term("l.day <= ?", &day.to_string());
        }
        if let Some(code) = &query.finding {
            self.term("instr(l.codes, ?) > 0", &format!(" {code} "));
        }
        if let Some(truck) = &query.truck {
            self.term("l.truck = ? COLLATE NOCASE", truck.trim());
        }
        for word in &query.text {
            let sign = |sign: char| {
                if "%_\\".contains(sign) {
                    format!("\\{sign}")
                } else {
                    sign.to_string()
                }
            };
            let pattern = format!("%{}%", word.chars().map(sign).collect::<String>());
            let columns = ["supplier", "description", "item", "po", "id"]
                .map(|column| format!("l.{column} LIKE ?1 ESCAPE '\\'"));
            self.values.push(Sql::Text(pattern));
            let place = format!("?{}", self.values.len());
            self.terms
                .push(format!("({})", columns.join(" OR ").replace("?1", &place)));
        }
        match &query.decision {
            None => {}
            Some(DecisionFilter::Words(words)) => {
                self.term(&format!("{} = ?", standing()), words);
            }
            Some(DecisionFilter::Open) => {
                let deliveries = figures::counting(db)?.into_iter();
                let earlier: Vec<i64> = deliveries
                    .filter_map(|(number, of)| (!of.counts).then_some(number))
                    .collect();
                self.terms
                    .push(format!("l.flagged = 1 AND {} IS NULL", standing()));
                self.term(
                    "l.delivery NOT IN (SELECT value FROM json_each(?))",
                    &Value::from(earlier).to_string(),
                );
            }
        }
        Ok(())
    }

    fn term(&mut self, term: &str, value: &str) {
        self.values.push(Sql::Text(value.to_string()));
        let place = format!("?{}", self.values.len());
        self.terms.push(term.replacen('?', &place, 1));
    }

    fn sql(&self) -> String {
        let terms = if self.terms.is_empty() {
            String::new()
        } else {
            format!(" WHERE {}", self.terms.join(" AND "))
        };
        let index = self.index.unwrap_or("load_by_day");
        format!("SELECT l.number FROM load AS l INDEXED BY {index}{terms} ORDER BY l.number DESC")
    }
}

/// The suppliers on record whose names hold a part, in small or capital letters of any script.
pub(super) fn suppliers(db: &Connection, part: &str) -> rusqlite::Result<Vec<String>> {
    // From one name to the next along the index: as many steps as names, however many loads they have.
    let names: Vec<String> = db
        .prepare(
            "WITH RECURSIVE name (is_) AS (SELECT min(supplier) FROM load UNION ALL \
             SELECT (SELECT min(supplier) FROM load WHERE supplier > is_) FROM name WHERE is_ IS NOT NULL) \
             SELECT is_ FROM name WHERE is_ IS NOT NULL",
        )?
        .query_map([], |row| row.get(0))?
        .collect::<rusqlite::Result<_>>()?;
    let part = part.trim().to_lowercase();
    Ok(names
        .into_iter()
        .filter(|name| name.to_lowercase().contains(&part))
        .collect())
}
