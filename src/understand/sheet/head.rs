//! What the sheet says of the delivery as a whole: the rows above its table, its layout, a column of delivery numbers.

use super::{Reader, first_text};
use crate::understand::columns::Columns;
use crate::understand::heading::Field;
use crate::understand::layout::Table;
use crate::understand::title::{self, Title};
use crate::understand::{Why, supplier_layout};
use crate::units::written::tidy;

impl Reader<'_> {
    /// The rows above the first table, and what they say about the delivery.
    pub(super) fn title(&mut self, tables: &[Table]) {
        let start = tables.first().map_or(0, |table| table.heading);
        let above = &self.sheet.rows[..start];
        let mut cells = Vec::new();
        for (index, row) in above.iter().enumerate() {
            let directive =
                first_text(row).is_some_and(|text| text.to_lowercase().starts_with("sep="));
            // A word alone between a blank row and the headings names the section, not the delivery.
            let section = index > 0
                && index + 1 == start
                && row.cells.len() == 1
                && above[index - 1].number + 1 < row.number;
            let why = match (directive, section) {
                (true, _) => Why::Directive,
                (_, true) => Why::Section,
                _ => Why::Title,
            };
            self.skip(row, why);
            if why == Why::Title {
                cells.push(
                    row.cells
                        .iter()
                        .map(|cell| (cell.column, cell.value.text()))
                        .collect(),
                );
            }
        }
        let found = title::read(&cells);
        self.name(found);
    }

    fn name(&mut self, found: Title) {
        let stem = self
            .sheet
            .file
            .rsplit_once('.')
            .map_or(&*self.sheet.file, |(stem, _)| stem);
        let reading = &mut self.reading;
        (reading.supplier, reading.supplier_from) = match (&self.known.supplier, found.supplier) {
            (Some(supplier), _) => (Some(supplier.clone()), "option"),
            (None, Some(supplier)) => (Some(supplier), "cell"),
            (None, None) => match title::supplier_in_file_name(stem) {
                Some(supplier) => (Some(supplier), "file name"),
                None => (None, "unknown"),
            },
        };
        reading.delivery = self
            .known
            .delivery
            .clone()
            .or(found.delivery)
            .unwrap_or_else(|| stem.to_string());
        reading.order = found.order;
        reading.vehicle = found.vehicle;
        reading.received = found.date;
    }

    /// The layout of the supplier that the list names, or whose headings it has.
    pub(super) fn choose_layout(&mut self, tables: &[Table]) {
        let known = self.known;
        let supplier = self.reading.supplier.as_deref();
        let (chosen, remark) = supplier_layout::choose(&known.layouts, supplier, tables);
        if let Some((code, message)) = remark {
            self.remark(code, message);
        }
        if let Some(chosen) = chosen {
            self.reading.supplier = Some(chosen.name.to_string());
            if chosen.by_headings {
                self.reading.supplier_from = "layout";
            }
        }
        self.layout = chosen;
    }

    /// The one supplier that every line names, where nothing better than the file's name says who sent the list.
    pub(super) fn supplier_of_lines(&mut self, first_item: usize) {
        let reading = &mut self.reading;
        if !matches!(reading.supplier_from, "unknown" | "file name") {
            return;
        }
        let mut names = reading.items[first_item..]
            .iter()
            .map(|item| item.supplier.as_deref());
        if let Some(Some(only)) = names.next()
            && names.all(|name| name == Some(only))
        {
            reading.supplier = Some(only.to_string());
            reading.supplier_from = "cell";
        }
    }

    /// What a column of delivery numbers says: the delivery's own number, or that the list holds several.
    pub(super) fn numbered_deliveries(&mut self, first_item: usize, columns: &Columns) {
        let Some(column) = columns.first(Field::Delivery) else {
            return;
        };
        let mut numbers: Vec<String> = self.reading.items[first_item..]
            .iter()
            .filter_map(|item| {
                let cell = self.sheet.row(item.place.row)?.cell(column.number)?;
                Some(tidy(&cell.value.text()))
            })
            .filter(|number| !number.is_empty())
            .collect();
        numbers.dedup();
        match numbers.as_slice() {
            [] => {}
            [only] if self.known.delivery.is_none() => self.reading.delivery.clone_from(only),
            [_] => {}
            [first, .., last] => {
                let message = format!(
                    "the list holds several deliveries ({first} to {last}); they were read as one: what is said of sums and of the whole delivery is said of all of them"
                );
                self.remark("several-deliveries", message);
            }
        }
    }
}
