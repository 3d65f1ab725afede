//! What came of the decisions of a workbook, in words.

use crate::audit::Audit;
use crate::ledger::{Decided, Head};
use crate::report::loads::{Load, View};
use crate::report::text::printable;
use crate::report::words;
use crate::site::Units;
use crate::units::{Mass, show};
use std::collections::BTreeMap;
use std::path::Path;

/// Lines that are told one by one.
const MOST_TOLD: usize = 100;

/// How many decisions were recorded.
pub(super) fn head(name: &str, taken: &[Decided]) -> String {
    let new = taken
        .iter()
        .filter(|decided| decided.again.is_none())
        .count();
    let name = printable(name);
    match (new, taken.len() - new) {
        (0, 0) => format!("{name}: no decision is filled in; nothing was recorded\n"),
        (new, 0) => format!("{name}: {} recorded\n", words::count(new, "decision")),
        (0, again) => format!(
            "{name}: {} already on record; nothing was recorded again\n",
            words::count(again, "decision")
        ),
        (new, again) => format!(
            "{name}: {} recorded; {again} already on record and not recorded again\n",
            words::count(new, "decision")
        ),
    }
}

/// A workbook that brought nothing new.
pub(super) fn nothing_new(taken: &[Decided], altered_cells: &[String]) -> String {
    let mut text: String = taken.iter().take(MOST_TOLD).map(on_record).collect();
    text.push_str(&altered(altered_cells));
    text.push_str("No fresh workbook was written; give --out FILE for one.\n");
    text
}

/// A decision that is on record already, and whether another stands since.
fn on_record(decided: &Decided) -> String {
    let again = decided.again.as_deref().unwrap_or_default();
    let mut text = format!(
        "{}, line {}: \"{}\" is already on record ({again})\n",
        printable(&decided.description),
        decided.load,
        decided.kind.words()
    );
    if let Some(standing) = &decided.standing {
        text.push_str(&format!(
            "  since then \"{}\" by {} was recorded ({}), and that stands\n",
            standing.decision,
            printable(&standing.name),
            standing.time
        ));
    }
    text
}

/// What changed, line by line: plan and truck before and now, and the decision that stood before.
pub(super) fn changes(taken: &[Decided], audit: &Audit) -> String {
    let views: Vec<View<'_>> = audit.deliveries.iter().map(View::new).collect();
    let loads: BTreeMap<&str, (&View<'_>, Load<'_>)> = views
        .iter()
        .flat_map(|view| view.loads().map(move |load| (load.id(), (view, load))))
        .collect();
    let units = audit.site.units;
    let mut text = String::new();
    for decided in taken.iter().take(MOST_TOLD) {
        if decided.again.is_some() {
            text.push_str(&on_record(decided));
            continue;
        }
        text.push_str(&change(
            decided,
            loads.get(decided.load.as_str()).copied(),
            units,
        ));
    }
    if taken.len() > MOST_TOLD {
        text.push_str(&format!("and {} more\n", taken.len() - MOST_TOLD));
    }
    text
}

fn change(decided: &Decided, fresh: Option<(&View<'_>, Load<'_>)>, units: Units) -> String {
    let shown =
        |mass: Option<Mass>| mass.map_or("none".to_string(), |mass| show::planning(mass, units));
    let named = |truck: Option<&str>| printable(truck.unwrap_or("none"));
    let until_now = |now: &str, before: String| match now == before {
        true => format!("{now} (as before)"),
        false => format!("{now} (until now {before})"),
    };
    let mut text = format!(
        "\n{} ({}), line {}\n  {}, by {}\n",
        printable(&decided.description),
        printable(&decided.origin),
        decided.load,
        decided.kind.words(),
        printable(&decided.name)
    );
    let plan = fresh.map_or(decided.plan, |(_, load)| load.plan().line);
    text.push_str(&match plan {
        Some(plan) => format!(
            "  planned with {}",
            until_now(&show::planning(plan, units), shown(decided.before))
        ),
        None => format!(
            "  not lifted (until now planned with {})",
            shown(decided.before)
        ),
    });
    if let Some((view, load)) = fresh {
        let truck = load.plan().truck.as_ref().map(|truck| truck.id.as_str());
        text.push_str(&format!(
            ", truck {}: {}\n",
            until_now(&named(truck), named(decided.truck.as_deref())),
            words::standing(view.standing(load), load.severity())
        ));
        if load.decision().is_none() {
            text.push_str("  NOT PLANNED WITH IT: the line is worked out otherwise today than when it was decided on; decide it in the fresh workbook\n");
        }
    } else {
        text.push('\n');
    }
    if let Some(doubt) = decided.doubt(units) {
        text.push_str(&format!("  {doubt}\n"));
    }
    if let Some(standing) = &decided.standing {
        text.push_str(&format!(
            "  BEFORE: \"{}\" by {}, recorded {}, planned with {}; it stays on record, and the later one counts\n",
            standing.decision,
            printable(&standing.name),
            standing.time,
            shown(standing.plan_kg.map(Mass::from_kg))
        ));
    }
    text
}

/// What was altered in the workbook.
pub(super) fn altered(cells: &[String]) -> String {
    if cells.is_empty() {
        return String::new();
    }
    let lines: String = cells
        .iter()
        .map(|cell| format!("  {}\n", printable(cell)))
        .collect();
    format!("\nAltered in the workbook; what the program wrote counts:\n{lines}")
}

/// The fresh workbook, and what is still open in it.
pub(super) fn fresh(audit: &Audit, out: &Path, replaced: &[String]) -> String {
    let open = audit.deliveries.iter().map(|delivery| {
        let view = View::new(delivery);
        let open = |load: &Load<'_>| load.flagged() && load.decision().is_none();
        view.loads().filter(open).count()
    });
    let mut text = String::from("\n");
    for list in replaced {
        text.push_str(&format!("LEFT OUT: {}\n", printable(list)));
    }
    text.push_str(&format!(
        "Fresh workbook for {}: {} ({} not decided yet)\n",
        audit.date,
        printable(&out.display().to_string()),
        words::count(open.sum(), "line")
    ));
    text
}

/// The ledger's head.
pub(super) fn ledger(path: &Path, head: &Head) -> String {
    format!(
        "Ledger {}: {head}\n",
        printable(&path.display().to_string())
    )
}
