//! One file a command: gathers what it needs, calls the stages, hands the results to the reports.

pub mod audit;
pub mod decide;
pub mod explain;
pub mod fleet;
mod inputs;
mod job;
pub mod ledger;
mod output;
mod register;
pub mod replay;
pub mod scorecard;
mod settings;
pub mod tables;
pub mod trace;
pub mod understand;
pub mod weigh;

use crate::error::Error;

/// Exit statuses, as contract.md has them; the worst counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Status {
    /// Done, nothing needs attention.
    Clear = 0,
    /// Done, and there are exceptions.
    Exceptions = 1,
    /// Not done, or not for every file.
    NotDone = 3,
    /// The ledger is busy, damaged or not provable.
    Ledger = 4,
    /// What was typed contradicts itself.
    WrongUsage = 2,
}

impl Status {
    /// What an error means for the exit status.
    pub fn of(error: &Error) -> Status {
        match error {
            Error::Ledger { .. } | Error::Overtaken { .. } => Status::Ledger,
            _ => Status::NotDone,
        }
    }

    fn rank(self) -> usize {
        let order = [
            Status::Clear,
            Status::Exceptions,
            Status::NotDone,
            Status::Ledger,
        ];
        order
            .iter()
            .position(|status| *status == self)
            .unwrap_or(order.len())
    }
}

impl Ord for Status {
    fn cmp(&self, other: &Status) -> std::cmp::Ordering {
        self.rank().cmp(&other.rank())
    }
}

impl PartialOrd for Status {
    fn partial_cmp(&self, other: &Status) -> Option<std::cmp::Ordering> {
        Some(self.cmp(other))
    }
}
