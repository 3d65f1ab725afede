//! What the rows above a table say about the delivery: supplier, number, order, vehicle, date.

use crate::tables::phrases::{Word, words};
use crate::tables::title_words::{self, TitleRole};
use crate::units::written::{fold, tidy};
use chrono::NaiveDate;

/// What was found above a table.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Title {
    /// Supplier.
    pub supplier: Option<String>,
    /// Name or number of the delivery.
    pub delivery: Option<String>,
    /// Purchase order.
    pub order: Option<String>,
    /// Vehicle.
    pub vehicle: Option<String>,
    /// Date of the document.
    pub date: Option<NaiveDate>,
}

/// Reads the cells above a table, in order.
pub fn read(cells: &[String]) -> Title {
    let mut title = Title::default();
    let mut unlabelled: Option<String> = None;
    let mut pending: Option<TitleRole> = None;
    for cell in cells {
        let text = tidy(&fold(cell));
        let found = words(&text);
        let labels = labels(&found);
        if labels.is_empty() {
            match pending.take() {
                Some(role) => title.keep(role, &text),
                None => {
                    let name = !text.contains(|sign: char| sign.is_ascii_digit())
                        && text.split(' ').count() <= 8;
                    if name && unlabelled.is_none() {
                        unlabelled = Some(text);
                    }
                }
            }
            continue;
        }
        pending = None;
        for (index, (start, length, role)) in labels.iter().enumerate() {
            let from = found.get(start + length).map(|word| word.start);
            let until = labels
                .get(index + 1)
                .and_then(|next| found.get(next.0))
                .map_or(text.len(), |word| word.start);
            match from
                .filter(|from| *from < until)
                .and_then(|from| text.get(from..until))
            {
                Some(value) => title.keep(*role, value),
                None if index + 1 == labels.len() => pending = Some(*role),
                None => {}
            }
        }
    }
    // A supplier's name usually stands by itself on top; a label always beats it.
    title.supplier = title.supplier.or(unlabelled);
    title
}

impl Title {
    fn keep(&mut self, role: TitleRole, value: &str) {
        let value = value.trim_matches(|sign: char| {
            matches!(sign, ':' | '-' | ',' | ';' | '.' | '#' | ' ' | '|')
        });
        let value = value
            .strip_prefix("n° ")
            .or_else(|| value.strip_prefix("Nr. "))
            .or_else(|| value.strip_prefix("No. "))
            .unwrap_or(value);
        if value.is_empty() {
            return;
        }
        let has_digit = value.contains(|sign: char| sign.is_ascii_digit());
        let slot = match role {
            TitleRole::Supplier => &mut self.supplier,
            TitleRole::Delivery if has_digit => &mut self.delivery,
            TitleRole::Order if has_digit => &mut self.order,
            TitleRole::Vehicle if has_digit => &mut self.vehicle,
            TitleRole::Date => {
                self.date = self.date.or_else(|| date(value));
                return;
            }
            _ => return,
        };
        let first = if role == TitleRole::Supplier {
            value
        } else {
            first_name(value)
        };
        slot.get_or_insert_with(|| first.to_string());
    }
}

/// Words of file names that are no supplier's, beside the labels of the table.
const DOCUMENT_WORDS: [&str; 14] = [
    "delivery",
    "deliveries",
    "list",
    "lists",
    "manifest",
    "packing",
    "document",
    "copy",
    "final",
    "rev",
    "new",
    "sheet",
    "scan",
    "export",
];

/// The supplier that a file's name speaks of: what is left of it without figures and the words for documents; at least two
/// words, because a single one is as often a place or a material.
pub fn supplier_in_file_name(stem: &str) -> Option<String> {
    let spaced: String = stem
        .chars()
        .map(|sign| if sign.is_alphabetic() { sign } else { ' ' })
        .collect();
    let found = words(&spaced);
    let mut names = Vec::new();
    let mut at = 0;
    while let Some(word) = found.get(at) {
        match title_words::at(&found, at) {
            Some((length, _)) => at += length,
            None => {
                if word.raw.chars().count() > 1 && !DOCUMENT_WORDS.contains(&word.plain.as_str()) {
                    let mut letters = word.raw.chars();
                    let first = letters.next().into_iter().flat_map(char::to_uppercase);
                    names.push(first.chain(letters).collect::<String>());
                }
                at += 1;
            }
        }
    }
    (names.len() >= 2).then(|| names.join(" "))
}

/// The number or name that a label introduces ends where the next word does not belong to it ("PL-5512 Kestrel ...").
fn first_name(value: &str) -> &str {
    let mut end = 0;
    for part in value.split_inclusive(' ') {
        end += part.len();
        if part.contains(|sign: char| sign.is_ascii_digit()) {
            break;
        }
    }
    value
        .get(..end)
        .unwrap_or(value)
        .trim()
        .trim_end_matches([',', ';'])
}

/// Labels at the start of a cell, after a separator, or followed by a colon: their word, length and role.
fn labels(found: &[Word]) -> Vec<(usize, usize, TitleRole)> {
    let mut labels = Vec::new();
    let mut at = 0;
    while at < found.len() {
        match title_words::at(found, at) {
            Some((length, role)) => {
                labels.push((at, length, role));
                at += length;
            }
            None => at += 1,
        }
    }
    labels
}

/// A date that can be read in only one way: ISO, or day and month where one of them is above 12.
pub fn date(text: &str) -> Option<NaiveDate> {
    let text = text.trim();
    let token = text.split([' ', 'T']).next()?;
    if let Ok(date) = NaiveDate::parse_from_str(token, "%Y-%m-%d") {
        return Some(date);
    }
    let parts: Vec<u32> = token
        .split(['/', '.', '-'])
        .map(str::parse)
        .collect::<Result<_, _>>()
        .ok()?;
    let [first, second, year] = parts.as_slice() else {
        return None;
    };
    let year = i32::try_from(if *year < 100 { year + 2000 } else { *year }).ok()?;
    match (*first > 12, *second > 12) {
        (true, false) => NaiveDate::from_ymd_opt(year, *second, *first),
        (false, true) => NaiveDate::from_ymd_opt(year, *first, *second),
        (false, false) if first == second => NaiveDate::from_ymd_opt(year, *first, *second),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn title(cells: &[&str]) -> Title {
        read(&cells.iter().map(ToString::to_string).collect::<Vec<_>>())
    }

    #[test]
    fn labels_and_names() {
        let found = title(&[
            "Larkspur Bar & Beam",
            "Delivery Note DN-40718",
            "Deliver to: Kestrel Junction",
            "PO No: KJ-2207 Date: 14/09/2026 Trailer: TRL 318",
        ]);
        assert_eq!(found.supplier.as_deref(), Some("Larkspur Bar & Beam"));
        assert_eq!(found.delivery.as_deref(), Some("DN-40718"));
        assert_eq!(found.order.as_deref(), Some("KJ-2207"));
        assert_eq!(found.vehicle.as_deref(), Some("TRL 318"));
        assert_eq!(found.date, NaiveDate::from_ymd_opt(2026, 9, 14));
    }

    #[test]
    fn a_label_and_its_value_in_two_cells() {
        let found = title(&[
            "Lieferschein Nr.",
            "LS-88213",
            "Lieferant",
            "Morgenrain Stahlhandel",
        ]);
        assert_eq!(found.delivery.as_deref(), Some("LS-88213"));
        assert_eq!(found.supplier.as_deref(), Some("Morgenrain Stahlhandel"));
    }

    #[test]
    fn a_file_name_may_name_the_supplier() {
        let name = |stem: &str| supplier_in_file_name(stem);
        assert_eq!(
            name("larkspur-fork-steel-40271").as_deref(),
            Some("Larkspur Fork Steel")
        );
        assert_eq!(
            name("dunnock_vale packing list 12").as_deref(),
            Some("Dunnock Vale")
        );
        for stem in [
            "packing-list-4471",
            "delivery",
            "2026-11-25",
            "b",
            "steel 12",
        ] {
            assert_eq!(name(stem), None, "{stem}");
        }
    }

    #[test]
    fn a_vehicle_has_a_number() {
        assert_eq!(
            title(&["JOB 2231 KESTREL JUNCTION WAGON SHED"]).vehicle,
            None
        );
    }

    #[test]
    fn a_date_that_could_be_two_days_is_none() {
        assert_eq!(date("03/04/2026"), None);
        assert_eq!(date("2026-04-03"), NaiveDate::from_ymd_opt(2026, 4, 3));
    }
}
