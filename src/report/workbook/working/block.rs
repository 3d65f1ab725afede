//! The working of one load as rows of plain figures and formulas of our own.

use super::VALUE;
use super::places::{At, Places, likely};
use super::range;
use crate::audit::Delivery;
use crate::estimate::Estimate;
use crate::report::loads::{self, Load};
use crate::report::on_paper::{Quantity, of_result, quantity};
use crate::report::workbook::cell::{MOST_OF_NAME, brief};
use crate::report::workbook::live;
use crate::site::Units;
use crate::units::{M_PER_IN, show};
use std::borrow::Cow;

/// A row.
pub struct Row<'a> {
    /// Number of the step.
    pub step: Option<usize>,
    /// What the figure is.
    pub what: Cow<'a, str>,
    /// A name or a result, not something that goes into one.
    pub bold: bool,
    /// The figure.
    pub figure: Option<Figure>,
    /// How it is worked out.
    pub how: Cow<'a, str>,
    /// What it rests on.
    pub source: Cow<'a, str>,
}

/// A figure of a row.
pub struct Figure {
    /// In SI, as the record has it.
    pub value: f64,
    /// A formula with this result.
    pub formula: Option<String>,
    /// Unit of the value.
    pub unit: &'static str,
    /// The same in the units people see: formula, result, unit.
    pub shown: Option<(String, f64, &'static str)>,
}

/// Where the figures of a delivery's loads stand.
pub struct Sources<'a> {
    places: &'a Places,
    delivery: usize,
    /// By package: the lines in it, each with its number among the loads, its row and its likely mass, kg.
    members: Vec<Vec<Member>>,
}

struct Member {
    load: usize,
    row: u32,
    likely: f64,
    below: u32,
}

impl<'a> Sources<'a> {
    /// Of delivery number `delivery` of the audit.
    pub fn of(delivery: &'a Delivery, number: usize, places: &'a Places) -> Sources<'a> {
        let mut members: Vec<Vec<Member>> = Vec::new();
        members.resize_with(delivery.packages.len(), Vec::new);
        for (load, at) in loads::of(delivery).zip(0..) {
            let (Load::Line(line), Some(estimate)) = (load, load.estimate()) else {
                continue;
            };
            let package = line.item.shared_with.and_then(|at| members.get_mut(at));
            if let Some(package) = package {
                package.push(Member {
                    load: at,
                    row: line.item.place.row,
                    likely: estimate.line.likely.kg(),
                    below: likely(estimate),
                });
            }
        }
        Sources {
            places,
            delivery: number,
            members,
        }
    }

    /// The likely mass of the line in a package that an input of its sum stands for.
    fn of_member(&self, load: Load<'_>, name: &str, value: f64) -> Option<At> {
        let Load::Package(package, _) = load else {
            return None;
        };
        let row: u32 = name.strip_prefix("row ")?.parse().ok()?;
        let members = self.members.get(package)?;
        // By row, because a package of thousands of lines asks for each of them.
        let first = members.partition_point(|member| member.row < row);
        let member = members
            .get(first..)?
            .iter()
            .take_while(|member| member.row == row)
            .find(|member| member.likely == value)?;
        Some(
            self.places
                .of_load(self.delivery, member.load, member.below),
        )
    }
}

/// An input or a result further up.
struct Earlier<'a> {
    /// Name of an input, or what a result is of.
    name: &'a str,
    quantity: Option<Quantity>,
    value: f64,
    at: At,
    result: bool,
}

/// The rows of load number `number` of its delivery.
pub fn rows<'a>(
    load: Load<'a>,
    number: usize,
    sources: &Sources<'_>,
    units: Units,
) -> Vec<Row<'a>> {
    let Some(estimate) = load.estimate() else {
        let why = load.no_estimate().unwrap_or_default();
        return vec![named(load, format!("no estimate: {why}"))];
    };
    let at = |below: usize| {
        let below = u32::try_from(below).unwrap_or(u32::MAX);
        sources.places.of_load(sources.delivery, number, below)
    };
    let mut rows = vec![named(load, as_audited(load, estimate, units))];
    let mut earlier: Vec<Earlier<'_>> = Vec::new();
    for (step, number) in estimate.steps.iter().zip(1..) {
        let mut cells = Vec::new();
        let result = at(rows.len() + step.inputs.len());
        for (input, (name, value)) in step.inputs.iter().enumerate() {
            let here = at(rows.len());
            let source = sources
                .of_member(load, name, *value)
                .or_else(|| source_of(name, *value, input, &earlier));
            let formula = source.map(|source| format!("={}", source.cell(VALUE, here)));
            cells.push(here.cell(VALUE, result));
            let quantity = quantity(name);
            let unit = if name == "angle" {
                "degrees"
            } else {
                quantity.shown(Units::Si).1
            };
            rows.push(Row {
                step: Some(number),
                what: name.as_str().into(),
                bold: false,
                figure: Some(figure(*value, formula, unit, Some(quantity), here, units)),
                how: "".into(),
                source: "".into(),
            });
            earlier.push(Earlier {
                name,
                quantity: Some(quantity),
                value: *value,
                at: here,
                result: false,
            });
        }
        let formula = live::formula(step, &cells);
        let quantity = of_result(step.unit);
        rows.push(Row {
            step: Some(number),
            what: step.what.as_str().into(),
            bold: true,
            figure: Some(figure(
                step.result,
                formula,
                step.unit,
                quantity,
                result,
                units,
            )),
            how: step.formula.as_str().into(),
            source: step.source.as_str().into(),
        });
        earlier.push(Earlier {
            name: &step.what,
            quantity,
            value: step.result,
            at: result,
            result: true,
        });
    }
    range::of_line(&mut rows, estimate, &at, units);
    range::with_packing(&mut rows, load, estimate, &at, units);
    rows
}

/// The cell further up that an input has its figure from, so that a change goes through to the line: the result that its name
/// speaks of; for the first input the result just before; the only result of that quantity and figure; a size of the same name.
fn source_of(name: &str, value: f64, input: usize, earlier: &[Earlier<'_>]) -> Option<At> {
    let quantity = quantity(name);
    let results = || {
        let results = earlier.iter().rev().filter(|one| one.result);
        results.filter(|one| one.value == value && one.quantity == Some(quantity))
    };
    let named = results().find(|one| one.name.contains(name));
    let before = earlier.iter().rev().find(|one| one.result);
    let before = before.filter(|one| input == 0 && one.value == value);
    let only = || {
        let mut all = results();
        all.next().filter(|_| all.next().is_none())
    };
    let size = || {
        let mut inputs = earlier.iter().filter(|one| !one.result);
        inputs.find(|one| one.name == name && one.value == value && quantity == Quantity::Length)
    };
    let found = named.or(before).or_else(only).or_else(size)?;
    Some(found.at)
}

/// A figure in SI and as people see it; a formula has it as its result.
pub(super) fn figure(
    value: f64,
    formula: Option<String>,
    unit: &'static str,
    quantity: Option<Quantity>,
    here: At,
    units: Units,
) -> Figure {
    // Sizes in inches: few of them are many feet long, and a wall of a quarter inch is few hundredths of one.
    let (factor, seen) = match quantity {
        Some(Quantity::Length) => (1.0 / M_PER_IN, "in"),
        Some(quantity) => quantity.shown(Units::Us),
        None => (1.0, ""),
    };
    let shown = (units == Units::Us && !seen.is_empty()).then(|| {
        let cell = here.cell(VALUE, here);
        (format!("={cell}*{factor}"), value * factor, seen)
    });
    Figure {
        value,
        formula,
        unit,
        shown,
    }
}

/// The row that a load begins with.
fn named<'a>(load: Load<'a>, how: String) -> Row<'a> {
    Row {
        step: None,
        what: brief(load.description(), MOST_OF_NAME),
        bold: true,
        figure: None,
        how: how.into(),
        source: "".into(),
    }
}

/// What the record says, whatever is changed below.
fn as_audited(load: Load<'_>, estimate: &Estimate, units: Units) -> String {
    let declared = match load.declared() {
        Some(declared) => format!("declared {}", show::weight(declared.mass, units)),
        None => "no declared weight".to_string(),
    };
    let expected = load.expected().unwrap_or(estimate.line);
    let expected = show::range(expected, units);
    format!("as audited: {declared}, expected {expected}")
}
