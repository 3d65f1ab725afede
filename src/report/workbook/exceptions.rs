//! Exceptions: what somebody has to decide, worst first, with the columns for the decision; at the end what is decided.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::decisions::{self, Mark};
use super::table::{Column, column};
use crate::audit::Audit;
use crate::judge::{Finding, Severity};
use crate::report::loads::{Load, Standing, View, worst_first};
use crate::report::words;
use crate::site::Units;
use crate::units::show;
use rust_xlsxwriter::XlsxError;
use std::borrow::Cow;

/// Name of the sheet.
pub const SHEET: &str = "Exceptions";
/// Columns before the decision.
const BEFORE_DECISION: u16 = 19;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit, views: &[View<'_>]) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = book.table(SHEET, columns(units), Paper::Large, Keep::Rows)?;
    for rule in decisions::rules(BEFORE_DECISION, audit.date, units)? {
        table.rule(rule);
    }
    let headings = headings(units);
    each_row(views, units, &mut |id, mut cells| {
        if let Some((id, line)) = id {
            let mark = Mark::of(&audit.id, &id, &filled(&headings, &cells));
            cells.extend(decisions::entries());
            cells.push(Cell::text(line));
            cells.push(Cell::Small(mark.to_string().into()));
        }
        table.row(&cells)
    })?;
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
    let (units, mut rows) = (audit.site.units, Vec::new());
    let headings = headings(units);
    let mut take = |id: Option<Known<'_>>, cells: Vec<Cell<'_>>| {
        rows.extend(id.map(|(id, _)| (id.into_owned(), filled(&headings, &cells))));
        Ok::<_, std::convert::Infallible>(())
    };
    match each_row(&views, units, &mut take) {
        Ok(()) => rows,
        Err(never) => match never {},
    }
}

/// What a row is known by, and its cell under [`decisions::LINE_HEADING`].
type Known<'a> = (Cow<'a, str>, &'a str);

/// Gives each row to `take`: what a decision on it comes back under, where it takes one, and its cells before the decision.
fn each_row<'a, E>(
    views: &'a [View<'a>],
    units: Units,
    take: &mut impl FnMut(Option<Known<'a>>, Vec<Cell<'a>>) -> Result<(), E>,
) -> Result<(), E> {
    let mut flagged: Vec<(&View<'_>, Load<'_>)> = views
        .iter()
        .flat_map(|view| {
            view.loads()
                .filter(|load| load.flagged() || load.decision().is_some())
                .map(move |load| (view, load))
        })
        .collect();
    flagged.sort_by(|(_, a), (_, b)| worst_first(*a, *b));
    let stops = flagged.partition_point(|(_, load)| load.severity() == Some(Severity::Stop));
    let (stops, checks) = flagged.split_at(stops);
    for (severity, loads) in [(Severity::Stop, stops), (Severity::Check, checks)] {
        for view in views {
            for finding in view.findings(severity) {
                let id = decisions::whole_cause(finding.code)
                    .map(|cause| decisions::whole_id(cause, view.loads().map(Load::id)));
                let id = id.map(|id| (Cow::Owned(id), decisions::WHOLE));
                take(id, delivery_row(view, finding, units))?;
            }
        }
        for (view, load) in loads {
            take(
                Some((load.id().into(), load.id())),
                load_row(view, *load, units),
            )?;
        }
    }
    Ok(())
}

fn columns(units: Units) -> Vec<Column> {
    let unit = show::mass_unit(units);
    let mut columns = vec![
        column("Delivery", 13.0),
        column("Supplier", 17.0),
        column("Row (cell)", 8.0),
        column("Item", 11.0),
        column("Description", 24.0),
        column("Urgency", 8.0),
        column("Verdict", 11.0),
        column("Declared (as written)", 11.0),
        column(format!("Declared ({unit})"), 10.0),
        column(format!("Expected low ({unit})"), 10.0),
        column(format!("Expected likely ({unit})"), 10.0),
        column(format!("Expected high ({unit})"), 10.0),
        column(format!("Difference to likely ({unit})"), 11.0),
        column("What is wrong", 44.0),
        column(format!("Planning weight of the line ({unit})"), 10.0),
        column("Lifts", 6.0),
        column("Truck", 11.0),
        column("Lift now?", 13.0),
        column("What to do next", 36.0),
    ];
    columns.extend(decisions::columns(units));
    columns
}

fn load_row<'a>(view: &View<'a>, load: Load<'a>, units: Units) -> Vec<Cell<'a>> {
    let plan = load.plan();
    let standing = view.standing(load);
    let severity = load.severity();
    let declared = load.declared().map(|declared| declared.mass);
    let line = load.estimate().map(|estimate| estimate.line);
    let difference = declared.zip(line).map(|(declared, line)| {
        show::weight_value(declared, units) - show::weight_value(line.likely, units)
    });
    vec![
        Cell::text(view.delivery.reading.delivery.as_str()),
        Cell::text(words::supplier(view.delivery, Some(load))),
        Cell::text(load.weight_place().cell()),
        Cell::text(load.item()),
        Cell::text(load.description()),
        Cell::Strong(severity.map_or("", words::severity).into()),
        Cell::text(words::verdict(load.verdict())),
        Cell::text(load.declared_text()),
        Cell::figure(declared.map(|mass| show::weight_value(mass, units))),
        Cell::figure(line.map(|line| show::low_value(line.low, units))),
        Cell::figure(line.map(|line| show::weight_value(line.likely, units))),
        Cell::figure(line.map(|line| show::high_value(line.high, units))),
        Cell::figure(difference),
        Cell::text(words::findings(load, units)),
        Cell::figure(plan.line.map(|mass| show::planning_value(mass, units))),
        Cell::count(plan.lifts as usize),
        Cell::text(
            plan.truck
                .as_ref()
                .map_or("none", |truck| truck.id.as_str()),
        ),
        standing_cell(standing, severity),
        Cell::text(words::next(load, standing, units)),
    ]
}

/// A finding on the whole delivery: told to the supplier, not decided line by line. One about the unit of a column takes one
/// decision for all its lines.
fn delivery_row<'a>(view: &View<'a>, finding: &Finding, units: Units) -> Vec<Cell<'a>> {
    let stop = finding.severity == Severity::Stop;
    let mut next = if stop {
        "Nothing of this delivery is lifted before it is settled. Ask the supplier.".to_string()
    } else {
        "Ask the supplier today.".to_string()
    };
    if decisions::whole_cause(finding.code).is_some() {
        next.push_str(" A decision in this row settles all its lines.");
    }
    let mut cells = vec![Cell::Blank; usize::from(BEFORE_DECISION)];
    let filled = [
        (0, Cell::text(view.delivery.reading.delivery.as_str())),
        (1, Cell::text(words::supplier(view.delivery, None))),
        (4, Cell::text("the whole delivery")),
        (5, Cell::Strong(words::severity(finding.severity).into())),
        (13, Cell::text(words::finding(finding, units))),
        (
            17,
            if stop {
                Cell::Strong("HELD".into())
            } else {
                Cell::Blank
            },
        ),
        (18, Cell::text(next)),
    ];
    for (at, cell) in filled {
        if let Some(place) = cells.get_mut(at) {
            *place = cell;
        }
    }
    cells
}

/// Held loads stand out by weight of print and by the word, never by colour.
pub fn standing_cell<'a>(standing: Standing, severity: Option<Severity>) -> Cell<'a> {
    let text = words::standing(standing, severity);
    match standing {
        Standing::Held => Cell::Strong(text.into()),
        Standing::MayLift => Cell::text(text),
    }
}
