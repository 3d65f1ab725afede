//! Findings: what is odd about a line, a package or a delivery, and what to do about it. One file a rule.
//! Comes in: everything known of a line, a package or a delivery. Goes out: findings. Reads no files.

mod alike;
mod facts;
mod off;
mod rules;
mod settled;

pub use alike::{Doubt, doubts};
pub use facts::{DeliveryFacts, Facts, Judged};
pub use off::{Off, may_be_off, take_off};
pub use settled::{after_decision, settle_contradicted};

pub use crate::causes::Cause;

use crate::history::EarlierDecision;
use crate::site::{Site, Units};
use serde::{Deserialize, Serialize};

/// How urgent a finding is.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash, Serialize, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Severity {
    /// For the record.
    Note,
    /// Liftable as planned; settle it today.
    Check,
    /// Do not lift before it is settled.
    Stop,
}

/// One finding.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Finding {
    /// Plain kebab-case words; never reused.
    pub code: &'static str,
    /// How urgent.
    pub severity: Severity,
    /// What was found, what was expected, what to do.
    pub message: String,
    /// Field or cell it speaks of, where one can be named.
    pub field: Option<String>,
    /// Likely cause.
    pub cause: Option<Cause>,
}

/// A rule: one kind of finding, with the explanation that people read.
pub trait Rule: Sync {
    /// Its code, plain kebab-case words; never reused.
    fn code(&self) -> &'static str;
    /// What was seen, why it matters on the dock, what to do, an example.
    fn explanation(&self) -> &'static str;
    /// Looks at a line or package.
    fn load(&self, _facts: &Facts<'_>, _found: &mut Vec<Finding>) {}
    /// Looks at a whole delivery.
    fn delivery(&self, _facts: &DeliveryFacts<'_>, _found: &mut Vec<Finding>) {}
    /// Looks at what was left out of a delivery because its rule is switched off.
    fn silenced(&self, _off: &Off, _site: &Site, _found: &mut Vec<Finding>) {}
    /// Looks at decisions on the very bytes of a list, each with its place, that stand for none of its loads.
    fn left(&self, _left: &[(&str, &EarlierDecision)], _units: Units, _found: &mut Vec<Finding>) {}
    /// Whether a site may switch it off: only what no lift depends on.
    fn may_be_off(&self) -> bool {
        false
    }
}

impl std::fmt::Debug for dyn Rule {
    fn fmt(&self, to: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        to.write_str(self.code())
    }
}

/// All rules, by code.
pub use rules::RULES;

/// The rule of a code, however it is spaced and in whatever letters.
///
/// # Errors
/// The nearest code, where none is meant.
pub fn rule(code: &str) -> Result<&'static dyn Rule, &'static str> {
    let code = code.trim().to_lowercase().replace([' ', '_'], "-");
    let like = |rule: &dyn Rule| strsim::jaro_winkler(rule.code(), &code);
    RULES
        .iter()
        .copied()
        .max_by(|one, other| like(*one).total_cmp(&like(*other)))
        .ok_or("")
        .and_then(|rule| {
            if rule.code() == code {
                Ok(rule)
            } else {
                Err(rule.code())
            }
        })
}

/// The findings of a line or package, worst first.
pub fn load(facts: &Facts<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for rule in RULES {
        rule.load(facts, &mut found);
    }
    worst_first(found)
}

/// The findings of a delivery, worst first.
pub fn delivery(facts: &DeliveryFacts<'_>) -> Vec<Finding> {
    let mut found = Vec::new();
    for rule in RULES {
        rule.delivery(facts, &mut found);
    }
    worst_first(found)
}

/// Adds what is said of decisions on the very bytes of a list that stand for none of its loads, worst first.
pub fn say_left(findings: &mut Vec<Finding>, left: &[(&str, &EarlierDecision)], units: Units) {
    for rule in RULES {
        rule.left(left, units, findings);
    }
    *findings = worst_first(std::mem::take(findings));
}

/// What is said of a delivery's findings that were left out.
pub fn silenced(off: &Off, site: &Site) -> Vec<Finding> {
    let mut found = Vec::new();
    for rule in RULES {
        rule.silenced(off, site, &mut found);
    }
    found
}

fn worst_first(mut found: Vec<Finding>) -> Vec<Finding> {
    found.sort_by_key(|finding| std::cmp::Reverse(finding.severity));
    found
}

#[cfg(test)]
mod testing;
#[cfg(test)]
mod tests;
