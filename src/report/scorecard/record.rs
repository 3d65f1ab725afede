//! The scorecard as records: `dockheft.scorecard/1` for all loads, each supplier, kind of goods, material, cause and month,
//! then `dockheft.decisions/1`. Weights are kilograms, ratios natural logarithms, times hours, whatever the user sees.

use super::words;
use crate::scorecard::{Course, Decisions, Scorecard, Tally};
use chrono::NaiveDate;
use serde::Serialize;

/// The JSON Schemas (2020-12) of these records: name and text.
pub const SCHEMAS: [(&str, &str); 2] = [
    (TALLY, include_str!("../schema/scorecard.json")),
    (DECISIONS, include_str!("../schema/decisions.json")),
];
const TALLY: &str = "dockheft.scorecard/1";
const DECISIONS: &str = "dockheft.decisions/1";

#[derive(Serialize)]
struct TallyRecord<'a> {
    schema: &'static str,
    by: &'static str,
    name: Option<&'a str>,
    #[serde(flatten)]
    tally: &'a Tally,
    #[serde(skip_serializing_if = "Option::is_none")]
    course: Option<CourseRecord>,
    #[serde(skip_serializing_if = "Option::is_none")]
    left_out: Option<usize>,
    #[serde(skip_serializing_if = "Option::is_none")]
    cause: Option<&'a str>,
}

#[derive(Serialize)]
#[serde(tag = "kind", rename_all = "kebab-case")]
enum CourseRecord {
    TooFew {
        deliveries: usize,
    },
    Steady {
        level_ln: f64,
        biased: bool,
        deliveries: usize,
    },
    Moved {
        since: NaiveDate,
        before_ln: f64,
        after_ln: f64,
        deliveries_before: usize,
        deliveries: usize,
    },
}

#[derive(Serialize)]
struct DecisionsRecord<'a> {
    schema: &'static str,
    today: NaiveDate,
    #[serde(flatten)]
    decisions: &'a Decisions,
}

/// One record a line (NDJSON).
///
/// # Errors
/// When a figure cannot be written as JSON, which would be a fault of the program.
pub fn write(card: &Scorecard) -> serde_json::Result<String> {
    let of = |by, name, tally| TallyRecord {
        schema: TALLY,
        by,
        name,
        tally,
        course: None,
        left_out: None,
        cause: None,
    };
    let mut records = vec![of("all", None, &card.all)];
    for one in &card.suppliers {
        records.push(TallyRecord {
            course: one.course.map(CourseRecord::from),
            left_out: Some(one.left_out),
            cause: one.cause.as_ref().map(|(kind, _)| kind.as_str()),
            ..of("supplier", one.name.as_deref(), &one.tally)
        });
    }
    for (by, rows) in [("goods", &card.goods), ("material", &card.materials)] {
        records.extend(
            rows.iter()
                .map(|(name, tally)| of(by, name.as_deref(), tally)),
        );
    }
    records.extend((card.causes.iter()).map(|(kind, tally)| of("cause", Some(kind), tally)));
    let months: Vec<String> = (card.months.iter())
        .map(|(month, _)| words::month(*month))
        .collect();
    let by_month = months.iter().zip(&card.months);
    records.extend(by_month.map(|(name, (_, tally))| of("month", Some(name), tally)));
    let mut text = String::new();
    for record in &records {
        text.push_str(&serde_json::to_string(record)?);
        text.push('\n');
    }
    let decisions = DecisionsRecord {
        schema: DECISIONS,
        today: card.today,
        decisions: &card.decisions,
    };
    text.push_str(&serde_json::to_string(&decisions)?);
    text.push('\n');
    Ok(text)
}

impl From<Course> for CourseRecord {
    fn from(course: Course) -> CourseRecord {
        match course {
            Course::TooFew { deliveries } => CourseRecord::TooFew { deliveries },
            Course::Steady {
                level,
                biased,
                deliveries,
            } => CourseRecord::Steady {
                level_ln: level,
                biased,
                deliveries,
            },
            Course::Moved(one) => CourseRecord::Moved {
                since: one.since,
                before_ln: one.before,
                after_ln: one.after,
                deliveries_before: one.deliveries_before,
                deliveries: one.deliveries,
            },
        }
    }
}
