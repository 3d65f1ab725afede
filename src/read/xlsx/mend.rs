//! A mended copy of an xlsx workbook, packed in memory: every part that calamine opens is written anew, plainly.

use super::cells::{Cell, Item, Kind, walk};
use super::look::MOST_STYLES;
use super::parts::Parts;
use super::strings;
use crate::place::column_letters;
use crate::read::Value;
use crate::read::gather::Budget;
use crate::read::open::Refusal;
use crate::read::package::{Package, damaged};
use crate::read::xml::{attribute, is_yes, next, number, reader};
use calamine::CellErrorType;
use quick_xml::escape::escape;
use quick_xml::events::Event;
use std::collections::HashMap;
use std::fmt::Write as _;
use std::io::{BufWriter, Cursor, Write};
use zip::ZipWriter;
use zip::write::SimpleFileOptions;

type Zip = ZipWriter<Cursor<Vec<u8>>>;

/// A mended copy of a workbook.
pub(super) struct Mended {
    /// The copy.
    pub(super) content: Vec<u8>,
    /// What calamine has no word for, sheet by sheet: row, column, value.
    pub(super) odd: Vec<Vec<(u32, u32, Value)>>,
}

/// What a sheet is called in the copy.
pub(super) fn sheet_name(index: usize) -> String {
    format!("{}", index + 1)
}

/// Writes the copy. `texts` is the number of shared texts.
///
/// # Errors
/// When a part is damaged.
pub(super) fn copy(content: &[u8], parts: &Parts, texts: usize) -> Result<Mended, Refusal> {
    // The parts have been unpacked once, so the sizes are known to be within the limits.
    let mut package = Package::open(content)?;
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    frame(&mut zip, parts)?;
    if let Some(source) = package.part(&parts.strings)? {
        begin(&mut zip, "xl/sharedStrings.xml")?;
        let mut out = BufWriter::new(&mut zip);
        put(&mut out, "<sst>")?;
        strings::walk(reader(source), &mut Budget::new(), &mut |text| {
            put(&mut out, &format!("<si>{}</si>", text_element(text)))
        })?;
        put(&mut out, "</sst>")?;
        out.flush().map_err(damaged)?;
    }
    styles(&mut zip, &mut package, &parts.styles)?;
    let mut odd = Vec::new();
    for (index, sheet) in parts.sheets.iter().enumerate() {
        begin(&mut zip, &format!("xl/worksheets/sheet{}.xml", index + 1))?;
        let mut out = BufWriter::new(&mut zip);
        let mut sheet_writer = SheetWriter {
            texts,
            shared: HashMap::new(),
            odd: Vec::new(),
            line: String::new(),
        };
        put(&mut out, "<worksheet><sheetData>")?;
        if let Some(source) = package.part(&sheet.part)? {
            walk(reader(source), &mut |item| match item {
                Item::Cell(cell) if cell.is_filled() => {
                    sheet_writer.cell(cell);
                    put(&mut out, &sheet_writer.line)
                }
                _ => Ok(()),
            })?;
        }
        put(&mut out, "</sheetData></worksheet>")?;
        out.flush().map_err(damaged)?;
        odd.push(sheet_writer.odd);
    }
    let content = zip.finish().map_err(damaged)?.into_inner();
    Ok(Mended { content, odd })
}

/// The list of sheets and the relations between the parts.
fn frame(zip: &mut Zip, parts: &Parts) -> Result<(), Refusal> {
    let (mut sheets, mut relations) = (String::new(), String::new());
    for index in 1..=parts.sheets.len() {
        sheets += &format!(r#"<sheet name="{index}" sheetId="{index}" r:id="r{index}"/>"#);
        relations += &format!(
            r#"<Relationship Id="r{index}" Type="/relationships/worksheet" Target="worksheets/sheet{index}.xml"/>"#
        );
    }
    let days = u8::from(parts.from_1904);
    for (name, text) in [
        (
            "_rels/.rels",
            r#"<Relationships><Relationship Id="r1" Type="/relationships/officeDocument" Target="xl/workbook.xml"/></Relationships>"#.to_string(),
        ),
        (
            "xl/workbook.xml",
            format!(r#"<workbook><workbookPr date1904="{days}"/><sheets>{sheets}</sheets></workbook>"#),
        ),
        (
            "xl/_rels/workbook.xml.rels",
            format!("<Relationships>{relations}</Relationships>"),
        ),
    ] {
        begin(zip, name)?;
        put(zip, &text)?;
    }
    Ok(())
}

/// The number formats, without fonts and colours.
fn styles(zip: &mut Zip, package: &mut Package<'_>, part: &str) -> Result<(), Refusal> {
    let (mut formats, mut cells) = (String::new(), String::new());
    let (mut in_cells, mut count) = (false, 0);
    if let Some(source) = package.part(part)? {
        let (mut xml, mut buffer) = (reader(source), Vec::new());
        loop {
            match next(&mut xml, &mut buffer)? {
                Event::Start(element) => match element.local_name().as_ref() {
                    "numFmt" => {
                        let id = number::<u32>(&element, "numFmtId");
                        if let (Some(id), Some(code)) = (id, attribute(&element, "formatCode")) {
                            let code = escape(&code);
                            formats += &format!(r#"<numFmt numFmtId="{id}" formatCode="{code}"/>"#);
                        }
                    }
                    "cellXfs" => in_cells = true,
                    "xf" if in_cells && count < MOST_STYLES => {
                        count += 1;
                        let id = number::<u32>(&element, "numFmtId").unwrap_or(0);
                        cells += &format!(r#"<xf numFmtId="{id}"/>"#);
                    }
                    _ => {}
                },
                Event::End(element) if element.local_name().as_ref() == "cellXfs" => {
                    in_cells = false;
                }
                Event::Eof => break,
                _ => {}
            }
        }
    }
    begin(zip, "xl/styles.xml")?;
    put(
        zip,
        &format!("<styleSheet><numFmts>{formats}</numFmts><cellXfs>{cells}</cellXfs></styleSheet>"),
    )
}

struct SheetWriter {
    texts: usize,
    /// New numbers of the shared formulas.
    shared: HashMap<u32, usize>,
    odd: Vec<(u32, u32, Value)>,
    line: String,
}

impl SheetWriter {
    /// Writes a cell into `line` with its address, its kind and its value as calamine takes them.
    fn cell(&mut self, cell: &Cell) {
        let place = format!("{}{}", column_letters(cell.column), cell.row);
        let stored = cell.stored.trim();
        let (kind, value) = match (&cell.inline, cell.kind) {
            (Some(text), _) => ("inlineStr", format!("<is>{}</is>", text_element(text))),
            // A text result may be empty, and is one.
            (None, Kind::Text | Kind::Inline) if cell.has_stored => ("str", raw(&cell.stored)),
            _ if stored.is_empty() => ("n", String::new()),
            (None, Kind::Number) => match stored.parse::<f64>() {
                Ok(number) if number.is_finite() => ("n", raw(stored)),
                _ => ("str", raw(&cell.stored)),
            },
            (None, Kind::Shared) => match stored.parse::<usize>() {
                Ok(index) if index < self.texts => ("s", raw(stored)),
                _ => self.odd(cell, "a text that the file does not hold"),
            },
            (None, Kind::Error) => match stored.parse::<CellErrorType>() {
                Ok(_) => ("e", raw(stored)),
                Err(_) => self.odd(cell, stored),
            },
            (None, Kind::Bool) => ("b", raw(if is_yes(stored) { "1" } else { "0" })),
            (None, Kind::Date) => ("d", raw(stored)),
            (None, Kind::Text | Kind::Inline) => ("n", String::new()),
        };
        let has_result = !stored.is_empty() && stored != "0";
        let formula = self.formula(cell, &place, has_result);
        self.line.clear();
        let style = cell.style;
        // Writing to a text cannot fail.
        let _ = write!(
            self.line,
            r#"<c r="{place}" s="{style}" t="{kind}">{formula}{value}</c>"#
        );
    }

    /// Keeps an error that calamine does not know aside.
    fn odd(&mut self, cell: &Cell, text: &str) -> (&'static str, String) {
        let value = Value::Error(text.into());
        self.odd.push((cell.row, cell.column, value));
        ("n", String::new())
    }

    /// The formula; one shared from elsewhere only where nothing else stands, for calamine spells each of them out.
    fn formula(&mut self, cell: &Cell, place: &str, has_result: bool) -> String {
        let Some(formula) = &cell.formula else {
            return String::new();
        };
        let text = escape(formula);
        match cell.shared {
            None if formula.is_empty() => String::new(),
            None => format!("<f>{text}</f>"),
            Some(number) if formula.is_empty() => match self.shared.get(&number) {
                Some(number) if !has_result => format!(r#"<f t="shared" si="{number}"/>"#),
                _ => String::new(),
            },
            Some(number) => {
                let next = self.shared.len();
                let number = self.shared.entry(number).or_insert(next);
                format!(r#"<f t="shared" si="{number}" ref="{place}">{text}</f>"#)
            }
        }
    }
}

/// A stored value.
fn raw(text: &str) -> String {
    format!("<v>{}</v>", sound(text))
}

/// A text whose sign codes have been resolved: what looks like one belongs to the text (ECMA-376 part 1, 22.4.2.4).
fn text_element(text: &str) -> String {
    let text = sound(text).replace("_x", "_x005F_x");
    format!(r#"<t xml:space="preserve">{text}</t>"#)
}

fn sound(text: &str) -> String {
    escape(text).replace('\r', "&#13;")
}

fn begin(zip: &mut Zip, name: &str) -> Result<(), Refusal> {
    zip.start_file(
        name,
        SimpleFileOptions::default().compression_level(Some(1)),
    )
    .map_err(damaged)
}

fn put(out: &mut impl Write, text: &str) -> Result<(), Refusal> {
    out.write_all(text.as_bytes()).map_err(damaged)
}
