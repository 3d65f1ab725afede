//! Declared against expected: the verdict of one line or package.
//! Comes in: a declared weight and an estimate. Goes out: a verdict. Never changes a declared weight.

use serde::Serialize;

/// What the comparison says (contract.md has the meanings).
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Verdict {
    /// Inside the expected range, widened by the tolerance.
    Consistent,
    /// No usable declared weight.
    Missing,
    /// Below the range: the dangerous side.
    Light,
    /// Above the range.
    Heavy,
    /// More than a solid block can weigh.
    Impossible,
    /// Nothing to check it with.
    Unverifiable,
    /// Judged on its package.
    Shared,
}
