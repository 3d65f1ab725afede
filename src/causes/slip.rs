//! What the hypotheses look at: one flagged line as plain data.

use crate::compare::{Tolerance, expected};
use crate::estimate::details::{self, Details};
use crate::estimate::{Estimate, Evidence};
use crate::settle::{Declared, Settled};
use crate::tables::materials::Material;
use crate::tables::packages::{self, Counts};
use crate::understand::{Basis, Item, MassUnit, Size1, Sizes, StatedWeight, WeightKind};
use crate::units::{Length, Mass, MassRange};

/// Packaging of no known kind, low, likely and high as parts of the net weight: a steel drum is a tenth (common practice, no source).
const UNKNOWN_TARE: (f64, f64, f64) = (0.0, 0.04, 0.14);
/// Longest piece that a vehicle brings in ordinary traffic (Directive 96/53/EC: 18.75 m; US practice to 30 m with a permit).
pub(super) const LONGEST_PIECE: Length = Length::from_m(30.0);
/// Numbers in a description above this count no pieces (common practice, no source).
const MOST_COUNTED: u32 = 10_000;

/// A declared weight that does not fit, with everything that could explain it.
#[derive(Clone, Debug, PartialEq)]
pub struct Slip {
    /// Declared mass of the whole line.
    pub declared: Mass,
    /// Net, gross or not said.
    pub kind: WeightKind,
    /// What the figure is read as the weight of.
    pub of: Basis,
    /// The figure as written.
    pub figure: f64,
    /// The unit it is read in.
    pub unit: MassUnit,
    /// The line's net weight, where it is stated.
    pub net: Option<Mass>,
    /// The line's gross weight, where it is stated.
    pub gross: Option<Mass>,
    /// What a weight of the declared kind is expected to be.
    pub expected: MassRange,
    /// Packaging of the whole line.
    pub tare: MassRange,
    /// Relative tolerance of the comparison.
    pub tolerance: f64,
    /// Number of pieces.
    pub pieces: u32,
    /// Number of packages, where packages are counted.
    pub packages: Option<u32>,
    /// Numbers of pieces or packages that the description names.
    pub counts: Vec<u32>,
    /// What the estimate rests on; none where the weight is compared with the document's own net weight.
    pub evidence: Option<Evidence>,
    /// Shape of the estimate.
    pub shape: Option<&'static str>,
    /// Product of the estimate.
    pub product: Option<String>,
    /// Kind of goods of the estimate.
    pub goods: Option<&'static str>,
    /// Material of the estimate.
    pub material: Option<&'static Material>,
    /// Likely mass of one piece.
    pub piece: Mass,
    /// Sizes of a piece as written.
    pub sizes: Sizes,
    /// What the description says of its form beyond its sizes.
    pub details: Details,
    /// Outline of one piece: length, width, height.
    pub outline: Option<[Length; 3]>,
    /// A piece as written is longer than any vehicle, and not wound.
    pub too_long: bool,
}

impl Slip {
    /// A line or package (without an item) whose declared weight does not fit its estimate. None where the cell of the
    /// declared weight is not among the weights, which would be a fault of the reading.
    pub fn of(
        item: Option<&Item>,
        weights: &[StatedWeight],
        declared: &Declared,
        settled: &Settled,
        estimate: &Estimate,
        tolerance: Tolerance,
    ) -> Option<Slip> {
        let weight = weights
            .iter()
            .find(|weight| weight.place == declared.place)?;
        Some(Slip {
            declared: declared.mass,
            kind: declared.kind,
            of: declared.of,
            figure: weight.figure,
            unit: settled.unit_of(weight),
            net: stated(weights, settled, WeightKind::Net).map(|(mass, _)| mass),
            gross: stated(weights, settled, WeightKind::Gross).map(|(mass, _)| mass),
            expected: expected(estimate, declared.kind),
            tare: estimate.tare,
            tolerance: tolerance.relative,
            pieces: item.map_or(1, |item| item.pieces),
            packages: item.and_then(|item| item.packages),
            counts: item.map_or_else(Vec::new, |item| counts(&item.description)),
            evidence: Some(estimate.evidence),
            shape: estimate.shape,
            product: estimate.product.clone(),
            goods: estimate.goods,
            material: estimate.material,
            piece: estimate.piece.likely,
            sizes: item.map_or_else(Sizes::default, |item| item.sizes),
            details: item.map_or_else(Details::default, details::of),
            outline: estimate.outline,
            too_long: item.is_some_and(|item| too_long(item, estimate.goods)),
        })
    }

    /// A gross weight below the net weight beside it: what it should be is the net weight and the packaging
    /// (`tare` of zero: of no known kind).
    pub fn beside_net(
        gross: &StatedWeight,
        settled: &Settled,
        net: Mass,
        tare: MassRange,
        tolerance: Tolerance,
    ) -> Option<Slip> {
        let unit = settled.unit_of(gross);
        let mass = unit.mass(gross.figure);
        let (low, likely, high) = UNKNOWN_TARE;
        let tare = if tare.high.kg() > 0.0 {
            tare
        } else {
            MassRange {
                low: net * low,
                likely: net * likely,
                high: net * high,
            }
        };
        let net_alone = MassRange {
            low: net,
            likely: net,
            high: net,
        };
        Some(Slip {
            declared: mass,
            kind: WeightKind::Gross,
            of: Basis::Line,
            figure: gross.figure,
            unit,
            net: Some(net),
            gross: Some(mass),
            expected: net_alone.plus(tare),
            tare,
            tolerance: tolerance.relative,
            pieces: 1,
            packages: None,
            counts: Vec::new(),
            evidence: None,
            shape: None,
            product: None,
            goods: None,
            material: None,
            piece: net,
            sizes: Sizes::default(),
            details: Details::default(),
            outline: None,
            too_long: false,
        })
    }

    /// Length of one piece.
    pub(super) fn length(&self) -> Option<Length> {
        let own = self.sizes.length.map(|size| size.length);
        let of_product = self
            .outline
            .filter(|_| self.evidence == Some(Evidence::Product));
        own.or(of_product.map(|[length, ..]| length))
            .filter(|length| length.m() > 0.0)
    }
}

/// The line's weight of that kind as printed, with its cell: only a weight of the whole line, in the unit it is read in.
pub fn stated<'a>(
    weights: &'a [StatedWeight],
    settled: &Settled,
    kind: WeightKind,
) -> Option<(Mass, &'a StatedWeight)> {
    let of_line = |weight: &&StatedWeight| {
        weight.kind == kind && matches!(weight.basis, None | Some(Basis::Line))
    };
    let weight = weights.iter().find(of_line)?;
    Some((settled.unit_of(weight).mass(weight.figure), weight))
}

/// Longer than any road vehicle with its load, and not wound.
pub fn too_long(item: &Item, goods: Option<&str>) -> bool {
    let wound = [item.packed_as, goods]
        .into_iter()
        .flatten()
        .any(packages::wound);
    let long = |size: Size1| !size.length.fits(LONGEST_PIECE);
    !wound && item.sizes.length.is_some_and(long)
}

/// Numbers before a word of count: `60 PCS`, `10 JTS`, `4 reels`.
fn counts(description: &str) -> Vec<u32> {
    let words: Vec<&str> = description
        .split([' ', ',', ';', '(', ')'])
        .filter(|word| !word.is_empty())
        .collect();
    words
        .windows(2)
        .filter_map(|pair| match pair {
            [number, word] => {
                let number = number.parse::<u32>().ok()?;
                let counted =
                    packages::of_word(word).is_some_and(|word| word.counts != Counts::Measure);
                (counted && (1..=MOST_COUNTED).contains(&number)).then_some(number)
            }
            _ => None,
        })
        .collect()
}
