//! What the suppliers are asked: one question for all lines of one cause, and of the questions one text a supplier, ready to send.
//! Comes in: deliveries as seen. Goes out: questions and the paragraphs of the texts. Decides nothing.

mod letter;

pub use letter::{Letter, Paragraph, Part, letters};

use super::loads::{Load, View, worst_first};
use super::words::{self, Task};
use crate::judge::{Finding, Severity};
use crate::place::{Place, column_letters};
use crate::understand::How;
use std::cmp::Reverse;
use std::collections::HashMap;

/// Findings on a whole delivery that only its supplier can settle; those of its lines are not asked again.
const OF_THE_WHOLE: [&str; 8] = [
    "column-contradicted",
    "duplicate-line",
    "over-road-limit",
    "piece-weights-differ",
    "reading-assumed",
    "reading-remark",
    "total-differs",
    "weights-copied-down",
];

/// Letters of a description that are repeated where its cell is named too.
const MOST_LETTERS: usize = 160;

/// A question to a supplier about a delivery.
#[derive(Debug)]
pub struct Question<'a> {
    /// The supplier, as the row or the delivery names it.
    pub supplier: &'a str,
    /// The worst that hangs on it.
    pub urgency: Severity,
    /// What was found on the delivery as a whole, where the question is about that.
    pub found: Vec<&'a str>,
    /// The question.
    pub ask: &'static str,
    /// The lines and packages that it is about, worst first; none where it is about the whole list.
    pub loads: Vec<Load<'a>>,
}

impl Question<'_> {
    /// As it is put on the telephone: "PO 4711, K15, A-4, UPN 200 and 3 more lines: is the weight in kilograms or in pounds? (STOP)"
    pub fn in_words(&self, view: &View<'_>) -> String {
        let mut parts: Vec<String> = Vec::from_iter(view.delivery.reading.order.clone());
        match (self.found.split_first(), self.loads.split_first()) {
            (Some((found, [])), _) => parts.push(found.to_string()),
            (Some((found, others)), _) => {
                parts.push(format!("{found} and {} more of the kind", others.len()))
            }
            (None, Some((worst, others))) => parts.push(with_others(*worst, others.len())),
            (None, None) => {}
        }
        let stop = match self.urgency {
            Severity::Stop => " (STOP)",
            _ => "",
        };
        format!("{}: {}{stop}", parts.join(", "), self.ask)
    }
}

/// The questions about a delivery, worst first.
pub fn of<'a>(view: &View<'a>) -> Vec<Question<'a>> {
    let mut questions: Vec<Question<'a>> = Vec::new();
    let mut asked: HashMap<(&str, &str), usize> = HashMap::new();
    let supplier = words::supplier(view.delivery, None);
    for finding in view.delivery.findings.iter().filter(|one| is_asked(one)) {
        let ask = words::asked(finding);
        let at = *asked.entry((finding.code, ask)).or_insert(questions.len());
        if at == questions.len() {
            questions.push(Question {
                supplier,
                urgency: finding.severity,
                found: Vec::new(),
                ask,
                loads: Vec::new(),
            });
        }
        if let Some(question) = questions.get_mut(at) {
            question.urgency = question.urgency.max(finding.severity);
            question.found.push(words::told(&finding.message));
            question.loads.extend(contradicted(view, finding));
        }
    }
    asked.clear();
    for load in flagged(view) {
        let Task::Supplier { ask, .. } = words::task(load) else {
            continue;
        };
        let supplier = words::supplier(view.delivery, Some(load));
        let at = *asked.entry((supplier, ask)).or_insert(questions.len());
        match questions.get_mut(at) {
            Some(question) => question.loads.push(load),
            None => questions.push(Question {
                supplier,
                urgency: load.severity().unwrap_or(Severity::Check),
                found: Vec::new(),
                ask,
                loads: vec![load],
            }),
        }
    }
    questions.sort_by_key(|question| Reverse(question.urgency));
    questions
}

/// Whether a finding on a whole delivery is put to its supplier.
pub fn is_asked(finding: &Finding) -> bool {
    // Of what was odd in reading the list, much is for our own people.
    let for_supplier = finding.code != "reading-remark" || finding.message.contains("ask ");
    finding.severity >= Severity::Check && OF_THE_WHOLE.contains(&finding.code) && for_supplier
}

/// What our own people have to do about a delivery, worst first: the load and the order.
pub fn own_tasks<'a>(view: &View<'a>) -> Vec<(Load<'a>, String)> {
    let tasks = flagged(view)
        .into_iter()
        .map(|load| (load, words::task(load)));
    tasks
        .filter_map(|(load, task)| match task {
            Task::Own(order) => Some((load, order)),
            Task::Supplier { .. } => None,
        })
        .collect()
}

/// What somebody has to look at, worst first, without the lines of a column that is asked about as a whole.
fn flagged<'a>(view: &View<'a>) -> Vec<Load<'a>> {
    let mut flagged: Vec<Load<'a>> = view
        .loads()
        .filter(|load| load.flagged() && !is_contradicted(*load))
        .collect();
    flagged.sort_by(|one, other| worst_first(*one, *other));
    flagged
}

fn is_contradicted(load: Load<'_>) -> bool {
    load.declared()
        .is_some_and(|declared| declared.how == How::Contradicted)
}

/// The lines whose weights stand in the column that a finding speaks of.
fn contradicted<'a>(view: &View<'a>, finding: &Finding) -> Vec<Load<'a>> {
    let of_column = |load: &Load<'_>| {
        let column = column_letters(load.weight_place().column);
        is_contradicted(*load) && finding.field.as_ref() == Some(&column)
    };
    view.loads().filter(of_column).collect()
}

/// The cell of the weight, the item number where there is one, the description: "K15, A-4, UPN 200".
pub fn named(load: Load<'_>) -> String {
    let (cell, description) = (load.weight_place().cell(), load.description());
    let description = words::short(&description, MOST_LETTERS);
    let parts = [cell.as_str(), load.item(), &description];
    let given = parts.into_iter().filter(|part| !part.is_empty());
    given.collect::<Vec<_>>().join(", ")
}

/// Loads with what is said of each, those of which the same is said together: "K15, A-4, UPN 200 and 3 more lines: weigh it."
pub fn together<'a>(said: impl IntoIterator<Item = (Load<'a>, String)>) -> Vec<String> {
    let mut groups: Vec<(Load<'a>, usize, String)> = Vec::new();
    let mut of_text: HashMap<String, usize> = HashMap::new();
    for (load, text) in said {
        let at = *of_text.entry(text.clone()).or_insert(groups.len());
        match groups.get_mut(at) {
            Some((_, more, _)) => *more += 1,
            None => groups.push((load, 0, text)),
        }
    }
    let texts = groups
        .into_iter()
        .map(|(load, more, text)| format!("{}: {text}", with_others(load, more)));
    texts.collect()
}

fn with_others(load: Load<'_>, more: usize) -> String {
    match more {
        0 => named(load),
        more => format!("{} and {}", named(load), words::count(more, "more line")),
    }
}

/// The cells of loads as runs down their columns: "K7 to K12", "K15".
pub fn cells<'a>(loads: impl IntoIterator<Item = Load<'a>>) -> Vec<String> {
    let mut places: Vec<&Place> = loads.into_iter().map(Load::weight_place).collect();
    places.sort_by_key(|place| (place.column, place.row));
    let mut runs: Vec<(&Place, &Place)> = Vec::new();
    for place in places {
        match runs.last_mut() {
            Some((_, last)) if last.column == place.column && place.row - last.row <= 1 => {
                *last = place;
            }
            _ => runs.push((place, place)),
        }
    }
    let run = |(first, last): (&Place, &Place)| match last.row - first.row {
        0 => first.cell(),
        _ => format!("{} to {}", first.cell(), last.cell()),
    };
    runs.into_iter().map(run).collect()
}

#[cfg(test)]
mod whole_lists;

#[cfg(test)]
mod tests {
    use super::super::testing;
    use super::*;
    use crate::audit::Delivery;

    fn delivery() -> Delivery {
        testing::audit().deliveries.remove(0)
    }

    #[test]
    fn one_question_for_all_lines_of_one_cause() {
        let mut delivery = delivery();
        let light = delivery.lines[2].clone();
        for row in 20..420 {
            let mut line = light.clone();
            let declared = line.declared.as_mut().expect("a weight");
            declared.place.row = row;
            delivery.lines.push(line);
        }
        let view = View::new(&delivery);
        let questions = of(&view);
        let units = "is the weight in kilograms or in pounds?";
        let about: Vec<_> = questions.iter().filter(|one| one.ask == units).collect();
        assert_eq!(about.len(), 1);
        assert_eq!(about[0].loads.len(), 401);
        assert_eq!(cells(about[0].loads.iter().copied()), ["G8", "G20 to G419"]);
    }

    /// Another name in a row's supplier cell is another firm to ring.
    #[test]
    fn each_supplier_is_asked_about_his_own_lines() {
        let delivery = delivery();
        let view = View::new(&delivery);
        let asked: Vec<(&str, Severity, String)> = of(&view)
            .iter()
            .flat_map(|one| {
                let loads = one.loads.iter();
                loads.map(move |load| (one.supplier, one.urgency, load.item().to_string()))
            })
            .collect();
        let own = "Bramble Steelworks";
        let expected = [
            (own, Severity::Stop, testing::LIGHT),
            (own, Severity::Stop, testing::NO_WEIGHT),
            (own, Severity::Stop, testing::MISSING),
            (own, Severity::Stop, testing::NO_TRUCK),
            (
                "+Bramble Steel\u{7}works\t(=1+1)",
                Severity::Check,
                testing::INJECTION,
            ),
        ];
        assert_eq!(
            asked,
            expected.map(|(who, how, item)| (who, how, item.to_string()))
        );
    }

    /// Its lines are held by it, so the text that asks about it names their cells.
    #[test]
    fn a_contradicted_column_is_one_question_with_its_cells() {
        let mut delivery = delivery();
        delivery.lines.drain(..2);
        delivery.lines.truncate(1);
        delivery.lines[0].declared.as_mut().expect("a weight").how = How::Contradicted;
        let message = "column G is headed in lb: ask the supplier which unit it is";
        let mut finding = Finding::new("column-contradicted", Severity::Stop, message);
        finding.field = Some("G".into());
        delivery.findings = vec![finding];
        let view = View::new(&delivery);
        let questions = of(&view);
        assert_eq!(questions.len(), 1);
        assert_eq!(questions[0].found, ["column G is headed in lb"]);
        assert_eq!(cells(questions[0].loads.iter().copied()), ["G8"]);
        assert!(own_tasks(&view).is_empty());
    }
}
