//! Random deliveries with known truth: what the audit makes of them, counted. The physics here is the test's own (formulas,
//! densities and scatter, each with its source or mark) and shares nothing with the program's tables.

mod flat;
mod goods;
mod judged;
mod list;
mod metal;
mod mineral;
mod packed;
mod random;
mod ranges;
mod slips;
mod wood;

use crate::helper::{DAY, si};
use dockheft::audit::{self, Audit, Request};
use dockheft::fleet::{Fleet, register};
use dockheft::read;
use std::path::Path;
use std::sync::LazyLock;

/// The demo's register, read once.
static REGISTER: LazyLock<Fleet> = LazyLock::new(|| {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/kestrel-junction/fleet.xlsx");
    let file = read::file(&path).expect("the demo's register opens");
    register::understand(&file.sheets, si().units)
});

/// Audits one list with the demo's register.
fn audited(text: &str) -> Audit {
    audit::run(Request {
        files: vec![read::bytes("list.csv", text.as_bytes()).expect("a list is read")],
        refused: Vec::new(),
        fleet: Some(REGISTER.clone()),
        site: si(),
        date: DAY.parse().expect("a day"),
        supplier: None,
        delivery: None,
        history: Default::default(),
        progress: &|_| {},
    })
}

/// The middle of a list; no number where it is empty.
fn median(mut values: Vec<f64>) -> f64 {
    values.sort_by(f64::total_cmp);
    values.get(values.len() / 2).copied().unwrap_or(f64::NAN)
}
