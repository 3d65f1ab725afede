//! Lines of one delivery held against each other: the same goods at two weights, one weight on unlike goods.
//! Comes in: the lines as judged one by one. Goes out: which lines speak against each other, and which are doubtful for it.

use super::Judged;
use crate::compare::Verdict;
use crate::estimate::Evidence;
use crate::plan::Basics;
use crate::understand::{How, Item, WeightKind};
use crate::units::Mass;
use std::collections::BTreeMap;
use std::ops::Range;

/// Unlike goods in a row with one weight before it counts as copied down (common practice, no source).
pub(super) const LEAST_UNLIKE: usize = 3;
/// Digits, closing zeros left out, that two honest weights seldom share by chance: 640 has two (common practice, no source).
const TELLING_DIGITS: usize = 3;
/// Weights that goods are filled or rounded to, kg and lb (common practice, no source).
const ROUND_STEP: f64 = 25.0;
/// How far a round weight may be off in the other unit, relative: 2,205 lb for 1,000 kg (common practice, no source).
const ROUNDED: f64 = 5e-4;
/// Kinds of packages and goods that are filled to a weight (common practice, no source).
const FILLED: [&str; 7] = [
    "bag",
    "drum",
    "can",
    "pail",
    "tote",
    "sack",
    "intermediate bulk container",
];

/// The goods of a line, as far as its words and sizes tell them from others.
#[derive(PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Goods {
    item: Option<String>,
    description: String,
    material: Option<String>,
    sizes: [Option<u64>; 6],
}

impl Goods {
    pub(super) fn of(item: &Item) -> Goods {
        Goods {
            item: item.item.as_deref().map(fold),
            description: fold(&item.description),
            material: item.material.as_deref().map(fold),
            sizes: item
                .sizes
                .all()
                .map(|size| size.map(|size| size.length.m().to_bits())),
        }
    }
}

fn fold(text: &str) -> String {
    let words: Vec<String> = text.split_whitespace().map(str::to_lowercase).collect();
    words.join(" ")
}

/// One item at two piece weights: the positions of its lightest and its heaviest line, and what a piece weighs on each.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct TwoWeights {
    pub(super) light: (usize, Mass),
    pub(super) heavy: (usize, Mass),
}

/// What the other lines of the delivery make doubtful about a line whose weight nothing else can check.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Doubt {
    /// Its weight stands on unlike goods above or below it too.
    pub copied: bool,
    /// The same item weighs so many times as much on another line.
    pub heavier: Option<f64>,
}

/// The doubts of each line. Lines that have an estimate are planned by it and have none. `least` is the weight of what is
/// lifted by hand.
pub fn doubts(lines: &[Judged<'_>], least: Mass) -> Vec<Doubt> {
    let mut doubts = vec![Doubt::default(); lines.len()];
    for run in copied_runs(lines, least) {
        // Bags and drums are filled to a weight, whatever is in them: that is asked about, and holds nothing.
        let filled = lines
            .get(run.clone())
            .unwrap_or_default()
            .iter()
            .all(is_filled);
        for doubt in doubts.get_mut(run).into_iter().flatten() {
            doubt.copied = !filled;
        }
    }
    for (heavy, group) in two_weights(lines)
        .into_iter()
        .map(|(two, group)| (two.heavy.1, group))
    {
        for (at, [_, high]) in group {
            if let Some(doubt) = doubts.get_mut(at).filter(|_| !heavy.fits(high)) {
                doubt.heavier = Some(heavy / high);
            }
        }
    }
    for (line, doubt) in lines.iter().zip(&mut doubts) {
        if line.verdict != Verdict::Unverifiable || line.estimate.is_ok() {
            *doubt = Doubt::default();
        }
    }
    doubts
}

/// Positions of lines with the least and the most that one of their pieces weighs by the declared weight.
type Group = Vec<(usize, [Mass; 2])>;

/// The items whose piece weights differ by more than the tolerance, each with all of its lines.
pub(super) fn two_weights(lines: &[Judged<'_>]) -> Vec<(TwoWeights, Group)> {
    let mut items: BTreeMap<(Goods, bool), Group> = BTreeMap::new();
    for (at, line) in lines.iter().enumerate() {
        if let Some((net, range)) = piece_weight(line) {
            let group = items.entry((Goods::of(line.item), net)).or_default();
            group.push((at, range));
        }
    }
    let differ = |group: Group| {
        let (light, [_, high]) = *group
            .iter()
            .min_by(|(_, [_, one]), (_, [_, other])| one.kg().total_cmp(&other.kg()))?;
        let (heavy, [low, _]) = *group
            .iter()
            .max_by(|(_, [one, _]), (_, [other, _])| one.kg().total_cmp(&other.kg()))?;
        let line = lines.get(light)?;
        let apart = !low.fits(high * (1.0 + line.tolerance.relative))
            && !((low - high) * f64::from(line.item.pieces)).fits(line.tolerance.floor);
        let two = TwoWeights {
            light: (light, high),
            heavy: (heavy, low),
        };
        apart.then_some((two, group))
    };
    let mut found: Vec<(TwoWeights, Group)> = items.into_values().filter_map(differ).collect();
    found.sort_by_key(|(two, _)| two.light.0.min(two.heavy.0));
    found
}

/// Whether the weight is net, and what one piece weighs by it at least and at most, known packaging taken off. None where
/// the goods are not known well enough to be the same, or the reading is not sure.
fn piece_weight(line: &Judged<'_>) -> Option<(bool, [Mass; 2])> {
    let declared = line.declared.filter(|declared| sure(declared.how))?;
    let firm = |evidence: Evidence| evidence != Evidence::Envelope;
    let known = line.item.item.is_some() || line.estimate.is_ok_and(|found| firm(found.evidence));
    if !known || line.item.pieces == 0 || line.item.pieces_how == How::Assumed {
        return None;
    }
    let tare = Basics::of_item(line.item).tare;
    let (least, most) = match declared.kind {
        WeightKind::Net => (Mass::ZERO, Mass::ZERO),
        WeightKind::Gross => (tare.low, tare.high),
        WeightKind::Unstated => (Mass::ZERO, tare.high),
    };
    let piece = |tare: Mass| {
        let contents = declared.mass - tare.min(declared.mass);
        contents / f64::from(line.item.pieces)
    };
    Some((
        declared.kind == WeightKind::Net,
        [piece(most), piece(least)],
    ))
}

fn sure(how: How) -> bool {
    !matches!(how, How::Assumed | How::Contradicted)
}

/// Runs of lines in a row with one figure on at least three unlike goods. Where most of the lines bear the figure out it is
/// honest; where no line speaks against it, a round figure proves nothing.
pub(super) fn copied_runs(lines: &[Judged<'_>], least: Mass) -> Vec<Range<usize>> {
    let figures: Vec<Option<(u32, f64)>> = lines.iter().map(figure).collect();
    let mut runs = Vec::new();
    let mut start = 0;
    for end in 1..=figures.len() {
        if end < figures.len() && figures[end].is_some() && figures[end] == figures[start] {
            continue;
        }
        let run = &lines[start..end];
        if let Some((_, figure)) = figures[start]
            && is_copied(run, figure, least)
        {
            runs.push(start..end);
        }
        start = end;
    }
    runs
}

fn is_copied(run: &[Judged<'_>], figure: f64, least: Mass) -> bool {
    let mut goods: Vec<Goods> = run.iter().map(|line| Goods::of(line.item)).collect();
    goods.sort();
    goods.dedup();
    let borne_out = run
        .iter()
        .filter(|line| line.verdict == Verdict::Consistent)
        .count();
    let refuted = |line: &Judged<'_>| {
        matches!(
            line.verdict,
            Verdict::Light | Verdict::Heavy | Verdict::Impossible
        )
    };
    let mut masses = run.iter().filter_map(|line| line.declared);
    let telling = masses.all(|found| is_telling(figure, found.mass));
    let heavy = |line: &Judged<'_>| line.declared.is_some_and(|found| !found.mass.fits(least));
    goods.len() >= LEAST_UNLIKE
        && borne_out * 2 < run.len()
        && run.iter().any(heavy)
        && (telling || run.iter().any(refuted))
}

/// Column and figure of the declared weight, where it is the line's own.
fn figure(line: &Judged<'_>) -> Option<(u32, f64)> {
    let declared = line
        .declared
        .filter(|found| found.how != How::Contradicted)?;
    let mut weights = line.item.weights.iter();
    let weight = weights.find(|weight| weight.place == declared.place)?;
    Some((declared.place.column, weight.figure))
}

/// Goods in something that is filled to a weight.
fn is_filled(line: &Judged<'_>) -> bool {
    let goods = match line.estimate {
        Ok(estimate) => estimate.goods,
        Err(no) => no.goods,
    };
    let filled = |name: &str| FILLED.contains(&name);
    line.item.packed_as.is_some_and(filled) || goods.is_some_and(filled)
}

/// Whether an honest weight seldom comes out at this figure: not at a multiple of 25, in either unit.
fn is_telling(figure: f64, mass: Mass) -> bool {
    let round = |value: f64| {
        let nearest = (value / ROUND_STEP).round() * ROUND_STEP;
        (value - nearest).abs() <= value * ROUNDED
    };
    digits(figure) >= TELLING_DIGITS && !round(mass.kg()) && !round(mass.lb())
}

/// Digits of a figure without leading and closing zeros.
fn digits(figure: f64) -> usize {
    let text: String = format!("{figure}").replace('.', "");
    text.trim_matches('0').len()
}

/// The first of several texts, and how many more there are: `a; b; and 2 more`.
pub(super) fn listed(texts: impl IntoIterator<Item = String>, most: usize) -> String {
    let mut texts: Vec<String> = texts.into_iter().collect();
    let more = texts.len().saturating_sub(most);
    texts.truncate(most);
    if more > 0 {
        texts.push(format!("and {more} more"));
    }
    texts.join("; ")
}
