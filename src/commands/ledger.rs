//! `dockheft ledger`: proof, copies, export; and where the ledger of a site is.

use super::{Status, output, register};
use crate::cli::records::{BackupArgs, CheckArgs, ExportArgs, LedgerArgs, LedgerCommand, Place};
use crate::error::Error;
use crate::ledger::{Again, Checked, Found, Ledger, NAME};
use crate::report::text::printable;
use crate::site::{self, Site};
use std::path::{Path, PathBuf};

/// Differences that are told one by one.
const MOST_TOLD: usize = 50;

/// Runs the command.
///
/// # Errors
/// When the ledger cannot be read, or the answer cannot be written.
pub fn run(args: &LedgerArgs) -> Result<Status, Error> {
    match &args.what {
        LedgerCommand::Check(args) => check(args),
        LedgerCommand::Backup(args) => backup(args),
        LedgerCommand::Export(args) => export(args),
    }
}

/// The ledger's file: the one named, else the site's (relative to the site file), else [`NAME`] beside the site file or,
/// without one, in this folder.
pub(super) fn path(named: Option<&Path>, site: &Site, site_file: Option<&Path>) -> PathBuf {
    let of_site = || {
        let folder = site_file.and_then(Path::parent).unwrap_or(Path::new(""));
        folder.join(site.ledger.as_deref().unwrap_or(NAME))
    };
    named.map_or_else(of_site, Path::to_path_buf)
}

/// The site's settings and the ledger of a call.
pub(super) struct Placed {
    /// Settings.
    pub(super) site: Site,
    /// The ledger's file.
    pub(super) path: PathBuf,
    site_file: Option<PathBuf>,
    register: Option<PathBuf>,
}

impl Placed {
    /// The files that no report may take the place of.
    pub(super) fn needed(&self) -> Vec<&Path> {
        let site = [&self.site_file, &self.register];
        let site = site.into_iter().filter_map(|file| file.as_deref());
        site.chain([self.path.as_path()]).collect()
    }
}

/// The site's settings and the ledger of a call.
pub(super) fn of(place: &Place) -> Result<Placed, Error> {
    let (site, site_file) = site::find(place.site.as_deref())?;
    Ok(Placed {
        path: path(place.ledger.as_deref(), &site, site_file.as_deref()),
        register: register::path(None, &site, site_file.as_deref()),
        site,
        site_file,
    })
}

fn check(args: &CheckArgs) -> Result<Status, Error> {
    let Placed { path, .. } = of(&args.place)?;
    let ledger = Ledger::read(&path)?;
    let checked = ledger.check(args.head.as_deref())?;
    let mut text = told(&path, &checked);
    let mut status = if checked.is_sound() {
        Status::Clear
    } else {
        Status::Ledger
    };
    if args.again {
        let again = ledger.again()?;
        if !again.differences.is_empty() || !again.not_repeated.is_empty() {
            status = status.max(Status::Exceptions);
        }
        text.push_str(&repeated(&again));
    }
    output::print(&text)?;
    Ok(status)
}

fn told(path: &Path, checked: &Checked) -> String {
    let [audits, loads, decisions] = checked.counts;
    let mut text = format!(
        "Ledger {}: {}\n  audits {audits}, lines and packages {loads}, decisions {decisions}\n",
        printable(&path.display().to_string()),
        checked.head
    );
    for fault in &checked.faults {
        text.push_str(&format!("  NOT AS RECORDED: {}\n", printable(fault)));
    }
    if checked.faults.is_empty() {
        text.push_str("  Every record is as it was recorded, and none is missing between the first and the last.\n");
    }
    text.push_str(&match checked.found {
        Some(Found::At(number)) if !checked.faults.is_empty() => {
            format!("  The head that was given stands at record {number}, but see above: it proves nothing of what is named there.\n")
        }
        Some(Found::At(number)) => format!(
            "  The head that was given is that of record {number}: up to there nothing was changed, taken out or cut off. Records added since: {}.\n",
            checked.head.size - number
        ),
        Some(Found::Nowhere) => "  NOT PROVEN: the head that was given is not in this ledger. Records were cut off at the end, or changed with all after them, or it is the head of another ledger.\n".to_string(),
        None => "  Not known from here: whether records were cut off at the end, or all was written anew. Give --head with the head that a workbook or print-out carries.\n".to_string(),
    });
    text
}

fn repeated(again: &Again) -> String {
    let mut text = format!(
        "Repeated with Dockheft {}: {} audits, {} records the same bit for bit, {} otherwise\n",
        env!("CARGO_PKG_VERSION"),
        again.audits,
        again.same,
        again.differences.len()
    );
    for difference in again.differences.iter().take(MOST_TOLD) {
        text.push_str(&format!(
            "  record {} (Dockheft {}): {}\n",
            difference.record,
            difference.program,
            printable(&difference.what)
        ));
    }
    if again.differences.len() > MOST_TOLD {
        let more = again.differences.len() - MOST_TOLD;
        text.push_str(&format!("  and {more} more\n"));
    }
    for why in &again.not_repeated {
        text.push_str(&format!("  NOT REPEATED: {}\n", printable(why)));
    }
    text
}

fn backup(args: &BackupArgs) -> Result<Status, Error> {
    let placed = of(&args.place)?;
    output::check(&args.to, &placed.needed())?;
    let checked = Ledger::read(&placed.path)?.backup(&args.to)?;
    output::print(&format!(
        "Copy {}, checked: {}\n",
        printable(&args.to.display().to_string()),
        checked.head
    ))?;
    Ok(Status::Clear)
}

#[cfg(feature = "export")]
fn export(args: &ExportArgs) -> Result<Status, Error> {
    let placed = of(&args.place)?;
    output::check(&args.to, &placed.needed())?;
    let path = &placed.path;
    let exported = Ledger::read(path)?.export(&args.to)?;
    let [loads, findings, decisions] =
        ["loads", "findings", "decisions"].map(|table| exported.rows(table));
    output::print(&format!(
        "Export {}: lines and packages {loads}, findings {findings}, decisions {decisions}, files {}\n  \
         of the ledger {} with {} records, head {}\n  \
         schema.md says what the columns are, manifest.json has rows, sums and SHA-256 of every file\n",
        printable(&args.to.display().to_string()),
        exported.files.len(),
        printable(&path.display().to_string()),
        exported.records,
        exported.head
    ))?;
    Ok(Status::Clear)
}

#[cfg(not(feature = "export"))]
fn export(args: &ExportArgs) -> Result<Status, Error> {
    Err(Error::Report {
        file: args.to.clone(),
        found: "this Dockheft was built without Parquet".to_string(),
        remedy: "build it with its feature \"export\": \"cargo install --path .\" without --no-default-features".to_string(),
    })
}
