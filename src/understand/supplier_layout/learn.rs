//! A layout learnt from how a list was read. What was only assumed is left out: kept, it would pass for known.

use crate::site::supplier::folded;
use crate::site::{ColumnLayout, NewColumn, NewLayout};
use crate::understand::columns::Column;
use crate::understand::heading::Field;
use crate::understand::{Basis, ColumnReading, How, SheetReading, WeightKind};
use crate::units::LengthUnit;

/// What a layout would say of a column as it was read.
pub fn learn(column: &Column) -> ColumnLayout {
    let weight = column.field == Field::Weight;
    let of = match column.basis.filter(|_| weight) {
        Some(Basis::Line) => Some("line"),
        Some(Basis::Piece) => Some("piece"),
        Some(Basis::Package) => Some("package"),
        Some(Basis::PerMetre) => Some("metre"),
        Some(Basis::PerFoot) => Some("foot"),
        None => (column.field.is_size() && column.of_package).then_some("package"),
    };
    let kind = match (column.both_kinds, column.kind) {
        (true, _) => Some("net and gross"),
        (_, WeightKind::Gross) => Some("gross"),
        (_, WeightKind::Net) => Some("net"),
        (_, WeightKind::Unstated) => None,
    };
    // What was only assumed is not kept: a layout would turn it into something known.
    let known = matches!(column.how, How::Stated | How::Site);
    let length: Option<LengthUnit> = column.length.filter(|_| column.field.is_size() && known);
    ColumnLayout {
        // Inches are told by the column of feet before them.
        field: (column.field != Field::Inches).then(|| column.field.name()),
        mass: column
            .mass
            .filter(|_| weight || column.field == Field::Tare),
        length,
        of,
        kind: kind.filter(|_| weight),
    }
}

/// The layout that a file's sheets were read with, to be kept under a name; none where no table was found. A heading that
/// stands twice in a table, or is read in two ways, is left out: a layout could not tell which is meant.
pub fn of_file(readings: &[&SheetReading], name: &str) -> Option<NewLayout> {
    let first = readings
        .iter()
        .find(|reading| !reading.columns.is_empty())?;
    let mut kept: Vec<(&ColumnReading, bool)> = Vec::new();
    for table in readings.iter().flat_map(|reading| tables(reading)) {
        for (at, column) in table.iter().enumerate() {
            let same = |other: &ColumnReading| folded(&other.heading) == folded(&column.heading);
            let twice = table
                .iter()
                .enumerate()
                .any(|(other, one)| other != at && same(one));
            match kept.iter_mut().find(|(known, _)| same(known)) {
                Some((known, clear)) => *clear &= !twice && known.layout == column.layout,
                None => kept.push((column, !twice && !folded(&column.heading).is_empty())),
            }
        }
    }
    let columns = kept
        .into_iter()
        .filter(|(_, clear)| *clear)
        .map(|(column, _)| NewColumn {
            heading: column.heading.clone(),
            layout: column.layout.clone(),
            note: note(column),
        });
    let mut headings: Vec<String> = Vec::new();
    for column in tables(first).next().unwrap_or_default() {
        if !folded(&column.heading).is_empty() && !headings.contains(&column.heading) {
            headings.push(column.heading.clone());
        }
    }
    // A single heading may stand in any list.
    if headings.len() < 2 {
        headings.clear();
    }
    let other = first
        .supplier
        .as_ref()
        .filter(|written| first.supplier_from == "cell" && folded(written) != folded(name));
    Some(NewLayout {
        name: name.to_string(),
        names: other.cloned().into_iter().collect(),
        headings,
        columns: columns.collect(),
        from: first.place.file.to_string(),
    })
}

/// The columns of each table of a sheet: a second table begins again at the left.
fn tables(reading: &SheetReading) -> impl Iterator<Item = &[ColumnReading]> {
    reading
        .columns
        .chunk_by(|one, next| one.column < next.column)
}

/// What is left open in a kept column, and what to do about it.
fn note(column: &ColumnReading) -> Option<String> {
    let open = match (
        column.layout.is_weight(),
        column.layout.unit(),
        column.layout.of,
    ) {
        _ if column.how == How::Contradicted => {
            "the figures contradict the heading's unit: ask the supplier, then add unit"
        }
        (true, None, None) if column.how == How::Assumed => {
            "unit, and what it is the weight of: ask the supplier, then add unit and of"
        }
        (true, None, _) if column.how == How::Assumed => {
            "unit not known: ask the supplier, then add unit"
        }
        (true, _, None) if column.how == How::Assumed => {
            "of what is not known: ask the supplier, then add of"
        }
        (false, None, _) if column.how == How::Assumed => {
            "unit not known: ask the supplier, then add unit"
        }
        _ if column.how == How::Inferred => "found from the figures: check it",
        _ => return None,
    };
    Some(open.to_string())
}
