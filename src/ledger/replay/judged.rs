//! The loads of a repeated audit, as the counting takes them.

use crate::audit::{Audit, Delivery};
use crate::compare::Verdict;
use crate::judge::Severity;
use crate::replay::{Curve, Judged, Lifted, Named};
use crate::report::loads::{Load, Standing, View};
use crate::settle::Declared;
use crate::understand::{How, WeightKind};
use chrono::NaiveDate;
use std::collections::{BTreeMap, BTreeSet};

/// Where a load stands: position of its file, sheet, whether it is a package, row, and which of several of one place it is. A
/// reading under other settings may give a line another id, and the row is still the row.
#[derive(Clone, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Key {
    source: usize,
    sheet: String,
    package: bool,
    row: u32,
    nth: u32,
}

impl Key {
    /// The next of a place among those that are known.
    pub(super) fn next<V>(
        known: &BTreeMap<Key, V>,
        source: usize,
        sheet: &str,
        package: bool,
        row: u32,
    ) -> Key {
        let mut key = Key {
            source,
            sheet: sheet.to_string(),
            package,
            row,
            nth: 0,
        };
        while known.contains_key(&key) {
            key.nth += 1;
        }
        key
    }
}

/// A load of a repeated audit.
#[derive(Clone)]
pub(super) struct Seen {
    pub(super) named: Named,
    pub(super) judged: Judged,
    pub(super) at: Vec<Verdict>,
}

/// The loads of the sheets asked for.
pub(super) fn of(
    audit: &Audit,
    sheets: &BTreeSet<(usize, String)>,
    curve: &Curve,
) -> BTreeMap<Key, Seen> {
    let mut all = BTreeMap::new();
    for delivery in &audit.deliveries {
        let sheet = &*delivery.reading.place.sheet;
        if !sheets.contains(&(delivery.source, sheet.to_string())) {
            continue;
        }
        let view = View::new(delivery);
        for load in view.loads() {
            let package = matches!(load, Load::Package(..));
            let key = Key::next(&all, delivery.source, sheet, package, load.place().row);
            let seen = Seen {
                named: named(audit.date, delivery, load),
                judged: judged(&view, load),
                at: curve.verdicts(load.declared(), basis(load)),
            };
            all.insert(key, seen);
        }
    }
    all
}

fn basis(load: Load<'_>) -> Result<&crate::estimate::Estimate, &crate::estimate::NoEstimate> {
    match load {
        Load::Line(line) => line.estimate.as_ref(),
        Load::Package(_, package) => package.estimate.as_ref(),
    }
}

fn named(day: NaiveDate, delivery: &Delivery, load: Load<'_>) -> Named {
    let own = match load {
        Load::Line(line) => line.item.supplier.clone(),
        Load::Package(..) => None,
    };
    Named {
        supplier: own.or_else(|| delivery.reading.supplier.clone()),
        delivery: delivery.reading.delivery.clone(),
        day,
        cell: load.weight_place().to_string(),
        item: load.item().to_string(),
        description: load.description().into_owned(),
    }
}

fn judged(view: &View<'_>, load: Load<'_>) -> Judged {
    let grave = load
        .findings()
        .iter()
        .filter(|finding| finding.severity >= Severity::Check);
    let plan = load.plan();
    Judged {
        declared: load.declared().and_then(|declared| lifted(declared, load)),
        verdict: load.verdict(),
        contradicted: load
            .declared()
            .is_some_and(|declared| declared.how == How::Contradicted),
        findings: grave.map(|finding| finding.code).collect(),
        may_lift: view.standing(load) == Standing::MayLift,
        plan: plan.line,
        truck: plan.truck.as_ref().map(|truck| truck.id.clone()),
    }
}

/// A declared weight with the packaging that it may leave out; none where nothing can check it.
fn lifted(declared: &Declared, load: Load<'_>) -> Option<Lifted> {
    let tare = match basis(load) {
        Ok(estimate) => estimate.tare,
        Err(none) => {
            none.upper?;
            return Some(Lifted::gross(declared.mass));
        }
    };
    Some(match declared.kind {
        WeightKind::Gross => Lifted::gross(declared.mass),
        WeightKind::Net => Lifted::net(declared.mass, tare),
        WeightKind::Unstated => Lifted::unstated(declared.mass, tare),
    })
}
