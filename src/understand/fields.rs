//! One row to one item: every cell to its field, with what could not be read said.

use super::columns::{Column, Columns};
use super::heading::Field;
use super::{
    Basis, How, Item, Remark, Size1, Sizes, StatedVolume, StatedWeight, UnusableWeight, WeightKind,
    described, sizes,
};
use crate::place::Place;
use crate::read::{Row, Sheet, Value};
use crate::tables::goods;
use crate::tables::packages::{self, Counts};
use crate::tables::row_words;
use crate::units::written::{
    self, Decimal, Figure, MassText, Of, WrittenCount, WrittenLength, fold, tidy,
};
use crate::units::{LengthUnit, MassUnit, Volume};

/// Reads a row of a table as an item. `us` says what bare figures in descriptions are; `sizes_of_package` that the size
/// columns speak of packages.
pub fn item(sheet: &Sheet, row: &Row, columns: &Columns, us: bool, sizes_of_package: bool) -> Item {
    let mut reader = RowReader {
        sheet,
        row,
        columns,
        us,
        remarks: Vec::new(),
        unusable: Vec::new(),
    };
    let description = reader.text(Field::Description).unwrap_or_default();
    let habit = columns
        .first(Field::Description)
        .map_or(Decimal::Unclear, |column| column.habit);
    // A comma in a description may be a decimal comma only where the file writes figures so.
    let spaced = sizes::apart(&description);
    let found = described::read(&spaced, habit);
    let goods_word = goods::in_description(&description);
    let bare = if us { LengthUnit::In } else { LengthUnit::Mm };
    let described_sizes = sizes::described(&spaced, &found, goods_word, bare);
    let (column_sizes, mut package_sizes, sizes_from) = reader.sizes();
    let packed_as = reader.packed_as(&description);
    let mut own = column_sizes;
    if sizes_of_package {
        package_sizes = package_sizes.or(own);
        own = Sizes::default();
    } else if !own.is_empty() && reader.combined_is_package(&described_sizes, packed_as.is_some()) {
        package_sizes = own;
        own = Sizes::default();
    }
    let quantity = reader.quantity();
    let pieces = quantity.pieces.or(found.pieces);
    let packages = reader.packages().or(quantity.packages);
    let mut weights = reader.weights();
    weights.extend(quantity.weight);
    let volume = reader.volume();
    let tare = reader.tare();
    let mut remarks = std::mem::take(&mut reader.remarks);
    let place = sheet.place(row.number, 0);
    if pieces.is_none() && packages.is_none() {
        remarks.push(Remark {
            code: "quantity-assumed",
            place: place.clone(),
            message:
                "no number of pieces could be read; one piece was taken: count them before lifting"
                    .to_string(),
        });
    }
    Item {
        line_no: reader.text(Field::LineNo),
        item: reader
            .text(Field::Item)
            .or_else(|| reader.text(Field::Mark)),
        material: reader.text(Field::Material),
        order: reader.text(Field::Order),
        supplier: reader.text(Field::Supplier),
        vehicle: reader.text(Field::Vehicle),
        pieces: pieces.or(packages).unwrap_or(1),
        pieces_how: if pieces.is_some() {
            How::Stated
        } else {
            How::Assumed
        },
        unit: reader.text(Field::Unit),
        packages,
        packed_as,
        sizes: own.or(if quantity.length.is_some() {
            Sizes {
                length: quantity.length,
                ..described_sizes
            }
        } else {
            described_sizes
        }),
        package_sizes,
        sizes_from: sizes_from.map(|column| sheet.place(row.number, column)),
        weights,
        volume,
        tare,
        unusable: std::mem::take(&mut reader.unusable),
        shared_with: None,
        entered: entered(&description),
        lift_height: reader.size_in(Field::LiftHeight).map(|size| size.length),
        remarks,
        description,
        place,
    }
}

/// Entry side, where the words say it.
fn entered(description: &str) -> Option<super::Entered> {
    let lower = description.to_lowercase();
    if lower.contains("broadside") {
        Some(super::Entered::Broadside)
    } else if lower.contains("endwise") || lower.contains("end-on") {
        Some(super::Entered::Endwise)
    } else {
        None
    }
}

struct RowReader<'a> {
    sheet: &'a Sheet,
    row: &'a Row,
    columns: &'a Columns,
    us: bool,
    remarks: Vec<Remark>,
    unusable: Vec<UnusableWeight>,
}

#[derive(Default)]
struct Quantity {
    pieces: Option<u32>,
    packages: Option<u32>,
    length: Option<Size1>,
    weight: Option<StatedWeight>,
}

impl<'a> RowReader<'a> {
    fn value(&self, column: u32) -> Option<&'a Value> {
        self.row.cell(column).map(|cell| &cell.value)
    }

    fn place(&self, column: u32) -> Place {
        self.sheet.place(self.row.number, column)
    }

    /// The tidy text of a field's first column, blank when it says nothing.
    fn text(&self, field: Field) -> Option<String> {
        let column = self.columns.first(field)?;
        let text = tidy(&self.value(column.number)?.text());
        (!text.is_empty()).then_some(text)
    }

    fn remark(&mut self, code: &'static str, column: u32, message: String) {
        let place = self.place(column);
        self.remarks.push(Remark {
            code,
            place,
            message,
        });
    }

    fn size_in(&mut self, field: Field) -> Option<Size1> {
        let columns = self.columns;
        let column = columns.first(field)?;
        self.size(column)
    }

    /// A size cell; what is no size is said.
    fn size(&mut self, column: &Column) -> Option<Size1> {
        let unit = self.size_unit().or(column.length);
        match self.value(column.number)? {
            Value::Number(number) if *number > 0.0 => sizes::size(
                WrittenLength {
                    figure: Figure::of_number(*number),
                    unit: None,
                },
                unit,
            ),
            Value::Text(text)
                if row_words::is_not_stated(&fold(text)) || row_words::of_cell(text).is_some() =>
            {
                None
            }
            Value::Text(text) => match written::length(text, column.habit, unit) {
                Some(written) => {
                    if written.figure.unclear {
                        self.unclear(column.number, text);
                    }
                    sizes::size(written, unit)
                }
                None => {
                    let message = format!(
                        "\"{}\" under \"{}\" was not understood as a size; no size was taken from it",
                        tidy(text),
                        column.text
                    );
                    self.remark("size-not-read", column.number, message);
                    None
                }
            },
            Value::Date(date) => {
                self.date_for_figure(column, *date);
                None
            }
            value => {
                let message = format!(
                    "{} under \"{}\" is no size; open the cell in the supplier's file and ask for the figure",
                    value.text(),
                    column.text
                );
                self.remark("size-not-read", column.number, message);
                None
            }
        }
    }

    fn unclear(&mut self, column: u32, text: &str) {
        let message = format!(
            "\"{}\" can be read in two ways (thousands or decimals, feet or a range) and nothing in the column decides; ask the supplier",
            tidy(text)
        );
        self.remark("unclear-figure", column, message);
    }

    fn date_for_figure(&mut self, column: &Column, date: chrono::NaiveDateTime) {
        let message = format!(
            "the cell under \"{}\" is a date ({}); a spreadsheet program probably turned {} into it: ask for the figure, none was taken",
            column.text,
            date.format("%Y-%m-%d"),
            date.format("%-m/%-d"),
        );
        self.remark("date-for-figure", column.number, message);
    }

    fn size_unit(&self) -> Option<LengthUnit> {
        crate::units::spelling::length(&self.text(Field::SizeUnit)?)
    }

    /// Sizes of the piece, sizes of the package, and the column they start in.
    fn sizes(&mut self) -> (Sizes, Sizes, Option<u32>) {
        let (mut piece, mut package) = (Sizes::default(), Sizes::default());
        let mut from = None;
        let columns = self.columns;
        for column in columns
            .all
            .iter()
            .filter(|column| column.field.is_size() && column.field != Field::LiftHeight)
        {
            let target = if column.of_package {
                &mut package
            } else {
                &mut piece
            };
            if column.field == Field::Size {
                if let Some(found) = self.combined(column) {
                    *target = target.or(found);
                    from = from.or(Some(column.number));
                }
                continue;
            }
            let Some(size) = self.size(column) else {
                continue;
            };
            from = from.or(Some(column.number));
            let slot = match column.field {
                Field::Length => &mut target.length,
                Field::Width => &mut target.width,
                Field::Outside => &mut target.outside,
                Field::Inside => &mut target.inside,
                Field::Wall => &mut target.wall,
                _ => &mut target.height,
            };
            slot.get_or_insert(size);
        }
        (piece, package, from)
    }

    /// Several sizes in one cell.
    fn combined(&mut self, column: &Column) -> Option<Sizes> {
        let text = self.value(column.number)?.text();
        if row_words::is_not_stated(&fold(&text)) {
            return None;
        }
        let found = described::read(&text, column.habit);
        let default = self.size_unit().or(column.length);
        let mut free = Vec::new();
        let mut labelled = false;
        for chain in &found.chains {
            let last = chain.parts.iter().rev().find_map(|part| part.written.unit);
            for part in &chain.parts {
                labelled |= part.label.is_some();
                free.extend(sizes::size(part.written, last.or(default)));
            }
        }
        if labelled {
            let found = sizes::described(&text, &found, None, default.unwrap_or(LengthUnit::Mm));
            // A diameter and one more size: a reel's or drum's width.
            let width = found
                .width
                .or(found.wall)
                .or(found.length)
                .filter(|_| found.outside.is_some() && found.inside.is_none());
            return Some(if width.is_some() {
                Sizes {
                    width,
                    wall: None,
                    length: None,
                    ..found
                }
            } else {
                found
            });
        }
        if let [single] = free.as_slice() {
            // One size of long goods is their length ("20 ft").
            return Some(Sizes {
                length: Some(*single),
                ..Sizes::default()
            });
        }
        if free.is_empty() {
            let message = format!(
                "\"{}\" under \"{}\" was not understood as sizes; none were taken from it",
                tidy(&text),
                column.text
            );
            self.remark("size-not-read", column.number, message);
            return None;
        }
        let at = |axis: usize| {
            free.get(column.axes.get(axis).copied().unwrap_or(axis))
                .copied()
        };
        Some(Sizes {
            length: at(0),
            width: at(1),
            height: at(2),
            ..Sizes::default()
        })
    }

    /// One column of overall sizes in a packing list speaks of the package when the goods are packed and the description
    /// has sizes of its own, or when volumes or gross weights stand beside it.
    fn combined_is_package(&self, described: &Sizes, packed: bool) -> bool {
        let combined = self.columns.first(Field::Size).is_some();
        let packing_list = self.columns.first(Field::Volume).is_some()
            || self.columns.first(Field::PackageType).is_some();
        combined && packing_list && (packed || !described.is_empty())
    }

    fn packed_as(&self, description: &str) -> Option<&'static str> {
        let named = |field: Field| {
            let text = self.text(field)?;
            packages::of_text(&text)
                .map(|(_, word)| word)
                .filter(|word| word.counts != Counts::Measure && word.name != "piece")
                .map(|word| word.name)
        };
        named(Field::PackageType)
            .or_else(|| named(Field::Unit))
            .or_else(|| {
                // "crated", "palletised", "in bundles" in the description.
                description
                    .split(|sign: char| !sign.is_alphabetic())
                    .filter(|word| word.len() > 3)
                    .filter_map(packages::of_word)
                    .find(|word| word.counts == Counts::Package)
                    .map(|word| word.name)
            })
    }

    /// A whole number of things in a cell.
    fn count(&self, column: &Column) -> Option<WrittenCount> {
        match self.value(column.number)? {
            Value::Number(number) => {
                let number = *number
                    * f64::from(
                        self.text(Field::Unit)
                            .map_or(1, |unit| written::multiple(&unit)),
                    );
                let whole = number.fract() == 0.0 && (1.0..=10_000_000.0).contains(&number);
                whole.then(|| WrittenCount {
                    number: number as u32,
                    unit: String::new(),
                    each: None,
                    unclear: false,
                })
            }
            Value::Text(text) => {
                let mut count = written::count(text, column.habit)?;
                if count.unit.is_empty() {
                    count.number = count.number.saturating_mul(
                        self.text(Field::Unit)
                            .map_or(1, |unit| written::multiple(&unit)),
                    );
                }
                Some(count)
            }
            _ => None,
        }
    }

    fn packages(&self) -> Option<u32> {
        let counted = self
            .columns
            .first(Field::Packages)
            .and_then(|column| Some(self.count(column)?.number));
        // "2 crates" in the column of the kind counts them too.
        counted.or_else(|| packages::of_text(&self.text(Field::PackageType)?)?.0)
    }

    fn quantity(&mut self) -> Quantity {
        let columns = self.columns;
        let Some(column) = columns.first(Field::Quantity) else {
            return Quantity::default();
        };
        let count = self.count(column);
        let cell_unit = match self.value(column.number) {
            Some(Value::Text(text)) => {
                let text = fold(text);
                text.trim()
                    .trim_start_matches(|sign: char| {
                        sign.is_ascii_digit() || matches!(sign, '.' | ',' | ' ' | '(' | ')' | '\'')
                    })
                    .trim()
                    .to_string()
            }
            _ => String::new(),
        };
        let cell_unit = count.as_ref().map_or(cell_unit, |count| count.unit.clone());
        if count.as_ref().is_some_and(|count| count.unclear) {
            let text = self
                .value(column.number)
                .map(Value::text)
                .unwrap_or_default();
            self.unclear(column.number, &text);
        }
        let unit = if cell_unit.is_empty() {
            self.text(Field::Unit)
        } else {
            Some(cell_unit)
        };
        let word = unit.as_deref().and_then(packages::of_word);
        match word.map(|word| (word.counts, word.name)) {
            Some((Counts::Package, _)) if self.packages().is_none() => {
                let packages = count.as_ref().map(|count| count.number);
                // "20 ctns of 12"
                let pieces = count.and_then(|count| count.number.checked_mul(count.each?));
                Quantity {
                    packages,
                    pieces,
                    ..Quantity::default()
                }
            }
            Some((Counts::Measure, "metre")) => self.running(column, LengthUnit::M),
            Some((Counts::Measure, "foot")) => self.running(column, LengthUnit::Ft),
            Some((Counts::Measure, "weight")) => {
                self.quantity_is_weight(column, unit.unwrap_or_default())
            }
            Some((Counts::Measure, _)) => Quantity::default(),
            _ => {
                let pieces =
                    count.map(|count| count.number.saturating_mul(count.each.unwrap_or(1)));
                if pieces.is_none()
                    && let Some(value) = self.value(column.number)
                    && !row_words::is_not_stated(&fold(&value.text()))
                {
                    let message = format!(
                        "\"{}\" under \"{}\" is no whole number of pieces",
                        tidy(&value.text()),
                        column.text
                    );
                    self.remark("quantity-not-read", column.number, message);
                }
                Quantity {
                    pieces,
                    ..Quantity::default()
                }
            }
        }
    }

    /// A quantity in metres or feet: one length of that much.
    fn running(&self, column: &Column, unit: LengthUnit) -> Quantity {
        let figure = match self.value(column.number) {
            Some(Value::Number(number)) if *number > 0.0 => Some(Figure::of_number(*number)),
            Some(Value::Text(text)) => {
                written::scan_figure(fold(text).trim(), 0, column.habit, true)
                    .map(|(figure, _)| figure)
            }
            _ => None,
        };
        let length = figure.and_then(|figure| {
            sizes::size(
                WrittenLength {
                    figure,
                    unit: Some(unit),
                },
                None,
            )
        });
        Quantity {
            length,
            ..Quantity::default()
        }
    }

    /// A quantity in kilograms, pounds or tons is the declared weight itself.
    fn quantity_is_weight(&mut self, column: &Column, unit: String) -> Quantity {
        let unit =
            crate::units::spelling::mass(&unit).and_then(|spelled| spelled.unit(Some(self.us)));
        let weight = self.weight_cell(column, unit, Some(Basis::Line), WeightKind::Unstated);
        Quantity {
            weight,
            ..Quantity::default()
        }
    }

    fn weights(&mut self) -> Vec<StatedWeight> {
        let columns = self.columns;
        let mut found = Vec::new();
        let row_unit = self
            .text(Field::WeightUnit)
            .and_then(|text| crate::units::spelling::mass(&text)?.unit(Some(self.us)));
        for column in columns.of(Field::Weight) {
            if column.both_kinds {
                found.extend(self.both(column, row_unit.or(column.mass)));
                continue;
            }
            found.extend(self.weight_cell(
                column,
                row_unit.or(column.mass),
                column.basis,
                column.kind,
            ));
        }
        found
    }

    /// Net and gross in one cell (`33 /38 kg`).
    fn both(&mut self, column: &Column, unit: Option<MassUnit>) -> Vec<StatedWeight> {
        let Some(Value::Text(text)) = self.value(column.number) else {
            return self
                .weight_cell(column, unit, column.basis, WeightKind::Unstated)
                .into_iter()
                .collect();
        };
        let folded = fold(text).into_owned();
        let mut found = Vec::new();
        for (part, kind) in folded
            .splitn(2, '/')
            .zip([WeightKind::Net, WeightKind::Gross])
        {
            if let MassText::Figure {
                figure,
                unit: beside,
                ..
            } = written::mass(part, column.habit)
            {
                let unit = beside
                    .and_then(|spelled| spelled.unit(Some(self.us)))
                    .or(unit);
                found.push(StatedWeight {
                    figure: figure.value,
                    unit,
                    basis: column.basis,
                    kind,
                    place: self.place(column.number),
                    text: written_with_unit(text, unit, beside.is_some()),
                });
            }
        }
        if found.is_empty() {
            self.unusable.push(UnusableWeight {
                place: self.place(column.number),
                text: tidy(text),
                why: "is not a weight".to_string(),
                withheld: true,
            });
        }
        found
    }

    /// `@` stands for one package, or for one piece where no packages are counted.
    fn basis(&self, of: Of) -> Basis {
        match of {
            Of::Line => Basis::Line,
            Of::Package if self.packages().is_some() => Basis::Package,
            Of::Package | Of::Piece => Basis::Piece,
        }
    }

    fn weight_cell(
        &mut self,
        column: &Column,
        unit: Option<MassUnit>,
        mut basis: Option<Basis>,
        mut kind: WeightKind,
    ) -> Option<StatedWeight> {
        let place = self.place(column.number);
        let value = self.value(column.number)?;
        let (figure, unit, text) = match value {
            Value::Number(number) if *number > 0.0 => (
                *number,
                unit,
                written_with_unit(&figure_text(*number), unit, false),
            ),
            Value::Number(number) => {
                let why = if *number == 0.0 {
                    "is zero"
                } else {
                    "is negative"
                };
                self.unusable.push(UnusableWeight {
                    place,
                    text: value.text(),
                    why: why.to_string(),
                    withheld: true,
                });
                return None;
            }
            Value::Text(text) => match written::mass(text, column.habit) {
                MassText::Figure {
                    figure,
                    unit: beside,
                    of,
                    gross,
                    ..
                } => {
                    if figure.unclear {
                        self.unclear(column.number, text);
                    }
                    if self.columns.us.is_none()
                        && beside.is_some_and(|spelled| spelled.unit(None).is_none())
                    {
                        let message = format!(
                            "\"{}\" is another weight in the US than elsewhere and nothing in the table tells which is meant; ask the supplier",
                            tidy(text)
                        );
                        self.remark("unclear-figure", column.number, message);
                    }
                    // What the cell says of its own figure beats the heading.
                    basis = of.map(|of| self.basis(of)).or(basis);
                    kind = gross.map_or(kind, |gross| {
                        if gross {
                            WeightKind::Gross
                        } else {
                            WeightKind::Net
                        }
                    });
                    let spelled =
                        beside.map(|spelled| spelled.unit(self.columns.us.or(Some(self.us))));
                    (
                        figure.value,
                        spelled.unwrap_or(unit),
                        written_with_unit(text, unit, beside.is_some()),
                    )
                }
                other => {
                    let why = match other {
                        MassText::NotStated => "states no weight",
                        MassText::Zero => "is zero",
                        MassText::Negative => "is negative",
                        MassText::TwoFigures => "holds two figures",
                        MassText::Error => "is an error",
                        _ => "is not a weight",
                    };
                    self.unusable.push(UnusableWeight {
                        place,
                        text: tidy(text),
                        why: why.to_string(),
                        withheld: true,
                    });
                    return None;
                }
            },
            Value::Date(date) => {
                self.date_for_figure(column, *date);
                self.unusable.push(UnusableWeight {
                    place,
                    text: value.text(),
                    why: "is a date".to_string(),
                    withheld: true,
                });
                return None;
            }
            Value::Formula(formula) => {
                let message = format!(
                    "the formula ={formula} under \"{}\" has no stored result; open and save the file in a spreadsheet program, or ask for the figure",
                    column.text
                );
                self.remark("formula-without-result", column.number, message);
                self.unusable.push(UnusableWeight {
                    place,
                    text: value.text(),
                    why: "is a formula without a stored result".to_string(),
                    withheld: false,
                });
                return None;
            }
            Value::Error(error) => {
                self.unusable.push(UnusableWeight {
                    place,
                    text: error.to_string(),
                    why: "is an error".to_string(),
                    withheld: true,
                });
                return None;
            }
            Value::Bool(_) => {
                self.unusable.push(UnusableWeight {
                    place,
                    text: value.text(),
                    why: "is not a weight".to_string(),
                    withheld: true,
                });
                return None;
            }
        };
        Some(StatedWeight {
            figure,
            unit,
            basis,
            kind,
            place,
            text,
        })
    }

    /// Cubic metres, or cubic feet where the heading says so.
    fn volume(&self) -> Option<StatedVolume> {
        let column = self.columns.first(Field::Volume)?;
        let figure = match self.value(column.number)? {
            Value::Number(number) => *number,
            Value::Text(text) => {
                written::scan_figure(fold(text).trim(), 0, column.habit, true)?
                    .0
                    .value
            }
            _ => return None,
        };
        let heading = column.text.to_lowercase();
        let foot = ["cuft", "cu ft", "cft", "ft3", "cu. ft"]
            .iter()
            .any(|unit| heading.contains(unit));
        let cubic = if foot { 0.3048f64.powi(3) } else { 1.0 };
        (figure > 0.0).then(|| StatedVolume {
            volume: Volume::from_m3(figure * cubic),
            place: self.place(column.number),
        })
    }

    fn tare(&mut self) -> Option<crate::units::Mass> {
        let columns = self.columns;
        let column = columns.first(Field::Tare)?;
        let stated = self.weight_cell(column, column.mass, None, WeightKind::Unstated);
        // A blank tare is no missing weight.
        self.unusable
            .retain(|unusable| unusable.place.column != column.number);
        let stated = stated?;
        Some(stated.unit?.mass(stated.figure))
    }
}

/// A number as a person would write it: thousands apart, no floating dust.
fn figure_text(number: f64) -> String {
    let rounded = (number * 1e6).round() / 1e6;
    let text = format!("{rounded}");
    let (whole, after) = text
        .split_once('.')
        .map_or((text.as_str(), None), |(whole, after)| (whole, Some(after)));
    let mut grouped = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index) % 3 == 0 {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    match after {
        Some(after) => format!("{grouped}.{after}"),
        None => grouped,
    }
}

/// The cell's text, with the heading's unit behind it where the cell has none.
fn written_with_unit(text: &str, unit: Option<MassUnit>, has_unit: bool) -> String {
    let text = tidy(text);
    match unit {
        Some(unit) if !has_unit => format!("{text} {}", unit.symbol()),
        _ => text,
    }
}

#[cfg(test)]
mod tests;
