//! The scorecard in plain words for a terminal: who moved, who is worst, what slips, what is open.

use super::{about, words};
use crate::report::plain_table::table;
use crate::report::text::printable;
use crate::report::words as trade;
use crate::scorecard::{Course, Decisions, Scorecard, Supplier};
use crate::site::Site;
use crate::units::{Mass, show};
use std::fmt::{self, Write};

/// Suppliers, and causes, that are named; the others stand in the workbook.
const MOST_NAMED: usize = 10;

/// Overrides of `stop` that are named, the last ones.
const MOST_OVERRIDES: usize = 5;

/// The scorecard's text.
pub fn text(card: &Scorecard, site: &Site) -> String {
    let mut text = String::new();
    // Writing to a string does not fail.
    let _ = write_all(&mut text, card, site);
    text
}

fn write_all(to: &mut String, card: &Scorecard, site: &Site) -> fmt::Result {
    let name = match site.name.as_str() {
        "" => String::new(),
        name => format!("{}, ", printable(name)),
    };
    writeln!(
        to,
        "{name}{}: {}",
        card.today,
        printable(&about::counted(card))
    )?;
    if card.all.lines == 0 {
        return Ok(());
    }
    let all = &card.all;
    writeln!(to, "  flagged {}", words::part(all.flagged, all))?;
    writeln!(to, "  declared light {}", words::part(all.light, all))?;
    let overload = show::weight(Mass::from_kg(all.overload_kg), site.units);
    let lifts = trade::count(all.overloads, "lift");
    writeln!(to, "  overload avoided {overload} in {lifts}")?;
    moved(to, &card.suppliers)?;
    worst(to, &card.suppliers)?;
    if !card.causes.is_empty() {
        writeln!(to, "\nLikely causes")?;
        for (kind, tally) in card.causes.iter().take(MOST_NAMED) {
            let lines = trade::count(tally.lines, "line");
            writeln!(to, "  {}: {lines}", trade::slip(kind))?;
        }
    }
    decisions(to, &card.decisions)?;
    writeln!(to)?;
    for caution in trade::CAUTIONS {
        writeln!(to, "{caution}")?;
    }
    writeln!(to, "{}", trade::NOT_JUDGED)
}

fn supplier(one: &Supplier) -> String {
    printable(one.name.as_deref().unwrap_or(words::NO_SUPPLIER))
}

/// Those that moved or are always off, some by too much to be followed.
fn moved(to: &mut String, suppliers: &[Supplier]) -> fmt::Result {
    let odd = |one: &&Supplier| {
        let off = matches!(
            one.course,
            Some(Course::Moved(_) | Course::Steady { biased: true, .. })
        );
        one.course.is_some() && (off || one.left_out > 0)
    };
    writeln!(to, "\nWhose weights moved, or are always off")?;
    let mut found = suppliers.iter().filter(odd).peekable();
    if found.peek().is_none() {
        return writeln!(to, "  nobody's");
    }
    for one in found {
        let course = words::course(one.course.as_ref(), one.left_out);
        writeln!(to, "  {}: {course}", supplier(one))?;
    }
    writeln!(
        to,
        "  What is expected may be wrong too: weigh some pieces before you ask."
    )
}

fn worst(to: &mut String, suppliers: &[Supplier]) -> fmt::Result {
    writeln!(to, "\nSuppliers, worst first")?;
    let rows: Vec<Vec<String>> = suppliers.iter().take(MOST_NAMED).map(row).collect();
    to.push_str(&table(
        &[
            "supplier",
            "flagged",
            "declared light",
            "median off",
            "mostly",
        ],
        &[24, 24, 24, 10, 30],
        &rows,
    ));
    let more = suppliers.len().saturating_sub(MOST_NAMED);
    if more > 0 {
        writeln!(
            to,
            "  and {} more in the workbook",
            show::figure(more as f64)
        )?;
    }
    Ok(())
}

fn row(one: &Supplier) -> Vec<String> {
    let tally = &one.tally;
    vec![
        supplier(one),
        words::part(tally.flagged, tally),
        words::part(tally.light, tally),
        words::where_enough(tally, tally.median_ln).map_or(words::FEW_LINES.to_string(), |off| {
            format!("{:+.1} %", off * 100.0)
        }),
        one.cause.as_ref().map_or(String::new(), |(kind, lines)| {
            format!("{} ({lines})", trade::slip(kind))
        }),
    ]
}

fn decisions(to: &mut String, decisions: &Decisions) -> fmt::Result {
    let all = &decisions.all;
    write!(
        to,
        "\nDecisions\n  {} decided",
        show::figure(all.lines as f64)
    )?;
    if let (Some(median), Some(most)) = (all.median_hours, all.nine_in_ten_hours) {
        let (median, most) = (words::hours(median), words::hours(most));
        write!(to, " (half within {median}, nine in ten within {most})")?;
    }
    let open: usize = decisions.open.iter().map(|age| age.lines).sum();
    writeln!(to, ", {} open", show::figure(open as f64))?;
    for age in decisions.open.iter().filter(|age| age.lines > 0) {
        let lines = trade::count(age.lines, "line");
        writeln!(
            to,
            "  open {}: {lines}, {} of them STOP",
            age.age, age.stops
        )?;
    }
    let more = decisions.overrides.len().saturating_sub(MOST_OVERRIDES);
    if more > 0 {
        let more = show::figure(more as f64);
        writeln!(to, "  STOP overridden: {more} earlier ones in the workbook")?;
    }
    for one in decisions.overrides.iter().skip(more) {
        let supplier = one.supplier.as_deref().unwrap_or(words::NO_SUPPLIER);
        let mut text = format!(
            "STOP overridden: line {} of {supplier}, \"{}\" by {}, {}",
            one.id,
            one.decision,
            one.name,
            words::time(&one.time)
        );
        match words::since(one) {
            "" => {}
            since => text.push_str(&format!(" ({since})")),
        }
        writeln!(to, "  {}", printable(&text))?;
    }
    Ok(())
}
