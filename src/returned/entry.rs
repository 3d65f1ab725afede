//! What a row decides: its six cells, each checked.

use super::sheet::Row;
use super::typed;
use crate::history::DecisionKind;
use crate::read::Value;
use crate::report::workbook::{ENTRY_HEADINGS, decision_headings};
use crate::site::Units;
use crate::understand::title;
use crate::units::written::tidy;
use crate::units::{Mass, show};
use chrono::NaiveDate;

/// The days that a decision may be of, both included.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Days {
    /// First.
    pub from: NaiveDate,
    /// Last.
    pub to: NaiveDate,
}

/// What a row decides.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// What.
    pub kind: DecisionKind,
    /// Weight of the whole load, where the decision brings one.
    pub weight: Option<Mass>,
    /// What it rests on.
    pub evidence: Option<String>,
    /// Who decides, as typed.
    pub name: String,
    /// The day beside it.
    pub date: NaiveDate,
    /// Remark.
    pub remark: Option<String>,
}

/// The cells of a decision in their order.
const DECISION: usize = 0;
const WEIGHT: usize = 1;
const EVIDENCE: usize = 2;
const NAME: usize = 3;
const DATE: usize = 4;
const REMARK: usize = 5;

/// What a row decides; none where all its cells are blank; or everything that is wrong with them. `units` are those that the
/// program headed the weights in; `whole` where the row is of a whole delivery.
///
/// # Errors
/// Each with its cell, what was found, what it should be.
pub fn choice(
    row: &Row,
    days: Days,
    units: Units,
    whole: bool,
) -> Result<Option<Choice>, Vec<String>> {
    if row.entries.iter().all(Option::is_none) {
        return Ok(None);
    }
    let mut cells = Cells {
        row,
        against: Vec::new(),
    };
    let Some(kind) = cells.kind() else {
        return Err(cells.against);
    };
    let choice = Choice {
        kind,
        weight: cells.weight(kind, units, whole),
        evidence: cells.evidence(kind),
        name: cells.name(kind),
        date: cells.date(kind, days).unwrap_or(days.to),
        remark: cells.text(REMARK),
    };
    if cells.against.is_empty() {
        Ok(Some(choice))
    } else {
        Err(cells.against)
    }
}

/// The cells of a row, and what is wrong with those that were looked at.
struct Cells<'r> {
    row: &'r Row,
    against: Vec<String>,
}

impl<'r> Cells<'r> {
    fn value(&self, at: usize) -> Option<&'r Value> {
        self.row.entries[at].as_ref()
    }

    /// Says what is wrong with a cell.
    fn wrong<T>(&mut self, at: usize, why: &str) -> Option<T> {
        let place = &self.row.places[at];
        self.against.push(match self.value(at) {
            Some(value) => format!("{place}: found {}; {why}", quoted(&value.text())),
            None => format!("{place}: {why}"),
        });
        None
    }

    fn missing<T>(&mut self, at: usize, kind: DecisionKind, what: &str) -> Option<T> {
        let (words, heading) = (kind.words(), ENTRY_HEADINGS[at]);
        self.wrong(at, &format!("\"{words}\" needs {what} under \"{heading}\""))
    }

    fn kind(&mut self) -> Option<DecisionKind> {
        let Some(value) = self.value(DECISION) else {
            let filled = (0..ENTRY_HEADINGS.len()).filter(|at| self.value(*at).is_some());
            let filled: Vec<String> = filled
                .map(|at| format!("{} ({})", ENTRY_HEADINGS[at], self.row.places[at].cell()))
                .collect();
            return self.wrong(
                DECISION,
                &format!(
                    "nothing is decided here, but there is {}; choose a decision, or clear the rest",
                    filled.join(", ")
                ),
            );
        };
        match typed::decision(&value.text()) {
            Ok(kind) => Some(kind),
            Err(known) => self.wrong(DECISION, &format!("this is no decision: {known}")),
        }
    }

    fn weight(&mut self, kind: DecisionKind, units: Units, whole: bool) -> Option<Mass> {
        if whole && kind == DecisionKind::Weighed {
            return self.wrong(
                DECISION,
                "a whole delivery is not weighed at once; decide each line in a row of its own, or by its id with \"dockheft decide --line\"",
            );
        }
        match (self.value(WEIGHT), kind.brings_weight()) {
            (Some(_), false) => self.wrong(
                WEIGHT,
                &format!(
                    "\"{}\" takes no weight; clear it, or decide \"weighed\" or \"supplier corrected\"",
                    kind.words()
                ),
            ),
            (Some(_), true) if whole => self.wrong(
                WEIGHT,
                "one weight cannot stand for all lines of a delivery; clear it: each line is taken as the other unit makes it",
            ),
            (Some(value), true) => match mass(value, &self.row.weight_heading, units) {
                Ok(mass) => Some(mass),
                Err(why) => self.wrong(WEIGHT, &why),
            },
            (None, true) if !whole => self.missing(WEIGHT, kind, "the weight of the whole line"),
            (None, _) => None,
        }
    }

    fn evidence(&mut self, kind: DecisionKind) -> Option<String> {
        if kind.brings_weight() && self.value(EVIDENCE).is_none() {
            let what = "what it rests on (scale ticket 4471, letter of 25 Nov)";
            return self.missing(EVIDENCE, kind, what);
        }
        self.text(EVIDENCE)
    }

    fn name(&mut self, kind: DecisionKind) -> String {
        if self.value(NAME).is_none() {
            self.missing::<()>(NAME, kind, "a name");
            return String::new();
        }
        let name = self.text(NAME).unwrap_or_default();
        if name.chars().filter(|sign| sign.is_alphabetic()).count() < 2 {
            self.wrong::<()>(NAME, "this is no name; say who decides");
        }
        name
    }

    fn date(&mut self, kind: DecisionKind, days: Days) -> Option<NaiveDate> {
        let Days { from, to } = days;
        let day = match self.value(DATE) {
            None => return self.missing(DATE, kind, "its day"),
            Some(Value::Date(day)) => Some(day.date()),
            Some(Value::Text(text)) => title::date(text),
            Some(_) => None,
        };
        match day {
            None => self.wrong(
                DATE,
                &format!("this is no day that can be read in one way; write it like {from}"),
            ),
            Some(day) if day < from => self.wrong(
                DATE,
                &format!("{day} is before the audit ({from}); put in the day of the decision"),
            ),
            Some(day) if day > to => self.wrong(
                DATE,
                &format!(
                    "{day} is still to come (no day after {to}); put in the day of the decision"
                ),
            ),
            day => day,
        }
    }

    /// A text that somebody typed; a figure or a day as it reads.
    fn text(&mut self, at: usize) -> Option<String> {
        match self.value(at)? {
            Value::Error(_) | Value::Formula(_) => {
                self.wrong(at, "this is no text; type what it should say")
            }
            value => Some(tidy(&value.text())).filter(|text| !text.is_empty()),
        }
    }
}

/// A weight of a whole line: a figure in the unit of the heading, or with its own.
fn mass(value: &Value, heading: &str, units: Units) -> Result<Mass, String> {
    let [_, expected, ..] = decision_headings(units);
    // Somebody who changed the heading means its unit, somebody who did not see it the other.
    let unit = match heading.eq_ignore_ascii_case(&expected) {
        true => Ok(units),
        false => Err(format!(
            "the column is headed \"{heading}\" where \"{expected}\" was: write the unit beside the figure (\"2040 lb\")"
        )),
    };
    let no_weight = || "a weight is a figure above zero, of the whole line".to_string();
    match value {
        // A figure is one figure: it has no sign for thousands that could be one for decimals.
        Value::Number(figure) => {
            let mass = match unit? {
                Units::Us => Mass::from_lb(*figure),
                Units::Si => Mass::from_kg(*figure),
            };
            let is_weight = mass > Mass::ZERO && mass.kg().is_finite();
            is_weight.then_some(mass).ok_or_else(no_weight)
        }
        Value::Text(text) if text.chars().any(char::is_alphabetic) => typed::weight(text),
        Value::Text(text) => typed::weight(&format!("{text} {}", show::mass_unit(unit?))),
        _ => Err(no_weight()),
    }
}

/// A text in quotation marks, cut where it is long.
pub(super) fn quoted(text: &str) -> String {
    let text = tidy(text);
    let mut short: String = text.chars().take(60).collect();
    if short.len() < text.len() {
        short.push('…');
    }
    format!("\"{short}\"")
}
