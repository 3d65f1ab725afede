//! The counts of some loads.

use super::decided::Settled;
use super::loads::Loads;
use super::numbers::{median, median_and_spread};
use polars::prelude::IdxSize;
use serde::Serialize;

/// Fewer lines than this give no percentage: a share of them says little (common practice, no source).
pub const FEW: usize = 20;

/// The counts of some loads: goods lines, and packages that carry the weight of several lines.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
pub struct Tally {
    /// Loads.
    pub lines: usize,
    /// Deliveries that they are of.
    pub deliveries: usize,
    /// With a `stop` or a `check`.
    pub flagged: usize,
    /// Declared below the expected range: the dangerous side.
    pub light: usize,
    /// With a declared weight and an estimate that rests on a product or a shape.
    pub compared: usize,
    /// Median of ln(declared / expected) over those compared.
    pub median_ln: Option<f64>,
    /// Its spread, [`median_and_spread`].
    pub spread_ln: Option<f64>,
    /// Loads of which a lift would have overloaded the truck that fits the declared weight, and whose weight nobody accepted.
    pub overloads: usize,
    /// By how much in all, of one lift of each, kg.
    pub overload_kg: f64,
    /// Flagged loads with a decision that stands.
    pub decided: usize,
    /// Flagged loads without one.
    pub open: usize,
    /// Median of the hours from the record of the audit to the first decision on it.
    pub median_hours: Option<f64>,
}

impl Tally {
    /// Counts the loads of some rows.
    pub(super) fn of(loads: &Loads, settled: &[Option<Settled>], rows: &[IdxSize]) -> Tally {
        let mut tally = Tally {
            lines: rows.len(),
            ..Tally::default()
        };
        let (mut off, mut hours) = (Vec::new(), Vec::new());
        let mut deliveries: Vec<i64> = Vec::new();
        for row in rows.iter().map(|row| *row as usize) {
            // Loads of a delivery mostly lie together.
            if deliveries.last() != Some(&loads.delivery[row]) {
                deliveries.push(loads.delivery[row]);
            }
            tally.light += usize::from(loads.light[row]);
            if !loads.off[row].is_nan() {
                off.push(loads.off[row]);
            }
            // Whoever accepted the declared weight let its truck lift it.
            let accepted = settled[row].as_ref().is_some_and(Settled::accepted);
            if loads.overload_kg[row] > 0.0 && !accepted {
                tally.overloads += 1;
                tally.overload_kg += loads.overload_kg[row];
            }
            if loads.flagged[row] {
                tally.flagged += 1;
                match &settled[row] {
                    None => tally.open += 1,
                    Some(settled) => {
                        tally.decided += 1;
                        hours.extend(settled.hours);
                    }
                }
            }
        }
        deliveries.sort_unstable();
        deliveries.dedup();
        tally.deliveries = deliveries.len();
        tally.compared = off.len();
        if let Some((median, spread)) = median_and_spread(&mut off) {
            (tally.median_ln, tally.spread_ln) = (Some(median), Some(spread));
        }
        tally.median_hours = median(&mut hours);
        tally
    }

    /// Part of the loads that is flagged; none where they are few.
    pub fn share_flagged(&self) -> Option<f64> {
        self.share(self.flagged)
    }

    /// Part of the loads that is declared light; none where they are few.
    pub fn share_light(&self) -> Option<f64> {
        self.share(self.light)
    }

    /// Whether the loads are too few for a percentage.
    pub fn is_few(&self) -> bool {
        self.lines < FEW
    }

    fn share(&self, count: usize) -> Option<f64> {
        (!self.is_few()).then(|| count as f64 / self.lines as f64)
    }
}
