//! A replay in plain words for a terminal, in about twenty lines.

use super::{Shown, words};
use crate::replay::Row;
use crate::report::text::printable;
use crate::report::words::{CAUTIONS, count};
use crate::report::{labelled, table};
use crate::units::show;

/// Places on a line.
const WIDTH: usize = 100;
/// Where the texts begin.
const HEAD: usize = 12;
/// Settings that differ, and audits that could not be repeated, named one by one.
const MOST_NAMED: usize = 8;

/// The replay for people.
pub fn text(shown: &Shown<'_>) -> String {
    let replay = shown.replay;
    let mut text = String::new();
    if replay.audits == 0 && replay.not_repeated.is_empty() {
        text.push_str("no audit on record answers to this\n");
        ledger(&mut text, shown);
        return text;
    }
    let mut entry = |label: &str, value: &str| text.push_str(&labelled(label, HEAD, value, WIDTH));
    entry("Replay", &words::repeated(replay));
    let site = shown.site_file.as_ref();
    entry(
        "Settings",
        &settings(shown, site.map(|(name, _)| name.as_str())),
    );
    entry("Register", &words::register(shown));
    for why in replay.not_repeated.iter().take(MOST_NAMED) {
        entry("", &format!("NOT REPEATED: {why}"));
    }
    if let Some(more @ 1..) = replay.not_repeated.len().checked_sub(MOST_NAMED) {
        entry("", &format!("NOT REPEATED: {more} more"));
    }
    if replay.program_differs > 0 {
        entry(
            "Program",
            &format!(
                "{} come out otherwise than recorded under their own settings too: by today's program, or before what was decided",
                count(replay.program_differs, "load")
            ),
        );
    }
    entry("Changes", &words::changes(replay));
    text.push('\n');
    text.push_str(&table(&HEADINGS, &WIDTHS, &rows(shown)));
    let groups = words::groups(shown);
    if !groups.is_empty() {
        text.push_str(&labelled(
            "",
            2,
            &format!("  Groups keep their own tolerance: {groups}"),
            WIDTH,
        ));
    }
    text.push('\n');
    text.push_str(&labelled("", 0, &words::decided(shown), WIDTH));
    for said in words::result(shown) {
        text.push_str(&labelled("", 0, &said, WIDTH));
    }
    text.push_str(&labelled("", 0, &CAUTIONS.join(" "), WIDTH));
    ledger(&mut text, shown);
    text
}

fn ledger(text: &mut String, shown: &Shown<'_>) {
    let (name, size, head) = &shown.ledger;
    text.push_str(&format!(
        "Ledger {}: {}, head {head}\n",
        printable(name),
        count(usize::try_from(*size).unwrap_or(0), "record")
    ));
}

fn settings(shown: &Shown<'_>, name: Option<&str>) -> String {
    let differ = &shown.replay.settings;
    let of = name.unwrap_or("the defaults (no site file)");
    if differ.is_empty() {
        return format!("{of}: nothing that decides differs from the recorded settings");
    }
    let told: Vec<String> = differ
        .iter()
        .take(MOST_NAMED)
        .map(|(key, audits)| {
            let audits = count(*audits, "audit");
            format!(
                "{} was {}, is {} ({audits})",
                key.key, key.was, key.would_be
            )
        })
        .collect();
    let more = match differ.len().saturating_sub(MOST_NAMED) {
        0 => String::new(),
        more => format!("; and {more} more"),
    };
    format!("{of}: {}{more}", told.join("; "))
}

const HEADINGS: [&str; 9] = [
    "tolerance",
    "flags",
    "gained",
    "lost",
    "to look at a day",
    "right flags",
    "false alarms",
    "missed",
    "of them light",
];
const WIDTHS: [usize; 9] = [18, 7, 6, 6, 10, 6, 7, 6, 8];

fn rows(shown: &Shown<'_>) -> Vec<Vec<String>> {
    let replay = shown.replay;
    let mut rows = vec![cells(shown, words::as_recorded(replay), &replay.recorded)];
    for (tolerance, row) in &replay.rows {
        let own = if *tolerance == replay.site_tolerance {
            " (site file)"
        } else {
            ""
        };
        rows.push(cells(
            shown,
            format!("{}{own}", words::percent(*tolerance)),
            row,
        ));
    }
    rows
}

fn cells(shown: &Shown<'_>, label: String, row: &Row) -> Vec<String> {
    let a_day = format!("{:.1}", shown.replay.a_day(row));
    let figure = |number: usize| show::figure(number as f64);
    vec![
        label,
        figure(row.flags),
        figure(row.gained),
        figure(row.lost),
        a_day,
        figure(row.hits),
        figure(row.false_alarms),
        figure(row.missed),
        figure(row.missed_light),
    ]
}
