//! The About sheet: what counts, the formulas in words, how far the test for drift can be trusted, cautions, the ledger's head.

use super::words;
use crate::report::words::{CAUTIONS, NOT_JUDGED, count};
use crate::report::workbook::book::{Book, Keep, Paper};
use crate::report::workbook::cell::Cell;
use crate::report::workbook::table::column;
use crate::scorecard::drift::{
    self, FALSE_ALARMS, FEWEST, LEAST_MOVE, MEASURED, ONE_LOOK, OVER_300, SEEN,
};
use crate::scorecard::{FEW, Scorecard};
use rust_xlsxwriter::XlsxError;

/// Writes the sheet.
pub(super) fn write(
    book: &mut Book,
    card: &Scorecard,
    (size, head): &(i64, String),
) -> Result<(), XlsxError> {
    let columns = vec![column("What", 26.0), column("Which", 120.0)];
    let mut table = book.table("About", columns, Paper::Small, Keep::Whole)?;
    let mut told = |what: &str, text: &str| table.row(&[Cell::text(what), Cell::text(text)]);
    told("Counted", &counted(card))?;
    told("Ledger", &format!("{size} records, head {head}"))?;
    for (what, text) in formulas() {
        told(what, &text)?;
    }
    for text in drift_test() {
        told("Did the weights move?", &text)?;
    }
    for caution in CAUTIONS.iter().chain([&NOT_JUDGED]) {
        told("Caution", caution)?;
    }
    table.finish()
}

/// What was counted: "412 lines of 31 deliveries, first audited 2026-01-05 to 2026-11-25; suppliers with "larkspur" in their name".
pub(super) fn counted(card: &Scorecard) -> String {
    let Some((first, last)) = card.days else {
        return "nothing on record answers to this".to_string();
    };
    let mut text = format!(
        "{} of {}, first audited {first} to {last}",
        count(card.all.lines, "line"),
        match card.all.deliveries {
            1 => "1 delivery".to_string(),
            many => format!("{} deliveries", crate::units::show::figure(many as f64)),
        }
    );
    if let Some(part) = &card.asked.supplier {
        text.push_str(&format!("; only suppliers with \"{part}\" in their name"));
    }
    if let Some(from) = card.asked.from {
        text.push_str(&format!("; only those first audited from {from} on"));
    }
    if let Some(to) = card.asked.to {
        text.push_str(&format!("; only those first audited up to {to}"));
    }
    text
}

fn formulas() -> Vec<(&'static str, String)> {
    vec![
        (
            "What counts",
            "Of every delivery its latest audit, once, on the day of its first audit: a list that is looked at again stays in its place. A line is a goods line, or a package that carries the weight of several lines (they count with it).".to_string(),
        ),
        (
            "Few lines",
            format!("Fewer than {FEW} lines give no percentage and stand after all others: the counts alone are shown."),
        ),
        ("Flagged", "At least one finding says STOP or check, or did before a decision on the line.".to_string()),
        (
            "Declared light",
            "Declared below the expected range by more than the site's tolerance: the dangerous side.".to_string(),
        ),
        (
            "Lines compared",
            "Lines with a declared weight and an estimate that rests on a standard product or a shape; not those of which only the outline is known, nor those held against our own weighings (or each supplier whose goods we weigh would seem to move). A gross weight is held against goods and packaging; lines on record from before that was kept are not compared.".to_string(),
        ),
        (
            "Median off",
            "The middle of ln(declared / expected) over the lines compared, as a percentage: -5 % means that half of the lines are declared more than 5 % below what is expected.".to_string(),
        ),
        (
            "Spread",
            "1.4826 times the middle distance from that median, as a percentage: two thirds of ordinary lines lie within it on either side. Single slips do not move it.".to_string(),
        ),
        (
            "Overload avoided",
            "By how much a lift would have overloaded the truck that the declared weight alone would have picked, at the planning weight before any decision; one lift of each line, added up. A line whose declared weight was accepted does not count.".to_string(),
        ),
        (
            "Likely cause",
            "The first cause of a line's findings: a question to the supplier, never proven by itself.".to_string(),
        ),
        (
            "Hours to decide",
            "From the record of the audit to the first decision on the line. Open: flagged and without a decision that is good for the latest list; its age counts from the day of the first audit.".to_string(),
        ),
        (
            "STOP overridden",
            "A line that says STOP was lifted by a decision without a new weight: \"accept declared\" or \"use estimate\". Every such decision is listed, also where its list was replaced since.".to_string(),
        ),
        (
            "Expected may be wrong too",
            "A supplier, goods or a material that is always light or heavy may be so because of our tables or its product range: weigh some pieces before you accuse anybody. Where many suppliers move on one day, look for a change of the site file or the program first.".to_string(),
        ),
    ]
}

fn drift_test() -> Vec<String> {
    let percent = |part: f64| format!("{} %", (part * 1_000.0).round() / 10.0);
    let measured: Vec<String> = MEASURED
        .iter()
        .map(|(noise, rate)| format!("{} ({noise})", percent(*rate)))
        .collect();
    let seen: Vec<String> = SEEN
        .iter()
        .map(|(way, part)| format!("{} of those to 5 % {way}", percent(*part)))
        .collect();
    vec![
        format!(
            "Each delivery counts as the median of its compared lines; those more than {} heavier or {} lighter than expected are slips and left out, and a delivery that has no other is counted as left out. For every date the deliveries before and after are compared by their ranks (Mann and Whitney); the date that parts them best is called a move where the ranks differ by more than {} of their standard deviations and the medians by at least {}. After a move the later part is looked at again: the last move is named.",
            percent(words::off(drift::SLIP)),
            percent(-words::off(-drift::SLIP)),
            drift::LIMIT,
            percent(LEAST_MOVE),
        ),
        format!("Fewer than {FEWEST} such deliveries are too few to tell."),
        format!(
            "False alarms: about {} of the suppliers whose weights never move are named at some time during their first 100 deliveries, looked at after each. Measured on 2,000 simulated steady suppliers each: {}. Over their first 300 deliveries: {}. In a single look after 100: {}. Deliveries that resemble the one before raise these rates.",
            percent(FALSE_ALARMS),
            measured.join(", "),
            percent(OVER_300),
            percent(ONE_LOOK),
        ),
        format!(
            "What it sees: after 40 steady deliveries (3 % between deliveries, 4 % between the 3 to 12 lines of one), within 20 deliveries {}. With 1 to 3 lines a delivery: {} of those to 5 % lighter.",
            seen.join(", "),
            percent(drift::SEEN_BY_FEW_LINES),
        ),
    ]
}
