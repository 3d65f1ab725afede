//! Whether the cells of a size column state their own units, so that none is left to assume.

use crate::read::{Row, Value};
use crate::understand::described;
use crate::units::written::{self, Decimal, fold};

/// Whether every filled cell of a column writes its unit out (`12'-6 1/2"`, `6ft 3in`, `40 mm`); false for an empty one.
pub(super) fn in_every_cell(rows: &[Row], column: u32) -> bool {
    let mut cells = rows
        .iter()
        .filter_map(|row| row.cell(column))
        .filter(|cell| !is_blank(&cell.value))
        .peekable();
    cells.peek().is_some()
        && cells.all(|cell| match &cell.value {
            Value::Text(text) => {
                let marked = fold(text).contains(['"', '\'']);
                marked
                    || written::length(text, Decimal::Unclear, None)
                        .is_some_and(|length| length.unit.is_some())
                    || chain_has_unit(text)
            }
            _ => false,
        })
}

/// Whether several sizes in one cell carry a unit (`60 x 40 x 40 cm`): the last one's is that of those before it.
fn chain_has_unit(text: &str) -> bool {
    let chains = described::read(text, Decimal::Unclear).chains;
    !chains.is_empty()
        && chains.iter().all(|chain| {
            let last = chain.parts.last();
            last.is_some_and(|part| part.written.unit.is_some())
        })
}

fn is_blank(value: &Value) -> bool {
    matches!(value, Value::Text(text) if text.trim().is_empty())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::read;

    #[test]
    fn one_bare_figure_leaves_the_unit_open() {
        for (cells, written_out) in [
            (&["20'-0\"", "6ft 3in", "40'", "2500 mm"][..], true),
            (&["60 x 40 x 40 cm", "2 m x 1 m x 10 mm"], true),
            (&["60 x 40 x 40 cm", "60 x 40 x 40"], false),
            (&["20'-0\"", "240"], false),
            (&["", ""], false),
        ] {
            let text = cells.join("\t1\n") + "\t1\n";
            let raw = read::bytes("a.tsv", text.as_bytes()).expect("read");
            assert_eq!(
                in_every_cell(&raw.sheets[0].rows, 1),
                written_out,
                "{cells:?}"
            );
        }
    }
}
