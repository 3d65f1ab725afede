//! Addresses and dates as several kinds of workbooks write them.

use super::{MOST_COLUMNS, Merged, Value};

/// A date or date and time by ISO 8601; other texts stay texts.
pub(super) fn iso_date(text: &str) -> Value {
    let date =
        chrono::NaiveDateTime::parse_from_str(text.trim_end_matches('Z'), "%Y-%m-%dT%H:%M:%S%.f")
            .or_else(|_| {
                chrono::NaiveDate::parse_from_str(text, "%Y-%m-%d")
                    .map(|day| day.and_time(chrono::NaiveTime::MIN))
            });
    date.map_or_else(|_| Value::Text(text.into()), Value::Date)
}

/// Row and column of an address such as `C7` or `$C$7`, both from 1.
pub(super) fn address(text: &str) -> Option<(u32, u32)> {
    let text = text.trim().trim_start_matches('$');
    let letters = text.bytes().take_while(u8::is_ascii_alphabetic).count();
    let (letters, digits) = text.split_at(letters);
    let digits = digits.trim_start_matches('$');
    if letters.is_empty()
        || letters.len() > 3
        || !digits.bytes().all(|digit| digit.is_ascii_digit())
    {
        return None;
    }
    let column = letters.bytes().fold(0, |sum, letter| {
        sum * 26 + u32::from(letter.to_ascii_uppercase() - b'A') + 1
    });
    let row = digits.parse().ok()?;
    (row >= 1 && column <= MOST_COLUMNS).then_some((row, column))
}

/// A block such as `A4:A6`.
pub(super) fn block(text: &str) -> Option<Merged> {
    let (from, to) = text.split_once(':')?;
    let ((top, left), (bottom, right)) = (address(from)?, address(to)?);
    Some(Merged {
        top: top.min(bottom),
        left: left.min(right),
        bottom: top.max(bottom),
        right: left.max(right),
    })
}
