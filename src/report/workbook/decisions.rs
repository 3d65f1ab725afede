//! The columns for decisions: their lists, hints and checks; and the mark that a row is known by when it comes back, whatever was
//! sorted, filtered, moved or renamed in between.

use super::cell::{Cell, clean};
use super::table::{Column, Rule, column};
use crate::hash;
use crate::history::DECISIONS;
use crate::site::Units;
use crate::units::show;
use chrono::{Datelike, NaiveDate};
use rust_xlsxwriter::{
    DataValidation, DataValidationErrorStyle, DataValidationRule, Formula, XlsxError,
};
use std::borrow::Cow;
use std::fmt;

/// Heading of the column with the line's id, as the command line and the records have it; [`WHOLE`] in a row of a delivery.
pub const LINE_HEADING: &str = "Line";
/// What stands for the line's id in a row of a whole delivery.
pub const WHOLE: &str = "all its lines";
/// Heading of the column with the row's mark.
pub const MARK_HEADING: &str = "Mark (leave as it is)";
/// Headings of the decision columns; that of the weight goes on with its unit.
pub const ENTRY_HEADINGS: [&str; 6] = [
    "Decision",
    "Weight",
    "Evidence",
    "Decided by",
    "Date",
    "Remark",
];
const WIDTHS: [f64; 6] = [13.0, 9.0, 12.0, 10.0, 10.0, 11.0];

/// Headings of the decision columns: Decision, Weight (of the whole line), Evidence, Decided by, Date, Remark.
pub fn decision_headings(units: Units) -> [String; 6] {
    ENTRY_HEADINGS.map(|heading| match heading {
        "Weight" => format!("Weight ({})", show::mass_unit(units)),
        heading => heading.to_string(),
    })
}

/// The decision columns, the line's id, the mark.
pub(super) fn columns(units: Units) -> impl Iterator<Item = Column> {
    let entries = decision_headings(units).into_iter().zip(WIDTHS);
    let known = [(LINE_HEADING, 18.0), (MARK_HEADING, 15.0)];
    let known = known.map(|(heading, width)| (heading.to_string(), width));
    entries
        .chain(known)
        .map(|(heading, width)| column(heading, width))
}

/// Empty cells to decide in.
pub(super) fn entries<'a>() -> [Cell<'a>; 6] {
    [
        Cell::Entry,
        Cell::Entry,
        Cell::Entry,
        Cell::Entry,
        Cell::DateEntry,
        Cell::Entry,
    ]
}

/// What a spreadsheet program says and checks while somebody decides; `first` is the column of the decision, from 0. It is a
/// help: what comes back is checked again.
pub(super) fn rules(first: u16, date: NaiveDate, units: Units) -> Result<[Rule; 6], XlsxError> {
    let hint = |rule: DataValidation, title: &str, message: &str| {
        rule.set_input_title(title)?.set_input_message(message)
    };
    let checked = |rule: DataValidation, title: &str, message: &str| {
        let rule = rule.set_error_title(title)?.set_error_message(message)?;
        Ok::<_, XlsxError>(rule.set_error_style(DataValidationErrorStyle::Stop))
    };
    let (unit, other) = match units {
        Units::Us => ("lb", "925.5 kg"),
        Units::Si => ("kg", "2040 lb"),
    };
    let weight = crate::place::column_letters(u32::from(first) + 2);
    let a_weight = format!("=OR(ISTEXT({weight}2),AND(ISNUMBER({weight}2),{weight}2>0))");
    let day = |text: String| Formula::new(text);
    let a_day = DataValidationRule::Between(
        day(format!(
            "=DATE({},{},{})",
            date.year(),
            date.month(),
            date.day()
        )),
        day("=TODAY()+1".to_string()),
    );
    let rules = [
        checked(
            hint(
                DataValidation::new().allow_list_strings(&DECISIONS.map(|(_, words)| words))?,
                "Decision",
                "accept declared: plan with the declared weight. use estimate: with the estimate and its margin. weighed, supplier corrected: with the weight you give. refused: not lifted.",
            )?,
            "Decision",
            "Choose one of the list.",
        )?,
        checked(
            hint(
                DataValidation::new().allow_custom(Formula::new(a_weight)),
                "Weight",
                &format!(
                    "Only with \"weighed\" or \"supplier corrected\": of the whole line or package, packaging included, in {unit}; or with its own unit: {other}."
                ),
            )?,
            "Weight",
            "A weight is a figure above zero, or a figure with its unit.",
        )?,
        hint(
            DataValidation::new(),
            "Evidence",
            "Needed with \"weighed\" and \"supplier corrected\", and where the plan gets lighter than the least expected: scale ticket 4471, letter of 25 Nov. The supplier's first list is none.",
        )?,
        checked(
            hint(
                DataValidation::new()
                    .allow_text_length(DataValidationRule::GreaterThanOrEqualTo(2)),
                "Decided by",
                "Needed with every decision: who decides.",
            )?,
            "Decided by",
            "Write the name in full.",
        )?,
        checked(
            hint(
                DataValidation::new().allow_date_formula(a_day),
                "Date",
                &format!("Needed with every decision: its day, from {date} on."),
            )?,
            "Date",
            &format!("A day from {date} to today."),
        )?,
        hint(
            DataValidation::new(),
            "Remark",
            "Whatever else should stay on record.",
        )?,
    ];
    let mut at = first;
    Ok(rules.map(|rule| {
        let column = at;
        at += 1;
        Rule { column, rule }
    }))
}

/// What a row is known by: the audit, what the row is of, and a check over both and every cell that the program wrote in it.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Mark {
    /// Id of the audit.
    pub audit: String,
    /// Id of the line or package, or of a whole delivery ([`whole_id`]).
    pub load: String,
    /// 8 hexadecimal digits.
    pub check: String,
}

impl Mark {
    /// The mark of a row by its filled cells: heading and text, in any order.
    pub fn of(audit: &str, load: &str, cells: &[(String, String)]) -> Mark {
        let mut cells: Vec<[String; 2]> = cells
            .iter()
            .map(|(heading, text)| [plain(heading), plain(text)])
            .collect();
        cells.sort_unstable();
        let mut whole = Vec::new();
        let parts = cells.iter().flatten();
        let parts = parts.map(|part| part.as_str());
        for part in [audit, load].into_iter().chain(parts) {
            whole.extend((part.len() as u64).to_be_bytes());
            whole.extend(part.as_bytes());
        }
        Mark {
            audit: audit.to_string(),
            load: load.to_string(),
            check: hash::short(&whole).chars().take(8).collect(),
        }
    }

    /// A mark as a cell has it.
    pub fn parse(text: &str) -> Option<Mark> {
        let text = text.trim().to_lowercase();
        let mut parts = text.split('-');
        let mut part = |digits: usize| {
            let part = parts.next()?;
            let fits = part.len() == digits && part.bytes().all(|digit| digit.is_ascii_hexdigit());
            fits.then(|| part.to_string())
        };
        let (audit, load, check) = (part(16)?, part(16)?, part(8)?);
        parts
            .next()
            .is_none()
            .then_some(Mark { audit, load, check })
    }
}

impl fmt::Display for Mark {
    fn fmt(&self, to: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(to, "{}-{}-{}", self.audit, self.load, self.check)
    }
}

/// What a row of a whole delivery is known by: a hash of the cause that it asks about and of the ids of all its loads, in their
/// order; 16 hexadecimal digits.
pub fn whole_id<'i>(cause: &'i str, loads: impl Iterator<Item = &'i str>) -> String {
    let parts: Vec<&str> = std::iter::once(cause).chain(loads).collect();
    hash::short(parts.join(" ").as_bytes())
}

/// The cause that a finding on a whole delivery asks about, where one answer settles all lines that have it.
pub fn whole_cause(code: &str) -> Option<&'static str> {
    (code == "column-contradicted").then_some("kg-lb")
}

/// Signs of a text that count: readers cut long texts.
const SIGNS: usize = 1_000;

/// A text as it is compared: whatever a spreadsheet program does to its blanks, or to a figure kept as text, is no change.
pub fn plain(text: &str) -> String {
    let digits = text.trim().replace(',', "");
    let is_figure = digits.contains(|sign: char| sign.is_ascii_digit())
        && digits
            .bytes()
            .all(|sign| sign.is_ascii_digit() || b".-".contains(&sign));
    match digits.parse::<f64>() {
        // To ten digits, because programs keep fewer than all.
        Ok(figure) if is_figure => format!("{:.9e}", if figure == 0.0 { 0.0 } else { figure }),
        _ => {
            let text = text.split_whitespace().collect::<Vec<_>>().join(" ");
            text.chars().take(SIGNS).collect()
        }
    }
}

/// The text of a cell of our own.
pub(super) fn text_of<'c>(cell: &'c Cell<'_>) -> Cow<'c, str> {
    match cell {
        Cell::Blank | Cell::Entry | Cell::DateEntry => Cow::Borrowed(""),
        Cell::Text(text)
        | Cell::Strong(text)
        | Cell::Small(text)
        | Cell::Across(text)
        | Cell::Link(text, _) => clean(text),
        Cell::Figure(figure)
        | Cell::Share(figure)
        | Cell::Part(figure)
        | Cell::Off(figure)
        | Cell::Exact(figure)
        | Cell::Input(figure) => Cow::Owned(figure.to_string()),
        Cell::Live(_, result) | Cell::Seen(_, result) => Cow::Owned(result.to_string()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(of: &[(&str, &str)]) -> Vec<(String, String)> {
        let owned = of.iter().map(|(a, b)| (a.to_string(), b.to_string()));
        owned.collect()
    }

    #[test]
    fn a_mark_holds_ids_and_cells_in_any_order() {
        let (audit, load) = ("0123456789abcdef", "fedcba9876543210");
        let mark = Mark::of(audit, load, &cells(&[("Item", "7"), ("Lifts", "2")]));
        let moved = Mark::of(audit, load, &cells(&[("Lifts", "2"), ("Item", "7")]));
        assert_eq!(mark, moved);
        assert_eq!(
            Mark::parse(&format!(" {mark} ").to_uppercase()),
            Some(mark.clone())
        );
        let others = [
            Mark::of(load, audit, &cells(&[("Item", "7"), ("Lifts", "2")])),
            Mark::of(audit, load, &cells(&[("Item", "7"), ("Lifts", "3")])),
            Mark::of(audit, load, &cells(&[("Item", "2"), ("Lifts", "7")])),
            Mark::of(audit, load, &cells(&[("Item", "7Lifts"), ("", "2")])),
        ];
        for other in others {
            assert_ne!(other.check, mark.check);
        }
    }

    #[test]
    fn what_is_no_mark_is_none() {
        for text in [
            "",
            "0123456789abcdef",
            "0123456789abcdef-fedcba9876543210",
            "0123456789abcdef-fedcba9876543210-0123456",
            "0123456789abcdef-fedcba9876543210-01234567-",
            "0123456789abcdeg-fedcba9876543210-01234567",
            "é123456789abcde-fedcba9876543210-01234567",
        ] {
            assert_eq!(Mark::parse(text), None, "{text}");
        }
    }

    #[test]
    fn blanks_and_ways_to_keep_a_figure_are_no_change() {
        for (one, other) in [
            ("two\nlines ", "two lines"),
            ("3,894", "3894"),
            ("-0", "0"),
            ("a\u{a0}b", "a b"),
        ] {
            assert_eq!(plain(one), plain(other), "{one}");
        }
        assert_eq!(
            plain(&0.1_f64.to_string()),
            plain(&(0.3_f64 - 0.2).to_string())
        );
        for (one, other) in [("1-2", "12"), ("1.5", "15"), ("inf", "1"), ("G8", "G9")] {
            assert_ne!(plain(one), plain(other), "{one}");
        }
    }
}
