//! Exceptions: what somebody has to decide, worst first, words before figures, with the columns for the decision; at the end what
//! is decided.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::decisions::{self, Mark};
use super::table::{Column, column};
use super::working::Places;
use crate::audit::Audit;
use crate::judge::{Finding, Severity};
use crate::plan::Plan;
use crate::report::loads::{Load, Standing, View, worst_first};
use crate::report::questions;
use crate::report::words;
use crate::site::Units;
use crate::units::{MassRange, show};
use rust_xlsxwriter::XlsxError;
use std::borrow::Cow;

/// Name of the sheet.
pub const SHEET: &str = "Exceptions";
/// Columns before the decision.
const BEFORE_DECISION: u16 = 17;
/// Columns behind it that only the program reads: id and mark.
const BEHIND_DECISION: u16 = 2;
/// Column of the cell in the supplier's file, which leads to the working.
const CELL: usize = 6;

/// What a row is about.
#[derive(Clone, Copy)]
pub enum Flag<'a> {
    /// A finding on a whole delivery.
    Whole(&'a View<'a>, &'a Finding),
    /// A line or package.
    Load(&'a View<'a>, Load<'a>, Number),
}

/// Which load it is.
#[derive(Clone, Copy)]
pub struct Number {
    delivery: usize,
    load: usize,
}

/// All that somebody has to look at, worst first: what stops before what is to be checked, whole deliveries before their lines.
pub fn flags<'a>(views: &'a [View<'a>]) -> Vec<Flag<'a>> {
    let mut loads: Vec<(&View<'_>, Load<'_>, Number)> = Vec::new();
    for (view, delivery) in views.iter().zip(0..) {
        let numbered = view
            .loads()
            .zip(0..)
            .filter(|(load, _)| load.flagged() || load.decision().is_some());
        loads.extend(numbered.map(|(one, load)| (view, one, Number { delivery, load })));
    }
    loads.sort_by(|(_, a, _), (_, b, _)| worst_first(*a, *b));
    let stops = loads.partition_point(|(_, load, _)| load.severity() == Some(Severity::Stop));
    let (stops, checks) = loads.split_at(stops);
    let mut flags = Vec::new();
    for (severity, loads) in [(Severity::Stop, stops), (Severity::Check, checks)] {
        for view in views {
            let whole = view.findings(severity);
            flags.extend(whole.map(|finding| Flag::Whole(view, finding)));
        }
        let loads = loads.iter();
        flags.extend(loads.map(|(view, load, number)| Flag::Load(view, *load, *number)));
    }
    flags
}

/// Writes the sheet.
pub fn write(
    book: &mut Book,
    audit: &Audit,
    flags: &[Flag<'_>],
    places: &Places,
) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = book.table(SHEET, columns(units), Paper::Large, Keep::Rows)?;
    table.leave_unprinted(BEHIND_DECISION);
    for rule in decisions::rules(BEFORE_DECISION, audit.date, units)? {
        table.rule(rule);
    }
    let headings = headings(units);
    for (flag, rank) in flags.iter().zip(1..) {
        let mut cells = flag.cells(rank, units);
        if let Some((id, line)) = flag.known() {
            let mark = Mark::of(&audit.id, &id, &filled(&headings, &cells));
            cells.extend(decisions::entries());
            cells.push(Cell::text(line));
            cells.push(Cell::Small(mark.to_string().into()));
        }
        if let (Flag::Load(_, load, number), Some(cell)) = (flag, cells.get_mut(CELL)) {
            let working = places.of_load(number.delivery, number.load, 0);
            *cell = Cell::Link(load.weight_place().cell().into(), working.link());
        }
        table.row(&cells)?;
    }
    if audit.deliveries.is_empty() {
        table.row(&[Cell::text("no delivery was read")])?;
    }
    table.finish()
}

/// Headings of the columns before the decision, as they are compared.
pub fn headings(units: Units) -> Vec<String> {
    let before = columns(units)
        .into_iter()
        .take(usize::from(BEFORE_DECISION));
    before
        .map(|column| decisions::plain(column.heading()))
        .collect()
}

/// The filled cells under their headings.
fn filled(headings: &[String], cells: &[Cell<'_>]) -> Vec<(String, String)> {
    let pairs = headings.iter().cloned();
    let pairs = pairs.zip(
        cells
            .iter()
            .map(|cell| decisions::text_of(cell).into_owned()),
    );
    pairs.filter(|(_, text)| !text.trim().is_empty()).collect()
}

/// A row that a decision may be written in, as the program wrote it: its id, and the text of each filled cell before the
/// decision under its heading.
pub type Written = (String, Vec<(String, String)>);

/// The rows of an audit that decisions may be written in.
pub fn written(audit: &Audit) -> Vec<Written> {
    let views: Vec<View<'_>> = audit.deliveries.iter().map(View::new).collect();
    let units = audit.site.units;
    let headings = headings(units);
    let flags = flags(&views);
    let rows = flags.iter().zip(1..).filter_map(|(flag, rank)| {
        let (id, _) = flag.known()?;
        Some((id.into_owned(), filled(&headings, &flag.cells(rank, units))))
    });
    rows.collect()
}

impl<'a> Flag<'a> {
    /// What a decision on it comes back under, where it takes one, and its cell under [`decisions::LINE_HEADING`].
    fn known(&self) -> Option<(Cow<'a, str>, &'a str)> {
        match self {
            Flag::Whole(view, finding) => {
                let cause = decisions::whole_cause(finding.code)?;
                let id = decisions::whole_id(cause, view.loads().map(Load::id));
                Some((id.into(), decisions::WHOLE))
            }
            Flag::Load(_, load, _) => Some((load.id().into(), load.id())),
        }
    }

    /// Its cells before the decision.
    fn cells(&self, rank: usize, units: Units) -> Vec<Cell<'a>> {
        match self {
            Flag::Whole(view, finding) => whole_row(view, finding, rank, units),
            Flag::Load(view, load, _) => load_row(view, *load, rank, units),
        }
    }
}

fn columns(units: Units) -> Vec<Column> {
    let unit = show::mass_unit(units);
    let mut columns = vec![
        column("Delivery", 10.0),
        column("Rank", 5.0),
        column("Urgency", 7.0),
        column("Verdict", 10.5),
        column("Item", 10.0),
        column("Description", 18.0),
        column("Row (cell), to its working", 8.0),
        column("What is wrong", 36.0),
        column("What to do next", 25.0),
        column("Lift now?", 9.0),
        column("Declared (as written)", 10.0),
        column(format!("Declared ({unit})"), 9.0),
        column(format!("Expected ({unit})"), 13.5),
        column(format!("Difference to likely ({unit})"), 9.0),
        column(format!("Planning weight of the line ({unit})"), 9.0),
        column("Truck, lifts", 10.0),
        column("Supplier", 11.0),
    ];
    columns.extend(decisions::columns(units));
    columns
}

fn load_row<'a>(view: &View<'a>, load: Load<'a>, rank: usize, units: Units) -> Vec<Cell<'a>> {
    let plan = load.plan();
    let standing = view.standing(load);
    let severity = load.severity();
    let declared = load.declared().map(|declared| declared.mass);
    let range = load.expected();
    let difference = declared.zip(range).map(|(declared, range)| {
        show::weight_value(declared, units) - show::weight_value(range.likely, units)
    });
    let expected = range.map_or("no estimate".to_string(), |one| expected(one, units));
    vec![
        Cell::name(view.delivery.reading.delivery.as_str()),
        Cell::count(rank),
        Cell::Strong(severity.map_or("", words::severity).into()),
        Cell::text(words::verdict(load.verdict())),
        Cell::name(load.item()),
        Cell::words(load.description()),
        Cell::text(load.weight_place().cell()),
        Cell::text(words::findings(load, units)),
        Cell::text(words::next(load, standing, units)),
        standing_cell(standing, severity),
        Cell::name(load.declared_text()),
        Cell::figure(declared.map(|mass| show::weight_value(mass, units))),
        Cell::text(expected),
        Cell::figure(difference),
        Cell::figure(plan.line.map(|mass| show::planning_value(mass, units))),
        Cell::text(truck_and_lifts(plan)),
        Cell::supplier(words::supplier(view.delivery, Some(load))),
    ]
}

/// `5,407 to 7,564,` and below it `likely 6,362`, rounded to the safe side.
fn expected(line: MassRange, units: Units) -> String {
    format!(
        "{} to {},\nlikely {}",
        show::figure(show::low_value(line.low, units)),
        show::figure(show::high_value(line.high, units)),
        show::figure(show::weight_value(line.likely, units)),
    )
}

fn truck_and_lifts(plan: &Plan) -> String {
    match &plan.truck {
        None => "none".to_string(),
        Some(truck) if plan.lifts == 0 => truck.id.clone(),
        Some(truck) => {
            let lifts = words::count(plan.lifts as usize, "lift");
            format!("{}, {lifts}", truck.id)
        }
    }
}

/// A finding on the whole delivery: told to the supplier, not decided line by line. One about the unit of a column takes one
/// decision for all its lines.
fn whole_row<'a>(view: &View<'a>, finding: &Finding, rank: usize, units: Units) -> Vec<Cell<'a>> {
    let stop = finding.severity == Severity::Stop;
    let mut next = if stop {
        "Nothing of this delivery is lifted before it is settled. ".to_string()
    } else {
        String::new()
    };
    next.push_str(&who_settles(finding));
    if decisions::whole_cause(finding.code).is_some() {
        next.push_str(" A decision in this row settles all its lines.");
    }
    let held = if stop {
        Cell::Strong("HELD".into())
    } else {
        Cell::Blank
    };
    let mut cells = vec![
        Cell::name(view.delivery.reading.delivery.as_str()),
        Cell::count(rank),
        Cell::Strong(words::severity(finding.severity).into()),
        Cell::Blank,
        Cell::Blank,
        Cell::text("the whole delivery"),
        Cell::Blank,
        Cell::text(words::finding(finding, units)),
        Cell::text(next),
        held,
    ];
    cells.resize(usize::from(BEFORE_DECISION) - 1, Cell::Blank);
    cells.push(Cell::supplier(words::supplier(view.delivery, None)));
    cells
}

/// A call to the supplier where he is asked; else what the message orders our own people to do.
fn who_settles(finding: &Finding) -> String {
    let order = finding.message.get(words::told(&finding.message).len()..);
    match order.map(|order| order.trim_start_matches([';', ':', ' '])) {
        _ if questions::is_asked(finding) => "Ask the supplier today.".to_string(),
        None | Some("") => "See what it is today.".to_string(),
        Some(order) => words::sentence(&words::capital(order)),
    }
}

/// Held loads stand out by weight of print and by the word, never by colour.
pub fn standing_cell<'a>(standing: Standing, severity: Option<Severity>) -> Cell<'a> {
    let text = words::standing(standing, severity);
    match standing {
        Standing::Held => Cell::Strong(text.into()),
        Standing::MayLift => Cell::text(text),
    }
}
