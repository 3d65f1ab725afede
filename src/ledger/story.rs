//! The story of one line in plain words: from the supplier's cell to the decision, every number with its origin.

use super::Ledger;
use super::past::{self, Past, Taken};
use crate::error::Error;
use crate::report::{labelled, words};
use crate::units::{Length, Mass, show};
use rusqlite::Connection;
use serde_json::Value;

/// Places on a line.
const WIDTH: usize = 100;
/// Where the texts begin.
const HEAD: usize = 18;

impl Ledger {
    /// The story of a load by its id; none where it is not on record.
    ///
    /// # Errors
    /// [`Error::Ledger`] when the ledger cannot be read.
    pub fn story(&self, id: &str) -> Result<Option<String>, Error> {
        self.told(story(&self.db, id))
    }
}

fn story(db: &Connection, id: &str) -> rusqlite::Result<Option<String>> {
    let mut records = past::by_id(db, id)?;
    let mut stories = Vec::new();
    // Lists of two suppliers that have one name have lines of one id: each is a story of its own.
    while let Some(first) = records.first() {
        let supplier = first.supplier.clone();
        let (own, others): (Vec<Past>, Vec<Past>) = records
            .into_iter()
            .partition(|load| load.supplier == supplier);
        stories.push(of_supplier(db, &own)?);
        records = others;
    }
    Ok((!stories.is_empty()).then(|| stories.join("\n\n")))
}

/// The story of a load of one supplier, the newest record first.
fn of_supplier(db: &Connection, records: &[Past]) -> rusqlite::Result<String> {
    // Told from the latest audit; what was audited before stands at the end.
    let Some((last, earlier)) = records.split_first() else {
        return Ok(String::new());
    };
    let decisions = past::decisions(db, last)?;
    let head = super::chain::head(db)?;
    let mut text = Text(format!(
        "{}\n",
        crate::report::text::printable(&last.description)
    ));
    text.supplier(last);
    text.expected(last);
    text.fit(last);
    text.plan(last);
    text.decided(last, &decisions);
    text.earlier(last, earlier);
    text.heading("How this is proven");
    text.point(&format!(
        "It is record {} of the ledger. Everything up to its last record is tied together; the head is now that of {head}.",
        last.number
    ));
    text.point("\"dockheft ledger check --head ...\" with the head that a workbook or print-out carries shows that nothing up to there was changed since. A typed name is no signature.");
    Ok(text.0)
}

struct Text(String);

impl Text {
    fn heading(&mut self, heading: &str) {
        self.0.push_str(&format!("\n{heading}\n"));
    }

    fn entry(&mut self, label: &str, value: &str) {
        self.0
            .push_str(&labelled(&format!("  {label}"), HEAD, value, WIDTH));
    }

    fn point(&mut self, value: &str) {
        self.0
            .push_str(&labelled("", 2, &format!("  {value}"), WIDTH));
    }

    fn supplier(&mut self, load: &Past) {
        let record = &load.record;
        self.heading("What the supplier wrote");
        let supplier = record["supplier"].as_str();
        if let Some(supplier) = supplier {
            self.entry("supplier", supplier);
        }
        let order = record["order"]
            .as_str()
            .map_or(String::new(), |order| format!(", order {order}"));
        self.entry("delivery", &format!("{}{order}", load.delivery));
        let sheet = match record["sheet"].as_str() {
            Some(sheet) if !sheet.is_empty() => format!(", sheet {sheet}"),
            _ => String::new(),
        };
        self.entry(
            "file",
            &format!(
                "{}{sheet}, row {} (kept in the ledger, SHA-256 {})",
                load.file.0, record["row"], load.file.1
            ),
        );
        if let Some(item) = record["item"].as_str() {
            self.entry("item", item);
        }
        if let Some(pieces) = record["pieces"].as_u64() {
            self.entry("pieces", &pieces.to_string());
        }
        let units = load.shown.units;
        match (mass(&record["declared"]["kg"]), load.shown.written.as_str()) {
            (Some(declared), written) => self.entry(
                "declared",
                &format!(
                    "\"{written}\" in cell {}: taken as {} for the whole line ({}, of one {}; unit and basis {})",
                    load.shown.cell,
                    show::weight(declared, units),
                    record["declared"]["kind"].as_str().unwrap_or_default(),
                    record["declared"]["of"].as_str().unwrap_or_default(),
                    load.shown.read,
                ),
            ),
            (None, "") => self.entry("declared", "no weight"),
            (None, written) => self.entry("declared", &format!("\"{written}\" in cell {}: no usable weight", load.shown.cell)),
        }
    }

    fn expected(&mut self, load: &Past) {
        let audit = &load.audit;
        self.heading("What it should weigh");
        self.entry("worked out", &format!(
            "on {} by Dockheft {}, for the day {}, on the machine {} under the account {} (audit {})",
            audit.time, audit.program, audit.day, audit.host, audit.user, audit.id
        ));
        let estimate = &load.record["estimate"];
        let units = load.shown.units;
        for (number, step) in (1..).zip(&load.shown.working) {
            self.entry(&format!("step {number}"), &step.what);
            for line in &step.lines {
                self.entry("", line);
            }
            self.entry("", &format!("source: {}", step.source));
        }
        match (
            mass(&estimate["low_kg"]),
            mass(&estimate["likely_kg"]),
            mass(&estimate["high_kg"]),
        ) {
            (Some(low), Some(likely), Some(high)) => self.entry(
                "whole line",
                &format!(
                    "at least {}, likely {}, at most {} {}",
                    show::figure(show::low_value(low, units)),
                    show::figure(show::weight_value(likely, units)),
                    show::figure(show::high_value(high, units)),
                    show::mass_unit(units),
                ),
            ),
            _ => {
                let why = load
                    .shown
                    .no_estimate
                    .as_deref()
                    .unwrap_or("nothing to work it out from");
                self.entry("no estimate", &words::sentence(why));
            }
        }
    }

    fn fit(&mut self, load: &Past) {
        self.heading("Whether the two fit");
        let verdict = load.record["verdict"].as_str().unwrap_or_default();
        let meaning = words::VERDICTS.iter().find(|(_, word, _)| *word == verdict);
        self.entry(
            "verdict",
            &format!("{verdict}: {}", meaning.map_or("", |(.., meaning)| meaning)),
        );
        for finding in &load.shown.findings {
            self.entry("finding", finding);
        }
    }

    fn plan(&mut self, load: &Past) {
        let (record, shown, units) = (&load.record, &load.shown, load.shown.units);
        self.heading("How it was to be lifted");
        match mass(&record["planning"]["line_kg"]) {
            Some(line) => {
                let lift = mass(&record["planning"]["lift_kg"]).unwrap_or(line);
                self.entry(
                    "planned with",
                    &format!(
                        "{} for the whole line, {} a lift ({}); a lift takes {}",
                        show::planning(line, units),
                        show::planning(lift, units),
                        shown.planned_from,
                        shown.lift_of
                    ),
                );
            }
            None => self.entry("planned with", &shown.planned_from),
        }
        if let Some(load_centre) = record["load_centre_m"].as_f64() {
            self.entry(
                "load centre",
                &format!(
                    "{} ({})",
                    show::load_centre(Length::from_m(load_centre), units),
                    shown.load_centre_from
                ),
            );
        }
        match (
            record["truck"]["id"].as_str(),
            mass(&record["truck"]["capacity_kg"]),
        ) {
            (Some(truck), Some(capacity)) => {
                let calculated = record["truck"]["calculated"] == true;
                self.entry(
                    "truck",
                    &format!(
                        "{truck}: lifts {} there, {} used{}",
                        show::capacity(capacity, units),
                        show::share(record["truck"]["used"].as_f64().unwrap_or_default()),
                        if calculated {
                            "; calculated, the plate governs"
                        } else {
                            ""
                        }
                    ),
                );
            }
            _ => self.entry("truck", record["truck_without"].as_str().unwrap_or("none")),
        }
        for (truck, why) in &shown.why_not {
            self.entry("", &format!("not {truck}: {why}"));
        }
        self.entry("standing then", &shown.standing);
        self.entry("to do then", &shown.next);
    }

    fn decided(&mut self, load: &Past, decisions: &[Taken]) {
        self.heading("What was decided");
        if decisions.is_empty() {
            self.point("Nothing is on record.");
        }
        let units = load.shown.units;
        for taken in decisions {
            let dated = taken
                .dated
                .as_ref()
                .map_or(String::new(), |day| format!(", dated {day}"));
            self.entry(
                &format!("record {}", taken.number),
                &format!(
                    "\"{}\" by {} (name as typed{dated}), recorded {}",
                    taken.decision, taken.name, taken.time
                ),
            );
            let shown = |kg: Option<f64>| kg.map(|kg| show::planning(Mass::from_kg(kg), units));
            let until = shown(taken.before_kg).unwrap_or("no weight".to_string());
            match shown(taken.plan_kg) {
                Some(plan) => self.entry(
                    "",
                    &format!(
                        "from then on planned with {plan} for the whole line, until then {until}"
                    ),
                ),
                None => self.entry("", "from then on it is not lifted"),
            }
            self.entry(
                "",
                &format!(
                    "evidence: {}",
                    taken.evidence.as_deref().unwrap_or("none named")
                ),
            );
            if let Some(remark) = &taken.remark {
                self.entry("", &format!("remark: {remark}"));
            }
            if !taken.stands {
                self.entry(
                    "",
                    "made on an earlier list: it does not stand for the latest one, which is open",
                );
            }
        }
    }

    fn earlier(&mut self, last: &Past, earlier: &[Past]) {
        if earlier.is_empty() && last.latest {
            return;
        }
        self.heading("Other audits of this delivery");
        if !last.latest {
            self.point("A later audit of this delivery has no such line: whatever counts, counts the later one.");
        }
        for load in earlier {
            let units = load.shown.units;
            let declared = mass(&load.record["declared"]["kg"])
                .map_or("no weight".to_string(), |kg| show::weight(kg, units));
            self.entry(
                &format!("record {}", load.number),
                &format!(
                    "recorded {}: declared {declared}, {}{}",
                    load.audit.time,
                    load.record["verdict"].as_str().unwrap_or_default(),
                    if load.substance == last.substance {
                        "; the same figures"
                    } else {
                        "; other figures"
                    }
                ),
            );
        }
    }
}

fn mass(kg: &Value) -> Option<Mass> {
    kg.as_f64().map(Mass::from_kg)
}
