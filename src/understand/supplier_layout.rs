//! Supplier layouts: which one a sheet is read with, what it changes, where it contradicts a heading, and how one is
//! learnt from a list. A layout never changes a unit that the heading itself states.

mod learn;

pub(super) use learn::learn;
pub use learn::of_file;

use super::columns::Column;
use super::heading::{self, Field};
use super::layout::{HeadedColumn, Table};
use super::{Basis, How, WeightKind};
use crate::read::Sheet;
use crate::site::supplier::folded;
use crate::site::{ColumnLayout, SupplierLayout};
use crate::units::MassUnit;
use crate::units::spelling::MassSpelling;
use crate::units::written::tidy;
use std::collections::BTreeMap;

/// All fields, to find one by its name.
const FIELDS: [Field; 31] = [
    Field::LineNo,
    Field::Item,
    Field::Mark,
    Field::Description,
    Field::Material,
    Field::Quantity,
    Field::QuantityPerPackage,
    Field::Unit,
    Field::Packages,
    Field::PackageType,
    Field::PackageId,
    Field::Length,
    Field::Width,
    Field::Height,
    Field::Thickness,
    Field::Outside,
    Field::Inside,
    Field::Wall,
    Field::Size,
    Field::Volume,
    Field::Weight,
    Field::Tare,
    Field::WeightUnit,
    Field::SizeUnit,
    Field::Delivery,
    Field::Order,
    Field::Supplier,
    Field::Vehicle,
    Field::Remarks,
    Field::LiftHeight,
    Field::NotUsed,
];

/// The layout a sheet is read with.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Chosen<'a> {
    /// The supplier's name at this site.
    pub name: &'a str,
    /// The layout.
    pub layout: &'a SupplierLayout,
    /// Found by the table's headings, not by the supplier's name.
    pub by_headings: bool,
}

/// A choice of layout, and what the reader of the file must know about it.
pub(super) type Choice<'a> = (Option<Chosen<'a>>, Option<(&'static str, String)>);

/// The layout for a sheet: that of the supplier's name, else the one whose headings a table has. A list that names
/// somebody else is not read with a layout found by headings: two suppliers may use one form with different units.
pub(super) fn choose<'a>(
    layouts: &'a BTreeMap<String, SupplierLayout>,
    supplier: Option<&str>,
    tables: &[Table],
) -> Choice<'a> {
    let named = supplier.map(folded);
    if let Some((name, layout)) = layouts
        .iter()
        .find(|(name, _)| named.as_ref() == Some(&folded(name)))
    {
        let lost = lost(layout, tables).map(|headings| {
            let message = format!(
                "the list has no longer the headings {headings} of the layout for \"{name}\"; look at how its columns were read, then mend the layout in the site file"
            );
            ("layout-headings-differ", message)
        });
        return (
            Some(Chosen {
                name,
                layout,
                by_headings: false,
            }),
            lost,
        );
    }
    let fitting: Vec<(&String, &SupplierLayout)> = layouts
        .iter()
        .filter(|(_, layout)| !layout.headings.is_empty() && lost(layout, tables).is_none())
        .collect();
    let most = fitting
        .iter()
        .map(|(_, layout)| layout.headings.len())
        .max()
        .unwrap_or(0);
    let mut best = fitting
        .into_iter()
        .filter(|(_, layout)| layout.headings.len() == most);
    let Some((name, layout)) = best.next() else {
        return (None, None);
    };
    if let Some((other, _)) = best.next() {
        let message = format!(
            "the headings are those of the layouts for \"{name}\" and \"{other}\": neither was used; say whose list it is with --supplier"
        );
        return (None, Some(("layout-unclear", message)));
    }
    match (supplier, named) {
        (Some(written), Some(named))
            if !layout.names.iter().any(|known| folded(known) == named) =>
        {
            let message = format!(
                "the headings are those of the layout for \"{name}\", but the supplier is \"{written}\": the layout was not used; if the list comes from \"{name}\", say so with --supplier, or add \"{written}\" to the layout's names"
            );
            (None, Some(("layout-not-used", message)))
        }
        _ => (
            Some(Chosen {
                name,
                layout,
                by_headings: true,
            }),
            None,
        ),
    }
}

/// The layout's headings that no table has all of, as seen by the table that has most of them; none when one has all.
fn lost(layout: &SupplierLayout, tables: &[Table]) -> Option<String> {
    let missing = |table: &Table| {
        let there: Vec<String> = table
            .columns
            .iter()
            .map(|column| folded(&column.text))
            .collect();
        layout
            .headings
            .iter()
            .filter(|heading| !there.contains(&folded(heading)))
            .map(|heading| format!("\"{heading}\""))
            .collect::<Vec<_>>()
    };
    let least = tables.iter().map(missing).min_by_key(Vec::len)?;
    (!least.is_empty()).then(|| least.join(", "))
}

/// The table of a sheet whose headings say nothing to the program: the first row that has all headings of a layout.
pub(super) fn tables(sheet: &Sheet, layouts: &BTreeMap<String, SupplierLayout>) -> Vec<Table> {
    let wanted: Vec<Vec<String>> = layouts
        .values()
        .filter(|layout| !layout.headings.is_empty())
        .map(|layout| {
            layout
                .headings
                .iter()
                .map(|heading| folded(heading))
                .collect()
        })
        .collect();
    if wanted.is_empty() {
        return Vec::new();
    }
    let heading = sheet.rows.iter().position(|row| {
        let there: Vec<String> = row
            .cells
            .iter()
            .map(|cell| folded(&cell.value.text()))
            .collect();
        wanted
            .iter()
            .any(|headings| headings.iter().all(|heading| there.contains(heading)))
    });
    let Some((at, row)) = heading.and_then(|at| Some((at, sheet.rows.get(at)?))) else {
        return Vec::new();
    };
    let columns = row.cells.iter().map(|cell| {
        let text = tidy(&cell.value.text());
        HeadedColumn {
            number: cell.column,
            heading: heading::read(&text),
            text,
        }
    });
    vec![Table {
        heading: at,
        depth: 1,
        first: at + 1,
        end: sheet.rows.len(),
        columns: columns.collect(),
    }]
}

/// What a layout says of a heading; nothing of one that stands twice in the table, because it cannot mean both.
fn entry<'a>(layout: &'a SupplierLayout, text: &str, all: &[String]) -> Option<&'a ColumnLayout> {
    let text = folded(text);
    let alone = all.iter().filter(|other| **other == text).count() == 1;
    layout
        .columns
        .iter()
        .find(|(heading, _)| alone && folded(heading) == text)
        .map(|(_, column)| column)
}

/// Gives columns the field, basis and kind that the layout states.
pub(super) fn fields(all: &mut [Column], layout: &SupplierLayout) {
    let texts: Vec<String> = all.iter().map(|column| folded(&column.text)).collect();
    for column in all {
        let Some(entry) = entry(layout, &column.text, &texts) else {
            continue;
        };
        column.how = How::Site;
        if let Some(field) = entry
            .field
            .and_then(|word| FIELDS.into_iter().find(|field| field.name() == word))
        {
            column.field = field;
        }
        if let Some(of) = entry.of {
            column.of_package = column.field.is_size() && of == "package";
            column.basis = if column.field.is_size() {
                None
            } else {
                basis(of)
            };
        }
        if let Some(kind) = entry.kind {
            column.both_kinds = kind == "net and gross";
            column.kind = match kind {
                "net" => WeightKind::Net,
                "gross" => WeightKind::Gross,
                _ => WeightKind::Unstated,
            };
        }
    }
}

fn basis(of: &str) -> Option<Basis> {
    match of {
        "line" => Some(Basis::Line),
        "piece" => Some(Basis::Piece),
        "package" => Some(Basis::Package),
        "metre" => Some(Basis::PerMetre),
        "foot" => Some(Basis::PerFoot),
        _ => None,
    }
}

/// Gives columns the unit that the layout states, unless the heading states another.
pub(super) fn units(all: &mut [Column], table: &Table, layout: &SupplierLayout) {
    let texts: Vec<String> = all.iter().map(|column| folded(&column.text)).collect();
    for (column, headed) in all.iter_mut().zip(&table.columns) {
        let Some(entry) = entry(layout, &column.text, &texts) else {
            continue;
        };
        if contradicts(entry, headed).is_some() {
            column.how = How::Stated;
            continue;
        }
        column.mass = entry.mass.or(column.mass);
        column.length = entry.length.or(column.length);
    }
}

/// The columns whose heading states another unit than the layout, in words.
pub(super) fn conflicts(name: &str, layout: &SupplierLayout, table: &Table) -> Vec<(u32, String)> {
    let texts: Vec<String> = table
        .columns
        .iter()
        .map(|column| folded(&column.text))
        .collect();
    let columns = table.columns.iter().filter_map(|headed| {
        let entry = entry(layout, &headed.text, &texts)?;
        let says = contradicts(entry, headed)?;
        let unit = entry.unit()?;
        let message = format!(
            "the heading \"{}\" says {says}, the layout for \"{name}\" says {unit}: the heading's unit was taken; ask the supplier which it is, then mend the layout in the site file",
            headed.text
        );
        Some((headed.number, message))
    });
    columns.collect()
}

/// The heading's unit, where it is another than the layout's. `T` and `cwt` mean several units: the layout may say which.
fn contradicts(entry: &ColumnLayout, headed: &HeadedColumn) -> Option<&'static str> {
    if let (Some(unit), Some(spelled)) = (entry.mass, headed.heading.mass) {
        return match spelled {
            MassSpelling::Known(stated) => (stated != unit).then(|| stated.symbol()),
            MassSpelling::Ton => (!matches!(
                unit,
                MassUnit::Tonne | MassUnit::ShortTon | MassUnit::LongTon
            ))
            .then_some("tons"),
            MassSpelling::Cwt => {
                (!matches!(unit, MassUnit::CwtUs | MassUnit::CwtUk)).then_some("cwt")
            }
        };
    }
    let (unit, stated) = (entry.length?, headed.heading.length?);
    (stated != unit).then(|| stated.symbol())
}

#[cfg(test)]
mod tests;
