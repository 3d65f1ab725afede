//! The sheets of counts: Suppliers, Goods, Materials, Causes, Months, each with its charts below.

use super::{charts, words};
use crate::report::words as trade;
use crate::report::workbook::book::{Book, Keep, Paper};
use crate::report::workbook::cell::{Cell, clean};
use crate::report::workbook::table::{Column, Table, column};
use crate::scorecard::{Course, Scorecard, Tally};
use crate::site::Units;
use crate::units::{Mass, show};
use rust_xlsxwriter::XlsxError;

/// Columns of the counts, from the first one after the names: share flagged, share light.
pub(super) const SHARE_FLAGGED: u16 = 3;
pub(super) const SHARE_LIGHT: u16 = 5;

/// Writes the suppliers, worst first, with whether their weights moved.
pub(super) fn suppliers(book: &mut Book, card: &Scorecard) -> Result<(), XlsxError> {
    let units = book.units;
    let mut columns = vec![
        column("Supplier", 28.0),
        column("Did the weights move?", 46.0),
        column("Most frequent likely cause", 36.0),
    ];
    columns.extend(counts(units));
    let labels = u16::try_from(columns.len()).unwrap_or(0);
    columns.push(column("Name in the chart", 20.0));
    let mut table = book.table("Suppliers", columns, Paper::Large, Keep::Whole)?;
    table.leave_unprinted(1);
    for one in &card.suppliers {
        let course = words::course(one.course.as_ref(), one.left_out);
        let name = one.name.as_deref().unwrap_or(words::NO_SUPPLIER);
        let mut cells = vec![
            Cell::text(name),
            match one.course {
                Some(Course::Moved(_)) => Cell::Strong(course.into()),
                _ => Cell::text(course),
            },
        ];
        cells.push(match &one.cause {
            Some((kind, lines)) => {
                let lines = trade::count(*lines, "line");
                Cell::text(format!("{} ({lines})", trade::slip(kind)))
            }
            None => Cell::Blank,
        });
        cells.extend(figures(&one.tally, units));
        cells.push(Cell::text(charts::label(&clean(name))));
        table.row(&cells)?;
    }
    let enough = (card.suppliers.iter())
        .filter(|one| !one.tally.is_few())
        .count();
    charts::shares(&mut table, "Suppliers", "supplier", enough, 3, labels)?;
    table.finish()
}

/// Writes counts by name, the worst first.
pub(super) fn named(
    book: &mut Book,
    sheet: &'static str,
    heading: &str,
    rows: &[(Option<String>, Tally)],
) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = tallies(book, sheet, heading)?;
    for (name, tally) in rows {
        let name = name.as_deref().unwrap_or("not known").to_string();
        row(&mut table, name, tally, units)?;
    }
    let enough = rows.iter().filter(|(_, tally)| !tally.is_few()).count();
    charts::shares(&mut table, sheet, &heading.to_lowercase(), enough, 1, 0)?;
    table.finish()
}

/// Writes the likely causes, the most frequent first.
pub(super) fn causes(book: &mut Book, card: &Scorecard) -> Result<(), XlsxError> {
    let units = book.units;
    let mut table = tallies(book, "Causes", "Likely cause")?;
    for (kind, tally) in &card.causes {
        row(&mut table, trade::slip(kind).to_string(), tally, units)?;
    }
    charts::causes(&mut table, card.causes.len())?;
    table.finish()
}

/// Writes the months, with the medians of the suppliers that are followed.
pub(super) fn months(book: &mut Book, card: &Scorecard) -> Result<(), XlsxError> {
    let units = book.units;
    let mut columns = vec![column("Month", 10.0)];
    columns.extend(counts(units));
    let first = columns.len();
    for one in &card.followed {
        columns.push(column(
            format!("{}: median off", charts::label(&clean(&one.name))),
            12.0,
        ));
    }
    let mut table = book.table("Months", columns, Paper::Large, Keep::Whole)?;
    for (at, (month, tally)) in card.months.iter().enumerate() {
        let mut cells = vec![Cell::text(words::month(*month))];
        cells.extend(figures(tally, units));
        for one in &card.followed {
            let median = one.medians.get(at).copied().flatten();
            cells.push(median.map_or(Cell::Blank, |ln| Cell::Off(words::off(ln))));
        }
        table.row(&cells)?;
    }
    charts::months(&mut table, card.months.len(), first, &card.followed)?;
    table.finish()
}

fn tallies<'b>(
    book: &'b mut Book,
    sheet: &'static str,
    heading: &str,
) -> Result<Table<'b>, XlsxError> {
    let mut columns = vec![column(heading, 34.0)];
    columns.extend(counts(book.units));
    book.table(sheet, columns, Paper::Large, Keep::Whole)
}

fn row(table: &mut Table<'_>, name: String, tally: &Tally, units: Units) -> Result<(), XlsxError> {
    let mut cells = vec![Cell::text(name)];
    cells.extend(figures(tally, units));
    table.row(&cells)
}

/// The columns that all counts have.
fn counts(units: Units) -> Vec<Column> {
    vec![
        column("Lines", 8.0),
        column("Deliveries", 10.0),
        column("Flagged", 8.0),
        column("Share flagged", 8.0),
        column("Declared light", 9.0),
        column("Share light", 8.0),
        column("Lines compared", 9.0),
        column("Median off", 9.0),
        column("Spread", 8.0),
        column("Lifts that would have overloaded a truck", 12.0),
        column(
            format!("Overload avoided ({})", show::mass_unit(units)),
            10.0,
        ),
        column("Decided", 8.0),
        column("Open", 7.0),
        column("Median hours to decide", 10.0),
        column("Remark", 18.0),
    ]
}

/// The counts in these columns. A percentage of few lines stays blank.
fn figures<'a>(tally: &Tally, units: Units) -> Vec<Cell<'a>> {
    let share = |share: Option<f64>| share.map_or(Cell::Blank, Cell::Part);
    let overload = Mass::from_kg(tally.overload_kg);
    vec![
        Cell::count(tally.lines),
        Cell::count(tally.deliveries),
        Cell::count(tally.flagged),
        share(tally.share_flagged()),
        Cell::count(tally.light),
        share(tally.share_light()),
        Cell::count(tally.compared),
        words::where_enough(tally, tally.median_ln).map_or(Cell::Blank, Cell::Off),
        share(words::where_enough(tally, tally.spread_ln)),
        Cell::count(tally.overloads),
        Cell::Figure(show::weight_value(overload, units)),
        Cell::count(tally.decided),
        Cell::count(tally.open),
        Cell::figure(tally.median_hours.map(tenth)),
        Cell::text(words::remark(tally)),
    ]
}

/// Hours to a tenth.
pub(super) fn tenth(hours: f64) -> f64 {
    (hours * 10.0).round() / 10.0
}
