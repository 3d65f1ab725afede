//! The sums that total rows state.

use super::Reader;
use crate::read::{Row, Value};
use crate::understand::columns::Columns;
use crate::understand::heading::Field;
use crate::understand::{StatedSum, Why};
use crate::units::written::{self, MassText, tidy};

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
            let figure = match &cell.value {
                Value::Number(number) => *number,
                Value::Text(text) => match written::mass(text, column.habit) {
                    MassText::Figure { figure, .. } => figure.value,
                    _ => continue,
                },
                _ => continue,
            };
            self.reading.sums.push(StatedSum {
                place: self.sheet.place(row.number, column.number),
                column: column.number,
                figure,
                text: tidy(&cell.value.text()),
                rows: rows.clone(),
            });
        }
    }
}
