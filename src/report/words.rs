//! The plain words that every output shares: verdicts, urgency, causes and what to ask, cautions.
//! Comes in: plain data. Goes out: words. No figure is worked out here.

mod causes;
mod tasks;

pub use causes::{question, slip};
pub use tasks::{Task, asked, capital, next, of_number, task};

use super::loads::{Load, Standing};
use crate::audit::Delivery;
use crate::compare::Verdict;
use crate::fleet::{self, Class, Truck};
use crate::judge::{Cause, Finding, Severity};
use crate::plan::{LiftFrom, LiftOf, LoadCentreFrom, Plan, PlannedFrom};
use crate::site::Units;
use crate::understand::{How, Why};
use crate::units::{Mass, show};
use std::borrow::Cow;

/// The safety words that every output carries.
pub const CAUTIONS: [&str; 4] = [
    "An estimate is not a weighing.",
    "The capacity plate on the truck, the manufacturer, the site's rules and local law come first.",
    "Only trained and authorised operators lift.",
    "A load whose weight is in doubt stays down until it is weighed or documented.",
];

/// What no report of this program judges.
pub const NOT_JUDGED: &str = "Not judged: slings and rigging, stability, the centre of gravity of odd loads, the order of lifting.";

/// Verdicts in the order of the contract, with their meaning.
pub const VERDICTS: [(Verdict, &str, &str); 7] = [
    (
        Verdict::Consistent,
        "consistent",
        "the declared weight lies inside the expected range, widened by the site's tolerance",
    ),
    (
        Verdict::Missing,
        "missing",
        "no usable declared weight (blank, zero, negative, not a number)",
    ),
    (
        Verdict::Light,
        "light",
        "declared below the expected range: the dangerous side",
    ),
    (Verdict::Heavy, "heavy", "declared above the expected range"),
    (
        Verdict::Impossible,
        "impossible",
        "more than a solid block of that size and material can weigh",
    ),
    (
        Verdict::Unverifiable,
        "unverifiable",
        "nothing to check the declared weight with",
    ),
    (Verdict::Shared, "shared", "judged on its package"),
];

/// Severities, worst first, with their meaning.
pub const SEVERITIES: [(Severity, &str, &str); 3] = [
    (Severity::Stop, "STOP", "do not lift before it is settled"),
    (
        Severity::Check,
        "check",
        "liftable as planned; settle it today",
    ),
    (Severity::Note, "note", "for the record"),
];

/// How many lines have each verdict: "9 consistent, 1 light".
pub fn verdicts(counts: &[(Verdict, usize)]) -> String {
    let each = counts
        .iter()
        .map(|(of, lines)| format!("{} {}", show::figure(*lines as f64), verdict(*of)));
    each.collect::<Vec<_>>().join(", ")
}

/// A verdict's word.
pub fn verdict(verdict: Verdict) -> &'static str {
    VERDICTS
        .iter()
        .find(|(one, ..)| *one == verdict)
        .map_or("", |(_, word, _)| word)
}

/// A severity's word.
pub fn severity(severity: Severity) -> &'static str {
    SEVERITIES
        .iter()
        .find(|(one, ..)| *one == severity)
        .map_or("", |(_, word, _)| word)
}

/// Whether it may be lifted, in words.
pub fn standing(standing: Standing, severity: Option<Severity>) -> &'static str {
    match standing {
        Standing::Held => "HELD",
        Standing::MayLift if severity == Some(Severity::Check) => {
            "may be lifted as planned; check today"
        }
        Standing::MayLift => "may be lifted",
    }
}

/// How a reading came about.
pub fn how(how: How) -> &'static str {
    match how {
        How::Stated => "stated",
        How::Inferred => "inferred from the figures",
        How::Assumed => "ASSUMED (site's default)",
        How::Contradicted => "stated, but the figures contradict it",
        How::Site => "site's layout for this supplier",
    }
}

/// Why a row gave no line.
pub fn skipped(why: Why) -> &'static str {
    match why {
        Why::Title => "title",
        Why::Heading => "heading",
        Why::Units => "units",
        Why::Section => "section",
        Why::Blank => "blank",
        Why::Subtotal => "subtotal",
        Why::Total => "total",
        Why::Carried => "carried or brought forward",
        Why::Summary => "summary of other sheets",
        Why::Note => "note",
        Why::Directive => "instruction to a program",
        Why::Hidden => "HIDDEN row",
        Why::HiddenSheet => "row of a HIDDEN sheet",
    }
}

/// What one lift takes, and whether that was stated.
pub fn lift_of(plan: &Plan) -> String {
    let what = match plan.lift_of {
        LiftOf::Piece => "one piece",
        LiftOf::Package => "one package",
        LiftOf::Line if plan.lifts > 1 => "an equal part of the line",
        LiftOf::Line => "the whole line",
        LiftOf::Shared => return "lifted with its package".to_string(),
    };
    let from = match plan.lift_from {
        LiftFrom::Stated => "stated",
        LiftFrom::Assumed => "ASSUMED",
    };
    format!("{what} ({from})")
}

/// What a planning weight rests on; a declared weight that nothing could check says so.
pub fn planned_from(load: Load<'_>) -> &'static str {
    match load.plan().from {
        PlannedFrom::Weighed => "weighed",
        PlannedFrom::Decided => "decided by the manager",
        PlannedFrom::Declared if load.estimate().is_none() => "declared, UNCHECKED",
        PlannedFrom::Declared => "declared",
        PlannedFrom::Estimate => "estimate with margin",
        PlannedFrom::Larger => "the larger of declared and estimate",
        PlannedFrom::None => "no planning weight: do not lift",
    }
}

/// The share of its capacity above which a lift is a close call: `90 %`.
pub fn close(use_limit: f64) -> String {
    format!("{} %", show::figure(fleet::close(use_limit) * 100.0))
}

/// Where a load centre came from.
pub fn load_centre_from(from: LoadCentreFrom) -> &'static str {
    match from {
        LoadCentreFrom::Stated => "stated",
        LoadCentreFrom::Package => "size of the package",
        LoadCentreFrom::Pack => "pack of its pieces",
        LoadCentreFrom::Piece => "size of the piece",
        LoadCentreFrom::Default => "ASSUMED depth",
    }
}

/// A truck's class by the industry numbering that OSHA uses, in words.
pub fn class(truck: &Truck) -> String {
    let words = match truck.class {
        Some(Class::I) => "I, electric rider",
        Some(Class::II) => "II, electric narrow aisle",
        Some(Class::III) => "III, electric hand or hand-rider",
        Some(Class::IV) => "IV, combustion, cushion tyres",
        Some(Class::V) => "V, combustion, pneumatic tyres",
        Some(Class::VI) => "VI, tractor",
        Some(Class::VII) => "VII, rough terrain",
        None => "not stated",
    };
    if truck.class_assumed {
        format!("{words}; taken as counterbalanced")
    } else {
        words.to_string()
    }
}

/// A finding in words: urgency, message, likely cause as a question still open.
pub fn finding(finding: &Finding, units: Units) -> String {
    let mut text = format!(
        "{}: {}",
        severity(finding.severity),
        sentence(&finding.message)
    );
    if let Some(cause) = &finding.cause {
        text.push_str(&format!(" Perhaps {}", cause_in_words(cause, units)));
    }
    text
}

/// What was found, without what is to be done about it: a message up to its first semicolon or order to ask. What stands
/// between quotation marks is the supplier's and is kept whole.
pub fn told(message: &str) -> &str {
    let outside = |at: &usize| {
        message
            .get(..*at)
            .is_none_or(|head| head.matches('"').count() % 2 == 0)
    };
    let semicolons = message.match_indices("; ").map(|(at, _)| at);
    let orders = message.match_indices(": ask ").map(|(at, _)| at);
    let end = semicolons.chain(orders).filter(outside).min();
    end.and_then(|end| message.get(..end)).unwrap_or(message)
}

/// A text of at most so many letters; where there are more, three dots say so.
pub fn short(text: &str, most: usize) -> Cow<'_, str> {
    match text.char_indices().nth(most) {
        Some((end, _)) => Cow::Owned(format!(
            "{} ...",
            text.get(..end).unwrap_or(text).trim_end()
        )),
        None => Cow::Borrowed(text),
    }
}

/// A text with an end to it.
pub fn sentence(text: &str) -> String {
    let text = text.trim_end();
    let ended = text.ends_with(['.', '!', '?', ':']);
    if ended || text.is_empty() {
        text.to_string()
    } else {
        format!("{text}.")
    }
}

fn cause_in_words(cause: &Cause, units: Units) -> String {
    let mass = show::weight(Mass::from_kg(cause.would_be_kg), units);
    let share = (cause.share * 100.0).round();
    format!(
        "{} (about {share} % likely); it would then be {mass}.",
        slip(cause.kind)
    )
}

/// All findings of a load in words, one a line, worst first.
pub fn findings(load: Load<'_>, units: Units) -> String {
    let mut sorted: Vec<&Finding> = load.findings().iter().collect();
    sorted.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    let mut texts: Vec<String> = sorted.iter().map(|one| finding(one, units)).collect();
    if let Some(why) = load.no_estimate() {
        texts.push(format!("No estimate: {}", sentence(why)));
    }
    texts.join("\n")
}

/// Why a load is held: the finding that says stop, or what else keeps it down.
pub fn why_held(load: Load<'_>, units: Units) -> String {
    // Findings come worst first; among equals the first counts. What does not say stop holds nothing back.
    let worst = load.findings().first();
    let worst = worst.filter(|worst| worst.severity == Severity::Stop);
    match (worst, &load.plan().truck_without) {
        (Some(worst), _) => finding(worst, units),
        (None, Some(why)) => sentence(why),
        (None, None) if load.plan().truck.is_none() => "No truck is named for it.".to_string(),
        (None, None) => "Held until its package or its delivery is settled.".to_string(),
    }
}

/// The supplier of a load, as the row or the delivery names it.
pub fn supplier<'a>(delivery: &'a Delivery, load: Option<Load<'a>>) -> &'a str {
    let own = match load {
        Some(Load::Line(line)) => line.item.supplier.as_deref(),
        _ => None,
    };
    own.or(delivery.reading.supplier.as_deref())
        .unwrap_or("supplier not named")
}

/// `row 7`, `rows 7 to 9 and 12`.
pub fn rows(rows: &[u32]) -> String {
    let mut runs: Vec<(u32, u32)> = Vec::new();
    for &row in rows {
        match runs.last_mut() {
            Some((_, last)) if last.checked_add(1) == Some(row) => *last = row,
            _ => runs.push((row, row)),
        }
    }
    let texts: Vec<String> = runs
        .iter()
        .map(|(first, last)| match last - first {
            0 => format!("{first}"),
            _ => format!("{first} to {last}"),
        })
        .collect();
    let text = match texts.split_last() {
        Some((last, rest)) if !rest.is_empty() => format!("{} and {last}", rest.join(", ")),
        Some((only, _)) => only.clone(),
        None => return "no rows".to_string(),
    };
    if rows.len() == 1 {
        format!("row {text}")
    } else {
        format!("rows {text}")
    }
}

/// A number with its noun: `1 line`, `2 lines`, `1,200 lines`.
pub fn count(number: usize, one: &str) -> String {
    let figure = show::figure(number as f64);
    if number == 1 {
        format!("{figure} {one}")
    } else {
        format!("{figure} {one}s")
    }
}

#[cfg(test)]
mod tests {
    use super::super::testing;
    use super::*;

    #[test]
    fn rows_read_as_runs() {
        for (list, text) in [
            (&[7][..], "row 7"),
            (&[7, 8, 9], "rows 7 to 9"),
            (&[7, 8, 9, 12], "rows 7 to 9 and 12"),
            (&[3, 5, 7], "rows 3, 5 and 7"),
            (&[], "no rows"),
        ] {
            assert_eq!(rows(list), text);
        }
    }

    #[test]
    fn a_long_text_is_cut_and_says_so() {
        for (text, short_of_it) in [
            ("Blech", "Blech"),
            ("鋼板鋼板鋼", "鋼板鋼板鋼"),
            ("鋼板鋼板鋼板", "鋼板鋼板鋼 ..."),
            ("four letters", "four ..."),
        ] {
            assert_eq!(short(text, 5), short_of_it);
        }
    }

    #[test]
    fn what_was_found_stands_without_what_to_do() {
        for (message, found) in [
            (
                "column G is in lb: ask the supplier; all its lines are held",
                "column G is in lb",
            ),
            (
                "\"PLATE; 10 mm\" could not be checked; ask what it is",
                "\"PLATE; 10 mm\" could not be checked",
            ),
            ("H20 states a sum of 5 kg", "H20 states a sum of 5 kg"),
        ] {
            assert_eq!(told(message), found);
        }
    }

    #[test]
    fn the_first_of_equal_findings_says_why_a_load_is_held() {
        let mut line = testing::audit().deliveries.remove(0).lines.remove(2);
        let other = Finding::new("truck-overloaded", Severity::Stop, "another reason");
        line.findings.push(other);
        let why = why_held(Load::Line(&line), Units::Si);
        assert!(why.starts_with("STOP: declared 800.5 kg"), "{why}");
        // Held with its delivery: its own note is not the reason.
        for finding in &mut line.findings {
            finding.severity = Severity::Note;
        }
        assert_eq!(
            why_held(Load::Line(&line), Units::Si),
            "Held until its package or its delivery is settled."
        );
    }
}
