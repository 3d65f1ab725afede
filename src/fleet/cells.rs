//! One cell of the register: what it says, or what is wrong with it.

use super::Class;
use super::columns::{Column, Field};
use super::figure::{Refused, numeric, size};
use super::show;
use super::words::{NoDate, attachment, attachment_key, class, date, flag, places};
use crate::read::Value;
use crate::site::Units;
use crate::tables::register_headings::{fold, meaning};
use crate::units::{Length, Mass, at_most};
use chrono::NaiveDate;

/// What a cell says.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Said {
    Mass(Mass),
    Length(Length),
    Text(String),
    Flag(bool),
    Date(NaiveDate),
    Class(Class),
    Places(Vec<String>),
    /// None means bare forks, said so.
    Attachment(Option<String>),
}

/// What was found, and what to do about it.
#[derive(Clone, Debug, PartialEq)]
pub(super) struct Words {
    pub found: String,
    pub remedy: String,
}

/// What was found, and what to do about it.
pub(super) fn words(found: impl Into<String>, remedy: impl Into<String>) -> Words {
    Words {
        found: found.into(),
        remedy: remedy.into(),
    }
}

/// What is wrong with a cell.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Wrong {
    /// Neither the cell nor its heading states a unit; gathered by column.
    NoUnit,
    /// Anything else.
    Because(Words),
}

/// What a cell says under its column; none when it is blank, a dash, or "unknown" for a size.
pub(super) fn said(value: &Value, column: &Column) -> Result<Option<Said>, Wrong> {
    let because = |words: Words| Err(Wrong::Because(words));
    let name = column.field.name();
    let text = value.text();
    let text = text.trim();
    match value {
        Value::Error(error) => {
            return because(words(
                format!("{name} holds the error {error}"),
                "enter the value",
            ));
        }
        Value::Formula(_) => {
            return because(words(
                format!("{name} holds a formula without a result"),
                "open and save the file in a spreadsheet program, or enter the value",
            ));
        }
        _ => {}
    }
    if blank(text, column.field) {
        return Ok(None);
    }
    if let Some(mass) = column.field.is_mass() {
        let si = match value {
            Value::Number(number) => numeric(*number, column.unit, mass),
            _ => size(text, column.unit, mass),
        };
        return match si {
            Ok(si) => plausible(si, text, column.field).map(Some),
            Err(Refused::NoUnit) => Err(Wrong::NoUnit),
            Err(why) => because(refused(why, text, name, mass)),
        };
    }
    let said = match column.field {
        Field::Class => class(text).map(Said::Class).ok_or_else(|| {
            words(
                format!("class \"{text}\" is not one of I to VII"),
                "enter the class, or leave it blank",
            )
        }),
        Field::Available | Field::VerticalMast => {
            yes_or_no(value, text, false).ok_or_else(|| no_flag(text, name))
        }
        Field::Unavailable => yes_or_no(value, text, true).ok_or_else(|| no_flag(text, name)),
        Field::OutUntil | Field::InspectionDue => day(value, text).map_err(|why| match why {
            NoDate::TwoWays => words(
                format!("{name} \"{text}\" can be read as two dates"),
                "write it as YYYY-MM-DD",
            ),
            NoDate::Unreadable => words(
                format!("{name} \"{text}\" is no date"),
                "write it as YYYY-MM-DD",
            ),
        }),
        Field::Fitted | Field::Attachment => Ok(Said::Attachment(attachment(text))),
        Field::Places => where_it_works(text).map(Said::Places),
        _ => Ok(Said::Text(text.to_string())),
    };
    said.map(Some).map_err(Wrong::Because)
}

/// Whether two statements are the same; sizes may differ by `slack`, relative.
pub(super) fn same(one: &Said, other: &Said, slack: f64) -> bool {
    let near = |a: f64, b: f64| at_most(a, b * (1.0 + slack)) && at_most(b, a * (1.0 + slack));
    match (one, other) {
        (Said::Mass(a), Said::Mass(b)) => near(a.kg(), b.kg()),
        (Said::Length(a), Said::Length(b)) => near(a.m(), b.m()),
        (Said::Text(a), Said::Text(b)) => fold(a) == fold(b),
        (Said::Attachment(a), Said::Attachment(b)) => {
            attachment_key(a.as_deref()) == attachment_key(b.as_deref())
        }
        (Said::Places(a), Said::Places(b)) => {
            a.len() == b.len() && a.iter().all(|place| b.contains(place))
        }
        _ => one == other,
    }
}

/// How a statement reads in a fault.
pub(super) fn worded(said: &Said, units: Units) -> String {
    match said {
        Said::Mass(mass) => show::down(*mass, units),
        Said::Length(length) => show::length(*length, units),
        Said::Text(text) => format!("\"{text}\""),
        Said::Flag(true) => "yes".to_string(),
        Said::Flag(false) => "no".to_string(),
        Said::Date(date) => date.to_string(),
        Said::Class(class) => format!("class {class:?}"),
        Said::Places(places) => places.join(" and "),
        Said::Attachment(None) => "bare forks".to_string(),
        Said::Attachment(Some(name)) => format!("\"{name}\""),
    }
}

fn blank(text: &str, field: Field) -> bool {
    let folded = fold(text);
    match meaning("blank", &folded) {
        Some("any") => true,
        Some(_) => field.is_mass().is_some(),
        None => folded.is_empty(),
    }
}

/// Places of the site's own may stand beside the known words; a cell of unknown words alone would keep the truck from every
/// lift unseen.
fn where_it_works(text: &str) -> Result<Vec<String>, Words> {
    let places = places(text);
    let known = places.iter().any(|place| meaning("place", place).is_some());
    if known {
        return Ok(places);
    }
    Err(words(
        format!("where it may work, \"{text}\", is not known"),
        "write indoor, outdoor or both, or leave it blank",
    ))
}

fn yes_or_no(value: &Value, text: &str, asks_whether_out: bool) -> Option<Said> {
    match value {
        Value::Bool(truth) => Some(Said::Flag(*truth != asks_whether_out)),
        _ => flag(text, asks_whether_out).map(Said::Flag),
    }
}

fn no_flag(text: &str, name: &str) -> Words {
    words(
        format!("{name} \"{text}\" is neither yes nor no"),
        "write yes or no, or leave it blank",
    )
}

fn day(value: &Value, text: &str) -> Result<Said, NoDate> {
    match value {
        Value::Date(date) => Ok(Said::Date(date.date())),
        Value::Text(_) => date(text).map(Said::Date),
        _ => Err(NoDate::Unreadable),
    }
}

fn refused(why: Refused, text: &str, name: &str, mass: bool) -> Words {
    let kind = if mass { "weight" } else { "length" };
    let example = if mass {
        "5000 lb or 2500 kg"
    } else {
        "24 in or 600 mm"
    };
    match why {
        Refused::TwoWays => words(
            format!("{name} \"{text}\" can be read two ways (thousands or decimals)"),
            format!("write it without the mark, such as {example}"),
        ),
        Refused::WrongUnit => words(
            format!("{name} \"{text}\" stands in a unit that is none of {kind}"),
            format!("write it as {example}"),
        ),
        Refused::WhichTon => words(
            format!("{name} \"{text}\": a ton may be 2,000 lb, 2,240 lb or 1,000 kg"),
            "write it in lb or kg",
        ),
        Refused::Unreadable | Refused::NoUnit => words(
            format!("{name} \"{text}\" is no {kind}"),
            format!("write it as {example}"),
        ),
    }
}

/// Sizes a lift truck can have, kilograms or metres; wide, to catch a wrong unit. Common practice, no source.
fn plausible(si: f64, text: &str, field: Field) -> Result<Said, Wrong> {
    let name = field.name();
    let (low, high) = match field {
        Field::Capacity => (20.0, 100_000.0),
        Field::Service => (20.0, 200_000.0),
        Field::LoadCentre => (0.1, 3.0),
        Field::LiftHeight => (0.05, 20.0),
        Field::ForkLength => (0.2, 5.0),
        Field::Axle => (0.0, 2.0),
        _ => (0.5, 10.0),
    };
    if si <= 0.0 && field != Field::Axle {
        return Err(Wrong::Because(words(
            format!("{name} \"{text}\" is not more than zero"),
            "enter what the plate or the maker states",
        )));
    }
    if !(low..=high).contains(&si) {
        return Err(Wrong::Because(words(
            format!("{name} \"{text}\" is not one a lift truck can have"),
            "check the figure and its unit",
        )));
    }
    Ok(match field.is_mass() {
        Some(true) => Said::Mass(Mass::from_kg(si)),
        _ => Said::Length(Length::from_m(si)),
    })
}
