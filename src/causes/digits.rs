//! `digits`: two neighbouring digits exchanged, one dropped, or one typed twice.
//!
//! Always possible. The figure that was meant is the written one with neighbours exchanged back, with one digit put in, or
//! with one of two equal neighbours taken out. A figure has few of the first and last and some forty of the second, so each
//! way has a third of the prior, divided by the number of distinct figures it makes of this text: otherwise the many would
//! always find something that fits.

use super::{Candidate, Hypothesis, Slip};
use crate::units::show;
use std::collections::BTreeSet;

/// See the module.
pub(super) struct Digits;

impl Hypothesis for Digits {
    fn kind(&self) -> &'static str {
        "digits"
    }

    fn ask(&self) -> &'static str {
        "ask for the figure once more, digit by digit"
    }

    fn candidates(&self, slip: &Slip) -> Vec<Candidate> {
        let written: Vec<char> = format!("{}", slip.figure).chars().collect();
        // A figure beyond sixteen signs is no longer what somebody typed.
        if slip.figure <= 0.0 || written.len() > 16 {
            return Vec::new();
        }
        [exchanged(&written), put_in(&written), taken_out(&written)]
            .into_iter()
            .flat_map(|texts| {
                // Exchanged, doubled and dropped digits are taken as equally frequent (invented, no source).
                let odds = 1.0 / 3.0 / texts.len().max(1) as f64;
                texts
                    .into_iter()
                    .filter_map(move |text| Some((text.parse::<f64>().ok()?, odds)))
            })
            .map(|(figure, odds)| {
                let reading = format!("{} {}", show::figure(figure), slip.unit.symbol());
                Candidate::of_weight(slip.declared * (figure / slip.figure), reading).odds(odds)
            })
            .collect()
    }
}

/// Places of the digits, the decimal sign left out.
fn places(written: &[char]) -> Vec<usize> {
    (0..written.len())
        .filter(|at| written[*at].is_ascii_digit())
        .collect()
}

fn exchanged(written: &[char]) -> BTreeSet<String> {
    let places = places(written);
    let neighbours = places.iter().zip(places.iter().skip(1));
    neighbours
        .filter(|(one, other)| written[**one] != written[**other])
        .map(|(one, other)| {
            let mut text = written.to_vec();
            text.swap(*one, *other);
            text.into_iter().collect()
        })
        .collect()
}

fn put_in(written: &[char]) -> BTreeSet<String> {
    let digits = || '0'..='9';
    let at_each = (0..=written.len()).flat_map(|at| digits().map(move |digit| (at, digit)));
    at_each
        // A nought in front says nothing.
        .filter(|(at, digit)| *at > 0 || *digit != '0')
        .map(|(at, digit)| {
            let mut text = written.to_vec();
            text.insert(at, digit);
            text.into_iter().collect()
        })
        .collect()
}

fn taken_out(written: &[char]) -> BTreeSet<String> {
    let places = places(written);
    let neighbours = places.iter().zip(places.iter().skip(1));
    neighbours
        .filter(|(one, other)| written[**one] == written[**other])
        .map(|(one, _)| {
            let mut text = written.to_vec();
            text.remove(*one);
            text.into_iter().collect()
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::causes::testing::check;

    #[test]
    fn edits_are_those_of_the_text() {
        // Counted by hand.
        let edits = |way: fn(&[char]) -> BTreeSet<String>, text: &str| {
            let written: Vec<char> = text.chars().collect();
            way(&written).into_iter().collect::<Vec<_>>()
        };
        assert_eq!(edits(exchanged, "12.3"), ["13.2", "21.3"]);
        assert_eq!(edits(exchanged, "77"), Vec::<String>::new());
        assert_eq!(edits(taken_out, "4411"), ["411", "441"]);
        // 9 in front (no nought), 10 behind, 11 and so on counted once: 5 and one digit more is 9 + 10 - 1.
        assert_eq!(edits(put_in, "5").len(), 18);
    }

    #[test]
    fn digits_exchanged_dropped_doubled() {
        check(
            "digits",
            &[
                // EN 10365: UB 203x133x25, 10 pieces of 6 m weigh 1,506 kg; 1,506 typed as 5,106.
                "UB 203x133x25 | - | 10 | l 6000 mm | 5,106 kg",
                // Geometry x 7,850 kg/m3: 24 plates of 1 m x 0.5 m x 10 mm weigh 942 kg, typed as 492 (neighbours exchanged).
                "Floor plate | steel | 24 | 1000 x 500 x 10 mm | 492 kg",
                // 1,506 kg (as above) with its first digit dropped.
                "UB 203x133x25 | - | 10 | l 6000 mm | 506 kg",
                // AISC Manual: W10x33, 33 lb/ft x 20 ft x 2 = 1,320 lb with the 1 typed twice.
                "W10X33 | - | 2 | l 20 ft | 11,320 lb",
            ],
            &[
                // Ten times is a decimal point before it is a nought.
                "UB 203x133x25 | - | 12 | l 6000 mm | 18,072 kg",
                // No exchange of these digits comes near 1,506.
                "UB 203x133x25 | - | 10 | l 6000 mm | 3,333 kg",
                // Kilograms for pounds: 3,320 has a neighbour too, but 2.2 fits exactly.
                "UB 203x133x25 | - | 10 | l 6000 mm | 3,320 kg",
            ],
        );
    }
}
