//! What a decision on a load leaves of what was found about it: all of it stays to be read, none of its weight is open.

use super::{Finding, Severity, worst_first};

/// Findings that ask what a load weighs.
const OF_ITS_WEIGHT: [&str; 15] = [
    "declared-heavy",
    "declared-impossible",
    "declared-light",
    "declared-missing",
    "dense-for-packed-goods",
    "gross-below-net",
    "line-total-differs",
    "name-and-sizes-differ",
    "net-and-tare-differ",
    "reading-assumed",
    "truck-overloaded",
    "unknown-material",
    "unlike-weighed-before",
    "unverifiable",
    "upper-bound-only",
];
/// The finding that says what was decided.
const DECIDED: &str = "decided";

/// The findings of a load once its weight is decided: `open` without the decision, `after` with the plan that it makes.
pub fn after_decision(open: Vec<Finding>, after: Vec<Finding>) -> Vec<Finding> {
    let mut found: Vec<Finding> = after
        .into_iter()
        .map(|finding| {
            if OF_ITS_WEIGHT.contains(&finding.code) {
                before(finding)
            } else {
                finding
            }
        })
        .collect();
    for finding in open {
        if !found.iter().any(|other| other.code == finding.code) {
            found.push(before(finding));
        }
    }
    found.sort_by_key(|finding| finding.code != DECIDED);
    worst_first(found)
}

/// Where a decision stands for every load of the columns that contradict their headings, that question is closed.
pub fn settle_contradicted(findings: &mut [Finding]) {
    for finding in findings {
        if finding.code == "column-contradicted" {
            let message = std::mem::take(&mut finding.message);
            finding.message = format!("decided for each of its lines; before that: {message}");
            finding.severity = Severity::Note;
        }
    }
}

fn before(finding: Finding) -> Finding {
    Finding {
        severity: Severity::Note,
        message: format!("before the decision: {}", finding.message),
        ..finding
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::judge::RULES;

    #[test]
    fn each_code_is_a_rules() {
        for code in OF_ITS_WEIGHT.iter().chain([&DECIDED]) {
            assert!(RULES.iter().any(|rule| rule.code() == *code), "{code}");
        }
    }
}
