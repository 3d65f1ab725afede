//! The rows as bytes: text in many encodings and delimiters, or a workbook.

use super::Case;
use super::chance::Chance;
use super::goods::{self, Line};
use super::layout::Layout;
use super::rows::{Grid, Row, grid};
use encoding_rs::WINDOWS_1252;
use rust_xlsxwriter::Workbook;

struct Parts {
    layout: Layout,
    lines: Vec<Line>,
    grid: Grid,
}

fn parts(chance: &mut Chance) -> Parts {
    let layout = Layout::random(chance);
    let lines = goods::lines(chance, &layout);
    let grid = grid(chance, &layout, &lines);
    Parts {
        layout,
        lines,
        grid,
    }
}

impl Parts {
    /// The case whose first row is the spreadsheet's row `top` + 1.
    fn case(self, top: usize, bytes: Vec<u8>) -> Case {
        let cells = self
            .grid
            .rows
            .iter()
            .map(|row| row.iter().map(|cell| cell.text.clone()).collect())
            .collect();
        let rows = self
            .grid
            .lines
            .iter()
            .map(|line| (line + top + 1) as u32)
            .collect();
        Case {
            layout: self.layout,
            lines: self.lines,
            rows,
            cells,
            bytes,
        }
    }
}

/// A text file.
pub fn text_case(number: u64) -> Case {
    let mut chance = Chance::of(number);
    let parts = parts(&mut chance);
    let delimiter = chance.one(&[',', ';', '\t', '|']);
    let line_end = chance.one(&["\n", "\r\n", "\r\n", "\r"]);
    let padded = chance.percent(50);
    let width = parts.layout.columns.len();
    let stated = chance.percent(3);
    let mut text = if stated {
        format!("sep={delimiter}{line_end}")
    } else {
        String::new()
    };
    for (index, row) in parts.grid.rows.iter().enumerate() {
        if index > 0 {
            text.push_str(line_end);
        }
        text.push_str(&record(row, if padded { width } else { 0 }, delimiter));
    }
    if chance.percent(80) {
        text.push_str(line_end);
    }
    let bytes = encoded(&mut chance, &text);
    parts.case(usize::from(stated), bytes)
}

/// One record, quoted where it must be.
fn record(row: &Row, width: usize, delimiter: char) -> String {
    let filled = row
        .iter()
        .rposition(|cell| !cell.text.is_empty())
        .map_or(0, |last| last + 1);
    let mut fields: Vec<String> = row
        .iter()
        .take(filled)
        .map(|cell| quoted(&cell.text, delimiter))
        .collect();
    fields.resize(filled.max(width), String::new());
    fields.join(&delimiter.to_string())
}

fn quoted(text: &str, delimiter: char) -> String {
    if text.contains([delimiter, '"', '\n']) {
        format!("\"{}\"", text.replace('"', "\"\""))
    } else {
        text.to_string()
    }
}

fn encoded(chance: &mut Chance, text: &str) -> Vec<u8> {
    let wide = |big: bool| -> Vec<u8> {
        let units = std::iter::once(0xFEFF).chain(text.encode_utf16());
        units
            .flat_map(|unit: u16| {
                if big {
                    unit.to_be_bytes()
                } else {
                    unit.to_le_bytes()
                }
            })
            .collect()
    };
    match chance.between(0, 4) {
        0 => [b"\xEF\xBB\xBF", text.as_bytes()].concat(),
        1 => wide(false),
        2 => wide(true),
        3 => {
            let (bytes, _, lost) = WINDOWS_1252.encode(text);
            // Signs that this encoding lacks are written in UTF-8.
            if lost {
                text.as_bytes().to_vec()
            } else {
                bytes.into_owned()
            }
        }
        _ => text.as_bytes().to_vec(),
    }
}

/// A workbook whose table starts anywhere, its figures numbers or texts.
pub fn book_case(number: u64) -> Case {
    let mut chance = Chance::of(1_000_000 + number);
    let parts = parts(&mut chance);
    let (top, left) = (chance.between(0, 3), chance.between(0, 2));
    let as_text = chance.percent(30);
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    for (row, cells) in parts.grid.rows.iter().enumerate() {
        for (column, cell) in cells.iter().enumerate() {
            let place = (row as u32 + top as u32, column as u16 + left as u16);
            let written = match cell.number.filter(|_| !as_text) {
                Some(number) => sheet.write_number(place.0, place.1, number),
                None if cell.text.is_empty() => continue,
                None => sheet.write_string(place.0, place.1, &cell.text),
            };
            written.expect("a small sheet");
        }
    }
    let bytes = book.save_to_buffer().expect("a small workbook");
    parts.case(top as usize, bytes)
}
