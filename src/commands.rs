//! One file a command: gathers what it needs, calls the stages, hands the results to the reports.

pub mod audit;
pub mod explain;
pub mod fleet;
mod inputs;
mod output;
mod register;
pub mod tables;
pub mod understand;
pub mod weigh;

/// Exit statuses, as contract.md has them; the worst counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Status {
    /// Done, nothing needs attention.
    Clear = 0,
    /// Done, and there are exceptions.
    Exceptions = 1,
    /// What was typed contradicts itself.
    WrongUsage = 2,
    /// Not done, or not for every file.
    NotDone = 3,
}
