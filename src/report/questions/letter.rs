//! The questions to one supplier as a text to send: whom it goes to, which line, what stands there, what is expected and why,
//! what is asked. Masses stand in both pounds and kilograms: a unit mistaken is what most questions are about.

use super::{MOST_LETTERS, Question, cells, of};
use crate::audit::Audit;
use crate::compare::Verdict;
use crate::estimate::{Estimate, Evidence};
use crate::judge::Severity;
use crate::report::loads::{Load, View};
use crate::report::words;
use crate::site::Units;
use crate::units::show;
use std::cmp::Reverse;
use std::collections::HashMap;

/// Lines of one question that are described one by one; of more only the first few are, the others by their cells.
const MOST_DESCRIBED: usize = 8;
const FIRST_FEW: usize = 3;
/// Cells named in one paragraph.
const CELLS_A_PARAGRAPH: usize = 60;

/// All questions of a call to one supplier.
#[derive(Debug)]
pub struct Letter<'a> {
    /// The supplier; none where the list does not name one.
    pub supplier: Option<&'a str>,
    /// The questions, by list in the order of the call.
    pub parts: Vec<Part<'a>>,
}

/// The questions about one list.
#[derive(Debug)]
pub struct Part<'a> {
    view: &'a View<'a>,
    /// The list that says whose it is.
    naming: &'a View<'a>,
    questions: Vec<Question<'a>>,
}

/// One paragraph of a letter.
#[derive(Debug, PartialEq)]
pub struct Paragraph<'a> {
    /// The delivery that it speaks of; none: of the letter as a whole.
    pub delivery: Option<&'a str>,
    /// Where it puts a question: what hangs on it.
    pub urgency: Option<Severity>,
    /// The text.
    pub text: String,
}

/// The letters of a call: who has the most stops to answer for comes first, among equals who comes first in the call. A list
/// without a supplier has a letter of its own.
pub fn letters<'a>(views: &'a [View<'a>]) -> Vec<Letter<'a>> {
    let mut letters: Vec<Letter<'a>> = Vec::new();
    let mut of_supplier: HashMap<String, usize> = HashMap::new();
    for (number, view) in views.iter().enumerate() {
        let naming = naming(views, view);
        let of_list = naming.delivery.reading.supplier.as_deref();
        for question in of(view) {
            let own = question.supplier != words::supplier(view.delivery, None);
            let supplier = if own {
                Some(question.supplier)
            } else {
                of_list
            };
            let key = if let Some(name) = supplier {
                name.trim().to_lowercase()
            } else {
                format!("\n{number}")
            };
            let at = *of_supplier.entry(key).or_insert(letters.len());
            if at == letters.len() {
                letters.push(Letter {
                    supplier,
                    parts: Vec::new(),
                });
            }
            let Some(letter) = letters.get_mut(at) else {
                continue;
            };
            match letter.parts.last_mut() {
                Some(last) if std::ptr::eq(last.view, view) => last.questions.push(question),
                _ => letter.parts.push(Part {
                    view,
                    naming,
                    questions: vec![question],
                }),
            }
        }
    }
    letters.sort_by_key(|letter| Reverse((letter.stops(), letter.urgency())));
    letters
}

/// The list that says whose a sheet is: itself; of a sheet without goods and supplier the only other one of its file with goods.
fn naming<'a>(views: &'a [View<'a>], view: &'a View<'a>) -> &'a View<'a> {
    if !view.is_empty() || view.delivery.reading.supplier.is_some() {
        return view;
    }
    let mut others = views
        .iter()
        .filter(|other| !other.is_empty() && other.delivery.source == view.delivery.source);
    match (others.next(), others.next()) {
        (Some(only), None) => only,
        _ => view,
    }
}

impl<'a> Letter<'a> {
    /// Who is to answer it, in words.
    pub fn to(&self) -> String {
        match (self.supplier, self.parts.first()) {
            (Some(name), _) => name.to_string(),
            (None, Some(part)) => format!("whoever sent {}", part.view.file_and_sheet()),
            (None, None) => String::new(),
        }
    }

    fn questions(&self) -> impl Iterator<Item = &Question<'a>> {
        self.parts.iter().flat_map(|part| &part.questions)
    }

    fn urgency(&self) -> Option<Severity> {
        self.questions().map(|question| question.urgency).max()
    }

    /// On how many of its questions a stop hangs.
    pub fn stops(&self) -> usize {
        let urgencies = self.questions().map(|question| question.urgency);
        urgencies.filter(|one| *one == Severity::Stop).count()
    }

    /// How many questions, in words.
    pub fn number(&self) -> String {
        words::count(self.questions().count(), "question")
    }

    /// The text, paragraph by paragraph.
    pub fn paragraphs(&self, audit: &Audit) -> Vec<Paragraph<'a>> {
        let units = audit.site.units;
        let whole = |text: String| Paragraph {
            delivery: None,
            urgency: None,
            text,
        };
        let lists: Vec<String> = self
            .parts
            .iter()
            .map(|part| part.view.file_and_sheet())
            .collect();
        let questions = self.number();
        let by_file = |part: &Part<'_>| part.naming.delivery.reading.supplier_from == "file name";
        let guessed = if self.supplier.is_some() && self.parts.iter().all(by_file) {
            " (by the file's name)"
        } else {
            ""
        };
        let mut text = vec![
            whole(format!("To: {}{guessed}", self.to())),
            whole(format!(
                "Subject: {questions} about the weights in {}",
                lists.join(", ")
            )),
            whole(format!(
                "We check every list before anything comes off the vehicle. Please answer in writing: the number of the {}, the \
                 weight with its unit, and whether it is of one piece or of the whole line.",
                if self.questions().count() == 1 {
                    "question"
                } else {
                    "questions"
                }
            )),
        ];
        let mut at = 0;
        for part in &self.parts {
            text.push(part.heading());
            for question in &part.questions {
                at += 1;
                question_in(&mut text, at, part, question, units);
            }
        }
        let from = match audit.site.name.as_str() {
            "" => String::new(),
            name => format!("{name}, "),
        };
        text.push(whole(format!("Thank you. {from}{}", audit.date)));
        text
    }
}

impl<'a> Part<'a> {
    /// Its delivery; blank where nothing names it.
    pub fn delivery(&self) -> &'a str {
        &self.naming.delivery.reading.delivery
    }

    fn heading(&self) -> Paragraph<'a> {
        let mut text = format!("List {}", self.view.file_and_sheet());
        let delivery = self.delivery();
        if !delivery.is_empty() {
            text.push_str(&format!(", delivery {delivery}"));
        }
        if let Some(order) = &self.view.delivery.reading.order {
            text.push_str(&format!(", order {order}"));
        }
        Paragraph {
            delivery: Some(delivery),
            urgency: None,
            text: text + ":",
        }
    }
}

fn question_in<'a>(
    text: &mut Vec<Paragraph<'a>>,
    at: usize,
    part: &Part<'a>,
    question: &Question<'a>,
    units: Units,
) {
    let delivery = Some(part.delivery());
    let mut put = |urgency: Option<Severity>, text_of: String| {
        text.push(Paragraph {
            delivery,
            urgency,
            text: text_of,
        });
    };
    let found = match question.found.as_slice() {
        [found] => format!("{} ", words::sentence(&words::capital(found))),
        _ => String::new(),
    };
    let waits = if question.urgency == Severity::Stop {
        " The goods stay down until we have your answer."
    } else {
        ""
    };
    put(
        Some(question.urgency),
        format!("{at}. {found}{}{waits}", words::capital(question.ask)),
    );
    for found in question.found.iter().filter(|_| question.found.len() > 1) {
        put(
            None,
            format!("• {}", words::sentence(&words::capital(found))),
        );
    }
    let described = match question.loads.len() {
        many if many > MOST_DESCRIBED => FIRST_FEW,
        few => few,
    };
    let (first, others) = question
        .loads
        .split_at_checked(described)
        .unwrap_or((&question.loads, &[]));
    for load in first {
        put(None, format!("• {}", of_load(part.view, *load, units)));
    }
    let cells = cells(others.iter().copied());
    let more = format!(
        "• The same on {}: ",
        words::count(others.len(), "more line")
    );
    for (number, cells) in cells.chunks(CELLS_A_PARAGRAPH).enumerate() {
        let before = if number == 0 {
            more.as_str()
        } else {
            "• and on "
        };
        put(None, format!("{before}{}", cells.join(", ")));
    }
}

/// "K15, item A-4, UPN 200, 12 pieces: you wrote ...; we expect ...".
fn of_load(view: &View<'_>, load: Load<'_>, units: Units) -> String {
    let mut parts = vec![load.weight_place().cell()];
    match load {
        Load::Line(line) => {
            parts.extend(line.item.item.as_ref().map(|item| format!("item {item}")));
            parts.push(words::short(&line.item.description, MOST_LETTERS).into_owned());
            let order = line.item.order.as_deref();
            let own = order.filter(|_| order != view.delivery.reading.order.as_deref());
            parts.extend(own.map(|order| format!("order {order}")));
            parts.push(if load.uncounted() {
                "number of pieces not readable".to_string()
            } else {
                words::count(line.item.pieces as usize, "piece")
            });
        }
        Load::Package(..) => parts.push(load.description().into_owned()),
    }
    parts.retain(|part| !part.is_empty());
    let worst = load.findings().first();
    let said = match (load.verdict(), worst) {
        (Verdict::Consistent | Verdict::Shared, Some(worst)) if words::of_number(load, worst) => {
            written(load, units)
        }
        // Its weight is not in question; something else about it is.
        (Verdict::Consistent | Verdict::Shared, Some(worst)) => {
            let (found, text) = (words::told(&worst.message), load.declared_text());
            let of_weight = worst.field.as_deref() == Some(load.weight_place().cell().as_str());
            if of_weight && !text.is_empty() && !found.contains(text) {
                format!("you wrote \"{text}\"; {found}")
            } else {
                found.to_string()
            }
        }
        _ => format!("{}; {}", written(load, units), expected(load, units)),
    };
    words::sentence(&format!("{}: {said}", parts.join(", ")))
}

fn written(load: Load<'_>, units: Units) -> String {
    match (load.declared_text(), load.declared()) {
        (text, Some(declared)) => {
            let mass = show::both(|units| show::weight(declared.mass, units), units);
            let all = if load.uncounted() {
                ""
            } else {
                " for all of it"
            };
            format!("you wrote \"{text}\", which we read as {mass}{all}")
        }
        ("", None) => "you wrote no weight".to_string(),
        (text, None) => format!("you wrote \"{text}\", which is no weight"),
    }
}

fn expected(load: Load<'_>, units: Units) -> String {
    let Some(estimate) = load.estimate() else {
        let why = load.no_estimate().unwrap_or_default();
        return format!("we have nothing to check it with: {}", words::told(why));
    };
    let range = show::both(|units| show::range(estimate.line, units), units);
    let why = match load {
        Load::Package(..) => "by the sum of what is in it".to_string(),
        Load::Line(_) => because(estimate),
    };
    if estimate.evidence == Evidence::Envelope {
        return format!("its outer sizes leave room for {range}");
    }
    let net = if estimate.tare.high.kg() <= 0.0 {
        ""
    } else {
        " without packing"
    };
    let each = if load.uncounted() { " a piece" } else { "" };
    format!("we expect {range}{each}{net}, {why}")
}

fn because(estimate: &Estimate) -> String {
    match (estimate.evidence, &estimate.product, estimate.material) {
        (Evidence::Weighed, ..) => "as weighed before".to_string(),
        (Evidence::Product, Some(product), _) => format!("by the standard mass of {product}"),
        (Evidence::Product, None, _) => "by the standard mass".to_string(),
        (_, _, Some(material)) => format!("by its sizes and the density of {}", material.name),
        (_, _, None) => "by its sizes".to_string(),
    }
}
