//! The sums that total rows state.

use super::Reader;
use crate::read::{Row, Value};
use crate::understand::columns::Columns;
use crate::understand::heading::Field;
use crate::understand::{StatedSum, Why};
use crate::units::TIE;
use crate::units::written::{self, Decimal, Figure, MassText, tidy};

impl Reader<'_> {
    /// Remembers the sums of a total row. `from` is the first item that a part sum covers.
    pub(super) fn sum(&mut self, row: &Row, columns: &Columns, why: Why, from: usize) {
        if why == Why::Carried {
            return;
        }
        let rows: Vec<u32> = self.reading.items[from.min(self.reading.items.len())..]
            .iter()
            .map(|item| item.place.row)
            .collect();
        for column in columns.of(Field::Weight) {
            let Some(cell) = row.cell(column.number) else {
                continue;
            };
            let Some(figure) = figure(&cell.value, column.habit) else {
                continue;
            };
            self.reading.sums.push(StatedSum {
                place: self.sheet.place(row.number, column.number),
                column: column.number,
                figure: figure.value,
                text: tidy(&cell.value.text()),
                rows: rows.clone(),
            });
        }
    }

    /// A row without a word, its figures under weights and counts only, that sums the lines above it: all of the table
    /// from `first` (a total) or those since the last sum (a part sum). Goods have a name or a size.
    pub(super) fn unnamed_sum(
        &self,
        row: &Row,
        columns: &Columns,
        first: usize,
        since: usize,
    ) -> Option<Why> {
        let counted = row.cells.iter().all(|cell| {
            columns.all.iter().any(|column| {
                column.number == cell.column && column.field.is_figure() && !column.field.is_size()
            })
        });
        let sums = |from: usize| {
            let items = self.reading.items.get(from..).unwrap_or_default();
            items.len() > 1
                && columns.of(Field::Weight).any(|column| {
                    let stated = row
                        .cell(column.number)
                        .and_then(|cell| figure(&cell.value, column.habit));
                    let weights = items.iter().flat_map(|item| &item.weights);
                    let sum: f64 = weights
                        .filter(|weight| weight.place.column == column.number)
                        .map(|weight| weight.figure)
                        .sum();
                    // Sums are often rounded to fewer digits than the weights.
                    stated.is_some_and(|stated| {
                        sum > 0.0 && (stated.value - sum).abs() <= stated.half_digit + TIE * sum
                    })
                })
        };
        match counted {
            true if sums(first) => Some(Why::Total),
            true if sums(since) => Some(Why::Subtotal),
            _ => None,
        }
    }
}

/// The figure of a sum.
fn figure(value: &Value, habit: Decimal) -> Option<Figure> {
    match value {
        Value::Number(number) => Some(Figure::of_number(*number)),
        Value::Text(text) => match written::mass(text, habit) {
            MassText::Figure { figure, .. } => Some(figure),
            _ => None,
        },
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use crate::understand::{Known, Why, file};

    /// The rows that gave lines, and the sums among those that gave none.
    fn lines_and_sums(rows: &str) -> (Vec<u32>, Vec<Why>) {
        let text = format!("Description,Qty,Weight (kg)\nPlate,1,100\nBar,2,50.5\n{rows}");
        let raw = crate::read::bytes("list.csv", text.as_bytes());
        let sheets: Vec<_> = raw
            .iter()
            .flat_map(|raw| file(raw, &Known::default()))
            .collect();
        let lines = sheets
            .iter()
            .flat_map(|sheet| &sheet.items)
            .map(|item| item.place.row);
        let skipped = sheets
            .iter()
            .flat_map(|sheet| &sheet.skipped)
            .map(|skipped| skipped.why);
        (
            lines.collect(),
            skipped
                .filter(|why| matches!(why, Why::Total | Why::Subtotal))
                .collect(),
        )
    }

    #[test]
    fn a_sum_needs_no_word() {
        assert_eq!(lines_and_sums(",3,150.5\n"), (vec![2, 3], vec![Why::Total]));
        assert_eq!(lines_and_sums(",,151\n"), (vec![2, 3], vec![Why::Total]));
        let parts = "Subtotal,,150.5\nPipe,1,20\nHook,1,5\n,,25\n";
        assert_eq!(
            lines_and_sums(parts),
            (vec![2, 3, 5, 6], vec![Why::Subtotal, Why::Subtotal])
        );
    }

    #[test]
    fn a_part_sum_goes_on_over_a_page() {
        let text = "Description,Qty,Weight (kg)\nPlate,1,100\nCarried forward,,100\nBar,2,50.5\nSubtotal,,150.5\nPipe,1,9\n";
        let raw = crate::read::bytes("list.csv", text.as_bytes());
        let sums: Vec<_> = raw
            .iter()
            .flat_map(|raw| file(raw, &Known::default()))
            .flat_map(|sheet| sheet.sums)
            .map(|sum| (sum.figure, sum.rows))
            .collect();
        assert_eq!(sums, [(150.5, vec![2, 4])]);
    }

    #[test]
    fn what_is_named_or_sums_nothing_stays_a_line() {
        assert_eq!(lines_and_sums("Frame,3,150.5\n"), (vec![2, 3, 4], vec![]));
        assert_eq!(lines_and_sums(",3,149\n"), (vec![2, 3, 4], vec![]));
    }
}
