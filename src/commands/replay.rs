//! `dockheft replay`: the ledger's lines under another site file.

use super::{Status, ledger, output, register, settings};
use crate::cli::replay::ReplayArgs;
use crate::error::Error;
use crate::hash;
use crate::ledger::{Asked, Ledger};
use crate::replay::{TOLERANCES, WRONG_BY};
use crate::report::replay::{Shown, text, workbook, write_records};
use crate::report::text::printable;
use indicatif::{ProgressBar, ProgressStyle};
use std::io::{IsTerminal, Write};
use std::path::{Path, PathBuf};

/// Runs the command: status 3 where an audit could not be repeated, 1 where no audit answers to what was asked.
///
/// # Errors
/// When settings, register or ledger cannot be used, or the answer cannot be written.
pub fn run(args: &ReplayArgs) -> Result<Status, Error> {
    let (mut site, site_file) = settings::find(args.site.as_deref())?;
    let path = ledger::path(args.ledger.as_deref(), &site, site_file.as_deref());
    site.show_in(args.units.map(Into::into));
    let ledger = Ledger::read(&path)?;
    if let Some(out) = &args.out {
        let register = register::path(None, &site, site_file.as_deref());
        let kept: Vec<&Path> = [
            Some(path.as_path()),
            site_file.as_deref(),
            args.fleet.as_deref(),
            register.as_deref(),
        ]
        .into_iter()
        .flatten()
        .collect();
        output::check(out, &kept)?;
    }
    let raw = args.fleet.as_deref().map(register::read).transpose()?;
    let asked = Asked {
        tolerances: tolerances(&args.tolerances, site.tolerance),
        fleet: raw.map(|raw| register::understood(&raw, &site)),
        from: args.from,
        to: args.to,
        supplier: args.supplier.clone(),
        // What a scale may be off makes no declared weight wrong.
        wrong_by: args.wrong_by.unwrap_or(WRONG_BY).max(site.scale_error),
        site,
    };
    let bar = progress(args);
    let (replay, head) = ledger.replay(&asked, &|done, of| {
        bar.set_length(of as u64);
        bar.set_position(done as u64);
    })?;
    bar.finish_and_clear();
    let shown = Shown {
        replay: &replay,
        site: &asked.site,
        site_file: site_file.as_deref().map(named),
        register: asked.fleet.as_ref().map(|fleet| fleet.file.clone()),
        ledger: (path.display().to_string(), head.size, head.digits()),
        asked: (asked.from, asked.to, asked.supplier.clone()),
        wrong_by: asked.wrong_by,
    };
    if let Some(out) = &args.out {
        output::whole(out, |to| workbook(&shown, to))?;
    }
    if args.json {
        records(&shown)?;
    }
    if !args.quiet {
        told(args, &shown)?;
    } else {
        for why in &replay.not_repeated {
            eprintln!("dockheft: not repeated: {}", printable(why));
        }
    }
    Ok(if !replay.not_repeated.is_empty() {
        Status::NotDone
    } else if replay.audits == 0 {
        Status::Exceptions
    } else {
        Status::Clear
    })
}

/// The list that was typed, else the usual one, with the site's own, the least first.
fn tolerances(typed: &[f64], own: f64) -> Vec<f64> {
    let mut all = if typed.is_empty() {
        TOLERANCES.to_vec()
    } else {
        typed.to_vec()
    };
    all.push(own);
    all.sort_by(f64::total_cmp);
    all.dedup();
    all
}

/// The site file's name without folders, and the SHA-256 of its bytes.
fn named(path: &Path) -> (String, String) {
    let name = path.file_name().unwrap_or_default();
    let sha256 = std::fs::read(path).map_or("not known".to_string(), |bytes| hash::sha256(&bytes));
    (name.to_string_lossy().into_owned(), sha256)
}

fn records(shown: &Shown<'_>) -> Result<(), Error> {
    let mut records = Vec::new();
    write_records(shown, &mut records).map_err(|error| Error::Report {
        file: PathBuf::from("standard output"),
        found: error.to_string(),
        remedy: "look at where the output goes".to_string(),
    })?;
    output::print(&String::from_utf8_lossy(&records))
}

fn told(args: &ReplayArgs, shown: &Shown<'_>) -> Result<(), Error> {
    let mut text = text(shown);
    if let Some(out) = &args.out {
        let out = out.display().to_string();
        text.push_str(&format!("Workbook {}\n", printable(&out)));
    }
    if args.json {
        // A closed pipe is no fault of the replay.
        let _ = write!(std::io::stderr(), "{text}");
        Ok(())
    } else {
        output::print(&text)
    }
}

fn progress(args: &ReplayArgs) -> ProgressBar {
    if args.quiet || !std::io::stderr().is_terminal() {
        return ProgressBar::hidden();
    }
    let style = ProgressStyle::with_template("repeating audits {bar:30} {percent} %")
        .unwrap_or_else(|_| ProgressStyle::default_bar());
    ProgressBar::new(1).with_style(style)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_sites_own_tolerance_is_always_compared() {
        assert_eq!(tolerances(&[0.2, 0.05, 0.2], 0.08), [0.05, 0.08, 0.2]);
        assert_eq!(tolerances(&[], 0.10), TOLERANCES);
    }
}
