//! The weight to plan the lifts with (method, section 4). Tolerance decides whether to ask, never what to lift.

use super::{Load, PlannedFrom};
use crate::compare::Verdict;
use crate::estimate::Estimate;
use crate::history::DecisionKind;
use crate::tables::goods;
use crate::understand::WeightKind;
use crate::units::Mass;

/// Margin above the kind's highest fill, for an envelope that decides something (method, section 4).
const ENVELOPE_MARGIN: f64 = 1.1;

/// A planning weight of the whole line, packaging included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Planned {
    /// The weight.
    pub mass: Mass,
    /// What it rests on.
    pub from: PlannedFrom,
    /// Nothing could check it.
    pub unchecked: bool,
}

/// The declared weight as a gross one: what is not said to be gross gets the packaging's tare.
pub(super) fn declared_gross(load: &Load<'_>) -> Option<Mass> {
    let declared = load.declared?;
    Some(gross(load, declared.mass))
}

fn gross(load: &Load<'_>, mass: Mass) -> Mass {
    match load.declared.map(|declared| declared.kind) {
        Some(WeightKind::Gross) => mass,
        _ => mass + load.tare().high,
    }
}

/// The planning weight; none for a load that was refused. `carried_by_declared` says whether the truck that the declared weight picks also carries a heavier
/// whole line: it decides for an envelope whether its upper bound proves the lift safe.
pub(super) fn planning(
    load: &Load<'_>,
    margin: f64,
    carried_by_declared: impl Fn(Mass) -> bool,
) -> Option<Planned> {
    if let Some(decision) = load.decided {
        return decision.plan.map(|mass| Planned {
            mass,
            from: match decision.kind {
                DecisionKind::Weighed => PlannedFrom::Weighed,
                _ => PlannedFrom::Decided,
            },
            unchecked: false,
        });
    }
    let declared = declared_gross(load);
    let planned = match (load.verdict, declared, load.estimate) {
        (Verdict::Shared, _, _) => None,
        (Verdict::Missing, _, Ok(estimate)) => {
            let mass = estimate.stands_in(margin);
            let spoken = load.spoken.filter(|spoken| !spoken.fits(mass));
            Some(Planned {
                mass: spoken.unwrap_or(mass),
                from: spoken.map_or(PlannedFrom::Estimate, |_| PlannedFrom::Larger),
                unchecked: false,
            })
        }
        (Verdict::Consistent, Some(declared), Ok(estimate)) => {
            let likely = estimate.line.likely + load.tare().likely;
            Some(larger(declared, likely))
        }
        (Verdict::Light | Verdict::Heavy | Verdict::Impossible, Some(declared), Ok(estimate)) => {
            Some(larger(declared, estimate.stands_in(margin)))
        }
        (Verdict::Unverifiable, Some(declared), Ok(estimate)) => {
            let upper = estimate.block.unwrap_or(estimate.line.high) + load.tare().high;
            if carried_by_declared(upper) {
                Some(Planned {
                    mass: declared,
                    from: PlannedFrom::Declared,
                    unchecked: false,
                })
            } else {
                Some(larger(declared, envelope_high(load, estimate)))
            }
        }
        (_, Some(declared), Err(_)) => Some(Planned {
            mass: declared,
            from: PlannedFrom::Declared,
            unchecked: true,
        }),
        (_, None, _) => None,
    }?;
    Some(with_heaviest(load, planned))
}

/// The kind's highest fill of the solid block with its margin; the block itself where the kind has no fill.
fn envelope_high(load: &Load<'_>, estimate: &Estimate) -> Mass {
    let fill = estimate
        .goods
        .and_then(goods::by_name)
        .and_then(|goods| goods.fill_high)
        .unwrap_or(1.0);
    let block = estimate.block.unwrap_or(estimate.line.high);
    (block * fill * ENVELOPE_MARGIN).min(block) + load.tare().high
}

fn larger(declared: Mass, other: Mass) -> Planned {
    if other.fits(declared) {
        Planned {
            mass: declared,
            from: PlannedFrom::Declared,
            unchecked: false,
        }
    } else {
        Planned {
            mass: other,
            from: PlannedFrom::Larger,
            unchecked: false,
        }
    }
}

/// The heaviest that a load may be beside what is expected: by another reading of its weights, or by earlier weighings.
pub(super) fn still_possible(load: &Load<'_>) -> Mass {
    let heaviest = load.declared.map(|declared| gross(load, declared.heaviest));
    heaviest.unwrap_or(Mass::ZERO).max(load.not_below)
}

/// Where unit or basis is assumed or contradicted, or two weights of the line contradict each other, the heaviest reading
/// still possible counts; and weighings that prove nothing may still be true.
fn with_heaviest(load: &Load<'_>, planned: Planned) -> Planned {
    let mass = still_possible(load);
    if mass.fits(planned.mass) {
        return planned;
    }
    Planned {
        mass,
        from: PlannedFrom::Larger,
        ..planned
    }
}
