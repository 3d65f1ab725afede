//! Shares: prior x likelihood of ln(D/(cE)) under the estimate's doubt, normalised over what is possible.

use super::{Candidate, Cause, HYPOTHESES, Named, Slip};
use crate::tables::priors::{self, NO_SINGLE_SLIP};
use crate::units::Mass;
use std::collections::BTreeMap;
use std::f64::consts::PI;

/// A site's tolerance read as so many standard deviations of an honest declared weight (common practice, no source).
const TOLERANCE_SIGMAS: f64 = 3.0;
/// Least standard uncertainty of the comparison, so that a narrow range divides by something (invented, no source).
const LEAST_DOUBT: f64 = 0.01;
/// "No single slip" is uniform over ln(D/E) within +- ln of this (method, section 3).
const ANYTHING: f64 = 2_000.0;
/// A cause is named when its share is within this factor of the best (method, section 3).
const WITHIN: f64 = 3.0;
/// No line of a road or railway delivery weighs more: about the load of a heavy railway wagon (common practice, no source).
const HEAVIEST_LINE: Mass = Mass::from_kg(100_000.0);

/// The likely causes, best first, at most two. `own` are the site's priors, which go before those of the table.
pub fn named(slip: &Slip, own: &BTreeMap<String, f64>) -> Vec<Named> {
    let prior = |kind: &str| own.get(kind).copied().unwrap_or_else(|| priors::of(kind));
    let mut possible: Vec<(&'static str, Candidate, f64)> = HYPOTHESES
        .iter()
        .filter_map(|hypothesis| {
            let (candidate, likelihood) = best(slip, hypothesis.candidates(slip))?;
            Some((
                hypothesis.kind(),
                candidate,
                prior(hypothesis.kind()) * likelihood,
            ))
        })
        .collect();
    // A factor of a thousand or more is a ton before it is a decimal point (method, section 3).
    if possible.iter().any(|(kind, ..)| *kind == "ton-scale") {
        possible.retain(|(kind, ..)| *kind != "decimal");
    }
    // Goods as written that fit no vehicle: only a cause that corrects the size is left.
    if slip.too_long {
        possible.retain(|(_, candidate, _)| candidate.sizes.is_some());
    }
    possible.sort_by(|one, other| other.2.total_cmp(&one.2));
    let nothing = prior(NO_SINGLE_SLIP) * uniform(slip);
    let sum: f64 = nothing + possible.iter().map(|(.., weight)| weight).sum::<f64>();
    let least = possible.first().map_or(0.0, |(.., weight)| *weight) / WITHIN;
    if sum <= 0.0 || nothing / WITHIN > least * WITHIN {
        return Vec::new();
    }
    possible
        .into_iter()
        .take(2)
        .filter(|(.., weight)| *weight > 0.0 && *weight >= least)
        .map(|(kind, candidate, weight)| Named {
            cause: Cause {
                kind,
                would_be_kg: candidate.would_be.kg(),
                share: weight / sum,
            },
            candidate,
        })
        .collect()
}

/// The candidate that explains the slip best, with its likelihood; only those that bring the weight into the range count.
fn best(slip: &Slip, candidates: Vec<Candidate>) -> Option<(Candidate, f64)> {
    candidates
        .into_iter()
        .filter(|candidate| candidate.would_be.kg() > 0.0 && candidate.would_be.fits(HEAVIEST_LINE))
        .filter_map(|candidate| {
            let likelihood =
                candidate.odds * likelihood(slip, candidate.would_be / candidate.factor)?;
            likelihood.is_finite().then_some((candidate, likelihood))
        })
        .max_by(|one, other| one.1.total_cmp(&other.1))
}

/// Density of ln(mass/likely) where the mass lies in the expected range widened by the tolerance: a normal curve with each
/// side's own standard uncertainty. None outside.
fn likelihood(slip: &Slip, mass: Mass) -> Option<f64> {
    let range = slip.expected;
    let inside = (range.low * (1.0 - slip.tolerance)).fits(mass)
        && mass.fits(range.high * (1.0 + slip.tolerance));
    if !inside || range.low.kg() <= 0.0 {
        return None;
    }
    let doubt = |side: f64| {
        (side.ln() / 2.0)
            .hypot(slip.tolerance / TOLERANCE_SIGMAS)
            .max(LEAST_DOUBT)
    };
    let (below, above) = (
        doubt(range.likely / range.low),
        doubt(range.high / range.likely),
    );
    let off = (mass / range.likely).ln();
    let sigma = if off < 0.0 { below } else { above };
    Some(2.0 / ((2.0 * PI).sqrt() * (below + above)) * (-0.5 * (off / sigma).powi(2)).exp())
}

/// Density of ln(D/E) where no single slip explains it.
fn uniform(slip: &Slip) -> f64 {
    let off = (slip.declared / slip.expected.likely).ln().abs();
    if off <= ANYTHING.ln() {
        0.5 / ANYTHING.ln()
    } else {
        0.0
    }
}
