//! What a line should weigh by earlier weighings of the same goods: the first evidence (method, section 1), unless it is a lone
//! one that speaks against all else.

use super::draft::tare;
use super::{Estimate, Evidence, NoEstimate, Step};
use crate::history::{Goods, Weighing, counted_in};
use crate::understand::{Item, SizeOf, Sizes};
use crate::units::{Mass, MassRange};

/// A standard deviation over a median absolute deviation, of normal scatter (1 / 0.6745, from memory).
const OF_MEDIAN_DEVIATION: f64 = 1.4826;

/// Goods and shapes that come more or less full (common practice, no source).
const FILLED: [&str; 6] = [
    "can",
    "drum",
    "freight container",
    "gas cylinder",
    "intermediate bulk container",
    "tank",
];
/// Groups of materials that come more or less wet (common practice, no source).
const WET: [&str; 4] = ["bulk solid", "engineered wood", "stone and soil", "wood"];

type Estimated = Result<Estimate, NoEstimate>;

/// What the same goods weighed before, for a line of today.
#[derive(Clone, Debug, PartialEq)]
pub struct Before {
    /// The weighings, the oldest first.
    pub weighings: Vec<Weighing>,
    /// What they make of the whole line, with the packaging that they were weighed in.
    pub line: MassRange,
    /// One of the weighings that the others speak against, left out of the range.
    pub odd: Option<usize>,
    /// They differ among themselves by more than the tolerance.
    pub scattered: bool,
    /// Words and sizes make something else.
    pub unlike: bool,
    /// The estimate by words and sizes, where the weighings took its place; none where it stands: then they prove nothing,
    /// and the plan must bear them too.
    pub instead_of: Option<Box<Estimated>>,
}

impl Before {
    /// The weight that the plan may not go below, whole line: of weighings that are not taken as evidence, the most they make.
    pub fn not_below(&self) -> Mass {
        match self.instead_of {
            Some(_) => Mass::ZERO,
            None => self.line.high,
        }
    }
}

/// The goods of a line. `sure` says whether the unit of its sizes is known.
pub fn goods(item: &Item, own: &Estimated, sure: bool) -> Goods {
    let of_package = item.sizes == Sizes::default() && item.package_sizes != Sizes::default();
    let (sizes, size_of) = if of_package {
        (&item.package_sizes, SizeOf::Package)
    } else {
        (&item.sizes, SizeOf::Piece)
    };
    let material = own.as_ref().ok().and_then(|estimate| estimate.material);
    Goods {
        item: item.item.clone(),
        description: item.description.clone(),
        material: material.map(|material| material.name.to_string()),
        sizes: sizes.all().map(|size| size.map(|size| size.length)),
        size_of,
        unit: counted_in(item.unit.as_deref()),
        described: sure
            && own
                .as_ref()
                .is_ok_and(|estimate| estimate.evidence != Evidence::Envelope),
    }
}

/// The estimate of a line once weighings of the same goods are known, and what they say. `own` is the one by words and sizes;
/// `scale_error` and `tolerance` are relative.
///
/// Several weighings that agree go before words and sizes, unless they are lighter. One alone, or several that may rest on one
/// slip, do where they fit them within the tolerance, or where there are none; several that scatter do where only an outline is
/// known, or nothing. Else words and sizes stand, and so they do where the goods are not told from others, or come more or less
/// full and nobody knows how much they hold: the plan then bears the weighings, and no more rests on them.
pub fn weighed(
    item: &Item,
    own: Estimated,
    weighings: &[&Weighing],
    scale_error: f64,
    tolerance: f64,
) -> (Estimated, Option<Before>) {
    let pieces = f64::from(item.pieces);
    // Nothing on a dock weighs more than solid lead.
    let upper = own.as_ref().err().and_then(|no| no.upper);
    let possible = |one: &&&Weighing| {
        upper.is_none_or(|upper| (one.piece() * pieces).fits(upper * (1.0 + tolerance)))
    };
    let weighings: Vec<Weighing> = weighings
        .iter()
        .filter(possible)
        .map(|one| (*one).clone())
        .collect();
    let Some(scatter) = Scatter::of(&weighings, scale_error, tolerance) else {
        return (own, None);
    };
    let mut piece = scatter.piece;
    if let Some(own) = own.as_ref().ok().filter(|own| varies(own)) {
        piece.high = piece.high.max(own.piece.high);
    }
    let line = piece.times(pieces);
    let agrees = own
        .as_ref()
        .map_or(true, |own| agrees(own, line.likely, tolerance));
    let one_slip = |one: &Weighing| weighings.iter().all(|other| one.is_one_with(other));
    let several = !weighings.iter().all(one_slip);
    let told = weighings.iter().all(|one| one.goods.is_told());
    let taken = match &own {
        _ if !told => false,
        // What was weighed nearly empty may come full, and nobody knows how much that is.
        Err(no) => !is_one(&FILLED, no.goods),
        // Weighings that one and the same slip may have made light do not overrule words and sizes.
        Ok(own) if several && !scatter.scattered => agrees || own.line.low.fits(line.likely),
        Ok(own) => {
            let near = weighings.len() == 1 || !scatter.scattered;
            agrees && (near || own.evidence == Evidence::Envelope)
        }
    };
    let mut before = Before {
        weighings,
        line,
        odd: scatter.odd,
        scattered: scatter.scattered,
        unlike: !agrees,
        instead_of: None,
    };
    if !taken {
        return (own, Some(before));
    }
    let estimate = estimate(item, &own, &before, piece);
    before.instead_of = Some(Box::new(own));
    (Ok(estimate), Some(before))
}

/// Whether a weight of the whole line lies in what words and sizes make of it, packaging included, widened by the tolerance.
fn agrees(own: &Estimate, mass: Mass, tolerance: f64) -> bool {
    let high = match own.evidence {
        Evidence::Envelope => own.block.unwrap_or(own.line.high),
        _ => own.line.high,
    };
    (own.line.low * (1.0 - tolerance)).fits(mass)
        && mass.fits((high + own.tare.high) * (1.0 + tolerance))
}

fn is_one(list: &[&str], name: Option<&str>) -> bool {
    name.is_some_and(|name| list.contains(&name))
}

/// Whether goods of one name and size may weigh more on the next delivery: fuller, or wetter. The upper end that words and sizes
/// give then stays.
fn varies(own: &Estimate) -> bool {
    own.evidence != Evidence::Envelope
        && (is_one(&FILLED, own.goods) || is_one(&FILLED, own.shape) || is_one(&WET, own.group))
}

/// How the weighings of a piece lie.
struct Scatter {
    piece: MassRange,
    odd: Option<usize>,
    scattered: bool,
}

impl Scatter {
    /// The median and the larger of the scale's error and twice the spread, no narrower than what was weighed; one that lies
    /// outside by more than the tolerance is left out where at least two others agree. None without a weighing.
    fn of(weighings: &[Weighing], scale_error: f64, tolerance: f64) -> Option<Scatter> {
        let pieces: Vec<f64> = weighings.iter().map(|one| one.piece().kg()).collect();
        let likely = median(&pieces)?;
        let off: Vec<f64> = pieces.iter().map(|kg| (kg - likely).abs()).collect();
        let half = (2.0 * OF_MEDIAN_DEVIATION * median(&off)?).max(scale_error * likely);
        let (low, high) = (likely - half, likely + half);
        let inside = |kg: f64| kg >= low * (1.0 - tolerance) && kg <= high * (1.0 + tolerance);
        let mut outside = (0..pieces.len()).filter(|at| !inside(pieces[*at]));
        let odd = outside.next().filter(|_| pieces.len() > 2);
        let others = (0..pieces.len()).filter(|at| Some(*at) != odd);
        let (least, most) = others.fold((f64::MAX, 0f64), |(least, most), at| {
            (least.min(pieces[at]), most.max(pieces[at]))
        });
        let near = least >= likely * (1.0 - tolerance) && most <= likely * (1.0 + tolerance);
        let scattered = !near || half > likely * tolerance || outside.next().is_some();
        let (odd, low, high) = if scattered {
            let least = pieces.iter().copied().fold(f64::MAX, f64::min);
            let most = pieces.iter().copied().fold(0.0, f64::max);
            (
                None,
                least * (1.0 - scale_error),
                most * (1.0 + scale_error),
            )
        } else {
            (odd, low.min(least), high.max(most))
        };
        Some(Scatter {
            piece: MassRange {
                low: Mass::from_kg(low),
                likely: Mass::from_kg(likely),
                high: Mass::from_kg(high),
            },
            odd,
            scattered,
        })
    }
}

fn median(values: &[f64]) -> Option<f64> {
    let mut sorted = values.to_vec();
    sorted.sort_by(f64::total_cmp);
    let half = sorted.len() / 2;
    let upper = *sorted.get(half)?;
    Some(if sorted.len() % 2 == 1 {
        upper
    } else {
        (sorted[half - 1] + upper) / 2.0
    })
}

/// The estimate by the weighings. Nobody knows how much of the packaging was on the scale: it is taken off the low end and
/// stays a tare to add, so that both a net and a gross weight find room.
fn estimate(item: &Item, own: &Estimated, before: &Before, piece: MassRange) -> Estimate {
    let of_own = own.as_ref().ok();
    let goods = match own {
        Ok(own) => own.goods,
        Err(no) => no.goods,
    };
    let tare = of_own.map_or_else(|| tare(item, goods), |own| own.tare);
    let line = before.line;
    Estimate {
        evidence: Evidence::Weighed,
        shape: of_own.and_then(|own| own.shape),
        product: of_own.and_then(|own| own.product.clone()),
        material: of_own.and_then(|own| own.material),
        group: of_own.and_then(|own| own.group),
        goods,
        piece,
        line: MassRange {
            low: line.low - tare.high.min(line.low),
            ..line
        },
        tare,
        block: of_own.and_then(|own| own.block),
        solid: of_own.is_some_and(|own| own.solid),
        outline: match own {
            Ok(own) => own.outline,
            Err(no) => no.outline,
        },
        steps: steps(item, before, piece),
        working: working(before, piece),
        otherwise: None,
    }
}

fn working(before: &Before, piece: MassRange) -> String {
    let count = before.weighings.len();
    let last = before.weighings.last();
    let last = last.map_or(String::new(), |one| {
        format!(" on {} ({} {})", one.day, one.file, one.cell)
    });
    let range = format!(
        "from {:.1} % below to {:.1} % above",
        100.0 * (1.0 - piece.low / piece.likely),
        100.0 * (piece.high / piece.likely - 1.0)
    );
    let odd = before
        .odd
        .map_or("", |_| ", one odd weighing left out of the range");
    match count {
        1 => format!("the same goods were weighed{last}, {range}"),
        _ => format!("median of {count} weighings of the same goods, the last{last}, {range}{odd}"),
    }
}

fn steps(item: &Item, before: &Before, piece: MassRange) -> Vec<Step> {
    let count = before.weighings.len();
    let name = |at: usize| match count {
        1 => "one piece".to_string(),
        _ => format!("one piece of weighing {}", at + 1),
    };
    let of_weighing = |(at, one): (usize, &Weighing)| Step {
        what: format!(
            "{}, weighed on {} as it stood, with its packaging",
            name(at),
            one.day
        ),
        formula: "weighed line / pieces".to_string(),
        inputs: vec![
            ("weighed line".to_string(), one.mass.kg()),
            ("pieces".to_string(), f64::from(one.pieces)),
        ],
        result: one.piece().kg(),
        unit: "kg",
        source: one.source(),
    };
    let mut steps: Vec<Step> = before
        .weighings
        .iter()
        .enumerate()
        .map(of_weighing)
        .collect();
    if count > 1 {
        let mut order: Vec<usize> = (0..count).collect();
        let kg = |at: usize| before.weighings[at].piece().kg();
        order.sort_by(|one, other| kg(*one).total_cmp(&kg(*other)));
        let middle = &order[(count - 1) / 2..=count / 2];
        let formula = match middle {
            [one, other] => format!("({} + {}) / 2", name(*one), name(*other)),
            _ => middle.iter().map(|at| name(*at)).collect(),
        };
        steps.push(Step {
            what: "one piece, median of the weighings".to_string(),
            formula,
            inputs: middle.iter().map(|at| (name(*at), kg(*at))).collect(),
            result: piece.likely.kg(),
            unit: "kg",
            source: format!("the {count} weighings above"),
        });
    }
    if item.pieces > 1 {
        steps.push(Step {
            what: "the whole line".to_string(),
            formula: "one piece x pieces".to_string(),
            inputs: vec![
                ("one piece".to_string(), piece.likely.kg()),
                ("pieces".to_string(), f64::from(item.pieces)),
            ],
            result: before.line.likely.kg(),
            unit: "kg",
            source: "the line's number of pieces".to_string(),
        });
    }
    steps
}

#[cfg(test)]
mod tests;
