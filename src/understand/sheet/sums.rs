//! The sums that total rows state.

use super::kind::named_sum;
use super::{Reader, row_text};
use crate::read::{Cell, Row, Value};
use crate::understand::columns::{Column, Columns};
use crate::understand::heading::Field;
use crate::understand::{Item, Remark, StatedSum, Why};
use crate::units::TIE;
use crate::units::written::{self, Decimal, Figure, MassText, tidy};

/// A sheet's sums that are compared with its lines; a list of more is no delivery's.
const MOST_SUMS: usize = 1_000;

impl Reader<'_> {
    /// Remembers the sums of a total row. `from` is the first item that a part sum covers. A row that is a sum by its
    /// words alone, which may be those of goods, is said.
    pub(super) fn sum(&mut self, row: &Row, columns: &Columns, why: Why, from: usize) {
        let stated = stated(row, columns);
        let goods_named = named_sum(row, columns).is_some_and(|named| named.goods_named);
        let doubtful = match why {
            Why::Carried => !stated.is_empty(),
            _ => goods_named && row.cells.len() > 1,
        };
        if doubtful
            && !stated
                .iter()
                .any(|(column, sum)| self.adds_up(*column, *sum))
        {
            self.reading.remarks.push(Remark {
                code: "sum-not-explained",
                place: self.sheet.place(row.number, 0),
                message: format!(
                    "row {} (\"{}\") was taken for a sum and gave no line, but no lines above it add up to a weight of it; look whether it is goods, or whether lines are missing",
                    row.number,
                    row_text(row)
                ),
            });
            return;
        }
        if why == Why::Carried || self.reading.sums.len() >= MOST_SUMS {
            return;
        }
        let rows: Vec<u32> = self.reading.items[from.min(self.reading.items.len())..]
            .iter()
            .map(|item| item.place.row)
            .collect();
        for (column, figure) in stated {
            let text = row.cell(column).map(|cell| tidy(&cell.value.text()));
            self.reading.sums.push(StatedSum {
                place: self.sheet.place(row.number, column),
                column,
                figure: figure.value,
                text: text.unwrap_or_default(),
                rows: rows.clone(),
            });
        }
    }

    /// Whether the lines and packages above, from some row down to the last, add up to a sum: as written, or by the piece.
    fn adds_up(&self, column: u32, stated: Figure) -> bool {
        let lines = self
            .reading
            .items
            .iter()
            .flat_map(|item| item.weights.iter().map(|weight| (weight, item.pieces)));
        let packages = self
            .reading
            .shared
            .iter()
            .flat_map(|shared| &shared.weights);
        let mut weights: Vec<_> = lines
            .chain(packages.map(|weight| (weight, 1)))
            .filter(|(weight, _)| weight.place.column == column)
            .map(|(weight, pieces)| (weight.place.row, weight.figure, f64::from(pieces)))
            .collect();
        weights.sort_by_key(|(row, ..)| std::cmp::Reverse(*row));
        let (mut written, mut by_piece) = (0.0, 0.0);
        weights.into_iter().any(|(_, figure, pieces)| {
            written += figure;
            by_piece += figure * pieces;
            is_sum(stated, written) || is_sum(stated, by_piece)
        })
    }

    /// A row that names no goods, its figures under weights and counts only, that sums the lines above it: all of the table
    /// from `first` (a total) or those since the last sum (a part sum). Goods have a name or a size. Behind the word of a
    /// sum the words of goods may stand ("Total plates") where every figure is a sum.
    pub(super) fn unnamed_sum(
        &self,
        row: &Row,
        columns: &Columns,
        first: usize,
        since: usize,
    ) -> Option<Why> {
        let named = named_sum(row, columns).filter(|named| !named.numbered);
        let counts = |cell: &Cell| {
            columns.all.iter().any(|column| {
                column.number == cell.column && column.field.is_figure() && !column.field.is_size()
            })
        };
        let words = |cell: &Cell| named.is_some() && matches!(cell.value, Value::Text(_));
        if !row.cells.iter().all(|cell| counts(cell) || words(cell)) {
            return None;
        }
        let stated = stated(row, columns);
        let pieces = columns
            .of(Field::Quantity)
            .find_map(|column| figure(&row.cell(column.number)?.value, column.habit));
        let sums = |from: usize| {
            let items = self.reading.items.get(from..).unwrap_or_default();
            let counted = || items.iter().map(|item| f64::from(item.pieces)).sum();
            items.len() > 1
                && (named.is_none() || pieces.is_none_or(|pieces| is_sum(pieces, counted())))
                && stated
                    .iter()
                    .any(|(column, stated)| add_up(items, *column, *stated))
        };
        if sums(first) {
            Some(Why::Total)
        } else {
            sums(since).then_some(Why::Subtotal)
        }
    }
}

/// The figures that a row holds under weights, by column.
fn stated(row: &Row, columns: &Columns) -> Vec<(u32, Figure)> {
    let figure = |column: &Column| {
        let cell = row.cell(column.number)?;
        Some((
            column.number,
            weight_figure(&cell.value, column, columns.us)?,
        ))
    };
    columns.of(Field::Weight).filter_map(figure).collect()
}

/// Whether the weights of a column over all these items are a sum. From the last one up, so that a line among many like it
/// is soon told from a sum.
fn add_up(items: &[Item], column: u32, stated: Figure) -> bool {
    let mut sum = 0.0;
    for item in items.iter().rev() {
        let of_column = item
            .weights
            .iter()
            .filter(|weight| weight.place.column == column);
        sum += of_column.map(|weight| weight.figure).sum::<f64>();
        if sum > stated.value && !is_sum(stated, sum) {
            return false;
        }
    }
    is_sum(stated, sum)
}

/// Sums are often rounded to fewer digits than what they sum.
fn is_sum(stated: Figure, sum: f64) -> bool {
    sum > 0.0 && (stated.value - sum).abs() <= stated.half_digit + TIE * sum
}

/// The figure of a sum of weights, in the column's unit where the cell writes another ("4.68 t" under kilograms).
fn weight_figure(value: &Value, column: &Column, us: Option<bool>) -> Option<Figure> {
    let figure = figure(value, column.habit)?;
    let own = match value {
        Value::Text(text) => match written::mass(text, column.habit) {
            MassText::Figure { unit, .. } => unit.and_then(|spelled| spelled.unit(us)),
            _ => None,
        },
        _ => None,
    };
    let factor = own
        .zip(column.mass)
        .map_or(1.0, |(own, column)| own.mass(1.0) / column.mass(1.0));
    Some(Figure {
        value: figure.value * factor,
        half_digit: figure.half_digit * factor,
        ..figure
    })
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
    fn a_sum_in_another_unit_is_one_of_the_columns() {
        let text = "Description,Qty,Weight kg\nPlate,1,2340\nBar,2,2340\nTotal,,4.68 t\n";
        let raw = crate::read::bytes("list.csv", text.as_bytes());
        let sums: Vec<f64> = raw
            .iter()
            .flat_map(|raw| file(raw, &Known::default()))
            .flat_map(|sheet| sheet.sums)
            .map(|sum| sum.figure)
            .collect();
        assert_eq!(sums, [4680.0]);
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

    /// Goods whose names begin with the word of a sum; the last figures are by chance the sum of the weights.
    #[test]
    fn goods_that_begin_like_a_sum_are_lines() {
        for goods in [
            "Transport frame for transformer,2,1450",
            "Transport frame,,1450",
            "Transport pallet,1,20",
            "Report cabinet,1,60",
            "Total station tripod,2,14",
            "Total weight indicator,1,5",
            "Totale stazione,1,14",
            "Total station tripod,2,150.5",
            "Transport frame,3,150.5",
        ] {
            let read = lines_and_sums(&format!("{goods}\n"));
            assert_eq!(read, (vec![2, 3, 4], vec![]), "{goods}");
        }
    }

    #[test]
    fn the_words_of_a_sum_make_no_line() {
        for sum in [
            "Total,,150.5",
            "TOTAL:,3,150.5",
            "Total weight 150.5 kg,,",
            "Total 2 crates,2,150.5",
            "Total plates,3,150.5",
            "Total plates and bars,,150.5",
            "Grand total,,999",
            "Summe,,150.5",
            "Totale,,150.5",
            "合计,3,150.5",
        ] {
            let read = lines_and_sums(&format!("{sum}\n"));
            assert_eq!(read, (vec![2, 3], vec![Why::Total]), "{sum}");
        }
        for sum in ["Sub-total pallet 3,3,150.5", "Subtotal plates,3,150"] {
            let read = lines_and_sums(&format!("{sum}\n"));
            assert_eq!(read, (vec![2, 3], vec![Why::Subtotal]), "{sum}");
        }
    }

    /// The remarks that a list of two lines, 100 kg and 2 pieces of together 50.5 kg, gets with one more row.
    fn remarks(row: &str) -> Vec<&'static str> {
        let text = format!(
            "Item,Description,Mark,Qty,Weight (kg),Remarks\nA-1,Plate,,1,100,\nA-2,Bar,,2,50.5,\n{row}\n"
        );
        let raw = crate::read::bytes("list.csv", text.as_bytes());
        let sheets = raw.iter().flat_map(|raw| file(raw, &Known::default()));
        sheets
            .flat_map(|sheet| sheet.remarks)
            .map(|remark| remark.code)
            .collect()
    }

    #[test]
    fn a_doubtful_sum_is_said() {
        for (row, expected) in [
            (",Transport,,,1450,", &["sum-not-explained"][..]),
            (",Report,,,60,", &["sum-not-explained"]),
            (",Brought forward,,,800,", &["sum-not-explained"]),
            (",Total station tripod,,,14,", &["sum-not-explained"]),
            (",Total station tripod,,,TBA,", &["sum-not-explained"]),
            (",Total plates and bars,,,150.5,", &[]),
            (",Total of all goods delivered,,,,", &[]),
            (",Carried forward,,,150.5,", &[]),
            // By the piece: 100 + 2 x 50.5.
            (",Carried forward,,,201,", &[]),
            (",Carried forward,,,50.5,", &[]),
            (",Transport,,,,", &[]),
            // What a plain total does not add up to is another finding.
            (",Total,,,1450,", &[]),
        ] {
            assert_eq!(remarks(row), expected, "{row}");
        }
    }

    #[test]
    fn the_word_of_a_sum_beside_goods_is_part_of_their_line() {
        let text = "Item,Description,Mark,Qty,Weight (kg),Remarks\nA-1,Plate,Total,1,100,\nA-2,Frame,Transport,2,50.5,\nA-3,Plate,,1,7,Total 7 kg\nTotal,,,4,157.5,\nTotal,4 pieces,,,157.5,\n";
        let raw = crate::read::bytes("list.csv", text.as_bytes());
        let sheets = raw.iter().flat_map(|raw| file(raw, &Known::default()));
        let rows: Vec<u32> = sheets
            .flat_map(|sheet| sheet.items)
            .map(|item| item.place.row)
            .collect();
        assert_eq!(rows, [2, 3, 4]);
    }
}
