//! Dock: the first sheet. May we start, with what, what waits and why, whom to ring; one block a delivery.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::table::{Column, Table, column};
use crate::audit::Audit;
use crate::judge::Severity;
use crate::report::loads::{Load, View, worst_first};
use crate::report::summary::{DeliverySummary, Summary, Tally, TruckSummary};
use crate::report::words::{self, Task};
use crate::site::Units;
use crate::understand::How;
use crate::units::show;
use rust_xlsxwriter::{Chart, ChartDataLabel, ChartSolidFill, ChartType, Color, XlsxError};

/// Answers to one question that a delivery's block gives; the others stand on other sheets.
const MOST_NAMED: usize = 5;
/// Where the other calls and orders stand.
const NEXT: &str = "under \"What to do next\" on Exceptions";
/// Where the figures of a truck stand, from 0: its name, and the highest share of its capacity.
const TRUCK_COLUMN: u16 = 2;
const SHARE_COLUMN: u16 = 6;
const BAR_GREY: Color = Color::RGB(0x60_60_60);

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
    table.row(&[
        Cell::Strong("all".into()),
        Cell::Strong("May we start?".into()),
        Cell::Strong(may_we_start(&whole_call(summary)).into()),
        Cell::count(whole_call(summary).may_lift.lifts),
    ])?;
    for (view, delivery) in views.iter().zip(&summary.deliveries) {
        block(&mut table, view, delivery, units)?;
    }
    for (name, why) in &audit.refused {
        told(&mut table, name, "REFUSED file", why)?;
    }
    for what in &audit.call.left_out {
        told(&mut table, "all", "Left out of the folder", what)?;
    }
    for fault in audit.fleet.iter().flat_map(|fleet| &fleet.faults) {
        let text = format!("{}: {}", fault.place, fault.message());
        told(&mut table, "all", "Fault in the register", &text)?;
    }
    if audit.fleet.is_none() {
        told(
            &mut table,
            "all",
            "No fleet register",
            "No truck is named for any lift. Give a register and run the audit again.",
        )?;
    }
    for note in &continued {
        told(&mut table, "all", "Further sheets", note)?;
    }
    for caution in words::CAUTIONS.iter().chain([&words::NOT_JUDGED]) {
        told(&mut table, "all", "Caution", caution)?;
    }
    all_trucks(&mut table, summary, units)?;
    table.finish()
}

fn columns(units: Units, use_limit: f64) -> Vec<Column> {
    let unit = show::mass_unit(units);
    vec![
        column("Delivery", 20.0),
        column("Question", 20.0),
        column("Answer", 84.0),
        column("Lifts", 7.0),
        column(format!("Planned in all ({unit})"), 11.0),
        column(format!("Heaviest lift ({unit})"), 10.0),
        column("Most of capacity used", 10.0),
        column(format!("Lifts over {}", words::close(use_limit)), 9.0),
    ]
}

fn block(
    table: &mut Table<'_>,
    view: &View<'_>,
    summary: &DeliverySummary,
    units: Units,
) -> Result<(), XlsxError> {
    let name = view.delivery.reading.delivery.as_str();
    if view.is_empty() {
        let what = format!("{}: no goods lines.", view.file_and_sheet());
        told(table, name, "What is it?", &what)?;
        return what_is_odd(table, view, units);
    }
    table.row(&[
        Cell::Strong(name.into()),
        Cell::Strong("May we start?".into()),
        Cell::Strong(may_we_start(summary).into()),
        Cell::count(summary.may_lift.lifts),
    ])?;
    told(table, name, "What is it?", &what_is_it(view, summary))?;
    for truck in &summary.trucks {
        table.row(&truck_row(name, "With what?", truck, units))?;
    }
    what_is_odd(table, view, units)?;
    let waiting = view.waiting();
    let waiting = waiting.iter().map(|load| why_it_waits(*load, units));
    for text in shortened(
        waiting.collect(),
        "on Exceptions and at the end of Lift plan",
    ) {
        told(table, name, "What waits, and why?", &text)?;
    }
    for (question, tasks) in what_to_settle(view) {
        for task in tasks {
            told(table, name, question, &task)?;
        }
    }
    Ok(())
}

fn what_is_odd(table: &mut Table<'_>, view: &View<'_>, units: Units) -> Result<(), XlsxError> {
    let name = view.delivery.reading.delivery.as_str();
    let worst_first = [Severity::Stop, Severity::Check];
    let odd: Vec<String> = worst_first
        .into_iter()
        .flat_map(|severity| view.findings(severity))
        .map(|finding| words::finding(finding, units))
        .collect();
    for text in &shortened(odd, "on As read") {
        told(table, name, "What is odd about all of it?", text)?;
    }
    Ok(())
}

/// What may be lifted and what waits, over all deliveries.
fn whole_call(summary: &Summary) -> DeliverySummary {
    let add = |sum: Tally, one: Tally| Tally {
        lines: sum.lines + one.lines,
        lifts: sum.lifts + one.lifts,
    };
    summary
        .deliveries
        .iter()
        .fold(DeliverySummary::default(), |sum, one| DeliverySummary {
            may_lift: add(sum.may_lift, one.may_lift),
            held: add(sum.held, one.held),
            ..DeliverySummary::default()
        })
}

fn may_we_start(summary: &DeliverySummary) -> String {
    let (may, held) = (summary.may_lift, summary.held);
    let part = |lines, lifts| {
        format!(
            "{} ({})",
            words::count(lines, "line"),
            words::count(lifts, "lift")
        )
    };
    match (may.lines, held.lines) {
        (0, 0) => "There is nothing to lift.".to_string(),
        (_, 0) => format!("Yes: all {}.", part(may.lines, may.lifts)),
        (0, _) => format!("NO: all {} are HELD.", part(held.lines, held.lifts)),
        _ => format!(
            "Yes, with a part: {} may be lifted now; {} HELD.",
            part(may.lines, may.lifts),
            part(held.lines, held.lifts)
        ),
    }
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

fn why_it_waits(load: Load<'_>, units: Units) -> String {
    let why = words::why_held(load, units);
    format!("{}. {why}", named(load))
}

/// The cell of the weight, the item number where there is one, the description: "K15, A-4, UPN 200".
fn named(load: Load<'_>) -> String {
    let (cell, description) = (load.weight_place().cell(), load.description());
    let parts = [cell.as_str(), load.item(), &description];
    parts
        .into_iter()
        .filter(|part| !part.is_empty())
        .collect::<Vec<_>>()
        .join(", ")
}

/// The calls to the supplier and the orders to our own people, the worst of each first.
fn what_to_settle(view: &View<'_>) -> [(&'static str, Vec<String>); 2] {
    let order = view.delivery.reading.order.as_deref();
    let order = order.map_or(String::new(), |order| format!(", {order}"));
    let call = |load: Option<Load<'_>>, what: &str| {
        format!("{}{order}, {what}", words::supplier(view.delivery, load))
    };
    // What is asked once for a whole column or list is not asked of its lines again.
    let asked_once = [
        "column-contradicted",
        "over-road-limit",
        "piece-weights-differ",
        "reading-assumed",
        "weights-copied-down",
    ];
    let whole = view.delivery.findings.iter();
    let mut calls: Vec<String> = whole
        .filter(|finding| asked_once.contains(&finding.code) && finding.severity >= Severity::Check)
        .map(|finding| call(None, &words::sentence(&finding.message)))
        .collect();
    let mut orders = Vec::new();
    let contradicted = |load: &Load<'_>| {
        load.declared()
            .is_some_and(|declared| declared.how == How::Contradicted)
    };
    let mut flagged: Vec<Load<'_>> = view
        .loads()
        .filter(|load| load.flagged() && !contradicted(load))
        .collect();
    flagged.sort_by(|a, b| worst_first(*a, *b));
    for load in flagged {
        match words::task(load) {
            Task::Supplier(ask) => {
                calls.push(call(Some(load), &format!("{}: {ask}", named(load))));
            }
            Task::Own(order) => orders.push(format!("{}: {order}", named(load))),
        }
    }
    if calls.is_empty() {
        calls.push("Nobody.".to_string());
    }
    [
        ("Whom to ring, what to ask?", shortened(calls, NEXT)),
        ("What have we to do ourselves?", shortened(orders, NEXT)),
    ]
}

/// The first of them, and where the others stand.
fn shortened(mut texts: Vec<String>, others: &str) -> Vec<String> {
    let more = texts.len().saturating_sub(MOST_NAMED);
    texts.truncate(MOST_NAMED);
    if more > 0 {
        let more = show::figure(more as f64);
        texts.push(format!("and {more} more {others}."));
    }
    texts
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

/// The trucks over all deliveries, with a picture of how much of its capacity each one's hardest lift takes.
fn all_trucks(table: &mut Table<'_>, summary: &Summary, units: Units) -> Result<(), XlsxError> {
    for (id, why) in &summary.unused {
        let answer = match why {
            None => format!("{id}: ready"),
            Some(why) => format!("{id}: NOT READY, {why}"),
        };
        told(table, "all", "Trucks without a lift", &answer)?;
    }
    let Some(last) = u32::try_from(summary.trucks.len())
        .ok()
        .and_then(|count| count.checked_sub(1))
    else {
        return Ok(());
    };
    let first = table.next_row()? - 1;
    for truck in &summary.trucks {
        table.row(&truck_row("all", "Trucks of this call", truck, units))?;
    }
    let last = first + last;
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
