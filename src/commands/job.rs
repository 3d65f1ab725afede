//! One audit as a command runs it: settings and register gathered, the audit made, recorded in the ledger, its workbook written.

use super::{output, register, settings};
use crate::audit::{self, Audit, Call, Request};
use crate::error::Error;
use crate::fleet::Fleet;
use crate::hash;
use crate::history::History;
use crate::ledger::{Head, Kept, Ledger, Packed, Stamp};
use crate::read::RawFile;
use crate::report::workbook;
use crate::site::{Site, Units};
use chrono::NaiveDate;
use std::path::{Path, PathBuf};

/// Settings and register, with the files that they came from.
pub(super) struct Ground {
    /// Settings.
    pub(super) site: Site,
    site_file: Option<PathBuf>,
    site_sha256: Option<String>,
    register_file: Option<PathBuf>,
    register_sha256: Option<String>,
    register: Option<Packed>,
    fleet: Option<Fleet>,
}

impl Ground {
    /// What the options name, or the site. `units` are those of what people see.
    ///
    /// # Errors
    /// When settings or register cannot be used at all.
    pub(super) fn gather(
        site: Option<&Path>,
        fleet: Option<&Path>,
        units: Option<Units>,
    ) -> Result<Ground, Error> {
        let (mut site, site_file) = settings::find(site)?;
        site.show_in(units);
        let register_file = register::path(fleet, &site, site_file.as_deref());
        let raw = register_file
            .as_deref()
            .map(register::with_bytes)
            .transpose()?;
        Ok(Ground {
            site_sha256: site_file.as_deref().map(sha256_of),
            register_sha256: raw.as_ref().map(|(raw, _)| raw.sha256.clone()),
            register: raw.as_ref().map(|(_, bytes)| Packed::of(bytes)),
            fleet: raw.map(|(raw, _)| register::understood(&raw, &site)),
            site,
            site_file,
            register_file,
        })
    }

    /// The ledger's file: the one named, else the site's.
    pub(super) fn ledger(&self, named: Option<&Path>) -> PathBuf {
        super::ledger::path(named, &self.site, self.site_file.as_deref())
    }

    /// The files that no report may take the place of.
    pub(super) fn needed(&self) -> impl Iterator<Item = &Path> {
        let files = [&self.register_file, &self.site_file];
        files.into_iter().filter_map(|file| file.as_deref())
    }
}

/// An audit to be made.
pub(super) struct Job {
    /// Settings and register.
    pub(super) ground: Ground,
    /// Files as read.
    pub(super) files: Vec<RawFile>,
    /// Files that could not be read, with the reason.
    pub(super) refused: Vec<(String, String)>,
    /// What the folders of the call hold besides.
    pub(super) left_out: Vec<String>,
    /// The bytes of the files that the ledger does not have yet.
    pub(super) kept: Vec<Packed>,
    /// Day.
    pub(super) date: NaiveDate,
    /// Supplier, as given by option.
    pub(super) supplier: Option<String>,
    /// Name of the delivery, as given by option.
    pub(super) delivery: Option<String>,
    /// The ledger, where it is to be recorded.
    pub(super) ledger: Option<PathBuf>,
    /// The workbook.
    pub(super) out: PathBuf,
}

/// An audit that was made.
pub(super) struct Done {
    /// The audit.
    pub(super) audit: Audit,
    /// The ledger that it stands in, or why it does not; none where no record was wanted.
    pub(super) recorded: Option<Result<(PathBuf, Head), Error>>,
}

impl Job {
    /// The name of a workbook that is not given one.
    pub(super) fn free_name(date: NaiveDate) -> PathBuf {
        output::free(Path::new(&format!("reports/exceptions-{date}.xlsx")))
    }

    /// Makes the audit, records it and writes its workbook. `progress` is told after each file.
    ///
    /// # Errors
    /// When the workbook cannot be written, or a decision was recorded while the audit ran.
    pub(super) fn done(self, progress: &dyn Fn(&str)) -> Result<Done, Error> {
        let ground = self.ground;
        let since = ground.site.weighings_since(self.date);
        let (history, unknown) = match history(self.ledger.as_deref(), &self.files, since) {
            Ok(history) => (history, None),
            Err(error) => (History::default(), Some(error)),
        };
        let known_to = history.newest_decision;
        let mut audit = audit::run(Request {
            files: self.files,
            refused: self.refused,
            fleet: ground.fleet,
            site: ground.site,
            date: self.date,
            supplier: self.supplier.clone(),
            delivery: self.delivery.clone(),
            history,
            progress,
        });
        let site_file = ground.site_file.as_deref();
        audit.call = Call {
            register_sha256: ground.register_sha256,
            site_file: site_file
                .and_then(Path::file_name)
                .map(|name| name.to_string_lossy().into_owned())
                .zip(ground.site_sha256),
            left_out: self.left_out,
            ledger: None,
        };
        let kept = Kept {
            files: self.kept,
            site: site_file
                .and_then(|path| std::fs::read(path).ok())
                .map(|bytes| Packed::of(&bytes)),
            register: ground.register,
            supplier: self.supplier,
            delivery: self.delivery,
            known_to,
        };
        // The dock needs its workbook even where the ledger fails; that it stands in no ledger is said there. An
        // audit that could not ask what the ledger knows is not recorded as if that were nothing.
        let recorded = match self.ledger.map(|file| {
            if let Some(error) = unknown {
                return Err(error);
            }
            let mut ledger = Ledger::open(&file)?;
            ledger
                .append(&audit, &kept, &Stamp::now())
                .map(|head| (file, head))
        }) {
            // Nor is a plan handed out that misses a decision: the goods may be refused, or heavier.
            Some(Err(error @ Error::Overtaken { .. })) => return Err(error),
            recorded => recorded,
        };
        if let Some(Ok((_, head))) = &recorded {
            audit.call.ledger = Some((head.size, head.digits()));
        }
        output::whole(&self.out, |to| {
            workbook::write(&audit, &crate::tables::sources(), to)
        })?;
        Ok(Done { audit, recorded })
    }
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

/// 64 hexadecimal digits, or that the file is gone since it was read.
fn sha256_of(path: &Path) -> String {
    std::fs::read(path).map_or("not known".to_string(), |bytes| hash::sha256(&bytes))
}
