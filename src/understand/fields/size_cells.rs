//! The size cells of a row.

use super::RowReader;
use crate::read::Value;
use crate::tables::row_words;
use crate::understand::columns::Column;
use crate::understand::heading::Field;
use crate::understand::{Size1, Sizes, described, sizes};
use crate::units::LengthUnit;
use crate::units::written::{self, Figure, WrittenLength, fold, tidy};

/// A reel, coil or drum is at most so many times as wide as its diameter: common practice, no source.
const WIDEST_REEL: f64 = 3.0;

/// `9-6 x 3-6` and `6' 6 x 4' 0` of a column in feet with the marks that they leave out; none where two figures are joined
/// by a dash and nothing says that they are feet and inches.
fn joined_feet(text: &str, in_feet: bool) -> Option<String> {
    let text = fold(text);
    let mut parts: Vec<String> = Vec::new();
    for part in text.split_inclusive(['x', 'X', '*']) {
        let (size, joiner) = part.split_at(part.trim_end_matches(['x', 'X', '*']).len());
        let figures = |sign: char| {
            let (feet, inches) = size.trim().split_once(sign)?;
            let (feet, inches) = (feet.trim_end_matches(['\'', ' ']), inches.trim());
            let whole = !feet.is_empty() && feet.bytes().all(|byte| byte.is_ascii_digit());
            let rest = inches.starts_with(|sign: char| sign.is_ascii_digit())
                && inches
                    .chars()
                    .all(|sign| sign.is_ascii_digit() || matches!(sign, ' ' | '/' | '.'));
            (whole && rest).then(|| (feet.to_string(), inches.to_string()))
        };
        let joined = figures('\'').or_else(|| figures('-').filter(|_| in_feet));
        match joined {
            Some((feet, inches)) => parts.push(format!("{feet}'-{inches}\" {joiner}")),
            None if figures('-').is_some() => return None,
            None => parts.push(part.to_string()),
        }
    }
    Some(parts.concat())
}

impl RowReader<'_> {
    pub(super) fn size_in(&mut self, field: Field) -> Option<Size1> {
        let columns = self.columns;
        let column = columns.first(field)?;
        self.size(column)
    }

    /// A size; feet and inches of two columns are one.
    fn size(&mut self, column: &Column) -> Option<Size1> {
        let columns = self.columns;
        let inches = column
            .inches
            .and_then(|number| columns.all.iter().find(|column| column.number == number));
        let size = self.size_cell(column);
        let Some(inches) = inches.and_then(|inches| self.size_cell(inches)) else {
            return size;
        };
        Some(size.map_or(inches, |feet| Size1 {
            length: feet.length + inches.length,
            ..inches
        }))
    }

    /// A size cell; what is no size is said.
    fn size_cell(&mut self, column: &Column) -> Option<Size1> {
        let unit = self.size_unit().or(column.length);
        match self.value(column.number)? {
            Value::Number(number) if *number > 0.0 => sizes::size(
                WrittenLength {
                    figure: Figure::of_number(*number),
                    unit: None,
                },
                unit,
            ),
            Value::Text(text)
                if row_words::is_not_stated(&fold(text)) || row_words::of_cell(text).is_some() =>
            {
                None
            }
            Value::Text(text) => match written::length(text, column.habit, unit) {
                Some(written) => {
                    if written.figure.unclear {
                        self.unclear(column.number, text);
                        return None;
                    }
                    sizes::size(written, unit)
                }
                None => {
                    let message = format!(
                        "\"{}\" under \"{}\" was not understood as a size; no size was taken from it",
                        tidy(text),
                        column.text
                    );
                    self.remark("size-not-read", column.number, message);
                    None
                }
            },
            Value::Date(date) => {
                self.date_for_figure(column, *date);
                None
            }
            value => {
                let message = format!(
                    "{} under \"{}\" is no size; open the cell in the supplier's file and ask for the figure",
                    value.text(),
                    column.text
                );
                self.remark("size-not-read", column.number, message);
                None
            }
        }
    }

    pub(super) fn unclear(&mut self, column: u32, text: &str) {
        let message = format!(
            "\"{}\" can be read in two ways (thousands or decimals, feet or a range) and nothing in the column decides; ask the supplier",
            tidy(text)
        );
        self.remark("unclear-figure", column, message);
    }

    pub(super) fn date_for_figure(&mut self, column: &Column, date: chrono::NaiveDateTime) {
        let message = format!(
            "the cell under \"{}\" is a date ({}); a spreadsheet program probably turned {} into it: ask for the figure, none was taken",
            column.text,
            date.format("%Y-%m-%d"),
            date.format("%-m/%-d"),
        );
        self.remark("date-for-figure", column.number, message);
    }

    fn size_unit(&self) -> Option<LengthUnit> {
        crate::units::spelling::length(&self.text(Field::SizeUnit)?)
    }

    /// Sizes of the piece, sizes of the package, and the column they start in.
    pub(super) fn sizes(&mut self) -> (Sizes, Sizes, Option<u32>) {
        let (mut piece, mut package) = (Sizes::default(), Sizes::default());
        let mut from = None;
        let columns = self.columns;
        for column in columns
            .all
            .iter()
            .filter(|column| column.field.is_size() && column.field != Field::LiftHeight)
        {
            let target = if column.of_package {
                &mut package
            } else {
                &mut piece
            };
            if column.field == Field::Size {
                if let Some(found) = self.combined(column) {
                    *target = target.or(found);
                    from = from.or(Some(column.number));
                }
                continue;
            }
            let Some(size) = self.size(column) else {
                continue;
            };
            from = from.or(Some(column.number));
            let slot = match column.field {
                Field::Length => &mut target.length,
                Field::Width => &mut target.width,
                Field::Outside => &mut target.outside,
                Field::Inside => &mut target.inside,
                Field::Wall => &mut target.wall,
                _ => &mut target.height,
            };
            slot.get_or_insert(size);
        }
        (piece, package, from)
    }

    /// Several sizes in one cell.
    fn combined(&mut self, column: &Column) -> Option<Sizes> {
        let value = self.value(column.number)?;
        if let Value::Date(date) = value {
            self.date_for_figure(column, *date);
            return None;
        }
        let text = value.text();
        if row_words::is_not_stated(&fold(&text)) {
            return None;
        }
        let default = self.size_unit().or(column.length);
        let text = match joined_feet(&text, default == Some(LengthUnit::Ft)) {
            Some(text) => text,
            None => {
                self.unclear(column.number, &text);
                return None;
            }
        };
        let found = described::read(&text, column.habit);
        let mut free = Vec::new();
        let mut labelled = false;
        for chain in &found.chains {
            let last = chain.parts.iter().rev().find_map(|part| part.written.unit);
            for part in &chain.parts {
                labelled |= part.label.is_some();
                free.extend(sizes::size(part.written, last.or(default)));
            }
        }
        if labelled {
            let found = sizes::described(&text, &found, None, default.unwrap_or(LengthUnit::Mm));
            // A diameter and one more size: a reel's or drum's width, unless it is long for one.
            let width = found.width.or(found.wall).or(found.length).filter(|width| {
                found.inside.is_none()
                    && found
                        .outside
                        .is_some_and(|outside| width.length.m() <= WIDEST_REEL * outside.length.m())
            });
            return Some(if width.is_some() {
                Sizes {
                    width,
                    wall: None,
                    length: None,
                    ..found
                }
            } else {
                found
            });
        }
        if let [single] = free.as_slice() {
            // One size of long goods is their length ("20 ft").
            return Some(Sizes {
                length: Some(*single),
                ..Sizes::default()
            });
        }
        if free.is_empty() {
            let message = format!(
                "\"{}\" under \"{}\" was not understood as sizes; none were taken from it",
                tidy(&text),
                column.text
            );
            self.remark("size-not-read", column.number, message);
            return None;
        }
        let at = |axis: usize| {
            free.get(column.axes.get(axis).copied().unwrap_or(axis))
                .copied()
        };
        Some(Sizes {
            length: at(0),
            width: at(1),
            height: at(2),
            ..Sizes::default()
        })
    }

    /// One column of overall sizes in a packing list speaks of the package when the goods are packed and the description
    /// has sizes of its own, or when volumes or gross weights stand beside it.
    pub(super) fn combined_is_package(&self, described: &Sizes, packed: bool) -> bool {
        let combined = self.columns.first(Field::Size).is_some();
        let packing_list = self.columns.first(Field::Volume).is_some()
            || [Field::PackageType, Field::PackageId, Field::Packages]
                .into_iter()
                .any(|field| self.columns.first(field).is_some());
        combined && packing_list && (packed || !described.is_empty())
    }
}

#[cfg(test)]
mod tests {
    use super::joined_feet;

    #[test]
    fn feet_and_inches_without_marks() {
        for (text, in_feet, expected) in [
            ("9-6 x 3-6 x 5-0", true, Some("9'-6\" x3'-6\" x5'-0\" ")),
            ("6' 6 x 4' 0", false, Some("6'-6\" x4'-0\" ")),
            ("9-6 x 3-6", false, None),
            ("48 x 40 x 52 in", true, Some("48 x 40 x 52 in")),
            ("L=6000", false, Some("L=6000")),
        ] {
            assert_eq!(joined_feet(text, in_feet).as_deref(), expected, "{text}");
        }
    }
}
