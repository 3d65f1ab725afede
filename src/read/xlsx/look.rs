//! What the light pass over a sheet keeps: things that calamine does not tell, and whether the part must be mended.

use super::cells::{Item, Kind, walk};
use crate::read::MOST_TEXT;
use crate::read::gather::{Gather, cells};
use crate::read::number_format::shown_unit;
use crate::read::open::Refusal;
use crate::read::xml::Xml;
use std::collections::{BTreeMap, HashMap};
use std::io::BufRead;

/// Cell styles of a workbook (common practice, no source).
pub(super) const MOST_STYLES: u32 = 65_536;

/// How many cells, and the first one: row and column.
type Count = (u64, u32, u32);

/// A sheet as the light pass saw it.
#[derive(Default)]
pub(super) struct Look {
    /// Numbers by the cell style that they have.
    styled: BTreeMap<u32, Count>,
    /// Cells whose address cannot be read.
    lost: Option<Count>,
    /// The library would misread the part.
    pub(super) faulty: bool,
    /// At least one cell holds something.
    pub(super) filled: bool,
}

impl Look {
    /// Goes over a sheet part; what is hidden and merged goes to `gather` at once.
    ///
    /// # Errors
    /// When the part is damaged or too large.
    pub(super) fn over<R: BufRead>(xml: Xml<R>, gather: &mut Gather) -> Result<Look, Refusal> {
        let mut look = Look::default();
        // Lengths of shared formulas: the library spells out each cell that shares one, with or without need.
        let (mut shared, mut spelled) = (HashMap::new(), 0usize);
        walk(xml, &mut |item| {
            match item {
                Item::HiddenRow(row) => gather.hide_row(row),
                Item::HiddenColumns(first, last) => gather.hide_columns(first, last),
                Item::Merged(block) => gather.merge(block),
                Item::Fault => look.faulty = true,
                Item::Cell(cell) => {
                    look.filled |= cell.is_filled();
                    look.faulty |= !cell.is_plain();
                    if cell.lost {
                        look.lost.get_or_insert((0, cell.row, cell.column)).0 += 1;
                    }
                    if cell.kind == Kind::Number
                        && (1..MOST_STYLES).contains(&cell.style)
                        && !cell.stored.is_empty()
                    {
                        let first = (0, cell.row, cell.column);
                        look.styled.entry(cell.style).or_insert(first).0 += 1;
                    }
                    if let (Some(number), Some(formula)) = (cell.shared, &cell.formula) {
                        if formula.is_empty() {
                            spelled += shared.get(&number).copied().unwrap_or_default();
                        } else {
                            shared.insert(number, formula.len());
                        }
                    }
                }
            }
            Ok(())
        })?;
        look.faulty |= spelled > MOST_TEXT;
        Ok(look)
    }

    /// Says what was seen. `code` gives the code of the number format of a cell style.
    pub(super) fn tell(
        &self,
        gather: &Gather,
        remarks: &mut Vec<String>,
        code: impl Fn(u32) -> Option<String>,
    ) {
        if let Some((count, row, column)) = self.lost {
            remarks.push(format!(
                "{}: {} taken as the next one of its row, for its address cannot be read; check the columns",
                gather.cell_name(row, column),
                cells(count)
            ));
        }
        let mut shown: BTreeMap<&str, Count> = BTreeMap::new();
        for (style, (count, row, column)) in &self.styled {
            if let Some(unit) = code(*style).as_deref().and_then(shown_unit) {
                let all = shown.entry(unit).or_insert((0, *row, *column));
                let (_, first_row, first_column) = *all;
                let (row, column) = (first_row, first_column).min((*row, *column));
                *all = (all.0 + count, row, column);
            }
        }
        for (unit, (count, row, column)) in shown {
            let first = gather.cell_name(row, column);
            let more = if count == 1 {
                String::new()
            } else {
                format!(" and {} more", count - 1)
            };
            remarks.push(format!("{first}{more}: only the number format shows \"{unit}\", the stored number does not hold it; check the column's unit"));
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::read::xml::reader;

    /// What is optional or allowed: ECMA-376 part 1, 18.3.1. A sound part goes to the library as it is.
    #[test]
    fn only_what_would_be_misread_is_a_fault() {
        for (sheet, faulty) in [
            (
                r#"<dimension ref="A1:C9"/><sheetData><row r="2"><c r="B2" s="1"><v>1.5</v></c></row></sheetData>"#,
                false,
            ),
            (
                r#"<sheetData><row><c t="s"><v>0</v></c><c><v>2</v></c></row><row><c/></row></sheetData>"#,
                false,
            ),
            (
                r#"<sheetData><row r="1"><c r="A1"><f t="shared" si="0" ref="A1:A2">B1</f><v>1</v></c></row></sheetData>"#,
                false,
            ),
            (r#"<dimension ref="A0:C9"/><sheetData/>"#, true),
            (r#"<dimension ref="1:10901"/><sheetData/>"#, true),
            (
                r#"<sheetData><row r="1"><c r="1A"><v>1</v></c></row></sheetData>"#,
                true,
            ),
            (
                r#"<sheetData><row r="1"><c r="A2"><v>1</v></c></row></sheetData>"#,
                true,
            ),
            (
                r#"<sheetData><row r="1"><c r="A1"><v> 1</v></c></row></sheetData>"#,
                true,
            ),
            (
                r#"<sheetData><row r="1"><c r="A1"><v>&#49;2</v></c></row></sheetData>"#,
                true,
            ),
            (
                r#"<sheetData><row r="1"><c r="A1" t="s"><v>x</v></c></row></sheetData>"#,
                true,
            ),
            (
                r#"<sheetData><row r="1"><c r="A1"><f t="shared" si="4000000000" ref="A1:A2">B1</f></c></row></sheetData>"#,
                true,
            ),
            (
                r#"<sheetData><row r="1"><c r="A1"><f t="shared" si="0">B1</f></c></row></sheetData>"#,
                true,
            ),
        ] {
            let mut gather = Gather::new(&"a.xlsx".into(), "List", false);
            let look = Look::over(reader(sheet.as_bytes()), &mut gather).expect("it is read");
            assert_eq!(look.faulty, faulty, "{sheet}");
        }
    }
}
