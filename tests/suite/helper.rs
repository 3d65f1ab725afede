//! The one place where the suite touches the program: a delivery in, records or an exit status out.

use dockheft::audit::{self, Audit, Request};
use dockheft::causes::{HYPOTHESES, Hypothesis};
use dockheft::fleet::register;
use dockheft::judge::Finding;
use dockheft::read;
use dockheft::report::ndjson;
use dockheft::report::record::SCHEMAS;
use dockheft::site::{Site, Units};
use serde_json::Value;
use std::path::Path;
use std::process::{Command, Output};

/// Kilograms in a pound, exact (NIST Handbook 44, Appendix C).
pub const LB: f64 = 0.453_592_37;
/// Metres in an inch, exact (NIST Handbook 44, Appendix C).
pub const IN: f64 = 0.0254;

/// The day of every audit of the suite.
pub const DAY: &str = "2026-11-25";

/// A site that reads and writes US units.
pub fn us() -> Site {
    Site {
        units: Units::Us,
        ..Site::default()
    }
}

/// A site that reads and writes metric units.
pub fn si() -> Site {
    Site::default()
}

/// Audits a file by itself, without a register, on the built-in settings.
pub fn audit_file(path: &Path) -> Audit {
    audit::run(Request {
        files: vec![read::file(path).expect("it opens")],
        refused: Vec::new(),
        fleet: None,
        site: si(),
        date: DAY.parse().expect("a day"),
        supplier: None,
        delivery: None,
        history: Default::default(),
        progress: &|_| {},
    })
}

/// Audits one delivery text and register text.
pub fn audit(delivery: &str, fleet: Option<&str>, site: Site) -> Audit {
    let files =
        vec![read::bytes("delivery.csv", delivery.as_bytes()).expect("a delivery text is read")];
    let fleet = fleet.map(|text| {
        let raw = read::bytes("fleet.csv", text.as_bytes()).expect("a register text is read");
        register::understand(&raw.sheets, site.units)
    });
    let date = DAY.parse().expect("a date");
    audit::run(Request {
        files,
        refused: Vec::new(),
        fleet,
        site,
        date,
        supplier: None,
        delivery: None,
        history: Default::default(),
        progress: &|_| {},
    })
}

/// The records of an audit.
pub fn records(audit: &Audit) -> Vec<Value> {
    let mut bytes = Vec::new();
    ndjson::write(audit, &mut bytes).expect("a vector takes everything");
    parsed(&bytes)
}

/// Records from NDJSON.
pub fn parsed(ndjson: &[u8]) -> Vec<Value> {
    let text = std::str::from_utf8(ndjson).expect("UTF-8");
    text.lines()
        .map(|line| serde_json::from_str(line).expect("each line is JSON"))
        .collect()
}

/// The records of one delivery text, without a register, on a US site.
pub fn audit_text(delivery: &str) -> Vec<Value> {
    records(&audit(delivery, None, us()))
}

/// The line records among records.
pub fn lines(records: Vec<Value>) -> Vec<Value> {
    records
        .into_iter()
        .filter(|record| record["schema"] == "dockheft.line/1")
        .collect()
}

/// The one goods line of a delivery text, audited with a register.
#[track_caller]
pub fn line(delivery: &str, fleet: Option<&str>, site: Site) -> Value {
    let mut lines = lines(records(&audit(delivery, fleet, site)));
    assert_eq!(lines.len(), 1, "one goods line in\n{delivery}");
    lines.remove(0)
}

/// What each published schema says against an audit's records.
pub fn faults(records: &[Value]) -> Vec<String> {
    schema_faults(records, &SCHEMAS)
}

/// What each of some schemas, by name, says against records.
pub fn schema_faults(records: &[Value], schemas: &[(&str, &str)]) -> Vec<String> {
    let mut faults = Vec::new();
    for record in records {
        let known = schemas.iter().find(|(name, _)| record["schema"] == *name);
        let Some((_, text)) = known else {
            faults.push(format!("no such schema: {}", record["schema"]));
            continue;
        };
        let schema: Value = serde_json::from_str(text).expect("a schema is JSON");
        let validator = jsonschema::draft202012::new(&schema).expect("a schema is a schema");
        faults.extend(
            validator
                .iter_errors(record)
                .map(|error| format!("row {}: {error}", record["row"])),
        );
    }
    faults
}

/// The truck that a line record names.
pub fn truck(line: &Value) -> Option<&str> {
    line["truck"]["id"].as_str()
}

/// The codes of a record's findings.
pub fn codes(record: &Value) -> Vec<&str> {
    record["findings"]
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(|finding| finding["code"].as_str())
        .collect()
}

/// Kinds of the causes that findings name in words, in the order of the message.
pub fn causes_named(findings: &[Finding]) -> Vec<&'static str> {
    let told = findings.iter().find(|finding| finding.cause.is_some());
    let Some(Finding { message, .. }) = told else {
        return Vec::new();
    };
    let asked =
        |hypothesis: &&dyn Hypothesis| Some((message.find(hypothesis.ask())?, hypothesis.kind()));
    let mut named: Vec<_> = HYPOTHESES.iter().filter_map(asked).collect();
    named.sort_unstable();
    named.into_iter().map(|(_, kind)| kind).collect()
}

/// A text as one csv cell.
pub fn cell(text: &str) -> String {
    format!("\"{}\"", text.replace('"', "\"\""))
}

/// Runs the program in a folder.
pub fn dockheft(folder: &Path, args: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_dockheft"))
        .current_dir(folder)
        .args(args)
        .output()
        .expect("the program starts")
}

/// Runs `audit` on the suite's day with the reports in the folder.
pub fn audit_in(folder: &Path, args: &[&str]) -> Output {
    let mut all = vec!["audit", "--date", DAY];
    all.extend(args);
    dockheft(folder, &all)
}

/// Exit status of a run.
#[track_caller]
pub fn status(output: &Output) -> i32 {
    output.status.code().expect("the program ends by itself")
}

/// What a run said on standard error.
pub fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stderr).into_owned()
}
