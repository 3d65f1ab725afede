//! `dockheft tables`: what the program knows, each row with its source.

use super::{Status, output};
use crate::cli::TablesArgs;
use crate::error::Error;
use crate::report::known;

/// Runs the command: status 1 when no row holds the words asked for.
///
/// # Errors
/// When the text cannot be written.
pub fn run(args: &TablesArgs) -> Result<Status, Error> {
    let Some(name) = &args.name else {
        let text = if args.json {
            known::overview_records()
        } else {
            known::overview()
        };
        output::print(&text)?;
        return Ok(Status::Clear);
    };
    // The name was looked up when it was typed.
    let tables = known::named(name).unwrap_or_default();
    let found: Vec<known::Table> = tables
        .into_iter()
        .map(|table| table.with(&args.words))
        .filter(|table| !table.rows.is_empty())
        .collect();
    if found.is_empty() {
        eprintln!(
            "dockheft: no row of the table \"{name}\" holds \"{}\"; dockheft tables {name} shows all of it",
            args.words.join(" ")
        );
        return Ok(Status::Exceptions);
    }
    let texts: Vec<String> = found
        .iter()
        .map(|table| {
            if args.json {
                table.records()
            } else {
                table.text()
            }
        })
        .collect();
    output::print(&texts.join(if args.json { "" } else { "\n" }))?;
    Ok(Status::Clear)
}
