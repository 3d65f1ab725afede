//! `dockheft audit`: the main job.

use super::inputs::Inputs;
use super::job::{Done, Ground, Job};
use super::{Status, output};
use crate::audit::Audit;
use crate::cli::AuditArgs;
use crate::error::Error;
use crate::judge::Severity;
use crate::ledger::Head;
use crate::read::RawFile;
use crate::report::{ndjson, text};
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
    let units = args.units.map(Into::into);
    let ground = Ground::gather(args.site.as_deref(), args.fleet.as_deref(), units)?;
    let mut inputs = Inputs::of(&args.inputs);
    let out = args.out.clone();
    let out = out.unwrap_or_else(|| Job::free_name(date));
    let lines = args.lines.as_deref().filter(|path| *path != Path::new("-"));
    let site_ledger = ground.ledger(args.ledger.as_deref());
    let ledger = (!args.no_ledger).then(|| site_ledger.clone());
    let bar = progress(inputs.files.len(), args);
    let mut files: Vec<RawFile> = Vec::with_capacity(inputs.files.len());
    for at in 0..inputs.files.len() {
        files.extend(inputs.read(at, ledger.is_some()));
        bar.inc(1);
    }
    let needed: Vec<&Path> = inputs
        .needed()
        .chain(ground.needed())
        // Also where this audit is not recorded in it.
        .chain([site_ledger.as_path()])
        .collect();
    output::check(&out, &needed)?;
    if let Some(lines) = lines {
        output::check(lines, &[needed, vec![&out]].concat())?;
    }
    let job = Job {
        ground,
        files,
        refused: inputs.refused,
        left_out: inputs.left_out,
        kept: inputs.kept,
        date,
        supplier: args.supplier.clone(),
        delivery: args.delivery.clone(),
        ledger,
        out: out.clone(),
    };
    let Done { audit, recorded } = job.done(&|_| bar.inc(1))?;
    bar.finish_and_clear();
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
