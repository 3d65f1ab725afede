//! Weights that stand for several lines: package rows, merged cells, the first line of a carton.

use super::{Reader, first_text};
use crate::read::Row;
use crate::tables::packages;
use crate::understand::columns::Columns;
use crate::understand::heading::Field;
use crate::understand::{Basis, Item, SharedWeight, fields};

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
        self.reading.shared.push(SharedWeight {
            name,
            place: item.place,
            rows: Vec::new(),
            weights: item.weights,
            unusable: item.unusable,
            sizes: item.package_sizes.or(item.sizes),
            tare: item.tare,
            packed_as: packed_as.or(item.packed_as),
        });
        self.pending = Some(self.reading.shared.len() - 1);
    }

    /// Adds an item, to the package above it where it has no weight of its own.
    pub(super) fn join(&mut self, mut item: Item, row: &Row, columns: &Columns) {
        let weighed = item
            .weights
            .iter()
            .any(|weight| !matches!(weight.basis, Some(Basis::PerMetre | Basis::PerFoot)));
        if let Some(index) = self.pending {
            if weighed {
                self.pending = None;
            } else if let Some(shared) = self.reading.shared.get_mut(index) {
                shared.rows.push(row.number);
                item.shared_with = Some(index);
                self.reading.items.push(item);
                return;
            }
        }
        let id = columns.first(Field::PackageId);
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
