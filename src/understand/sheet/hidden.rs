//! What a file hides, and sheets without a table: said, never read as goods.

use super::Reader;
use crate::place::column_letters;
use crate::understand::Why;

impl Reader<'_> {
    pub(super) fn hidden_sheet(&mut self) {
        for row in &self.sheet.rows {
            self.skip(row, Why::HiddenSheet);
        }
        if !self.sheet.rows.is_empty() {
            let message = format!(
                "sheet \"{}\" is hidden and was not read ({} rows); open it and ask the supplier whether it belongs to the delivery",
                self.sheet.name,
                self.sheet.rows.len()
            );
            self.remark("hidden-sheet", message);
        }
    }

    /// Hidden columns are read like any other, and said.
    pub(super) fn hidden_columns(&mut self) {
        let hidden: Vec<String> = self
            .reading
            .columns
            .iter()
            .filter(|column| self.sheet.hidden_columns.contains(&column.column))
            .map(|column| {
                format!(
                    "{} \"{}\" ({})",
                    column_letters(column.column),
                    column.heading,
                    column.field
                )
            })
            .collect();
        if !hidden.is_empty() {
            let message = format!(
                "hidden columns: {}; show them and ask the supplier whether they count",
                hidden.join(", ")
            );
            self.remark("hidden-column", message);
        }
    }

    pub(super) fn without_table(&mut self) {
        let rows = &self.sheet.rows;
        for row in rows {
            self.skip(row, Why::Title);
        }
        if !rows.is_empty() {
            let message = format!(
                "no table was recognised{}: no row has headings for goods, quantity and weight or size; look at the file, name its columns in a heading row",
                if self.sheet.name.is_empty() {
                    String::new()
                } else {
                    format!(" in sheet \"{}\"", self.sheet.name)
                }
            );
            self.remark("no-table", message);
        }
    }
}
