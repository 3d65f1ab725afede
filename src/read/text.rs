//! Text files: encoding, delimiter, quoting faults. Every record counts, blank ones too; no type is guessed.

use super::open::Refusal;
use super::{Cell, MOST_CELLS, Row, Sheet, Value};
use encoding_rs::{Encoding, UTF_8, UTF_16BE, UTF_16LE};
use std::sync::Arc;

const DELIMITERS: [u8; 4] = [b',', b';', b'\t', b'|'];
/// Records that the delimiter is chosen by.
const SAMPLE: usize = 200;

/// Reads a text file as one sheet without a name.
pub(super) fn read(
    file: &Arc<str>,
    content: &[u8],
) -> Result<(String, Vec<Sheet>, Vec<String>), Refusal> {
    let (text, encoding) = decode(content)?;
    // Line ends become one kind, so that records can be counted; within a quoted cell a line break stays one.
    let text = text.replace("\r\n", "\n").replace('\r', "\n");
    let text = text.trim_end_matches(['\u{1A}', '\u{FEFF}']);
    let (directive, delimiter) = match stated_delimiter(text) {
        Some((line, delimiter)) => (Some(line), delimiter),
        None => (None, likely_delimiter(text)),
    };
    let mut sheet = Sheet {
        file: file.clone(),
        name: "".into(),
        hidden: false,
        rows: Vec::new(),
        merged: Vec::new(),
        hidden_columns: Vec::new(),
    };
    let mut remarks = Vec::new();
    let mut number = 0;
    let body = match directive {
        Some(line) => {
            number = 1;
            sheet.rows.push(Row {
                number,
                hidden: false,
                cells: vec![Cell {
                    column: 1,
                    value: Value::Text(line.into()),
                }],
            });
            text.get(line.len() + 1..).unwrap_or("")
        }
        None => text,
    };
    let mut count = 0;
    for record in records(body, delimiter, &mut remarks, number) {
        number += 1;
        let cells: Vec<Cell> = record
            .into_iter()
            .enumerate()
            .filter(|(_, field)| !field.trim().is_empty())
            .map(|(index, field)| Cell {
                column: index as u32 + 1,
                value: Value::Text(field.into()),
            })
            .collect();
        count += cells.len();
        if count > MOST_CELLS {
            return Err((
                format!("has more than {MOST_CELLS} filled cells"),
                "split it into several files".to_string(),
            ));
        }
        if !cells.is_empty() {
            sheet.rows.push(Row {
                number,
                hidden: false,
                cells,
            });
        }
    }
    let delimited = match delimiter {
        b',' => "commas",
        b';' => "semicolons",
        b'\t' => "tabs",
        b'|' => "bars",
        _ => "a sign of its own",
    };
    Ok((
        format!("text, {encoding}, {delimited}"),
        vec![sheet],
        remarks,
    ))
}

/// The text and the name of the encoding it was read in.
fn decode(content: &[u8]) -> Result<(String, &'static str), Refusal> {
    let encoding = match Encoding::for_bom(content) {
        Some((encoding, _)) => encoding,
        None => match wide(content) {
            Some(encoding) => encoding,
            None if std::str::from_utf8(content).is_ok() => UTF_8,
            None => {
                let mut detector =
                    chardetng::EncodingDetector::new(chardetng::Iso2022JpDetection::Deny);
                detector.feed(content, true);
                detector.guess(None, chardetng::Utf8Detection::Allow)
            }
        },
    };
    let (text, _, _) = encoding.decode(content);
    let odd = text
        .chars()
        .filter(|sign| {
            sign.is_control() && !matches!(sign, '\n' | '\r' | '\t' | '\u{1A}' | '\u{0C}')
        })
        .count();
    if odd * 100 > text.chars().count() {
        return Err((
            "is neither a workbook nor text".to_string(),
            "ask the supplier for the list as xlsx, xls, ods or csv".to_string(),
        ));
    }
    Ok((text.into_owned(), encoding.name()))
}

/// UTF-16 without a mark shows by a NUL in every other byte of plain Latin text.
fn wide(content: &[u8]) -> Option<&'static Encoding> {
    let sample = &content[..content.len().min(4096)];
    let nul = |parity: usize| {
        sample
            .iter()
            .skip(parity)
            .step_by(2)
            .filter(|byte| **byte == 0)
            .count()
    };
    let half = sample.len() / 2;
    let (even, odd) = (nul(0), nul(1));
    if half < 8 {
        None
    } else if odd * 10 > half * 6 && even * 10 < half {
        Some(UTF_16LE)
    } else if even * 10 > half * 6 && odd * 10 < half {
        Some(UTF_16BE)
    } else {
        None
    }
}

/// `sep=;` as the first line.
fn stated_delimiter(text: &str) -> Option<(&str, u8)> {
    let line = text.lines().next()?;
    let sign = line.trim().to_lowercase();
    let sign = sign.strip_prefix("sep=")?;
    let delimiter = match sign {
        "" => b'\t',
        sign if sign.len() == 1 => *sign.as_bytes().first()?,
        _ => return None,
    };
    Some((line, delimiter))
}

/// The delimiter that gives the most records of one width, counted in cells; a comma when none does.
fn likely_delimiter(text: &str) -> u8 {
    let head: String = text.split_inclusive('\n').take(SAMPLE).collect();
    let score = |delimiter: u8| {
        let mut widths = std::collections::HashMap::<usize, usize>::new();
        for record in records(&head, delimiter, &mut Vec::new(), 0) {
            let width = record
                .iter()
                .rposition(|field| !field.trim().is_empty())
                .map_or(0, |last| last + 1);
            if width > 1 {
                // A row's last cells are often blank: its width as written tells the table's width.
                *widths.entry(record.len()).or_default() += 1;
            }
        }
        let all: usize = widths
            .iter()
            .map(|(width, count)| width.min(&30) * count)
            .sum();
        let best: usize = widths
            .iter()
            .map(|(width, count)| width.min(&30) * count)
            .max()
            .unwrap_or(0);
        all + 2 * best
    };
    DELIMITERS
        .into_iter()
        .rev()
        .max_by_key(|delimiter| score(*delimiter))
        .filter(|delimiter| score(*delimiter) > 0)
        .unwrap_or(b',')
}

/// All records with blank lines as empty ones. A quoted cell that runs over line ends and spoils the record's width is
/// a mark that was never closed: that line is read again with its quotes as ordinary signs, and said.
fn records(text: &str, delimiter: u8, remarks: &mut Vec<String>, before: u32) -> Vec<Vec<String>> {
    let mut all: Vec<Vec<String>> = Vec::new();
    let mut start = 0;
    while start < text.len() {
        let mut reader = csv::ReaderBuilder::new()
            .delimiter(delimiter)
            .has_headers(false)
            .flexible(true)
            .from_reader(&text.as_bytes()[start..]);
        let mut record = csv::StringRecord::new();
        let mut at = 0;
        let mut broken = None;
        while matches!(reader.read_record(&mut record), Ok(true)) {
            let begin = record
                .position()
                .map_or(at, |position| position.byte() as usize);
            let end = reader.position().byte() as usize;
            let raw = text.get(start + at..start + end).unwrap_or("");
            let begin = begin.max(at) - at;
            // Lines that the reader passed over are blank records; the record itself begins at the first other sign.
            let skipped = raw
                .get(begin..)
                .map_or(0, |rest| rest.len() - rest.trim_start_matches('\n').len());
            let blank = raw.get(..begin).map_or(0, |gap| gap.matches('\n').count()) + skipped;
            all.extend(std::iter::repeat_n(Vec::new(), blank));
            let body = raw
                .get(begin + skipped..)
                .unwrap_or("")
                .trim_end_matches('\n');
            let fields: Vec<String> = record.iter().map(str::to_string).collect();
            if body.contains('\n') && unclosed(&fields, &all) {
                broken = Some(start + at + begin + skipped);
                break;
            }
            all.push(fields);
            at = end;
        }
        match broken {
            Some(line_start) => {
                let line = text[line_start..].lines().next().unwrap_or("");
                remarks.push(format!(
                    "row {}: a quotation mark is opened and never closed; the row was read with its marks as ordinary signs",
                    before as usize + all.len() + 1
                ));
                all.push(
                    line.split(char::from(delimiter))
                        .map(str::to_string)
                        .collect(),
                );
                start = line_start + line.len() + 1;
            }
            None => {
                let tail = text.get(start + at..).unwrap_or("");
                all.extend(std::iter::repeat_n(Vec::new(), tail.matches('\n').count()));
                break;
            }
        }
    }
    all
}

/// A record over several lines is broken when a cell of it holds many lines or its width is unlike the widest before.
fn unclosed(fields: &[String], before: &[Vec<String>]) -> bool {
    let lines = fields
        .iter()
        .map(|field| field.matches('\n').count())
        .max()
        .unwrap_or(0);
    let width = before.iter().map(Vec::len).max().unwrap_or(0);
    lines > 8 || (width > 1 && fields.len() < width && before.len() > 1)
}
