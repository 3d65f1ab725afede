//! What may be typed. Opens nothing.

pub mod records;
pub mod replay;
pub mod typed;

use crate::judge::{self, Rule};
use crate::report::known;
use crate::site::Units;
use crate::understand::Entered;
use crate::units::Length;
use crate::units::written::{Decimal, length};
use chrono::NaiveDate;
use clap::{Args, Parser, Subcommand, ValueEnum};
use records::{DecideArgs, LedgerArgs, ScorecardArgs, TraceArgs};
use replay::ReplayArgs;
use std::path::PathBuf;
use typed::Typed;

/// Audits delivery spreadsheets before anything is lifted.
#[derive(Debug, Parser)]
#[command(name = "dockheft", version, about, max_term_width = 100)]
pub struct Cli {
    /// What to do.
    #[command(subcommand)]
    pub command: Command,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Read delivery spreadsheets, check every declared weight, match every lift to a truck, write the exception workbook.
    Audit(AuditArgs),
    /// Show how a delivery spreadsheet is read: columns, units, first lines, rows left out; keep it as the supplier's layout.
    Understand(UnderstandArgs),
    /// Work out one load at the dock from a few words: what it weighs, step by step, and which truck takes it.
    Weigh(WeighArgs),
    /// Take the decisions written in an exception workbook, or one typed decision, into the ledger.
    Decide(DecideArgs),
    /// Find past lines in the ledger, or tell the whole story of one.
    Trace(TraceArgs),
    /// Judge the ledger's lines again under another site file: which flags come and go, and which tolerance decided lines speak for.
    Replay(ReplayArgs),
    /// Count what keeps coming back, by supplier, goods, material, cause and month, and say whose weights moved since when.
    Scorecard(ScorecardArgs),
    /// Prove the ledger unaltered, or copy it.
    Ledger(LedgerArgs),
    /// Check the fleet register and show it as understood: headings, faults, each truck's capacity over load centre, what is out.
    Fleet(FleetArgs),
    /// Say what a finding means, why it matters on the dock and what to do; without a code, list all findings.
    Explain(ExplainArgs),
    /// Show the materials, shapes, products, units and words it knows, each with its source.
    Tables(TablesArgs),
}

/// What `audit` takes.
#[derive(Debug, Args)]
pub struct AuditArgs {
    /// Delivery spreadsheets (xlsx, xls, ods, csv, tsv, html, xml), or folders of them.
    #[arg(required = true, value_name = "FILE|FOLDER")]
    pub inputs: Vec<PathBuf>,
    /// Site settings [default: site.toml in this folder, else built-in defaults].
    #[arg(long, value_name = "FILE")]
    pub site: Option<PathBuf>,
    /// Fleet register [default: the site's].
    #[arg(long, value_name = "FILE")]
    pub fleet: Option<PathBuf>,
    /// Where the exception workbook goes [default: reports/exceptions-DATE.xlsx, with a number where that is there].
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Also write every line as a record (NDJSON); - for standard output.
    #[arg(long, value_name = "FILE")]
    pub lines: Option<PathBuf>,
    /// Print records (NDJSON) on standard output; text goes to standard error.
    #[arg(long)]
    pub json: bool,
    /// Units of what people see [default: the site's]; how bare figures are read is the site's.
    #[arg(long, value_enum)]
    pub units: Option<UnitsArg>,
    /// Day of the audit [default: today].
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub date: Option<NaiveDate>,
    /// Supplier of these files.
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
    /// Name of the delivery.
    #[arg(long, value_name = "NAME")]
    pub delivery: Option<String>,
    /// Print nothing but errors.
    #[arg(long)]
    pub quiet: bool,
    /// The ledger that the audit is recorded in [default: the site's, else ledger.dockheft beside the site file].
    #[arg(long, value_name = "FILE")]
    pub ledger: Option<PathBuf>,
    /// Keep no record of this audit in a ledger.
    #[arg(long, conflicts_with = "ledger")]
    pub no_ledger: bool,
}

/// What `understand` takes.
#[derive(Debug, Args)]
pub struct UnderstandArgs {
    /// Delivery spreadsheet (xlsx, xls, ods, csv, tsv).
    #[arg(value_name = "FILE")]
    pub input: PathBuf,
    /// Site settings [default: site.toml in this folder, else built-in defaults].
    #[arg(long, value_name = "FILE")]
    pub site: Option<PathBuf>,
    /// Keep how the file was read as the layout of this supplier, in the site file.
    #[arg(long, value_name = "NAME")]
    pub save: Option<String>,
    /// Print records (NDJSON) on standard output; text goes to standard error.
    #[arg(long)]
    pub json: bool,
    /// Units of what people see [default: the site's]; how bare figures are read is the site's.
    #[arg(long, value_enum)]
    pub units: Option<UnitsArg>,
    /// Supplier of the file.
    #[arg(long, value_name = "NAME")]
    pub supplier: Option<String>,
}

/// What `weigh` takes.
#[derive(Debug, Args)]
pub struct WeighArgs {
    /// The load in quotation marks, as a list would describe it: "pipe OD 30 in ID 24 in L 8 ft reinforced concrete x 3".
    #[arg(value_name = "TEXT", value_parser = typed::parse)]
    pub load: Typed,
    /// Number of pieces, where the text does not say it.
    #[arg(long, value_name = "N", value_parser = clap::value_parser!(u32).range(1..1_000_000))]
    pub pieces: Option<u32>,
    /// How high it is lifted, with its unit: "3 m", "10 ft" [default: the site's].
    #[arg(long, value_name = "HEIGHT", value_parser = height)]
    pub height: Option<Length>,
    /// Side that the forks enter [default: broadside for long goods that are not packed].
    #[arg(long, value_enum, value_name = "SIDE")]
    pub entered: Option<EnteredArg>,
    /// Attachment that the lift needs, as the register calls it.
    #[arg(long, value_name = "NAME", value_parser = named)]
    pub attachment: Option<String>,
    /// Site settings [default: site.toml in this folder, else built-in defaults].
    #[arg(long, value_name = "FILE")]
    pub site: Option<PathBuf>,
    /// Fleet register [default: the site's].
    #[arg(long, value_name = "FILE")]
    pub fleet: Option<PathBuf>,
    /// Units of what people see and of figures without one [default: those of the text, else the site's].
    #[arg(long, value_enum)]
    pub units: Option<UnitsArg>,
    /// Print the record of the line (NDJSON) on standard output, the text on standard error.
    #[arg(long)]
    pub json: bool,
    /// Day of the lift: inspections and trucks that are out are judged by it [default: today].
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub date: Option<NaiveDate>,
    /// Print no text for people but errors.
    #[arg(long)]
    pub quiet: bool,
}

fn height(text: &str) -> Result<Length, String> {
    let written = length(text, Decimal::Unclear, None);
    let height = written.and_then(|written| written.in_unit(None));
    height
        .filter(|height| height.m() > 0.0)
        .ok_or_else(|| "a lift height needs its unit: \"3 m\", \"10 ft\"".to_string())
}

fn named(text: &str) -> Result<String, String> {
    let text = text.trim();
    if text.is_empty() {
        return Err("name the attachment as the register does".to_string());
    }
    Ok(text.to_string())
}

/// Entry side as typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum EnteredArg {
    /// At the long side.
    Broadside,
    /// At the short side.
    Endwise,
}

impl From<EnteredArg> for Entered {
    fn from(entered: EnteredArg) -> Entered {
        match entered {
            EnteredArg::Broadside => Entered::Broadside,
            EnteredArg::Endwise => Entered::Endwise,
        }
    }
}

/// What `fleet` takes.
#[derive(Debug, Args)]
pub struct FleetArgs {
    /// Fleet register (xlsx, ods or csv) [default: the site's].
    #[arg(value_name = "FILE")]
    pub register: Option<PathBuf>,
    /// Site settings [default: site.toml in this folder, else built-in defaults].
    #[arg(long, value_name = "FILE")]
    pub site: Option<PathBuf>,
    /// Also write a workbook with the Fleet sheet and its charts.
    #[arg(long, value_name = "FILE")]
    pub out: Option<PathBuf>,
    /// Print records (NDJSON) on standard output; text goes to standard error.
    #[arg(long)]
    pub json: bool,
    /// Units of what people see [default: the site's].
    #[arg(long, value_enum)]
    pub units: Option<UnitsArg>,
    /// Day that inspections and trucks that are out are judged by [default: today].
    #[arg(long, value_name = "YYYY-MM-DD")]
    pub date: Option<NaiveDate>,
    /// Print no text for people but errors.
    #[arg(long)]
    pub quiet: bool,
}

/// What `tables` takes.
#[derive(Debug, Args)]
pub struct TablesArgs {
    /// Table, as the overview names it (materials, shapes, products, pipe-steel) [default: an overview of all].
    #[arg(value_name = "NAME", value_parser = table)]
    pub name: Option<String>,
    /// Only rows that hold all of these words.
    #[arg(value_name = "WORD")]
    pub words: Vec<String>,
    /// Print records (NDJSON) instead of text.
    #[arg(long)]
    pub json: bool,
}

fn table(text: &str) -> Result<String, String> {
    known::named(text)
        .map(|_| text.to_string())
        .map_err(|nearest| {
            format!("no table has this name; the nearest is {nearest}; dockheft tables lists all")
        })
}

/// What `explain` takes.
#[derive(Debug, Args)]
pub struct ExplainArgs {
    /// Code of the finding, as the reports print it (declared-light).
    #[arg(value_name = "CODE", value_parser = code)]
    pub code: Option<&'static dyn Rule>,
}

fn code(text: &str) -> Result<&'static dyn Rule, String> {
    judge::rule(text).map_err(|nearest| {
        format!("no finding has this code; the nearest is {nearest}; dockheft explain lists all")
    })
}

/// Units as typed.
#[derive(Clone, Copy, Debug, ValueEnum)]
pub enum UnitsArg {
    /// Pounds, feet and inches.
    Us,
    /// Kilograms and millimetres.
    Si,
}

impl From<UnitsArg> for Units {
    fn from(units: UnitsArg) -> Units {
        match units {
            UnitsArg::Us => Units::Us,
            UnitsArg::Si => Units::Si,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_code_is_taken_as_people_type_it() {
        for typed in ["declared-light", "Declared light", "DECLARED_LIGHT"] {
            let cli = Cli::try_parse_from(["dockheft", "explain", typed]);
            let Ok(Command::Explain(args)) = cli.map(|cli| cli.command) else {
                panic!("{typed}")
            };
            let code = args.code.map(|rule| rule.code());
            assert_eq!(code, Some("declared-light"), "{typed}");
        }
    }

    #[test]
    fn an_unknown_code_is_wrong_usage_and_names_the_nearest() {
        for (typed, nearest) in [
            ("declared-lite", "declared-light"),
            ("gros-below-nett", "gross-below-net"),
            ("overloaded", "truck-overloaded"),
            ("tall", "tall-load"),
        ] {
            let error = Cli::try_parse_from(["dockheft", "explain", typed]).expect_err(typed);
            assert_eq!(error.exit_code(), 2, "{typed}");
            let said = error.to_string();
            assert!(
                said.contains(&format!("the nearest is {nearest};")),
                "{said}"
            );
        }
    }
}
