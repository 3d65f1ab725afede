//! Lines and packages seen alike, in the file's order, and whether each may be lifted.
//! Comes in: a delivery. Goes out: its loads. Holds back whatever any stage before held back, and releases nothing.

use super::words;
use crate::audit::{Decided, Delivery, Line, Package};
use crate::compare::{self, Verdict};
use crate::estimate::{Estimate, NoEstimate};
use crate::history::EarlierDecision;
use crate::judge::{Finding, Severity};
use crate::place::Place;
use crate::plan::{LiftOf, Plan};
use crate::settle::Declared;
use crate::units::MassRange;
use std::borrow::Cow;
use std::cmp::Ordering;

/// A line or a package of a delivery.
#[derive(Clone, Copy, Debug)]
pub enum Load<'a> {
    /// A goods line.
    Line(&'a Line),
    /// A weight that stands for several lines, with its position in the delivery.
    Package(usize, &'a Package),
}

/// Whether a load may be lifted now.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Standing {
    /// As planned.
    MayLift,
    /// Not before something is settled.
    Held,
}

/// A delivery with what holds its loads back, worked out once.
#[derive(Debug)]
pub struct View<'a> {
    /// The delivery.
    pub delivery: &'a Delivery,
    /// A finding on the whole delivery says stop: nothing of it is lifted.
    stopped: bool,
    /// By package: one of its lines says stop, so the package waits with it.
    package_stopped: Vec<bool>,
}

/// Packages and lines of a delivery by row; a package stands before the line of the same row.
pub fn of(delivery: &Delivery) -> impl Iterator<Item = Load<'_>> {
    let mut packages = delivery.packages.iter().enumerate().peekable();
    let mut lines = delivery.lines.iter().peekable();
    std::iter::from_fn(move || match (packages.peek(), lines.peek()) {
        (Some((_, package)), Some(line)) if package.shared.place.row > line.item.place.row => {
            lines.next().map(Load::Line)
        }
        (Some(_), _) => packages
            .next()
            .map(|(at, package)| Load::Package(at, package)),
        (None, _) => lines.next().map(Load::Line),
    })
}

impl<'a> View<'a> {
    /// Looks a delivery through once.
    pub fn new(delivery: &'a Delivery) -> View<'a> {
        let mut package_stopped = vec![false; delivery.packages.len()];
        for line in &delivery.lines {
            let package = line
                .item
                .shared_with
                .and_then(|at| package_stopped.get_mut(at));
            if let Some(stopped) = package {
                *stopped |= line.severity() == Some(Severity::Stop);
            }
        }
        View {
            delivery,
            stopped: worst(&delivery.findings) == Some(Severity::Stop),
            package_stopped,
        }
    }

    /// Whether the sheet gave neither lines nor packages.
    pub fn is_empty(&self) -> bool {
        self.delivery.lines.is_empty() && self.delivery.packages.is_empty()
    }

    /// `list.xlsx › Sheet 1`; the file alone where it has no sheets.
    pub fn file_and_sheet(&self) -> String {
        let place = &self.delivery.reading.place;
        if place.sheet.is_empty() {
            place.file.to_string()
        } else {
            format!("{} › {}", place.file, place.sheet)
        }
    }

    /// The findings on the delivery as a whole that are this urgent.
    pub fn findings(&self, severity: Severity) -> impl Iterator<Item = &'a Finding> {
        let findings = self.delivery.findings.iter();
        findings.filter(move |finding| finding.severity == severity)
    }

    /// The loads by row.
    pub fn loads(&self) -> impl Iterator<Item = Load<'a>> {
        of(self.delivery)
    }

    /// The loads that may be lifted, by row, and after them the held ones, by row.
    pub fn loads_held_last(&self) -> impl Iterator<Item = (Load<'a>, Standing)> {
        let seen = |wanted: Standing| {
            self.loads()
                .map(|load| (load, self.standing(load)))
                .filter(move |(_, standing)| *standing == wanted)
        };
        seen(Standing::MayLift).chain(seen(Standing::Held))
    }

    /// The held loads, worst first; lines that are lifted with a package are left to it.
    pub fn waiting(&self) -> Vec<Load<'a>> {
        let mut waiting: Vec<Load<'a>> = self
            .loads()
            .filter(|load| {
                self.package_of(*load).is_none() && self.standing(*load) == Standing::Held
            })
            .collect();
        waiting.sort_by(|a, b| worst_first(*a, *b));
        waiting
    }

    /// Whether a load may be lifted now. A line lifted with its package stands as the package stands. A load without
    /// planning weight or truck, with a `stop` of its own or of its delivery, is held whatever its plan says.
    pub fn standing(&self, load: Load<'a>) -> Standing {
        let held = match load {
            _ if self.stopped => true,
            Load::Line(line) if line.plan.lift_of == LiftOf::Shared => {
                line.item.shared_with.is_none_or(|at| self.package_held(at))
            }
            Load::Line(line) => own_hold(&line.plan, &line.findings),
            Load::Package(at, _) => self.package_held(at),
        };
        if held {
            Standing::Held
        } else {
            Standing::MayLift
        }
    }

    /// The package that carries a line's weight.
    pub fn package_of(&self, load: Load<'a>) -> Option<&'a Package> {
        match load {
            Load::Line(line) => line
                .item
                .shared_with
                .and_then(|at| self.delivery.packages.get(at)),
            Load::Package(..) => None,
        }
    }

    fn package_held(&self, at: usize) -> bool {
        let stopped = self.package_stopped.get(at).copied().unwrap_or(true);
        stopped
            || self
                .delivery
                .packages
                .get(at)
                .is_none_or(|package| own_hold(&package.plan, &package.findings))
    }
}

impl<'a> Load<'a> {
    /// No number of pieces could be read: one was taken.
    pub fn uncounted(self) -> bool {
        matches!(self, Load::Line(line) if line.item.uncounted())
    }

    /// Its row; for a package the cell where its weight stands.
    pub fn place(self) -> &'a Place {
        match self {
            Load::Line(line) => &line.item.place,
            Load::Package(_, package) => &package.shared.place,
        }
    }

    /// The cell of the declared weight, or of the unusable one, or the row.
    pub fn weight_place(self) -> &'a Place {
        let unusable = match self {
            Load::Line(line) => line.item.unusable.first(),
            Load::Package(_, package) => package.shared.unusable.first(),
        };
        match (self.declared(), unusable) {
            (Some(declared), _) => &declared.place,
            (None, Some(unusable)) => &unusable.place,
            (None, None) => self.place(),
        }
    }

    /// The declared weight as the supplier wrote it, an unusable one too; empty when the cell is blank.
    pub fn declared_text(self) -> &'a str {
        let unusable = match self {
            Load::Line(line) => line.item.unusable.first(),
            Load::Package(_, package) => package.shared.unusable.first(),
        };
        match (self.declared(), unusable) {
            (Some(declared), _) => &declared.text,
            (None, Some(unusable)) => &unusable.text,
            (None, None) => "",
        }
    }

    /// The declared weight, settled.
    pub fn declared(self) -> Option<&'a Declared> {
        match self {
            Load::Line(line) => line.declared.as_ref(),
            Load::Package(_, package) => package.declared.as_ref(),
        }
    }

    /// The estimate, where there is one.
    pub fn estimate(self) -> Option<&'a Estimate> {
        self.estimated().ok()
    }

    /// The estimate, or why none.
    pub fn estimated(self) -> Result<&'a Estimate, &'a NoEstimate> {
        match self {
            Load::Line(line) => line.estimate.as_ref(),
            Load::Package(_, package) => package.estimate.as_ref(),
        }
    }

    /// What its declared weight is compared with: the estimate, with packing where the weight may hold some. Without a declared
    /// weight, the goods alone.
    pub fn expected(self) -> Option<MassRange> {
        let estimate = self.estimate()?;
        let declared = self.declared();
        Some(declared.map_or(estimate.line, |declared| {
            compare::expected(estimate, declared.kind)
        }))
    }

    /// Why there is no estimate.
    pub fn no_estimate(self) -> Option<&'a str> {
        let none = self.estimated().err();
        none.map(|none| none.why.as_str())
    }

    /// The verdict.
    pub fn verdict(self) -> Verdict {
        match self {
            Load::Line(line) => line.verdict,
            Load::Package(_, package) => package.verdict,
        }
    }

    /// The findings.
    pub fn findings(self) -> &'a [Finding] {
        match self {
            Load::Line(line) => &line.findings,
            Load::Package(_, package) => &package.findings,
        }
    }

    /// The worst severity among the findings.
    pub fn severity(self) -> Option<Severity> {
        worst(self.findings())
    }

    /// `stop` or `check`: somebody has to look at it.
    pub fn flagged(self) -> bool {
        self.severity() >= Some(Severity::Check)
    }

    /// The plan.
    pub fn plan(self) -> &'a Plan {
        match self {
            Load::Line(line) => &line.plan,
            Load::Package(_, package) => &package.plan,
        }
    }

    /// The decision that stands for it.
    pub fn decision(self) -> Option<&'a EarlierDecision> {
        self.decided().map(|decided| &decided.decision)
    }

    /// The plan without any decision.
    pub fn undecided_plan(self) -> &'a Plan {
        self.decided()
            .map_or(self.plan(), |decided| &decided.before)
    }

    fn decided(self) -> Option<&'a Decided> {
        match self {
            Load::Line(line) => line.decided.as_deref(),
            Load::Package(_, package) => package.decided.as_deref(),
        }
    }

    /// Hash of what a decision on it rests on.
    pub fn substance(self) -> &'a str {
        match self {
            Load::Line(line) => &line.substance,
            Load::Package(_, package) => &package.substance,
        }
    }

    /// Item number of a line, name of a package.
    pub fn item(self) -> &'a str {
        match self {
            Load::Line(line) => line.item.item.as_deref().unwrap_or_default(),
            Load::Package(_, package) => &package.shared.name,
        }
    }

    /// Description of a line; of a package its kind and the rows that it stands for, or its name where it stands for none.
    pub fn description(self) -> Cow<'a, str> {
        match self {
            Load::Line(line) => Cow::Borrowed(&line.item.description),
            Load::Package(_, package) => {
                let kind = package.shared.packed_as.unwrap_or("package");
                if package.shared.rows.is_empty() {
                    return Cow::Owned(format!("{kind} \"{}\"", package.shared.name));
                }
                Cow::Owned(format!(
                    "{kind} with the lines of {}",
                    words::rows(&package.shared.rows)
                ))
            }
        }
    }

    /// Its id, under which a decision on it comes back.
    pub fn id(self) -> &'a str {
        match self {
            Load::Line(line) => &line.id,
            Load::Package(_, package) => &package.id,
        }
    }
}

/// The worst severity among findings.
pub fn worst(findings: &[Finding]) -> Option<Severity> {
    findings.iter().map(|finding| finding.severity).max()
}

/// Orders loads by how bad they are: stop before check, then by the overload of the truck that the declared weight would
/// have picked, then by the share of the likely weight that the declared weight leaves out.
pub fn worst_first(a: Load<'_>, b: Load<'_>) -> Ordering {
    b.severity()
        .cmp(&a.severity())
        .then(overload(b).total_cmp(&overload(a)))
        .then(left_out(b).total_cmp(&left_out(a)))
}

fn overload(load: Load<'_>) -> f64 {
    let truck = load.plan().declared_truck.as_ref();
    truck.map_or(0.0, |(_, overload)| overload.kg())
}

fn left_out(load: Load<'_>) -> f64 {
    match (load.declared(), load.expected()) {
        (Some(declared), Some(expected)) if expected.likely.kg() > 0.0 => {
            1.0 - declared.mass / expected.likely
        }
        (None, _) => 1.0,
        _ => 0.0,
    }
}

fn own_hold(plan: &Plan, findings: &[Finding]) -> bool {
    !plan.held.is_empty()
        || plan.truck.is_none()
        || plan.lift.is_none()
        || worst(findings) == Some(Severity::Stop)
}

#[cfg(test)]
mod tests;
