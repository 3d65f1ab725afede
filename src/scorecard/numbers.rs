//! Figures that a few odd values do not move: median, spread, the value that nine in ten stay below.
//! Comes in: values without gaps, in any order. Goes out: one figure, or none of no values.

/// Makes the median deviation of normally distributed values their standard deviation: 1 / 0.67449, the upper quartile of
/// the standard normal distribution.
const TO_STANDARD: f64 = 1.482_602_218_505_602;

/// The middle value; of an even number the mean of the two in the middle. Changes the order of `values`.
pub fn median(values: &mut [f64]) -> Option<f64> {
    let half = values.len() / 2;
    let even = values.len().is_multiple_of(2);
    if values.is_empty() {
        return None;
    }
    let (below, &mut upper, _) = values.select_nth_unstable_by(half, f64::total_cmp);
    if !even {
        return Some(upper);
    }
    let lower = below.iter().copied().max_by(f64::total_cmp)?;
    Some(lower.midpoint(upper))
}

/// The median and the spread: 1.4826 times the median distance from it, which is one standard deviation where the values
/// are normally distributed, and stays there while fewer than half are anything else. Changes `values`.
pub fn median_and_spread(values: &mut [f64]) -> Option<(f64, f64)> {
    let middle = median(values)?;
    for value in values.iter_mut() {
        *value = (*value - middle).abs();
    }
    Some((middle, TO_STANDARD * median(values)?))
}

/// The least of the values that at least nine in ten do not exceed. Changes the order of `values`.
pub fn nine_in_ten(values: &mut [f64]) -> Option<f64> {
    let at = (values.len() * 9).div_ceil(10).checked_sub(1)?;
    let (_, &mut value, _) = values.select_nth_unstable_by(at, f64::total_cmp);
    Some(value)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Worked by hand.
    #[test]
    fn a_few_odd_values_move_nothing() {
        assert_eq!(median(&mut []), None);
        assert_eq!(median(&mut [3.0, 1.0, 2.0]), Some(2.0));
        assert_eq!(median(&mut [4.0, 1.0, 3.0, 2.0]), Some(2.5));
        // Distances from 3: 2, 1, 0, 1, 997.
        let (middle, spread) =
            median_and_spread(&mut [1.0, 2.0, 3.0, 4.0, 1_000.0]).expect("values");
        assert_eq!((middle, spread), (3.0, TO_STANDARD));
        assert_eq!(median_and_spread(&mut []), None);
    }

    /// Of ten values the ninth, of eleven the tenth (9.9 rounded up).
    #[test]
    fn nine_in_ten_stay_below() {
        let upto = |last: u32| (1..=last).rev().map(f64::from).collect::<Vec<f64>>();
        for (last, value) in [(1, 1.0), (2, 2.0), (10, 9.0), (11, 10.0), (20, 18.0)] {
            assert_eq!(nine_in_ten(&mut upto(last)), Some(value), "{last}");
        }
        assert_eq!(nine_in_ten(&mut []), None);
    }
}
