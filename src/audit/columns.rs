//! What was settled for the weight columns, put into how the sheet was read, so that every report says it.

use crate::settle::Settled;
use crate::understand::{Basis, ColumnReading, How, Item, SharedWeight, StatedWeight};
use crate::units::Mass;

/// Puts unit, basis and how they were found into the readings of the weight columns.
pub(super) fn show(columns: &mut [ColumnReading], items: &[Item], settled: &Settled) {
    // Where every line is one piece, it makes no difference whether a figure is the line's or the piece's.
    let several = items.iter().any(|item| item.pieces > 1);
    for column in columns
        .iter_mut()
        .filter(|column| column.layout.is_weight())
    {
        let Some(found) = settled.columns.get(&column.column) else {
            continue;
        };
        let open_unit = found.unit_how != How::Stated;
        let open_basis = found.basis_how != How::Stated;
        if open_unit {
            column.unit = Some(found.unit.symbol().to_string());
        }
        if open_basis && column.layout.of.is_none() {
            column.field.push_str(match found.basis {
                Basis::Piece => " of one piece",
                _ => " of the line",
            });
        }
        if found.unit_how == How::Inferred {
            column.layout.mass = Some(found.unit);
        }
        if found.basis_how == How::Inferred {
            column.layout.of = Some(if found.basis == Basis::Piece {
                "piece"
            } else {
                "line"
            });
        }
        if settled
            .contradicted
            .iter()
            .any(|one| one.column == column.column)
        {
            column.how = How::Contradicted;
            column.layout.mass = None;
        } else if found.unit_how == How::Assumed || found.basis_how == How::Assumed && several {
            column.how = How::Assumed;
        } else if found.unit_how == How::Inferred || found.basis_how == How::Inferred {
            column.how = How::Inferred;
        }
    }
}

/// Row, column and mass of every weight as printed, for the sums of the document.
pub(super) fn printed(
    items: &[Item],
    shared: &[SharedWeight],
    settled: &Settled,
) -> Vec<(u32, u32, Mass)> {
    let of = |row: u32, weights: &[StatedWeight]| {
        weights
            .iter()
            .map(|weight| {
                let mass = settled.unit_of(weight).mass(weight.figure);
                (row, weight.place.column, mass)
            })
            .collect::<Vec<_>>()
    };
    let lines = items
        .iter()
        .flat_map(|item| of(item.place.row, &item.weights));
    let packages = shared.iter().flat_map(|package| {
        of(
            package.rows.first().copied().unwrap_or(package.place.row),
            &package.weights,
        )
    });
    lines.chain(packages).collect()
}
