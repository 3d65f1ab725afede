//! The table of shared texts of an xlsx workbook. Every entry counts, empty ones too: cells name them by number.

use crate::read::gather::Budget;
use crate::read::open::Refusal;
use crate::read::package::Package;
use crate::read::sheet_xml::text_of;
use crate::read::xml::{next, reader};
use quick_xml::events::Event;

/// Reads the shared texts; a workbook without them has none.
///
/// # Errors
/// When the part is damaged or too large.
pub(super) fn read(
    package: &mut Package<'_>,
    part: &str,
    budget: &mut Budget,
) -> Result<Vec<Box<str>>, Refusal> {
    let mut found: Vec<Box<str>> = Vec::new();
    let Some(source) = package.part(part)? else {
        return Ok(found);
    };
    let mut xml = reader(source);
    let (mut buffer, mut inner) = (Vec::new(), Vec::new());
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) if element.local_name().as_ref() == "si" => {
                let text = text_of(&mut xml, &mut inner, "si")?;
                // An empty entry costs memory too.
                budget.text(text.len() + std::mem::size_of::<Box<str>>())?;
                found.push(text.into());
            }
            Event::Eof => return Ok(found),
            _ => {}
        }
    }
}
