//! About: what was compared with what, what that rests on, what it cannot say.

use super::{Shown, words};
use crate::report::words as common;
use crate::report::workbook::book::{Book, Keep, Paper};
use crate::report::workbook::cell::Cell;
use crate::report::workbook::table::column;
use rust_xlsxwriter::XlsxError;

/// How the figures came about.
const HOW: [&str; 7] = [
    "Every audit was made again by today's program from the files kept in the ledger: under its own settings, and under those of the site file. What was decided since was left out of both, so that each flag is the one raised before anybody knew.",
    "A delivery counts once: of several audits of it, the latest on record.",
    "A weight is flagged where it is called light, heavy or impossible. At another tolerance the same comparison is made with the same estimate; groups of materials with a tolerance of their own keep it.",
    "Lines to look at are those with a finding \"stop\" or \"check\" of any kind. At another tolerance than the site file's, findings that rest on the planning weight are taken as the site file's tolerance gives them.",
    "A line was weighed, or corrected by its supplier: that weight is taken as the truth about the declared one, packaging that was not declared taken into account. An accepted weight counts as right where evidence other than the supplier's first document was named; it is not counted as weighed, and no tolerance is named by it.",
    "The last decision on a line counts, and only where it stands for the list as last audited.",
    "Shares stand beside the counts only where enough lines are decided.",
];

/// Writes the sheet.
pub(super) fn write(book: &mut Book, shown: &Shown<'_>) -> Result<(), XlsxError> {
    let replay = shown.replay;
    let columns = vec![
        column("Subject", 18.0),
        column("Name", 30.0),
        column("Value", 60.0),
        column("Remark", 50.0),
    ];
    let mut table = book.table("About", columns, Paper::Small, Keep::Rows)?;
    let mut row = |subject: &str, name: &str, value: &str, remark: &str| {
        table.row(&[subject, name, value, remark].map(|text| Cell::text(text.to_string())))
    };
    let (name, size, head) = &shown.ledger;
    row("ledger", name, &format!("{size} records"), "")?;
    let proves = "\"dockheft ledger check --head\" proves the ledger by it";
    row("ledger", "head", head, proves)?;
    let (from, to, supplier) = &shown.asked;
    for (name, day) in [("from", from), ("to", to)] {
        if let Some(day) = day {
            row("asked for", name, &day.to_string(), "day of the audit")?;
        }
    }
    if let Some(part) = supplier {
        row("asked for", "supplier", part, "part of the name")?;
    }
    match &shown.site_file {
        Some((name, sha256)) => row("site file", name, sha256, "SHA-256")?,
        None => row("site file", "", "none", "the built-in defaults")?,
    }
    row("register", "", &words::register(shown), "")?;
    for (differs, audits) in &replay.settings {
        let value = format!("was {}, is {}", differs.was, differs.would_be);
        let audits = common::count(*audits, "audit");
        row("setting that differs", &differs.key, &value, &audits)?;
    }
    if replay.settings.is_empty() {
        row("setting that differs", "", "none", "of those that decide")?;
    }
    let groups = words::groups(shown);
    if !groups.is_empty() {
        row("own tolerances", "", &groups, "kept at every tolerance")?;
    }
    for why in &replay.not_repeated {
        row("NOT REPEATED", "", why, "not in any count")?;
    }
    if replay.program_differs > 0 {
        let loads = common::count(replay.program_differs, "load");
        row(
            "program",
            "otherwise than recorded",
            &loads,
            "under the recorded settings too: by today's program, or before what was decided; \"dockheft ledger check --again\" names what the program does",
        )?;
    }
    for how in HOW {
        row("how", "", how, "")?;
    }
    for caution in common::CAUTIONS {
        row("caution", "", caution, "")?;
    }
    row("caution", "", common::NOT_JUDGED, "")?;
    let program = format!("Dockheft {}", env!("CARGO_PKG_VERSION"));
    row("program", "", &program, "")?;
    table.finish()
}
