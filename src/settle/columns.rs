//! The unit and basis of a weight column, settled by the lines whose mass the sizes tell (method, section 2).

use super::{ColumnReading, Contradicted, Settled};
use crate::estimate::{Estimate, Evidence, NoEstimate};
use crate::understand::{
    Basis, How, Item, MassUnit, SharedWeight, StatedSum, StatedWeight, WeightKind,
};
use crate::units::Mass;
use std::collections::BTreeMap;

type Estimated = Result<Estimate, NoEstimate>;

/// The best reading's median of |ln(D/E)| at most (method, section 2).
const BEST_MEDIAN: f64 = 0.10;
/// Lines that must agree with the best reading (method, section 2).
const LEAST_AGREEING: usize = 5;
/// A line agrees when its |ln(D/E)| is at most this: the range of goods of stated size, widened by a tolerance (common
/// practice, no source).
const AGREES: f64 = 0.25;
/// Lines of several pieces that must fit the default reading, and none another, before a column leans (common practice,
/// no source).
const LEAST_LEANING: usize = 3;
/// The next reading must be worse by this in |ln|: ln 1.5 (method, section 2).
const CLEARLY_WORSE: f64 = 0.405_465_108_108_164_4;
/// Cells with a unit of their own for each bare one, before the bare ones are taken as of that unit (common
/// practice, no source).
const OUTNUMBERED: usize = 2;
/// A sum is that of its lines up to this share: sums are rounded (common practice, no source).
const ROUNDED: f64 = 0.002;

/// Settles the weight columns of a sheet. `sums` are what its total rows state, `unit` is the default unit for weights.
pub fn columns(
    items: &[Item],
    shared: &[SharedWeight],
    estimates: &[Estimated],
    sums: &[StatedSum],
    unit: MassUnit,
) -> Settled {
    let mut settled = Settled {
        site_unit: unit,
        columns: BTreeMap::new(),
        contradicted: Vec::new(),
    };
    let mut numbers: Vec<u32> = items
        .iter()
        .flat_map(|item| &item.weights)
        .map(|weight| weight.place.column)
        .collect();
    numbers.sort_unstable();
    numbers.dedup();
    // A piece weight beside it makes an open column the line's.
    let has_piece = items
        .iter()
        .flat_map(|item| &item.weights)
        .any(|weight| weight.basis == Some(Basis::Piece));
    for number in numbers {
        let weights = items
            .iter()
            .flat_map(|item| &item.weights)
            .filter(|weight| weight.place.column == number);
        // One cell that states its unit or basis settles nothing for those that do not.
        let mut stated = Stated::default();
        let mut kind = WeightKind::Unstated;
        for weight in weights {
            stated.units.push(weight.unit);
            stated.bases.push(weight.basis);
            kind = weight.kind;
        }
        let (stated_unit, stated_basis) = (common(&stated.units), common(&stated.bases));
        let lines = evidence(items, estimates, number, stated_unit, stated_basis);
        let units: Vec<MassUnit> =
            stated_unit.map_or_else(|| vec![MassUnit::Kg, MassUnit::Lb], |unit| vec![unit]);
        let bases: Vec<Basis> =
            stated_basis.map_or_else(|| vec![Basis::Line, Basis::Piece], |basis| vec![basis]);
        let by_sum = by_sum(items, sums, number);
        let best = best_reading(&lines, &units, &bases);
        // Net and gross beside piece weights, or in words, are the line's by the custom of packing lists.
        let customary = has_piece || kind != WeightKind::Unstated;
        let told = best.map(|(_, basis)| basis).or(by_sum);
        let (basis, basis_how) = match (stated_basis, told) {
            (Some(basis), _) => (basis, How::Stated),
            (None, Some(basis)) => (basis, How::Inferred),
            (None, None) if customary => (Basis::Line, How::Inferred),
            (None, None) => (Basis::Line, How::Assumed),
        };
        // Lines of one piece say nothing about the basis, but they do about the unit.
        let by_unit = best
            .or_else(|| best_reading(&lines, &units, &[basis]))
            .or_else(|| Some((outnumbering(&stated.units)?, basis)));
        let (unit, unit_how) = match (stated_unit, by_unit) {
            (Some(unit), _) => (unit, How::Stated),
            (None, Some((unit, _))) => (unit, How::Inferred),
            (None, None) => (unit, How::Assumed),
        };
        if let Some(stated) = stated_unit.filter(|unit| matches!(unit, MassUnit::Kg | MassUnit::Lb))
            && best_reading(&lines, &[stated], &bases).is_none()
            && let other = if stated == MassUnit::Kg {
                MassUnit::Lb
            } else {
                MassUnit::Kg
            }
            && let Some((fits, basis)) = best_reading(&lines, &[stated, other], &bases)
                .or_else(|| best_reading(&lines, &[stated, other], &[basis]))
                .filter(|(fits, _)| *fits == other)
        {
            let agreeing = lines
                .iter()
                .filter(|line| line.distance(fits, basis) <= AGREES)
                .count();
            settled.contradicted.push(Contradicted {
                column: number,
                stated,
                fits,
                basis,
                lines: agreeing,
                of: lines.len(),
            });
        }
        let leaning = leaning(&lines, unit, basis, &units, &bases);
        settled.columns.insert(
            number,
            ColumnReading {
                unit,
                unit_how,
                basis,
                basis_how,
                leaning,
                customary: stated_basis.is_none() && told.is_none() && customary,
            },
        );
    }
    of_packages(&mut settled, shared);
    settled
}

/// The columns in which only packages have weights: those are of the whole package, in the unit that every cell states.
fn of_packages(settled: &mut Settled, shared: &[SharedWeight]) {
    let mut weights: BTreeMap<u32, Vec<&StatedWeight>> = BTreeMap::new();
    for weight in shared.iter().flat_map(|shared| &shared.weights) {
        if !settled.columns.contains_key(&weight.place.column) {
            weights.entry(weight.place.column).or_default().push(weight);
        }
    }
    for (column, weights) in weights {
        let units: Vec<_> = weights.iter().map(|weight| weight.unit).collect();
        let unit = common(&units).or_else(|| outnumbering(&units));
        settled.columns.insert(
            column,
            ColumnReading {
                unit: unit.unwrap_or(settled.site_unit),
                unit_how: match unit {
                    Some(_) if units.iter().all(Option::is_some) => How::Stated,
                    Some(_) => How::Inferred,
                    None => How::Assumed,
                },
                basis: Basis::Line,
                basis_how: How::Stated,
                leaning: false,
                customary: false,
            },
        );
    }
}

/// What the cells of a column state of themselves.
#[derive(Default)]
struct Stated {
    units: Vec<Option<MassUnit>>,
    bases: Vec<Option<Basis>>,
}

/// What every cell states alike.
fn common<T: Copy + PartialEq>(stated: &[Option<T>]) -> Option<T> {
    let first = stated.first().copied().flatten()?;
    stated
        .iter()
        .all(|one| *one == Some(first))
        .then_some(first)
}

/// The unit of all cells that state one, where those without are few.
fn outnumbering(stated: &[Option<MassUnit>]) -> Option<MassUnit> {
    let mut units = stated.iter().flatten();
    let first = *units.next()?;
    let bare = stated.iter().filter(|unit| unit.is_none()).count();
    (units.all(|unit| *unit == first) && stated.len() - bare >= OUTNUMBERED * bare.max(1))
        .then_some(first)
}

/// The basis that a total row tells: its sum is that of the figures taken so, and of the figures taken otherwise it is not.
fn by_sum(items: &[Item], sums: &[StatedSum], column: u32) -> Option<Basis> {
    let told = |sum: &StatedSum| {
        let figures: Vec<(f64, &Item)> = items
            .iter()
            .filter(|item| sum.rows.binary_search(&item.place.row).is_ok())
            .filter_map(|item| {
                let weight = item
                    .weights
                    .iter()
                    .find(|weight| weight.place.column == column)?;
                Some((weight.figure, item))
            })
            .collect();
        let added = |number: fn(&Item) -> u32| -> f64 {
            figures
                .iter()
                .map(|(figure, item)| figure * f64::from(number(item)))
                .sum()
        };
        let added = [
            (Basis::Line, added(|_| 1)),
            (Basis::Piece, added(|item| item.pieces)),
            (Basis::Package, added(|item| item.packages.unwrap_or(1))),
        ];
        let fits = |mass: f64| (mass - sum.figure).abs() <= ROUNDED * mass;
        let fitting: Vec<&(Basis, f64)> = added.iter().filter(|(_, mass)| fits(*mass)).collect();
        let (basis, mass) = fitting.first()?;
        let one_reading = fitting.iter().all(|(_, other)| other == mass);
        (figures.len() > 1 && fitting.len() < added.len() && one_reading).then_some(*basis)
    };
    sums.iter()
        .filter(|sum| sum.column == column)
        .find_map(told)
}

/// One line's evidence for a column.
struct LineEvidence {
    figure: f64,
    pieces: f64,
    packages: f64,
    expected: Mass,
    metres: Option<f64>,
}

impl LineEvidence {
    /// |ln(D/E)| under a reading.
    fn distance(&self, unit: MassUnit, basis: Basis) -> f64 {
        let factor = match basis {
            Basis::Piece => self.pieces,
            Basis::Package => self.packages,
            Basis::Line => 1.0,
            Basis::PerMetre => self.pieces * self.metres.unwrap_or(1.0),
            Basis::PerFoot => self.pieces * self.metres.unwrap_or(1.0) / 0.3048,
        };
        (unit.mass(self.figure) * factor / self.expected).ln().abs()
    }
}

/// The lines that tell how a column is read; a cell that states its own unit or basis tells nothing of a column's that is
/// open.
fn evidence(
    items: &[Item],
    estimates: &[Estimated],
    column: u32,
    unit: Option<MassUnit>,
    basis: Option<Basis>,
) -> Vec<LineEvidence> {
    items
        .iter()
        .zip(estimates)
        .filter_map(|(item, estimate)| {
            let weight = item
                .weights
                .iter()
                .find(|weight| weight.place.column == column)
                .filter(|weight| basis.is_some() || weight.basis.is_none())
                .filter(|weight| unit.is_some() || weight.unit.is_none())?;
            let estimate = estimate.as_ref().ok()?;
            if estimate.evidence == Evidence::Envelope {
                return None;
            }
            Some(LineEvidence {
                figure: weight.figure,
                pieces: f64::from(item.pieces),
                packages: f64::from(item.packages.unwrap_or(1)),
                expected: estimate.line.likely,
                metres: item.sizes.length.map(|size| size.length.m()),
            })
        })
        .collect()
}

/// The one reading that fits clearly better than all others, if at least five lines agree with it. Lines of one piece say
/// nothing about the basis.
fn best_reading(
    lines: &[LineEvidence],
    units: &[MassUnit],
    bases: &[Basis],
) -> Option<(MassUnit, Basis)> {
    let several: Vec<&LineEvidence> = lines
        .iter()
        .filter(|line| bases.len() < 2 || line.pieces > 1.0)
        .collect();
    let mut readings: Vec<(f64, usize, MassUnit, Basis)> = Vec::new();
    for unit in units {
        for basis in bases {
            let mut distances: Vec<f64> = several
                .iter()
                .map(|line| line.distance(*unit, *basis))
                .collect();
            let agreeing = distances
                .iter()
                .filter(|distance| **distance <= AGREES)
                .count();
            readings.push((median(&mut distances)?, agreeing, *unit, *basis));
        }
    }
    readings.sort_by(|one, other| one.0.total_cmp(&other.0));
    let best = *readings.first()?;
    let clear = readings
        .get(1)
        .is_none_or(|next| next.0 - best.0 >= CLEARLY_WORSE);
    (best.0 <= BEST_MEDIAN && best.1 >= LEAST_AGREEING && clear).then_some((best.2, best.3))
}

/// Whether lines of several pieces fit the reading `unit`, `basis` and none fits any other.
fn leaning(
    lines: &[LineEvidence],
    unit: MassUnit,
    basis: Basis,
    units: &[MassUnit],
    bases: &[Basis],
) -> bool {
    let mut for_it = 0;
    for line in lines.iter().filter(|line| line.pieces > 1.0) {
        let fits = |unit: MassUnit, basis: Basis| line.distance(unit, basis) <= AGREES;
        let other = units.iter().any(|u| {
            bases
                .iter()
                .any(|b| (*u, *b) != (unit, basis) && fits(*u, *b))
        });
        match (fits(unit, basis), other) {
            (true, false) => for_it += 1,
            (_, true) => return false,
            (false, false) => {}
        }
    }
    for_it >= LEAST_LEANING
}

fn median(values: &mut [f64]) -> Option<f64> {
    values.sort_by(f64::total_cmp);
    let middle = values.len() / 2;
    let upper = *values.get(middle)?;
    Some(if values.len() % 2 == 1 {
        upper
    } else {
        (upper + values.get(middle.checked_sub(1)?)?) / 2.0
    })
}
