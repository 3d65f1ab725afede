//! Load by load, what each tolerance would do; nothing of a load is kept that no table names.

use super::{
    Case, Changed, Difference, Judged, Replay, Row, Said, Told, Truth, change, is_below,
    is_of_weight, truth,
};
use crate::compare::Verdict;
use std::collections::BTreeMap;

/// A replay while it is counted.
#[derive(Debug)]
pub struct Tally {
    wrong_by: f64,
    so_far: Replay,
    settings: BTreeMap<Difference, usize>,
}

impl Tally {
    /// Begins to count for a list of tolerances, the least first. `wrong_by`: see [`truth`].
    pub fn new(site_tolerance: f64, tolerances: &[f64], wrong_by: f64) -> Tally {
        Tally {
            wrong_by,
            so_far: Replay {
                site_tolerance,
                rows: tolerances.iter().map(|at| (*at, Row::default())).collect(),
                ..Replay::default()
            },
            settings: BTreeMap::new(),
        }
    }

    /// An audit that was repeated: its own tolerance, what of its settings differs.
    pub fn audit(&mut self, tolerance: f64, differences: Vec<Difference>) {
        let so_far = &mut self.so_far;
        so_far.audits += 1;
        let own = &mut so_far.own_tolerances;
        if let Err(at) = own.binary_search_by(|known| known.total_cmp(&tolerance)) {
            own.insert(at, tolerance);
        }
        for difference in differences {
            *self.settings.entry(difference).or_default() += 1;
        }
    }

    /// An audit that could not be repeated, with the reason.
    pub fn not_repeated(&mut self, why: String) {
        self.so_far.not_repeated.push(why);
    }

    /// Loads that today's program judges otherwise than the record, and decided ones that it does not find.
    pub fn otherwise(&mut self, program_differs: usize, not_found: usize) {
        self.so_far.program_differs += program_differs;
        self.so_far.decided.not_found += not_found;
    }

    /// A load.
    pub fn add(&mut self, case: Case) {
        let wrong_by = self.wrong_by;
        let known = |judged: &Option<Judged>| {
            let declared = judged.as_ref()?.declared?;
            truth(declared, case.said?, wrong_by)
        };
        let (was_truth, is_truth) = (known(&case.was), known(&case.would_be));
        let was_flagged = case
            .was
            .as_ref()
            .is_some_and(|was| was.verdict.doubts_weight());
        let is_weighed = matches!(case.said, Some(Said::Weight(_)));
        let unweighed = !is_weighed
            && case
                .was
                .as_ref()
                .is_some_and(|was| was.verdict == Verdict::Light);
        let so_far = &mut self.so_far;
        so_far.loads += 1;
        if let Err(at) = so_far.days.binary_search(&case.named.day) {
            so_far.days.insert(at, case.named.day);
        }
        if let Some(was) = &case.was {
            let row = &mut so_far.recorded;
            row.weight(was, was_flagged, was_truth);
            row.exceptions += usize::from(was.is_exception());
        }
        for (at, (_, row)) in so_far.rows.iter_mut().enumerate() {
            let flagged = case.at.get(at).is_some_and(|at| at.doubts_weight());
            row.gained += usize::from(flagged && !was_flagged);
            row.lost += usize::from(was_flagged && !flagged);
            let lost_light = was_flagged
                && !flagged
                && was_truth == Some(Truth::Light)
                && is_truth != Some(Truth::Right);
            row.lost_light += usize::from(lost_light);
            row.lost_unweighed += usize::from(unweighed && !flagged);
            if let Some(now) = &case.would_be {
                row.weight(now, flagged, is_truth);
                let otherwise = now.findings.iter().any(|code| !is_of_weight(code));
                row.exceptions += usize::from(otherwise || flagged && !now.contradicted);
            }
        }
        if let Some(Said::Weight(weight)) = case.said {
            let below = |judged: &Option<Judged>| {
                let plan = judged.as_ref().and_then(|judged| judged.plan);
                usize::from(plan.is_some_and(|plan| is_below(plan, weight, wrong_by)))
            };
            so_far.planned_below.0 += below(&case.was);
            so_far.planned_below.1 += below(&case.would_be);
        }
        self.decided(&case, is_truth, was_flagged);
        let what = change::of(&case);
        if !what.is_empty() {
            self.so_far.changes.count(&what);
            self.so_far.changed.push(Changed {
                named: case.named,
                what,
                was: case.was,
                would_be: case.would_be,
                truth: is_truth,
            });
        }
    }

    fn decided(&mut self, case: &Case, known: Option<Truth>, flagged: bool) {
        let Some(said) = case.said else { return };
        let decided = &mut self.so_far.decided;
        let counted = match (known, said) {
            (_, Said::Proven) if known.is_some() => &mut decided.accepted,
            (Some(Truth::Right), _) => &mut decided.right,
            (Some(Truth::Light), _) => &mut decided.light,
            (Some(Truth::Heavy), _) => &mut decided.heavy,
            (None, Said::Unproven) => &mut decided.unproven,
            (None, Said::Nothing) => &mut decided.silent,
            (None, Said::Weight(_) | Said::Proven) => &mut decided.not_judged,
        };
        *counted += 1;
        let declared = case.would_be.as_ref().and_then(|now| now.declared);
        if let (Some(truth), Some(declared)) = (known, declared) {
            let tolerances = self.so_far.rows.iter().map(|(tolerance, _)| *tolerance);
            let mut flags = tolerances.zip(&case.at).rev();
            self.so_far.told.push(Told {
                named: case.named.clone(),
                declared,
                decided: match said {
                    Said::Weight(weight) => Some(weight),
                    _ => None,
                },
                truth,
                flagged,
                up_to: flags
                    .find(|(_, verdict)| verdict.doubts_weight())
                    .map(|(tolerance, _)| tolerance),
            });
        }
    }

    /// The whole answer.
    pub fn done(self) -> Replay {
        let mut done = self.so_far;
        done.settings = self.settings.into_iter().collect();
        // Of those that lose the same, the ones that are known to be too light stand first.
        done.changed
            .sort_by_key(|line| (line.what.first().copied(), line.truth != Some(Truth::Light)));
        done
    }
}

impl Row {
    /// Counts a declared weight: whether something could check it, whether it is flagged, whether that is right.
    fn weight(&mut self, judged: &Judged, flagged: bool, known: Option<Truth>) {
        self.judged += usize::from(judged.declared.is_some());
        self.flags += usize::from(flagged);
        match (flagged, known) {
            (true, Some(truth)) if truth.is_wrong() => self.hits += 1,
            (true, Some(_)) => self.false_alarms += 1,
            (true, None) => self.unknown += 1,
            (false, Some(truth)) if truth.is_wrong() => {
                self.missed += 1;
                self.missed_light += usize::from(truth == Truth::Light);
            }
            (false, _) => {}
        }
    }
}

#[cfg(test)]
mod tests;
