//! Questions: a text for each supplier who is asked something, paragraph below paragraph, to be copied into a mail as it stands.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::table::column;
use crate::audit::Audit;
use crate::report::loads::View;
use crate::report::questions::letters;
use crate::report::words;
use rust_xlsxwriter::XlsxError;

/// Name of the sheet.
pub const SHEET: &str = "Questions";

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit, views: &[View<'_>]) -> Result<(), XlsxError> {
    let columns = vec![
        column("Delivery", 14.0),
        column("Supplier", 28.0),
        column("Urgency", 9.0),
        column(
            "Text to send: copy the cells below a supplier's name",
            110.0,
        ),
    ];
    let mut table = book.table(SHEET, columns, Paper::Small, Keep::Rows)?;
    let letters = letters(views);
    for letter in &letters {
        let to = letter.to();
        for (number, paragraph) in letter.paragraphs(audit).into_iter().enumerate() {
            let only = match letter.parts.as_slice() {
                [part] => part.delivery(),
                _ => "all",
            };
            let delivery = paragraph.delivery.unwrap_or(only);
            let urgency = paragraph.urgency.map_or("", words::severity);
            let first = number == 0;
            let text = |text: String| {
                if first {
                    Cell::Strong(text.into())
                } else {
                    Cell::text(text)
                }
            };
            table.row(&[
                text(delivery.to_string()),
                // The full name stands in the first paragraph.
                Cell::supplier(&to),
                Cell::Strong(urgency.into()),
                text(paragraph.text),
            ])?;
        }
    }
    if letters.is_empty() {
        let nobody = "Nobody has to be asked anything.";
        table.row(&[
            Cell::text("all"),
            Cell::Blank,
            Cell::Blank,
            Cell::text(nobody),
        ])?;
    }
    table.finish()
}
