//! xls: the records of the workbook stream are looked through first (hidden rows and columns, encryption, cells far from
//! the list), then the cells are read by calamine from a copy in which nothing can take memory out of proportion.

use super::compound::{Compound, Stream, long, word};
use super::gather::{Gather, cells};
use super::open::Refusal;
use super::package::{damaged, encrypted};
use super::{MOST_CELLS, MOST_LIST_COLUMNS};
use std::collections::BTreeMap;

/// Records by their number (MS-XLS 2.3).
mod record {
    pub(super) const EOF: u16 = 0x000A;
    pub(super) const FILEPASS: u16 = 0x002F;
    pub(super) const COLINFO: u16 = 0x007D;
    pub(super) const BOUNDSHEET: u16 = 0x0085;
    pub(super) const DIMENSIONS: u16 = 0x0200;
    pub(super) const ROW: u16 = 0x0208;
    pub(super) const BOF: u16 = 0x0809;
    /// Blank: read by nobody, so that a record turned into one is passed over.
    pub(super) const BLANK: u16 = 0x0201;
    /// Cells with one value: formula, number, label, boolean or error, rich label, shared text, short number.
    pub(super) const CELLS: [u16; 7] = [0x0006, 0x0203, 0x0204, 0x0205, 0x00D6, 0x00FD, 0x027E];
    /// The text that the formula before it gave.
    pub(super) const RESULT: u16 = 0x0207;
    /// Several short numbers side by side.
    pub(super) const NUMBERS: u16 = 0x00BD;
}

/// Most sheets of one workbook (common practice, no source).
const MOST_SHEETS: usize = 1_024;
/// An outline of this many cells is read whatever it holds.
const SMALL_OUTLINE: u64 = 2_000_000;
/// A larger outline must be filled by at least one cell in this many.
const THINNEST: u64 = 16;

/// What the records say that the reader of cells does not, a sheet each.
#[derive(Debug, Default)]
pub(super) struct Seen {
    hidden_rows: Vec<u32>,
    hidden_columns: Vec<(u32, u32)>,
    /// Cells left out: how many, and the first.
    far: Option<(u64, u32, u32)>,
}

impl Seen {
    /// Passes the hidden rows and columns on and says what was left out.
    pub(super) fn tell(&self, gather: &mut Gather, remarks: &mut Vec<String>) {
        self.hidden_rows
            .iter()
            .for_each(|row| gather.hide_row(*row));
        self.hidden_columns
            .iter()
            .for_each(|(first, last)| gather.hide_columns(*first, *last));
        if let Some((count, row, column)) = self.far {
            remarks.push(format!(
                "{}: {} left out, too far from the list",
                gather.cell_name(row, column),
                cells(count)
            ));
        }
    }
}

/// Looks through a workbook and gives a copy of the file that is safe to read, and what was seen, by sheet.
///
/// # Errors
/// When the file is no workbook, encrypted, or damaged.
pub(super) fn look_through(content: &[u8]) -> Result<(Vec<u8>, Vec<Seen>), Refusal> {
    let file = Compound::open(content)?;
    if file.has("EncryptedPackage") {
        return Err(encrypted());
    }
    let Some(stream) = file.stream("Workbook").or_else(|| file.stream("Book")) else {
        return Err((
            "is not a workbook (a text document, a message or another kind of file)".to_string(),
            "ask the supplier for the list as xlsx, xls, ods or csv".to_string(),
        ));
    };
    let mut starts = Vec::new();
    for (_, kind, data) in Records::new(&stream.bytes, 0) {
        match kind {
            record::FILEPASS => return Err(encrypted()),
            record::BOUNDSHEET => starts.extend(long(data, 0)),
            record::EOF => break,
            _ => {}
        }
    }
    if starts.len() > MOST_SHEETS {
        return Err(damaged(format!("more than {MOST_SHEETS} sheets")));
    }
    let mut copy = content.to_vec();
    let mut left = MOST_CELLS;
    let mut seen = Vec::new();
    for start in starts {
        seen.push(sheet(&stream, start as usize, &mut copy, &mut left)?);
    }
    Ok((copy, seen))
}

fn sheet(
    stream: &Stream,
    start: usize,
    copy: &mut [u8],
    left: &mut usize,
) -> Result<Seen, Refusal> {
    let mut seen = Seen::default();
    let (mut rows, mut columns) = (BTreeMap::<u32, u64>::new(), BTreeMap::<u32, u64>::new());
    let mut found: Vec<(usize, u32, u32, u32)> = Vec::new();
    let mut depth = 0u32;
    for (at, kind, data) in Records::new(&stream.bytes, start) {
        match kind {
            record::BOF => depth += 1,
            record::EOF if depth <= 1 => break,
            record::EOF => depth -= 1,
            // A chart inside the sheet has records of its own.
            _ if depth > 1 => {}
            record::DIMENSIONS => blank_out(stream, at, copy),
            record::ROW => {
                // Flag fDyZero, bit 5 of the byte after the outline level (MS-XLS 2.4.221).
                let hidden = word(data, 12).is_some_and(|flags| flags & 0x20 != 0);
                if let Some(row) = word(data, 0).filter(|_| hidden) {
                    seen.hidden_rows.push(u32::from(row) + 1);
                }
            }
            record::COLINFO => {
                // Flag fHidden, bit 0 (MS-XLS 2.4.53); a width of 0 hides as well.
                let hidden =
                    word(data, 8).is_some_and(|flags| flags & 1 != 0) || word(data, 4) == Some(0);
                if let (true, Some(first), Some(last)) = (hidden, word(data, 0), word(data, 2)) {
                    seen.hidden_columns
                        .push((u32::from(first) + 1, u32::from(last) + 1));
                }
            }
            // Goes with the cell before it: left behind, it would land in another one.
            record::RESULT => {
                if let Some((_, row, first, last)) = found.last().copied() {
                    found.push((at, row, first, last));
                }
            }
            kind if record::CELLS.contains(&kind) || kind == record::NUMBERS => {
                let (Some(row), Some(first)) = (word(data, 0), word(data, 2)) else {
                    continue;
                };
                let last = if kind == record::NUMBERS {
                    word(data, data.len().saturating_sub(2)).unwrap_or(first)
                } else {
                    first
                };
                let (row, first, last) = (
                    u32::from(row) + 1,
                    u32::from(first) + 1,
                    u32::from(last.max(first)) + 1,
                );
                let count = u64::from(last - first) + 1;
                *left = left.checked_sub(count as usize).ok_or_else(|| {
                    (
                        format!("has more than {MOST_CELLS} filled cells"),
                        "split it, or save only the sheet with the delivery".to_string(),
                    )
                })?;
                *rows.entry(row).or_default() += count;
                (first..=last).for_each(|column| *columns.entry(column).or_default() += 1);
                found.push((at, row, first, last));
            }
            _ => {}
        }
    }
    let (last_row, last_column) = outline(rows, columns);
    for (at, row, first, last) in found {
        if row > last_row || last > last_column {
            let text_only = word(&stream.bytes, at) == Some(record::RESULT);
            let (count, ..) = seen.far.get_or_insert((0, row, first));
            *count += if text_only {
                0
            } else {
                u64::from(last - first) + 1
            };
            blank_out(stream, at, copy);
        }
    }
    Ok(seen)
}

/// Last row and column of an outline that is filled well enough to be laid out as a grid: what holds the fewest cells at
/// its lower or right edge is given up first.
fn outline(mut rows: BTreeMap<u32, u64>, mut columns: BTreeMap<u32, u64>) -> (u32, u32) {
    while columns
        .last_key_value()
        .is_some_and(|(column, _)| *column > MOST_LIST_COLUMNS)
    {
        columns.pop_last();
    }
    let mut filled: u64 = rows.values().sum();
    loop {
        let (Some((top, _)), Some((bottom, in_row))) =
            (rows.first_key_value(), rows.last_key_value())
        else {
            return (0, 0);
        };
        let (Some((left, _)), Some((right, in_column))) =
            (columns.first_key_value(), columns.last_key_value())
        else {
            return (0, 0);
        };
        let area = u64::from(bottom - top + 1) * u64::from(right - left + 1);
        if area <= SMALL_OUTLINE.max(filled * THINNEST) {
            return (*bottom, *right);
        }
        filled = filled.saturating_sub(*in_row.min(in_column));
        if in_row <= in_column {
            rows.pop_last();
        } else {
            columns.pop_last();
        }
    }
}

/// Turns a record of the copy into one that is passed over.
fn blank_out(stream: &Stream, at: usize, copy: &mut [u8]) {
    for (offset, byte) in record::BLANK.to_le_bytes().into_iter().enumerate() {
        if let Some(place) = stream
            .in_file(at + offset)
            .and_then(|place| copy.get_mut(place))
        {
            *place = byte;
        }
    }
}

/// The records of a stream: where each begins, its number, its data.
struct Records<'a> {
    bytes: &'a [u8],
    at: usize,
}

impl<'a> Records<'a> {
    fn new(bytes: &'a [u8], start: usize) -> Self {
        Records { bytes, at: start }
    }
}

impl<'a> Iterator for Records<'a> {
    type Item = (usize, u16, &'a [u8]);

    fn next(&mut self) -> Option<Self::Item> {
        let at = self.at;
        let kind = word(self.bytes, at)?;
        let length = usize::from(word(self.bytes, at + 2)?);
        let data = self.bytes.get(at + 4..at + 4 + length)?;
        self.at = at + 4 + length;
        Some((at, kind, data))
    }
}
