//! The audit in plain words for a terminal: about twenty lines a delivery, in the site's units.

use super::loads::{Load, Standing, View, worst_first};
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
/// Lines to settle that are named one by one.
const MOST_SETTLED: usize = 3;

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
    for (delivery, counts) in audit.deliveries.iter().zip(&counts.deliveries) {
        writeln!(to)?;
        block(to, &View::new(delivery), counts, &audit.site)?;
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
    if audit.fleet.is_some() {
        day(to, counts, &audit.site)?;
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
        return of_delivery(to, view, Severity::Check, units);
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
    to_settle(to, view, units)?;
    decided(to, view, units)
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

/// The trucks of the day over all deliveries, and those without a lift.
fn day(to: &mut String, counts: &Summary, site: &Site) -> fmt::Result {
    writeln!(to, "\nTrucks of the day, for what may be lifted now:")?;
    for truck in &counts.trucks {
        writeln!(to, "  {}", of_truck(truck, site))?;
    }
    if counts.trucks.is_empty() {
        writeln!(to, "  none has a lift")?;
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
    let findings: Vec<_> = view.findings(severity).collect();
    for finding in findings.iter().take(MOST_NAMED) {
        writeln!(
            to,
            "    the whole delivery: {}",
            printable(&words::finding(finding, units))
        )?;
    }
    if findings.len() > MOST_NAMED {
        let more = show::figure((findings.len() - MOST_NAMED) as f64);
        writeln!(
            to,
            "    and {more} more of the whole delivery, in the workbook"
        )?;
    }
    Ok(())
}

/// What may be lifted as planned and must be settled today, worst first.
fn to_settle(to: &mut String, view: &View<'_>, units: Units) -> fmt::Result {
    let mut open: Vec<Load<'_>> = view
        .loads()
        .filter(|load| load.flagged() && view.standing(*load) == Standing::MayLift)
        .collect();
    let whole = view.findings(Severity::Check).next();
    let what = match (whole, open.len()) {
        (None, 0) => return Ok(()),
        (None, lines) => words::count(lines, "line"),
        (Some(_), 0) => "the delivery as a whole".to_string(),
        (Some(_), lines) => format!("the delivery as a whole, {}", words::count(lines, "line")),
    };
    open.sort_by(|one, other| worst_first(*one, *other));
    writeln!(to, "  To settle today: {what}")?;
    of_delivery(to, view, Severity::Check, units)?;
    for load in open.iter().take(MOST_SETTLED) {
        writeln!(
            to,
            "    {} {}: {}",
            load.weight_place().cell(),
            printable(&load.description()),
            printable(words::task(*load).text())
        )?;
    }
    if open.len() > MOST_SETTLED {
        let more = show::figure((open.len() - MOST_SETTLED) as f64);
        writeln!(to, "    and {more} more, in the workbook")?;
    }
    Ok(())
}

/// What earlier decisions say of its loads, by row.
fn decided(to: &mut String, view: &View<'_>, units: Units) -> fmt::Result {
    let decided: Vec<_> = view
        .loads()
        .filter_map(|load| Some((load, load.decision()?)))
        .collect();
    if decided.is_empty() {
        return Ok(());
    }
    writeln!(to, "  Decided: {}", words::count(decided.len(), "line"))?;
    for (load, decision) in decided.iter().take(MOST_SETTLED) {
        writeln!(
            to,
            "    {} {}: decided: {}",
            load.weight_place().cell(),
            printable(&load.description()),
            printable(&decision.in_words(units))
        )?;
    }
    if decided.len() > MOST_SETTLED {
        let more = show::figure((decided.len() - MOST_SETTLED) as f64);
        writeln!(to, "    and {more} more, in the workbook")?;
    }
    Ok(())
}

fn held(to: &mut String, view: &View<'_>, units: Units) -> fmt::Result {
    let waiting = view.waiting();
    for load in waiting.iter().take(MOST_NAMED) {
        writeln!(
            to,
            "    {} {}: {}",
            load.weight_place().cell(),
            printable(&load.description()),
            printable(&words::why_held(*load, units))
        )?;
        writeln!(
            to,
            "      {}",
            printable(&words::next(*load, Standing::Held, units))
        )?;
    }
    if waiting.len() > MOST_NAMED {
        writeln!(
            to,
            "    and {} more, in the workbook",
            show::figure((waiting.len() - MOST_NAMED) as f64)
        )?;
    }
    Ok(())
}

/// A text without control characters: a supplier's file must not steer the terminal.
pub fn printable(text: &str) -> String {
    text.chars()
        .map(|letter| if letter.is_control() { ' ' } else { letter })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::super::testing;
    use super::*;

    fn text(audit: &Audit) -> String {
        summary(audit, Some(Path::new("monday.xlsx"))).expect("the frame holds")
    }

    #[test]
    fn it_says_what_may_be_lifted_what_waits_and_why() {
        let text = text(&testing::audit());
        for expected in [
            "bramble-steel.xlsx › List  (delivery bramble-steel, Bramble Steelworks)\n",
            "  6 lines: 1 consistent, 2 missing, 1 light, 1 heavy, 1 unverifiable\n",
            "  May be lifted now: 3 lines, 6 lifts\n",
            // 1,100.2 kg = 2,425.5 lb, up; 1,100.2 / 2,400 = 45.8 %, up.
            "    FL-25: 2 lifts, heaviest 2,426 lb, at most 46 % of its capacity\n",
            "at most 95 % of its capacity (2 over 90 %)\n",
            "  HELD: 3 lines, 4 lifts\n",
            "    G8 Steel plate 3000 x 1500 x 25 mm: STOP: declared 800.5 kg",
            "scan.pdf: not a spreadsheet",
            "C5: capacity \"about 500\" is not a number",
            "Exception workbook: monday.xlsx\n",
        ] {
            assert!(text.contains(expected), "{expected}\n{text}");
        }
        for caution in words::CAUTIONS {
            assert!(text.contains(caution), "{caution}");
        }
        let first = text.find("G8 Steel").expect("the worst");
        assert!(
            first < text.find("Sundries").expect("the next"),
            "worst first"
        );
    }

    #[test]
    fn a_block_has_about_twenty_lines_however_much_waits() {
        let mut audit = testing::audit();
        audit.deliveries.truncate(1);
        let mut waiting = audit.deliveries[0].lines[2].clone();
        for row in 20..220 {
            waiting.item.place.row = row;
            audit.deliveries[0].lines.push(waiting.clone());
        }
        let text = text(&audit);
        let block = text.split("\n\n").nth(1).expect("a block");
        assert!(block.lines().count() <= 24, "{block}");
        assert!(
            block.contains("    and 198 more, in the workbook"),
            "{block}"
        );
    }

    #[test]
    fn a_suppliers_text_does_not_steer_the_terminal() {
        let mut audit = testing::audit();
        audit.deliveries[0].lines[2].item.description = "plate\u{1b}[2J\nMay be lifted now".into();
        assert!(!text(&audit).contains('\u{1b}'));
        assert!(!text(&audit).contains("\nMay be lifted now"));
    }

    #[test]
    fn what_must_be_settled_today_does_not_stand_under_held() {
        let text = text(&testing::audit());
        let [held, odd, settle] = ["  HELD:", "the whole delivery: check", "  To settle today:"]
            .map(|part| text.find(part).expect(part));
        assert!(held < settle && settle < odd, "{text}");
    }

    #[test]
    fn a_sheet_without_goods_takes_one_line_and_what_is_odd_about_it() {
        let mut audit = testing::audit();
        audit.deliveries[0].lines.clear();
        let text = text(&audit);
        let block = text.split("\n\n").nth(1).expect("a block");
        let lines: Vec<&str> = block.lines().collect();
        assert_eq!(lines[0], "bramble-steel.xlsx › List: no goods lines");
        assert!(
            lines.len() == 2 && lines[1].contains("row 14 is hidden"),
            "{block}"
        );
    }
}
