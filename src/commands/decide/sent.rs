//! What a workbook that came back asks of the ledger: which audit it is of, what its rows are of, what they decide.

use crate::error::Error;
use crate::ledger::{Audited, Decision, Ledger, Seen};
use crate::read::RawFile;
use crate::report::workbook as written;
use crate::returned::{Choice, Days, Row, Workbook, altered, entry};
use chrono::{Days as Later, NaiveDate};
use std::collections::{BTreeMap, BTreeSet};
use std::path::Path;

/// A reason against a workbook, with the position of its row.
pub(super) type Reason = (usize, String);

/// What a workbook asks.
#[derive(Debug, Default)]
pub(super) struct Sent {
    /// Its decisions, each with the position of its row.
    pub(super) decisions: Vec<(usize, Decision)>,
    /// Every reason against it so far.
    pub(super) against: Vec<Reason>,
    /// What was altered in it and changes nothing.
    pub(super) altered: Vec<String>,
}

/// The audit that a workbook is of; or why it cannot be told, or not be here.
pub(super) fn audit(
    ledger: &Ledger,
    path: &Path,
    file: &RawFile,
    workbook: &Workbook,
) -> Result<Result<Audited, String>, Error> {
    let refused = |why: String| Ok(Err(format!("{}: {why}", file.name)));
    let basis = &workbook.basis;
    let mut ids: BTreeSet<&str> = workbook.rows.iter().map(|row| &*row.mark.audit).collect();
    if !basis.audit.is_empty() {
        ids.insert(&basis.audit);
    }
    let mut ids = ids.into_iter();
    let (Some(id), None) = (ids.next(), ids.next()) else {
        return refused(if workbook.rows.is_empty() {
            "it has no row to decide in; give the workbook as the audit wrote it".to_string()
        } else {
            "its rows, or its sheet Basis, are of more than one audit; send each audit's workbook by itself".to_string()
        });
    };
    let site = match basis.site.as_str() {
        "" => String::new(),
        name => format!(" of site \"{name}\""),
    };
    let here = path.display();
    let Some(audited) = ledger.audited(id)? else {
        return refused(format!(
            "its audit {id}{site} is not in the ledger {here}: it is of another site, or was not recorded; name its ledger with --site or --ledger"
        ));
    };
    if let Some((size, head)) = &basis.head
        && !ledger.had_head(*size, head)?
    {
        return refused(format!(
            "this workbook{site} carries a head that is not in the ledger {here} ({size} records, head {head}): it was written with another ledger, or records were taken out of this one; name its ledger with --site or --ledger, and see \"dockheft ledger check\""
        ));
    }
    Ok(Ok(audited))
}

/// What the rows of a workbook decide, checked as far as the workbook itself and its audit go.
pub(super) fn read(
    ledger: &Ledger,
    audited: &Audited,
    workbook: &Workbook,
    today: NaiveDate,
) -> Result<Sent, Error> {
    let mut sent = Sent::default();
    let days = Days {
        // An audit made in the evening for the next day is decided in the evening.
        from: audited.day.min(audited.recorded),
        to: today.checked_add_days(Later::new(1)).unwrap_or(today),
    };
    let mut decided: Vec<(usize, &Row, Vec<Seen>, Choice)> = Vec::new();
    let mut of_mark: BTreeMap<&str, usize> = BTreeMap::new();
    for (at, row) in workbook.rows.iter().enumerate() {
        let place = &row.places[0];
        let Some(seen) = ledger.seen(audited, &row.mark.load)? else {
            sent.against.push((at, format!(
                "{}: its mark names {}, which is no line of audit {}: the mark was altered; restore the row from the workbook as it was written",
                row.mark_place, row.mark.load, row.mark.audit
            )));
            continue;
        };
        let whole = seen.iter().any(|seen| seen.would_be.is_some());
        match entry::choice(row, days, audited.units, whole) {
            Err(reasons) => sent
                .against
                .extend(reasons.into_iter().map(|reason| (at, reason))),
            Ok(None) => {}
            Ok(Some(choice)) => match of_mark.get(&*row.mark.load) {
                None => {
                    of_mark.insert(&row.mark.load, decided.len());
                    decided.push((at, row, seen, choice));
                }
                Some(first) => {
                    let (_, before, _, other) = &decided[*first];
                    if *other != choice {
                        sent.against.push((at, format!(
                            "{place}: the same line is decided otherwise in {}; leave one of the two",
                            before.places[0].cell()
                        )));
                    }
                }
            },
        }
    }
    let alone: BTreeSet<&str> = decided
        .iter()
        .filter(|(_, _, seen, _)| seen.iter().all(|seen| seen.would_be.is_none()))
        .map(|(_, row, ..)| &*row.mark.load)
        .collect();
    for (at, row, seen, choice) in &decided {
        // What is decided on a line by itself goes before what is decided on all of its delivery.
        let seen = seen
            .iter()
            .filter(|seen| seen.would_be.is_none() || !alone.contains(&*seen.id));
        let decisions = seen.map(|seen| (*at, decision(row, seen, choice)));
        sent.decisions.extend(decisions);
    }
    find_altered(ledger, audited, workbook, &mut sent)?;
    Ok(sent)
}

fn decision(row: &Row, seen: &Seen, choice: &Choice) -> Decision {
    Decision {
        load: seen.id.clone(),
        supplier: None,
        seen: Some(seen.record),
        kind: choice.kind,
        weight: match choice.kind.brings_weight() {
            true => choice.weight.or(seen.would_be),
            false => None,
        },
        evidence: choice.evidence.clone(),
        name: choice.name.clone(),
        remark: choice.remark.clone(),
        dated: Some(choice.date),
        origin: row.places[0].to_string(),
    }
}

/// Looks for altered cells; the audit is repeated only where a row is not as its mark has it.
fn find_altered(
    ledger: &Ledger,
    audited: &Audited,
    workbook: &Workbook,
    sent: &mut Sent,
) -> Result<(), Error> {
    let headings = written::headings(audited.units);
    let rows: Vec<(usize, &Row)> = workbook
        .rows
        .iter()
        .enumerate()
        .filter(|(_, row)| !altered::is_as_written(row, &headings))
        .collect();
    if rows.is_empty() {
        return Ok(());
    }
    let repeated = ledger.repeated(audited.number)?;
    let all = repeated.as_ref().map(written::written);
    let all = all.as_ref().map(Vec::as_slice).map_err(|why| why.as_str());
    let found = altered::compare(&rows, &headings, all);
    sent.altered = found.said;
    sent.against.extend(found.against);
    Ok(())
}
