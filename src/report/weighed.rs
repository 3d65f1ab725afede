//! One load in plain words: the working as on paper, the range, what is assumed, the planning weight, the truck.
//! Comes in: the audit of one typed load. Goes out: text of at most 100 places a line. Decides nothing.

mod not_known;
mod sizes;

use super::on_paper;
use super::plain_table::{labelled, table};
use super::{loads::Load, words};
use crate::audit::{Asked, Audit, Line};
use crate::compare::Verdict;
use crate::estimate::{Estimate, Evidence};
use crate::judge::{Finding, Severity};
use crate::plan::{LiftFrom, LiftOf, LoadCentreFrom, Plan};
use crate::site::Units;
use crate::understand::{Entered, How};
use crate::units::{Length, Mass, show};
use chrono::NaiveDate;

/// Places on a line.
const WIDTH: usize = 100;
/// Where the texts begin.
const HEAD: usize = 18;

/// A typed load with its answer.
pub struct Weighed<'a> {
    /// The text as typed.
    pub typed: &'a str,
    /// Nothing said how many pieces there are; one was taken.
    pub one_assumed: bool,
    /// What the person who asked said of the lift.
    pub asked: &'a Asked,
    /// The audit of a list that holds this one line.
    pub audit: &'a Audit,
    /// Only the outline is known, and the truck does not carry its upper bound: that bound of one lift.
    pub unproven: Option<Mass>,
    /// What would do where no truck does.
    pub instead: &'a [Instead],
}

/// What would make a truck adequate.
#[derive(Clone, Debug, PartialEq)]
pub enum Instead {
    /// Entering the load at its long side.
    Broadside {
        /// The truck.
        id: String,
        /// The load centre then.
        load_centre: Length,
    },
    /// Waiting for a truck that is out.
    Later {
        /// The truck.
        id: String,
        /// The first day.
        day: NaiveDate,
    },
}

/// The answer for a terminal.
pub fn text(weighed: &Weighed<'_>) -> String {
    let mut text = labelled("", 0, weighed.typed, WIDTH);
    let units = weighed.audit.site.units;
    match weighed
        .audit
        .deliveries
        .iter()
        .flat_map(|delivery| &delivery.lines)
        .next()
    {
        Some(line) => {
            understood(&mut text, line, units);
            match &line.estimate {
                Ok(estimate) => {
                    working(&mut text, estimate, units);
                    range(&mut text, estimate, units);
                }
                Err(_) => not_known::write(&mut text, line, units, WIDTH),
            }
            assumed(&mut text, weighed, line, units);
            lift(&mut text, weighed, line, units);
        }
        None => not_known::no_goods(&mut text, weighed.audit, WIDTH),
    }
    text.push('\n');
    for caution in words::CAUTIONS {
        text.push_str(&format!("{caution}\n"));
    }
    text.push_str(&labelled("", 0, words::NOT_JUDGED, WIDTH));
    text
}

fn entry(text: &mut String, label: &str, value: &str) {
    text.push_str(&labelled(&format!("  {label}"), HEAD, value, WIDTH));
}

fn point(text: &mut String, value: &str) {
    text.push_str(&labelled("  -", 4, value, WIDTH));
}

/// What the words were taken for.
fn understood(text: &mut String, line: &Line, units: Units) {
    text.push_str("\nUnderstood\n");
    let item = &line.item;
    let mut counted = words::count(item.pieces as usize, "piece");
    if let Some(packages) = item.packages {
        let kind = item.packed_as.unwrap_or("package");
        let packages = words::count(packages as usize, kind);
        counted = if item.pieces_how == How::Stated {
            format!("{counted} in {packages}")
        } else {
            packages
        };
    }
    entry(text, "number", &counted);
    let (goods, product, material) = match &line.estimate {
        Ok(estimate) => (
            estimate.goods,
            estimate.product.as_deref(),
            estimate.material,
        ),
        Err(no) => (no.goods, None, None),
    };
    if let Some(goods) = product.or(goods) {
        entry(text, "goods", goods);
    }
    if let Some(material) = material {
        entry(text, "material", material);
    }
    let flat = matches!(
        goods,
        Some("plate" | "sheet" | "flat bar" | "panel" | "glass" | "lumber")
    );
    let sizes = sizes::told(item, if flat { "thickness" } else { "height" }, units);
    if !sizes.is_empty() {
        entry(text, "sizes", &sizes);
    }
    if let Some(declared) = &line.declared {
        let mass = show::weight(declared.mass, units);
        entry(
            text,
            "declared",
            &format!("{mass} for the whole load: \"{}\"", declared.text),
        );
    }
}

fn working(text: &mut String, estimate: &Estimate, units: Units) {
    text.push_str("\nWorking\n");
    for (number, step) in (1..).zip(&estimate.steps) {
        text.push_str(&labelled(&format!("  {number}."), 5, &step.what, WIDTH));
        for line in on_paper::lines(step, units) {
            text.push_str(&labelled("", 5, &line, WIDTH));
        }
        text.push_str(&labelled("     source:", 13, &step.source, WIDTH));
    }
}

fn range(text: &mut String, estimate: &Estimate, units: Units) {
    let bounds = estimate.evidence == Evidence::Envelope;
    text.push_str(if bounds {
        "\nExpected: only bounds. The upper one may prove that a lift is safe; none proves what it weighs.\n"
    } else {
        "\nExpected\n"
    });
    let unit = show::mass_unit(units);
    let figures = |low: Mass, likely: Mass, high: Mass| {
        format!(
            "low {}, likely {}, high {} {unit}",
            show::figure(show::low_value(low, units)),
            show::figure(show::weight_value(likely, units)),
            show::figure(show::high_value(high, units))
        )
    };
    let line = estimate.line;
    entry(
        text,
        "whole load",
        &figures(line.low, line.likely, line.high),
    );
    let tare = estimate.tare;
    if tare.high > Mass::ZERO {
        entry(
            text,
            "packaging",
            &figures(tare.low, tare.likely, tare.high),
        );
    }
}

/// Findings that say again what the answer says by itself.
const SAID: [&str; 6] = [
    "declared-missing",
    "no-planning-weight",
    "no-truck",
    "lift-divided",
    "lift-assumed",
    "close-call",
];

/// What was taken without being said, and what has to be settled.
fn assumed(text: &mut String, weighed: &Weighed<'_>, line: &Line, units: Units) {
    let mut points = Vec::new();
    if weighed.one_assumed {
        points.push(
            "one piece: no number was typed (type \"3 pcs\" or \"x 3\", or give --pieces 3)"
                .to_string(),
        );
    }
    points.extend(sizes::without_unit(&line.item.description, units));
    let planned = line.plan.lift.is_some();
    if planned && weighed.asked.lift_height.is_none() {
        points.push(format!(
            "lift height {}, the site's (give --height)",
            show::length(weighed.audit.site.lift_height_m, units)
        ));
    }
    let plan = &line.plan;
    if planned && plan.lift_from == LiftFrom::Assumed && line.item.pieces > 1 {
        let how = match plan.lift_of {
            LiftOf::Piece => "the pieces come singly".to_string(),
            _ if plan.divided => {
                format!(
                    "{} equal lifts, because no truck carries all pieces at once",
                    plan.lifts
                )
            }
            _ => "all pieces come as one lift".to_string(),
        };
        points.push(format!(
            "{how} (say otherwise with \"bundled\", \"palletised\", \"singly\" in the text)"
        ));
    }
    let findings = line
        .findings
        .iter()
        .filter(|finding| !SAID.contains(&finding.code));
    points.extend(findings.map(|finding| worded(finding, line, units)));
    if !points.is_empty() {
        text.push_str("\nAssumed, and to settle\n");
    }
    for one in points {
        point(text, &one);
    }
}

/// A finding in words. The cells of a typed load exist only inside the program: they are not named.
fn worded(finding: &Finding, line: &Line, units: Units) -> String {
    let text = if finding.severity == Severity::Note {
        words::sentence(&finding.message)
    } else {
        words::finding(finding, units)
    };
    match &line.declared {
        Some(declared) => {
            let cell = declared.place.cell();
            text.replace(&format!("({cell}: "), "(")
                .replace(&format!(" ({cell})"), "")
        }
        None => text,
    }
}

fn lift(text: &mut String, weighed: &Weighed<'_>, line: &Line, units: Units) {
    let plan = &line.plan;
    text.push_str("\nLift\n");
    let Some(lift) = plan.lift else {
        entry(
            text,
            "planning weight",
            "none: do not lift it before it is weighed or its weight is documented",
        );
        return;
    };
    entry(
        text,
        "planning weight",
        &planning(weighed, line, lift, units),
    );
    entry(text, "load centre", &load_centre(weighed, plan, units));
    let Some(fleet) = &weighed.audit.fleet else {
        entry(
            text,
            "truck",
            "none named: no fleet register was given (give --fleet or name it in the site file)",
        );
        return;
    };
    match &plan.truck {
        Some(truck) => {
            let mut told = format!(
                "{}: lifts {} there, {} used",
                truck.id,
                show::capacity(truck.capacity.mass, units),
                show::share(truck.used)
            );
            for note in &truck.notes {
                told.push_str(&format!("; {note}"));
            }
            if truck.used > CLOSE {
                told.push_str("; CLOSE to its limit: consider the next larger truck");
            }
            if plan.held {
                told.push_str("; HELD until what stands above is settled");
            }
            entry(text, "truck", &told);
            if let Some(bound) = weighed.unproven {
                let bound = show::planning(bound, units);
                entry(
                    text,
                    "HELD",
                    &format!(
                        "a solid block of these sizes would weigh {bound} a lift, more than this truck may take: find the \
                     real weight before it is lifted"
                    ),
                );
            }
            let in_lift = line.item.pieces.div_ceil(plan.lifts.max(1));
            if let Some(most) = plan.most_pieces.filter(|most| *most > in_lift) {
                entry(
                    text,
                    "at most",
                    &format!("{} at once", words::count(most as usize, "piece")),
                );
            }
        }
        None => {
            let why = plan
                .truck_without
                .as_deref()
                .unwrap_or("no truck is adequate");
            entry(text, "NO TRUCK", &words::sentence(why));
        }
    }
    for instead in weighed.instead {
        entry(text, "would do", &would_do(instead, units));
    }
    if !plan.why_not.is_empty() {
        text.push_str(if plan.truck.is_some() {
            "\nWhy no smaller truck\n"
        } else {
            "\nWhy none of the trucks\n"
        });
        let rows: Vec<Vec<String>> = plan
            .why_not
            .iter()
            .map(|no| vec![no.truck.clone(), no.clause.clone()])
            .collect();
        text.push_str(&table(&["truck", "why not"], &[14, 80], &rows));
    }
    if !fleet.faults.is_empty() {
        text.push_str(&format!("\nFaults in the register {}\n", fleet.file));
        for fault in &fleet.faults {
            point(text, &format!("{}: {}", fault.place.cell(), fault.message));
        }
    }
}

/// Above this share of a truck's capacity a lift is a close call.
const CLOSE: f64 = super::summary::CLOSE;

/// The planning weight of a lift and what it rests on.
fn planning(weighed: &Weighed<'_>, line: &Line, lift: Mass, units: Units) -> String {
    let plan = &line.plan;
    let mut told = format!("{} a lift", show::planning(lift, units));
    if plan.lifts > 1 {
        let whole = plan.line.map_or(String::new(), |line| {
            format!(", {} together", show::planning(line, units))
        });
        told.push_str(&format!(", {} lifts{whole}", plan.lifts));
    }
    let from = match (&line.estimate, line.verdict) {
        (Ok(estimate), Verdict::Missing) if estimate.evidence != Evidence::Envelope => {
            let margin = weighed.audit.site.margin;
            let with = estimate.line.likely * (1.0 + margin);
            format!(
                "whole load: the larger of likely + {} % ({}) and high ({}){}",
                show::figure(margin * 100.0),
                show::planning(with, units),
                show::planning(estimate.line.high, units),
                packaging(estimate)
            )
        }
        (Ok(estimate), Verdict::Missing) => format!(
            "highest usual fill of the solid block + 10 %, no more than the block{}",
            packaging(estimate)
        ),
        _ => words::planned_from(Load::Line(line)).to_string(),
    };
    format!("{told} ({from})")
}

fn packaging(estimate: &Estimate) -> &'static str {
    if estimate.tare.high > Mass::ZERO {
        ", with the highest packaging"
    } else {
        ""
    }
}

fn load_centre(weighed: &Weighed<'_>, plan: &Plan, units: Units) -> String {
    let side = match weighed.asked.entered {
        Some(Entered::Broadside) => ", entered broadside as asked",
        Some(Entered::Endwise) => ", entered endwise as asked",
        None => "",
    };
    let depth = show::load_centre(plan.depth, units);
    let gap = weighed.audit.site.load_gap_m;
    let half = plan.load_centre - gap;
    let part = show::figure(half / plan.depth);
    let from = match plan.load_centre_from {
        LoadCentreFrom::Default => format!("no size is known: {depth} deep was taken"),
        from => words::load_centre_from(from).to_string(),
    };
    let gap = if gap > Length::ZERO {
        format!(", and a gap of {} to the forks", show::length(gap, units))
    } else {
        String::new()
    };
    format!(
        "{} ({part} of {depth} along the forks{gap}; {from}{side})",
        show::load_centre(plan.load_centre, units)
    )
}

fn would_do(instead: &Instead, units: Units) -> String {
    match instead {
        Instead::Broadside { id, load_centre } => format!(
            "{id}, if the load is turned and entered broadside (load centre {})",
            show::load_centre(*load_centre, units)
        ),
        Instead::Later { id, day } => format!("{id} from {day}"),
    }
}
