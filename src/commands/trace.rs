//! `dockheft trace`: past lines, or the story of one.

use super::{Status, ledger, output};
use crate::cli::records::TraceArgs;
use crate::error::Error;
use crate::ledger::{Ledger, Query, Traced};
use crate::report::table;
use crate::site::Units;
use crate::units::{Mass, show};
use std::fmt::Write;

/// Hits on a page.
const PAGE: usize = 25;

/// Runs the command.
///
/// # Errors
/// When the ledger cannot be read, or the answer cannot be written.
pub fn run(args: &TraceArgs) -> Result<Status, Error> {
    let placed = ledger::of(&args.place)?;
    let units = args.units.map_or(placed.site.units, Units::from);
    let ledger = Ledger::read(&placed.path)?;
    if let Some(out) = &args.out {
        output::check(out, &placed.needed())?;
    }
    if let Some(id) = &args.line {
        let story = ledger.story(id.trim())?;
        let told = story
            .as_deref()
            .unwrap_or("no line of this id is on record\n");
        output::print(told)?;
        return Ok(story.map_or(Status::Exceptions, |_| Status::Clear));
    }
    let whole = args.json || args.out.is_some();
    let page = usize::try_from(args.page).unwrap_or(1);
    let (skip, most) = if whole {
        (0, usize::MAX)
    } else {
        ((page - 1) * PAGE, PAGE)
    };
    let (count, found) = ledger.trace(&query(args), skip, most)?;
    if args.json {
        let records = found
            .iter()
            .filter_map(|hit| serde_json::to_string(hit).ok());
        output::print(&records.map(|record| record + "\n").collect::<String>())?;
    }
    if let Some(out) = &args.out {
        output::whole(out, |to| crate::ledger::workbook(&found, units, to))?;
    }
    if !args.json {
        let text = list(&found, units, count, if whole { None } else { Some(page) });
        output::print(&text)?;
    }
    Ok(if count == 0 {
        Status::Exceptions
    } else {
        Status::Clear
    })
}

fn query(args: &TraceArgs) -> Query {
    Query {
        supplier: args.supplier.clone(),
        item: args.item.clone(),
        order: args.order.clone(),
        from: args.from,
        to: args.to,
        finding: args.finding.clone(),
        decision: args.decision.clone(),
        truck: args.truck.clone(),
        text: args.words.iter().chain(&args.text).cloned().collect(),
    }
}

fn list(found: &[Traced], units: Units, count: usize, page: Option<usize>) -> String {
    if count == 0 {
        return "nothing on record answers to this\n".to_string();
    }
    let headings = [
        "day",
        "line",
        "delivery",
        "description",
        "declared",
        "verdict",
        "planned",
        "truck",
        "decision",
    ];
    let widths = [10, 16, 12, 24, 10, 12, 10, 8, 20];
    let rows: Vec<Vec<String>> = found.iter().map(|hit| cells(hit, units)).collect();
    let mut text = table(&headings, &widths, &rows);
    let pages = count.div_ceil(PAGE);
    // Writing to a string does not fail.
    let _ = match page {
        Some(page) if pages > 1 => writeln!(
            text,
            "\n{count} on record, page {page} of {pages} (--page N for another)"
        ),
        _ => writeln!(text, "\n{count} on record"),
    };
    if found.iter().any(|hit| !hit.latest) {
        text.push_str("* a later audit of the delivery is on record, and counts\n");
    }
    if found.iter().any(|hit| hit.on_earlier_list.is_some()) {
        text.push_str("made on an earlier list: another file, so the decision does not stand for this line, which is open\n");
    }
    text.push_str("\"dockheft trace --line ID\" tells the story of a line.\n");
    text
}

fn cells(hit: &Traced, units: Units) -> Vec<String> {
    let kg = |value: &serde_json::Value| value.as_f64().map(Mass::from_kg);
    let text = |value: &serde_json::Value| value.as_str().unwrap_or_default().to_string();
    vec![
        format!("{}{}", hit.day, if hit.latest { "" } else { " *" }),
        hit.id.clone(),
        hit.delivery.clone(),
        hit.description.clone(),
        kg(&hit.load["declared"]["kg"]).map_or(String::new(), |mass| show::weight(mass, units)),
        text(&hit.load["verdict"]),
        kg(&hit.load["planning"]["line_kg"])
            .map_or("none".to_string(), |mass| show::planning(mass, units)),
        text(&hit.load["truck"]["id"]),
        match (&hit.decision, &hit.on_earlier_list) {
            (Some(decided), _) => format!("{} ({})", decided.decision, decided.name),
            (None, Some(decided)) => format!("made on an earlier list: {}", decided.decision),
            (None, None) => String::new(),
        },
    ]
}
