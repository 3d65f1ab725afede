//! What was altered of the cells that the program wrote: said, and refused where a row may no longer be the one of its mark.

use super::entry::quoted;
use super::sheet::Row;
use crate::report::workbook::{Mark, Written, plain};
use std::collections::{BTreeMap, BTreeSet};

/// Altered cells that are named one by one.
const MOST_NAMED: usize = 20;

/// What was found altered.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Altered {
    /// What is said and changes nothing: what the program wrote counts.
    pub said: Vec<String>,
    /// What no decision can be taken on, with the position of the row.
    pub against: Vec<(usize, String)>,
}

/// Whether a row's cells are those that its mark was made of: all, or those under the program's headings, because somebody may
/// have added columns.
pub fn is_as_written(row: &Row, headings: &[String]) -> bool {
    let all = filled(row, |_| true);
    let ours = filled(row, |heading| headings.contains(heading));
    is_mark_of(row, &all) || is_mark_of(row, &ours)
}

fn is_mark_of(row: &Row, cells: &Cells<'_>) -> bool {
    let cells: Vec<(String, String)> = cells
        .iter()
        .map(|(heading, text)| (heading.clone(), text.to_string()))
        .collect();
    Mark::of(&row.mark.audit, &row.mark.load, &cells) == row.mark
}

/// Filled cells by heading.
type Cells<'c> = BTreeMap<String, &'c str>;

fn filled(row: &Row, ours: impl Fn(&String) -> bool) -> Cells<'_> {
    let cells = row
        .cells
        .iter()
        .filter(|(heading, (text, _))| ours(heading) && !text.trim().is_empty());
    cells
        .map(|(heading, (text, _))| (heading.clone(), text.as_str()))
        .collect()
}

/// Holds rows that are not as written against what the program wrote: `written` are the rows of their audit as it makes them
/// today, or why it cannot. Each row stands with its position in the workbook.
pub fn compare(
    rows: &[(usize, &Row)],
    headings: &[String],
    written: Result<&[Written], &str>,
) -> Altered {
    let mut altered = Altered::default();
    let mut against = |(at, row): (usize, &Row), why: &str| {
        altered.against.push((at, format!(
            "{}: the row of this mark is not as the program wrote it: {why}; restore it from the workbook as it was written",
            row.mark_place
        )));
    };
    let all = match written {
        Ok(all) => all,
        Err(why) => {
            for row in rows {
                against(
                    *row,
                    &format!("which cell was altered cannot be told ({why})"),
                );
            }
            return altered;
        }
    };
    let (mut of_id, mut of_cells) = (BTreeMap::new(), BTreeMap::new());
    for (id, cells) in all {
        let cells: Cells<'_> = cells
            .iter()
            .map(|(heading, text)| (plain(heading), text.as_str()))
            .collect();
        of_cells.insert(plain_cells(&cells), id.as_str());
        of_id.entry(id.as_str()).or_insert(cells);
    }
    let mut missing = BTreeSet::new();
    for &(at, row) in rows {
        let now = filled(row, |heading| headings.contains(heading));
        let Some(then) = of_id.get(row.mark.load.as_str()) else {
            against((at, row), "the audit wrote no row of this mark");
            continue;
        };
        match of_cells.get(&plain_cells(&now)) {
            Some(other) if *other != row.mark.load => against(
                (at, row),
                &format!(
                    "it has the mark of line {} and the cells of line {other}, as when some columns are sorted without the others",
                    row.mark.load
                ),
            ),
            _ if !is_mark_of(row, then) => against(
                (at, row),
                "its mark was altered, or another version of the program wrote it",
            ),
            _ => differences(row, &now, then, &mut missing, &mut altered.said),
        }
    }
    for heading in missing {
        altered
            .said
            .push(format!("the column \"{heading}\" was taken out or renamed"));
    }
    if altered.said.len() > MOST_NAMED {
        let more = altered.said.split_off(MOST_NAMED).len();
        altered.said.push(format!("and {more} more"));
    }
    altered
}

fn plain_cells(cells: &Cells<'_>) -> Vec<(String, String)> {
    let plain = cells
        .iter()
        .map(|(heading, text)| (heading.clone(), plain(text)));
    plain.collect()
}

fn differences(
    row: &Row,
    now: &Cells<'_>,
    then: &Cells<'_>,
    missing: &mut BTreeSet<String>,
    said: &mut Vec<String>,
) {
    let headings: BTreeSet<&String> = now.keys().chain(then.keys()).collect();
    for heading in headings {
        let [now, then] = [now, then].map(|cells| cells.get(heading).copied().unwrap_or_default());
        if plain(now) == plain(then) {
            continue;
        }
        let Some((_, place)) = row.cells.get(heading) else {
            missing.insert(heading.clone());
            continue;
        };
        let shown = |text: &str| match text {
            "" => "nothing".to_string(),
            text => quoted(text),
        };
        said.push(format!(
            "{place} \"{heading}\": now {}, the program wrote {}",
            shown(now),
            shown(then)
        ));
    }
}
