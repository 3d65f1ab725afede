//! Where the working of each load stands, known before it is written: rows are counted, and a sheet that is full goes on in
//! another. Comes in: an audit and how many rows a sheet holds. Goes out: cells to refer and link to.

use super::SHEET;
use crate::audit::Audit;
use crate::estimate::Estimate;
use crate::place::column_letters;
use crate::report::loads::{self, Load};
use crate::report::workbook::table;

/// Rows below the steps of an estimate: likely, low and high, the latter two each with its part of likely.
const RANGE: u32 = 5;
/// Rows below these where the weight may hold packing: likely, low and high, each with its packing.
const PACKING: u32 = 6;

/// A row of the working.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct At {
    /// Sheets of this name before it.
    sheet: u32,
    /// Row as the spreadsheet shows it.
    row: u32,
}

impl At {
    /// A cell of the row as a formula in the row `from` names it: `F12`, `'Working 2'!F12`.
    pub fn cell(self, column: u32, from: At) -> String {
        let cell = format!("{}{}", column_letters(column), self.row);
        if self.sheet == from.sheet {
            cell
        } else {
            format!("'{}'!{cell}", table::sheet_name(SHEET, self.sheet))
        }
    }

    /// The row as a link names it.
    pub fn link(self) -> String {
        let name = table::sheet_name(SHEET, self.sheet);
        format!("internal:'{name}'!A{}", self.row)
    }
}

/// The first row of each load.
pub struct Places {
    /// Rows of a sheet below its headings.
    rows_a_sheet: u32,
    /// By delivery, then by load in the order of [`loads::of`]: rows before it on all sheets.
    before: Vec<Vec<u32>>,
}

impl Places {
    /// Counts the rows of an audit's working on sheets of `most_rows` rows, headings included.
    pub fn of(audit: &Audit, most_rows: u32) -> Places {
        let mut rows = 0;
        let deliveries = audit.deliveries.iter().map(|delivery| {
            let counted = loads::of(delivery).map(|load| {
                let first = rows;
                rows += load
                    .estimate()
                    .map_or(1, |estimate| likely(estimate) + RANGE);
                if has_packing(load) {
                    rows += PACKING;
                }
                first
            });
            counted.collect()
        });
        Places {
            before: deliveries.collect(),
            rows_a_sheet: most_rows.saturating_sub(1).max(1),
        }
    }

    /// The row that stands `below` rows under the first of a load, both by number from 0.
    pub fn of_load(&self, delivery: usize, load: usize, below: u32) -> At {
        let loads = self.before.get(delivery);
        let before = loads.and_then(|loads| loads.get(load)).copied();
        let row = before.unwrap_or(0) + below;
        At {
            sheet: row / self.rows_a_sheet,
            row: row % self.rows_a_sheet + 2,
        }
    }
}

/// Rows between the first of a load and that of its likely mass: its name, then for each step the inputs and the result.
pub fn likely(estimate: &Estimate) -> u32 {
    let steps = estimate.steps.iter();
    let rows: usize = steps.map(|step| step.inputs.len() + 1).sum();
    1 + u32::try_from(rows).unwrap_or(u32::MAX / 2)
}

/// Whether what the declared weight is compared with is more than the goods alone.
pub fn has_packing(load: Load<'_>) -> bool {
    let line = load.estimate().map(|estimate| estimate.line);
    load.expected() != line
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::testing;

    #[test]
    fn rows_are_counted_over_sheets() {
        let audit = testing::audit();
        let first = audit.deliveries[0].lines[0].estimate.as_ref();
        let rows = likely(first.expect("an estimate")) + RANGE;
        let wide = Places::of(&audit, 1_000);
        let home = wide.of_load(0, 0, 0);
        assert_eq!(home, At { sheet: 0, row: 2 });
        assert_eq!(
            wide.of_load(0, 1, 0),
            At {
                sheet: 0,
                row: rows + 2
            }
        );
        // Four rows and the headings a sheet.
        let narrow = Places::of(&audit, 5);
        let fifth = narrow.of_load(0, 0, 4);
        assert_eq!(fifth, At { sheet: 1, row: 2 });
        assert_eq!(fifth.cell(6, fifth), "F2");
        assert_eq!(fifth.cell(6, home), "'Working 2'!F2");
        assert_eq!(fifth.link(), "internal:'Working 2'!A2");
        assert_eq!(home.link(), "internal:'Working'!A2");
    }
}
