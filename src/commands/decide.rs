//! `dockheft decide`: decisions into the ledger.

mod sent;
mod told;
mod workbook;

use super::ledger::Placed;
use super::{Status, ledger, output};
use crate::cli::records::DecideArgs;
use crate::error::Error;
use crate::ledger::{Decided, Decision, DecisionKind, Ledger, Stamp, without};
use crate::report::text::printable;
use crate::site::Units;
use crate::units::{Mass, show};

/// Runs the command.
///
/// # Errors
/// When the ledger cannot be used, or a decision is not taken; then none is.
pub fn run(args: &DecideArgs) -> Result<Status, Error> {
    if let Some(workbook) = &args.workbook {
        return workbook::run(args, workbook);
    }
    let Placed { site, path, .. } = ledger::of(&args.place)?;
    // Never made by a decision: a wrong name must not begin a second ledger.
    drop(Ledger::read(&path)?);
    let mut ledger = Ledger::open(&path)?;
    let decisions = decisions(args, &ledger)?;
    let (taken, head) = ledger.decide(&decisions, &Stamp::now())?;
    let mut text = String::new();
    for decided in &taken {
        text.push_str(&told(decided, site.units));
    }
    text.push_str(&format!(
        "Ledger {}: {head}\n",
        printable(&path.display().to_string())
    ));
    output::print(&text)?;
    Ok(Status::Clear)
}

fn decisions(args: &DecideArgs, ledger: &Ledger) -> Result<Vec<Decision>, Error> {
    let (Some(kind), Some(name)) = (args.kind, &args.name) else {
        // The command line asks for both.
        return Ok(Vec::new());
    };
    let decision = |load: &str, weight: Option<Mass>| Decision {
        load: load.to_string(),
        supplier: args.supplier.clone(),
        seen: None,
        kind,
        weight,
        evidence: args.evidence.clone(),
        name: name.clone(),
        remark: args.remark.clone(),
        dated: None,
        origin: "command line".to_string(),
    };
    let (Some(delivery), Some(cause)) = (&args.delivery, &args.cause) else {
        let line = args.line.as_deref().unwrap_or_default();
        return Ok(vec![decision(line.trim(), args.weight)]);
    };
    if kind == DecisionKind::Weighed {
        let reason = "each line is weighed by itself: decide it with --line and --weight";
        return Err(Error::Decision {
            reasons: vec![reason.to_string()],
        });
    }
    // What the supplier confirms for all of them is what each would weigh by the cause.
    let corrected = kind == DecisionKind::SupplierCorrected;
    let loads = ledger.of_cause(delivery, args.supplier.as_deref(), cause)?;
    Ok(loads
        .iter()
        .map(|(load, would_be)| decision(load, corrected.then_some(*would_be)))
        .collect())
}

fn told(decided: &Decided, units: Units) -> String {
    let shown = |mass: Option<Mass>| mass.map(|mass| show::planning(mass, units));
    let before = shown(decided.before).unwrap_or_else(|| without(decided.was_refused).to_string());
    let plan = match shown(decided.plan) {
        Some(plan) => {
            format!("planned with {plan} for the whole line from now on, until now {before}")
        }
        None => "not lifted from now on".to_string(),
    };
    let heavier = match (decided.matched, decided.plan) {
        (Some(matched), Some(plan)) if plan > matched => {
            "\n  HEAVIER than the truck was matched for: match it anew before it is lifted"
        }
        (None, Some(_)) => "\n  NO TRUCK was matched for it: match one before it is lifted",
        _ => "",
    };
    let doubt = decided.doubt(units);
    let doubt = doubt.map_or(String::new(), |doubt| format!("\n  {doubt}"));
    let earlier = match decided.earlier {
        0 => String::new(),
        earlier => format!("\n  beside {earlier} earlier (they stay on record)"),
    };
    format!(
        "{}: {} ({})\n  {}: {plan}{heavier}{doubt}{earlier}\n",
        printable(&decided.load),
        printable(&decided.description),
        printable(&decided.origin),
        decided.kind.words()
    )
}
