//! `dockheft audit`: the main job.

use super::{Status, output, register};
use crate::audit::{self, Audit, Request};
use crate::cli::AuditArgs;
use crate::error::Error;
use crate::judge::Severity;
use crate::read::{self, RawFile};
use crate::report::{ndjson, text, workbook};
use crate::site;
use indicatif::{ProgressBar, ProgressStyle};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

/// Endings that a folder's spreadsheets have.
const ENDINGS: [&str; 8] = ["xlsx", "xlsm", "xlsb", "xls", "ods", "csv", "tsv", "txt"];

/// Runs the command.
///
/// # Errors
/// When settings or register cannot be used at all, or a report cannot be written.
pub fn run(args: &AuditArgs) -> Result<Status, Error> {
    let date = args
        .date
        .unwrap_or_else(|| chrono::Local::now().date_naive());
    let (mut site, site_file) = site::find(args.site.as_deref())?;
    if let Some(units) = args.units {
        site.units = units.into();
    }
    let fleet = register::find(args.fleet.as_deref(), &site, site_file.as_deref())?;
    let (paths, mut refused) = inputs(&args.inputs);
    let bar = progress(paths.len(), args);
    let mut files: Vec<RawFile> = Vec::with_capacity(paths.len());
    for path in &paths {
        match read::file(path) {
            Ok(file) => files.push(file),
            Err(error) => refused.push((path.display().to_string(), error.to_string())),
        }
        bar.inc(1);
    }
    let audit = audit::run(Request {
        files,
        refused,
        fleet,
        site,
        date,
        supplier: args.supplier.clone(),
        delivery: args.delivery.clone(),
        progress: &|_| bar.inc(1),
    });
    bar.finish_and_clear();
    let out = args
        .out
        .clone()
        .unwrap_or_else(|| PathBuf::from(format!("reports/exceptions-{date}.xlsx")));
    output::whole(&out, |to| {
        workbook::write(&audit, &crate::tables::sources(), to)
    })?;
    records(args, &audit)?;
    if !args.quiet {
        summary(args, &audit, &out)?;
    }
    for (_, reason) in &audit.refused {
        eprintln!("dockheft: {reason}");
    }
    Ok(status_of(&audit))
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
    let without_table = audit.sources.iter().any(|source| {
        let mut sheets = audit
            .deliveries
            .iter()
            .filter(|delivery| *delivery.reading.place.file == *source.name)
            .peekable();
        sheets.peek().is_none() || sheets.all(|delivery| delivery.reading.columns.is_empty())
    });
    let sound = audit
        .fleet
        .as_ref()
        .is_none_or(|fleet| fleet.trucks.iter().any(|truck| !truck.faulty));
    let faults = audit
        .fleet
        .as_ref()
        .is_some_and(|fleet| !fleet.faults.is_empty());
    if !audit.refused.is_empty() || without_table || !sound {
        Status::NotDone
    } else if loads(Severity::Check) || faults {
        Status::Exceptions
    } else {
        Status::Clear
    }
}

/// The files to read: those named, and every spreadsheet of the folders named, in order of name.
fn inputs(named: &[PathBuf]) -> (Vec<PathBuf>, Vec<(String, String)>) {
    let (mut paths, mut refused) = (Vec::new(), Vec::new());
    for path in named {
        if !path.is_dir() {
            paths.push(path.clone());
            continue;
        }
        let mut found: Vec<PathBuf> = match std::fs::read_dir(path) {
            Ok(entries) => entries
                .flatten()
                .map(|entry| entry.path())
                .filter(|path| path.is_file() && is_spreadsheet(path))
                .collect(),
            Err(error) => {
                refused.push((
                    path.display().to_string(),
                    format!(
                        "{}: the folder cannot be read ({error}); check the name",
                        path.display()
                    ),
                ));
                continue;
            }
        };
        if found.is_empty() {
            refused.push((
                path.display().to_string(),
                format!(
                    "{}: the folder holds no spreadsheet; check the name",
                    path.display()
                ),
            ));
        }
        found.sort();
        paths.extend(found);
    }
    (paths, refused)
}

/// By ending, because a folder also holds notes and pictures; a spreadsheet program's lock files are left out.
fn is_spreadsheet(path: &Path) -> bool {
    let name = path
        .file_name()
        .map(|name| name.to_string_lossy().to_lowercase())
        .unwrap_or_default();
    let lock = name.starts_with("~$") || name.starts_with(".~lock") || name.starts_with('.');
    !lock
        && name
            .rsplit_once('.')
            .is_some_and(|(_, ending)| ENDINGS.contains(&ending))
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
fn records(args: &AuditArgs, audit: &Audit) -> Result<(), Error> {
    let stdout = args.json || args.lines.as_deref() == Some(Path::new("-"));
    if let Some(path) = args.lines.as_deref().filter(|path| *path != Path::new("-")) {
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
fn summary(args: &AuditArgs, audit: &Audit, out: &Path) -> Result<(), Error> {
    let text = text::summary(audit, Some(out)).map_err(|error| Error::Report {
        file: out.to_path_buf(),
        found: error.to_string(),
        remedy: "the workbook is whole; read it instead".to_string(),
    })?;
    let taken = args.json || args.lines.as_deref() == Some(Path::new("-"));
    // A closed pipe is no fault of the audit.
    let _ = if taken {
        writeln!(std::io::stderr(), "{text}")
    } else {
        writeln!(std::io::stdout(), "{text}")
    };
    Ok(())
}
