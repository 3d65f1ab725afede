//! The whole job as one readable, pure function: everything (the date too) is passed in.

use crate::compare::Verdict;
use crate::estimate::{Estimate, NoEstimate};
use crate::fleet::Fleet;
use crate::judge::{Finding, Severity};
use crate::plan::Plan;
use crate::settle::Declared;
use crate::site::Site;
use crate::understand::{Item, SharedWeight, SheetReading};
use crate::units::Mass;
use chrono::NaiveDate;

/// One goods line, audited.
#[derive(Clone, Debug)]
pub struct Line {
    /// Hash of delivery, sheet, item and row: 16 hexadecimal digits.
    pub id: String,
    /// What the file says.
    pub item: Item,
    /// What it should weigh.
    pub estimate: Result<Estimate, NoEstimate>,
    /// Declared weight, settled.
    pub declared: Option<Declared>,
    /// Verdict.
    pub verdict: Verdict,
    /// Findings, worst first.
    pub findings: Vec<Finding>,
    /// Plan.
    pub plan: Plan,
    /// What the plan would be if the supplier confirms the best cause: mass of the line and the truck.
    pub if_corrected: Option<(Mass, Option<String>)>,
}

/// A weight that stands for several lines, audited.
#[derive(Clone, Debug)]
pub struct Package {
    /// What the file says.
    pub shared: SharedWeight,
    /// Sum of its lines' estimates with the package's tare.
    pub estimate: Result<Estimate, NoEstimate>,
    /// Declared weight, settled.
    pub declared: Option<Declared>,
    /// Verdict.
    pub verdict: Verdict,
    /// Findings, worst first.
    pub findings: Vec<Finding>,
    /// Plan.
    pub plan: Plan,
}

/// One delivery (one sheet of one file), audited.
#[derive(Clone, Debug)]
pub struct Delivery {
    /// How it was read; its items are moved into `lines`, its shared weights into `packages`.
    pub reading: SheetReading,
    /// Lines in the file's order.
    pub lines: Vec<Line>,
    /// Packages in the file's order.
    pub packages: Vec<Package>,
    /// Findings on the delivery as a whole.
    pub findings: Vec<Finding>,
}

/// A source file of the audit.
#[derive(Clone, Debug, PartialEq)]
pub struct Source {
    /// File name.
    pub name: String,
    /// SHA-256 of its bytes.
    pub sha256: String,
    /// What it was read as.
    pub kind: String,
    /// What a careful clerk should know about the reading.
    pub remarks: Vec<String>,
}

/// A whole call of `audit`.
#[derive(Clone, Debug)]
pub struct Audit {
    /// Hash of inputs, settings, tables, program version and date: 16 hexadecimal digits.
    pub id: String,
    /// Day of the audit.
    pub date: NaiveDate,
    /// Settings used.
    pub site: Site,
    /// Register used, where there is one.
    pub fleet: Option<Fleet>,
    /// Files read.
    pub sources: Vec<Source>,
    /// Files that could not be read, with the reason in words.
    pub refused: Vec<(String, String)>,
    /// Deliveries in the order of the call.
    pub deliveries: Vec<Delivery>,
}

impl Line {
    /// Worst severity among the findings.
    pub fn severity(&self) -> Option<Severity> {
        self.findings.iter().map(|finding| finding.severity).max()
    }
}
