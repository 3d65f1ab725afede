//! A replay as records: `dockheft.replay/1`, then `dockheft.changed/1` for each line that changes. Weights are kilograms.

use super::Shown;
use crate::replay::{Advice, Change, Changes, Decided, Difference, Judged, Named, Row, Truth};
use chrono::NaiveDate;
use serde::Serialize;
use std::io::{self, Write};

/// The JSON Schemas (2020-12) of these records: name and text.
pub const SCHEMAS: [(&str, &str); 2] = [
    ("dockheft.replay/1", include_str!("../schema/replay.json")),
    ("dockheft.changed/1", include_str!("../schema/changed.json")),
];

#[derive(Serialize)]
struct ReplayRecord<'a> {
    schema: &'static str,
    ledger_records: i64,
    ledger_head: &'a str,
    site_file: Option<&'a str>,
    site_sha256: Option<&'a str>,
    from: Option<NaiveDate>,
    to: Option<NaiveDate>,
    supplier: Option<&'a str>,
    audits: usize,
    not_repeated: &'a [String],
    days: &'a [NaiveDate],
    loads: usize,
    program_differs: usize,
    settings: Vec<SettingRecord<'a>>,
    register: Option<&'a str>,
    wrong_by: f64,
    recorded: Counted,
    tolerances: Vec<Counted>,
    decided: Decided,
    changes: Changes,
    planned_below_was: usize,
    planned_below: usize,
    /// None while too few lines are decided, or where the recorded settings do best.
    speaks_for: Option<f64>,
    too_few: bool,
}

#[derive(Serialize)]
struct SettingRecord<'a> {
    #[serde(flatten)]
    differs: &'a Difference,
    audits: usize,
}

#[derive(Serialize)]
struct Counted {
    tolerance: Option<f64>,
    #[serde(flatten)]
    row: Row,
    exceptions_a_day: f64,
}

#[derive(Serialize)]
struct ChangedRecord<'a> {
    schema: &'static str,
    #[serde(flatten)]
    named: &'a Named,
    what: &'a [Change],
    declared_was: Option<&'static str>,
    was: Option<&'a Judged>,
    would_be: Option<&'a Judged>,
}

/// Writes the records, one JSON object a line.
///
/// # Errors
/// What the writer says.
pub fn write(shown: &Shown<'_>, to: &mut impl Write) -> io::Result<()> {
    let replay = shown.replay;
    let (_, size, head) = &shown.ledger;
    let (from, until, supplier) = &shown.asked;
    let counted = |tolerance: Option<f64>, row: &Row| Counted {
        tolerance,
        row: *row,
        exceptions_a_day: replay.a_day(row),
    };
    let own = match &replay.own_tolerances[..] {
        [one] => Some(*one),
        _ => None,
    };
    let advice = replay.advice();
    let whole = ReplayRecord {
        schema: "dockheft.replay/1",
        ledger_records: *size,
        ledger_head: head,
        site_file: shown.site_file.as_ref().map(|(name, _)| name.as_str()),
        site_sha256: shown.site_file.as_ref().map(|(_, sha256)| sha256.as_str()),
        from: *from,
        to: *until,
        supplier: supplier.as_deref(),
        audits: replay.audits,
        not_repeated: &replay.not_repeated,
        days: &replay.days,
        loads: replay.loads,
        program_differs: replay.program_differs,
        settings: replay
            .settings
            .iter()
            .map(|(differs, audits)| SettingRecord {
                differs,
                audits: *audits,
            })
            .collect(),
        register: shown.register.as_deref(),
        wrong_by: shown.wrong_by,
        recorded: counted(own, &replay.recorded),
        tolerances: replay
            .rows
            .iter()
            .map(|(tolerance, row)| counted(Some(*tolerance), row))
            .collect(),
        decided: replay.decided,
        changes: replay.changes,
        planned_below_was: replay.planned_below.0,
        planned_below: replay.planned_below.1,
        speaks_for: match advice {
            Advice::Choose(at) => replay.rows.get(at).map(|(tolerance, _)| *tolerance),
            Advice::TooFew | Advice::Stay => None,
        },
        too_few: advice == Advice::TooFew,
    };
    line(&whole, to)?;
    for changed in &replay.changed {
        let record = ChangedRecord {
            schema: "dockheft.changed/1",
            named: &changed.named,
            what: &changed.what,
            declared_was: changed.truth.map(|truth| match truth {
                Truth::Right => "right",
                Truth::Light => "light",
                Truth::Heavy => "heavy",
            }),
            was: changed.was.as_ref(),
            would_be: changed.would_be.as_ref(),
        };
        line(&record, to)?;
    }
    Ok(())
}

fn line(record: &impl Serialize, to: &mut impl Write) -> io::Result<()> {
    serde_json::to_writer(&mut *to, record)?;
    to.write_all(b"\n")
}
