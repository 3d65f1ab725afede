//! Whether a supplier's weights moved, since when and by how much.
//! Comes in: one figure a delivery, in the order of time. Goes out: too few to tell, steady, or the last move.
//!
//! The test: for every date, the deliveries before it are compared with those from it on by their ranks (Mann and Whitney
//! 1947, midranks for equal values; Pettitt 1979 for the date that parts them best). The date where the sums of ranks differ
//! by most of their own standard deviations is the date of a move where that is more than [`LIMIT`] of them. Ranks know
//! nothing of how the values scatter, so the rate of false alarms is the same for quiet suppliers, for wild ones and for
//! those with an odd delivery now and then. (Formulas from memory, held by simulation.)

use super::numbers::{median, median_and_spread};
use chrono::NaiveDate;

/// Standard deviations of the sum of ranks from which on a supplier's weights are called moved. By simulation (tests): about
/// [`FALSE_ALARMS`] of the suppliers whose weights never move are named at some time.
pub const LIMIT: f64 = 3.5;
/// Part of the suppliers whose weights never move that are named at least once while they make their first 100 deliveries,
/// looked at after each of them.
pub const FALSE_ALARMS: f64 = 0.05;
/// The same as measured on 2,000 simulated suppliers, by how their weights scatter: 3 % between deliveries, 4 % between the
/// lines of one.
pub const MEASURED: [(&str, f64); 4] = [
    ("normally scattered, 3 to 12 lines a delivery", 0.045),
    ("with heavy tails, 3 to 12 lines", 0.043),
    ("1 to 3 lines a delivery", 0.044),
    ("one delivery in ten scatters four times as much", 0.052),
];
/// Part of those with normal scatter that are named at some time during their first 300 deliveries, as measured.
pub const OVER_300: f64 = 0.17;
/// Part of such suppliers that a single look after 100 deliveries names, as measured on 80,000 (in each form of noise 0.7 to
/// 0.8 %).
pub const ONE_LOOK: f64 = 0.0075;
/// Part of the moves by 5 % that are seen within 20 deliveries, after 40 steady ones with normal scatter, as measured.
pub const SEEN: [(&str, f64); 2] = [("lighter", 0.95), ("heavier", 0.93)];
/// Part of the moves to 5 % lighter that are seen so where deliveries have 1 to 3 lines, as measured.
pub const SEEN_BY_FEW_LINES: f64 = 0.8;
/// Deliveries that have to lie on either side of the date of a move.
const LEAST: usize = 5;
/// Fewest deliveries that the test could say anything of: two halves of nine, wholly apart, are 3.58 standard deviations
/// apart, and two of eight 3.36.
pub const FEWEST: usize = 18;
/// A smaller move or bias is not named (common practice, no source: a lift-truck scale shows 1 to 2 %).
pub const LEAST_MOVE: f64 = 0.02;
/// A bias is named when it is this many of its own standard deviations from none (common practice, no source).
const CERTAIN: f64 = 3.0;
/// Standard deviation of the median of n normal values times sqrt(n), in units of theirs: sqrt(pi / 2).
const OF_MEDIAN: f64 = 1.253_314_137_315_5;

/// Lines further from the estimate than this are slips, which have their causes: they say nothing of a move.
/// ln(declared / expected).
pub const SLIP: f64 = 0.3;

/// What a delivery says: the median over its lines, slips left out; none where no line is left.
pub fn of_lines(lines: &[f64]) -> Option<f64> {
    let mut near: Vec<f64> = lines
        .iter()
        .copied()
        .filter(|line| line.abs() < SLIP)
        .collect();
    median(&mut near)
}

/// One delivery of a supplier.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Point {
    /// Day of its first audit.
    pub day: NaiveDate,
    /// What it says, ln(declared / expected): [`of_lines`].
    pub value: f64,
}

/// How the weights of a supplier went.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Course {
    /// Too few deliveries to tell.
    TooFew {
        /// So many.
        deliveries: usize,
    },
    /// They did not move.
    Steady {
        /// Median over the deliveries, ln(declared / expected).
        level: f64,
        /// It is certainly not nothing: the supplier always declares that much light or heavy.
        biased: bool,
        /// So many.
        deliveries: usize,
    },
    /// They moved.
    Moved(Move),
}

/// The last move of a supplier's weights.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Move {
    /// Day of the first delivery after it.
    pub since: NaiveDate,
    /// Median over the deliveries before it (and after the move before it), ln(declared / expected).
    pub before: f64,
    /// The same since.
    pub after: f64,
    /// Deliveries that `before` is of.
    pub deliveries_before: usize,
    /// Deliveries since.
    pub deliveries: usize,
}

/// How the weights went, from the deliveries in the order of time.
pub fn course(points: &[Point]) -> Course {
    if points.len() < FEWEST {
        return Course::TooFew {
            deliveries: points.len(),
        };
    }
    let mut found = None;
    // The last move is what counts: each part after a move is looked at again.
    let mut part = points;
    while let Some(one) = moved(part) {
        found = Some(one);
        part = &part[one.deliveries_before..];
    }
    found.map_or_else(|| steady(points), Course::Moved)
}

fn steady(points: &[Point]) -> Course {
    let deliveries = points.len();
    let mut values: Vec<f64> = points.iter().map(|point| point.value).collect();
    let (level, spread) = median_and_spread(&mut values).unwrap_or_default();
    let doubt = OF_MEDIAN * spread / (deliveries as f64).sqrt();
    Course::Steady {
        level,
        biased: level.abs() >= LEAST_MOVE && level.abs() > CERTAIN * doubt,
        deliveries,
    }
}

/// The date that parts the deliveries best, where they moved there.
fn moved(points: &[Point]) -> Option<Move> {
    let values: Vec<f64> = points.iter().map(|point| point.value).collect();
    let at = parted(&values)?;
    let (before, after) = values.split_at(at);
    let (before, after) = (median(&mut before.to_vec())?, median(&mut after.to_vec())?);
    ((after - before).abs() >= LEAST_MOVE).then_some(Move {
        since: points[at].day,
        before,
        after,
        deliveries_before: at,
        deliveries: points.len() - at,
    })
}

/// How many values come before the place where those before and after differ most, where that is past the limit.
fn parted(values: &[f64]) -> Option<usize> {
    let count = values.len();
    if count < FEWEST {
        return None;
    }
    let (ranks, ties) = ranks(values);
    let all = count as f64;
    // Variance of a sum of t ranks is t (n - t) / 12 times this (Lehmann 1975, with ties; from memory).
    let scatter = all + 1.0 - ties / (all * (all - 1.0));
    if scatter <= 0.0 {
        return None;
    }
    let mut sum = 0.0;
    let mut best = (LIMIT, None);
    for (before, rank) in (1..).zip(&ranks[..count - LEAST]) {
        sum += rank - (all + 1.0) / 2.0;
        let apart = before as f64 * (all - before as f64) * scatter / 12.0;
        let distance = sum.abs() / apart.sqrt();
        if before >= LEAST && distance > best.0 {
            best = (distance, Some(before));
        }
    }
    best.1
}

/// The rank of each value from 1, equal values sharing theirs, and the sum of k^3 - k over k equal ones.
fn ranks(values: &[f64]) -> (Vec<f64>, f64) {
    let mut order: Vec<usize> = (0..values.len()).collect();
    order.sort_unstable_by(|a, b| values[*a].total_cmp(&values[*b]));
    let mut ranks = vec![0.0; values.len()];
    let (mut first, mut ties) = (0, 0.0);
    for equal in order.chunk_by(|a, b| values[*a] == values[*b]) {
        let many = equal.len() as f64;
        for at in equal {
            ranks[*at] = first as f64 + (many + 1.0) / 2.0;
        }
        ties += many * many * many - many;
        first += equal.len();
    }
    (ranks, ties)
}

#[cfg(test)]
mod tests;
