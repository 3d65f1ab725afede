//! Dock: the first sheet. May we start, with what, what waits and why, whom to ring: for the whole call where it holds several
//! deliveries, then one block a delivery.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::questions::SHEET as QUESTIONS;
use super::table::{Column, Table, column};
use crate::audit::Audit;
use crate::judge::Severity;
use crate::report::loads::{Load, View, worst_first};
use crate::report::questions::{self, letters, named, together};
use crate::report::summary::{DeliverySummary, Summary, TruckSummary};
use crate::report::words;
use crate::site::Units;
use crate::units::show;
use rust_xlsxwriter::{Chart, ChartDataLabel, ChartSolidFill, ChartType, Color, XlsxError};

/// Answers to one question that a delivery's block gives; the others stand on other sheets.
const MOST_NAMED: usize = 5;
/// Suppliers to ring that are named for the whole call.
const MOST_RUNG: usize = 12;
/// Where the figures of a truck stand, from 0: its name, and the highest share of its capacity.
const TRUCK_COLUMN: u16 = 2;
const SHARE_COLUMN: u16 = 6;
const BAR_GREY: Color = Color::RGB(0x60_60_60);
/// The question that the calls to suppliers answer.
const WHOM: &str = "Whom to ring, what to ask?";
/// Where the other held loads stand.
const HELD_SHEETS: &str = "on Exceptions and at the end of Lift plan";

/// Writes the sheet.
pub fn write(
    book: &mut Book,
    audit: &Audit,
    views: &[View<'_>],
    summary: &Summary,
) -> Result<(), XlsxError> {
    let units = book.units;
    let continued = book.continued().to_vec();
    let mut table = book.table(
        "Dock",
        columns(units, audit.site.use_limit),
        Paper::Small,
        Keep::Whole,
    )?;
    table.bars(SHARE_COLUMN);
    table.leave_unsorted();
    for (name, why) in &audit.refused {
        told(&mut table, name, "REFUSED file", why)?;
    }
    if audit.fleet.is_none() {
        told(
            &mut table,
            "all",
            "No fleet register",
            "No truck is named for any lift. Give a register and run the audit again.",
        )?;
    }
    // Of one delivery its block says all that there is to say.
    let one = views.iter().filter(|view| !view.is_empty()).count() == 1;
    let mut drawn = None;
    if !one {
        drawn = overview(&mut table, views, summary, units)?;
    }
    for (view, delivery) in views.iter().zip(&summary.deliveries) {
        let trucks = block(&mut table, view, delivery, units)?;
        drawn = drawn.or(trucks.filter(|_| one));
    }
    for what in &audit.call.left_out {
        told(&mut table, "all", "Left out of the folder", what)?;
    }
    for fault in audit.fleet.iter().flat_map(|fleet| &fleet.faults) {
        let text = format!("{}: {}", fault.place, fault.message());
        told(&mut table, "all", "Fault in the register", &text)?;
    }
    for (id, why) in &summary.unused {
        let answer = match why {
            None => format!("{id}: ready"),
            Some(why) => format!("{id}: NOT READY, {why}"),
        };
        told(&mut table, "all", "Trucks without a lift", &answer)?;
    }
    for note in &continued {
        told(&mut table, "all", "Further sheets", note)?;
    }
    for caution in words::CAUTIONS.iter().chain([&words::NOT_JUDGED]) {
        told(&mut table, "all", "Caution", caution)?;
    }
    if let Some(rows) = drawn {
        table.new_page()?;
        chart(&mut table, rows)?;
    }
    table.finish()
}

/// The first screen: all deliveries together. Gives the rows of the trucks.
fn overview(
    table: &mut Table<'_>,
    views: &[View<'_>],
    summary: &Summary,
    units: Units,
) -> Result<Option<(u32, u32)>, XlsxError> {
    start(table, "all", &summary.whole())?;
    let trucks = trucks(table, "all", "Trucks of this call", &summary.trucks, units)?;
    let mut waiting: Vec<(&View<'_>, Load<'_>)> = views
        .iter()
        .flat_map(|view| view.waiting().into_iter().map(move |load| (view, load)))
        .collect();
    waiting.sort_by(|(_, one), (_, other)| worst_first(*one, *other));
    for (view, load) in waiting.iter().take(MOST_NAMED) {
        let name = &view.delivery.reading.delivery;
        told(
            table,
            name,
            "What waits, and why?",
            &format!("{}: {}", named(*load), words::why_held(*load, units)),
        )?;
    }
    if let Some(text) = more(waiting.len(), MOST_NAMED, HELD_SHEETS) {
        told(table, "all", "What waits, and why?", &text)?;
    }
    let letters = letters(views);
    for letter in letters.iter().take(MOST_RUNG) {
        let lists: Vec<&str> = letter.parts.iter().map(|part| part.delivery()).collect();
        let stops = match letter.stops() {
            0 => String::new(),
            stops => format!(", {stops} of them STOP"),
        };
        let text = format!(
            "{}: {}{stops}. The text to send stands on {QUESTIONS}.",
            letter.to(),
            letter.number()
        );
        told(table, &lists.join(", "), "Whom to ring?", &text)?;
    }
    if let Some(text) = more(letters.len(), MOST_RUNG, &format!("on {QUESTIONS}")) {
        told(table, "all", "Whom to ring?", &text)?;
    }
    Ok(trucks)
}

fn columns(units: Units, use_limit: f64) -> Vec<Column> {
    let unit = show::mass_unit(units);
    vec![
        column("Delivery", 20.0),
        column("Question", 24.0),
        column("Answer", 79.0),
        column("Lifts", 10.0),
        column(format!("Planned in all ({unit})"), 11.0),
        column(format!("Heaviest lift ({unit})"), 10.0),
        column("Most of capacity used", 10.0),
        column(format!("Lifts over {}", words::close(use_limit)), 9.0),
    ]
}

/// The block of a delivery. Gives the rows of its trucks.
fn block(
    table: &mut Table<'_>,
    view: &View<'_>,
    summary: &DeliverySummary,
    units: Units,
) -> Result<Option<(u32, u32)>, XlsxError> {
    let name = view.delivery.reading.delivery.as_str();
    if view.is_empty() {
        let what = format!("{}: no goods lines.", view.file_and_sheet());
        told(table, name, "What is it?", &what)?;
        what_is_odd(table, view, units)?;
        for call in &calls(view) {
            told(table, name, WHOM, call)?;
        }
        return Ok(None);
    }
    start(table, name, summary)?;
    told(table, name, "What is it?", &what_is_it(view, summary))?;
    let trucks = trucks(table, name, "With what?", &summary.trucks, units)?;
    what_is_odd(table, view, units)?;
    let why = |load| (load, words::why_held(load, units));
    let waiting = together(view.waiting().into_iter().map(why));
    let mut calls = calls(view);
    if calls.is_empty() {
        calls.push("Nobody.".to_string());
    }
    let own = together(questions::own_tasks(view));
    let next = "under \"What to do next\" on Exceptions";
    for (question, answers) in [
        ("What waits, and why?", shortened(waiting, HELD_SHEETS)),
        (WHOM, calls),
        ("What have we to do ourselves?", shortened(own, next)),
    ] {
        for answer in answers {
            told(table, name, question, &answer)?;
        }
    }
    Ok(trucks)
}

/// Whom to ring about a delivery, and what to ask.
fn calls(view: &View<'_>) -> Vec<String> {
    let questions = questions::of(view);
    let calls = questions
        .iter()
        .map(|one| format!("{}, {}", one.supplier, one.in_words(view)));
    shortened(calls.collect(), &format!("on {QUESTIONS}"))
}

fn start(table: &mut Table<'_>, name: &str, summary: &DeliverySummary) -> Result<(), XlsxError> {
    table.row(&[
        Cell::Strong(name.into()),
        Cell::Strong("May we start?".into()),
        Cell::Strong(summary.may_we_start().into()),
        Cell::count(summary.may_lift.lifts),
    ])
}

fn what_is_odd(table: &mut Table<'_>, view: &View<'_>, units: Units) -> Result<(), XlsxError> {
    let name = view.delivery.reading.delivery.as_str();
    let worst_first = [Severity::Stop, Severity::Check];
    let odd: Vec<String> = worst_first
        .into_iter()
        .flat_map(|severity| view.findings(severity))
        // What is asked stands among the questions; what stops everything stands here too.
        .filter(|finding| finding.severity == Severity::Stop || !questions::is_asked(finding))
        .map(|finding| words::finding(finding, units))
        .collect();
    for text in &shortened(odd, "on As read") {
        told(table, name, "What is odd about all of it?", text)?;
    }
    Ok(())
}

fn what_is_it(view: &View<'_>, summary: &DeliverySummary) -> String {
    let reading = &view.delivery.reading;
    let verdicts = words::verdicts(&summary.verdicts);
    let supplier = match &reading.supplier {
        Some(name) => format!("supplier {name} (from {})", reading.supplier_from),
        None => words::supplier(view.delivery, None).to_string(),
    };
    let mut text = format!(
        "{}, {}: {}",
        view.file_and_sheet(),
        supplier,
        words::count(summary.lines, "line"),
    );
    if summary.packages > 0 {
        text.push_str(&format!(
            ", {} of several lines",
            words::count(summary.packages, "package")
        ));
    }
    if !verdicts.is_empty() {
        text.push_str(&format!("; declared weights: {}", verdicts));
    }
    text.push('.');
    text
}

/// The first of them, and where the others stand.
fn shortened(mut texts: Vec<String>, others: &str) -> Vec<String> {
    let more = more(texts.len(), MOST_NAMED, others);
    texts.truncate(MOST_NAMED);
    texts.extend(more);
    texts
}

fn more(number: usize, named: usize, others: &str) -> Option<String> {
    let more = number.checked_sub(named).filter(|more| *more > 0)?;
    Some(format!("and {} more {others}.", show::figure(more as f64)))
}

fn told(
    table: &mut Table<'_>,
    delivery: &str,
    question: &str,
    answer: &str,
) -> Result<(), XlsxError> {
    table.row(&[
        Cell::text(delivery),
        Cell::text(question),
        Cell::text(answer),
    ])
}

fn truck_row<'a>(
    delivery: &'a str,
    question: &'a str,
    truck: &'a TruckSummary,
    units: Units,
) -> [Cell<'a>; 8] {
    [
        Cell::text(delivery),
        Cell::text(question),
        Cell::text(truck.truck.as_str()),
        Cell::count(truck.lifts),
        Cell::Figure(show::planning_value(truck.planned, units)),
        Cell::Figure(show::planning_value(truck.heaviest, units)),
        Cell::Share(show::share_value(truck.highest_share)),
        Cell::count(truck.close_calls),
    ]
}

/// A row a truck; gives the first and the last, from 0.
fn trucks(
    table: &mut Table<'_>,
    delivery: &str,
    question: &str,
    trucks: &[TruckSummary],
    units: Units,
) -> Result<Option<(u32, u32)>, XlsxError> {
    let mut rows = None;
    for truck in trucks {
        let at = table.next_row()? - 1;
        let (first, _) = rows.unwrap_or((at, at));
        rows = Some((first, at));
        table.row(&truck_row(delivery, question, truck, units))?;
    }
    Ok(rows)
}

/// A picture of how much of its capacity each truck's hardest lift takes.
fn chart(table: &mut Table<'_>, (first, last): (u32, u32)) -> Result<(), XlsxError> {
    let mut chart = Chart::new(ChartType::Bar);
    chart
        .add_series()
        .set_name("Most of its capacity that one lift uses")
        .set_categories(("Dock", first, TRUCK_COLUMN, last, TRUCK_COLUMN))
        .set_values(("Dock", first, SHARE_COLUMN, last, SHARE_COLUMN))
        .set_format(ChartSolidFill::new().set_color(BAR_GREY))
        .set_data_label(ChartDataLabel::new().show_value());
    chart
        .title()
        .set_name("Most of its capacity that one lift uses, by truck");
    // In a bar chart the trucks stand on the vertical axis; turned round, the first comes first.
    chart.y_axis().set_reverse();
    chart.x_axis().set_min(0).set_max(1).set_num_format("0%");
    chart.legend().set_hidden();
    chart
        .set_width(900)
        .set_height(120 + 28 * (last - first + 1).min(30));
    table.chart(&chart)
}
