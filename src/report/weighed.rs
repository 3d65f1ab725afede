//! One load in plain words: the working as on paper, the range, what is assumed, the planning weight, the truck.
//! Comes in: the audit of one typed load. Goes out: text of at most 100 places a line. Decides nothing.

mod lift;
mod not_known;
mod sizes;

use super::on_paper;
use super::plain_table::labelled;
use super::words;
use crate::audit::{Asked, Audit, Line};
use crate::estimate::{Estimate, Evidence};
use crate::judge::{Finding, Severity};
use crate::plan::{LiftFrom, LiftOf};
use crate::site::Units;
use crate::understand::How;
use crate::units::{Mass, show};

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
                Err(_) => {
                    not_known::write(&mut text, line, &weighed.audit.vocabulary, units, WIDTH)
                }
            }
            assumed(&mut text, weighed, line, units);
            lift::write(&mut text, weighed, line, units);
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
            estimate.material.map(|material| material.name),
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
    if !sizes.is_empty() && !sizes::are_a_name(line) {
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
const SAID: [&str; 7] = [
    "declared-missing",
    "no-register",
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
    if !sizes::are_a_name(line) {
        points.extend(sizes::without_unit(&line.item.description, units));
    }
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
    let of_list = weighed
        .audit
        .deliveries
        .iter()
        .flat_map(|one| &one.findings);
    let findings = line
        .findings
        .iter()
        .chain(of_list)
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
