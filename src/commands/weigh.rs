//! `dockheft weigh`: one load at the dock, worked out as the one line of a list that says no more than was typed.

use super::{Status, audit::status_of, output, register, settings};
use crate::audit::{self, Asked, Audit, Line, Request};
use crate::cli::WeighArgs;
use crate::cli::typed::Typed;
use crate::error::Error;
use crate::fleet::Fleet;
use crate::hash;
use crate::read::{Cell, RawFile, Row, Sheet, Value};
use crate::report::record::{Record, records};
use crate::report::weighed::{self, Weighed};
use crate::site::{Site, Units};
use crate::understand::{Entered, described};
use crate::units::written::Decimal;
use chrono::NaiveDate;
use std::sync::Arc;

/// What stands for the file's name in records.
const NAME: &str = "typed";

/// Runs the command.
///
/// # Errors
/// When settings or register cannot be used at all, or the answer cannot be written.
pub fn run(args: &WeighArgs) -> Result<Status, Error> {
    let load = &args.load;
    let (mut site, site_file) = settings::find(args.site.as_deref())?;
    let of_text = load.us.map(|us| if us { Units::Us } else { Units::Si });
    site.units = args
        .units
        .map(Units::from)
        .or(of_text)
        .unwrap_or(site.units);
    let fleet = register::path(args.fleet.as_deref(), &site, site_file.as_deref())
        .map(|path| register::read(&path))
        .transpose()?
        .map(|raw| register::understood(&raw, &site));
    let pieces = match pieces(load, args.pieces) {
        Ok(pieces) => pieces,
        Err(why) => {
            eprintln!("dockheft: {why}");
            return Ok(Status::WrongUsage);
        }
    };
    let question = Question {
        load,
        quantity: pieces.as_deref().unwrap_or("1"),
        fleet,
        site,
    };
    let date = args
        .date
        .unwrap_or_else(|| chrono::Local::now().date_naive());
    let asked = Asked {
        entered: args.entered.map(Entered::from),
        lift_height: args.height,
        attachment: args.attachment.clone(),
    };
    let audit = question.audit(&asked, date);
    if args.json {
        output::print(&line_records(&audit))?;
    }
    if !args.quiet {
        let text = weighed::text(&Weighed {
            typed: &load.text,
            one_assumed: pieces.is_none(),
            asked: &asked,
            audit: &audit,
        });
        if args.json {
            eprint!("{text}");
        } else {
            output::print(&text)?;
        }
    }
    Ok(answered(audit))
}

/// The quantity of the line: as typed, as given by option, or said in the words; none where nothing says it.
fn pieces(load: &Typed, given: Option<u32>) -> Result<Option<String>, String> {
    let said = described::read(&load.description, Decimal::Unclear).pieces;
    let said = load
        .quantity
        .clone()
        .or(said.map(|pieces| pieces.to_string()));
    match (said, given) {
        (Some(said), Some(given)) if said != given.to_string() => Err(format!(
            "the text says {said} and --pieces says {given}: give the number once"
        )),
        (said, given) => Ok(said.or(given.map(|given| given.to_string()))),
    }
}

/// Clear only where a truck takes the load and nothing has to be settled but that no weight was declared, which is why it
/// was asked.
fn answered(mut audit: Audit) -> Status {
    for line in audit
        .deliveries
        .iter_mut()
        .flat_map(|delivery| &mut delivery.lines)
    {
        line.findings
            .retain(|finding| finding.code != "declared-missing");
    }
    let line = line(&audit);
    let lifted = line.is_some_and(|line| line.plan.truck.is_some() && line.plan.held.is_empty());
    match (line, status_of(&audit)) {
        // A text that gives no line was read all the same.
        (None, _) => Status::Exceptions,
        (_, Status::Clear) if !lifted => Status::Exceptions,
        (_, status) => status,
    }
}

/// The one line of the audit; none where the text was read as no goods.
fn line(audit: &Audit) -> Option<&Line> {
    audit
        .deliveries
        .iter()
        .flat_map(|delivery| &delivery.lines)
        .next()
}

/// One load and all that decides the answer but how it is lifted.
struct Question<'a> {
    load: &'a Typed,
    quantity: &'a str,
    fleet: Option<Fleet>,
    site: Site,
}

impl Question<'_> {
    fn audit(&self, asked: &Asked, date: NaiveDate) -> Audit {
        let request = Request {
            files: vec![list(self.load, self.quantity)],
            refused: Vec::new(),
            fleet: self.fleet.clone(),
            site: self.site.clone(),
            date,
            supplier: None,
            delivery: None,
            history: Default::default(),
            progress: &|_| {},
        };
        audit::as_asked(request, asked)
    }
}

/// A list of one line, with the cells that were typed.
fn list(load: &Typed, quantity: &str) -> RawFile {
    let cells = [
        ("Line", Some("1")),
        ("Description", Some(load.description.as_str())),
        ("Quantity", Some(quantity)),
        ("Weight", load.declared.as_deref()),
    ];
    let cells = (1..)
        .zip(cells)
        .filter_map(|(column, (heading, text))| Some((column, heading, text?)));
    let cell = |column: u32, text: &str| Cell {
        column,
        value: Value::Text(text.into()),
    };
    let (headings, line): (Vec<Cell>, Vec<Cell>) = cells
        .map(|(column, heading, text)| (cell(column, heading), cell(column, text)))
        .unzip();
    let row = |number: u32, cells: Vec<Cell>| Row {
        number,
        hidden: false,
        cells,
    };
    let name: Arc<str> = Arc::from(NAME);
    RawFile {
        name: name.clone(),
        sha256: hash::sha256(format!("{quantity}\n{}", load.text).as_bytes()),
        kind: "typed at the dock".to_string(),
        sheets: vec![Sheet {
            file: name,
            name: Arc::from(""),
            hidden: false,
            rows: vec![row(1, headings), row(2, line)],
            merged: Vec::new(),
            hidden_columns: Vec::new(),
        }],
        remarks: Vec::new(),
    }
}

/// The record of the line, as an audit writes it.
fn line_records(audit: &Audit) -> String {
    let lines = records(audit).filter(|record| matches!(record, Record::Line(_)));
    lines
        .filter_map(|record| serde_json::to_string(&record).ok())
        .map(|record| record + "\n")
        .collect()
}
