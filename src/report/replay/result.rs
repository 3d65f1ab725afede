//! Result: what the replay says, before any figure.

use super::{Shown, words};
use crate::report::workbook::book::{Book, Keep, Paper};
use crate::report::workbook::cell::Cell;
use crate::report::workbook::table::column;
use rust_xlsxwriter::XlsxError;

/// Writes the sheet.
pub(super) fn write(book: &mut Book, shown: &Shown<'_>) -> Result<(), XlsxError> {
    let columns = vec![column("Subject", 18.0), column("Result", 110.0)];
    let mut table = book.table("Result", columns, Paper::Small, Keep::Rows)?;
    let replay = shown.replay;
    let mut row = |subject: &'static str, value: Cell<'_>| table.row(&[Cell::text(subject), value]);
    row("compared", Cell::text(words::repeated(replay)))?;
    row("changes", Cell::text(words::changes(replay)))?;
    row("decided lines", Cell::text(words::decided(shown)))?;
    for said in words::result(shown) {
        row("tolerance", Cell::Strong(said.into()))?;
    }
    table.finish()
}
