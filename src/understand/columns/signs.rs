//! Which system of units a list writes in, told by its own signs.

use super::{Column, texts};
use crate::read::Row;
use crate::understand::heading::Field;
use crate::understand::layout::Table;
use crate::units::MassUnit;
use crate::units::spelling::{self, MassSpelling};
use crate::units::written::fold;

/// Cells of a column that are looked at.
const MOST_CELLS: usize = 50;

/// Whether the signs of headings and cells are US ones: plainly (`None` where both kinds stand beside each other), and by
/// their greater number.
pub(super) fn of(all: &[Column], table: &Table, rows: &[Row]) -> (Option<bool>, Option<bool>) {
    let (mut us, mut metric) = (0usize, 0usize);
    let mut count = |sign: Option<bool>| match sign {
        Some(true) => us += 1,
        Some(false) => metric += 1,
        None => {}
    };
    for (column, headed) in all.iter().zip(&table.columns) {
        count(headed.heading.mass.and_then(mass_sign));
        count(headed.heading.length.map(|unit| unit.is_us()));
        if column.field.is_size() || matches!(column.field, Field::Description | Field::Weight) {
            count(cells(texts(rows, column.number).take(MOST_CELLS)));
        }
    }
    let plainly = if us > 2 * metric {
        Some(true)
    } else if metric > 2 * us {
        Some(false)
    } else {
        None
    };
    let more = (us != metric).then_some(us > metric);
    (plainly, more)
}

fn mass_sign(unit: MassSpelling) -> Option<bool> {
    match unit {
        MassSpelling::Known(unit) => Some(matches!(
            unit,
            MassUnit::Lb | MassUnit::ShortTon | MassUnit::Oz
        )),
        _ => None,
    }
}

/// The kind of sign that more of the cells carry.
fn cells<'a>(texts: impl Iterator<Item = &'a str>) -> Option<bool> {
    let (mut us, mut metric) = (0usize, 0usize);
    for text in texts {
        match cell(&fold(text)) {
            Some(true) => us += 1,
            Some(false) => metric += 1,
            None => {}
        }
    }
    (us != metric).then_some(us > metric)
}

/// The first foot or inch mark or unit behind a figure.
fn cell(text: &str) -> Option<bool> {
    if !text.contains(|sign: char| sign.is_ascii_digit()) {
        return None;
    }
    if text.contains(['"', '\'']) {
        return Some(true);
    }
    let mut figure = false;
    for word in text.split([' ', ',', ';', '(', ')', 'x', 'X', '*', '/']) {
        let unit = word.trim_start_matches(|sign: char| sign.is_ascii_digit() || sign == '.');
        let glued = unit.len() < word.len();
        // One letter alone ("M", "T", "L") is as often a name.
        if (glued || figure)
            && unit.len() > 1
            && let Some(sign) = spelling::length(unit)
                .map(|unit| unit.is_us())
                .or_else(|| spelling::mass(unit).and_then(mass_sign))
        {
            return Some(sign);
        }
        figure = glued && unit.is_empty();
    }
    None
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn signs_of_cells() {
        for (text, sign) in [
            ("Counterweight 400x300x150", None),
            ("Counterweight 400x300x150 mm", Some(false)),
            ("Seamless pipe 219.1x8.2 mm", Some(false)),
            ("plate 1/2\" x 48 x 96", Some(true)),
            ("Pallet 48 x 40 x 52 in", Some(true)),
            ("450 kg", Some(false)),
            ("450lbs", Some(true)),
            ("Bolt M24 x 130 T", None),
            ("pipe in bundles", None),
        ] {
            assert_eq!(cell(text), sign, "{text}");
        }
    }
}
