//! One row to one item: every cell to its field, with what could not be read said.

mod quantity;
mod size_cells;
pub(super) mod spoken;
mod weights;

use super::columns::{Column, Columns};
use super::heading::Field;
use super::{How, Item, Remark, Sizes, UnusableWeight, described, sizes};
use crate::place::Place;
use crate::read::{Row, Sheet, Value};
use crate::tables::goods;
use crate::tables::packages::{self, Counts};
use crate::tables::row_words::{self, RowWord};
use crate::units::LengthUnit;
use crate::units::written::{self, Decimal, WrittenCount, tidy};

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
    let described_sizes = sizes::section_of(column_sizes.length, described_sizes);
    let unpacked = reader.packed_as(&description);
    // "Pallet 4: 36 pails": the pallet is lifted, however many packages stand on it.
    let handling_unit = reader
        .handling_unit()
        .filter(|unit| Some(*unit) != unpacked);
    let stands_on = reader.stands_on();
    let packed_as = handling_unit.or(unpacked);
    let mut own = column_sizes;
    if sizes_of_package {
        package_sizes = package_sizes.or(own);
        own = Sizes::default();
    } else if !own.is_empty() && reader.combined_is_package(&described_sizes, packed_as.is_some()) {
        package_sizes = own;
        own = Sizes::default();
    }
    let quantity = reader.quantity();
    let mut pieces = quantity.pieces.or(found.pieces);
    let mut packages = reader.packages().or(quantity.packages);
    if let Some(each) = found.in_each_pack {
        // A quantity beside "pack of 208" counts packs, unless it is that very number.
        let packs = quantity
            .pieces
            .filter(|pieces| *pieces != each)
            .or(packages);
        pieces = Some(packs.unwrap_or(1).saturating_mul(each));
    }
    if handling_unit.is_some() {
        pieces = pieces.or(packages.take());
        packages = None;
    }
    let mut weights = reader.weights();
    weights.extend(quantity.weight);
    let volume = reader.volume();
    let tare = reader.tare();
    let mut remarks = std::mem::take(&mut reader.remarks);
    let place = sheet.place(row.number, 0);
    if pieces.is_none() && packages.is_none() {
        let message = match quantity.amount {
            Some(_) => {
                "the quantity is a volume; how many pieces it comes in is not stated: count them before lifting"
            }
            None => {
                "no number of pieces could be read; one piece was taken: count them before lifting"
            }
        };
        remarks.push(Remark {
            code: "quantity-assumed",
            place: place.clone(),
            message: message.to_string(),
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
        stands_on,
        sizes: own.or(if quantity.length.is_some() {
            Sizes {
                length: quantity.length,
                ..described_sizes
            }
        } else {
            described_sizes
        }),
        further_sizes: sizes::further(&found, bare),
        package_sizes,
        sizes_from: sizes_from.map(|column| sheet.place(row.number, column)),
        weights,
        volume,
        amount: quantity.amount,
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

/// The package that the words of a heading name ("Pallet No.", "No. of drums").
fn packages_in(heading: &str) -> Option<&'static packages::PackageWord> {
    heading
        .split(|sign: char| !sign.is_alphabetic())
        .filter(|word| word.len() > 2)
        .filter_map(packages::of_word)
        .find(|word| word.counts != Counts::Measure && word.name != "piece" && word.name != "pack")
}

/// A ditto mark is followed upwards at most so many rows.
const FURTHEST_DITTO: usize = 200;

fn is_ditto(value: &Value) -> bool {
    matches!(value, Value::Text(text) if row_words::of_cell(text) == Some(RowWord::Ditto))
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

impl<'a> RowReader<'a> {
    /// The value of a cell; a ditto mark repeats the cell above it.
    fn value(&self, column: u32) -> Option<&'a Value> {
        let value = &self.row.cell(column)?.value;
        if !is_ditto(value) {
            return Some(value);
        }
        let above = self
            .sheet
            .rows
            .partition_point(|row| row.number < self.row.number);
        let rows = self
            .sheet
            .rows
            .get(..above)?
            .iter()
            .rev()
            .take(FURTHEST_DITTO);
        rows.filter_map(|row| row.cell(column))
            .map(|cell| &cell.value)
            .find(|value| !is_ditto(value))
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
                let heading = &self.columns.first(Field::Packages)?.text;
                packages_in(heading).map(|word| word.name)
            })
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

    /// The pallet, crate or bundle that a numbered column says the row stands on.
    fn handling_unit(&self) -> Option<&'static str> {
        let column = self.columns.first(Field::PackageId)?;
        self.value(column.number)?;
        let word = packages_in(&column.text)?;
        matches!(
            word.name,
            "pallet" | "crate" | "bundle" | "stack" | "stillage" | "rack"
        )
        .then_some(word.name)
    }

    /// The number of that pallet, crate or bundle.
    fn stands_on(&self) -> Option<String> {
        self.handling_unit()?;
        self.text(Field::PackageId)
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
}

#[cfg(test)]
mod tests;
