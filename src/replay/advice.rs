//! Which tolerance the decided lines speak for, if any. The safe side goes first: none is named that would let a wrong weight
//! pass which the recorded settings stop.

use super::{Replay, Row};

/// Lines weighed, or corrected by their supplier, before a tolerance is named by them (common practice, no source). An accepted
/// weight counts nothing here: it is what somebody was told.
pub const ENOUGH: usize = 30;
/// Of them, those declared too light and flagged by the recorded settings: without any, that none of them passes says nothing
/// (common practice, no source).
pub const ENOUGH_LIGHT: usize = 5;

/// What the decided lines speak for. Positions are those of [`Replay::rows`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Advice {
    /// Too few lines are decided to say.
    TooFew,
    /// No tolerance of the list does better than the recorded settings.
    Stay,
    /// This tolerance gives fewer false alarms, misses nothing that the recorded settings catch, and lets no light flag go of a
    /// load that nobody weighed.
    Choose(usize),
}

impl Replay {
    /// What the decided lines speak for.
    pub fn advice(&self) -> Advice {
        if self.decided.weighed() < ENOUGH || self.light_caught() < ENOUGH_LIGHT {
            return Advice::TooFew;
        }
        let recorded = &self.recorded;
        let burden = |row: &Row| (row.false_alarms, row.missed);
        let rows = self.rows.iter().map(|(_, row)| row).enumerate();
        let best = rows
            .filter(|(_, row)| row.lost_light == 0 && row.lost_unweighed == 0)
            .filter(|(_, row)| row.missed <= recorded.missed)
            // Of equal ones the first, which is the strictest.
            .min_by_key(|(_, row)| burden(row));
        match best {
            Some((at, row)) if burden(row) < burden(recorded) => Advice::Choose(at),
            _ => Advice::Stay,
        }
    }

    /// Lines known to be declared too light that the recorded settings flag.
    pub fn light_caught(&self) -> usize {
        self.decided
            .light
            .saturating_sub(self.recorded.missed_light)
    }

    /// The tolerance that would catch the most light weights that the recorded settings miss, the widest of equal ones; none
    /// where no tolerance of the list catches one.
    pub fn safer(&self) -> Option<usize> {
        let rows = self.rows.iter().map(|(_, row)| row).enumerate();
        rows.rev()
            .filter(|(_, row)| row.lost_light == 0 && row.missed_light < self.recorded.missed_light)
            .min_by_key(|(_, row)| row.missed_light)
            .map(|(at, _)| at)
    }
}

#[cfg(test)]
mod tests {
    use super::super::Decided;
    use super::*;

    fn row(false_alarms: usize, missed: usize, missed_light: usize, lost_light: usize) -> Row {
        Row {
            false_alarms,
            missed,
            missed_light,
            lost_light,
            ..Row::default()
        }
    }

    fn replay(recorded: Row, rows: &[(f64, Row)]) -> Replay {
        Replay {
            recorded,
            rows: rows.to_vec(),
            decided: Decided {
                right: 20,
                light: 6,
                heavy: 4,
                ..Decided::default()
            },
            ..Replay::default()
        }
    }

    #[test]
    fn a_tolerance_that_lets_a_light_weight_pass_is_never_named() {
        let recorded = row(9, 2, 1, 0);
        // 20 % has the fewest false alarms and lets one light weight pass for a heavy one that it catches.
        let all = replay(
            recorded,
            &[
                (0.05, row(15, 0, 0, 0)),
                (0.10, row(9, 2, 1, 0)),
                (0.15, row(6, 2, 1, 0)),
                (0.20, row(1, 2, 2, 1)),
            ],
        );
        assert_eq!(all.advice(), Advice::Choose(2));
        assert_eq!(all.safer(), Some(0));
        let only_worse = replay(recorded, &[(0.10, recorded), (0.20, row(1, 2, 2, 1))]);
        assert_eq!(
            (only_worse.advice(), only_worse.safer()),
            (Advice::Stay, None)
        );
        let more_missed = replay(recorded, &[(0.15, row(6, 3, 1, 0))]);
        assert_eq!(more_missed.advice(), Advice::Stay);
    }

    #[test]
    fn a_tolerance_that_loses_a_light_flag_of_a_load_nobody_weighed_is_never_named() {
        let unweighed = Row {
            lost_unweighed: 1,
            ..row(1, 2, 1, 0)
        };
        let recorded = row(9, 2, 1, 0);
        let all = replay(recorded, &[(0.15, row(6, 2, 1, 0)), (0.20, unweighed)]);
        assert_eq!(all.advice(), Advice::Choose(0));
        assert_eq!(
            replay(recorded, &[(0.20, unweighed)]).advice(),
            Advice::Stay
        );
    }

    #[test]
    fn below_thirty_lines_nothing_is_named() {
        let mut few = replay(row(9, 2, 1, 0), &[(0.15, row(6, 2, 1, 0))]);
        assert_eq!(few.advice(), Advice::Choose(0));
        few.decided.right -= 1;
        // Accepted ones, however many, are not weighed.
        few.decided.accepted += 40;
        assert_eq!(few.advice(), Advice::TooFew);
    }

    /// Of six known to be too light the recorded settings flag five.
    #[test]
    fn without_light_weights_that_were_caught_nothing_is_named() {
        let mut few = replay(row(9, 2, 1, 0), &[(0.15, row(6, 2, 1, 0))]);
        assert_eq!((few.light_caught(), few.advice()), (5, Advice::Choose(0)));
        few.decided.light -= 1;
        few.decided.right += 1;
        assert_eq!(few.advice(), Advice::TooFew);
    }
}
