//! `dockheft scorecard`: what keeps coming back, by supplier, goods, material, cause and month.

use super::{Status, ledger, output};
use crate::cli::records::ScorecardArgs;
use crate::error::Error;
use crate::ledger::Ledger;
use crate::report::scorecard;
use crate::report::text::printable;
use crate::scorecard::{Asked, Scorecard};
use std::path::Path;

/// Runs the command: status 1 where nothing on record answers.
///
/// # Errors
/// When the ledger cannot be read, or a report cannot be written.
pub fn run(args: &ScorecardArgs) -> Result<Status, Error> {
    let today = args
        .date
        .unwrap_or_else(|| chrono::Local::now().date_naive());
    let placed = ledger::of(&args.place)?;
    let mut site = placed.site.clone();
    site.show_in(args.units.map(Into::into));
    let out = args
        .out
        .clone()
        .unwrap_or_else(|| output::free(Path::new(&format!("reports/scorecard-{today}.xlsx"))));
    output::check(&out, &placed.needed())?;
    let ledger = Ledger::read(&placed.path)?;
    let head = ledger.head()?;
    let (figures, decisions) = (ledger.figures()?, ledger.decisions_taken()?);
    let asked = Asked {
        from: args.from,
        to: args.to,
        supplier: args.supplier.clone(),
    };
    let failed = |error: String| Error::Report {
        file: out.clone(),
        found: error,
        remedy: "run \"dockheft ledger check\"".to_string(),
    };
    let card = Scorecard::of(&figures, &decisions, asked, today)
        .map_err(|error| failed(error.to_string()))?;
    let head_told = (head.size, head.digits());
    output::whole(&out, |to| {
        scorecard::write_workbook(&card, &site, &head_told, to)
    })?;
    if args.json {
        let records = scorecard::write_records(&card).map_err(|error| failed(error.to_string()))?;
        output::print(&records)?;
    }
    if !args.quiet {
        let shown = |path: &Path| printable(&path.display().to_string());
        let text = format!(
            "{}\nScorecard: {}\nLedger {}: {head}\n",
            scorecard::text(&card, &site),
            shown(&out),
            shown(&placed.path)
        );
        if args.json {
            eprint!("{text}");
        } else {
            output::print(&text)?;
        }
    }
    Ok(if card.all.lines == 0 {
        Status::Exceptions
    } else {
        Status::Clear
    })
}
