//! Exceptions: what somebody has to decide, worst first, with the columns for the decision; at the end what is decided.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::table::{Column, Rule, column};
use crate::audit::Audit;
use crate::judge::{Finding, Severity};
use crate::report::loads::{Load, Standing, View, worst_first};
use crate::report::words;
use crate::site::Units;
use crate::units::show;
use rust_xlsxwriter::{DataValidation, DataValidationErrorStyle, DataValidationRule, XlsxError};

/// Name of the sheet.
pub const SHEET: &str = "Exceptions";
/// What may be decided.
pub const DECISIONS: [&str; 5] = [
    "accept declared",
    "use estimate",
    "weighed",
    "supplier corrected",
    "refused",
];
/// Heading of the column that a decision comes back under.
pub const LINE_HEADING: &str = "Line";

/// Headings of the decision columns: Decision, Weight (of the whole line), Evidence, Decided by, Date, Remark.
pub fn decision_headings(units: Units) -> [String; 6] {
    let weight = format!("Weight ({})", show::mass_unit(units));
    [
        "Decision",
        &weight,
        "Evidence",
        "Decided by",
        "Date",
        "Remark",
    ]
    .map(str::to_string)
}

/// Columns before the decision.
const BEFORE_DECISION: u16 = 19;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit, views: &[View<'_>]) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = book.table(SHEET, columns(units), Paper::Large, Keep::Rows)?;
    for rule in rules()? {
        table.rule(rule);
    }
    let whole = |severity: Severity| {
        views.iter().flat_map(move |view| {
            let findings = view
                .delivery
                .findings
                .iter()
                .filter(move |finding| finding.severity == severity);
            findings.map(move |finding| (view, finding))
        })
    };
    for (view, finding) in whole(Severity::Stop) {
        table.row(&delivery_row(view, finding, units))?;
    }
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
    for (view, load) in stops {
        table.row(&load_row(view, *load, units))?;
    }
    for (view, finding) in whole(Severity::Check) {
        table.row(&delivery_row(view, finding, units))?;
    }
    for (view, load) in checks {
        table.row(&load_row(view, *load, units))?;
    }
    if audit.deliveries.is_empty() {
        table.row(&[Cell::text("no delivery was read")])?;
    }
    table.finish()
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
    let widths = [17.0, 10.0, 13.0, 12.0, 11.0, 14.0];
    columns.extend(
        decision_headings(units)
            .into_iter()
            .zip(widths)
            .map(|(heading, width)| column(heading, width)),
    );
    columns.push(column(LINE_HEADING, 18.0));
    columns
}

fn rules() -> Result<[Rule; 2], XlsxError> {
    Ok([
        Rule {
            column: BEFORE_DECISION,
            rule: DataValidation::new()
                .allow_list_strings(&DECISIONS)?
                .set_error_title("Decision")?
                .set_error_message("Choose one of the list.")?
                .set_error_style(DataValidationErrorStyle::Stop),
        },
        Rule {
            column: BEFORE_DECISION + 1,
            rule: DataValidation::new()
                .allow_decimal_number(DataValidationRule::GreaterThan(0.0))
                .set_input_title("Weight")?
                .set_input_message("Of the whole line or package, in the unit of the heading.")?
                .set_error_title("Weight")?
                .set_error_message("A weight is a number above zero.")?
                .set_error_style(DataValidationErrorStyle::Stop),
        },
    ])
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
    let mut cells = vec![
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
    ];
    cells.extend(entries());
    cells.push(Cell::text(load.id()));
    cells
}

/// A finding on the whole delivery: told to the supplier, not decided line by line.
fn delivery_row<'a>(view: &View<'a>, finding: &Finding, units: Units) -> Vec<Cell<'a>> {
    let stop = finding.severity == Severity::Stop;
    let next = if stop {
        "Nothing of this delivery is lifted before it is settled. Ask the supplier."
    } else {
        "Ask the supplier today."
    };
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

fn entries<'a>() -> [Cell<'a>; 6] {
    [
        Cell::Entry,
        Cell::Entry,
        Cell::Entry,
        Cell::Entry,
        Cell::DateEntry,
        Cell::Entry,
    ]
}

/// Held loads stand out by weight of print and by the word, never by colour.
pub fn standing_cell<'a>(standing: Standing, severity: Option<Severity>) -> Cell<'a> {
    let text = words::standing(standing, severity);
    match standing {
        Standing::Held => Cell::Strong(text.into()),
        Standing::MayLift => Cell::text(text),
    }
}
