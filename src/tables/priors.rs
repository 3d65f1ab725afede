//! How often each kind of slip is behind a mismatch, before anything is known of the line: defaults, invented and marked so.

use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// The row for a mismatch that no single slip explains.
pub const NO_SINGLE_SLIP: &str = "no single slip";

#[derive(Deserialize)]
struct RowOfTable {
    cause: String,
    prior: f64,
}

static PRIORS: LazyLock<HashMap<String, f64>> = LazyLock::new(|| {
    super::rows::<RowOfTable>(super::PRIORS)
        .into_iter()
        .map(|row| (row.cause, row.prior))
        .collect()
});

/// Prior of a kind of cause, 0 to 1; 0 for a kind that the table does not have.
pub fn of(cause: &str) -> f64 {
    PRIORS.get(cause).copied().unwrap_or(0.0)
}

/// Every kind that the table has, by name.
pub fn kinds() -> Vec<&'static str> {
    let mut kinds: Vec<&str> = PRIORS.keys().map(String::as_str).collect();
    kinds.sort_unstable();
    kinds
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sorted_and_together_one() {
        let rows = crate::tables::rows::<RowOfTable>(crate::tables::PRIORS);
        assert!(rows.windows(2).all(|pair| pair[0].cause < pair[1].cause));
        assert!(rows.iter().all(|row| row.prior > 0.0));
        let sum: f64 = rows.iter().map(|row| row.prior).sum();
        assert!((sum - 1.0).abs() < 1e-9, "{sum}");
        assert!(of(NO_SINGLE_SLIP) > 0.0);
        assert_eq!(of("no such cause"), 0.0);
    }
}
