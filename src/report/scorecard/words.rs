//! The figures of a scorecard in words, the same in the workbook and on the terminal.

use crate::report::words::count;
use crate::scorecard::drift::{FEWEST, SLIP};
use crate::scorecard::{Course, FEW, Month, Override, Tally};
use crate::units::show;

/// What stands where loads are too few for a percentage.
pub const FEW_LINES: &str = "few lines";
/// What stands for a supplier that no list names.
pub const NO_SUPPLIER: &str = "no supplier named";

/// A ratio of declared to expected weight, from its logarithm, as what it is off, to a tenth of a percent: -0.05 for 5 % light.
pub fn off(ln: f64) -> f64 {
    // Adding nought takes the sign from a nought.
    ((ln.exp() - 1.0) * 1_000.0).round() / 1_000.0 + 0.0
}

/// The same in words: "about 5 % light", "about right".
pub fn about(ln: f64) -> String {
    let percent = (off(ln) * 100.0).round();
    match percent {
        p if p < 0.0 => format!("about {} % light", -p),
        p if p > 0.0 => format!("about {p} % heavy"),
        _ => "about right".to_string(),
    }
}

/// How the weights of a supplier went, and how many of its deliveries that says nothing of.
pub fn course(course: Option<&Course>, left_out: usize) -> String {
    let of = |deliveries: usize| {
        if deliveries == 1 {
            "1 delivery".to_string()
        } else {
            format!("{} deliveries", show::figure(deliveries as f64))
        }
    };
    let Some(course) = course else {
        return "several, not followed".to_string();
    };
    let told = match course {
        Course::TooFew { deliveries } => {
            format!("too few to tell: {}, {FEWEST} needed", of(*deliveries))
        }
        Course::Steady {
            level,
            biased: true,
            deliveries,
        } => format!("always {}, {}", about(*level), of(*deliveries)),
        Course::Steady { deliveries, .. } if left_out > 0 => {
            format!("no move over {}", of(*deliveries))
        }
        Course::Steady { deliveries, .. } => format!("steady over {}", of(*deliveries)),
        Course::Moved(one) => format!(
            "MOVED: since {} {}, {}; before that {}, {}",
            one.since,
            about(one.after),
            of(one.deliveries),
            about(one.before),
            of(one.deliveries_before)
        ),
    };
    match left_out {
        0 => told,
        _ => format!(
            "{told}; LEFT OUT: {}, each compared line off by more than {} %",
            of(left_out),
            (-off(-SLIP) * 100.0).round()
        ),
    }
}

/// A month as people sort it: `2026-09`.
pub fn month((year, month): Month) -> String {
    format!("{year:04}-{month:02}")
}

/// A part of the lines: "12 of 340 lines (4 %)", "2 of 9 lines (few lines)".
pub fn part(of: usize, tally: &Tally) -> String {
    let share = if tally.is_few() {
        FEW_LINES.to_string()
    } else {
        format!(
            "{} %",
            show::figure((of as f64 / tally.lines as f64 * 1_000.0).round() / 10.0)
        )
    };
    let of = show::figure(of as f64);
    format!("{of} of {} ({share})", count(tally.lines, "line"))
}

/// What is worth a remark about some counts.
pub fn remark(tally: &Tally) -> &'static str {
    if tally.is_few() {
        FEW_LINES
    } else if tally.compared < FEW {
        "few lines compared"
    } else {
        ""
    }
}

/// A median of what lines are off, or its spread, where enough lines are compared.
pub fn where_enough(tally: &Tally, ln: Option<f64>) -> Option<f64> {
    ln.filter(|_| tally.compared >= FEW).map(off)
}

/// What became of an override since; empty where it stands.
pub fn since(one: &Override) -> &'static str {
    match one {
        Override { replaced: true, .. } => "list replaced, or worked out otherwise, since",
        Override { stands: false, .. } => "decided otherwise later",
        _ => "",
    }
}

/// A recorded time to the minute, in its own zone: `2026-11-25 06:30`.
pub fn time(recorded: &str) -> String {
    let minute: String = recorded.chars().take(16).collect();
    minute.replace('T', " ")
}

/// Hours as people say them: "25 minutes", "3.5 hours", "4 days".
pub fn hours(hours: f64) -> String {
    let of = |value: f64, unit: &str| format!("{} {unit}", show::figure(value));
    if hours < 1.0 / 60.0 {
        "a minute".to_string()
    } else if hours < 1.0 {
        of((hours * 60.0).round(), "minutes")
    } else if hours < 48.0 {
        of((hours * 10.0).round() / 10.0, "hours")
    } else {
        of((hours / 24.0).round(), "days")
    }
}
