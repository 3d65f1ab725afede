//! Cells with more text than any list has: cut, and said.

use super::{Sheet, Value};

/// Signs of a cell that are kept. No description or note of a delivery list is as long, and a text without end takes time
/// without end to be understood.
const MOST_SIGNS: usize = 2_000;
/// Cells that are named one by one.
const MOST_NAMED: usize = 5;

/// Cuts the texts that are too long; gives what is to be said of it.
pub(super) fn cut(sheets: &mut [Sheet]) -> Option<String> {
    let mut places = Vec::new();
    for sheet in sheets {
        let (file, name) = (sheet.file.clone(), sheet.name.clone());
        for row in &mut sheet.rows {
            for cell in &mut row.cells {
                let Value::Text(text) = &mut cell.value else {
                    continue;
                };
                // Counting signs costs: most texts have fewer bytes than may be signs.
                if text.len() <= MOST_SIGNS {
                    continue;
                }
                if let Some((end, _)) = text.char_indices().nth(MOST_SIGNS) {
                    *text = text[..end].into();
                    places.push(crate::place::Place {
                        file: file.clone(),
                        sheet: name.clone(),
                        row: row.number,
                        column: cell.column,
                    });
                }
            }
        }
    }
    if places.is_empty() {
        return None;
    }
    let named: Vec<String> = places
        .iter()
        .take(MOST_NAMED)
        .map(|place| place.cell())
        .collect();
    let more = match places.len().saturating_sub(MOST_NAMED) {
        0 => String::new(),
        more => format!(" and {more} more"),
    };
    Some(format!(
        "{}{more}: text longer than {MOST_SIGNS} signs, only its beginning was read; look at the cell in the supplier's file",
        named.join(", ")
    ))
}

#[cfg(test)]
mod tests {
    #[test]
    fn a_text_without_end_is_cut_and_said() {
        let long = "7x".repeat(100_000);
        let text = format!("Description,Qty,Weight (kg)\nPlate {long},1,5\nBar,1,{long}\n");
        let raw = crate::read::bytes("a.csv", text.as_bytes()).expect("readable");
        let length = |row: u32, column: u32| {
            let row = raw.sheets[0].row(row).expect("a row");
            row.cell(column)
                .expect("a cell")
                .value
                .text()
                .chars()
                .count()
        };
        assert_eq!((length(2, 1), length(3, 3)), (2_000, 2_000));
        assert_eq!(length(3, 1), 3);
        assert!(
            raw.remarks
                .iter()
                .any(|remark| remark.starts_with("A2, C3: text longer than 2000 signs")),
            "{:?}",
            raw.remarks
        );
    }

    #[test]
    fn a_long_note_in_another_script_is_cut_between_signs() {
        let text = format!("a,b\n{},2\n", "板".repeat(2_001));
        let raw = crate::read::bytes("a.csv", text.as_bytes()).expect("readable");
        let row = raw.sheets[0].row(2).expect("a row");
        let cell = row.cell(1).expect("a cell");
        assert_eq!(cell.value.text(), "板".repeat(2_000));
    }
}
