//! `dockheft fleet`: the register checked and shown as understood.

use super::{Status, ledger, output, register, settings};
use crate::cli::FleetArgs;
use crate::error::Error;
use crate::fleet::Fleet;
use crate::report::{fleet_record, fleet_shown, workbook};
use std::path::{Path, PathBuf};

/// Runs the command: status 1 where the register holds a fault, 3 where no truck is sound.
///
/// # Errors
/// When settings or register cannot be used at all, or a report cannot be written.
pub fn run(args: &FleetArgs) -> Result<Status, Error> {
    let date = args
        .date
        .unwrap_or_else(|| chrono::Local::now().date_naive());
    let (mut site, site_file) = settings::find(args.site.as_deref())?;
    site.show_in(args.units.map(Into::into));
    let Some(path) = register::path(args.register.as_deref(), &site, site_file.as_deref()) else {
        eprintln!(
            "dockheft: no fleet register is named; give its file, or name it in the site file (fleet = \"fleet.xlsx\")"
        );
        return Ok(Status::WrongUsage);
    };
    if let Some(out) = &args.out {
        let ledger = ledger::path(None, &site, site_file.as_deref());
        let kept: Vec<&Path> = [Some(path.as_path()), site_file.as_deref(), Some(&ledger)]
            .into_iter()
            .flatten()
            .collect();
        output::check(out, &kept)?;
    }
    let fleet = register::understood(&register::read(&path)?, &site);
    if let Some(out) = &args.out {
        output::whole(out, |to| workbook::write_register(&fleet, date, &site, to))?;
    }
    if args.json {
        let mut records = Vec::new();
        fleet_record::write(&fleet, date, &site, &mut records).map_err(|error| Error::Report {
            file: PathBuf::from("standard output"),
            found: error.to_string(),
            remedy: "look at where the output goes".to_string(),
        })?;
        output::print(&String::from_utf8_lossy(&records))?;
    }
    if !args.quiet {
        let text = fleet_shown::text(&fleet, date, &site);
        if args.json {
            eprint!("{text}");
        } else {
            output::print(&text)?;
        }
    }
    Ok(status_of(&fleet))
}

/// What a register means for the exit status.
pub(super) fn status_of(fleet: &Fleet) -> Status {
    if fleet.trucks.iter().all(|truck| truck.faulty) {
        Status::NotDone
    } else if fleet.faults.is_empty() {
        Status::Clear
    } else {
        Status::Exceptions
    }
}
