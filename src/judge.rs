//! Findings: what is odd about a line, a package or a delivery, and what to do about it.

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

/// A likely cause of a mismatch: a question to ask the supplier, never a correction.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Cause {
    /// Kind of slip, plain kebab-case words (`kg-lb`).
    pub kind: &'static str,
    /// What the line would weigh if this is the cause, kg.
    pub would_be_kg: f64,
    /// Share among the possible causes, 0 to 1.
    pub share: f64,
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
