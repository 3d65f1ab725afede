//! `dockheft audit`: the main job.

use super::inputs::Inputs;
use super::{Status, output, register, settings};
use crate::audit::{self, Audit, Call, Request};
use crate::cli::AuditArgs;
use crate::error::Error;
use crate::hash;
use crate::history::History;
use crate::judge::Severity;
use crate::ledger::{Head, Kept, Ledger, Packed, Stamp};
use crate::read::RawFile;
use crate::report::{ndjson, text, workbook};
use chrono::NaiveDate;
use indicatif::{ProgressBar, ProgressStyle};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

/// Runs the command.
///
/// # Errors
/// When settings or register cannot be used at all, or a report cannot be written.
pub fn run(args: &AuditArgs) -> Result<Status, Error> {
    let date = args
        .date
        .unwrap_or_else(|| chrono::Local::now().date_naive());
    let (mut site, site_file) = settings::find(args.site.as_deref())?;
    site.show_in(args.units.map(Into::into));
    let register_file = register::path(args.fleet.as_deref(), &site, site_file.as_deref());
    let mut inputs = Inputs::of(&args.inputs);
    let out = args
        .out
        .clone()
        .unwrap_or_else(|| output::free(Path::new(&format!("reports/exceptions-{date}.xlsx"))));
    let lines = args.lines.as_deref().filter(|path| *path != Path::new("-"));
    let site_sha256 = site_file.as_deref().map(sha256_of);
    let raw_register = register_file
        .as_deref()
        .map(register::with_bytes)
        .transpose()?;
    let register_sha256 = raw_register.as_ref().map(|(raw, _)| raw.sha256.clone());
    let packed_register = raw_register.as_ref().map(|(_, bytes)| Packed::of(bytes));
    let fleet = raw_register.map(|(raw, _)| register::understood(&raw, &site));
    let ledger_file = (!args.no_ledger)
        .then(|| super::ledger::path(args.ledger.as_deref(), &site, site_file.as_deref()));
    let bar = progress(inputs.files.len(), args);
    let mut files: Vec<RawFile> = Vec::with_capacity(inputs.files.len());
    for at in 0..inputs.files.len() {
        files.extend(inputs.read(at, ledger_file.is_some()));
        bar.inc(1);
    }
    let kept: Vec<&Path> = inputs
        .needed()
        .chain(register_file.as_deref())
        .chain(site_file.as_deref())
        .chain(ledger_file.as_deref())
        .collect();
    output::check(&out, &kept)?;
    if let Some(lines) = lines {
        output::check(lines, &[kept, vec![&out]].concat())?;
    }
    let since = site.weighings_since(date);
    let (history, unknown) = match history(ledger_file.as_deref(), &files, since) {
        Ok(history) => (history, None),
        Err(error) => (History::default(), Some(error)),
    };
    let mut audit = audit::run(Request {
        files,
        refused: inputs.refused,
        fleet,
        site,
        date,
        supplier: args.supplier.clone(),
        delivery: args.delivery.clone(),
        history,
        progress: &|_| bar.inc(1),
    });
    audit.call = Call {
        register_sha256,
        site_file: site_file
            .as_deref()
            .and_then(Path::file_name)
            .map(|name| name.to_string_lossy().into_owned())
            .zip(site_sha256),
        left_out: inputs.left_out,
        ledger: None,
    };
    let kept = Kept {
        files: inputs.kept,
        site: site_file
            .as_deref()
            .and_then(|path| std::fs::read(path).ok())
            .map(|bytes| Packed::of(&bytes)),
        register: packed_register,
        supplier: args.supplier.clone(),
        delivery: args.delivery.clone(),
    };
    // The dock needs its workbook even where the ledger fails; that it stands in no ledger is said there. An
    // audit that could not ask what the ledger knows is not recorded as if that were nothing.
    let recorded = ledger_file.map(|file| {
        if let Some(error) = unknown {
            return Err(error);
        }
        let mut ledger = Ledger::open(&file)?;
        ledger
            .append(&audit, &kept, &Stamp::now())
            .map(|head| (file, head))
    });
    if let Some(Ok((_, head))) = &recorded {
        audit.call.ledger = Some((head.size, head.digits()));
    }
    bar.finish_and_clear();
    output::whole(&out, |to| {
        workbook::write(&audit, &crate::tables::sources(), to)
    })?;
    records(args, lines, &audit)?;
    if args.quiet {
        // The summary, which names them, is not printed.
        for (_, reason) in &audit.refused {
            eprintln!("dockheft: {}", text::printable(reason));
        }
    } else {
        summary(
            args,
            &audit,
            &out,
            recorded.as_ref().and_then(|done| done.as_ref().ok()),
        )?;
    }
    Ok(match recorded {
        Some(Err(error)) => {
            eprintln!("dockheft: {}", text::printable(&error.to_string()));
            status_of(&audit).max(Status::of(&error))
        }
        _ => status_of(&audit),
    })
}

/// What the ledger knows of the files: earlier decisions on them, and weighings of all goods from a day on.
fn history(
    ledger: Option<&Path>,
    files: &[RawFile],
    since: Option<NaiveDate>,
) -> Result<History, Error> {
    let ledger = match ledger {
        Some(file) => Ledger::read_if_any(file)?,
        None => None,
    };
    let lists = files.iter().map(|file| file.sha256.as_str()).collect();
    ledger.map_or(Ok(History::default()), |ledger| {
        ledger.history(&lists, since)
    })
}

/// What the audit's result means for the exit status.
pub(super) fn status_of(audit: &Audit) -> Status {
    let loads = |severity: Severity| {
        audit.deliveries.iter().any(|delivery| {
            let lines = delivery.lines.iter().flat_map(|line| &line.findings);
            let packages = delivery
                .packages
                .iter()
                .flat_map(|package| &package.findings);
            lines
                .chain(packages)
                .chain(&delivery.findings)
                .any(|finding| finding.severity >= severity)
        })
    };
    let without_table = (0..audit.sources.len()).any(|source| {
        let mut sheets = audit.deliveries_of(source).peekable();
        sheets.peek().is_none() || sheets.all(|delivery| delivery.reading.columns.is_empty())
    });
    let register = audit
        .fleet
        .as_ref()
        .map_or(Status::Clear, super::fleet::status_of);
    let files = if !audit.refused.is_empty() || without_table {
        Status::NotDone
    } else if loads(Severity::Check) {
        Status::Exceptions
    } else {
        Status::Clear
    };
    files.max(register)
}

/// 64 hexadecimal digits, or that the file is gone since it was read.
fn sha256_of(path: &Path) -> String {
    std::fs::read(path).map_or("not known".to_string(), |bytes| hash::sha256(&bytes))
}

fn progress(files: usize, args: &AuditArgs) -> ProgressBar {
    if args.quiet || files < 2 || !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let style = ProgressStyle::with_template("reading and auditing {bar:30} {percent} %")
        .unwrap_or_else(|_| ProgressStyle::default_bar());
    ProgressBar::new(2 * files as u64).with_style(style)
}

/// Records to a file, to standard output, or both.
fn records(args: &AuditArgs, lines: Option<&Path>, audit: &Audit) -> Result<(), Error> {
    let stdout = args.json || args.lines.as_deref() == Some(Path::new("-"));
    if let Some(path) = lines {
        output::whole(path, |to| ndjson::write(audit, to))?;
    }
    if stdout {
        let written = ndjson::write(audit, std::io::stdout().lock());
        // A reader that has seen enough closes the pipe: no fault of the audit.
        if let Err(error) = written.as_ref()
            && error.kind() != std::io::ErrorKind::BrokenPipe
        {
            return Err(Error::Report {
                file: PathBuf::from("standard output"),
                found: error.to_string(),
                remedy: "give --lines a file name instead".to_string(),
            });
        }
    }
    Ok(())
}

/// The text for people: on standard error when standard output carries records.
fn summary(
    args: &AuditArgs,
    audit: &Audit,
    out: &Path,
    recorded: Option<&(PathBuf, Head)>,
) -> Result<(), Error> {
    let mut text = text::summary(audit, Some(out)).map_err(|error| Error::Report {
        file: out.to_path_buf(),
        found: error.to_string(),
        remedy: "the workbook is whole; read it instead".to_string(),
    })?;
    if let Some((file, head)) = recorded {
        let file = file.display().to_string();
        text.push_str(&format!("\nLedger {}: {head}\n", text::printable(&file)));
    }
    let taken = args.json || args.lines.as_deref() == Some(Path::new("-"));
    // A closed pipe is no fault of the audit.
    let _ = if taken {
        writeln!(std::io::stderr(), "{text}")
    } else {
        writeln!(std::io::stdout(), "{text}")
    };
    Ok(())
}
