//! What may be typed to the commands that work with the ledger.

use super::UnitsArg;
use crate::judge;
use crate::ledger::{DECISIONS, DecisionFilter, DecisionKind};
use crate::units::written::{Decimal, MassText, mass};
use crate::units::{Mass, MassUnit};
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
    /// Id of the line, as workbook, records and trace have it.
    #[arg(long, value_name = "ID", required_unless_present = "delivery", conflicts_with_all = ["delivery", "cause"])]
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
    #[arg(long = "as", value_name = "DECISION", value_parser = decision)]
    pub kind: DecisionKind,
    /// Weight of the whole line with its unit: "2040 lb".
    #[arg(long, value_name = "WEIGHT", value_parser = weight, conflicts_with = "delivery")]
    pub weight: Option<Mass>,
    /// What it rests on: a scale ticket, a letter of the supplier.
    #[arg(long, value_name = "TEXT")]
    pub evidence: Option<String>,
    /// Who decides.
    #[arg(long = "by", value_name = "NAME")]
    pub name: String,
    /// Remark.
    #[arg(long, value_name = "TEXT")]
    pub remark: Option<String>,
    /// Where it is.
    #[command(flatten)]
    pub place: Place,
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

fn decision(text: &str) -> Result<DecisionKind, String> {
    let said = text.trim().to_lowercase().replace(['-', '_'], " ");
    let found = DECISIONS.iter().find(|(_, words)| *words == said);
    found.map(|(kind, _)| *kind).ok_or_else(|| {
        let known = DECISIONS.map(|(_, words)| format!("\"{words}\""));
        format!("it is one of {}", known.join(", "))
    })
}

fn decided(text: &str) -> Result<DecisionFilter, String> {
    if text.trim().eq_ignore_ascii_case("open") {
        return Ok(DecisionFilter::Open);
    }
    decision(text)
        .map(|kind| DecisionFilter::Words(kind.words().to_string()))
        .map_err(|known| format!("{known}, or \"open\""))
}

fn finding(text: &str) -> Result<String, String> {
    judge::rule(text)
        .map(|rule| rule.code().to_string())
        .map_err(|nearest| format!("no finding has this code; the nearest is {nearest}"))
}

fn weight(text: &str) -> Result<Mass, String> {
    let needed = || {
        "a weight is a figure above zero with its unit, of the whole line: \"2040 lb\", \"925.5 kg\"".to_string()
    };
    // Pounds are written with points for parts: "4,700 lb" has a sign for thousands (common practice, no source).
    let decimal = match mass(text, Decimal::Unclear) {
        MassText::Figure {
            unit: Some(unit), ..
        } if unit.unit(None) == Some(MassUnit::Lb) && !text.contains('.') => Decimal::Point,
        _ => Decimal::Unclear,
    };
    match mass(text, decimal) {
        MassText::Figure { figure, .. } if figure.unclear => Err(format!(
            "\"{text}\" may mean two things: write it without a sign for thousands"
        )),
        MassText::Figure { of: Some(_), .. } => Err(needed()),
        MassText::Figure {
            gross: Some(false), ..
        } => Err(format!(
            "\"{text}\" leaves the packaging out, and the truck lifts it too: write the weight with all packaging, without \"net\""
        )),
        MassText::Figure {
            figure,
            unit: Some(unit),
            approximate: false,
            ..
        } => {
            let unit = unit.unit(None).ok_or("which ton? write kg or lb")?;
            Ok(unit.mass(figure.value))
        }
        _ => Err(needed()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_weight_needs_its_unit() {
        for (text, kg) in [
            ("1000 kg", Some(1_000.0)),
            ("100 lb", Some(45.359_237)),
            // As the reports print it; a comma before three digits may be a decimal one in kilograms.
            ("4,700 lb", Some(4_700.0 * 0.453_592_37)),
            ("4.700 lb", None),
            ("4,700 kg", None),
            ("1000", None),
            ("0 kg", None),
            ("ca. 90 kg", None),
            ("90 kg each", None),
            ("2 ton", None),
            ("500 kg net", None),
            ("net 500 kg", None),
            ("500 kg gross", Some(500.0)),
        ] {
            let read = weight(text).ok().map(Mass::kg);
            assert_eq!(read, kg, "{text}");
        }
    }

    #[test]
    fn a_decision_is_taken_as_people_type_it() {
        assert_eq!(
            decision("Supplier-corrected"),
            Ok(DecisionKind::SupplierCorrected)
        );
        assert!(decision("yes").is_err_and(|known| known.contains("\"use estimate\"")));
    }
}
