//! Open readings settled by the whole sheet: units and bases that no heading states, contradicted columns.
//! Comes in: items and estimates of a sheet. Goes out: one declared weight a line. Never changes a stated value.

mod columns;

pub use columns::columns;

use crate::place::Place;
use crate::understand::{Basis, How, MassUnit, StatedWeight, UnusableWeight, WeightKind};
use crate::units::Mass;
use std::collections::BTreeMap;

/// Two weights of one line that differ by more than this contradict each other: rounding of piece weights stays below (common
/// practice, no source).
const CONTRADICTS: f64 = 0.02;

/// A line's declared weight, settled.
#[derive(Clone, Debug, PartialEq)]
pub struct Declared {
    /// Mass of the whole line.
    pub mass: Mass,
    /// What the figure was the weight of, as read.
    pub of: Basis,
    /// Net, gross or not said.
    pub kind: WeightKind,
    /// How unit and basis were settled.
    pub how: How,
    /// As written, with its unit.
    pub text: String,
    /// The cell.
    pub place: Place,
    /// Heaviest reading of the line still possible, where unit or basis is assumed or contradicted.
    pub heaviest: Mass,
}

/// A column whose stated unit its own figures speak against.
#[derive(Clone, Debug, PartialEq)]
pub struct Contradicted {
    /// Column from 1.
    pub column: u32,
    /// The unit its heading states.
    pub stated: MassUnit,
    /// The unit that fits the sizes.
    pub fits: MassUnit,
    /// What the figures would then be of.
    pub basis: Basis,
    /// Lines that agree with it.
    pub lines: usize,
    /// Lines of the column that have an estimate.
    pub of: usize,
}

impl Contradicted {
    /// What a figure of the column would be as the mass of the whole line, if the unit that fits is the right one.
    pub fn mass(&self, figure: f64, pieces: u32, packages: Option<u32>) -> Mass {
        self.fits.mass(figure) * number(self.basis, pieces, packages)
    }
}

/// How often a weight of a basis counts for the whole line.
fn number(basis: Basis, pieces: u32, packages: Option<u32>) -> f64 {
    match basis {
        Basis::Piece => f64::from(pieces),
        Basis::Package => f64::from(packages.unwrap_or(1)),
        _ => 1.0,
    }
}

/// How one weight column is read.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ColumnReading {
    /// Unit for cells without one of their own.
    pub unit: MassUnit,
    /// How the unit was found.
    pub unit_how: How,
    /// Basis for headings without one.
    pub basis: Basis,
    /// How the basis was found.
    pub basis_how: How,
    /// The figures of at least three lines fit the default reading and those of none fit another: too few to settle it (the
    /// reading stays assumed, and is asked about), enough to hold no other reading possible.
    pub leaning: bool,
    /// Of the line by the custom of packing lists alone: where a row counts several packages, it may be one package's.
    pub customary: bool,
}

/// The settled readings of a sheet's weight columns.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Settled {
    /// The list's or site's unit, where nothing else tells.
    pub site_unit: MassUnit,
    /// By column.
    pub columns: BTreeMap<u32, ColumnReading>,
    /// Columns that contradict their headings.
    pub contradicted: Vec<Contradicted>,
}

impl Settled {
    /// How a weight's column is read; the site's unit for the whole line where nothing was settled.
    pub fn reading(&self, column: u32) -> ColumnReading {
        self.columns.get(&column).copied().unwrap_or(ColumnReading {
            unit: self.site_unit,
            unit_how: How::Assumed,
            basis: Basis::Line,
            basis_how: How::Assumed,
            leaning: false,
            customary: false,
        })
    }

    /// The unit of a weight: its own, else its column's.
    pub fn unit_of(&self, weight: &StatedWeight) -> MassUnit {
        weight
            .unit
            .unwrap_or_else(|| self.reading(weight.place.column).unit)
    }

    /// Whether a column's figures are of the whole line.
    fn is_of_line(&self, column: u32) -> bool {
        self.columns
            .get(&column)
            .is_none_or(|reading| reading.basis == Basis::Line)
    }
}

/// The declared weight of a line or package: the weight of the line before that of a package or piece, gross before net.
/// `possible` says whether a reading of the whole line's mass could be true of the goods.
pub fn declared(
    weights: &[StatedWeight],
    unusable: &[UnusableWeight],
    pieces: u32,
    packages: Option<u32>,
    settled: &Settled,
    possible: impl Fn(Mass) -> bool,
) -> Option<Declared> {
    // Where the line's own cell says "TBA" or the like, the weight of a piece beside it does not speak for the line.
    let withheld = unusable
        .iter()
        .any(|cell| cell.withheld && settled.is_of_line(cell.place.column));
    let usable = |weight: &&StatedWeight| match weight.basis {
        Some(Basis::PerMetre | Basis::PerFoot) => false,
        Some(Basis::Piece | Basis::Package) => !withheld,
        Some(Basis::Line) | None => true,
    };
    let rank = |weight: &StatedWeight| {
        let basis = match weight.basis {
            Some(Basis::Line) => 0,
            None => 1,
            Some(Basis::Package) => 2,
            _ => 3,
        };
        let kind = match weight.kind {
            WeightKind::Gross => 0,
            WeightKind::Unstated => 1,
            WeightKind::Net => 2,
        };
        // The line's net beats a piece's gross only if no line weight is gross.
        (u8::from(basis >= 2), kind, basis)
    };
    let weight = weights
        .iter()
        .filter(usable)
        .min_by_key(|weight| rank(weight))?;
    let reading = settled.reading(weight.place.column);
    let contradicted = settled
        .contradicted
        .iter()
        .find(|column| column.column == weight.place.column);
    let (unit, unit_how) = weight
        .unit
        .map_or((reading.unit, reading.unit_how), |unit| (unit, How::Stated));
    let (basis, basis_how) = weight
        .basis
        .map_or((reading.basis, reading.basis_how), |basis| {
            (basis, How::Stated)
        });
    let number = |basis: Basis| number(basis, pieces, packages);
    let mass = unit.mass(weight.figure) * number(basis);
    // A line of one piece weighs the same whatever the figure is of.
    let several_packages = packages.is_some_and(|packages| packages > 1);
    let per_package = weight.basis.is_none() && reading.customary && several_packages;
    // "Per carton", and nobody says how many cartons there are.
    let uncounted = basis == Basis::Package && packages.is_none() && pieces > 1;
    let basis_how = if per_package || uncounted {
        How::Assumed
    } else {
        basis_how
    };
    let open_basis = basis_how == How::Assumed && (pieces > 1 || several_packages);
    let how = if contradicted.is_some() {
        How::Contradicted
    } else {
        [
            unit_how,
            if basis_how == How::Assumed && !open_basis {
                How::Inferred
            } else {
                basis_how
            },
        ]
        .into_iter()
        .max()
        .unwrap_or(How::Stated)
    };
    let mut heaviest = mass;
    if (unit_how == How::Assumed || open_basis) && !reading.leaning {
        let units: &[MassUnit] = if unit_how == How::Assumed {
            &[MassUnit::Kg, MassUnit::Lb]
        } else {
            &[unit]
        };
        let bases: &[Basis] = if per_package {
            &[Basis::Line, Basis::Package]
        } else if open_basis {
            &[Basis::Line, Basis::Piece, Basis::Package]
        } else {
            &[basis]
        };
        for (unit, basis) in units
            .iter()
            .flat_map(|unit| bases.iter().map(move |basis| (*unit, *basis)))
        {
            let other = unit.mass(weight.figure) * number(basis);
            if possible(other) {
                heaviest = heaviest.max(other);
            }
        }
    }
    if let Some(column) = contradicted {
        heaviest = heaviest.max(column.mass(weight.figure, pieces, packages));
    }
    // Where the line states two weights that contradict each other, the heavier one that can be true counts for the plan.
    for other in weights.iter().filter(usable) {
        let basis = other
            .basis
            .unwrap_or_else(|| settled.reading(other.place.column).basis);
        let other = settled.unit_of(other).mass(other.figure) * number(basis);
        if !other.fits(mass * (1.0 + CONTRADICTS)) && possible(other) {
            heaviest = heaviest.max(other);
        }
    }
    Some(Declared {
        mass,
        of: basis,
        kind: weight.kind,
        how,
        text: weight.text.clone(),
        place: weight.place.clone(),
        heaviest,
    })
}

/// The heaviest weight of the whole line that a cell without a usable weight speaks of.
pub fn spoken(
    unusable: &[UnusableWeight],
    pieces: u32,
    packages: Option<u32>,
    settled: &Settled,
) -> Option<Mass> {
    let mass = |cell: &UnusableWeight| {
        let spoken = cell.speaks_of?;
        let reading = settled.reading(cell.place.column);
        let unit = spoken.unit.unwrap_or(reading.unit);
        let number = match spoken.basis.unwrap_or(reading.basis) {
            Basis::Piece => pieces,
            Basis::Package => packages.unwrap_or(pieces),
            _ => 1,
        };
        Some(unit.mass(spoken.figure) * f64::from(number))
    };
    unusable
        .iter()
        .filter_map(mass)
        .reduce(|one, other| one.max(other))
}

#[cfg(test)]
mod tests;
