//! The weight, tare and volume cells of a row.

use super::{RowReader, spoken};
use crate::place::Place;
use crate::read::Value;
use crate::understand::columns::Column;
use crate::understand::heading::Field;
use crate::understand::{
    Basis, SpokenWeight, StatedVolume, StatedWeight, UnusableWeight, WeightKind,
};
use crate::units::written::{self, MassText, Of, fold, tidy};
use crate::units::{MassUnit, Volume};

impl RowReader<'_> {
    pub(super) fn weights(&mut self) -> Vec<StatedWeight> {
        let columns = self.columns;
        let mut found = Vec::new();
        let row_unit = self
            .text(Field::WeightUnit)
            .and_then(|text| crate::units::spelling::mass(&text)?.unit(Some(self.us)));
        for column in columns.of(Field::Weight) {
            if column.both_kinds {
                found.extend(self.both(column, row_unit.or(column.mass)));
                continue;
            }
            found.extend(self.weight_cell(
                column,
                row_unit.or(column.mass),
                column.basis,
                column.kind,
            ));
        }
        found
    }

    fn no_weight(&mut self, place: Place, text: String, why: &str, withheld: bool) {
        self.unusable.push(UnusableWeight {
            place,
            text,
            why: why.to_string(),
            withheld,
            speaks_of: None,
        });
    }

    /// Net and gross in one cell (`33 /38 kg`).
    fn both(&mut self, column: &Column, unit: Option<MassUnit>) -> Vec<StatedWeight> {
        let Some(Value::Text(text)) = self.value(column.number) else {
            return self
                .weight_cell(column, unit, column.basis, WeightKind::Unstated)
                .into_iter()
                .collect();
        };
        let folded = fold(text).into_owned();
        let parts: Vec<(MassText, WeightKind)> = folded
            .splitn(2, '/')
            .map(|part| written::mass(part, column.habit))
            .zip([WeightKind::Net, WeightKind::Gross])
            .collect();
        // In "33 /38 kg" the unit behind the second stands for both.
        let country = self.columns.us.or(Some(self.us));
        let beside = |part: &MassText| match part {
            MassText::Figure { unit, .. } => unit.and_then(|spelled| spelled.unit(country)),
            _ => None,
        };
        let common = parts.iter().rev().find_map(|(part, _)| beside(part));
        let mut found = Vec::new();
        for (part, kind) in parts {
            let MassText::Figure { figure, .. } = part else {
                continue;
            };
            if figure.unclear {
                self.unclear(column.number, text);
            }
            let unit = beside(&part).or(common).or(unit);
            found.push(StatedWeight {
                figure: figure.value,
                unit,
                basis: column.basis,
                kind,
                place: self.place(column.number),
                text: written_with_unit(text, unit, common.is_some()),
            });
        }
        if found.is_empty() {
            self.no_weight(
                self.place(column.number),
                tidy(text),
                "is not a weight",
                true,
            );
        }
        found
    }

    /// `@` stands for one package, or for one piece where no packages are counted.
    fn basis(&self, of: Of) -> Basis {
        match of {
            Of::Line => Basis::Line,
            Of::Package if self.packages().is_some() => Basis::Package,
            Of::Package | Of::Piece => Basis::Piece,
        }
    }

    pub(super) fn weight_cell(
        &mut self,
        column: &Column,
        unit: Option<MassUnit>,
        mut basis: Option<Basis>,
        mut kind: WeightKind,
    ) -> Option<StatedWeight> {
        let place = self.place(column.number);
        let value = self.value(column.number)?;
        let (figure, unit, text) = match value {
            Value::Number(number) if *number > 0.0 => (
                *number,
                unit,
                written_with_unit(&figure_text(*number), unit, false),
            ),
            Value::Number(number) => {
                let why = if *number == 0.0 {
                    "is zero"
                } else {
                    "is negative"
                };
                self.no_weight(place, value.text(), why, true);
                return None;
            }
            Value::Text(text) => match written::mass(text, column.habit) {
                MassText::Figure {
                    figure,
                    unit: beside,
                    of,
                    gross,
                    ..
                } => {
                    if figure.unclear {
                        self.unclear(column.number, text);
                    }
                    if self.columns.us.is_none()
                        && beside.is_some_and(|spelled| spelled.unit(None).is_none())
                    {
                        let message = format!(
                            "\"{}\" is another weight in the US than elsewhere and nothing in the table tells which is meant; ask the supplier",
                            tidy(text)
                        );
                        self.remark("unclear-figure", column.number, message);
                    }
                    // What the cell says of its own figure beats the heading.
                    basis = of.map(|of| self.basis(of)).or(basis);
                    kind = gross.map_or(kind, |gross| {
                        if gross {
                            WeightKind::Gross
                        } else {
                            WeightKind::Net
                        }
                    });
                    let spelled =
                        beside.map(|spelled| spelled.unit(self.columns.us.or(Some(self.us))));
                    (
                        figure.value,
                        spelled.unwrap_or(unit),
                        written_with_unit(text, unit, beside.is_some()),
                    )
                }
                other => {
                    let why = match other {
                        MassText::NotStated => "states no weight",
                        MassText::Zero => "is zero",
                        MassText::Negative => "is negative",
                        MassText::TwoFigures => "holds two figures",
                        MassText::Error => "is an error",
                        _ => "is not a weight",
                    };
                    self.no_weight(place, tidy(text), why, true);
                    let speaks = matches!(other, MassText::TwoFigures | MassText::NotAWeight);
                    if let Some(unusable) = self.unusable.last_mut().filter(|_| speaks) {
                        unusable.speaks_of =
                            spoken::heaviest(text, column.habit, self.us).map(|spoken| {
                                SpokenWeight {
                                    unit: spoken.unit.or(unit),
                                    basis,
                                    ..spoken
                                }
                            });
                    }
                    return None;
                }
            },
            Value::Date(date) => {
                self.date_for_figure(column, *date);
                self.no_weight(place, value.text(), "is a date", true);
                return None;
            }
            Value::Formula(formula) => {
                let message = format!(
                    "the formula ={formula} under \"{}\" has no stored result; open and save the file in a spreadsheet program, or ask for the figure",
                    column.text
                );
                self.remark("formula-without-result", column.number, message);
                self.no_weight(
                    place,
                    value.text(),
                    "is a formula without a stored result",
                    false,
                );
                return None;
            }
            Value::Error(error) => {
                self.no_weight(place, error.to_string(), "is an error", true);
                return None;
            }
            Value::Bool(_) => {
                self.no_weight(place, value.text(), "is not a weight", true);
                return None;
            }
        };
        Some(StatedWeight {
            figure,
            unit,
            basis,
            kind,
            place,
            text,
        })
    }

    /// Cubic metres, or cubic feet where the heading says so.
    pub(super) fn volume(&self) -> Option<StatedVolume> {
        let column = self.columns.first(Field::Volume)?;
        let figure = match self.value(column.number)? {
            Value::Number(number) => *number,
            Value::Text(text) => {
                written::scan_figure(fold(text).trim(), 0, column.habit, true)?
                    .0
                    .value
            }
            _ => return None,
        };
        let heading = column.text.to_lowercase();
        let foot = ["cuft", "cu ft", "cft", "ft3", "cu. ft"]
            .iter()
            .any(|unit| heading.contains(unit));
        let cubic = if foot { 0.3048f64.powi(3) } else { 1.0 };
        (figure > 0.0).then(|| StatedVolume {
            volume: Volume::from_m3(figure * cubic),
            place: self.place(column.number),
        })
    }

    pub(super) fn tare(&mut self) -> Option<crate::units::Mass> {
        let columns = self.columns;
        let column = columns.first(Field::Tare)?;
        let stated = self.weight_cell(column, column.mass, None, WeightKind::Unstated);
        // A blank tare is no missing weight.
        self.unusable
            .retain(|unusable| unusable.place.column != column.number);
        let stated = stated?;
        Some(stated.unit?.mass(stated.figure))
    }
}

/// A number as a person would write it: thousands apart, no floating dust.
fn figure_text(number: f64) -> String {
    let rounded = (number * 1e6).round() / 1e6;
    let text = format!("{rounded}");
    let (whole, after) = text
        .split_once('.')
        .map_or((text.as_str(), None), |(whole, after)| (whole, Some(after)));
    let mut grouped = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if index > 0 && (whole.len() - index) % 3 == 0 {
            grouped.push(',');
        }
        grouped.push(digit);
    }
    match after {
        Some(after) => format!("{grouped}.{after}"),
        None => grouped,
    }
}

/// The cell's text, with the heading's unit behind it where the cell has none.
fn written_with_unit(text: &str, unit: Option<MassUnit>, has_unit: bool) -> String {
    let text = tidy(text);
    match unit {
        Some(unit) if !has_unit => format!("{text} {}", unit.symbol()),
        _ => text,
    }
}
