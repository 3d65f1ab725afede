//! The audit in plain words for a terminal: about twenty lines a delivery, in the site's units.

use super::loads::View;
use super::questions::{self, Letter, letters, together};
use super::summary::{DeliverySummary, Summary, TruckSummary};
use super::words;
use crate::audit::{Audit, Delivery};
use crate::judge::Severity;
use crate::site::{Site, Units};
use crate::units::show;
use polars::prelude::PolarsResult;
use std::fmt::{self, Write};
use std::path::Path;

/// Held loads, and findings of a whole delivery, named in its block; the others stand in the workbook.
const MOST_NAMED: usize = 5;
/// Questions and orders that are named one by one.
const MOST_SETTLED: usize = 3;
/// Suppliers to ring that are named for the whole call.
const MOST_RUNG: usize = 8;

/// The summary of an audit; `workbook` is where the exception workbook went, if one was written.
///
/// # Errors
/// When the counts cannot be computed, which would be a fault of [`super::summary`].
pub fn summary(audit: &Audit, workbook: Option<&Path>) -> PolarsResult<String> {
    let counts = Summary::of(audit)?;
    let mut text = String::new();
    // Writing to a string does not fail.
    let _ = write_all(&mut text, audit, &counts, workbook);
    Ok(text)
}

fn write_all(
    to: &mut String,
    audit: &Audit,
    counts: &Summary,
    workbook: Option<&Path>,
) -> fmt::Result {
    let site = match audit.site.name.as_str() {
        "" => String::new(),
        name => format!("{}, ", printable(name)),
    };
    writeln!(to, "{site}{}, audit {}", audit.date, audit.id)?;
    let views: Vec<View<'_>> = audit.deliveries.iter().map(View::new).collect();
    for (view, counts) in views.iter().zip(&counts.deliveries) {
        writeln!(to)?;
        block(to, view, counts, &audit.site)?;
    }
    if !audit.refused.is_empty() {
        writeln!(to, "\nNot read:")?;
        for (name, why) in &audit.refused {
            // Most reasons begin with the file's name themselves.
            let name = if why.starts_with(name.as_str()) {
                String::new()
            } else {
                format!("{name}: ")
            };
            writeln!(to, "  {}{}", printable(&name), printable(why))?;
        }
    }
    if !audit.call.left_out.is_empty() {
        writeln!(to, "\nLeft out of the folders:")?;
        for what in &audit.call.left_out {
            writeln!(to, "  {}", printable(what))?;
        }
    }
    let remarks = audit.sources.iter().flat_map(|source| {
        source
            .remarks
            .iter()
            .map(move |remark| (&source.name, remark))
    });
    for (name, remark) in remarks {
        writeln!(to, "\n{}: {}", printable(name), printable(remark))?;
    }
    let several = views.iter().filter(|view| !view.is_empty()).count() > 1;
    if several {
        in_all(to, counts, &letters(&views))?;
    }
    if audit.fleet.is_some() {
        day(to, counts, several, &audit.site)?;
    }
    match &audit.fleet {
        None => writeln!(
            to,
            "\nNo fleet register was given: no truck is named for any lift."
        )?,
        Some(fleet) if !fleet.faults.is_empty() => {
            writeln!(to, "\nFaults in the register {}:", printable(&fleet.file))?;
            for fault in &fleet.faults {
                writeln!(
                    to,
                    "  {}: {}",
                    fault.place.cell(),
                    printable(&fault.message())
                )?;
            }
        }
        Some(_) => {}
    }
    writeln!(to)?;
    if let Some(path) = workbook {
        let path = path.display().to_string();
        writeln!(to, "Exception workbook: {}", printable(&path))?;
        writeln!(
            to,
            "(its sheet Questions has the texts to send, Lift cards a page for each truck)"
        )?;
    }
    for caution in words::CAUTIONS {
        writeln!(to, "{caution}")?;
    }
    writeln!(to, "{}", words::NOT_JUDGED)
}

/// Who sent the list; a name that only the file's name suggests is said to be one.
fn sender(delivery: &Delivery) -> String {
    let supplier = words::supplier(delivery, None);
    match delivery.reading.supplier_from {
        "file name" => format!("supplier by the file's name: {supplier}"),
        _ => supplier.to_string(),
    }
}

fn block(to: &mut String, view: &View<'_>, counts: &DeliverySummary, site: &Site) -> fmt::Result {
    let units = site.units;
    let reading = &view.delivery.reading;
    if view.is_empty() {
        writeln!(to, "{}: no goods lines", printable(&view.file_and_sheet()))?;
        of_delivery(to, view, Severity::Stop, units)?;
        of_delivery(to, view, Severity::Check, units)?;
        return to_ask(to, view);
    }
    writeln!(
        to,
        "{}  (delivery {}, {})",
        printable(&view.file_and_sheet()),
        printable(&reading.delivery),
        printable(&sender(view.delivery)),
    )?;
    let verdicts = words::verdicts(&counts.verdicts);
    writeln!(to, "  {}: {}", words::count(counts.lines, "line"), verdicts)?;
    let tally = |lines, lifts| {
        format!(
            "{}, {}",
            words::count(lines, "line"),
            words::count(lifts, "lift")
        )
    };
    writeln!(
        to,
        "  May be lifted now: {}",
        tally(counts.may_lift.lines, counts.may_lift.lifts)
    )?;
    for truck in &counts.trucks {
        writeln!(to, "    {}", of_truck(truck, site))?;
    }
    writeln!(
        to,
        "  HELD: {}",
        tally(counts.held.lines, counts.held.lifts)
    )?;
    of_delivery(to, view, Severity::Stop, units)?;
    held(to, view, units)?;
    of_delivery(to, view, Severity::Check, units)?;
    to_ask(to, view)?;
    to_do(to, view)?;
    decided(to, view, units)
}

/// The whole call: may we start, and whom to ring.
fn in_all(to: &mut String, counts: &Summary, letters: &[Letter<'_>]) -> fmt::Result {
    writeln!(to, "\nIn all: {}", counts.whole().may_we_start())?;
    let ring = letters.iter().take(MOST_RUNG).map(|letter| {
        let stops = match letter.stops() {
            0 => String::new(),
            stops => format!(", {stops} STOP"),
        };
        format!("{} ({}{stops})", printable(&letter.to()), letter.number())
    });
    let ring: Vec<String> = ring.collect();
    if ring.is_empty() {
        return writeln!(to, "  to ring: nobody");
    }
    let more = match letters.len().saturating_sub(MOST_RUNG) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    writeln!(to, "  to ring: {}{more}", ring.join(", "))
}

/// "KJ-04: 6 lifts, heaviest 2,426 lb, at most 46 % of its capacity (1 over 90 %)".
fn of_truck(truck: &TruckSummary, site: &Site) -> String {
    let units = site.units;
    let close = match truck.close_calls {
        0 => String::new(),
        close => format!(
            " ({} over {})",
            show::figure(close as f64),
            words::close(site.use_limit)
        ),
    };
    format!(
        "{}: {}, heaviest {}, at most {} of its capacity{close}",
        printable(&truck.truck),
        words::count(truck.lifts, "lift"),
        show::planning(truck.heaviest, units),
        show::share(truck.highest_share),
    )
}

/// The trucks of the day over several deliveries, and those without a lift.
fn day(to: &mut String, counts: &Summary, several: bool, site: &Site) -> fmt::Result {
    if several {
        writeln!(to, "\nTrucks of the day, for what may be lifted now:")?;
        for truck in &counts.trucks {
            writeln!(to, "  {}", of_truck(truck, site))?;
        }
        if counts.trucks.is_empty() {
            writeln!(to, "  none has a lift")?;
        }
    } else if !counts.unused.is_empty() {
        writeln!(to, "\nTrucks of the day without a lift:")?;
    }
    let (ready, out): (Vec<_>, Vec<_>) = counts.unused.iter().partition(|(_, why)| why.is_none());
    if !ready.is_empty() {
        let names: Vec<String> = ready.iter().map(|(id, _)| printable(id)).collect();
        writeln!(to, "  ready and not used: {}", names.join(", "))?;
    }
    for (id, why) in out {
        let why = why.as_deref().unwrap_or_default();
        writeln!(to, "  not ready: {}, {why}", printable(id))?;
    }
    Ok(())
}

fn of_delivery(to: &mut String, view: &View<'_>, severity: Severity, units: Units) -> fmt::Result {
    // What is asked stands among the questions.
    let findings = view.findings(severity);
    let findings = findings.filter(|finding| !questions::is_asked(finding));
    let odd =
        findings.map(|finding| format!("the whole delivery: {}", words::finding(finding, units)));
    listed(to, "", odd.collect(), MOST_NAMED, "of the whole delivery")
}

/// Whom to ring and what to ask; the supplier of a row is named where it is another than the list's.
fn to_ask(to: &mut String, view: &View<'_>) -> fmt::Result {
    let of_list = words::supplier(view.delivery, None);
    let named = view.delivery.reading.supplier.is_some();
    let whom = if named { of_list } else { "whoever sent it" };
    let questions = questions::of(view);
    let asked = questions.iter().map(|question| {
        let text = question.in_words(view);
        match question.supplier {
            name if name == of_list => text,
            name => format!("{name}, {text}"),
        }
    });
    listed(
        to,
        &format!("To ask {whom}"),
        asked.collect(),
        MOST_SETTLED,
        "on Questions",
    )
}

/// What our own people have to do.
fn to_do(to: &mut String, view: &View<'_>) -> fmt::Result {
    let tasks = together(questions::own_tasks(view));
    listed(to, "To do ourselves", tasks, MOST_SETTLED, "on Exceptions")
}

/// What earlier decisions say of its loads, by row.
fn decided(to: &mut String, view: &View<'_>, units: Units) -> fmt::Result {
    let decided = view.loads().filter_map(|load| {
        let decision = load.decision()?.in_words(units);
        Some((load, format!("decided: {decision}")))
    });
    let decided: Vec<_> = decided.collect();
    let heading = format!("Decided: {}", words::count(decided.len(), "line"));
    listed(
        to,
        &heading,
        together(decided),
        MOST_SETTLED,
        "on Exceptions",
    )
}

fn held(to: &mut String, view: &View<'_>, units: Units) -> fmt::Result {
    let why = |load| (load, words::why_held(load, units));
    let waiting = together(view.waiting().into_iter().map(why));
    listed(to, "", waiting, MOST_NAMED, "on Exceptions")
}

/// The first of some texts below their heading, and how many more there are where in the workbook.
fn listed(
    to: &mut String,
    heading: &str,
    texts: Vec<String>,
    most: usize,
    others: &str,
) -> fmt::Result {
    if !heading.is_empty() && !texts.is_empty() {
        writeln!(to, "  {}:", printable(heading))?;
    }
    for text in texts.iter().take(most) {
        writeln!(to, "    {}", printable(text))?;
    }
    match texts.len().saturating_sub(most) {
        0 => Ok(()),
        more => writeln!(
            to,
            "    and {} more {others} in the workbook",
            show::figure(more as f64)
        ),
    }
}

/// A text without control characters: a supplier's file must not steer the terminal, nor turn round there what is written.
pub fn printable(text: &str) -> String {
    let steers = |letter: char| letter.is_control() || is_of_direction(letter);
    let fit = |letter| if steers(letter) { ' ' } else { letter };
    text.chars().map(fit).collect()
}

/// Marks and controls of the direction of writing (Unicode Standard, property Bidi_Control).
fn is_of_direction(letter: char) -> bool {
    matches!(letter, '\u{61C}' | '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}')
}

#[cfg(test)]
mod tests;
