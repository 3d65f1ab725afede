//! What each column of a table is: headings, units and what the cells hold, never the position alone.

mod own_units;

use super::heading::Field;
use super::layout::{HeadedColumn, Table};
use super::{Basis, ColumnReading, How, Known, WeightKind, supplier_layout};
use crate::read::{Row, Sheet, Value};
use crate::site::SupplierLayout;
use crate::tables::packages::{self, Counts};
use crate::units::spelling::{self, MassSpelling};
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
}

impl Columns {
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
    one_each(&mut all, table);
    describe(&mut all, rows);
    by_layout(&mut all);
    let file = match Decimal::of(
        all.iter()
            .filter(|column| column.field.is_figure())
            .flat_map(|column| texts(rows, column.number)),
    ) {
        Decimal::Unclear if known.semicolons => Decimal::Comma,
        file => file,
    };
    for column in &mut all {
        column.habit = match Decimal::of(texts(rows, column.number)) {
            Decimal::Unclear => file,
            habit => habit,
        };
    }
    let us = country(&all, table, rows);
    for (column, headed) in all.iter_mut().zip(&table.columns) {
        column.mass = headed.heading.mass.and_then(|spelled| spelled.unit(us));
    }
    if let Some(layout) = layout {
        supplier_layout::units(&mut all, table, layout);
    }
    units(&mut all, rows, us.unwrap_or(known.us));
    Columns { all, us }
}

fn column(headed: &HeadedColumn) -> Column {
    let heading = &headed.heading;
    let field = heading
        .field
        .filter(|_| heading.known >= 0.34)
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

/// Corrects headings that mean different things by what the cells hold.
fn by_content(all: &mut [Column], rows: &[Row]) {
    let has = |all: &[Column], field: Field| all.iter().any(|column| column.field == field);
    for index in 0..all.len() {
        let number = all[index].number;
        match all[index].field {
            Field::PackageType | Field::Unit => {
                let (mut packs, mut masses, mut lengths, mut all_texts) = (0, 0, 0, 0);
                for text in texts(rows, number) {
                    all_texts += 1;
                    packs += usize::from(packages::of_text(text).is_some());
                    masses +=
                        usize::from(matches!(spelling::mass(text), Some(MassSpelling::Known(_))));
                    lengths += usize::from(
                        spelling::length(text)
                            .is_some_and(|unit| unit != LengthUnit::M && unit != LengthUnit::Ft),
                    );
                }
                let follows = |field: fn(Field) -> bool| index > 0 && field(all[index - 1].field);
                if masses * 2 > all_texts && follows(|field| field == Field::Weight) {
                    all[index].field = Field::WeightUnit;
                } else if lengths * 2 > all_texts && follows(Field::is_size) {
                    all[index].field = Field::SizeUnit;
                } else if packs * 2 < all_texts || all_texts == 0 {
                    all[index].field = Field::NotUsed;
                }
            }
            // "WT" beside an outside diameter, holding small figures, is the wall thickness of a pipe list.
            Field::Weight
                if all[index].text.eq_ignore_ascii_case("wt")
                    || all[index].text.eq_ignore_ascii_case("w.t.") =>
            {
                let small = figures(rows, number).all(|figure| figure < 60.0);
                if has(all, Field::Outside) && !has(all, Field::Wall) && small {
                    all[index].field = Field::Wall;
                    all[index].how = How::Inferred;
                }
            }
            // A thickness beside an outside diameter is the wall.
            Field::Thickness
                if has(all, Field::Outside)
                    && !has(all, Field::Wall)
                    && !has(all, Field::Width) =>
            {
                all[index].field = Field::Wall;
                all[index].how = How::Inferred;
            }
            Field::Size if mostly_volume(rows, number) => all[index].field = Field::Volume,
            _ => {}
        }
    }
}

/// "Measurement" with plain small decimals is a volume, not sizes.
fn mostly_volume(rows: &[Row], column: u32) -> bool {
    let (mut plain, mut joined) = (0, 0);
    for row in rows {
        match row.cell(column).map(|cell| &cell.value) {
            Some(Value::Number(_)) => plain += 1,
            Some(Value::Text(text)) if text.contains(['x', 'X', '×', '*', '/', 'х']) => {
                joined += 1
            }
            _ => {}
        }
    }
    plain > joined
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

/// Where several columns claim one field, one of them keeps it.
fn one_each(all: &mut [Column], table: &Table) {
    let preferred = |number: u32| {
        table
            .columns
            .iter()
            .any(|headed| headed.number == number && headed.heading.preferred)
    };
    // Handling units and packages under twin headings: the packages are the pieces.
    let packages: Vec<usize> = (0..all.len())
        .filter(|index| all[*index].field == Field::Packages)
        .collect();
    if let [_, second, ..] = packages.as_slice()
        && !all.iter().any(|column| column.field == Field::Quantity)
    {
        all[*second].field = Field::Quantity;
        let types: Vec<usize> = (0..all.len())
            .filter(|index| all[*index].field == Field::PackageType)
            .collect();
        if let [_, unit, ..] = types.as_slice()
            && !all.iter().any(|column| column.field == Field::Unit)
        {
            all[*unit].field = Field::Unit;
        }
    }
    for field in [
        Field::Quantity,
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
        Field::Material,
        Field::Description,
        Field::Item,
        Field::Tare,
        Field::WeightUnit,
        Field::SizeUnit,
    ] {
        let mut claims: Vec<usize> = (0..all.len())
            .filter(|index| all[*index].field == field)
            .collect();
        if claims.len() < 2 {
            continue;
        }
        let keep = claims
            .iter()
            .position(|index| all[*index].how == How::Site)
            .or_else(|| {
                claims
                    .iter()
                    .position(|index| preferred(all[*index].number))
            })
            .unwrap_or(0);
        claims.remove(keep);
        for index in claims {
            // A second text column still describes the goods.
            all[index].field = if matches!(field, Field::Description) {
                Field::Material
            } else {
                Field::NotUsed
            };
        }
    }
    let materials: Vec<usize> = (0..all.len())
        .filter(|index| all[*index].field == Field::Material)
        .collect();
    for index in materials.into_iter().skip(1) {
        all[index].field = Field::NotUsed;
    }
}

/// Without a description column, the column that holds the most words describes the goods.
fn describe(all: &mut [Column], rows: &[Row]) {
    if all.iter().any(|column| column.field == Field::Description) {
        return;
    }
    let wordy = |column: &Column| {
        texts(rows, column.number)
            .filter(|text| text.chars().filter(|sign| sign.is_alphabetic()).count() >= 2)
            .count()
    };
    let best = (0..all.len())
        .filter(|index| {
            matches!(
                all[*index].field,
                Field::Item | Field::Mark | Field::Size | Field::Material | Field::NotUsed
            )
        })
        .max_by_key(|index| (wordy(&all[*index]), std::cmp::Reverse(*index)));
    if let Some(best) = best.filter(|best| wordy(&all[*best]) > 0) {
        all[best].field = Field::Description;
        all[best].how = How::Inferred;
    }
}

/// Whether the table's signs are US, metric, or both or none.
fn country(all: &[Column], table: &Table, rows: &[Row]) -> Option<bool> {
    let (mut us, mut metric) = (0usize, 0usize);
    for (column, headed) in all.iter().zip(&table.columns) {
        match headed.heading.mass {
            Some(MassSpelling::Known(MassUnit::Lb | MassUnit::ShortTon | MassUnit::Oz)) => us += 1,
            Some(MassSpelling::Known(_)) => metric += 1,
            _ => {}
        }
        match headed.heading.length {
            Some(unit) if unit.is_us() => us += 1,
            Some(_) => metric += 1,
            None => {}
        }
        if column.field.is_size() || column.field == Field::Description {
            let marked = texts(rows, column.number)
                .take(50)
                .filter(|text| {
                    fold(text).contains(['"', '\''])
                        && text.contains(|sign: char| sign.is_ascii_digit())
                })
                .count();
            us += usize::from(marked > 0);
        }
    }
    match (us, metric) {
        (0, 0) => None,
        (us, metric) if us > 2 * metric => Some(true),
        (us, metric) if metric > 2 * us => Some(false),
        _ => None,
    }
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

impl Field {
    /// A size column.
    pub fn is_size(self) -> bool {
        matches!(
            self,
            Field::Length
                | Field::Width
                | Field::Height
                | Field::Thickness
                | Field::Outside
                | Field::Inside
                | Field::Wall
                | Field::Size
                | Field::LiftHeight
        )
    }

    /// A column of figures.
    pub fn is_figure(self) -> bool {
        self.is_size()
            || matches!(
                self,
                Field::Weight | Field::Quantity | Field::Volume | Field::Tare | Field::Packages
            )
    }

    /// Its name in plain words.
    pub fn name(self) -> &'static str {
        match self {
            Field::LineNo => "line number",
            Field::Item => "item number",
            Field::Mark => "piece mark",
            Field::Description => "description",
            Field::Material => "material or grade",
            Field::Quantity => "number of pieces",
            Field::QuantityPerPackage => "pieces in one package",
            Field::Unit => "unit of the quantity",
            Field::Packages => "number of packages",
            Field::PackageType => "kind of package",
            Field::PackageId => "package number",
            Field::Length => "length",
            Field::Width => "width",
            Field::Height => "height",
            Field::Thickness => "thickness",
            Field::Outside => "outside diameter",
            Field::Inside => "inside diameter",
            Field::Wall => "wall thickness",
            Field::Size => "sizes",
            Field::Volume => "volume",
            Field::Weight => "declared weight",
            Field::Tare => "tare",
            Field::WeightUnit => "unit of the weights",
            Field::SizeUnit => "unit of the sizes",
            Field::Order => "purchase order",
            Field::Supplier => "supplier",
            Field::Vehicle => "vehicle or container",
            Field::Remarks => "remarks",
            Field::LiftHeight => "lift height",
            Field::NotUsed => "not used",
        }
    }
}
