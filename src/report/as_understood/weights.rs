//! How the weight columns were settled: in which unit, and of what, with the reason.

use super::WIDTH;
use crate::audit::Delivery;
use crate::place::column_letters;
use crate::report::plain_table::labelled;
use crate::settle::ColumnReading as Settled;
use crate::understand::{Basis, ColumnReading, How};

/// Writes a sentence or two for each weight column.
pub(super) fn write(text: &mut String, delivery: &Delivery) {
    text.push_str("\n  Declared weights\n");
    let mut none = true;
    for column in delivery
        .reading
        .columns
        .iter()
        .filter(|column| column.layout.is_weight())
    {
        none = false;
        let label = format!("  {}", column_letters(column.column));
        let told = match delivery.settled.columns.get(&column.column) {
            Some(settled) => sentences(column, settled, delivery),
            None => on_packages(column, delivery),
        };
        text.push_str(&labelled(&label, 7, &told, WIDTH));
    }
    if none {
        text.push_str("  No column of weights was found: a line without one elsewhere counts as missing its weight.\n");
    }
}

fn sentences(column: &ColumnReading, settled: &Settled, delivery: &Delivery) -> String {
    let several = delivery.lines.iter().any(|line| line.item.pieces > 1);
    format!(
        "{}; {}",
        unit(column, settled, delivery),
        basis(column, settled, several)
    )
}

/// A column whose figures all stand for packages of several lines, or that has none.
fn on_packages(column: &ColumnReading, delivery: &Delivery) -> String {
    let weights = delivery
        .packages
        .iter()
        .flat_map(|package| &package.shared.weights);
    if !weights
        .into_iter()
        .any(|weight| weight.place.column == column.column)
    {
        return "no usable weight stands in this column".to_string();
    }
    let unit = match (column.how, &column.unit) {
        (How::Assumed, Some(unit)) => format!("in {unit}, ASSUMED: no unit is stated"),
        (How::Site, Some(unit)) => format!("in {unit}, by the supplier's layout in the site file"),
        (_, Some(unit)) => format!("in {unit}, as the heading says"),
        (_, None) => "in the unit that stands beside each figure".to_string(),
    };
    format!("{unit}; each figure is the weight of a package that holds several lines")
}

/// The unit, and why it was taken.
fn unit(column: &ColumnReading, settled: &Settled, delivery: &Delivery) -> String {
    let symbol = settled.unit.symbol();
    let contradicted = delivery
        .settled
        .contradicted
        .iter()
        .find(|one| one.column == column.column);
    if let Some(found) = contradicted {
        return format!(
            "in {symbol} by the heading, but on {} lines the figures fit the sizes only in {}: CONTRADICTED",
            found.lines,
            found.fits.symbol()
        );
    }
    match settled.unit_how {
        How::Inferred => format!(
            "in {symbol}, inferred: no unit is stated, and only in {symbol} do the figures fit the sizes of the lines"
        ),
        How::Assumed => format!(
            "in {symbol}, ASSUMED: no unit is stated, and too few lines could be checked against their sizes"
        ),
        _ if column.unit.is_none() => "in the unit that stands beside each figure".to_string(),
        _ if column.how == How::Site => {
            format!("in {symbol}, by the supplier's layout in the site file")
        }
        _ => format!("in {symbol}, as the heading says"),
    }
}

/// What the figures are of, and why.
fn basis(column: &ColumnReading, settled: &Settled, several: bool) -> String {
    let of = match settled.basis {
        Basis::Line => "the whole line",
        Basis::Piece => "one piece",
        Basis::Package => "one package",
        Basis::PerMetre => "one metre (never taken as the line's weight)",
        Basis::PerFoot => "one foot (never taken as the line's weight)",
    };
    let each = format!("each figure is the weight of {of}");
    match settled.basis_how {
        How::Inferred => format!("{each}, inferred from the figures or from the columns beside it"),
        How::Assumed if several => {
            format!("{each}, ASSUMED: nothing says whether it is the line's or the piece's")
        }
        How::Assumed => format!("{each}; every line is one piece, so the piece's is the same"),
        _ if column.how == How::Site => format!("{each}, by the layout or the heading"),
        _ => format!("{each}, as the heading says"),
    }
}
