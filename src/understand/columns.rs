//! What each column of a table is: headings, units and what the cells hold, never the position alone.

mod claims;
mod own_units;
mod signs;

use claims::{by_content, describe, feet_and_inches, one_each};

use super::heading::Field;
use super::layout::{HeadedColumn, Table};
use super::{Basis, ColumnReading, How, Known, WeightKind, supplier_layout};
use crate::read::{Row, Sheet, Value};
use crate::site::SupplierLayout;
use crate::tables::packages::{self, Counts};
use crate::units::written::{Decimal, fold};
use crate::units::{LengthUnit, MassUnit};

/// A column as it is read.
#[derive(Clone, Debug, PartialEq)]
pub struct Column {
    /// Column from 1.
    pub number: u32,
    /// The heading as written.
    pub text: String,
    /// What it holds.
    pub field: Field,
    /// Net or gross.
    pub kind: WeightKind,
    /// Both in one cell.
    pub both_kinds: bool,
    /// What a weight is of, where the heading says so.
    pub basis: Option<Basis>,
    /// Sizes of the package.
    pub of_package: bool,
    /// Unit of mass in the heading.
    pub mass: Option<MassUnit>,
    /// Unit of length in the heading.
    pub length: Option<LengthUnit>,
    /// How the unit was found.
    pub how: How,
    /// The column that holds the inches of a column of feet.
    pub inches: Option<u32>,
    /// Order of the sizes in one cell.
    pub axes: [usize; 3],
    /// Decimal sign of the column's texts.
    pub habit: Decimal,
}

/// All columns of a table, and what its signs say about the country.
#[derive(Clone, Debug, PartialEq)]
pub struct Columns {
    /// In the sheet's order.
    pub all: Vec<Column>,
    /// US signs only (`Some(true)`), metric only (`Some(false)`), both or none.
    pub us: Option<bool>,
    /// Columns of figures with a unit in a heading that was not understood.
    pub unread: Vec<u32>,
    /// Which signs are more: what bare figures are taken as before the site's habit.
    pub more_us: Option<bool>,
}

impl Columns {
    /// Whether bare figures are US ones: by the list's own signs, else by the site's habit.
    pub fn bare_us(&self, known: &Known) -> bool {
        self.more_us.unwrap_or(known.us)
    }

    /// The columns of a field.
    pub fn of(&self, field: Field) -> impl Iterator<Item = &Column> {
        self.all.iter().filter(move |column| column.field == field)
    }

    /// The first column of a field.
    pub fn first(&self, field: Field) -> Option<&Column> {
        self.of(field).next()
    }

    /// The columns as the report shows them.
    pub fn readings(&self) -> Vec<ColumnReading> {
        self.all.iter().map(Column::reading).collect()
    }
}

impl Column {
    fn reading(&self) -> ColumnReading {
        let kind = match (self.both_kinds, self.kind) {
            (true, _) => " net and gross",
            (_, WeightKind::Gross) => " gross",
            (_, WeightKind::Net) => " net",
            (_, WeightKind::Unstated) => "",
        };
        let of = match self.basis {
            Some(Basis::Line) => " of the line",
            Some(Basis::Piece) => " of one piece",
            Some(Basis::Package) => " of one package",
            Some(Basis::PerMetre) => " of one metre",
            Some(Basis::PerFoot) => " of one foot",
            None => "",
        };
        let field = match self.field {
            Field::Weight => format!("declared{kind} weight{of}"),
            Field::Size | Field::Length | Field::Width | Field::Height if self.of_package => {
                format!("{} of the package", self.field.name())
            }
            field => field.name().to_string(),
        };
        let unit = match self.field {
            Field::Weight | Field::Tare => self.mass.map(|unit| unit.symbol().to_string()),
            field if field.is_size() => self.length.map(|unit| unit.symbol().to_string()),
            _ => None,
        };
        ColumnReading {
            column: self.number,
            heading: self.text.clone(),
            field,
            unit,
            how: self.how,
            layout: supplier_layout::learn(self),
        }
    }
}

/// Settles what each column of a table is; a supplier's layout has the first and the last word.
pub fn settle(
    sheet: &Sheet,
    table: &Table,
    known: &Known,
    layout: Option<&SupplierLayout>,
) -> Columns {
    let rows = &sheet.rows[table.first..table.end];
    let mut all: Vec<Column> = table.columns.iter().map(column).collect();
    let by_layout = |all: &mut [Column]| {
        layout
            .iter()
            .for_each(|layout| supplier_layout::fields(all, layout));
    };
    by_layout(&mut all);
    by_content(&mut all, rows);
    feet_and_inches(&mut all, rows);
    one_each(&mut all, table);
    describe(&mut all, rows);
    by_layout(&mut all);
    let (us, more_us) = signs::of(&all, table, rows);
    let file = match Decimal::of(
        all.iter()
            .filter(|column| column.field.is_figure())
            .flat_map(|column| texts(rows, column.number)),
    ) {
        Decimal::Unclear if known.semicolons => Decimal::Comma,
        // Nobody who writes pounds and inches writes a decimal comma.
        Decimal::Unclear if us == Some(true) => Decimal::Point,
        file => file,
    };
    for column in &mut all {
        column.habit = match Decimal::of(texts(rows, column.number)) {
            Decimal::Unclear => file,
            habit => habit,
        };
    }
    for (column, headed) in all.iter_mut().zip(&table.columns) {
        column.mass = headed.heading.mass.and_then(|spelled| spelled.unit(us));
    }
    if let Some(layout) = layout {
        supplier_layout::units(&mut all, table, layout);
    }
    units(&mut all, rows, more_us.unwrap_or(known.us));
    let unread = all
        .iter()
        .zip(&table.columns)
        .filter(|(column, headed)| {
            column.field == Field::NotUsed
                && headed.heading.field.is_none()
                && headed.heading.length.is_some()
                && figures(rows, column.number).next().is_some()
        })
        .map(|(column, _)| column.number)
        .collect();
    Columns {
        all,
        us,
        unread,
        more_us,
    }
}

/// Share of a heading's words that must be known: less for a weight, which no other word of the heading takes back
/// ("Weight (Subject to Correction)").
fn least_known(field: Field) -> f64 {
    if field == Field::Weight { 0.2 } else { 0.34 }
}

fn column(headed: &HeadedColumn) -> Column {
    let heading = &headed.heading;
    let field = heading
        .field
        .filter(|field| heading.known >= least_known(*field))
        .unwrap_or(Field::NotUsed);
    Column {
        number: headed.number,
        text: headed.text.clone(),
        field,
        kind: heading.kind,
        both_kinds: heading.both_kinds,
        basis: heading.basis,
        of_package: heading.of_package,
        mass: None,
        length: heading.length,
        how: How::Stated,
        inches: None,
        axes: heading.axes,
        habit: Decimal::Unclear,
    }
}

fn texts(rows: &[Row], column: u32) -> impl Iterator<Item = &str> {
    rows.iter()
        .filter_map(move |row| match &row.cell(column)?.value {
            Value::Text(text) => Some(&**text),
            _ => None,
        })
}

fn figures(rows: &[Row], column: u32) -> impl Iterator<Item = f64> {
    rows.iter()
        .filter_map(move |row| match &row.cell(column)?.value {
            Value::Number(number) => Some(*number),
            Value::Text(text) => {
                crate::units::written::scan_figure(&fold(text), 0, Decimal::Unclear, true)
                    .map(|(figure, _)| figure.value)
            }
            _ => None,
        })
}

/// Units of size columns that their headings do not state: another size column's, or by what the figures can be.
fn units(all: &mut [Column], rows: &[Row], us: bool) {
    let stated = all
        .iter()
        .filter(|column| column.field.is_size())
        .find_map(|column| column.length);
    let sizes: Vec<usize> = (0..all.len())
        .filter(|index| all[*index].field.is_size() && all[*index].length.is_none())
        .collect();
    let mut largest: f64 = 0.0;
    for index in &sizes {
        let column = &all[*index];
        let bare = texts(rows, column.number)
            .filter(|text| !fold(text).contains(['"', '\'']))
            .count();
        let numbers = rows
            .iter()
            .filter(|row| {
                matches!(
                    row.cell(column.number).map(|cell| &cell.value),
                    Some(Value::Number(_))
                )
            })
            .count();
        if bare + numbers > 0 {
            largest = figures(rows, column.number).fold(largest, f64::max);
        }
    }
    for index in sizes {
        let column = &mut all[index];
        // A unit under another heading of the same table covers thin sizes too, except metres and feet, which do not.
        let neighbour =
            stated.filter(|unit| !matches!(unit, LengthUnit::M | LengthUnit::Ft | LengthUnit::Yd));
        column.length = Some(neighbour.unwrap_or(match (us, largest) {
            (true, _) => LengthUnit::In,
            (false, largest) if largest >= 200.0 => LengthUnit::Mm,
            (false, largest) if largest >= 20.0 => LengthUnit::Cm,
            (false, _) if column.field == Field::Length => LengthUnit::M,
            (false, _) => LengthUnit::Mm,
        }));
        column.how = if own_units::in_every_cell(rows, column.number) {
            How::Inferred
        } else {
            How::Assumed
        };
    }
}

/// Whether a unit word counts packages, pieces or nothing countable.
pub fn counts(text: &str) -> Option<Counts> {
    packages::of_word(text).map(|word| word.counts)
}
