//! How a typed load is lifted: planning weight, load centre, truck, why not the others, and what would do.

use super::{Weighed, entry, point};
use crate::audit::Line;
use crate::compare::Verdict;
use crate::estimate::{Estimate, Evidence};
use crate::plan::{LoadCentreFrom, Plan};
use crate::report::plain_table::table;
use crate::report::{loads::Load, words};
use crate::site::Units;
use crate::understand::Entered;
use crate::units::{Length, Mass, show};

/// The lift as planned.
pub(super) fn write(text: &mut String, weighed: &Weighed<'_>, line: &Line, units: Units) {
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
            if truck.is_close(weighed.audit.site.use_limit) {
                told.push_str("; CLOSE to its limit: consider the next larger truck");
            }
            if !plan.held.is_empty() {
                told.push_str("; HELD until what stands above is settled");
            }
            entry(text, "truck", &told);
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
    // Where there is no truck, the reason has said it.
    for instead in plan.instead.iter().filter(|_| plan.divided) {
        entry(text, "or whole", &instead.in_words(units));
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
            point(
                text,
                &format!("{}: {}", fault.place.cell(), fault.message()),
            );
        }
    }
}

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
            "a solid block of these sizes, of the densest such material{}",
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
        LoadCentreFrom::Default => format!("not stated: {depth} deep was taken"),
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
