//! What to do about a load, and who has to do it. Comes in: a load. Goes out: words.

use super::{question, sentence, slip};
use crate::audit::Line;
use crate::compare::Verdict;
use crate::judge::{Finding, Severity};
use crate::report::loads::{Load, Standing};
use crate::site::Units;
use crate::units::{Mass, show};

/// Findings that our own people settle, by looking, counting, weighing or planning; the others are put to the supplier.
const OUR_OWN: [&str; 10] = [
    "decided",
    "held",
    "lift-assumed",
    "lift-divided",
    "load-centre-assumed",
    "no-register",
    "no-truck",
    "tall-load",
    "truck-overloaded",
    "unlike-weighed-before",
];

/// Who has to settle something, and what.
#[derive(Clone, Debug, PartialEq)]
pub enum Task {
    /// A call to the supplier.
    Supplier {
        /// What to do, for the person who reads it.
        order: String,
        /// What the supplier is asked, as a question to him.
        ask: &'static str,
    },
    /// An order to our own people.
    Own(String),
}

impl Task {
    /// What to do, in words.
    pub fn text(&self) -> &str {
        match self {
            Task::Supplier { order, .. } | Task::Own(order) => order,
        }
    }
}

/// The question to the supplier that a finding leads to where no cause is known.
pub fn asked(finding: &Finding) -> &'static str {
    match finding.code {
        "column-contradicted" => "in which unit are the weights of this column?",
        "dense-for-packed-goods" => "what is in it, and what does it weigh?",
        "duplicate-line" => "is it delivered more than once, or written down more than once?",
        "gross-below-net" => "which weight is gross and which is net?",
        "name-and-sizes-differ" => "which is right, the name or the sizes?",
        "net-and-tare-differ" => "which is wrong, net, tare or gross?",
        "over-road-limit" => "how many vehicles bring the goods, or which weights are wrong?",
        "piece-weights-differ" => "which of the weights is right?",
        "reading-remark"
            if finding
                .field
                .as_deref()
                .is_some_and(|of| of.contains("hidden")) =>
        {
            "does it belong to the delivery?"
        }
        "reading-remark" => "what is meant there?",
        "reading-assumed" if finding.message.contains("for the sizes") => {
            "in which unit are the sizes?"
        }
        "reading-assumed" => "in which unit is it, and is it of one piece or of the whole line?",
        "sizes-impossible" => "what are the sizes?",
        "total-differs" => "which is wrong, the sum or a line?",
        "unknown-material" => "what is it made of?",
        "unverifiable" => "what are its sizes and what is it made of, or is there a scale ticket?",
        "upper-bound-only" => "how was the weight found, or is there a scale ticket?",
        "volume-differs" => "which is right, the volume or the sizes?",
        "weights-copied-down" => "what does each of these lines weigh?",
        _ => "is this what you mean?",
    }
}

/// What to do about a load, and who has to do it.
pub fn task(load: Load<'_>) -> Task {
    let cause = load
        .findings()
        .iter()
        .find_map(|finding| finding.cause.as_ref());
    let disputed = load
        .findings()
        .iter()
        .any(|finding| finding.code == "line-total-differs");
    let ask = |kind: &str| Task::Supplier {
        order: format!("Ask the supplier: {}", question(kind)),
        ask: question(kind),
    };
    let supplier = |order: &str, ask| Task::Supplier {
        order: order.to_string(),
        ask,
    };
    match (cause, load.verdict()) {
        _ if load.decision().is_some() => of_finding(load),
        _ if load.uncounted() && doubtful(load.verdict()) => supplier(
            "Count the pieces; ask the supplier how many it is and what they weigh together, or weigh them.",
            "how many pieces is it, and what do they weigh together?",
        ),
        (Some(cause), _) => ask(cause.kind),
        (None, _) if disputed => ask("piece-for-line"),
        (None, Verdict::Missing) => supplier(
            "Get the weight from the supplier in writing, or weigh it.",
            "what is the weight, and is it of one piece or of the whole line?",
        ),
        (None, Verdict::Light | Verdict::Heavy | Verdict::Impossible) => supplier(
            "Weigh it, or ask the supplier how the weight was found.",
            "how was the weight found, and is it right?",
        ),
        (None, Verdict::Unverifiable) => supplier(
            "Ask the supplier for size and material, or for a scale ticket.",
            "what are its sizes and what is it made of, or is there a scale ticket?",
        ),
        (None, Verdict::Consistent | Verdict::Shared) => of_finding(load),
    }
}

fn doubtful(verdict: Verdict) -> bool {
    !matches!(verdict, Verdict::Consistent | Verdict::Shared)
}

/// Whether a finding is that nobody could read how many pieces it is.
pub fn of_number(load: Load<'_>, finding: &Finding) -> bool {
    load.uncounted() && matches!(finding.code, "held" | "reading-remark")
}

/// A text that begins a sentence.
pub fn capital(text: &str) -> String {
    let mut letters = text.chars();
    match letters.next() {
        Some(first) => first.to_uppercase().chain(letters).collect(),
        None => String::new(),
    }
}

/// What to do about a load whose weight is not in question: what its worst finding says.
fn of_finding(load: Load<'_>) -> Task {
    let own = |text: &str| Task::Own(text.to_string());
    if load
        .findings()
        .iter()
        .any(|finding| finding.code == "no-truck")
    {
        return own("Plan another way of lifting it with a competent person.");
    }
    let urgent = |finding: &&Finding| finding.severity >= Severity::Check;
    match load.findings().first().filter(urgent) {
        Some(worst) if of_number(load, worst) => Task::Supplier {
            order: sentence(&worst.message),
            ask: "how many pieces is it?",
        },
        Some(worst) if OUR_OWN.contains(&worst.code) => Task::Own(sentence(&worst.message)),
        Some(worst) => Task::Supplier {
            order: sentence(&worst.message),
            ask: asked(worst),
        },
        None if load.decision().is_some() && load.plan().truck.is_some() => {
            own("Its weight is decided.")
        }
        None if load.plan().truck.is_none() => own("Wait until a truck can be named for it."),
        None => own("Wait until its package or its delivery is settled."),
    }
}

/// What to do next about a load, as orders to the person who reads it.
pub fn next(load: Load<'_>, standing: Standing, units: Units) -> String {
    let mut steps = Vec::new();
    let plan = load.plan();
    if standing == Standing::Held {
        steps.push("Leave it down.".to_string());
    }
    steps.push(task(load).text().to_string());
    // A finding that says why there is no truck need not be said twice.
    let said = |why: &String| {
        load.findings()
            .iter()
            .any(|finding| finding.message == *why)
    };
    if let (None, Some(why)) = (&plan.truck, &plan.truck_without)
        && !said(why)
    {
        steps.push(format!("No truck: {}", sentence(why)));
    }
    if let (Some(truck), Standing::MayLift) = (&plan.truck, standing) {
        let open = load.flagged() || load.decision().is_none();
        let until = if open { "Until then lift only" } else { "Lift" };
        steps.push(format!("{until} as planned, with {}.", truck.id));
    }
    if let Load::Line(line) = load {
        steps.extend(if_corrected(line, units));
    }
    steps.join(" ")
}

/// What the plan would be if the supplier states the weight that the likely cause makes of the declared one, or, where that
/// one would be right, corrects what else is written.
fn if_corrected(line: &Line, units: Units) -> Option<String> {
    let (mass, truck) = line.if_corrected.as_ref()?;
    let declared = line.declared.as_ref()?.mass;
    let cause = line
        .findings
        .iter()
        .find_map(|finding| finding.cause.as_ref())?;
    let would_be = Mass::from_kg(cause.would_be_kg);
    let [would_be, declared] = [would_be, declared].map(|mass| show::weight(mass, units));
    let states = if would_be == declared {
        format!("in writing that this is the slip ({})", slip(cause.kind))
    } else {
        format!("{would_be} instead of {declared} in writing")
    };
    let mass = show::planning(*mass, units);
    let truck = truck
        .as_ref()
        .map_or("; no truck for it".to_string(), |truck| {
            format!(" and {truck}")
        });
    Some(format!(
        "If the supplier states {states}, the line would be planned with {mass}{truck}."
    ))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::report::testing;

    /// Each weight is named: a supplier who confirms his own wrong figure must not send anybody to a smaller truck.
    #[test]
    fn a_corrected_weight_is_named_beside_the_wrong_one() {
        let mut line = testing::audit().deliveries.remove(0).lines.remove(2);
        // 1,764.8 kg = 3,890.7 lb and 800.5 kg = 1,764.8 lb to the nearest; 1,766.3 kg = 3,894.0 lb, up.
        assert_eq!(
            if_corrected(&line, Units::Us).as_deref(),
            Some(
                "If the supplier states 3,891 lb instead of 1,765 lb in writing, the line would be planned with 3,895 lb and FL-15."
            )
        );
        let cause = line.findings[0].cause.as_mut().expect("a cause");
        (cause.kind, cause.would_be_kg) = ("material", 800.5);
        line.if_corrected = Some((Mass::from_kg(801.0), None));
        assert_eq!(
            if_corrected(&line, Units::Si).as_deref(),
            Some(
                "If the supplier states in writing that this is the slip (another material than stated), the line would be planned with 801 kg; no truck for it."
            )
        );
    }

    #[test]
    fn a_finding_is_put_to_whom_it_concerns() {
        let mut line = testing::audit().deliveries.remove(0).lines.remove(0);
        for (code, expected) in [
            ("tall-load", Task::Own("It is tall.".into())),
            (
                "volume-differs",
                Task::Supplier {
                    order: "It is tall.".into(),
                    ask: "which is right, the volume or the sizes?",
                },
            ),
        ] {
            line.findings = vec![Finding::new(code, Severity::Check, "It is tall")];
            assert_eq!(task(Load::Line(&line)), expected);
        }
    }
}
