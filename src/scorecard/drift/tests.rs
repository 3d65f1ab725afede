//! The test for drift by simulation: how often it speaks of suppliers that never moved, and how soon of those that did.

use super::*;
use chrono::Days;
use rayon::prelude::*;

/// Suppliers a simulation.
const SUPPLIERS: u64 = 2_000;
/// Deliveries that the rate of false alarms is stated for.
const HORIZON: usize = 100;

/// Random figures from a seed (splitmix64).
struct Random(u64);

impl Random {
    fn bits(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        mixed ^ (mixed >> 31)
    }

    /// Between 0 and 1, neither of them.
    fn share(&mut self) -> f64 {
        ((self.bits() >> 11) as f64 + 0.5) / (1u64 << 53) as f64
    }

    /// Normal with standard deviation 1 (Box and Muller 1958).
    fn normal(&mut self) -> f64 {
        let (radius, turn) = (-2.0 * self.share().ln(), self.share());
        radius.sqrt() * (std::f64::consts::TAU * turn).cos()
    }

    /// Student's t of 3 degrees of freedom, scaled to standard deviation 1.
    fn heavy_tailed(&mut self) -> f64 {
        let squares: f64 = (0..3).map(|_| self.normal().powi(2)).sum();
        self.normal() / squares.sqrt()
    }
}

/// How the weights of a realistic steady supplier scatter (common practice, no source).
#[derive(Clone, Copy, Debug)]
enum Noise {
    /// Normal: 3 % between deliveries, 4 % between the 3 to 12 lines of one.
    Normal,
    /// The same scatter with heavy tails: now and then a delivery or line far out.
    HeavyTailed,
    /// Normal, one to three lines a delivery.
    FewLines,
    /// One delivery in ten scatters four times as much as the others; 1 to 8 lines.
    OddDeliveries,
    /// Weights as tables have them: nine in ten lines are declared just as expected.
    Exact,
}

/// The forms that rates are stated for, in the order of [`MEASURED`].
const FORMS: [Noise; 4] = [
    Noise::Normal,
    Noise::HeavyTailed,
    Noise::FewLines,
    Noise::OddDeliveries,
];

/// What a delivery of a supplier says whose weights are all off by `bias`, ln(declared / likely).
fn delivery(random: &mut Random, noise: Noise, bias: f64) -> f64 {
    loop {
        let of = |from: u64, to: u64, random: &mut Random| from + random.bits() % (to - from + 1);
        let (between, lines) = match noise {
            Noise::Normal | Noise::Exact => (0.03 * random.normal(), of(3, 12, random)),
            Noise::HeavyTailed => (0.03 * random.heavy_tailed(), of(3, 12, random)),
            Noise::FewLines => (0.03 * random.normal(), of(1, 3, random)),
            Noise::OddDeliveries => {
                let wild = if random.share() < 0.1 { 4.0 } else { 1.0 };
                (0.02 * wild * random.normal(), of(1, 8, random))
            }
        };
        let line = |random: &mut Random| match noise {
            Noise::HeavyTailed => between + 0.04 * random.heavy_tailed(),
            Noise::Exact if random.share() < 0.9 => 0.0,
            _ => between + 0.04 * random.normal(),
        };
        let lines: Vec<f64> = (0..lines).map(|_| bias + line(random)).collect();
        if let Some(value) = of_lines(&lines) {
            return value;
        }
    }
}

/// A supplier's deliveries, one a day: some, then some with all weights off by `shift`.
fn deliveries(random: &mut Random, noise: Noise, counts: [usize; 2], shift: f64) -> Vec<Point> {
    let first = NaiveDate::from_ymd_opt(2024, 1, 1).expect("a day");
    (0..counts[0] + counts[1])
        .map(|at| Point {
            day: first + Days::new(at as u64),
            value: delivery(random, noise, if at < counts[0] { 0.0 } else { shift }),
        })
        .collect()
}

fn has_moved(points: &[Point]) -> bool {
    matches!(course(points), Course::Moved(_))
}

/// The sums of ranks of a growing list, worked out from comparisons alone: apart from the sorting of the test itself, and
/// quick enough to look after every delivery.
#[derive(Default)]
struct Growing {
    values: Vec<f64>,
    /// Of each value: how many are smaller, less how many are greater.
    scores: Vec<f64>,
    ties: f64,
}

impl Growing {
    fn push(&mut self, value: f64) {
        let (mut own, mut equal) = (0.0, 0.0);
        for (other, score) in self.values.iter().zip(&mut self.scores) {
            if value < *other {
                *score += 1.0;
                own -= 1.0;
            } else if value > *other {
                *score -= 1.0;
                own += 1.0;
            } else {
                equal += 1.0;
            }
        }
        self.ties += 3.0 * equal * (equal + 1.0);
        self.values.push(value);
        self.scores.push(own);
    }

    /// Whether some date parts the list beyond the limit, however small the move.
    fn is_parted(&self) -> bool {
        let all = self.values.len() as f64;
        let scatter = (all + 1.0 - self.ties / (all * (all - 1.0))) / 3.0;
        let mut sum = 0.0;
        for (before, score) in (1..self.values.len()).zip(&self.scores) {
            sum += score;
            let part = before as f64;
            if before >= LEAST
                && self.values.len() - before >= LEAST
                && sum * sum > LIMIT * LIMIT * part * (all - part) * scatter
            {
                return true;
            }
        }
        false
    }
}

/// Whether a supplier is named in one of the looks, the first after delivery `from`, one after each further delivery.
fn named(points: &[Point], from: usize) -> bool {
    let mut growing = Growing::default();
    let found = (1..).zip(points).any(|(count, point)| {
        growing.push(point.value);
        count >= from.max(FEWEST) && growing.is_parted() && has_moved(&points[..count])
    });
    assert!(growing.is_parted() || !has_moved(&points[..growing.values.len()]));
    found
}

/// Part of the simulated suppliers that are named.
fn share_named(noise: Noise, counts: [usize; 2], shift: f64, suppliers: u64) -> f64 {
    let is_named = |seed: &u64| {
        let points = deliveries(&mut Random(*seed << 20), noise, counts, shift);
        named(&points, counts[0].min(points.len() - 1))
    };
    let count = (0..suppliers).into_par_iter().filter(is_named).count();
    count as f64 / suppliers as f64
}

/// The stated rates, and within one half more or less: of suppliers that never moved, in every form of noise.
#[test]
fn false_alarms_are_as_rare_as_stated() {
    for (noise, (words, stated)) in FORMS.iter().zip(MEASURED) {
        let rate = share_named(*noise, [0, HORIZON], 0.0, SUPPLIERS);
        assert!((rate - stated).abs() < 0.003, "{words}: {rate}");
        let limits = FALSE_ALARMS / 1.5..=FALSE_ALARMS * 1.5;
        assert!(limits.contains(&rate), "{words}: {rate}");
    }
    let long = share_named(Noise::Normal, [0, 3 * HORIZON], 0.0, SUPPLIERS / 4);
    assert!((long - OVER_300).abs() < 0.04, "{long}");
    let exact = share_named(Noise::Exact, [0, HORIZON], 0.0, SUPPLIERS / 4);
    assert!(exact <= FALSE_ALARMS, "{exact}");
}

/// One look at suppliers of 100 deliveries, whatever was said before.
#[test]
fn one_look_names_few_by_chance() {
    let is_named = |seed: &u64| {
        let points = deliveries(&mut Random(*seed << 20), Noise::Normal, [HORIZON, 0], 0.0);
        has_moved(&points)
    };
    let suppliers = SUPPLIERS * 4;
    let count = (0..suppliers).into_par_iter().filter(is_named).count();
    let rate = count as f64 / suppliers as f64;
    assert!((ONE_LOOK / 1.5..=ONE_LOOK * 1.5).contains(&rate), "{rate}");
}

/// 5 % lighter or heavier after 40 steady deliveries: seen within the next 20.
#[test]
fn a_shift_of_5_percent_is_seen_within_20_deliveries() {
    for (factor, (words, stated)) in [0.95_f64, 1.05].iter().zip(SEEN) {
        let rate = share_named(Noise::Normal, [40, 20], factor.ln(), SUPPLIERS);
        assert!(rate >= 0.9, "{words}: {rate}");
        assert!((rate - stated).abs() < 0.01, "{words}: {rate}");
    }
    let few = share_named(Noise::FewLines, [40, 20], 0.95_f64.ln(), SUPPLIERS);
    assert!((few - SEEN_BY_FEW_LINES).abs() < 0.02, "{few}");
}

/// The day and the size of a move, as the middle of many simulated ones has them.
#[test]
fn since_when_and_how_much_are_about_right() {
    let shift = 0.95_f64.ln();
    let (mut days, mut sizes): (Vec<f64>, Vec<f64>) = (0..200)
        .filter_map(|seed: u64| {
            let points = deliveries(&mut Random(seed << 20), Noise::Normal, [40, 20], shift);
            let Course::Moved(found) = course(&points) else {
                return None;
            };
            assert_eq!(points[found.deliveries_before].day, found.since);
            assert_eq!(found.deliveries + found.deliveries_before, 60);
            Some((found.deliveries_before as f64, found.after - found.before))
        })
        .unzip();
    assert!(days.len() > 180, "{}", days.len());
    let near = days.iter().filter(|at| (**at - 40.0).abs() <= 3.0).count();
    assert!(near * 10 > days.len() * 7, "{near} of {}", days.len());
    assert_eq!(median(&mut days), Some(40.0));
    let size = median(&mut sizes).expect("sizes");
    assert!((size - shift).abs() < 0.005, "{size}");
}

/// Values that go round a small cycle about each level, so that nothing is left to chance.
fn cycle(levels: &[(usize, f64)]) -> Vec<Point> {
    let first = NaiveDate::from_ymd_opt(2026, 1, 1).expect("a day");
    let values = levels.iter().flat_map(|(count, level)| {
        (0..*count).map(move |at| level + [0.0, 0.011, -0.009, 0.004, -0.006][at % 5])
    });
    (0..)
        .zip(values)
        .map(|(day, value)| Point {
            day: first + Days::new(day),
            value,
        })
        .collect()
}

#[test]
fn a_bias_from_the_start_is_no_drift_but_said() {
    for (level, biased) in [(-0.04, true), (0.0, false), (0.012, false), (0.05, true)] {
        let Course::Steady {
            level: found,
            biased: is_biased,
            deliveries: 60,
        } = course(&cycle(&[(60, level)]))
        else {
            panic!("{level}: steady")
        };
        assert_eq!(is_biased, biased, "{level}");
        assert!((found - level).abs() < 1e-9, "{level}: {found}");
    }
}

#[test]
fn the_last_of_several_moves_counts() {
    let points = cycle(&[(40, 0.0), (40, -0.05), (30, 0.0)]);
    let Course::Moved(found) = course(&points) else {
        panic!("it moved twice")
    };
    assert_eq!((found.deliveries_before, found.deliveries), (40, 30));
    assert_eq!(found.since, points[80].day);
    assert!((found.before + 0.05).abs() < 1e-9 && found.after.abs() < 1e-9);
}

#[test]
fn small_moves_and_short_records_are_not_named() {
    let is_steady = |points: &[Point]| matches!(course(points), Course::Steady { .. });
    assert!(is_steady(&cycle(&[(50, 0.0), (50, -0.015)])));
    assert!(!is_steady(&cycle(&[(50, 0.0), (50, -0.025)])));
    let short = cycle(&[(9, 0.0), (8, -0.2)]);
    assert_eq!(course(&short), Course::TooFew { deliveries: 17 });
    assert!(has_moved(&cycle(&[(9, 0.0), (9, -0.2)])));
    assert_eq!(course(&[]), Course::TooFew { deliveries: 0 });
}

#[test]
fn equal_values_share_their_rank_and_slips_are_left_out() {
    assert_eq!(
        ranks(&[3.0, 1.0, 3.0, 2.0, 3.0]),
        (vec![4.0, 1.0, 4.0, 2.0, 4.0], 24.0)
    );
    let same = vec![
        Point {
            day: NaiveDate::MIN,
            value: 0.0
        };
        40
    ];
    assert!(!has_moved(&same));
    assert_eq!(of_lines(&[-0.02, 0.7, 0.02, -2.3]), Some(0.0));
    assert_eq!(of_lines(&[0.7]), None);
}
