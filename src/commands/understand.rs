//! `dockheft understand`: how a file was read, and keeping that as the supplier's layout.

use super::{Status, settings};
use crate::audit::{self, Audit, Request};
use crate::cli::UnderstandArgs;
use crate::error::Error;
use crate::read;
use crate::report::as_understood;
use crate::report::record::{Record, records};
use crate::site::{Saved, Site};
use crate::understand::{SheetReading, supplier_layout};
use chrono::NaiveDate;
use std::io::{self, Write};
use std::path::{Path, PathBuf};

/// Runs the command.
///
/// # Errors
/// When the file cannot be read, or the settings cannot be used or written.
pub fn run(args: &UnderstandArgs) -> Result<Status, Error> {
    let mut site = site_of(args)?;
    site.show_in(args.units.map(Into::into));
    let audit = audit::run(Request {
        files: vec![read::file(&args.input)?],
        refused: Vec::new(),
        // Reading needs neither trucks nor a day.
        fleet: None,
        site,
        date: NaiveDate::default(),
        supplier: args.supplier.clone(),
        delivery: None,
        history: Default::default(),
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
        let path = args.site.as_deref().unwrap_or(Path::new("site.toml"));
        let message = save(path, name, &audit)?;
        // A closed pipe is no fault: the layout is kept.
        let _ = if args.json {
            writeln!(io::stderr(), "{message}")
        } else {
            writeln!(io::stdout(), "\n{message}")
        };
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
fn site_of(args: &UnderstandArgs) -> Result<Site, Error> {
    match &args.site {
        Some(path) if args.save.is_some() && !path.exists() => Ok(Site::default()),
        named => settings::find(named.as_deref()).map(|(site, _)| site),
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

/// Keeps how the file was read as a supplier's layout in the site file; what was done, in words.
fn save(path: &Path, name: &str, audit: &Audit) -> Result<String, Error> {
    let refused = |found: &str, remedy: &str| Error::Site {
        file: path.to_path_buf(),
        found: found.to_string(),
        remedy: remedy.to_string(),
    };
    let name = name.trim();
    if name.is_empty() {
        return Err(refused(
            "a layout needs the supplier's name",
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
            "a layout cannot be learnt from a file in which no table was recognised",
            "nothing was saved; write the layout by hand",
        )
    })?;
    let done = match layout.save(path)? {
        Saved::Added => "kept",
        Saved::Already => "was there already",
    };
    let columns = layout.layout().columns.len();
    let known_by = match layout.headings.len() {
        0 => "used when the list or --supplier names the supplier".to_string(),
        many => format!("known by {many} headings"),
    };
    Ok(format!(
        "Layout for \"{name}\" {done} in {}: {columns} columns, {known_by}.\n\
         Look through it: it goes before what a heading says, but for a unit that the heading states.",
        path.display()
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::audit::Delivery;
    use crate::site;
    use crate::understand::How;

    /// Weights without a unit, two lines: nothing settles it. Plates of 500 x 1000 x 10 and 20 mm.
    const LIST: &str = "Goods,Pcs,Length mm,Width mm,Thickness mm,Grade,Weight\n\
        Base plate,2,1000,500,10,S235,86.5\nBase plate,3,1000,500,20,S235,173\n";

    fn audited(list: &str, site: Site) -> Audit {
        audit::run(Request {
            files: vec![read::bytes("list.csv", list.as_bytes()).expect("read")],
            refused: Vec::new(),
            fleet: None,
            site,
            date: NaiveDate::default(),
            supplier: None,
            delivery: None,
            history: Default::default(),
            progress: &|_| {},
        })
    }

    fn weight(delivery: &Delivery) -> (Option<&str>, How) {
        let column = delivery.reading.columns.last().expect("columns");
        (column.unit.as_deref(), column.how)
    }

    #[test]
    fn a_saved_layout_settles_what_was_open() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("site.toml");
        std::fs::write(&path, "# Kestrel Junction\nname = \"yard\"\n").expect("written");
        let before = audited(LIST, Site::default());
        assert_eq!(weight(&before.deliveries[0]), (Some("kg"), How::Assumed));
        let said = save(&path, "Bramble Steelworks", &before).expect("saved");
        assert!(
            said.contains("kept") && said.contains("7 columns"),
            "{said}"
        );

        // What was assumed was not kept, so nothing is settled yet.
        let (site, _) = site::find(Some(&path)).expect("a site file");
        let after = audited(LIST, site);
        assert_eq!(weight(&after.deliveries[0]), (Some("kg"), How::Assumed));

        // The supplier has said: pounds, of a piece.
        let text = std::fs::read_to_string(&path).expect("read");
        assert!(
            text.starts_with("# Kestrel Junction\nname = \"yard\"\n"),
            "{text}"
        );
        let open = "\"Weight\" = { field = \"declared weight\" }";
        let settled = "\"Weight\" = { field = \"declared weight\", unit = \"lb\", of = \"piece\" }";
        assert!(text.contains(open), "{text}");
        std::fs::write(&path, text.replace(open, settled)).expect("written");
        let (site, _) = site::find(Some(&path)).expect("a site file");
        let after = audited(LIST, site);
        let delivery = &after.deliveries[0];
        assert_eq!(weight(delivery), (Some("lb"), How::Site));
        assert_eq!(
            delivery.reading.supplier.as_deref(),
            Some("Bramble Steelworks")
        );
        assert_eq!(delivery.reading.supplier_from, "layout");
        let declared = delivery.lines[0].declared.as_ref().expect("declared");
        // 2 x 86.5 lb, 0.45359237 kg each (NIST Handbook 44, Appendix C).
        assert!((declared.mass.kg() - 173.0 * 0.453_592_37).abs() < 1e-9);
        assert_eq!(
            declared.heaviest, declared.mass,
            "nothing heavier is possible any more"
        );

        let again = save(&path, "Bramble Steelworks", &after);
        assert!(again.expect("unchanged").contains("was there already"));
        assert!(save(&path, "Bramble Steelworks", &before).is_err());
        assert!(save(&path, " ", &before).is_err());
    }

    #[test]
    fn a_file_without_a_table_teaches_nothing() {
        let folder = tempfile::tempdir().expect("a folder");
        let path = folder.path().join("site.toml");
        let audit = audited("a note\nanother\n", Site::default());
        assert!(save(&path, "Bramble Steelworks", &audit).is_err());
        assert!(!path.exists());
    }
}
