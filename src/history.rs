//! What earlier records know of the loads of a call: the decisions that may stand for them, and what the same goods weighed.
//! Comes in: what the ledger holds, as plain data. Goes out: the decision that stands for a load, the weighings of its goods.
//! Decides nothing itself.

mod goods;
mod weighing;

pub use goods::{Goods, counted_in};
pub use weighing::{POSSIBLE_KG, Weighed, Weighing};

use crate::site::Units;
use crate::units::{Mass, show};
use serde::{Deserialize, Serialize};
use std::collections::{BTreeMap, BTreeSet};

/// What may be decided.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Serialize, Deserialize)]
pub enum DecisionKind {
    /// The declared weight is right.
    #[serde(rename = "accept declared")]
    AcceptDeclared,
    /// The estimate stands in for a weight.
    #[serde(rename = "use estimate")]
    UseEstimate,
    /// It was weighed.
    #[serde(rename = "weighed")]
    Weighed,
    /// The supplier gave another weight.
    #[serde(rename = "supplier corrected")]
    SupplierCorrected,
    /// It is not taken.
    #[serde(rename = "refused")]
    Refused,
}

/// Every kind with its words, as the workbook and the command line have them.
pub const DECISIONS: [(DecisionKind, &str); 5] = [
    (DecisionKind::AcceptDeclared, "accept declared"),
    (DecisionKind::UseEstimate, "use estimate"),
    (DecisionKind::Weighed, "weighed"),
    (DecisionKind::SupplierCorrected, "supplier corrected"),
    (DecisionKind::Refused, "refused"),
];

impl DecisionKind {
    /// Its words.
    pub fn words(self) -> &'static str {
        let found = DECISIONS.iter().find(|(kind, _)| *kind == self);
        found.map_or("", |(_, words)| words)
    }

    /// Whether it brings a weight of its own: the goods are there, whatever the list says.
    pub fn brings_weight(self) -> bool {
        matches!(
            self,
            DecisionKind::Weighed | DecisionKind::SupplierCorrected
        )
    }
}

/// Where a load stands on its list: `row 5, "P-100", sheet "Plates"`. The name is the item of a line, or that of a package.
/// It outlasts the names of file and delivery: a decision on the same bytes must not be lost because they came as a copy.
pub fn on_list(sheet: &str, row: u32, name: Option<&str>, package: bool) -> String {
    let package = if package { "package, " } else { "" };
    let name = name.map_or(String::new(), |name| format!(", {name:?}"));
    let sheet = if sheet.is_empty() {
        String::new()
    } else {
        format!(", sheet {sheet:?}")
    };
    format!("{package}row {row}{name}{sheet}")
}

/// What is known from before; nothing where no ledger is asked.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
pub struct History {
    /// Decisions on the lists of the call by where their loads stand ([`on_list`]), of each the oldest first.
    pub decisions: BTreeMap<String, Vec<EarlierDecision>>,
    /// Goods that were weighed, of any list and supplier, in the order of their records.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub weighings: Vec<Weighing>,
    /// Number of the newest decision on record when this was read, on whatever load; 0: none.
    #[serde(skip)]
    pub newest_decision: i64,
}

/// A decision on record, with what it was made on.
#[derive(Clone, Debug, PartialEq, Serialize, Deserialize)]
pub struct EarlierDecision {
    /// Number of its record.
    pub record: i64,
    /// SHA-256 of the list.
    pub list: String,
    /// Supplier of the delivery.
    pub supplier: Option<String>,
    /// What the load said and was worked out to be, as the audit has it (`audit::Line::substance`).
    pub substance: String,
    /// What was decided.
    pub kind: DecisionKind,
    /// Planning weight of the whole load from then on; none: it is not lifted.
    pub plan: Option<Mass>,
    /// What it rests on.
    pub evidence: Option<String>,
    /// By whom, as typed.
    pub name: String,
    /// The day: the one written beside it, else the one it was recorded on (YYYY-MM-DD).
    pub day: String,
}

impl History {
    /// Whether nothing is known.
    pub fn is_empty(&self) -> bool {
        self.decisions.is_empty() && self.weighings.is_empty()
    }

    /// The decision that stands for a load: the latest one on the same place ([`on_list`]) of the same list (its SHA-256) of the
    /// same supplier, in small or capital letters, with the same substance. The same words in another list may be other goods.
    pub fn decision(
        &self,
        place: &str,
        list: &str,
        supplier: Option<&str>,
        substance: &str,
    ) -> Option<&EarlierDecision> {
        // Letters of ASCII alone, as the ledger compares them.
        let is_same = |other: Option<&str>| match (supplier, other) {
            (Some(own), Some(other)) => own.eq_ignore_ascii_case(other),
            (own, other) => own == other,
        };
        let taken = self.decisions.get(place)?;
        taken.iter().rev().find(|taken| {
            taken.list == list && is_same(taken.supplier.as_deref()) && taken.substance == substance
        })
    }

    /// Of each place of a list (its SHA-256) the last decision, where it is none of those that were taken up (numbers of their
    /// records), in the order of their records.
    pub fn left(&self, list: &str, taken: &BTreeSet<i64>) -> Vec<(&str, &EarlierDecision)> {
        let mut left: Vec<(&str, &EarlierDecision)> = Vec::new();
        for (place, all) in &self.decisions {
            let last = all.iter().rfind(|one| one.list == list);
            left.extend(
                last.filter(|last| !taken.contains(&last.record))
                    .map(|last| (place.as_str(), last)),
            );
        }
        left.sort_by_key(|(_, one)| one.record);
        left
    }

    /// Adds a decision on a place ([`on_list`]), once.
    pub fn keep(&mut self, place: &str, decision: &EarlierDecision) {
        let kept = self.decisions.entry(place.to_string()).or_default();
        if let Err(at) = kept.binary_search_by_key(&decision.record, |kept| kept.record) {
            kept.insert(at, decision.clone());
        }
    }

    /// Adds weighings that were used, each once.
    pub fn keep_weighings(&mut self, used: &[Weighing]) {
        let known = |kept: &[Weighing], one: &Weighing| {
            kept.binary_search_by_key(&one.record, |kept| kept.record)
        };
        for one in used {
            if let Err(at) = known(&self.weighings, one) {
                self.weighings.insert(at, one.clone());
            }
        }
    }
}

impl EarlierDecision {
    /// "weighed, 978 lb for the whole load, by J. Rook on 2026-11-25 (evidence: scale ticket 12)".
    pub fn in_words(&self, units: Units) -> String {
        let plan = self.plan.map_or(String::new(), |plan| {
            format!(", {} for the whole load,", show::planning(plan, units))
        });
        let evidence = match &self.evidence {
            Some(evidence) => format!("evidence: {evidence}"),
            None => "no evidence named".to_string(),
        };
        format!("{}{plan} {} ({evidence})", self.kind.words(), self.by())
    }

    /// "by J. Rook on 2026-11-25".
    pub fn by(&self) -> String {
        format!("by {} on {}", self.name, self.day)
    }
}
