//! The number formats of an xlsx workbook, one for each cell style.

use crate::read::number_format::{NumberFormat, built_in, of_code};
use crate::read::open::Refusal;
use crate::read::package::Package;
use crate::read::xml::{attribute, next, number, reader};
use quick_xml::events::Event;
use std::collections::HashMap;

/// Reads the number format of each cell style, in the order that cells name them by.
///
/// # Errors
/// When the part is damaged or too large.
pub(super) fn read(package: &mut Package<'_>, part: &str) -> Result<Vec<NumberFormat>, Refusal> {
    let mut codes: HashMap<u32, NumberFormat> = HashMap::new();
    let mut ids: Vec<u32> = Vec::new();
    if let Some(source) = package.part(part)? {
        let mut xml = reader(source);
        let mut buffer = Vec::new();
        let mut in_cell_styles = false;
        loop {
            match next(&mut xml, &mut buffer)? {
                Event::Start(element) => match element.local_name().as_ref() {
                    "numFmt" => {
                        if let (Some(id), Some(code)) = (
                            number(&element, "numFmtId"),
                            attribute(&element, "formatCode"),
                        ) {
                            codes.insert(id, of_code(&code));
                        }
                    }
                    "cellXfs" => in_cell_styles = true,
                    "xf" if in_cell_styles => ids.push(number(&element, "numFmtId").unwrap_or(0)),
                    _ => {}
                },
                Event::End(element) if element.local_name().as_ref() == "cellXfs" => {
                    in_cell_styles = false
                }
                Event::Eof => break,
                _ => {}
            }
        }
    }
    Ok(ids
        .into_iter()
        .map(|id| codes.get(&id).cloned().unwrap_or_else(|| built_in(id)))
        .collect())
}
