//! The words of a day's reports about a load, kept with it: a later program may say it otherwise, and the story must stay.

use crate::compare::{Bounds, Tolerance};
use crate::estimate::Estimate;
use crate::plan::PlannedFrom;
use crate::report::loads::{Load, View};
use crate::report::on_paper;
use crate::report::words;
use crate::site::Site;
use crate::site::Units;
use crate::understand::{How, WeightKind};
use crate::units::Mass;
use serde::{Deserialize, Serialize};

/// What the reports said of a load, and the two weights that a decision may take up.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Shown {
    /// Units of the words.
    pub(super) units: Units,
    /// Cell of the declared weight; the row where there is none.
    pub(super) cell: String,
    /// The declared weight as the supplier wrote it; empty where the cell is blank.
    pub(super) written: String,
    /// How unit and basis of the declared weight were found.
    pub(super) read: String,
    /// The steps of the working.
    pub(super) working: Vec<Working>,
    /// Why there is no estimate.
    pub(super) no_estimate: Option<String>,
    /// The findings.
    pub(super) findings: Vec<String>,
    /// What the planning weight rests on.
    pub(super) planned_from: String,
    /// What one lift takes.
    pub(super) lift_of: String,
    /// Where the load centre came from.
    pub(super) load_centre_from: String,
    /// Why each smaller truck would not do.
    pub(super) why_not: Vec<(String, String)>,
    /// Whether it might be lifted.
    pub(super) standing: String,
    /// What was to be done next.
    pub(super) next: String,
    /// The unit of its quantity, as written.
    #[serde(default)]
    pub(super) unit: Option<String>,
    /// Its pieces were counted by the list, not taken for one.
    #[serde(default)]
    pub(super) counted: bool,
    /// What the load is planned with if the declared weight is accepted: with packaging, kg.
    pub(super) declared_kg: Option<Mass>,
    /// What the load is planned with if the estimate is used: with margin and packaging, kg.
    pub(super) estimate_kg: Option<Mass>,
    /// What a decided weight may be before somebody looks again; none in older records.
    #[serde(default)]
    pub(super) bounds: Option<Bounds>,
    /// The heaviest that it may be beside what is expected, kg; zero in older records.
    #[serde(default)]
    pub(super) still_possible_kg: Mass,
}

/// One step of a working.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub(super) struct Working {
    /// What was worked out.
    pub(super) what: String,
    /// As on paper.
    pub(super) lines: Vec<String>,
    /// What it rests on.
    pub(super) source: String,
}

impl Shown {
    /// The words about a load of a delivery.
    pub(super) fn of(site: &Site, view: &View<'_>, load: Load<'_>) -> Shown {
        let units = site.units;
        let plan = load.plan();
        let standing = view.standing(load);
        let steps = load.estimate().map_or(&[][..], |estimate| &estimate.steps);
        Shown {
            units,
            cell: load.weight_place().cell(),
            written: load.declared_text().to_string(),
            read: load.declared().map_or(String::new(), |declared| {
                words::how(declared.how).to_string()
            }),
            unit: match load {
                Load::Line(line) => line.item.unit.clone(),
                Load::Package(..) => None,
            },
            counted: match load {
                Load::Line(line) => line.item.pieces_how != How::Assumed,
                Load::Package(..) => true,
            },
            working: steps
                .iter()
                .map(|step| Working {
                    what: step.what.clone(),
                    lines: on_paper::lines(step, units),
                    source: step.source.clone(),
                })
                .collect(),
            no_estimate: load.no_estimate().map(str::to_string),
            findings: load
                .findings()
                .iter()
                .map(|finding| words::finding(finding, units))
                .collect(),
            planned_from: words::planned_from(load).to_string(),
            lift_of: words::lift_of(plan),
            load_centre_from: words::load_centre_from(plan.load_centre_from).to_string(),
            why_not: plan
                .why_not
                .iter()
                .map(|why| (why.truck.clone(), why.clause.clone()))
                .collect(),
            standing: words::standing(standing, load.severity()).to_string(),
            next: words::next(load, standing, units),
            declared_kg: declared(load),
            estimate_kg: load
                .estimate()
                .map(|estimate| estimate.stands_in(site.margin)),
            bounds: Some(Bounds::of(
                load.declared(),
                load.estimated(),
                Tolerance::of(site, load.estimate().and_then(|estimate| estimate.group)),
            )),
            still_possible_kg: load.undecided_plan().still_possible,
        }
    }
}

/// The declared weight with packaging where it may be without. What was planned with it already is taken as planned. It is the
/// reading that counts: where unit or basis is assumed, `still_possible_kg` has the heaviest.
fn declared(load: Load<'_>) -> Option<Mass> {
    let declared = load.declared()?;
    let plan = load.undecided_plan();
    if plan.from == PlannedFrom::Declared {
        return plan.line;
    }
    let tare = load
        .estimate()
        .map_or(Mass::ZERO, |estimate: &Estimate| estimate.tare.high);
    Some(match declared.kind {
        WeightKind::Gross => declared.mass,
        _ => declared.mass + tare,
    })
}
