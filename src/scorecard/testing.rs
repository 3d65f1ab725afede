//! Frames as the ledger gives them, for the tests of counts and reports.

use super::{Asked, Scorecard};
use chrono::NaiveDate;
use polars::prelude::{Column, DataFrame, NamedFrom, Series};

/// One load on record. What is not set is as on an ordinary line that fits.
#[derive(Clone, Debug)]
pub(crate) struct Row {
    pub(crate) load: i64,
    pub(crate) delivery: i64,
    pub(crate) day: NaiveDate,
    pub(crate) supplier: Option<&'static str>,
    pub(crate) goods: Option<&'static str>,
    pub(crate) material: Option<&'static str>,
    pub(crate) evidence: Option<&'static str>,
    pub(crate) verdict: &'static str,
    pub(crate) severity: &'static str,
    pub(crate) cause: Option<&'static str>,
    pub(crate) declared_kg: Option<f64>,
    pub(crate) expected_kg: Option<f64>,
    pub(crate) overload_kg: Option<f64>,
}

impl Row {
    /// A line of 100 kg that is declared at 100 kg.
    pub(crate) fn new(load: i64, delivery: i64, day: NaiveDate) -> Row {
        Row {
            load,
            delivery,
            day,
            supplier: Some("Tarn Steel"),
            goods: Some("plate"),
            material: Some("carbon steel"),
            evidence: Some("shape"),
            verdict: "consistent",
            severity: "none",
            cause: None,
            declared_kg: Some(100.0),
            expected_kg: Some(100.0),
            overload_kg: Some(0.0),
        }
    }

    pub(crate) fn is_flagged(&self) -> bool {
        is_flagged(self.severity)
    }
}

fn is_flagged(severity: &str) -> bool {
    matches!(severity, "stop" | "check")
}

/// A decision on record; `load` is the load of a latest audit that it is good for, `severity` is of when it was made.
#[derive(Clone, Debug)]
pub(crate) struct Taken {
    pub(crate) load: Option<i64>,
    pub(crate) kind: &'static str,
    pub(crate) name: &'static str,
    pub(crate) supplier: Option<&'static str>,
    pub(crate) recorded: String,
    pub(crate) time: String,
    pub(crate) plan_kg: Option<f64>,
    pub(crate) severity: &'static str,
    pub(crate) stands: bool,
}

pub(crate) fn day(text: &str) -> NaiveDate {
    text.parse().expect("a day")
}

/// The frame of figures.
pub(crate) fn frame(rows: &[Row]) -> DataFrame {
    DataFrame::new_infer_height(vec![
        column(rows, "load", |row| row.load),
        column(rows, "delivery", |row| row.delivery),
        column(rows, "first", |row| row.delivery),
        column(rows, "id", |row| format!("id{}", row.load)),
        column(rows, "day", |row| row.day.to_string()),
        column(rows, "supplier", |row| row.supplier),
        column(rows, "goods", |row| row.goods),
        column(rows, "material", |row| row.material),
        column(rows, "evidence", |row| row.evidence),
        column(rows, "verdict", |row| row.verdict),
        column(rows, "severity", |row| row.severity),
        column(rows, "flagged", Row::is_flagged),
        column(rows, "cause", |row| row.cause),
        column(rows, "declared_kg", |row| row.declared_kg),
        column(rows, "expected_kg", |row| row.expected_kg),
        column(rows, "overload_kg", |row| row.overload_kg),
    ])
    .expect("columns of one length")
}

/// The frame of decisions.
pub(crate) fn decisions(taken: &[Taken]) -> DataFrame {
    DataFrame::new_infer_height(vec![
        Column::new(
            "number".into(),
            (0..).take(taken.len()).collect::<Vec<i64>>(),
        ),
        column(taken, "id", |one| {
            one.load
                .map_or("gone".to_string(), |load| format!("id{load}"))
        }),
        column(taken, "day", |one| one.recorded[..10].to_string()),
        column(taken, "supplier", |one| one.supplier),
        column(taken, "kind", |one| one.kind),
        column(taken, "name", |one| one.name),
        column(taken, "recorded", |one| one.recorded.clone()),
        column(taken, "time", |one| one.time.clone()),
        column(taken, "plan_kg", |one| one.plan_kg),
        column(taken, "before_kg", |_| Some(100.0)),
        column(taken, "stands_for", |one| one.load),
        column(taken, "flagged", |one| is_flagged(one.severity)),
        column(taken, "stop", |one| one.severity == "stop"),
        column(taken, "stands", |one| one.stands),
    ])
    .expect("columns of one length")
}

/// The scorecard of rows and decisions, on a day.
pub(crate) fn card(rows: &[Row], taken: &[Taken], today: &str) -> Scorecard {
    Scorecard::of(
        &frame(rows),
        &decisions(taken),
        Asked::default(),
        day(today),
    )
    .expect("all columns")
}

fn column<R, T>(of: &[R], name: &str, figure: impl Fn(&R) -> T) -> Column
where
    Series: NamedFrom<Vec<T>, [T]>,
{
    Column::new(name.into(), of.iter().map(figure).collect::<Vec<T>>())
}
