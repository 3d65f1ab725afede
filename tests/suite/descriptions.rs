//! Descriptions as suppliers write them, through the whole program: product, sizes, pieces and mass of each, worked from a
//! published figure. `fixtures/descriptions/README.md` says how to read the table.

use crate::helper::{audit, cell, dockheft, parsed, si, us};
use dockheft::estimate::Estimate;
use serde::Deserialize;
use tempfile::tempdir;

const TABLE: &str = include_str!("../../fixtures/descriptions/descriptions.csv");
/// How many may be wrong: 3 of 120.
const WRONG: f64 = 3.0 / 120.0;
/// A wrong estimate must at least look doubtful: high over low (common practice, no source).
const NARROW: f64 = 1.3;

#[derive(Deserialize)]
struct Row {
    description: String,
    units: String,
    pieces: u32,
    count: String,
    product: String,
    sizes_mm: String,
    kg: Option<f64>,
    allowance_pct: f64,
    source: String,
    typed: String,
}

/// What the program makes of a row.
struct Answer {
    pieces: u64,
    /// Low, likely and high of the whole line, kg; none without an estimate.
    kg: Option<[f64; 3]>,
}

fn rows() -> Vec<Row> {
    let mut reader = csv::Reader::from_reader(TABLE.as_bytes());
    let rows: Vec<Row> = reader
        .deserialize()
        .map(|row| row.expect("a row"))
        .collect();
    assert!(rows.len() >= 120, "{} descriptions", rows.len());
    assert!(rows.iter().all(|row| !row.source.is_empty()));
    rows
}

/// What is wrong with the mass and the pieces, and whether that could mislead.
fn fault(row: &Row, answer: &Answer) -> Option<(String, bool)> {
    let Some([low, likely, high]) = answer.kg else {
        return row.kg.map(|_| ("no estimate".to_string(), false));
    };
    let narrow = high / low < NARROW;
    let Some(published) = row.kg else {
        return Some((
            format!("{low:.1} to {likely:.1} to {high:.1} kg, none expected"),
            narrow,
        ));
    };
    let near = (likely / published - 1.0).abs() <= row.allowance_pct / 100.0 + 1e-4;
    let inside = low <= published * 1.002 && published * 0.998 <= high;
    if near && inside && answer.pieces == u64::from(row.pieces) {
        return None;
    }
    let said = format!(
        "{} pieces, {low:.1} to {likely:.1} to {high:.1} kg, expected {} and {published:.1} kg ({})",
        answer.pieces, row.pieces, row.source
    );
    Some((said, narrow))
}

/// Product, or shape and material where there is none.
fn named(estimate: &Estimate) -> String {
    let material = estimate.material.map_or("?", |material| material.name);
    let shaped = || format!("{} of {material}", estimate.shape.unwrap_or("?"));
    estimate.product.clone().unwrap_or_else(shaped)
}

/// The sides differ by more than rounding.
fn differ(expected: &str, estimate: &Estimate) -> bool {
    let sorted = |mut sides: Vec<f64>| {
        sides.sort_by(f64::total_cmp);
        sides
    };
    if expected.is_empty() {
        return false;
    }
    let expected = sorted(
        expected
            .split('x')
            .map(|side| side.parse().expect("a side"))
            .collect(),
    );
    let outline = estimate.outline.unwrap_or_default();
    let outline = sorted(outline.iter().map(|side| side.mm()).collect());
    expected
        .iter()
        .zip(&outline)
        .any(|(one, other)| (one - other).abs() > 1.0 + one * 0.01)
}

#[track_caller]
fn judge(all: usize, wrong: &[(String, bool)]) {
    let list: Vec<&str> = wrong.iter().map(|(said, _)| said.as_str()).collect();
    let list = list.join("\n");
    println!("{} of {all} wrong\n{list}", wrong.len());
    assert!(
        wrong.len() as f64 <= all as f64 * WRONG,
        "{} of {all} wrong\n{list}",
        wrong.len()
    );
    assert!(
        wrong.iter().all(|(_, narrow)| !narrow),
        "wrong and narrow\n{list}"
    );
}

#[test]
fn descriptions_of_a_delivery_have_the_published_mass() {
    let rows = rows();
    let mut wrong = Vec::new();
    for row in &rows {
        let (unit, site) = if row.units == "us" {
            ("lb", us())
        } else {
            ("kg", si())
        };
        // A line without a quantity still has something in its weight cell.
        let cells = match row.count.as_str() {
            "text" => ",TBA".to_string(),
            _ => format!("{},", row.pieces),
        };
        let delivery = format!(
            "Line,Description,Quantity,Weight ({unit})\n1,{},{cells}\n",
            cell(&row.description)
        );
        let audit = audit(&delivery, None, site);
        let Some(line) = audit
            .deliveries
            .first()
            .and_then(|delivery| delivery.lines.first())
        else {
            wrong.push((format!("{}: no line", row.description), false));
            continue;
        };
        let estimate = line.estimate.as_ref();
        let answer = Answer {
            pieces: u64::from(line.item.pieces),
            kg: estimate
                .map(|found| [found.line.low, found.line.likely, found.line.high].map(|m| m.kg()))
                .ok(),
        };
        let fault = fault(row, &answer).or_else(|| {
            let estimate = estimate.ok()?;
            let said = named(estimate);
            let other = said != row.product || differ(&row.sizes_mm, estimate);
            other.then(|| (format!("{said} {:?}", estimate.outline), true))
        });
        let why = estimate.err().map_or("", |none| none.why.as_str());
        wrong.extend(
            fault.map(|(said, narrow)| (format!("{}: {said} {why}", row.description), narrow)),
        );
    }
    judge(rows.len(), &wrong);
}

#[test]
fn descriptions_typed_at_the_dock_have_the_published_mass() {
    let rows: Vec<Row> = rows()
        .into_iter()
        .filter(|row| row.typed == "yes")
        .collect();
    let folder = tempdir().expect("a folder");
    let mut wrong = Vec::new();
    for row in &rows {
        let pieces = row.pieces.to_string();
        let mut args = vec![
            "weigh",
            &row.description,
            "--json",
            "--quiet",
            "--units",
            &row.units,
        ];
        if row.count == "cell" && row.pieces > 1 {
            args.extend(["--pieces", &pieces]);
        }
        let output = dockheft(folder.path(), &args);
        let record = parsed(&output.stdout).pop().unwrap_or_default();
        let kg = ["low_kg", "likely_kg", "high_kg"].map(|key| record["estimate"][key].as_f64());
        let answer = Answer {
            pieces: record["pieces"].as_u64().unwrap_or(0),
            kg: match kg {
                [Some(low), Some(likely), Some(high)] => Some([low, likely, high]),
                _ => None,
            },
        };
        let fault = fault(row, &answer);
        wrong.extend(fault.map(|(said, narrow)| {
            let heard = crate::helper::said(&output);
            (format!("{}: {said} {heard}", row.description), narrow)
        }));
    }
    judge(rows.len(), &wrong);
}
