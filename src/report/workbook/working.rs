//! Working: each estimate step by step, with live formulas where a step's words allow one.

use super::book::{Book, Keep, Paper};
use super::cell::Cell;
use super::live;
use super::table::{Column, column};
use crate::audit::{Audit, Delivery};
use crate::estimate::{Estimate, Step};
use crate::place::column_letters;
use crate::report::loads::{self, Load};
use crate::units::show;
use rust_xlsxwriter::XlsxError;

/// Inputs that have a column of their own; a step with more shows the rest in words.
const INPUTS: usize = 6;
/// Column of a step's result, from 1.
const RESULT: u32 = 7;
/// Column of the first input's value, from 1; the others follow two columns apart.
const FIRST_INPUT: u32 = 9;

/// Writes the sheet.
pub fn write(book: &mut Book, audit: &Audit) -> Result<(), XlsxError> {
    let units = book.units;
    let unit = show::mass_unit(units);
    let inputs: Vec<u32> = (0..INPUTS as u32).map(|at| FIRST_INPUT + 2 * at).collect();
    let mut table = book.table("Working", columns(), Paper::Large, Keep::Rows)?;
    for delivery in &audit.deliveries {
        for load in loads::of(delivery) {
            let Some(estimate) = load.estimate() else {
                let mut cells = head(delivery, load, None);
                cells.push(Cell::text(format!(
                    "no estimate: {}",
                    load.no_estimate().unwrap_or_default()
                )));
                table.row(&cells)?;
                continue;
            };
            let mut earlier: Vec<(&Step, u32)> = Vec::new();
            for (step, number) in estimate.steps.iter().zip(1..) {
                let row = table.next_row()?;
                // A sheet that is full goes on in another, whose rows begin anew.
                earlier.retain(|(_, before)| *before < row);
                let formula = live::formula(step, row, &inputs);
                let mut cells = head(delivery, load, Some(number));
                cells.extend(step_cells(step, formula, &earlier));
                table.row(&cells)?;
                earlier.push((step, row));
            }
            let mut cells = head(delivery, load, None);
            cells.extend([
                Cell::Strong("expected mass of the line".into()),
                Cell::text(format!(
                    "{} {unit}; likely {}",
                    range_words(estimate, units),
                    show::weight(estimate.line.likely, units)
                )),
            ]);
            table.row(&cells)?;
        }
    }
    table.finish()
}

fn range_words(estimate: &Estimate, units: crate::site::Units) -> String {
    let low = show::figure(show::low_value(estimate.line.low, units));
    format!(
        "{low} to {}",
        show::figure(show::high_value(estimate.line.high, units))
    )
}

fn columns() -> Vec<Column> {
    let mut columns = vec![
        column("Delivery", 15.0),
        column("Row (cell)", 8.0),
        column("Item", 12.0),
        column("Step", 6.0),
        column("What is worked out", 26.0),
        column("Formula in words (SI units)", 30.0),
        column("Result (live where simple)", 14.0),
    ];
    for input in 1..=INPUTS {
        columns.push(column(format!("Input {input}"), 13.0));
        columns.push(column("Value (SI)", 13.0));
    }
    columns.push(column("Unit of the result", 9.0));
    columns.push(column("Source", 34.0));
    columns
}

fn head<'a>(delivery: &'a Delivery, load: Load<'a>, step: Option<u32>) -> Vec<Cell<'a>> {
    vec![
        Cell::text(delivery.reading.delivery.as_str()),
        Cell::text(load.place().cell()),
        Cell::text(load.item()),
        Cell::figure(step.map(f64::from)),
    ]
}

/// The cell of the earlier result that an input is, so that a change goes through to the line: the one that its name speaks of,
/// or, for the first input, the one just before.
fn result_of(step: &Step, at: usize, earlier: &[(&Step, u32)]) -> Option<String> {
    let (name, value) = step.inputs.get(at)?;
    let mut back = earlier.iter().rev().enumerate();
    let (_, (_, row)) = back.find(|(before, (one, _))| {
        one.result == *value && (one.what.contains(name.as_str()) || (at == 0 && *before == 0))
    })?;
    Some(format!("={}{row}", column_letters(RESULT)))
}

fn step_cells<'a>(
    step: &'a Step,
    formula: Option<String>,
    earlier: &[(&Step, u32)],
) -> Vec<Cell<'a>> {
    let live = |formula: Option<String>, value: f64| match formula {
        Some(formula) => Cell::Live(formula, value),
        None => Cell::Exact(value),
    };
    let mut cells = vec![
        Cell::text(step.what.as_str()),
        Cell::text(words(step)),
        live(formula, step.result),
    ];
    for at in 0..INPUTS {
        let input = step.inputs.get(at);
        cells.push(input.map_or(Cell::Blank, |(name, _)| Cell::text(name.as_str())));
        cells.push(input.map_or(Cell::Blank, |(_, value)| {
            live(result_of(step, at, earlier), *value)
        }));
    }
    cells.push(Cell::text(step.unit));
    cells.push(Cell::text(step.source.as_str()));
    cells
}

fn words(step: &Step) -> String {
    let further: Vec<String> = step
        .inputs
        .iter()
        .skip(INPUTS)
        .map(|(name, value)| format!("{name} = {value}"))
        .collect();
    if further.is_empty() {
        step.formula.clone()
    } else {
        format!("{}; {}", step.formula, further.join(", "))
    }
}
