//! The rows of a sheet: titles, headings, goods, sections, sums and notes, cell by cell.

use super::chance::Chance;
use super::goods::Line;
use super::layout::{Column, Holds, Layout, UnitsAt};

/// One cell: its text, and the number where a spreadsheet would hold one.
#[derive(Clone, Debug, Default)]
pub struct Cell {
    pub text: String,
    pub number: Option<f64>,
}

impl Cell {
    fn text(text: impl Into<String>) -> Cell {
        Cell {
            text: text.into(),
            number: None,
        }
    }
}

pub type Row = Vec<Cell>;

/// All rows in order and the place of each line among them.
pub struct Grid {
    pub rows: Vec<Row>,
    pub lines: Vec<usize>,
}

const TITLES: [&[&str]; 9] = [
    &["Brackwater Stockholders"],
    &["Delivery note KJ-4471"],
    &["Delivery note:", "DN 20931"],
    &["Date", "2026-03-04", "Vehicle: TRL 318"],
    &["Order No.", "KJ-2207"],
    &["Packing list", "Page 1 of 2"],
    &["Consignee: Kestrel Junction Stores, Yard Gate 2"],
    &["Lieferschein Nr. 88213", "Lieferant: Morgenrain"],
    &["Supplier", "Order", "Vehicle"],
];
const SECTIONS: [&str; 7] = [
    "SECTION A",
    "CONTAINER C2",
    "=== MATERIAL ===",
    "### Bridge deck ###",
    "Section 2",
    "Lot 3, north side",
    "Bauabschnitt 4",
];
const NOTES: [&str; 8] = [
    "All weights are stated without packing.",
    "Received in good order:",
    "Signature",
    "Goods remain our property until they are paid for, whatever the terms of the buyer may say",
    "Page 2 of 2",
    "Say nine pieces only",
    "Terms: 30 days",
    "Note: 14 pallets to be returned",
];

/// Writes lines into rows.
pub fn grid(chance: &mut Chance, layout: &Layout, lines: &[Line]) -> Grid {
    let mut grid = Grid {
        rows: Vec::new(),
        lines: Vec::new(),
    };
    let width = layout.columns.len();
    for _ in 0..chance.between(0, 4) {
        grid.rows.push(
            chance
                .one(&TITLES)
                .iter()
                .map(|text| Cell::text(*text))
                .collect(),
        );
    }
    if chance.percent(40) {
        grid.rows.push(Row::new());
    }
    let headings = headings(layout, chance.one(layout.language.group));
    grid.rows.extend(headings.iter().cloned());
    let (mut sum, mut all, mut in_sum) = (0, 0, 0);
    let (sections, sums, pages) = (chance.percent(25), chance.percent(30), chance.percent(15));
    for (index, line) in lines.iter().enumerate() {
        if chance.percent(6) {
            grid.rows.push(Row::new());
        }
        if pages && index > 0 && chance.percent(20) {
            let carried = chance
                .percent(50)
                .then(|| sum_row(chance, layout, layout.language.carried, all));
            grid.rows.extend(carried.clone());
            grid.rows.extend(headings.iter().cloned());
            grid.rows.extend(carried);
        }
        if sections && in_sum == 0 && chance.percent(60) {
            let at = chance.one(&[0, layout.place(Holds::Description).unwrap_or(0)]);
            grid.rows.push(alone(width, at, chance.one(&SECTIONS)));
        }
        grid.lines.push(grid.rows.len());
        grid.rows.push(goods(chance, layout, line, index));
        let weight = line.line_weight.map_or(0, |weight| weight.thousandths());
        (sum, all, in_sum) = (sum + weight, all + weight, in_sum + 1);
        if sums && in_sum > 1 && chance.percent(30) {
            let words = maybe(chance, layout.language.subtotal, in_sum, sum);
            grid.rows.push(sum_row(chance, layout, words, sum));
            (sum, in_sum) = (0, 0);
        }
    }
    if chance.percent(50) {
        if chance.percent(20) {
            grid.rows.push(Row::new());
        }
        let words = maybe(chance, layout.language.total, lines.len(), all);
        grid.rows.push(sum_row(chance, layout, words, all));
    }
    for _ in 0..chance.one(&[0, 0, 1, 2, 3]) {
        if chance.percent(40) {
            grid.rows.push(Row::new());
        }
        grid.rows.push(vec![Cell::text(chance.one(&NOTES))]);
    }
    grid
}

/// The heading row, and the row below it where units or size names stand there.
fn headings(layout: &Layout, group: &str) -> Vec<Row> {
    let unit = |column: &Column| column.unit.unwrap_or_default();
    let grouped = |column: &Column| {
        layout.units_at == UnitsAt::Group && matches!(column.holds, Holds::Size(_))
    };
    let first_size = layout.columns.iter().position(grouped);
    let upper = layout.columns.iter().enumerate().map(|(index, column)| {
        let word = column.heading.as_str();
        Cell::text(match (column.unit, layout.units_at) {
            _ if grouped(column) && Some(index) != first_size => String::new(),
            (Some(unit), _) if grouped(column) => format!("{group} ({unit})"),
            (None, _) | (_, UnitsAt::SecondRow | UnitsAt::SecondRowBrackets | UnitsAt::Cell) => {
                word.to_string()
            }
            (Some(unit), UnitsAt::Brackets | UnitsAt::Group) => format!("{word} ({unit})"),
            (Some(unit), UnitsAt::Square) => format!("{word} [{unit}]"),
            (Some(unit), UnitsAt::Comma) => format!("{word}, {unit}"),
            (Some(unit), UnitsAt::Blank) => format!("{word} {unit}"),
            (Some(unit), UnitsAt::LineBreak) => format!("{word}\n{unit}"),
            (Some(unit), UnitsAt::Slash) => format!("{word}/{unit}"),
        })
    });
    let mut rows = vec![upper.collect::<Row>()];
    let lower = |text: &dyn Fn(&Column) -> String| {
        layout
            .columns
            .iter()
            .map(|column| Cell::text(text(column)))
            .collect::<Row>()
    };
    match layout.units_at {
        UnitsAt::SecondRow => rows.push(lower(&|column| unit(column).to_string())),
        UnitsAt::SecondRowBrackets => rows.push(lower(&|column| {
            column
                .unit
                .map_or(String::new(), |unit| format!("({unit})"))
        })),
        UnitsAt::Group => rows.push(lower(&|column| {
            if grouped(column) {
                column.heading.clone()
            } else {
                String::new()
            }
        })),
        _ => {}
    }
    rows
}

fn alone(width: usize, at: usize, text: &str) -> Row {
    let mut row = vec![Cell::default(); width];
    row[at] = Cell::text(text);
    row
}

fn goods(chance: &mut Chance, layout: &Layout, line: &Line, index: usize) -> Row {
    layout
        .columns
        .iter()
        .map(|column| cell(chance, layout, line, column, index))
        .collect()
}

fn cell(chance: &mut Chance, layout: &Layout, line: &Line, column: &Column, index: usize) -> Cell {
    let figure = match column.holds {
        Holds::LineNo => {
            return Cell {
                text: format!("{}", index + 1),
                number: Some(index as f64 + 1.0),
            };
        }
        Holds::ItemNo => return Cell::text(format!("KJ-{}", chance.between(100, 9_999))),
        Holds::Description => return Cell::text(line.description),
        Holds::Material => return Cell::text(line.material),
        Holds::Pieces => {
            return Cell {
                text: layout.locale.number(i64::from(line.pieces), 0),
                number: Some(f64::from(line.pieces)),
            };
        }
        Holds::Remarks => {
            return Cell::text(chance.one(&[
                "",
                "",
                "ex stock",
                "urgent",
                "Total of the order",
                "weight checked",
            ]));
        }
        Holds::LineWeight => line.line_weight,
        Holds::PieceWeight => line.piece_weight,
        Holds::Size(place) => line.sizes[place],
    };
    let Some(figure) = figure else {
        return Cell::text(if matches!(column.holds, Holds::Size(_)) {
            ""
        } else {
            chance.one(&["", "TBA", "-", "n/a", "folgt"])
        });
    };
    let text = figure.text(layout.locale);
    match column.unit {
        Some(unit) if layout.units_at == UnitsAt::Cell && !figure.marked() => {
            Cell::text(format!("{text}{}{unit}", chance.one(&[" ", ""])))
        }
        _ => Cell {
            text,
            number: figure.number(),
        },
    }
}

/// A row with the sum of the line weights, its word in the first column or among the goods' names; without a word where
/// `words` is empty.
fn sum_row(chance: &mut Chance, layout: &Layout, words: &[&str], thousandths: i64) -> Row {
    let mut row = vec![Cell::default(); layout.columns.len()];
    let weight = layout.place(Holds::LineWeight).unwrap_or(0);
    let text = layout.locale.thousandths(thousandths);
    row[weight] = match layout.columns[weight].unit {
        Some(unit) if layout.units_at == UnitsAt::Cell => Cell::text(format!("{text} {unit}")),
        _ => Cell {
            text,
            number: Some(thousandths as f64 / 1_000.0),
        },
    };
    let description = layout.place(Holds::Description).unwrap_or(0);
    let at = if weight == 0 || chance.percent(50) {
        description
    } else {
        0
    };
    if !words.is_empty() {
        row[at] = Cell::text(chance.one(words));
    }
    row
}

/// The words of a sum, or none: a sum of several lines often stands without one.
fn maybe(
    chance: &mut Chance,
    words: &'static [&'static str],
    lines: usize,
    sum: i64,
) -> &'static [&'static str] {
    if lines > 1 && sum > 0 && chance.percent(15) {
        &[]
    } else {
        words
    }
}
