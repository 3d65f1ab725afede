//! A pass over the table of shared texts of an xlsx workbook. Cells name them by number; calamine keeps them.

use crate::read::gather::Budget;
use crate::read::open::Refusal;
use crate::read::xml::{Xml, next, number, text_of};
use quick_xml::events::Event;
use std::io::BufRead;

/// How many more texts than it holds a table may announce: the library makes room for what is announced.
const MOST_ANNOUNCED: usize = 100_000;

/// Hands the shared texts over one by one. Gives their number, and whether the table announces about as many.
///
/// # Errors
/// When the part is damaged or too large, or `meet` refuses.
pub(super) fn walk<R: BufRead>(
    mut xml: Xml<R>,
    budget: &mut Budget,
    meet: &mut dyn FnMut(&str) -> Result<(), Refusal>,
) -> Result<(usize, bool), Refusal> {
    let (mut buffer, mut inner) = (Vec::new(), Vec::new());
    let (mut count, mut announced) = (0usize, 0usize);
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(element) => match element.local_name().as_ref() {
                "sst" => announced = number(&element, "uniqueCount").unwrap_or(0),
                "si" => {
                    let text = text_of(&mut xml, &mut inner, "si")?;
                    // An empty entry costs memory too.
                    budget.text(text.len() + std::mem::size_of::<String>())?;
                    count += 1;
                    meet(&text)?;
                }
                _ => {}
            },
            Event::Eof => return Ok((count, announced <= count + MOST_ANNOUNCED)),
            _ => {}
        }
    }
}
