//! The suppliers: who sends what, what keeps coming back, and whether the weights moved.

use super::decided::Settled;
use super::drift::{self, Course, Point};
use super::loads::{Group, Loads, groups};
use super::numbers::median;
use super::tally::{FEW, Tally};
use super::{Month, month};
use polars::prelude::{DataFrame, IdxSize, PolarsResult};
use std::cmp::Ordering;
use std::collections::HashMap;

/// Suppliers whose medians are followed from month to month.
const FOLLOWED: usize = 5;
/// Fewer compared lines in a month give no median (common practice, no source).
const FEW_IN_MONTH: usize = 5;

/// What one supplier's loads say.
#[derive(Clone, Debug, PartialEq)]
pub struct Supplier {
    /// Name as the lists mostly have it; none: no list named one.
    pub name: Option<String>,
    /// The counts.
    pub tally: Tally,
    /// Kind of the most frequent likely cause, and how many of the loads have it.
    pub cause: Option<(String, usize)>,
    /// Whether the weights moved; none for the lists that name nobody, who are several.
    pub course: Option<Course>,
    /// Deliveries that the course says nothing of, because each compared line is a slip ([`drift::SLIP`]).
    pub left_out: usize,
}

/// The median of a supplier's lines month by month.
#[derive(Clone, Debug, PartialEq)]
pub struct Followed {
    /// The supplier.
    pub name: String,
    /// Median of ln(declared / expected) in each month; none where fewer than five lines are compared.
    pub medians: Vec<Option<f64>>,
}

/// The suppliers, worst first, and those that are followed through `months`.
pub(super) fn suppliers(
    frame: &DataFrame,
    loads: &Loads,
    settled: &[Option<Settled>],
    causes: &[Group],
    months: &[Month],
) -> PolarsResult<(Vec<Supplier>, Vec<Followed>)> {
    let causes = Causes::of(causes, frame.height());
    let mut all: Vec<(Supplier, Vec<IdxSize>)> = one_spelling(groups(frame, "supplier")?)
        .into_iter()
        .map(|Group { name, rows }| {
            let (course, left_out) = course(loads, &rows);
            let supplier = Supplier {
                course: name.as_ref().map(|_| course),
                left_out,
                name,
                tally: Tally::of(loads, settled, &rows),
                cause: causes.most_frequent(&rows),
            };
            (supplier, rows)
        })
        .collect();
    all.sort_by(|(a, _), (b, _)| worse(&a.tally, &b.tally).then_with(|| a.name.cmp(&b.name)));
    let mut worst: Vec<&(Supplier, Vec<IdxSize>)> = all
        .iter()
        .filter(|(one, _)| one.tally.compared >= FEW)
        .collect();
    // Those that moved, then those that are always off; else the order stays.
    worst.sort_by_key(|(one, _)| match one.course {
        Some(Course::Moved(_)) => 0,
        Some(Course::Steady { biased: true, .. }) => 1,
        _ => 2,
    });
    let followed = worst
        .into_iter()
        .filter_map(|(one, rows)| {
            Some(Followed {
                name: one.name.clone()?,
                medians: medians(loads, rows, months),
            })
        })
        .take(FOLLOWED)
        .collect();
    Ok((all.into_iter().map(|(one, _)| one).collect(), followed))
}

/// The worse first: the greater share flagged; where lines are few, after all others.
pub(super) fn worse(a: &Tally, b: &Tally) -> Ordering {
    let share = |tally: &Tally| tally.flagged as f64 / tally.lines.max(1) as f64;
    a.is_few()
        .cmp(&b.is_few())
        .then_with(|| share(b).total_cmp(&share(a)))
        .then_with(|| b.flagged.cmp(&a.flagged))
}

/// A supplier written in small or capital letters, or with blanks around, is one; its name is the more frequent spelling.
fn one_spelling(groups: Vec<Group>) -> Vec<Group> {
    let mut places: HashMap<Option<String>, usize> = HashMap::new();
    let mut all: Vec<(Group, usize)> = Vec::new();
    for group in groups {
        let name = group.name.as_deref().map(str::trim);
        let folded = name.filter(|name| !name.is_empty()).map(str::to_lowercase);
        let count = group.rows.len();
        let at = *places.entry(folded).or_insert(all.len());
        match all.get_mut(at) {
            None => all.push((group, count)),
            Some((known, most)) => {
                known.rows.extend(group.rows);
                if count > *most {
                    (known.name, *most) = (group.name, count);
                }
            }
        }
    }
    all.into_iter().map(|(group, _)| group).collect()
}

/// The likeliest cause of each row.
struct Causes<'g> {
    kinds: Vec<&'g str>,
    /// Its number among the kinds.
    of_row: Vec<Option<usize>>,
}

impl<'g> Causes<'g> {
    fn of(groups: &'g [Group], rows: usize) -> Causes<'g> {
        let mut causes = Causes {
            kinds: Vec::new(),
            of_row: vec![None; rows],
        };
        for group in groups {
            let Some(kind) = &group.name else { continue };
            for row in &group.rows {
                causes.of_row[*row as usize] = Some(causes.kinds.len());
            }
            causes.kinds.push(kind);
        }
        causes
    }

    fn most_frequent(&self, rows: &[IdxSize]) -> Option<(String, usize)> {
        let mut counts = vec![0; self.kinds.len()];
        for kind in rows.iter().filter_map(|row| self.of_row[*row as usize]) {
            counts[kind] += 1;
        }
        let (kind, count) = (self.kinds.iter().zip(counts))
            .filter(|(_, count)| *count > 0)
            .min_by(|(a, one), (b, other)| other.cmp(one).then_with(|| a.cmp(b)))?;
        Some((kind.to_string(), count))
    }
}

/// The course of the deliveries in the order of their days, each with what its lines say; and how many say nothing.
fn course(loads: &Loads, rows: &[IdxSize]) -> (Course, usize) {
    let mut order: Vec<usize> = rows.iter().map(|row| *row as usize).collect();
    order.retain(|row| loads.day[*row].is_some() && !loads.off[*row].is_nan());
    let place = |row: usize| (loads.day[row], loads.first[row], loads.delivery[row]);
    order.sort_unstable_by_key(|row| place(*row));
    let deliveries = order.chunk_by(|a, b| loads.delivery[*a] == loads.delivery[*b]);
    let said: Vec<Option<Point>> = deliveries
        .map(|of| {
            let possible = of.iter().filter(|row| !loads.impossible[**row]);
            let lines: Vec<f64> = possible.map(|row| loads.off[*row]).collect();
            Some(Point {
                day: loads.day[*of.first()?]?,
                value: drift::of_lines(&lines)?,
            })
        })
        .collect();
    let points: Vec<Point> = said.iter().copied().flatten().collect();
    (drift::course(&points), said.len() - points.len())
}

fn medians(loads: &Loads, rows: &[IdxSize], months: &[Month]) -> Vec<Option<f64>> {
    let places: HashMap<Month, usize> = months.iter().copied().zip(0..).collect();
    let mut off: Vec<Vec<f64>> = vec![Vec::new(); months.len()];
    for row in rows.iter().map(|row| *row as usize) {
        let place = loads.day[row].and_then(|day| places.get(&month(day)));
        if let Some(of) = place.and_then(|at| off.get_mut(*at))
            && !loads.off[row].is_nan()
        {
            of.push(loads.off[row]);
        }
    }
    let enough = |of: &mut Vec<f64>| (of.len() >= FEW_IN_MONTH).then(|| median(of))?;
    off.iter_mut().map(enough).collect()
}
