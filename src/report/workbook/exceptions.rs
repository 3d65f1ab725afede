//! Exceptions: what somebody has to decide, worst first, words before figures, with the columns for the decision.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::table::{Column, Rule, column};
use super::working::Places;
use crate::audit::Audit;
use crate::estimate::Estimate;
use crate::judge::{Finding, Severity};
use crate::plan::Plan;
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
const BEFORE_DECISION: u16 = 17;

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
        let numbered = view.loads().zip(0..).filter(|(load, _)| load.flagged());
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
    table.leave_unprinted(1);
    for rule in rules()? {
        table.rule(rule);
    }
    for (flag, rank) in flags.iter().zip(1..) {
        let cells = match flag {
            Flag::Whole(view, finding) => whole_row(view, finding, rank, units),
            Flag::Load(view, load, number) => {
                let working = places.of_load(number.delivery, number.load, 0).link();
                let mut cells = load_row(view, *load, rank, working, units);
                cells.extend(entries());
                cells.push(Cell::text(load.id()));
                cells
            }
        };
        table.row(&cells)?;
    }
    if audit.deliveries.is_empty() {
        table.row(&[Cell::text("no delivery was read")])?;
    }
    table.finish()
}

fn columns(units: Units) -> Vec<Column> {
    let unit = show::mass_unit(units);
    let mut columns = vec![
        column("Delivery", 12.0),
        column("Rank", 5.0),
        column("Urgency", 7.0),
        column("Verdict", 11.0),
        column("Item", 11.0),
        column("Description", 21.0),
        column("Row (cell)", 7.0),
        column("What is wrong", 40.0),
        column("What to do next", 28.0),
        column("Lift now?", 10.0),
        column("Declared (as written)", 10.0),
        column(format!("Declared ({unit})"), 9.0),
        column(format!("Expected ({unit}), to its working"), 15.0),
        column(format!("Difference to likely ({unit})"), 9.0),
        column(format!("Planning weight of the line ({unit})"), 9.0),
        column("Truck, lifts", 10.0),
        column("Supplier", 12.0),
    ];
    let widths = [15.0, 9.0, 13.0, 11.0, 10.0, 13.0];
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

fn load_row<'a>(
    view: &View<'a>,
    load: Load<'a>,
    rank: usize,
    working: String,
    units: Units,
) -> Vec<Cell<'a>> {
    let plan = load.plan();
    let standing = view.standing(load);
    let severity = load.severity();
    let declared = load.declared().map(|declared| declared.mass);
    let estimate = load.estimate();
    let difference = declared.zip(estimate).map(|(declared, estimate)| {
        show::weight_value(declared, units) - show::weight_value(estimate.line.likely, units)
    });
    let expected = estimate.map_or("no estimate".to_string(), |one| expected(one, units));
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
        Cell::Link(expected.into(), working),
        Cell::figure(difference),
        Cell::figure(plan.line.map(|mass| show::planning_value(mass, units))),
        Cell::text(truck_and_lifts(plan)),
        Cell::name(words::supplier(view.delivery, Some(load))),
    ]
}

/// `5,407 to 7,564, likely 6,362`, rounded to the safe side.
fn expected(estimate: &Estimate, units: Units) -> String {
    let line = estimate.line;
    format!(
        "{} to {}, likely {}",
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

/// A finding on the whole delivery: told to the supplier, not decided line by line.
fn whole_row<'a>(view: &View<'a>, finding: &Finding, rank: usize, units: Units) -> Vec<Cell<'a>> {
    let stop = finding.severity == Severity::Stop;
    let next = if stop {
        "Nothing of this delivery is lifted before it is settled. Ask the supplier."
    } else {
        "Ask the supplier today."
    };
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
    cells.push(Cell::name(words::supplier(view.delivery, None)));
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
