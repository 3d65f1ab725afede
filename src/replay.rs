//! The ledger's lines under other settings: which flags come and go, and what decided lines say of right and wrong flags.
//! Comes in: each load as judged under the recorded and under the other settings, with what was decided of it. Goes out: counts
//! and tables. Reads no ledger, and has no rule of its own by which a weight is judged.

mod advice;
mod change;
mod curve;
mod settings;
mod tally;
mod truth;

pub use advice::{Advice, ENOUGH, ENOUGH_LIGHT};
pub use change::{Change, Changed};
pub use curve::{Curve, is_of_weight};
pub use settings::{Difference, differences};
pub use tally::Tally;
pub use truth::{FLOOR, Lifted, Said, Truth, is_below, truth};

use crate::compare::Verdict;
use crate::units::Mass;
use chrono::NaiveDate;
use serde::Serialize;

/// Tolerances that are compared where none are named: from strict to twice the default of 10 % (common practice, no source).
pub const TOLERANCES: [f64; 6] = [0.05, 0.075, 0.10, 0.125, 0.15, 0.20];
/// How far a declared weight may be off the decided one, relative, before it counts as wrong (common practice, no source).
pub const WRONG_BY: f64 = 0.05;

/// Where a load is found again.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Named {
    /// Supplier, as row or delivery name it.
    pub supplier: Option<String>,
    /// Delivery.
    pub delivery: String,
    /// Day of its audit.
    pub day: NaiveDate,
    /// File, sheet and cell of the declared weight; the row where there is none.
    pub cell: String,
    /// Item of a line, name of a package.
    pub item: String,
    /// Description.
    pub description: String,
}

/// A load as one audit judged it.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct Judged {
    /// The declared weight as it would be lifted; none where nothing is declared, or nothing can check it.
    #[serde(skip)]
    pub declared: Option<Lifted>,
    /// Verdict.
    pub verdict: Verdict,
    /// The weight column contradicts its heading: the delivery asks for all of its lines, none of them by itself.
    #[serde(skip)]
    pub contradicted: bool,
    /// Codes of the findings that somebody has to look at (`stop` or `check`).
    pub findings: Vec<&'static str>,
    /// It may be lifted as planned.
    pub may_lift: bool,
    /// Planning weight of the whole load.
    #[serde(rename = "plan_kg")]
    pub plan: Option<Mass>,
    /// Truck.
    pub truck: Option<String>,
}

impl Judged {
    /// Somebody has to look at it.
    pub fn is_exception(&self) -> bool {
        !self.findings.is_empty()
    }
}

/// A load of the ledger with all that is to be known of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Case {
    /// Where it is.
    pub named: Named,
    /// Under the recorded settings; none where that reading has no such line.
    pub was: Option<Judged>,
    /// Under the other settings; none where that reading has no such line.
    pub would_be: Option<Judged>,
    /// The verdict at each tolerance of the list, the other settings as they are; empty where there is no such line.
    pub at: Vec<Verdict>,
    /// What the decision that stands for it says; none where none does.
    pub said: Option<Said>,
}

/// What one tolerance, or the recorded settings, would do.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Row {
    /// Loads whose declared weight could be checked.
    pub judged: usize,
    /// Of them, declared weights called light, heavy or impossible.
    pub flags: usize,
    /// Flags that the recorded settings do not raise.
    pub gained: usize,
    /// Flags of the recorded settings that are not raised.
    pub lost: usize,
    /// Loads that somebody has to look at, for whatever reason.
    pub exceptions: usize,
    /// Flags of weights that were wrong.
    pub hits: usize,
    /// Flags of weights that were right.
    pub false_alarms: usize,
    /// Flags of weights of which nothing is known.
    pub unknown: usize,
    /// Wrong weights without a flag.
    pub missed: usize,
    /// Of them, declared too light: the dangerous side.
    pub missed_light: usize,
    /// Of them, those that the recorded settings flag.
    pub lost_light: usize,
    /// Light flags of the recorded settings that are not raised, of loads that nobody weighed and no supplier corrected.
    pub lost_unweighed: usize,
}

/// What the decided lines say, under the other settings.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Decided {
    /// Declared weight right: the load was weighed, or its supplier gave another weight.
    pub right: usize,
    /// Declared too light.
    pub light: usize,
    /// Declared too heavy.
    pub heavy: usize,
    /// "Accept declared" by evidence other than the supplier's first document. It counts as right, but nobody weighed the load.
    pub accepted: usize,
    /// "Accept declared" without evidence that the supplier's first document is right.
    pub unproven: usize,
    /// Decisions that say nothing of the declared weight.
    pub silent: usize,
    /// Lines that declare no weight, or have nothing to check it with: no tolerance says anything of them.
    pub not_judged: usize,
    /// Decided loads that these readings do not find.
    pub not_found: usize,
}

impl Decided {
    /// Lines that were weighed, or corrected by their supplier.
    pub fn weighed(&self) -> usize {
        self.right + self.light + self.heavy
    }

    /// Lines that tell whether the declared weight was right.
    pub fn known(&self) -> usize {
        self.weighed() + self.accepted
    }
}

/// A decided line that tells whether its declared weight was right.
#[derive(Clone, Debug, PartialEq)]
pub struct Told {
    /// Where it is.
    pub named: Named,
    /// Declared, as it would be lifted.
    pub declared: Lifted,
    /// Decided weight; none where the declared one was accepted by evidence.
    pub decided: Option<Mass>,
    /// What that says.
    pub truth: Truth,
    /// The recorded settings flag it.
    pub flagged: bool,
    /// The largest tolerance of the list that flags it.
    pub up_to: Option<f64>,
}

/// How many loads change.
#[derive(Clone, Copy, Debug, Default, PartialEq, Serialize)]
pub struct Changes {
    /// Nobody had to look at them, and now somebody has.
    pub flags_gained: usize,
    /// Somebody had to look at them, and now nobody has.
    pub flags_lost: usize,
    /// Another verdict.
    pub verdicts: usize,
    /// Another truck, or none, or one where there was none.
    pub trucks: usize,
    /// Another planning weight.
    pub plans: usize,
    /// Held, and now free to be lifted.
    pub released: usize,
    /// Free to be lifted, and now held.
    pub held: usize,
    /// Lines that only one of the readings has.
    pub read_otherwise: usize,
}

/// The whole answer.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Replay {
    /// Audits that were repeated.
    pub audits: usize,
    /// Audits that could not be, with the reason.
    pub not_repeated: Vec<String>,
    /// Days of those loads, in their order.
    pub days: Vec<NaiveDate>,
    /// Lines and packages compared.
    pub loads: usize,
    /// Of them, those that today's program judges otherwise than the record, by the recorded settings and before any decision.
    pub program_differs: usize,
    /// Settings that differ, each with the number of audits.
    pub settings: Vec<(Difference, usize)>,
    /// Tolerances of the audits' own settings, the least first.
    pub own_tolerances: Vec<f64>,
    /// The tolerance of the other settings.
    pub site_tolerance: f64,
    /// What the recorded settings do.
    pub recorded: Row,
    /// What each tolerance would do, the other settings as they are; the least tolerance first.
    pub rows: Vec<(f64, Row)>,
    /// What the decided lines say.
    pub decided: Decided,
    /// Those that tell whether the declared weight was right.
    pub told: Vec<Told>,
    /// Loads that were planned, and would be planned, below the decided weight by more than the margin of what is wrong.
    pub planned_below: (usize, usize),
    /// What changes under the other settings.
    pub changes: Changes,
    /// The lines that change, those that lose a flag first.
    pub changed: Vec<Changed>,
}

impl Replay {
    /// Loads that somebody has to look at, a day with audits.
    pub fn a_day(&self, row: &Row) -> f64 {
        row.exceptions as f64 / self.days.len().max(1) as f64
    }
}
