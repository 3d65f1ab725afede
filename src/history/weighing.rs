//! Loads of earlier deliveries that were weighed, and which of them tell what goods of today weigh.

use super::History;
use super::goods::{Goods, fold};
use crate::site::Units;
use crate::units::{Mass, show};
use chrono::NaiveDate;
use serde::{Deserialize, Serialize};
use std::collections::HashMap;

/// Weighings of the same goods that are looked at, the newest (common practice, no source).
const MOST: usize = 10;
/// What one piece on a dock, or a whole line that is decided on, weighs at least and at most, kg: whatever is outside was typed
/// wrong (common practice, no source).
pub const POSSIBLE_KG: std::ops::RangeInclusive<f64> = 0.001..=1e6;

/// A line that was weighed: the decision on record, and the goods as they were understood then.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct Weighing {
    /// Number of the decision's record.
    pub record: i64,
    /// Id of the line.
    pub line: String,
    /// SHA-256 of its list.
    pub list: String,
    /// Name of the list's file.
    pub file: String,
    /// Cell of the line's declared weight, or its row.
    pub cell: String,
    /// Name of the delivery.
    pub delivery: String,
    /// Supplier of the goods.
    pub supplier: String,
    /// The day.
    pub day: NaiveDate,
    /// By whom, as typed.
    pub name: String,
    /// The ticket, or what else it rests on.
    pub evidence: Option<String>,
    /// What the whole line weighed as it stood, with its packaging.
    pub mass: Mass,
    /// Its pieces.
    pub pieces: u32,
    /// Its goods.
    pub goods: Goods,
}

impl Weighing {
    /// What one piece weighed, with its share of the packaging.
    pub fn piece(&self) -> Mass {
        self.mass / f64::from(self.pieces.max(1))
    }

    /// "978 lb a piece on 2026-11-20 (list.csv J3, record 7 of the ledger)".
    pub fn in_words(&self, units: Units) -> String {
        format!(
            "{} a piece on {} ({} {}, record {} of the ledger)",
            show::weight(self.piece(), units),
            self.day,
            self.file,
            self.cell,
            self.record
        )
    }

    /// "list.csv J3, line 0123456789abcdef, by J. Rook, scale ticket 12; record 7 of the ledger".
    pub fn source(&self) -> String {
        let evidence = self.evidence.as_deref().unwrap_or("no evidence named");
        format!(
            "{} {}, line {}, by {}, {evidence}; record {} of the ledger",
            self.file, self.cell, self.line, self.name, self.record
        )
    }

    /// Whether one and the same slip may have made both: they are of one list or one delivery, or name one and the same evidence.
    pub fn is_one_with(&self, other: &Weighing) -> bool {
        let evidence = |one: &Weighing| one.evidence.as_deref().map(fold);
        self.list == other.list
            || fold(&self.delivery) == fold(&other.delivery)
            || evidence(self).is_some_and(|own| Some(own) == evidence(other))
    }

    fn is_possible(&self) -> bool {
        self.pieces > 0 && POSSIBLE_KG.contains(&self.piece().kg())
    }
}

/// The weighings that are recent enough, by supplier and description.
#[derive(Debug, Default)]
pub struct Weighed<'h> {
    by_words: HashMap<(String, String), Vec<&'h Weighing>>,
}

impl History {
    /// The weighings of a day and later; none where no day is given.
    pub fn weighed_since(&self, day: Option<NaiveDate>) -> Weighed<'_> {
        let mut weighed = Weighed::default();
        let Some(day) = day else { return weighed };
        let recent = self.weighings.iter().filter(|one| one.day >= day);
        for one in recent.filter(|one| one.is_possible()) {
            let words = (fold(&one.supplier), fold(&one.goods.description));
            weighed.by_words.entry(words).or_default().push(one);
        }
        weighed
    }
}

impl<'h> Weighed<'h> {
    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.by_words.is_empty()
    }

    /// The newest weighings of the same goods of the same supplier, the oldest of them first. What was weighed on this list
    /// (its SHA-256), or on a list that came under the name of this delivery, is no other weighing: the decision on a line
    /// itself goes before it. A copy of a list counts once.
    pub fn of(
        &self,
        supplier: &str,
        goods: &Goods,
        delivery: &str,
        list: &str,
    ) -> Vec<&'h Weighing> {
        let words = (fold(supplier), fold(&goods.description));
        let alike = self.by_words.get(&words).into_iter().flatten();
        let mut found: Vec<&Weighing> = Vec::new();
        for one in alike.filter(|one| goods.is_same(&one.goods)) {
            if one.list == list || fold(&one.delivery) == fold(delivery) {
                continue;
            }
            found.retain(|other| (&other.list, &other.cell) != (&one.list, &one.cell));
            found.push(one);
        }
        found.sort_by_key(|one| (one.day, one.record));
        found.split_off(found.len().saturating_sub(MOST))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::understand::SizeOf;

    fn bracket(record: i64, day: &str) -> Weighing {
        Weighing {
            record,
            line: format!("{record:016x}"),
            list: format!("list {record}"),
            file: "list.csv".to_string(),
            cell: "F2".to_string(),
            delivery: format!("D-{record}"),
            supplier: "Tarn Steel".to_string(),
            day: day.parse().expect("a day"),
            name: "J. Rook".to_string(),
            evidence: None,
            mass: Mass::from_kg(84.0),
            pieces: 2,
            goods: Goods {
                item: Some("B-77".to_string()),
                description: "Bracket".to_string(),
                material: None,
                sizes: [None; 6],
                size_of: SizeOf::Piece,
                unit: None,
                described: false,
            },
        }
    }

    /// Records of the weighings that tell of a delivery of today.
    fn told(weighings: Vec<Weighing>, supplier: &str, delivery: &str, list: &str) -> Vec<i64> {
        let goods = bracket(1, "2026-01-01").goods;
        let history = History {
            weighings,
            ..History::default()
        };
        let since = NaiveDate::from_ymd_opt(2024, 11, 25);
        let found = history.weighed_since(since);
        let found = found.of(supplier, &goods, delivery, list);
        found.iter().map(|one| one.record).collect()
    }

    #[test]
    fn one_that_is_too_old_does_not_count() {
        let both = vec![bracket(1, "2024-11-24"), bracket(2, "2024-11-25")];
        assert_eq!(told(both, "tarn  STEEL", "D-9", "list 9"), [2]);
        let history = History {
            weighings: vec![bracket(2, "2026-11-25")],
            ..History::default()
        };
        assert!(history.weighed_since(None).is_empty());
    }

    #[test]
    fn the_same_delivery_another_supplier_and_other_goods_do_not_count() {
        let one = || vec![bracket(1, "2026-01-01")];
        assert_eq!(told(one(), "Tarn Steel", "D-9", "list 9"), [1]);
        assert_eq!(
            told(one(), "Marten Yard", "D-9", "list 9"),
            Vec::<i64>::new()
        );
        assert_eq!(
            told(one(), "Tarn Steel", "d-1", "list 9"),
            Vec::<i64>::new()
        );
        assert_eq!(
            told(one(), "Tarn Steel", "D-9", "list 1"),
            Vec::<i64>::new()
        );
        let mut other = one();
        other[0].goods.item = Some("B-78".to_string());
        assert_eq!(
            told(other, "Tarn Steel", "D-9", "list 9"),
            Vec::<i64>::new()
        );
    }

    #[test]
    fn a_copy_of_a_list_counts_once_and_the_newest_come_last() {
        let mut three = vec![
            bracket(1, "2026-03-01"),
            bracket(2, "2026-02-01"),
            bracket(3, "2026-01-01"),
        ];
        three[2].list = three[0].list.clone();
        assert_eq!(told(three, "Tarn Steel", "D-9", "list 9"), [3, 2]);
        let many: Vec<Weighing> = (1..20)
            .map(|record| bracket(record, &format!("2026-01-{record:02}")))
            .collect();
        assert_eq!(
            told(many, "Tarn Steel", "D-99", "list 99"),
            (10..20).collect::<Vec<i64>>()
        );
    }

    #[test]
    fn what_no_piece_can_weigh_does_not_count() {
        for (kg, pieces, counts) in [
            (84.0, 2, true),
            (0.0, 2, false),
            (-84.0, 2, false),
            (f64::NAN, 2, false),
            (f64::INFINITY, 2, false),
            (84e6, 2, false),
            (84.0, 0, false),
        ] {
            let mut one = bracket(1, "2026-01-01");
            (one.mass, one.pieces) = (Mass::from_kg(kg), pieces);
            let told = told(vec![one], "Tarn Steel", "D-9", "list 9");
            assert_eq!(!told.is_empty(), counts, "{kg} {pieces}");
        }
    }
}
