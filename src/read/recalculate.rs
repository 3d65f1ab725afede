//! Recalculates formulas whose result was never stored: sums, products and the four rules of arithmetic over cells of
//! the same sheet that hold numbers. Anything else stays a formula. What was recalculated is said.

mod formula;

use super::gather::cell_name;
use super::{Sheet, Value};
use formula::{Formula, Part};
use std::collections::{HashMap, HashSet};

/// Recalculated cells of a sheet that are named one by one; the others are counted.
const MOST_NAMED: usize = 50;
/// Cells that the sums of one sheet may visit in all.
const MOST_VISITS: usize = 20_000_000;
/// Formulas that may stand on one another.
const DEEPEST: usize = 64;

/// Puts numbers in place of the formulas of a sheet that can be recalculated. `zeros` names the formula cells whose
/// writer stored a 0.
pub(super) fn sheet(sheet: &mut Sheet, zeros: &HashSet<(u32, u32)>, remarks: &mut Vec<String>) {
    let formulas = formulas(sheet);
    let places: Vec<(u32, u32)> = sheet
        .rows
        .iter()
        .flat_map(|row| {
            row.cells
                .iter()
                .filter(|cell| matches!(cell.value, Value::Formula(_)))
                .map(|cell| (row.number, cell.column))
        })
        .collect();
    let mut engine = Engine {
        sheet,
        formulas: &formulas,
        known: HashMap::new(),
        visits: 0,
        too_deep: false,
    };
    // Long chains run down the sheet or up it: the second pass, from below, finds what the first left too deep.
    for place in places.iter().chain(places.iter().rev()) {
        engine.too_deep = false;
        engine.cell(*place, 0);
    }
    let known = engine.known;
    let results: Vec<((u32, u32), f64)> = places
        .into_iter()
        .filter_map(|place| Some((place, (*known.get(&place)?)?)))
        .collect();
    let mut named = 0;
    let mut unnamed = 0;
    for ((row, column), number) in results {
        let Some(cell) = cell_mut(sheet, row, column) else {
            continue;
        };
        let before = std::mem::replace(cell, Value::Number(number));
        let stored = zeros.contains(&(row, column));
        if stored && number == 0.0 {
            continue;
        }
        if named == MOST_NAMED {
            unnamed += 1;
            continue;
        }
        named += 1;
        remarks.push(format!(
            "{}: recalculated as {} ({} had {})",
            cell_name(sheet, row, column),
            with_thousands(number),
            before.text(),
            if stored {
                "a stored 0"
            } else {
                "no stored result"
            },
        ));
    }
    if unnamed > 0 {
        remarks.push(format!(
            "{unnamed} more formulas of sheet \"{}\" without a stored result were recalculated",
            sheet.name
        ));
    }
}

fn formulas(sheet: &Sheet) -> HashMap<(u32, u32), Formula> {
    let mut found = HashMap::new();
    for row in &sheet.rows {
        for cell in &row.cells {
            if let Value::Formula(text) = &cell.value
                && let Some(formula) = formula::parse(text)
            {
                found.insert((row.number, cell.column), formula);
            }
        }
    }
    found
}

fn cell_mut(sheet: &mut Sheet, row: u32, column: u32) -> Option<&mut Value> {
    let at = sheet
        .rows
        .binary_search_by_key(&row, |row| row.number)
        .ok()?;
    let row = sheet.rows.get_mut(at)?;
    let at = row
        .cells
        .binary_search_by_key(&column, |cell| cell.column)
        .ok()?;
    row.cells.get_mut(at).map(|cell| &mut cell.value)
}

struct Engine<'a> {
    sheet: &'a Sheet,
    formulas: &'a HashMap<(u32, u32), Formula>,
    /// Results so far; none is "cannot be recalculated", also while a cell is being worked on (a circle has no result).
    known: HashMap<(u32, u32), Option<f64>>,
    visits: usize,
    /// The chain of formulas was too long from where it was started.
    too_deep: bool,
}

impl Engine<'_> {
    /// The number in a cell, recalculated where it is a formula.
    fn cell(&mut self, place: (u32, u32), depth: usize) -> Option<f64> {
        match self.sheet.row(place.0)?.cell(place.1)?.value {
            Value::Number(number) => return Some(number),
            Value::Formula(_) => {}
            _ => return None,
        }
        if let Some(known) = self.known.get(&place) {
            return *known;
        }
        if depth > DEEPEST {
            self.too_deep = true;
            return None;
        }
        self.known.insert(place, None);
        let formulas = self.formulas;
        let result = formulas
            .get(&place)
            .and_then(|formula| self.work(formula, depth))
            .filter(|number| number.is_finite())
            .map(as_spreadsheets_do);
        if result.is_none() && self.too_deep {
            self.known.remove(&place);
        } else {
            self.known.insert(place, result);
        }
        result
    }

    /// Works a formula in the order of its parts: numbers are laid on a stack, operations take from it.
    fn work(&mut self, formula: &Formula, depth: usize) -> Option<f64> {
        let mut stack: Vec<f64> = Vec::new();
        for part in &formula.parts {
            let number = match part {
                Part::Number(number) => *number,
                Part::Cell(row, column) => self.cell((*row, *column), depth + 1)?,
                Part::Sum(from, to) => {
                    self.over_range(*from, *to, depth, 0.0, |sum, number| sum + number)?
                }
                Part::Product(from, to) => {
                    self.over_range(*from, *to, depth, 1.0, |product, number| product * number)?
                }
                Part::Negate => -stack.pop()?,
                Part::Percent => stack.pop()? / 100.0,
                Part::Operation(sign) => {
                    let (right, left) = (stack.pop()?, stack.pop()?);
                    match sign {
                        '+' => left + right,
                        '-' => left - right,
                        '*' => left * right,
                        _ => left / right,
                    }
                }
            };
            stack.push(number);
        }
        stack.pop().filter(|_| stack.is_empty())
    }

    /// Takes the numbers of a block together. Texts and blanks do not count, as in a spreadsheet; an error or a formula
    /// without result in it leaves no result.
    fn over_range(
        &mut self,
        from: (u32, u32),
        to: (u32, u32),
        depth: usize,
        start: f64,
        together: impl Fn(f64, f64) -> f64,
    ) -> Option<f64> {
        let sheet = self.sheet;
        let first = sheet.rows.partition_point(|row| row.number < from.0);
        let mut result = start;
        for row in sheet
            .rows
            .iter()
            .skip(first)
            .take_while(|row| row.number <= to.0)
        {
            self.visits += 1;
            let first = row.cells.partition_point(|cell| cell.column < from.1);
            for cell in row
                .cells
                .iter()
                .skip(first)
                .take_while(|cell| cell.column <= to.1)
            {
                self.visits += 1;
                if self.visits > MOST_VISITS {
                    return None;
                }
                match &cell.value {
                    Value::Number(number) => result = together(result, *number),
                    Value::Formula(_) => {
                        result = together(result, self.cell((row.number, cell.column), depth + 1)?)
                    }
                    Value::Error(_) => return None,
                    Value::Text(_) | Value::Bool(_) | Value::Date(_) => {}
                }
            }
        }
        Some(result)
    }
}

/// Fifteen significant digits, as spreadsheets calculate: binary fractions leave dust behind the sixteenth.
fn as_spreadsheets_do(number: f64) -> f64 {
    format!("{number:.14e}").parse().unwrap_or(number)
}

/// A number as people read it: `8,335.8`; at most six decimals.
fn with_thousands(number: f64) -> String {
    let plain = format!("{number:.6}");
    let plain = plain.trim_end_matches('0').trim_end_matches('.');
    let (sign, plain) = plain
        .strip_prefix('-')
        .map_or(("", plain), |rest| ("-", rest));
    let (whole, decimals) = plain
        .split_once('.')
        .map_or((plain, String::new()), |(whole, rest)| {
            (whole, format!(".{rest}"))
        });
    let mut grouped = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index) % 3 == 0 {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    format!("{sign}{grouped}{decimals}")
}
