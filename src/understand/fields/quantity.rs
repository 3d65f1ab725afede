//! The quantity of a row: pieces, packages, a running length, or a weight.

use super::RowReader;
use crate::read::Value;
use crate::tables::packages::{self, Counts};
use crate::tables::row_words;
use crate::understand::columns::Column;
use crate::understand::heading::Field;
use crate::understand::{Basis, NOTHING_DELIVERED, Size1, StatedWeight, WeightKind, sizes};
use crate::units::written::{self, Figure, WrittenLength, fold, tidy};
use crate::units::{LengthUnit, Volume};

/// What a quantity cell says.
#[derive(Default)]
pub(super) struct Quantity {
    pub pieces: Option<u32>,
    pub packages: Option<u32>,
    pub length: Option<Size1>,
    pub weight: Option<StatedWeight>,
    pub amount: Option<Volume>,
}

/// A cubic foot and a cubic yard, m3, exact.
const FT3: f64 = 0.3048 * 0.3048 * 0.3048;
const YD3: f64 = 27.0 * FT3;

impl RowReader<'_> {
    pub(super) fn quantity(&mut self) -> Quantity {
        let columns = self.columns;
        let Some(column) = columns.first(Field::Quantity) else {
            return Quantity::default();
        };
        let count = self.count(column);
        let cell_unit = match self.value(column.number) {
            Some(Value::Text(text)) => {
                let text = fold(text);
                text.trim()
                    .trim_start_matches(|sign: char| {
                        sign.is_ascii_digit() || matches!(sign, '.' | ',' | ' ' | '(' | ')' | '\'')
                    })
                    .trim()
                    .to_string()
            }
            _ => String::new(),
        };
        let cell_unit = count.as_ref().map_or(cell_unit, |count| count.unit.clone());
        if count.as_ref().is_some_and(|count| count.unclear) {
            let text = self
                .value(column.number)
                .map(Value::text)
                .unwrap_or_default();
            self.unclear(column.number, &text);
        }
        let unit = if cell_unit.is_empty() {
            self.text(Field::Unit)
        } else {
            Some(cell_unit)
        };
        let word = unit.as_deref().and_then(packages::of_word);
        match word.map(|word| (word.counts, word.name)) {
            Some((Counts::Package, _)) if self.packages().is_none() => {
                let packages = count.as_ref().map(|count| count.number);
                // "20 ctns of 12"
                let pieces = count.and_then(|count| count.number.checked_mul(count.each?));
                Quantity {
                    packages,
                    pieces,
                    ..Quantity::default()
                }
            }
            Some((Counts::Measure, "metre")) => self.running(column, LengthUnit::M),
            Some((Counts::Measure, "foot")) => self.running(column, LengthUnit::Ft),
            Some((Counts::Measure, "weight")) => {
                self.quantity_is_weight(column, unit.unwrap_or_default())
            }
            Some((Counts::Measure, "volume")) => self.amount(column, &unit.unwrap_or_default()),
            Some((Counts::Measure, _)) => Quantity::default(),
            _ => {
                let pieces =
                    count.map(|count| count.number.saturating_mul(count.each.unwrap_or(1)));
                if pieces.is_none()
                    && let Some(value) = self.value(column.number)
                    && !row_words::is_not_stated(&fold(&value.text()))
                {
                    let text = tidy(&value.text());
                    let (code, message) = if text.parse() == Ok(0.0) {
                        (
                            NOTHING_DELIVERED,
                            format!(
                                "{text} under \"{}\" says that nothing of it came; if goods are there, count and weigh them before lifting",
                                column.text
                            ),
                        )
                    } else {
                        (
                            "quantity-not-read",
                            format!(
                                "\"{text}\" under \"{}\" is no whole number of pieces",
                                column.text
                            ),
                        )
                    };
                    self.remark(code, column.number, message);
                }
                Quantity {
                    pieces,
                    ..Quantity::default()
                }
            }
        }
    }

    /// The figure of a quantity that is a measure.
    fn figure(&self, column: &Column) -> Option<Figure> {
        match self.value(column.number)? {
            Value::Number(number) if *number > 0.0 => Some(Figure::of_number(*number)),
            Value::Text(text) => written::scan_figure(fold(text).trim(), 0, column.habit, true)
                .map(|(figure, _)| figure),
            _ => None,
        }
    }

    /// A quantity in cubic metres, feet or yards. Gallons and litres come in something, board feet have a thickness of their own.
    fn amount(&self, column: &Column, unit: &str) -> Quantity {
        let cubic = match fold(unit)
            .trim()
            .trim_end_matches('.')
            .to_lowercase()
            .as_str()
        {
            "m3" | "m³" | "cbm" | "cu m" => Some(1.0),
            "cu yd" | "yd3" | "cy" => Some(YD3),
            "cu ft" | "ft3" | "cft" => Some(FT3),
            _ => None,
        };
        let figure = self.figure(column).filter(|figure| !figure.unclear);
        Quantity {
            amount: figure
                .zip(cubic)
                .filter(|(figure, _)| figure.value > 0.0)
                .map(|(figure, cubic)| Volume::from_m3(figure.value * cubic)),
            ..Quantity::default()
        }
    }

    /// A quantity in metres or feet: one length of that much.
    fn running(&self, column: &Column, unit: LengthUnit) -> Quantity {
        let length = self.figure(column).and_then(|figure| {
            sizes::size(
                WrittenLength {
                    figure,
                    unit: Some(unit),
                },
                None,
            )
        });
        Quantity {
            length,
            ..Quantity::default()
        }
    }

    /// A quantity in kilograms, pounds or tons is the declared weight itself.
    fn quantity_is_weight(&mut self, column: &Column, unit: String) -> Quantity {
        let unit =
            crate::units::spelling::mass(&unit).and_then(|spelled| spelled.unit(Some(self.us)));
        let weight = self.weight_cell(column, unit, Some(Basis::Line), WeightKind::Unstated);
        Quantity {
            weight,
            ..Quantity::default()
        }
    }
}
