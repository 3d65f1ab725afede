//! The loads as columns of plain figures, and the rows that share a name.
//! Comes in: the ledger's frame of figures, one row a goods line or package. Goes out: what the counts are made of.

use chrono::NaiveDate;
use polars::prelude::{DataFrame, GroupsIndicator, IdxSize, PolarsResult};

/// What the counts are made of, one entry a load, all of one length.
pub(super) struct Loads {
    /// Number of its record.
    pub(super) number: Vec<i64>,
    /// Number of its delivery's record.
    pub(super) delivery: Vec<i64>,
    /// Number of the delivery's record in its first audit: the order of the deliveries.
    pub(super) first: Vec<i64>,
    /// Day of the delivery's first audit; none where the ledger has no date.
    pub(super) day: Vec<Option<NaiveDate>>,
    /// Somebody has, or had, to look at it.
    pub(super) flagged: Vec<bool>,
    /// One of its findings says `stop`, or did before a decision.
    pub(super) stop: Vec<bool>,
    /// Declared below the expected range.
    pub(super) light: Vec<bool>,
    /// Declared more than its outline can weigh.
    pub(super) impossible: Vec<bool>,
    /// ln(declared / expected), where both are known and the estimate rests on a product or a shape; NaN where not.
    pub(super) off: Vec<f64>,
    /// By how much a lift would have overloaded the truck that fits the declared weight, kg; 0 where not.
    pub(super) overload_kg: Vec<f64>,
}

/// Rows that share a name; none: those without one.
pub(super) struct Group {
    pub(super) name: Option<String>,
    pub(super) rows: Vec<IdxSize>,
}

impl Loads {
    /// From the frame of figures.
    pub(super) fn of(frame: &DataFrame) -> PolarsResult<Loads> {
        let mut day = vec![None; frame.height()];
        for group in groups(frame, "day")? {
            let date = group.name.and_then(|name| name.parse().ok());
            for row in group.rows {
                day[row as usize] = date;
            }
        }
        // What an outline can weigh at most says nothing of what is in it; and if goods were held against our own weighings
        // from some day on, each supplier whose goods we weigh would seem to move.
        let [is_compared] = rows_of(frame, "evidence", [&["product", "shape"]])?;
        let [stop] = rows_of(frame, "severity", [&["stop"]])?;
        let [light, impossible] = rows_of(frame, "verdict", [&["light"], &["impossible"]])?;
        let declared = weights(frame, "declared_kg")?;
        let expected = weights(frame, "expected_kg")?;
        let off = declared.iter().zip(&expected).zip(is_compared);
        Ok(Loads {
            number: numbers(frame, "load")?,
            delivery: numbers(frame, "delivery")?,
            first: numbers(frame, "first")?,
            day,
            flagged: frame
                .column("flagged")?
                .bool()?
                .iter()
                .map(|flagged| flagged == Some(true))
                .collect(),
            stop,
            light,
            impossible,
            off: off
                .map(|((declared, expected), compared)| {
                    if compared && *declared > 0.0 && *expected > 0.0 {
                        (declared / expected).ln()
                    } else {
                        f64::NAN
                    }
                })
                .collect(),
            overload_kg: weights(frame, "overload_kg")?
                .into_iter()
                .map(|over| over.max(0.0))
                .collect(),
        })
    }
}

/// The rows of each name in a column of texts, names in the order of their first row.
pub(super) fn groups(frame: &DataFrame, column: &str) -> PolarsResult<Vec<Group>> {
    let names = frame.column(column)?.str()?;
    let grouped = frame.group_by_stable([column])?;
    let each = grouped.get_groups().iter().map(|group| {
        let rows: Vec<IdxSize> = match group {
            GroupsIndicator::Idx((_, rows)) => rows.to_vec(),
            GroupsIndicator::Slice([first, length]) => (first..first + length).collect(),
        };
        let first = rows.first().and_then(|row| names.get(*row as usize));
        Group {
            name: first.map(str::to_string),
            rows,
        }
    });
    Ok(each.collect())
}

/// Which rows have one of some texts in a column, for each list of texts.
fn rows_of<const LISTS: usize>(
    frame: &DataFrame,
    column: &str,
    lists: [&[&str]; LISTS],
) -> PolarsResult<[Vec<bool>; LISTS]> {
    let mut found = lists.map(|_| vec![false; frame.height()]);
    for group in groups(frame, column)? {
        let name = group.name.as_deref().unwrap_or_default();
        for (list, found) in lists.iter().zip(&mut found) {
            if list.contains(&name) {
                group
                    .rows
                    .iter()
                    .for_each(|row| found[*row as usize] = true);
            }
        }
    }
    Ok(found)
}

fn numbers(frame: &DataFrame, column: &str) -> PolarsResult<Vec<i64>> {
    let column = frame.column(column)?.i64()?;
    Ok(column.iter().map(|number| number.unwrap_or(0)).collect())
}

/// NaN where the ledger has none.
fn weights(frame: &DataFrame, column: &str) -> PolarsResult<Vec<f64>> {
    let column = frame.column(column)?.f64()?;
    Ok(column.iter().map(|kg| kg.unwrap_or(f64::NAN)).collect())
}
