//! Dockheft audits delivery spreadsheets: it reads declared weights and sizes, recomputes a plausible weight, flags the
//! lines whose declared weight is missing or does not fit, and matches every lift to the smallest adequate lift truck.
//!
//! The modules in reading order: each takes the plain data of the one before and knows nothing of the ones after it.

pub mod audit;
pub mod causes;
pub mod cli;
pub mod commands;
pub mod compare;
pub mod error;
pub mod estimate;
pub mod fleet;
pub mod hash;
pub mod history;
pub mod judge;
pub mod ledger;
pub mod place;
pub mod plan;
pub mod read;
pub mod replay;
pub mod report;
pub mod returned;
pub mod scorecard;
pub mod settle;
pub mod site;
pub mod tables;
pub mod understand;
pub mod units;
