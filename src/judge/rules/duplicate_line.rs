//! `duplicate-line`.

use super::total_differs::agree;
use crate::judge::alike::{Goods, listed};
use crate::judge::{DeliveryFacts, Finding, Judged, Rule, Severity};
use crate::units::Mass;
use std::collections::{BTreeMap, BTreeSet};

/// Rows that the finding names.
const MOST_NAMED: usize = 3;

rule_type! {
    /// # What was seen
    /// Two lines of the delivery say the same in every cell that was read: goods, sizes, number and weight.
    /// # Why it matters on the dock
    /// The row was perhaps typed twice: somebody waits for goods that are not on the vehicle, and the weight of the delivery is too high.
    /// # What to do
    /// Count the goods. It is only a note where the goods may well have come twice.
    /// Settle it today where the line number is repeated too, or the document's own total counts the row once.
    /// # Example
    /// Line 40 of a Kestrel Junction order, twelve base plates of 84 kg, on two rows one below the other.
    pub struct DuplicateLine;
}

impl Rule for DuplicateLine {
    fn code(&self) -> &'static str {
        "duplicate-line"
    }

    fn explanation(&self) -> &'static str {
        Self::EXPLANATION
    }

    fn may_be_off(&self) -> bool {
        true
    }

    fn delivery(&self, facts: &DeliveryFacts<'_>, found: &mut Vec<Finding>) {
        let groups = repeated(facts.lines);
        let Some(row) = groups.first().and_then(|group| group.get(1)) else {
            return;
        };
        let row = format!("row {}", row.item.place.row);
        let said = groups.iter().map(|group| {
            let rows: Vec<String> = group
                .iter()
                .map(|line| line.item.place.row.to_string())
                .collect();
            let goods = group.first().map_or("", |line| &line.item.description);
            format!("\"{goods}\" on rows {}", rows.join(" and "))
        });
        let said = listed(said, MOST_NAMED);
        let (severity, because) = if numbered_twice(facts.lines, &groups) {
            (Severity::Check, ", the line number too")
        } else if totalled_once(facts, &groups) {
            (Severity::Check, ", and the document's total counts it once")
        } else {
            (Severity::Note, "")
        };
        let message =
            format!("the same line stands there more than once{because}: {said}; count the goods");
        found.push(Finding::new(self.code(), severity, message).at(row));
    }
}

/// Groups of lines that say the same, in the list's order.
fn repeated<'f, 'a>(lines: &'f [Judged<'a>]) -> Vec<Vec<&'f Judged<'a>>> {
    let mut groups: BTreeMap<(Goods, String), Vec<&Judged<'_>>> = BTreeMap::new();
    let weighed = |line: &&Judged<'_>| !line.item.weights.is_empty();
    for line in lines.iter().filter(weighed) {
        let item = line.item;
        let weights: Vec<(u32, f64)> = item
            .weights
            .iter()
            .map(|weight| (weight.place.column, weight.figure))
            .collect();
        let rest = format!(
            "{:?}",
            (
                item.pieces,
                item.packages,
                &item.stands_on,
                item.shared_with,
                &item.order,
                &item.vehicle,
                &item.supplier,
                weights,
            )
        );
        let group = groups.entry((Goods::of(item), rest)).or_default();
        group.push(line);
    }
    let mut groups: Vec<_> = groups
        .into_values()
        .filter(|group| group.len() > 1)
        .collect();
    groups.sort_by_key(|group| group.first().map(|line| line.item.place.row));
    groups
}

/// Line numbers stand twice, and only on lines that say the same: a list that begins to count anew says nothing.
fn numbered_twice(lines: &[Judged<'_>], groups: &[Vec<&Judged<'_>>]) -> bool {
    let twice = |numbers: Vec<&str>| {
        let mut seen = BTreeSet::new();
        let repeats = numbers.into_iter().filter(|number| !seen.insert(*number));
        repeats.count()
    };
    let of = |lines: &mut dyn Iterator<Item = &Judged<'_>>| {
        twice(
            lines
                .filter_map(|line| line.item.line_no.as_deref())
                .collect(),
        )
    };
    let among_all = of(&mut lines.iter());
    let among_repeated: usize = groups
        .iter()
        .map(|group| of(&mut group.iter().copied()))
        .sum();
    among_repeated > 0 && among_repeated == among_all
}

/// A total of the document that fits only when each repeated line is counted once.
fn totalled_once(facts: &DeliveryFacts<'_>, groups: &[Vec<&Judged<'_>>]) -> bool {
    let again: BTreeSet<u32> = groups
        .iter()
        .flat_map(|group| group.iter().skip(1))
        .map(|line| line.item.place.row)
        .collect();
    let mut printed: BTreeMap<(u32, u32), Mass> = BTreeMap::new();
    for (row, column, mass) in facts.declared {
        *printed.entry((*row, *column)).or_default() += *mass;
    }
    facts.reading.sums.iter().any(|sum| {
        let stated = facts.settled.reading(sum.column).unit.mass(sum.figure);
        let (mut once, mut repeats) = (Mass::ZERO, Mass::ZERO);
        for row in &sum.rows {
            let Some(mass) = printed.get(&(*row, sum.column)) else {
                continue;
            };
            if again.contains(row) {
                repeats += *mass;
            } else {
                once += *mass;
            }
        }
        repeats > Mass::ZERO && agree(stated, once) && !agree(stated, once + repeats)
    })
}

#[cfg(test)]
mod tests {
    use crate::judge::testing::{List, list};

    /// Line number, goods and weight, and what stands below.
    fn rows(rows: &[&str]) -> List {
        list(&format!(
            "Line no,Description,Qty,Total weight (kg)\n{}\n",
            rows.join("\n")
        ))
    }

    #[test]
    fn fires_on_a_line_that_stands_twice() {
        let twice = ["10,Base plates,12,1008", "20,Base plates,12,1008"];
        assert_eq!(rows(&twice).delivery("duplicate-line"), "note");
        let numbered = [
            "10,Motor,1,640",
            "40,Base plates,12,1008",
            "40,Base plates,12,1008",
        ];
        assert_eq!(rows(&numbered).delivery("duplicate-line"), "check");
        let said = rows(&numbered).audited().findings[0].message.clone();
        assert!(said.contains("\"Base plates\" on rows 3 and 4"), "{said}");
        let totalled = [
            "10,Motor,1,640",
            "20,Base plates,12,1008",
            "30,Base plates,12,1008",
            ",Total,,1648",
        ];
        assert_eq!(rows(&totalled).delivery("duplicate-line"), "check");
    }

    #[test]
    fn silent_where_anything_differs() {
        for other in [
            "20,Base plates,12,1007",
            "20,Base plates,11,1008",
            "20,Base plate,12,1008",
        ] {
            let lines = ["10,Base plates,12,1008", other];
            assert_eq!(rows(&lines).delivery("duplicate-line"), "-", "{other}");
        }
        let pallets = list(
            "Pallet No,Description,Qty,Total weight (kg)\nP1,Base plates,12,1008\nP2,Base plates,12,1008\n",
        );
        assert_eq!(pallets.delivery("duplicate-line"), "-");
    }

    #[test]
    fn boundary_where_the_list_counts_anew_or_the_total_counts_both() {
        let anew = [
            "10,Motor,1,640",
            "20,Base plates,12,1008",
            "10,Gear,1,350",
            "20,Base plates,12,1008",
        ];
        assert_eq!(rows(&anew).delivery("duplicate-line"), "note");
        let both = [
            "10,Base plates,12,1008",
            "20,Base plates,12,1008",
            ",Total,,2016",
        ];
        assert_eq!(rows(&both).delivery("duplicate-line"), "note");
    }

    #[test]
    fn missing_weights_are_no_likeness() {
        let blank = ["10,Base plates,12,", "10,Base plates,12,"];
        assert_eq!(rows(&blank).delivery("duplicate-line"), "-");
    }
}
