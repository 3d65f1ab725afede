//! How often the truth lies in the expected range, family by family, and how wide the range is.

use super::goods::{FAMILIES, Family, Goods, make};
use super::list::{Layout, Written};
use super::random::Random;
use super::{audited, quantile};
use std::fmt::Write;

const LINES: usize = 320;
/// Lines in one delivery.
const LIST: usize = 64;

/// One family on clean lists: how the truth lies in its range.
struct Seen {
    family: Family,
    lines: usize,
    estimated: usize,
    inside: usize,
    above: usize,
    ratios: Vec<f64>,
    outside: Vec<String>,
}

fn seen(family: Family) -> Seen {
    let mut random = Random::seeded(40 + family as u64);
    let mut seen = Seen {
        family,
        lines: 0,
        estimated: 0,
        inside: 0,
        above: 0,
        ratios: Vec::new(),
        outside: Vec::new(),
    };
    for list in 0..LINES / LIST {
        let layout = Layout {
            us: list % 2 == 0 || family.is_lumber(),
            each: false,
            gross: family == Family::Drum,
        };
        let goods: Vec<Goods> = (0..LIST)
            .map(|_| make(family, &mut random, layout.us))
            .collect();
        let lines: Vec<Written> = goods
            .iter()
            .map(|goods| Written {
                goods: goods.clone(),
                sizes: goods.sizes,
                weight: layout.figure(goods.true_kg()).to_string(),
            })
            .collect();
        let audit = audited(&layout.text(&lines));
        let audited = &audit.deliveries[0].lines;
        assert_eq!(audited.len(), lines.len(), "{}", layout.text(&lines));
        for (goods, line) in goods.iter().zip(audited) {
            seen.lines += 1;
            let told = format!(
                "{} {} x{} true {:.1} kg",
                goods.description,
                goods.sizes.in_mm(),
                goods.pieces,
                goods.true_kg()
            );
            let estimate = match &line.estimate {
                Ok(estimate) => estimate,
                Err(none) => {
                    seen.outside.push(format!("{told}: none: {}", none.why));
                    continue;
                }
            };
            seen.estimated += 1;
            let (low, high) = (estimate.line.low.kg(), estimate.line.high.kg());
            seen.ratios.push(high / low);
            if (low..=high).contains(&goods.true_kg()) {
                seen.inside += 1;
            } else {
                seen.above += usize::from(goods.true_kg() > high);
                seen.outside
                    .push(format!("{told}: {low:.1}..{high:.1} {}", estimate.working));
            }
        }
    }
    seen
}

#[test]
fn the_truth_lies_in_the_range() {
    let mut table =
        String::from("family            lines  none  inside %  above %  high/low median\n");
    let mut faults = String::new();
    for family in FAMILIES {
        let mut seen = seen(family);
        let part = |number: usize| 100.0 * number as f64 / seen.lines as f64;
        let (inside, above) = (part(seen.inside), part(seen.above));
        let ratio = quantile(&mut seen.ratios, 0.5);
        let _ = writeln!(
            table,
            "{:<16} {:>6} {:>5} {:>9.1} {:>8.1} {:>16.3}",
            format!("{:?}", seen.family),
            seen.lines,
            seen.lines - seen.estimated,
            inside,
            above,
            ratio
        );
        if inside < 95.0 {
            let _ = writeln!(
                faults,
                "{family:?}: {inside:.1} % inside\n  {}",
                seen.outside
                    .iter()
                    .take(6)
                    .cloned()
                    .collect::<Vec<_>>()
                    .join("\n  ")
            );
        }
    }
    println!("{table}");
    assert!(faults.is_empty(), "{faults}");
}
