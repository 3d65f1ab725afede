//! `dockheft understand`: how a file was read, and keeping that as the supplier's layout.

use super::Status;
use crate::audit::{self, Audit, Request};
use crate::cli::UnderstandArgs;
use crate::error::Error;
use crate::read;
use crate::report::as_understood;
use crate::report::record::{Record, records};
use crate::site::{self, Saved, Site};
use crate::understand::{SheetReading, supplier_layout};
use chrono::NaiveDate;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Runs the command.
///
/// # Errors
/// When the file cannot be read, or the settings cannot be used or written.
pub fn run(args: &UnderstandArgs) -> Result<Status, Error> {
    let mut site = settings(args)?;
    if let Some(units) = args.units {
        site.units = units.into();
    }
    let audit = audit::run(Request {
        files: vec![read::file(&args.input)?],
        refused: Vec::new(),
        // Reading needs neither trucks nor a day.
        fleet: None,
        site,
        date: NaiveDate::default(),
        supplier: args.supplier.clone(),
        delivery: None,
        progress: &|_| {},
    });
    let audit = without_fleet_findings(audit);
    let told = if args.json {
        print_records(&audit)
    } else {
        io::stdout().write_all(as_understood::text(&audit).as_bytes())
    };
    // A reader that has seen enough closes the pipe: no fault of the reading.
    if let Err(error) = told
        && error.kind() != io::ErrorKind::BrokenPipe
    {
        return Err(Error::Report {
            file: PathBuf::from("standard output"),
            found: error.to_string(),
            remedy: "look at where the output goes".to_string(),
        });
    }
    if let Some(name) = &args.save {
        save(args, name, &audit)?;
    }
    Ok(if !as_understood::is_read(&audit) {
        Status::NotDone
    } else if as_understood::is_open(&audit) {
        Status::Exceptions
    } else {
        Status::Clear
    })
}

/// The site's settings; a site file that `--save` is to make need not be there yet.
fn settings(args: &UnderstandArgs) -> Result<Site, Error> {
    match &args.site {
        Some(path) if args.save.is_some() && !path.exists() => Ok(Site::default()),
        named => site::find(named.as_deref()).map(|(site, _)| site),
    }
}

/// No truck was asked for, so that none was named is no finding on the reading.
fn without_fleet_findings(mut audit: Audit) -> Audit {
    for delivery in &mut audit.deliveries {
        delivery
            .findings
            .retain(|finding| finding.code != "no-register");
    }
    audit
}

fn print_records(audit: &Audit) -> io::Result<()> {
    let mut to = io::stdout().lock();
    for record in records(audit).filter(|record| matches!(record, Record::Delivery(_))) {
        serde_json::to_writer(&mut to, &record)?;
        to.write_all(b"\n")?;
    }
    to.flush()
}

/// Keeps how the file was read as a supplier's layout in the site file.
fn save(args: &UnderstandArgs, name: &str, audit: &Audit) -> Result<(), Error> {
    let path = args.site.as_deref().unwrap_or(Path::new("site.toml"));
    let refused = |found: &str, remedy: &str| Error::Site {
        file: path.to_path_buf(),
        found: found.to_string(),
        remedy: remedy.to_string(),
    };
    let name = name.trim();
    if name.is_empty() {
        return Err(refused(
            "the layout needs the supplier's name",
            "nothing was saved; give it with --save NAME",
        ));
    }
    let readings: Vec<&SheetReading> = audit
        .deliveries
        .iter()
        .map(|delivery| &delivery.reading)
        .collect();
    let layout = supplier_layout::of_file(&readings, name).ok_or_else(|| {
        refused(
            "no table was recognised in the file",
            "nothing was saved; write the layout by hand",
        )
    })?;
    let done = match layout.save(path)? {
        Saved::Added => "kept",
        Saved::Already => "was there already",
    };
    let message = format!(
        "Layout for \"{name}\" {done} in {}: {} columns, known by {} headings. Look through it: what it says goes before what the file says.",
        path.display(),
        layout.layout().columns.len(),
        layout.headings.len()
    );
    // A closed pipe is no fault: the layout is kept.
    let _ = if args.json {
        writeln!(io::stderr(), "{message}")
    } else {
        writeln!(io::stdout(), "\n{message}")
    };
    Ok(())
}
