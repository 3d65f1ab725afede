//! The program: parse, run one command, print the error, return the status.

use clap::Parser;
use dockheft::cli::{Cli, Command};
use dockheft::commands::{self, Status};
use dockheft::report::text::printable;
use std::process::ExitCode;

fn main() -> ExitCode {
    let cli = Cli::parse();
    let done = match &cli.command {
        Command::Audit(args) => commands::audit::run(args),
        Command::Understand(args) => commands::understand::run(args),
        Command::Weigh(args) => commands::weigh::run(args),
        Command::Decide(args) => commands::decide::run(args),
        Command::Trace(args) => commands::trace::run(args),
        Command::Replay(args) => commands::replay::run(args),
        Command::Scorecard(args) => commands::scorecard::run(args),
        Command::Ledger(args) => commands::ledger::run(args),
        Command::Fleet(args) => commands::fleet::run(args),
        Command::Explain(args) => commands::explain::run(args),
        Command::Tables(args) => commands::tables::run(args),
    };
    let status = done.unwrap_or_else(|error| {
        eprintln!("dockheft: {}", printable(&error.to_string()));
        Status::of(&error)
    });
    ExitCode::from(status as u8)
}
