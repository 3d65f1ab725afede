//! xlsx and xlsm. calamine reads the cells as a stream; before it opens the file, a light pass over the parts that it
//! will open keeps to the limits of unpacking, notes what calamine does not tell (hidden rows and columns, merged blocks:
//! its own reader of these gives up at the first block that it cannot read, and reads the whole sheet once more), and
//! sees what calamine would refuse or misread. Only then, or when calamine does refuse, it gets a mended copy.

mod cells;
mod look;
mod mend;
mod parts;
mod strings;

use super::binary::{guarded, refusal, value_of};
use super::gather::{Budget, Gather};
use super::open::Refusal;
use super::package::{Package, damaged};
use super::xml::{next, reader};
use super::{Reading, Sheet, Value};
use calamine::{Data, DataRef, Reader, Xlsx};
use look::{Look, MOST_STYLES};
use mend::Mended;
use parts::Part;
pub(super) use parts::workbook_part;
use quick_xml::events::Event;
use std::io::Cursor;
use std::sync::Arc;

/// Reads the workbook whose main part is `workbook`.
///
/// # Errors
/// When a part is damaged, missing, encrypted or too large.
pub(super) fn read(
    file: &Arc<str>,
    content: &[u8],
    package: &mut Package<'_>,
    workbook: &str,
) -> Result<Reading, Refusal> {
    let mut remarks = Vec::new();
    let parts = parts::list(package, workbook, &mut remarks)?;
    let mut budget = Budget::new();
    let (strings, announced) = match package.part(&parts.strings)? {
        Some(source) => strings::walk(reader(source), &mut budget, &mut |_| Ok(()))?,
        None => (0, true),
    };
    look_at_styles(package, &parts.styles)?;
    // The library reads the colours too.
    if let Some(mut theme) = package.part(&parts.theme)? {
        theme.skip()?;
    }
    let pictures = package.has_folder(
        &parts
            .theme
            .to_lowercase()
            .replace("theme/theme1.xml", "media/"),
    );
    let mut seen = Vec::new();
    let mut sound = parts.usual && announced && package.has_plain_names();
    for part in &parts.sheets {
        let mut gather = Gather::new(file, &part.name, part.hidden);
        let Some(source) = package.part(&part.part)? else {
            return Err(damaged(format!(
                "sheet \"{}\" is missing from the file",
                part.name
            )));
        };
        let look = Look::over(reader(source), &mut gather)?;
        sound &= !look.faulty;
        if !look.filled && pictures && !part.hidden {
            remarks.push(format!(
                "sheet \"{}\" holds no cells and the file holds pictures: a list that was pasted as a picture cannot be read",
                part.name
            ));
        }
        seen.push(Seen { part, gather, look });
    }
    let untouched = match sound {
        true => guarded(|| sheets(content, &seen, None, budget.clone())),
        false => Err(damaged("it needs mending")),
    };
    let (sheets, said) = match untouched {
        Ok(read) => read?,
        Err(_) => {
            let mended = mend::copy(content, &parts, strings)?;
            guarded(|| sheets(&mended.content, &seen, Some(&mended), budget))??
        }
    };
    remarks.extend(said);
    Ok(("workbook (xlsx)".to_string(), sheets, remarks))
}

/// A sheet after the light pass.
struct Seen<'a> {
    part: &'a Part,
    gather: Gather,
    look: Look,
}

/// The sheets as read, and what is to be said of them.
type Read = (Vec<Sheet>, Vec<String>);

/// Reads the sheets with calamine. The outer error is that calamine refuses the file, the inner one that it is too large.
fn sheets(
    content: &[u8],
    seen: &[Seen<'_>],
    mended: Option<&Mended>,
    mut budget: Budget,
) -> Result<Result<Read, Refusal>, Refusal> {
    let mut book = Xlsx::new(Cursor::new(content)).map_err(refusal)?;
    let (mut sheets, mut remarks) = (Vec::new(), Vec::new());
    for (index, sheet) in seen.iter().enumerate() {
        let mut gather = sheet.gather.clone();
        let name = match mended {
            Some(_) => &mend::sheet_name(index),
            None => &sheet.part.name,
        };
        if sheet.look.filled {
            let mut reader = book.worksheet_cells_reader(name).map_err(refusal)?;
            while let Some(cell) = reader.next_cell_with_formula().map_err(refusal)? {
                let (row, column) = cell.pos;
                let place = (row.saturating_add(1), column.saturating_add(1));
                if let Err(refused) = add(&mut gather, &mut budget, place, cell.value, cell.formula)
                {
                    return Ok(Err(refused));
                }
            }
            let styles = reader.styles();
            sheet.look.tell(&gather, &mut remarks, |style| {
                let format = styles.get(style as usize)?.number_format.as_ref()?;
                Some(format.format_code.to_string())
            });
        }
        for (row, column, value) in mended
            .and_then(|mended| mended.odd.get(index))
            .into_iter()
            .flatten()
        {
            if let Err(refused) = gather.cell(&mut budget, *row, *column, value.clone()) {
                return Ok(Err(refused));
            }
        }
        sheets.push(gather.finish(&mut remarks));
    }
    Ok(Ok((sheets, remarks)))
}

/// Adds a cell at a place counted from 1.
fn add(
    gather: &mut Gather,
    budget: &mut Budget,
    (row, column): (u32, u32),
    value: DataRef<'_>,
    formula: Option<String>,
) -> Result<(), Refusal> {
    // An empty text under a formula is its result: the formula of a blank line of a form.
    let is_text = matches!(value, DataRef::String(_) | DataRef::SharedString(_));
    let value = match value {
        DataRef::SharedString(text) => (!text.trim().is_empty()).then(|| Value::Text(text.into())),
        value => value_of(Data::from(value)),
    };
    match (value, formula.filter(|formula| !formula.is_empty())) {
        (Some(value), None) => gather.cell(budget, row, column, value),
        (None, None) => Ok(()),
        (None, Some(_)) if is_text => Ok(()),
        (value, Some(formula)) => gather.formula(budget, row, column, &formula, value),
    }
}

/// Goes over the styles, which the library keeps with fonts and colours for each.
fn look_at_styles(package: &mut Package<'_>, part: &str) -> Result<(), Refusal> {
    let Some(source) = package.part(part)? else {
        return Ok(());
    };
    let (mut xml, mut buffer) = (reader(source), Vec::new());
    let mut left = MOST_STYLES * 16;
    loop {
        match next(&mut xml, &mut buffer)? {
            Event::Start(_) => {
                left = left
                    .checked_sub(1)
                    .ok_or_else(|| damaged("it has more styles than a workbook can have"))?;
            }
            Event::Eof => return Ok(()),
            _ => {}
        }
    }
}
