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

/// Reads the rows above a table: each filled cell with its column. A label's value stands behind it in its cell, in the
/// next cell of the row, or below it.
pub fn read(rows: &[Vec<(u32, String)>]) -> Title {
    let mut title = Title::default();
    let mut unlabelled: Option<String> = None;
    let mut above: Vec<(u32, TitleRole)> = Vec::new();
    for row in rows {
        let mut open: Vec<(u32, TitleRole)> = Vec::new();
        let mut beside = false;
        for (at, (column, cell)) in row.iter().enumerate() {
            let text = tidy(&fold(cell));
            let found = words(&text);
            let labels = labels(&text, &found);
            if labels.is_empty() {
                let role = if beside {
                    open.pop()
                } else {
                    above.iter().copied().find(|(over, _)| over == column)
                };
                beside = false;
                match role {
                    Some((_, role)) => title.keep(role, &text),
                    // A name beside something else is as often the receiver's.
                    None if at == 0 && unlabelled.is_none() && may_be_a_name(&text) => {
                        unlabelled = Some(text)
                    }
                    None => {}
                }
                continue;
            }
            // "Ferriera Montecupo - Distinta colli 218": the name stands before the label.
            let before = labels
                .first()
                .and_then(|(first, ..)| text.get(..found.get(*first)?.start))
                .and_then(|before| before.trim_end().strip_suffix('-'))
                .map(str::trim);
            if let Some(name) = before.filter(|name| {
                at == 0 && unlabelled.is_none() && !name.is_empty() && may_be_a_name(name)
            }) {
                unlabelled = Some(name.to_string());
            }
            beside = false;
            for (index, (start, length, role)) in labels.iter().enumerate() {
                let from = found.get(start + length).map(|word| word.start);
                let until = labels
                    .get(index + 1)
                    .and_then(|next| found.get(next.0))
                    .map_or(text.len(), |word| word.start);
                match from
                    .filter(|from| *from < until)
                    .and_then(|from| text.get(from..until))
                    .filter(|value| !without_number_word(value).is_empty())
                {
                    Some(value) => title.keep(*role, value),
                    None if index + 1 == labels.len() => {
                        open.push((*column, *role));
                        beside = true;
                    }
                    None => {}
                }
            }
        }
        above = open;
    }
    // A supplier's name usually stands by itself on top; a label always beats it.
    title.supplier = title.supplier.or(unlabelled);
    title
}

/// Whether a text without a label may be a firm's name: no figures, no sentence, and no label that nobody knows.
fn may_be_a_name(text: &str) -> bool {
    let label = text.contains(':')
        || text
            .split(' ')
            .next_back()
            .is_some_and(|word| is_number_word(word) || word == "#");
    !label && !text.contains(|sign: char| sign.is_ascii_digit()) && text.split(' ').count() <= 8
}

/// `No.`, `Nr`, `n°`: words between a label and its number.
fn is_number_word(word: &str) -> bool {
    let word = word.trim_end_matches(['.', ':']).to_lowercase();
    matches!(
        word.as_str(),
        "no" | "nr" | "n" | "n°" | "nº" | "num" | "number" | "nummer" | "reg" | "registration"
    )
}

/// A text without the marks around it. A bracket at its end that closes one within belongs to it.
fn without_marks(text: &str) -> &str {
    const MARKS: [char; 10] = [':', '-', ',', ';', '.', '#', ' ', '|', '(', ')'];
    let mut text = text.trim_start_matches(MARKS);
    while let Some(rest) = text.strip_suffix(MARKS) {
        if text.ends_with(')') && text.matches('(').count() >= text.matches(')').count() {
            break;
        }
        text = rest;
    }
    text
}

/// A label's value without the marks and number words before it.
fn without_number_word(value: &str) -> &str {
    let mut value = value;
    loop {
        value = without_marks(value);
        match value.split_once([' ', ':', '.']) {
            Some((word, rest)) if is_number_word(word) => value = rest,
            None if is_number_word(value) => return "",
            _ => return value,
        }
    }
}

impl Title {
    fn keep(&mut self, role: TitleRole, value: &str) {
        let value = without_number_word(value);
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
        let whole = match role {
            TitleRole::Supplier => true,
            // A registration has several parts ("AB12 CDE").
            TitleRole::Vehicle => value.chars().count() <= LONGEST_VEHICLE,
            _ => false,
        };
        let kept = if whole { value } else { first_name(value) };
        slot.get_or_insert_with(|| kept.to_string());
    }
}

/// A registration, trailer or container number is no longer than this.
const LONGEST_VEHICLE: usize = 16;

/// Words of file names that are no supplier's, beside the labels of the table.
const DOCUMENT_WORDS: [&str; 34] = [
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
    "north",
    "south",
    "east",
    "west",
    "january",
    "february",
    "march",
    "april",
    "may",
    "june",
    "july",
    "august",
    "september",
    "october",
    "november",
    "december",
    "today",
    "morning",
    "test",
    "dims",
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

/// The labels of a cell: their word, length and role. Within a name any word may stand ("Consignor: Palisander Yard
/// Services"): there a label has a separator before it, or a colon or a number behind it.
fn labels(text: &str, found: &[Word]) -> Vec<(usize, usize, TitleRole)> {
    let mut labels: Vec<(usize, usize, TitleRole)> = Vec::new();
    let mut at = 0;
    while at < found.len() {
        let in_name = labels
            .last()
            .is_some_and(|(.., role)| matches!(role, TitleRole::Supplier | TitleRole::Consignee));
        match title_words::at(found, at)
            .filter(|(length, _)| !in_name || set_apart(text, found, at, *length))
        {
            Some((length, role)) => {
                labels.push((at, length, role));
                at += length;
            }
            None => at += 1,
        }
    }
    labels
}

fn set_apart(text: &str, found: &[Word], at: usize, length: usize) -> bool {
    let separator = |sign: char| matches!(sign, ',' | ';' | ':' | '|' | '-' | '/');
    let before = found
        .get(at)
        .and_then(|word| text.get(..word.start))
        .is_some_and(|before| before.trim_end().ends_with(separator));
    let last = found.get(at + length - 1);
    let behind = last
        .and_then(|last| text.get(last.start + last.raw.len()..))
        .is_some_and(|behind| behind.trim_start_matches('.').trim_start().starts_with(':'));
    let number = found
        .get(at + length)
        .is_some_and(|next| next.raw.contains(|sign: char| sign.is_ascii_digit()));
    before || behind || number
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
mod tests;
