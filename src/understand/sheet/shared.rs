//! Weights that stand for several lines: package rows, merged cells, the first line of a carton.

use super::{Reader, first_text, row_text};
use crate::read::Row;
use crate::tables::packages::{self, Counts};
use crate::understand::columns::Columns;
use crate::understand::fields::{self, spoken::in_sentence};
use crate::understand::heading::Field;
use crate::understand::{Basis, Item, Remark, SharedWeight, Sizes, StatedWeight, Why};

impl Reader<'_> {
    /// A row that is a package of its own: its lines follow.
    pub(super) fn package_row(&mut self, row: &Row, columns: &Columns) {
        let us = columns.bare_us(self.known);
        let item = fields::item(self.sheet, row, columns, us, true);
        let name = first_text(row).unwrap_or_default();
        let packed_as = name
            .split([' ', '-', '.'])
            .next()
            .and_then(packages::of_word)
            .map(|word| word.name);
        let mut weights = item.weights;
        // "Pallet 1 - 850 kg gross" where the columns of weights are blank.
        if weights.is_empty()
            && item.unusable.is_empty()
            && let Some((figure, unit, kind)) = in_sentence(&name, us)
        {
            weights.push(StatedWeight {
                figure: figure.value,
                unit: Some(unit),
                basis: Some(Basis::Line),
                kind,
                place: item.place.clone(),
                text: name.clone(),
            });
        }
        self.reading.shared.push(SharedWeight {
            name,
            place: item.place,
            rows: Vec::new(),
            weights,
            unusable: item.unusable,
            sizes: item.package_sizes.or(item.sizes),
            tare: item.tare,
            packed_as: packed_as.or(item.packed_as),
        });
        self.pending = Some(self.reading.shared.len() - 1);
    }

    /// A weight that a row of words states: a package's, whose lines follow; that of all lines, where none has one; else it
    /// is said. Returns whether the row became a package's.
    pub(super) fn spoken_weight(
        &mut self,
        row: &Row,
        columns: &Columns,
        why: Why,
        first_item: usize,
    ) -> bool {
        let text = row_text(row);
        let Some((figure, unit, kind)) = in_sentence(&text, columns.bare_us(self.known)) else {
            return false;
        };
        let place = self
            .sheet
            .place(row.number, row.cells.first().map_or(0, |cell| cell.column));
        let packed_as = text
            .split(|sign: char| !sign.is_alphabetic())
            .filter_map(packages::of_word)
            .find(|word| word.counts == Counts::Package)
            .map(|word| word.name);
        let shared = SharedWeight {
            name: text.clone(),
            place: place.clone(),
            rows: Vec::new(),
            weights: vec![StatedWeight {
                figure: figure.value,
                unit: Some(unit),
                basis: Some(Basis::Line),
                kind,
                place: place.clone(),
                text: text.clone(),
            }],
            unusable: Vec::new(),
            sizes: Sizes::default(),
            tare: None,
            packed_as,
        };
        let first_is_package = text
            .split([' ', '-', '.', ':'])
            .next()
            .and_then(packages::of_word)
            .is_some_and(|word| word.counts == Counts::Package);
        let index = self.reading.shared.len();
        if why == Why::Section && first_is_package {
            self.reading.shared.push(shared);
            self.pending = Some(index);
            return true;
        }
        let items = &mut self.reading.items[first_item..];
        let unweighed = |item: &Item| {
            item.weights.is_empty() && item.unusable.is_empty() && item.shared_with.is_none()
        };
        if why == Why::Note
            && packed_as.is_some()
            && !items.is_empty()
            && items.iter().all(unweighed)
        {
            let rows = items.iter().map(|item| item.place.row).collect();
            items
                .iter_mut()
                .for_each(|item| item.shared_with = Some(index));
            self.reading.shared.push(SharedWeight { rows, ..shared });
            return true;
        }
        let sums_the_lines = columns.of(Field::Weight).any(|column| {
            let weights = items.iter().flat_map(|item| &item.weights);
            let sum: f64 = weights
                .filter(|weight| weight.place.column == column.number)
                .map(|weight| weight.figure)
                .sum();
            (sum - figure.value).abs() <= figure.half_digit
        });
        if !sums_the_lines {
            self.reading.remarks.push(Remark {
                code: "weight-in-words",
                place,
                message: format!(
                    "row {} (\"{text}\") states a weight that was given to no line; see which goods it is the weight of",
                    row.number
                ),
            });
        }
        false
    }

    /// Adds an item, to the package above it where it has no weight of its own.
    pub(super) fn join(&mut self, mut item: Item, row: &Row, columns: &Columns) {
        let weighed = item
            .weights
            .iter()
            .any(|weight| !matches!(weight.basis, Some(Basis::PerMetre | Basis::PerFoot)));
        if let Some(index) = self.pending {
            if weighed {
                // Lines with weights of their own right below "Pallet 1" stand on it all the same.
                match self
                    .reading
                    .shared
                    .get(index)
                    .filter(|shared| shared.rows.is_empty())
                {
                    Some(shared) => item.stands_on = Some(shared.name.clone()),
                    None => self.pending = None,
                }
            } else if let Some(shared) = self.reading.shared.get_mut(index) {
                shared.rows.push(row.number);
                item.shared_with = Some(index);
                self.reading.items.push(item);
                return;
            }
        }
        let id = columns.first(Field::PackageId);
        // Below the number of a pallet blank cells mean the same pallet.
        if let Some(last) = self.reading.items.last()
            && let Some(id) = id
            && row.cell(id.number).is_none()
            && last.place.row + 1 == row.number
        {
            item.stands_on.clone_from(&last.stands_on);
        }
        let named = |number: u32| {
            id.zip(self.sheet.row(number))
                .is_some_and(|(id, row)| row.cell(id.number).is_some())
        };
        let merged_weight = columns
            .of(Field::Weight)
            .any(|column| self.block(row.number, column.number).is_some());
        if let (Some(id), false, true) = (id, weighed, item.unusable.is_empty())
            && !merged_weight
            && row.cell(id.number).is_none()
            && self
                .reading
                .items
                .last()
                .is_some_and(|last| named(last.place.row) || last.shared_with.is_some())
        {
            self.share_with_last(item);
            return;
        }
        self.reading.items.push(item);
    }

    /// The package of the last item holds this one too: its weight stands for both.
    fn share_with_last(&mut self, mut item: Item) {
        let index = match self.reading.items.last().and_then(|last| last.shared_with) {
            Some(index) => index,
            None => {
                let Some(last) = self.reading.items.last_mut() else {
                    return;
                };
                let index = self.reading.shared.len();
                let shared = shared_from(last, format!("P{}", index + 1));
                last.shared_with = Some(index);
                self.reading.shared.push(shared);
                index
            }
        };
        if let Some(shared) = self.reading.shared.get_mut(index) {
            shared.rows.push(item.place.row);
        }
        item.shared_with = Some(index);
        self.reading.items.push(item);
    }

    /// The merged block of several rows that a cell belongs to.
    fn block(&self, row: u32, column: u32) -> Option<(u32, u32)> {
        let blocks = self.blocks.get(&column)?;
        let at = blocks.partition_point(|(top, _)| *top <= row);
        let (top, bottom) = *blocks.get(at.checked_sub(1)?)?;
        (row <= bottom).then_some((top, bottom))
    }

    /// Weights merged over several rows stand for those lines together; where the sizes are the packages', a weight of one
    /// row is its package's too.
    pub(super) fn merged_weights(
        &mut self,
        first_item: usize,
        columns: &Columns,
        of_packages: bool,
    ) {
        let weights: Vec<u32> = columns
            .of(Field::Weight)
            .map(|column| column.number)
            .collect();
        let block =
            |reader: &Self, row: u32| weights.iter().find_map(|column| reader.block(row, *column));
        let rows: Vec<u32> = self.reading.items[first_item..]
            .iter()
            .map(|item| item.place.row)
            .collect();
        if !rows.iter().any(|row| block(self, *row).is_some()) {
            return;
        }
        let id = columns.first(Field::PackageId).map(|column| column.number);
        let mut open: Option<(u32, usize)> = None;
        for (offset, row) in rows.iter().enumerate() {
            let index = first_item + offset;
            if self.reading.items[index].shared_with.is_some() {
                continue;
            }
            if let Some((bottom, shared)) = open.filter(|(bottom, _)| row <= bottom) {
                self.reading.items[index].shared_with = Some(shared);
                self.reading.shared[shared].rows.push(*row);
                open = Some((bottom, shared));
                continue;
            }
            let bottom = match block(self, *row) {
                Some((_, bottom)) => bottom,
                None if of_packages
                    && id
                        .zip(self.sheet.row(*row))
                        .is_some_and(|(id, row)| row.cell(id).is_some()) =>
                {
                    *row
                }
                None => continue,
            };
            let number = self.reading.shared.len();
            let shared = shared_from(&mut self.reading.items[index], format!("P{}", number + 1));
            self.reading.shared.push(shared);
            self.reading.items[index].shared_with = Some(number);
            open = Some((bottom, number));
        }
    }
}

/// Takes an item's weights as those of a package that holds it and perhaps others.
fn shared_from(item: &mut Item, name: String) -> SharedWeight {
    SharedWeight {
        name,
        place: item.place.clone(),
        rows: vec![item.place.row],
        weights: std::mem::take(&mut item.weights),
        unusable: std::mem::take(&mut item.unusable),
        sizes: item.package_sizes,
        tare: item.tare.take(),
        packed_as: item.packed_as,
    }
}
