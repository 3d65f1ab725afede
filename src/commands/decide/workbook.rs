//! `dockheft decide WORKBOOK`: the decisions of a workbook into the ledger, and a fresh workbook that plans with them.

use super::super::job::{Done, Ground, Job};
use super::super::{Status, audit, ledger, output};
use super::sent::{self, Reason, Sent};
use super::told;
use crate::cli::records::DecideArgs;
use crate::error::Error;
use crate::ledger::{Decided, Decision, Head, Ledger, OnceMore, Stamp};
use crate::read;
use crate::report::text::printable;
use crate::returned;
use crate::site::Units;
use std::path::{Path, PathBuf};

/// Runs the command on a workbook.
///
/// # Errors
/// When workbook, site, register or ledger cannot be used, or the fresh workbook cannot be written.
pub(super) fn run(args: &DecideArgs, workbook: &Path) -> Result<Status, Error> {
    let today = args
        .date
        .unwrap_or_else(|| chrono::Local::now().date_naive());
    let path = ledger::of(&args.place)?.path;
    // Never made by a decision: a wrong name must not begin a second ledger.
    drop(Ledger::read(&path)?);
    let mut ledger = Ledger::open(&path)?;
    let file = read::file(workbook)?;
    let returned = match returned::workbook(&file) {
        Ok(returned) => returned,
        Err(faults) => return Ok(refused(faults.into_iter())),
    };
    let audited = match sent::audit(&ledger, &path, &file, &returned)? {
        Ok(audited) => audited,
        Err(why) => return Ok(refused([why].into_iter())),
    };
    // Whatever the fresh workbook needs is looked at before anything is recorded.
    let units = args.units.map_or(audited.units, Units::from);
    let ground = Ground::gather(
        args.place.site.as_deref(),
        args.fleet.as_deref(),
        Some(units),
    )?;
    let out = args.out.clone();
    let out = out.unwrap_or_else(|| Job::free_name(today));
    let mut needed: Vec<&Path> = ground.needed().collect();
    needed.extend([workbook, path.as_path()]);
    output::check(&out, &needed)?;
    let more = match ledger.once_more(&audited)? {
        Ok(more) => more,
        Err(why) => return Ok(refused([why].into_iter())),
    };
    let sent = sent::read(&ledger, &audited, &returned, today)?;
    let (taken, head) = match record(&mut ledger, &sent)? {
        Ok(taken) => taken,
        Err(reasons) => {
            let status = refused(reasons.into_iter().map(|(_, reason)| reason));
            eprint!("{}", told::altered(&sent.altered));
            return Ok(status);
        }
    };
    drop(ledger);
    let mut text = told::head(&file.name, &taken);
    if taken.iter().all(|decided| decided.again.is_some()) && args.out.is_none() {
        text.push_str(&told::nothing_new(&taken, &sent.altered));
        text.push_str(&told::ledger(&path, &head));
        output::print(&text)?;
        return Ok(Status::Clear);
    }
    let job = job(ground, more, today, &path, &out);
    let replaced = job.left_out.clone();
    let Done { audit, recorded } = job.done(&|_| {}).inspect_err(|_| {
        eprintln!("dockheft: the decisions are recorded; only the fresh workbook is missing");
    })?;
    text.push_str(&told::changes(&taken, &audit));
    text.push_str(&told::altered(&sent.altered));
    text.push_str(&told::fresh(&audit, &out, &replaced));
    let status = audit::status_of(&audit);
    match &recorded {
        Some(Ok((path, head))) => text.push_str(&told::ledger(path, head)),
        _ => text.push_str(&told::ledger(&path, &head)),
    }
    output::print(&text)?;
    Ok(match recorded {
        Some(Err(error)) => {
            eprintln!("dockheft: {}", printable(&error.to_string()));
            status.max(Status::of(&error))
        }
        _ => status,
    })
}

/// What was recorded, with the ledger's head after it; or every reason against it.
type Taken = Result<(Vec<Decided>, Head), Vec<Reason>>;

/// Records what a workbook decides, all or nothing; or every reason against it, in the order of its rows.
fn record(ledger: &mut Ledger, sent: &Sent) -> Result<Taken, Error> {
    let decisions: Vec<Decision> = sent
        .decisions
        .iter()
        .map(|(_, decision)| decision.clone())
        .collect();
    let record = sent.against.is_empty();
    let (answers, head) = ledger.decide_each(&decisions, &Stamp::now(), record)?;
    let (mut taken, mut against) = (Vec::new(), sent.against.clone());
    for ((at, decision), answer) in sent.decisions.iter().zip(answers) {
        match answer {
            Ok(decided) => taken.push(decided),
            Err(reason) => against.push((
                *at,
                format!("{}: line {}: {reason}", decision.origin, decision.load),
            )),
        }
    }
    if against.is_empty() {
        return Ok(Ok((taken, head)));
    }
    against.sort_by_key(|(at, _)| *at);
    Ok(Err(against))
}

fn job(ground: Ground, more: OnceMore, date: chrono::NaiveDate, ledger: &Path, out: &Path) -> Job {
    Job {
        ground,
        files: more.files,
        refused: more.refused,
        left_out: more.replaced,
        // The ledger has their bytes.
        kept: Vec::new(),
        date,
        supplier: more.supplier,
        delivery: more.delivery,
        ledger: Some(ledger.to_path_buf()),
        out: PathBuf::from(out),
    }
}

/// Says every reason, each on a line of its own.
fn refused(reasons: impl Iterator<Item = String>) -> Status {
    eprintln!("dockheft: nothing was decided, and nothing recorded:");
    for reason in reasons {
        eprintln!("  - {}", printable(&reason));
    }
    Status::NotDone
}
