//! What a replay says, in sentences that text and workbook share.

use super::Shown;
use crate::replay::{Advice, Change, Decided, ENOUGH, ENOUGH_LIGHT, FLOOR, Replay, Row, Truth};
use crate::report::words::count;
use crate::units::show;

/// A tolerance: `7.5 %`.
pub fn percent(part: f64) -> String {
    format!("{} %", show::figure(part * 100.0))
}

/// The recorded settings with their tolerances: `as recorded (8 and 10 %)`.
pub fn as_recorded(replay: &Replay) -> String {
    let own: Vec<String> = replay
        .own_tolerances
        .iter()
        .map(|part| show::figure(part * 100.0))
        .collect();
    format!("as recorded ({} %)", own.join(" and "))
}

/// What was repeated: audits, days, loads.
pub fn repeated(replay: &Replay) -> String {
    let days = match (&replay.days[..], replay.days.len()) {
        ([], _) => "no day".to_string(),
        ([day], _) => format!("of {day}"),
        ([first, .., last], number) => {
            format!("of {}, {first} to {last}", count(number, "day"))
        }
    };
    format!(
        "{} {days}, repeated: {} lines and packages (of several audits of one delivery the latest)",
        count(replay.audits, "audit"),
        show::figure(replay.loads as f64)
    )
}

/// What changes under the other settings as they are.
pub fn changes(replay: &Replay) -> String {
    let changes = &replay.changes;
    if replay.changed.is_empty() {
        return "nothing changes: the same flags, verdicts, plans and trucks".to_string();
    }
    let mut parts = vec![
        format!("{} lose their flag", changes.flags_lost),
        format!("{} gain one", changes.flags_gained),
    ];
    for (number, what) in [
        (changes.released, "are no longer held"),
        (changes.held, "are held"),
        (changes.verdicts, "have another verdict"),
        (changes.plans, "another planning weight"),
        (changes.trucks, "another truck"),
        (changes.read_otherwise, "are lines of one reading only"),
    ] {
        if number > 0 {
            parts.push(format!("{number} {what}"));
        }
    }
    format!(
        "of {} that change, {}",
        show::figure(replay.changed.len() as f64),
        parts.join(", ")
    )
}

/// What decided lines tell, and how many decisions tell nothing.
pub fn decided(shown: &Shown<'_>) -> String {
    let Decided {
        right,
        light,
        heavy,
        accepted,
        unproven,
        silent,
        not_judged,
        not_found,
    } = shown.replay.decided;
    let known = shown.replay.decided.known();
    let told = match known {
        0 => "No decided line tells whether its declared weight was right".to_string(),
        _ => format!(
            "{} whether the declared weight was right: {right} right, {light} too light, {heavy} too heavy by what they weigh, {accepted} accepted by evidence",
            match known {
                1 => "1 decided line tells".to_string(),
                _ => format!("{known} decided lines tell"),
            }
        ),
    };
    let silent = [
        (unproven, "accepted without evidence"),
        (silent, "estimate used, or refused"),
        (not_judged, "nothing declared, or nothing to check it with"),
        (not_found, "not found in the list as it is read today"),
    ];
    let others: Vec<String> = silent
        .into_iter()
        .filter(|(number, _)| *number > 0)
        .map(|(number, why)| format!("{number} {why}"))
        .collect();
    let margin = format!(
        "Wrong is what is off the decided weight by more than {} and {}",
        percent(shown.wrong_by),
        show::weight(FLOOR, shown.site.units)
    );
    if others.is_empty() {
        format!("{told}. {margin}.")
    } else {
        format!(
            "{told}. Others tell nothing of it: {}. {margin}.",
            others.join(", ")
        )
    }
}

/// What the decided lines speak for, or why nothing is said; then what no tolerance may be chosen for.
pub fn result(shown: &Shown<'_>) -> Vec<String> {
    let replay = shown.replay;
    let mut said = vec![advice(replay)];
    let passing: Vec<String> = replay
        .rows
        .iter()
        .filter(|(_, row)| row.lost_light > 0)
        .map(|(tolerance, row)| {
            let light = count(row.lost_light, "light weight");
            let own = match *tolerance == replay.site_tolerance {
                true => " (THE SITE FILE'S)",
                false => "",
            };
            format!("{}{own} lets {light} pass", percent(*tolerance))
        })
        .collect();
    if !passing.is_empty() {
        said.push(format!(
            "DANGER: {} that the recorded settings catch. Light is the dangerous side: do not choose it.",
            passing.join(", ")
        ));
    }
    let unweighed: Vec<String> = replay
        .rows
        .iter()
        .filter(|(_, row)| row.lost_unweighed > 0)
        .map(|(tolerance, row)| {
            let flags = count(row.lost_unweighed, "light flag");
            format!("{} loses {flags}", percent(*tolerance))
        })
        .collect();
    if !unweighed.is_empty() {
        said.push(format!(
            "NOT KNOWN: {} of loads that nobody weighed and no supplier corrected. Have them weighed before you choose it.",
            unweighed.join(", ")
        ));
    }
    let (was, now) = replay.planned_below;
    if was + now > 0 {
        let danger = if now > was {
            "DANGER: planned"
        } else {
            "Planned"
        };
        said.push(format!(
            "{danger} below the decided weight by more than what counts as wrong: {} as recorded, {now} under the site file.",
            count(was, "line")
        ));
    }
    let safer = replay
        .safer()
        .filter(|at| replay.advice() != Advice::Choose(*at));
    if let Some((tolerance, row)) = safer.and_then(|at| replay.rows.get(at)) {
        let caught = replay
            .recorded
            .missed_light
            .saturating_sub(row.missed_light);
        said.push(format!(
            "{} would catch {} that the recorded settings miss, with {} false alarms ({} as recorded).",
            percent(*tolerance),
            count(caught, "light weight"),
            row.false_alarms,
            replay.recorded.false_alarms
        ));
    }
    said.push(
        "Lines without a flag are seldom weighed: more may have been missed, and of flags that a stricter tolerance would raise, little is known."
            .to_string(),
    );
    said
}

fn advice(replay: &Replay) -> String {
    let recorded = &replay.recorded;
    match replay.advice() {
        Advice::TooFew => format!(
            "Too few to choose a tolerance by: {} of at least {ENOUGH} lines weighed, or corrected by their supplier, and {} of at least {ENOUGH_LIGHT} flags of weights known to be too light (common practice, no source).",
            replay.decided.weighed(),
            replay.light_caught()
        ),
        Advice::Stay => "No tolerance of the list does better without missing more or losing light flags of loads that nobody weighed: stay with the recorded settings."
            .to_string(),
        Advice::Choose(at) => {
            let (tolerance, row) = replay.rows.get(at).copied().unwrap_or_default();
            format!(
                "The decided lines speak for {}: {} false alarms ({} as recorded), {} missed ({}), {} flags of which nothing is known ({}); no weight known to be light passes that the recorded settings catch, and no light flag goes of a load that nobody weighed.",
                percent(tolerance),
                row.false_alarms,
                recorded.false_alarms,
                row.missed,
                recorded.missed,
                row.unknown,
                recorded.unknown
            )
        }
    }
}

/// Of the flags that are known, those that were right; of the wrong weights, those that were caught. None while too few lines
/// are decided: a share of a few says nothing.
pub fn shares(replay: &Replay, row: &Row) -> [Option<f64>; 2] {
    let share = |part: usize, rest: usize| {
        let whole = part + rest;
        (replay.decided.weighed() >= ENOUGH && whole > 0).then(|| part as f64 / whole as f64)
    };
    [
        share(row.hits, row.false_alarms),
        share(row.hits, row.missed),
    ]
}

/// What stands beside a tolerance.
pub fn remark(replay: &Replay, at: usize, row: &Row) -> String {
    if row.lost_light > 0 {
        let light = count(row.lost_light, "light weight");
        return format!("DO NOT CHOOSE: lets {light} pass that the recorded settings catch");
    }
    if replay.advice() == Advice::Choose(at) {
        return "the decided lines speak for it".to_string();
    }
    if row.lost_unweighed > 0 {
        let flags = count(row.lost_unweighed, "light flag");
        return format!("loses {flags} of loads that nobody weighed");
    }
    if row.missed > replay.recorded.missed {
        return "misses more than the recorded settings".to_string();
    }
    String::new()
}

/// Whether the declared weight was right.
pub fn truth(truth: Truth) -> &'static str {
    match truth {
        Truth::Right => "right",
        Truth::Light => "TOO LIGHT",
        Truth::Heavy => "too heavy",
    }
}

/// A change of one load.
pub fn change(change: Change) -> &'static str {
    match change {
        Change::FlagLost => "LOSES its flag",
        Change::Released => "NO LONGER HELD",
        Change::FlagGained => "gains a flag",
        Change::Held => "held",
        Change::ReadOtherwise => "a line of one reading only",
        Change::Truck => "another truck",
        Change::Plan => "another planning weight",
        Change::Verdict => "another verdict",
    }
}

/// Groups of materials that keep a tolerance of their own; empty where none does.
pub fn groups(shown: &Shown<'_>) -> String {
    let own = &shown.site.tolerance_by_group;
    let own: Vec<String> = own
        .iter()
        .map(|(group, part)| format!("{group} {}", percent(*part)))
        .collect();
    own.join(", ")
}

/// Which registers were used.
pub fn register(shown: &Shown<'_>) -> String {
    match &shown.register {
        Some(file) => format!("{file}, in place of the one kept with each audit"),
        None => "the one kept with each audit (--fleet names another; the site file's is not used)"
            .to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::site::{Site, Units};

    fn row(
        tolerance: f64,
        false_alarms: usize,
        missed_light: usize,
        (lost_light, lost_unweighed): (usize, usize),
    ) -> (f64, Row) {
        let row = Row {
            hits: 8 - missed_light,
            false_alarms,
            missed: missed_light,
            missed_light,
            lost_light,
            lost_unweighed,
            unknown: 5,
            ..Row::default()
        };
        (tolerance, row)
    }

    fn said(known: usize) -> Vec<String> {
        let replay = Replay {
            recorded: row(0.10, 9, 2, (0, 0)).1,
            rows: vec![
                row(0.05, 15, 1, (0, 0)),
                row(0.125, 6, 2, (0, 0)),
                row(0.15, 1, 2, (0, 40)),
                row(0.20, 1, 4, (2, 40)),
            ],
            site_tolerance: 0.20,
            planned_below: (1, 3),
            decided: Decided {
                right: known - 8,
                light: 8,
                accepted: 36,
                ..Decided::default()
            },
            ..Replay::default()
        };
        let shares_told = shares(&replay, &replay.recorded)
            .iter()
            .all(Option::is_some);
        assert_eq!(shares_told, known >= ENOUGH);
        result(&Shown {
            replay: &replay,
            site: &Site {
                units: Units::Us,
                ..Site::default()
            },
            site_file: None,
            register: None,
            ledger: (String::new(), 0, String::new()),
            asked: (None, None, None),
            wrong_by: 0.05,
        })
    }

    #[test]
    fn the_decided_lines_speak_and_what_is_dangerous_is_said() {
        let all = said(30);
        assert_eq!(
            all[..5],
            [
                "The decided lines speak for 12.5 %: 6 false alarms (9 as recorded), 2 missed (2), 5 flags of which nothing is known (5); no weight known to be light passes that the recorded settings catch, and no light flag goes of a load that nobody weighed.",
                "DANGER: 20 % (THE SITE FILE'S) lets 2 light weights pass that the recorded settings catch. Light is the dangerous side: do not choose it.",
                "NOT KNOWN: 15 % loses 40 light flags, 20 % loses 40 light flags of loads that nobody weighed and no supplier corrected. Have them weighed before you choose it.",
                "DANGER: planned below the decided weight by more than what counts as wrong: 1 line as recorded, 3 under the site file.",
                "5 % would catch 1 light weight that the recorded settings miss, with 15 false alarms (9 as recorded).",
            ]
        );
        let few = said(29);
        assert_eq!(
            few[0],
            "Too few to choose a tolerance by: 29 of at least 30 lines weighed, or corrected by their supplier, and 6 of at least 5 flags of weights known to be too light (common practice, no source)."
        );
        // What is dangerous is said however few lines tell it.
        assert_eq!(few[1..], all[1..]);
    }
}
