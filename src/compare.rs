//! Declared against expected: the verdict of one line or package.
//! Comes in: a declared weight and an estimate. Goes out: a verdict. Never changes a declared weight.

use crate::estimate::{Estimate, Evidence, NoEstimate};
use crate::settle::Declared;
use crate::site::{Site, Units};
use crate::understand::WeightKind;
use crate::units::{Mass, MassRange, show};
use serde::{Deserialize, Serialize};

/// A solid shape that weighs more than this many times the upper end is impossible (method, section 3).
const SOLID_MARGIN: f64 = 1.5;

/// What the comparison says (contract.md has the meanings).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Verdict {
    /// Inside the expected range, widened by the tolerance.
    Consistent,
    /// No usable declared weight.
    Missing,
    /// Below the range: the dangerous side.
    Light,
    /// Above the range.
    Heavy,
    /// More than a solid block can weigh.
    Impossible,
    /// Nothing to check it with.
    Unverifiable,
    /// Judged on its package.
    Shared,
}

/// How much a declared weight may differ before it is asked about.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tolerance {
    /// Relative.
    pub relative: f64,
    /// A weight this near to a bound is consistent.
    pub floor: Mass,
}

impl Tolerance {
    /// The site's tolerance for goods of a group of materials; for all others where the group has none of its own.
    pub fn of(site: &Site, group: Option<&str>) -> Tolerance {
        let own = group.and_then(|group| site.tolerance_by_group.get(group));
        Tolerance {
            relative: own.copied().unwrap_or(site.tolerance),
            floor: site.floor_kg,
        }
    }
}

impl Verdict {
    /// The declared weight itself is doubted: light, heavy or impossible.
    pub fn doubts_weight(self) -> bool {
        matches!(self, Verdict::Light | Verdict::Heavy | Verdict::Impossible)
    }
}

/// What a declared weight of that kind is expected to be: a gross weight has the packaging's tare on top of the goods, one
/// that does not say may have it.
pub fn expected(estimate: &Estimate, kind: WeightKind) -> MassRange {
    match kind {
        WeightKind::Net => estimate.line,
        WeightKind::Gross => estimate.line.plus(estimate.tare),
        WeightKind::Unstated => MassRange {
            low: estimate.line.low,
            likely: estimate.line.likely + estimate.tare.likely / 2.0,
            high: estimate.line.high + estimate.tare.high,
        },
    }
}

/// What a decided weight of a whole line, with its packaging or without, may be before somebody looks again.
#[derive(Clone, Copy, Debug, PartialEq, Serialize, Deserialize)]
pub struct Bounds {
    /// At least; zero where nothing says.
    pub low: Mass,
    /// At most; none where nothing says.
    pub high: Option<Mass>,
}

impl Bounds {
    /// What is expected, widened by the tolerance; without an estimate what is declared, above which it is on the safe side.
    pub fn of(
        declared: Option<&Declared>,
        estimate: Result<&Estimate, &NoEstimate>,
        tolerance: Tolerance,
    ) -> Bounds {
        let Tolerance { relative, floor } = tolerance;
        let (low, high) = match estimate {
            Ok(estimate) => {
                let block = estimate
                    .block
                    .filter(|_| estimate.evidence == Evidence::Envelope);
                let high = block.unwrap_or(estimate.line.high);
                (estimate.line.low, Some(high + estimate.tare.high))
            }
            Err(no) => (
                declared.map_or(Mass::ZERO, |declared| declared.mass),
                no.upper,
            ),
        };
        Bounds {
            low: (low * (1.0 - relative)).min(low - floor.min(low)),
            high: high.map(|high| (high * (1.0 + relative)).max(high + floor)),
        }
    }

    /// What is to be done about a decided weight outside of them.
    pub fn doubt(&self, mass: Mass, units: Units) -> Option<String> {
        let Bounds { low, high } = *self;
        if !low.fits(mass) {
            let least = show::weight(low, units);
            return Some(format!(
                "LIGHTER THAN IT SHOULD BE (at least {least}): weigh it again"
            ));
        }
        let most = show::weight(high.filter(|high| !mass.fits(*high))?, units);
        Some(format!(
            "HEAVIER THAN IT SHOULD BE (at most {most}): see that the weight is of this line"
        ))
    }
}

/// The verdict, tried in the order of the method's section 3.
pub fn verdict(
    declared: Option<&Declared>,
    estimate: Result<&Estimate, &NoEstimate>,
    tolerance: Tolerance,
) -> Verdict {
    let Some(declared) = declared else {
        return Verdict::Missing;
    };
    let mass = declared.mass;
    let tol = tolerance.relative;
    let estimate = match estimate {
        Ok(estimate) => estimate,
        // Size without material: nothing on a dock weighs more than solid lead.
        Err(NoEstimate {
            upper: Some(upper), ..
        }) if !mass.fits(*upper * (1.0 + tol)) => return Verdict::Impossible,
        Err(_) => return Verdict::Unverifiable,
    };
    let range = expected(estimate, declared.kind);
    let tare = estimate.tare.high;
    let envelope = estimate.evidence == Evidence::Envelope;
    let upper = if envelope {
        estimate.block.unwrap_or(estimate.line.high) + tare
    } else {
        range.high
    };
    if envelope && (range.low * (1.0 - tol)).fits(mass) && mass.fits(upper) {
        return Verdict::Unverifiable;
    }
    // Within the floor of the nearest bound, before the others are tried.
    if range.low.fits(mass + tolerance.floor) && mass.fits(upper + tolerance.floor) {
        return Verdict::Consistent;
    }
    if envelope {
        return if mass.fits(upper) {
            Verdict::Light
        } else {
            Verdict::Impossible
        };
    }
    let impossible = match estimate.block {
        Some(block) if !estimate.solid => !mass.fits((block + tare).max(range.high) * (1.0 + tol)),
        _ => !mass.fits(range.high * SOLID_MARGIN),
    };
    if impossible {
        Verdict::Impossible
    } else if !mass.fits(range.high * (1.0 + tol)) {
        Verdict::Heavy
    } else if !(range.low * (1.0 - tol)).fits(mass) {
        Verdict::Light
    } else {
        Verdict::Consistent
    }
}

#[cfg(test)]
mod tests;
