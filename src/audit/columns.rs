//! What was settled for the weight columns, put into how the sheet was read, so that every report says it.

use crate::settle::Settled;
use crate::understand::{Basis, ColumnReading, How, Item};

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
