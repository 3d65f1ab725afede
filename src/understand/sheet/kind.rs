//! What a row of a table is: goods, a package, a sum, words, hidden.

use super::{LONGEST_SECTION, Reader, first_text, row_text};
use crate::read::{Cell, Row, Value};
use crate::tables::packages::{self, Counts};
use crate::tables::row_words::{self, RowWord};
use crate::understand::columns::Columns;
use crate::understand::heading::Field;
use crate::understand::{Basis, Why, described};
use crate::units::written::{self, Decimal, MassText, tidy};

/// The kind of a row.
#[derive(Debug, PartialEq)]
pub(super) enum Kind {
    Hidden,
    Sum(Why),
    Text,
    Package,
    Item,
}

fn has_figure(value: &Value) -> bool {
    match value {
        Value::Number(_) | Value::Formula(_) | Value::Date(_) => true,
        Value::Text(text) => {
            text.contains(|sign: char| sign.is_ascii_digit()) || text.contains(['½', '¼', '¾'])
        }
        Value::Bool(_) | Value::Error(_) => false,
    }
}

/// A cell that is a figure as a whole, or sizes joined.
fn is_figure(value: &Value) -> bool {
    let Value::Text(text) = value else {
        return has_figure(value);
    };
    let counted = || {
        written::count(text, Decimal::Unclear)
            .is_some_and(|count| count.unit.is_empty() || packages::of_word(&count.unit).is_some())
    };
    let joined = || {
        described::read(text, Decimal::Unclear)
            .chains
            .iter()
            .any(|chain| chain.parts.len() > 1)
    };
    has_figure(value)
        && (!matches!(written::mass(text, Decimal::Unclear), MassText::NotAWeight)
            || written::length(text, Decimal::Unclear, None).is_some()
            || counted()
            || joined())
}

/// "TBA", "-": somebody thought of the figure and has none.
fn says_unstated(value: &Value) -> bool {
    matches!(value, Value::Text(text) if row_words::is_not_stated(text) && text.trim().len() > 1)
}

/// A row of words: a section's name, or a note.
pub(super) fn text_why(row: &Row, goes_on: bool) -> Why {
    let text = row_text(row);
    let starts = row_words::of_start(&text).map(|start| start.word);
    let note = matches!(starts, Some(RowWord::Note | RowWord::Page))
        || text.chars().count() > LONGEST_SECTION
        || text.ends_with('.');
    if note || !goes_on {
        Why::Note
    } else {
        Why::Section
    }
}

/// What a row's words say of a sum.
pub(super) struct NamedSum {
    pub(super) why: Why,
    /// Other words of the row may name goods ("Total station tripod").
    pub(super) goods_named: bool,
    /// An item number stands beside them.
    pub(super) numbered: bool,
    /// A number of pieces or packages stands beside them.
    pub(super) counted: bool,
}

/// The sum that the words of a row name. A part sum stays one whatever its words and counts.
pub(super) fn named_sum(row: &Row, columns: &Columns) -> Option<NamedSum> {
    let described = columns
        .first(Field::Description)
        .and_then(|column| row.cell(column.number))
        .filter(|cell| !tidy(&cell.value.text()).is_empty());
    let field = |cell: &Cell| {
        let mut all = columns.all.iter();
        all.find(|column| column.number == cell.column)
            .map(|column| column.field)
    };
    let start = |cell: &Cell| match &cell.value {
        Value::Text(text) => row_words::of_start(text),
        _ => None,
    };
    let (cell, start, why) = row.cells.iter().find_map(|cell| {
        let start = start(cell)?;
        let why = match start.word {
            RowWord::Total => Why::Total,
            RowWord::Subtotal => Why::Subtotal,
            RowWord::Carried => Why::Carried,
            _ => return None,
        };
        // A remark on goods may speak of a total; without goods beside it the word names the row.
        (described.is_none() || field(cell) != Some(Field::Remarks)).then_some((cell, start, why))
    })?;
    let elsewhere = described.is_some_and(|other| {
        other.column != cell.column && row_words::may_name_goods(&other.value.text())
    });
    let number = |other: &Cell| {
        other.column != cell.column
            && matches!(field(other), Some(Field::Item | Field::Mark))
            && has_figure(&other.value)
    };
    let count = |other: &Cell| {
        matches!(field(other), Some(Field::Quantity | Field::Packages))
            && !matches!(&other.value, Value::Text(text) if row_words::is_not_stated(text))
    };
    Some(NamedSum {
        why,
        goods_named: (start.goes_on && why != Why::Subtotal) || elsewhere,
        numbered: row.cells.iter().any(number),
        counted: row.cells.iter().any(count),
    })
}

impl Reader<'_> {
    /// Sizes merged over the lines of a package, or beside pieces or weights of one package, are the package's.
    pub(super) fn sizes_of_packages(&self, columns: &Columns) -> bool {
        let size_merged = self.sheet.merged.iter().any(|block| {
            block.bottom > block.top
                && columns
                    .all
                    .iter()
                    .any(|column| column.field.is_size() && column.number == block.left)
        });
        let per_package = columns.all.iter().any(|column| {
            column.field == Field::QuantityPerPackage
                || (column.field == Field::Weight && column.basis == Some(Basis::Package))
        });
        size_merged || per_package
    }

    pub(super) fn kind(&self, row: &Row, columns: &Columns) -> Kind {
        if row.hidden {
            return Kind::Hidden;
        }
        let text_of = |column: u32| row.cell(column).map(|cell| tidy(&cell.value.text()));
        let sized = columns
            .all
            .iter()
            .filter(|column| column.field.is_size())
            .any(|column| {
                row.cell(column.number)
                    .is_some_and(|cell| has_figure(&cell.value))
            });
        let description = columns
            .first(Field::Description)
            .and_then(|column| text_of(column.number));
        if !sized
            && let Some(named) = named_sum(row, columns)
            && !(named.goods_named && (named.numbered || named.counted))
        {
            return Kind::Sum(named.why);
        }
        // Without goods beside it, "Page 2 of 2" under a weight's heading is a note, and "450 kg" still a figure.
        let figured = |value: &Value| {
            if description.is_some() {
                has_figure(value)
            } else {
                is_figure(value)
            }
        };
        let figures = row.cells.iter().any(|cell| {
            columns.all.iter().any(|column| {
                column.number == cell.column
                    && (column.field.is_figure() || column.field == Field::QuantityPerPackage)
                    && (figured(&cell.value)
                        || !matches!(cell.value, Value::Text(_))
                        || says_unstated(&cell.value))
            })
        });
        let item = columns
            .first(Field::Item)
            .or_else(|| columns.first(Field::Mark))
            .and_then(|column| text_of(column.number));
        let packaging = |text: &String| {
            text.split(' ').any(|word| {
                packages::of_word(word).is_some_and(|word| word.counts == Counts::Package)
            })
        };
        let quantity = columns
            .first(Field::Quantity)
            .and_then(|column| text_of(column.number));
        if figures
            && description.as_ref().is_none_or(packaging)
            && quantity.is_none_or(|quantity| quantity == "1")
        {
            let package = first_text(row).is_some_and(|text| {
                let mut words = text.split([' ', '-', '.']);
                let named = words
                    .next()
                    .and_then(packages::of_word)
                    .is_some_and(|word| word.counts == Counts::Package);
                let figure = |word: &str| word.contains(|sign: char| sign.is_ascii_digit());
                // "Pallet 2", "Pallet A" and "Crate of spare parts" are packages; "Pallet of 500 bricks" counts its goods.
                named
                    && words
                        .next()
                        .is_none_or(|rest| match rest.to_lowercase().as_str() {
                            "of" | "de" | "di" | "da" => {
                                words.next().is_none_or(|next| !figure(next))
                            }
                            rest => figure(rest) || rest.len() <= 2,
                        })
            });
            if package {
                return Kind::Package;
            }
        }
        let texts = row
            .cells
            .iter()
            .filter(|cell| matches!(cell.value, Value::Text(_)))
            .count();
        let only_words = !figures && texts == row.cells.len();
        // A description alone is a section, a note or a line that says nothing; with an item number beside it, it is goods.
        if only_words && (row.cells.len() == 1 || description.is_none() || item.is_none()) {
            return Kind::Text;
        }
        Kind::Item
    }
}
