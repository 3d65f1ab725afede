//! How often the truth lies in the expected range of a clean line, family by family, and how wide the range is.

use super::goods::{FAMILIES, Family, make};
use super::list::{Layout, Written};
use super::random::Random;
use super::{audited, median};

/// Lines in one delivery.
const LIST: u32 = 64;

/// Families that one limit stands for, with the most that the median of high over low may be.
const WIDTHS: [(&str, &[Family], f64); 4] = [
    (
        "metal",
        &[
            Family::ISection,
            Family::Channel,
            Family::Angle,
            Family::HollowSection,
            Family::RoundTube,
            Family::Pipe,
            Family::Plate,
            Family::Sheet,
            Family::Bar,
            Family::Rebar,
            Family::Rail,
            Family::NonFerrous,
        ],
        1.15,
    ),
    ("concrete", &[Family::Concrete, Family::ConcretePipe], 1.25),
    (
        "wood of stated moisture",
        &[Family::LumberDry, Family::LumberGreen],
        1.4,
    ),
    ("wood of unstated moisture", &[Family::LumberUnstated], 1.9),
];

/// One family on clean lists: how the truth lies in its range.
struct Seen {
    family: Family,
    lines: usize,
    inside: usize,
    above: usize,
    /// High over low of each line that is estimated.
    widths: Vec<f64>,
    /// Lines whose truth lies outside or that have no range, told.
    outside: Vec<String>,
}

/// Lists of one family: five, of lumber dried for sale ten, as it is the commoner (common practice, no source).
fn seen(family: Family) -> Seen {
    let mut random = Random::seeded(40 + family as u64);
    let mut seen = Seen {
        family,
        lines: 0,
        inside: 0,
        above: 0,
        widths: Vec::new(),
        outside: Vec::new(),
    };
    let lists = if family == Family::LumberDry { 10 } else { 5 };
    for list in 0..lists {
        let layout = Layout {
            us: list % 2 == 0 || family.is_lumber(),
            each: false,
            gross: family == Family::Drum,
        };
        let written = |_| Written::clean(make(family, &mut random, layout.us), layout);
        let lines: Vec<Written> = (0..LIST).map(written).collect();
        let audit = audited(&layout.text(&lines));
        let found = &audit.deliveries[0].lines;
        assert_eq!(found.len(), lines.len(), "every line is goods");
        for (written, line) in lines.iter().zip(found) {
            let truth = written.goods.true_kg();
            seen.lines += 1;
            match &line.estimate {
                Ok(estimate) => {
                    let (low, high) = (estimate.line.low.kg(), estimate.line.high.kg());
                    seen.widths.push(high / low);
                    seen.above += usize::from(truth > high);
                    if (low..=high).contains(&truth) {
                        seen.inside += 1;
                    } else {
                        let told = format!("{}: {low:.1} to {high:.1} kg", written.goods.told());
                        seen.outside.push(told);
                    }
                }
                Err(none) => seen
                    .outside
                    .push(format!("{}: {}", written.goods.told(), none.why)),
            }
        }
    }
    seen
}

#[test]
fn the_truth_lies_in_the_range() {
    let all: Vec<Seen> = FAMILIES.into_iter().map(seen).collect();
    let mut faults = Vec::new();
    println!("family           lines  none  inside %  above %  median high/low");
    for seen in &all {
        let part = |number: usize| 100.0 * number as f64 / seen.lines as f64;
        println!(
            "{:<15} {:>6} {:>5} {:>9.1} {:>8.1} {:>16.3}",
            format!("{:?}", seen.family),
            seen.lines,
            seen.lines - seen.widths.len(),
            part(seen.inside),
            part(seen.above),
            median(seen.widths.clone()),
        );
        assert!(seen.lines >= 300, "{:?}", seen.family);
        if part(seen.inside) < 95.0 {
            faults.push(format!("{:?}: {:#?}", seen.family, seen.outside));
        }
    }
    for (name, families, most) in WIDTHS {
        let of_these = all.iter().filter(|seen| families.contains(&seen.family));
        let width = median(of_these.flat_map(|seen| seen.widths.clone()).collect());
        println!("{name}: median high/low {width:.3}, at most {most}");
        if width > most {
            faults.push(format!("{name}: {width}"));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}
