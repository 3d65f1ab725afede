//! What may be typed to the commands that work with the ledger.

use super::UnitsArg;
use crate::judge;
use crate::ledger::{DecisionFilter, DecisionKind};
use crate::returned::typed;
use crate::units::Mass;
use chrono::NaiveDate;
use clap::{Args, Subcommand};
use std::path::PathBuf;

/// Where the ledger is.
#[derive(Debug, Args)]
pub struct Place {
    /// The ledger [default: the site's].
    #[arg(long, value_name = "FILE")]
    pub ledger: Option<PathBuf>,
    /// Site settings [default: site.toml in this folder, else built-in defaults].
    #[arg(long, value_name = "FILE")]
    pub site: Option<PathBuf>,
}

/// What `ledger` takes.
#[derive(Debug, Args)]
pub struct LedgerArgs {
    /// What to do.
    #[command(subcommand)]
    pub what: LedgerCommand,
}

/// What can be done with a ledger.
#[derive(Debug, Subcommand)]
pub enum LedgerCommand {
    /// Prove that nothing in the ledger was changed, taken out or put in.
    Check(CheckArgs),
    /// Copy the ledger while it is in use, and check the copy.
    Backup(BackupArgs),
    /// Write every line, finding and decision as Parquet, for your own questions.
    Export(ExportArgs),
}

/// What `ledger check` takes.
#[derive(Debug, Args)]
pub struct CheckArgs {
    /// Where it is.
    #[command(flatten)]
    pub place: Place,
    /// A head that a workbook or print-out carries (64 hexadecimal digits): prove that the ledger still holds it.
    #[arg(long, value_name = "HEAD")]
    pub head: Option<String>,
    /// Repeat every audit from its kept files and say what today's program says otherwise.
    #[arg(long)]
    pub again: bool,
}

/// What `ledger backup` takes.
#[derive(Debug, Args)]
pub struct BackupArgs {
    /// The copy; no file of that name may be there.
    #[arg(value_name = "FILE")]
    pub to: PathBuf,
    /// Where it is.
    #[command(flatten)]
    pub place: Place,
}

/// What `ledger export` takes.
#[derive(Debug, Args)]
pub struct ExportArgs {
    /// Folder that is made for it; one that is there must be empty.
    #[arg(value_name = "FOLDER")]
    pub to: PathBuf,
    /// Where it is.
    #[command(flatten)]
    pub place: Place,
}

/// What `decide` takes.
#[derive(Debug, Args)]
pub struct DecideArgs {
    /// Exception workbook with decisions filled in, however it was sorted, filtered or saved.
    #[arg(value_name = "WORKBOOK", conflicts_with_all = ["line", "delivery", "cause", "supplier", "kind", "weight", "evidence", "name", "remark"])]
    pub workbook: Option<PathBuf>,
    /// Id of the line, as workbook, records and trace have it.
    #[arg(long, value_name = "ID", required_unless_present_any = ["workbook", "delivery"], conflicts_with_all = ["delivery", "cause"])]
    pub line: Option<String>,
    /// Delivery whose lines of one cause are settled at once.
    #[arg(long, value_name = "NAME", requires = "cause")]
    pub delivery: Option<String>,
    /// That cause (kg-lb, piece-for-line ...).
    #[arg(long, value_name = "KIND", requires = "delivery")]
    pub cause: Option<String>,
    /// Supplier, where several have a delivery or line of this name.
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
    /// accept declared, use estimate, weighed, supplier corrected, refused.
    #[arg(long = "as", value_name = "DECISION", value_parser = typed::decision, required_unless_present = "workbook")]
    pub kind: Option<DecisionKind>,
    /// Weight of the whole line with its unit: "2040 lb".
    #[arg(long, value_name = "WEIGHT", value_parser = typed::weight, conflicts_with = "delivery")]
    pub weight: Option<Mass>,
    /// What it rests on: a scale ticket, a letter of the supplier.
    #[arg(long, value_name = "TEXT")]
    pub evidence: Option<String>,
    /// Who decides.
    #[arg(long = "by", value_name = "NAME", required_unless_present = "workbook")]
    pub name: Option<String>,
    /// Remark.
    #[arg(long, value_name = "TEXT")]
    pub remark: Option<String>,
    /// Where it is.
    #[command(flatten)]
    pub place: Place,
    /// Fleet register of the fresh workbook [default: the site's].
    #[arg(long, value_name = "FILE", requires = "workbook")]
    pub fleet: Option<PathBuf>,
    /// Where the fresh workbook goes [default: reports/exceptions-DATE.xlsx, with a number where that is there].
    #[arg(long, value_name = "FILE", requires = "workbook")]
    pub out: Option<PathBuf>,
    /// Units of the fresh workbook [default: those of the workbook].
    #[arg(long, value_enum, requires = "workbook")]
    pub units: Option<UnitsArg>,
    /// Day of the fresh workbook, and the last day that a decision may bear, or the one after [default: today].
    #[arg(long, value_name = "YYYY-MM-DD", requires = "workbook")]
    pub date: Option<NaiveDate>,
}

/// What `trace` takes.
#[derive(Debug, Args)]
pub struct TraceArgs {
    /// Words that stand in supplier, description, item, order or id.
    #[arg(value_name = "WORD")]
    pub words: Vec<String>,
    /// Tell the whole story of one line.
    #[arg(long, value_name = "ID", conflicts_with_all = ["json", "out"])]
    pub line: Option<String>,
    /// Part of the supplier's name.
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
    /// Item.
    #[arg(long, value_name = "ITEM")]
    pub item: Option<String>,
    /// Order.
    #[arg(long, value_name = "ORDER")]
    pub order: Option<String>,
    /// First day of the audit.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub from: Option<NaiveDate>,
    /// Last day of the audit.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub to: Option<NaiveDate>,
    /// Code of a finding (declared-light).
    #[arg(long, value_name = "CODE", value_parser = finding)]
    pub finding: Option<String>,
    /// What was decided, or "open": flagged and not decided yet.
    #[arg(long, value_name = "DECISION", value_parser = decided)]
    pub decision: Option<DecisionFilter>,
    /// Truck that was named.
    #[arg(long, value_name = "TRUCK")]
    pub truck: Option<String>,
    /// The same as WORD.
    #[arg(long, value_name = "WORD")]
    pub text: Vec<String>,
    /// Page of the list, from 1.
    #[arg(long, value_name = "N", default_value_t = 1, value_parser = clap::value_parser!(u32).range(1..))]
    pub page: u32,
    /// Print every hit as a record (NDJSON).
    #[arg(long)]
    pub json: bool,
    /// Write every hit into a workbook.
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Units of what people see [default: the site's].
    #[arg(long, value_enum)]
    pub units: Option<UnitsArg>,
    /// Where it is.
    #[command(flatten)]
    pub place: Place,
}

/// What `scorecard` takes.
#[derive(Debug, Args)]
pub struct ScorecardArgs {
    /// Part of the supplier's name.
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
    /// First day of the first audits of the deliveries that count.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub from: Option<NaiveDate>,
    /// Last day of the first audits of the deliveries that count.
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub to: Option<NaiveDate>,
    /// Day that the age of open decisions counts to [default: today].
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub date: Option<NaiveDate>,
    /// Where the workbook goes [default: reports/scorecard-DATE.xlsx, with a number where that is there].
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Print records (NDJSON) on standard output; text goes to standard error.
    #[arg(long)]
    pub json: bool,
    /// Units of what people see [default: the site's].
    #[arg(long, value_enum)]
    pub units: Option<UnitsArg>,
    /// Print nothing but errors.
    #[arg(long)]
    pub quiet: bool,
    /// Where it is.
    #[command(flatten)]
    pub place: Place,
}

fn decided(text: &str) -> Result<DecisionFilter, String> {
    if text.trim().eq_ignore_ascii_case("open") {
        return Ok(DecisionFilter::Open);
    }
    typed::decision(text)
        .map(|kind| DecisionFilter::Words(kind.words().to_string()))
        .map_err(|known| format!("{known}, or \"open\""))
}

fn finding(text: &str) -> Result<String, String> {
    judge::rule(text)
        .map(|rule| rule.code().to_string())
        .map_err(|nearest| format!("no finding has this code; the nearest is {nearest}"))
}
