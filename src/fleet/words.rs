//! Dates, classes, yes and no, attachments and places as a register writes them.

use super::Class;
use crate::tables::register_headings::{fold, meaning};
use chrono::NaiveDate;

/// Why a text is no usable date.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum NoDate {
    /// It is no date.
    Unreadable,
    /// Day and month, or the century, may be read two ways.
    TwoWays,
}

/// A date: `2026-03-25`, `25/03/2026`, `03/25/2026`, `25 March 2026`. `03/04/2026` reads two ways and is refused.
pub(super) fn date(text: &str) -> Result<NaiveDate, NoDate> {
    let folded = fold(text);
    let words: Vec<&str> = folded.split(' ').collect();
    let [first, second, third] = words.as_slice() else {
        return Err(NoDate::Unreadable);
    };
    let day_of = |year: &str, month: &str, day: &str| {
        let year = year.parse().ok()?;
        NaiveDate::from_ymd_opt(year, month.parse().ok()?, day.parse().ok()?)
    };
    let month_name = |word: &str| meaning("month", word);
    let full_year = |word: &str| word.len() == 4;
    let found = if full_year(first) {
        let month = month_name(second).unwrap_or(second);
        day_of(first, month, third)
    } else if !full_year(third) {
        return Err(if words.iter().all(|word| word.parse::<u32>().is_ok()) {
            NoDate::TwoWays
        } else {
            NoDate::Unreadable
        });
    } else if let Some(month) = month_name(second) {
        day_of(third, month, first)
    } else if let Some(month) = month_name(first) {
        day_of(third, month, second)
    } else {
        match (day_of(third, second, first), day_of(third, first, second)) {
            (Some(one), Some(other)) if one != other => return Err(NoDate::TwoWays),
            (one, other) => one.or(other),
        }
    };
    found.ok_or(NoDate::Unreadable)
}

/// A class: `V`, `5`, `Class V`, `ITA class 5`.
pub(super) fn class(text: &str) -> Option<Class> {
    let folded = fold(text);
    let mut number = folded
        .split(' ')
        .filter(|word| !["class", "klasse", "classe", "clase", "ita"].contains(word));
    let class = match number.next()? {
        "i" | "1" => Class::I,
        "ii" | "2" => Class::II,
        "iii" | "3" => Class::III,
        "iv" | "4" => Class::IV,
        "v" | "5" => Class::V,
        "vi" | "6" => Class::VI,
        "vii" | "7" => Class::VII,
        _ => return None,
    };
    number.next().is_none().then_some(class)
}

/// Yes or no, or a state of service: `yes`, `in service`, `out of service`.
/// Under a heading such as "out of service" a yes means that the truck is not available.
pub(super) fn flag(text: &str, asks_whether_out: bool) -> Option<bool> {
    match meaning("flag", &fold(text))? {
        "yes" => Some(!asks_whether_out),
        "no" => Some(asks_whether_out),
        "in" => Some(true),
        "out" => Some(false),
        _ => None,
    }
}

/// An attachment's name as written, spaces trimmed; none for bare forks.
pub(super) fn attachment(text: &str) -> Option<String> {
    let folded = fold(text);
    let bare = folded.is_empty() || meaning("bare", &folded).is_some();
    (!bare).then(|| text.trim().to_string())
}

/// What an attachment is compared by: folded, one name for the spellings of the table; none for bare forks.
pub(super) fn attachment_key(attachment: Option<&str>) -> Option<String> {
    let folded = fold(&self::attachment(attachment?)?);
    Some(meaning("on-forks", &folded).map_or(folded, str::to_string))
}

/// Whether a truck that wears this still lifts on its forks (bare, side-shift, fork positioner).
pub(super) fn lifts_on_forks(attachment: Option<&str>) -> bool {
    attachment.is_none_or(|name| {
        let folded = fold(name);
        meaning("bare", &folded).is_some() || meaning("on-forks", &folded).is_some()
    })
}

/// Places, lower case: `both` is indoor and outdoor, `indoor, yard 2` is two.
pub(super) fn places(text: &str) -> Vec<String> {
    let mut places = Vec::new();
    let whole = fold(text);
    if meaning("place", &whole) == Some("both") {
        return vec!["indoor".to_string(), "outdoor".to_string()];
    }
    for part in text.split([',', ';', '/', '+', '&', '\n']) {
        for place in place(part) {
            if !places.contains(&place) {
                places.push(place);
            }
        }
    }
    places
}

/// One place as it is compared.
fn place(text: &str) -> Vec<String> {
    let folded = fold(text);
    match meaning("place", &folded) {
        Some("both") => vec!["indoor".to_string(), "outdoor".to_string()],
        Some(known) => vec![known.to_string()],
        None if folded.is_empty() => Vec::new(),
        None => vec![folded],
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dates() {
        let day = |d| NaiveDate::from_ymd_opt(2026, 3, d).ok_or(NoDate::Unreadable);
        for (text, read) in [
            ("2026-03-25", day(25)),
            ("2026/03/04", day(4)),
            ("25/03/2026", day(25)),
            ("03/25/2026", day(25)),
            ("25.03.2026", day(25)),
            ("03.03.2026", day(3)),
            ("4 March 2026", day(4)),
            ("Mar 4, 2026", day(4)),
            ("04-Mär-2026", day(4)),
            ("4. März 2026", day(4)),
            ("03/04/2026", Err(NoDate::TwoWays)),
            ("25/03/26", Err(NoDate::TwoWays)),
            ("31/31/2026", Err(NoDate::Unreadable)),
            ("2026-02-30", Err(NoDate::Unreadable)),
            ("next week", Err(NoDate::Unreadable)),
            ("46000", Err(NoDate::Unreadable)),
        ] {
            assert_eq!(date(text), read, "{text}");
        }
    }

    #[test]
    fn classes() {
        // OSHA powered industrial truck eTool: classes I to VII.
        for (text, read) in [
            ("V", Some(Class::V)),
            ("Class iv", Some(Class::IV)),
            ("1", Some(Class::I)),
            ("ITA class 7", Some(Class::VII)),
            ("VIII", None),
            ("V or IV", None),
            ("reach", None),
        ] {
            assert_eq!(class(text), read, "{text}");
        }
    }

    #[test]
    fn flags_and_headings_that_ask_the_other_way() {
        for (text, asks_whether_out, read) in [
            ("Yes", false, Some(true)),
            ("no", false, Some(false)),
            ("OUT OF SERVICE", false, Some(false)),
            ("yes", true, Some(false)),
            ("no", true, Some(true)),
            ("out of service", true, Some(false)),
            ("maybe", false, None),
        ] {
            assert_eq!(flag(text, asks_whether_out), read, "{text}");
        }
    }

    #[test]
    fn attachments_and_places() {
        assert_eq!(attachment(" Bare forks "), None);
        assert_eq!(attachment("Clamp"), Some("Clamp".to_string()));
        assert_eq!(
            attachment_key(Some("Side-Shifter")),
            attachment_key(Some("sideshift"))
        );
        assert!(lifts_on_forks(None) && lifts_on_forks(Some("side shift")));
        assert!(!lifts_on_forks(Some("clamp")));
        assert_eq!(places("Both"), ["indoor", "outdoor"]);
        assert_eq!(places("Inside / Yard 2"), ["indoor", "yard 2"]);
    }
}
