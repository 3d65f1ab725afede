//! Headings that mean different things, and fields that several columns claim, settled by what the cells hold.

use super::{Column, figures, texts};
use crate::read::{Row, Value};
use crate::tables::packages;
use crate::understand::How;
use crate::understand::heading::Field;
use crate::understand::layout::Table;
use crate::units::LengthUnit;
use crate::units::spelling::{self, MassSpelling};

/// Corrects headings that mean different things by what the cells hold.
pub(super) fn by_content(all: &mut [Column], rows: &[Row]) {
    depth(all);
    let has = |all: &[Column], field: Field| all.iter().any(|column| column.field == field);
    for index in 0..all.len() {
        let number = all[index].number;
        match all[index].field {
            Field::PackageType | Field::Unit => {
                let (mut packs, mut masses, mut lengths, mut all_texts) = (0, 0, 0, 0);
                for text in texts(rows, number) {
                    all_texts += 1;
                    packs += usize::from(packages::of_text(text).is_some());
                    masses +=
                        usize::from(matches!(spelling::mass(text), Some(MassSpelling::Known(_))));
                    lengths += usize::from(
                        spelling::length(text)
                            .is_some_and(|unit| unit != LengthUnit::M && unit != LengthUnit::Ft),
                    );
                }
                let follows = |field: fn(Field) -> bool| index > 0 && field(all[index - 1].field);
                if masses * 2 > all_texts && follows(|field| field == Field::Weight) {
                    all[index].field = Field::WeightUnit;
                } else if lengths * 2 > all_texts && follows(Field::is_size) {
                    all[index].field = Field::SizeUnit;
                } else if packs * 2 < all_texts || all_texts == 0 {
                    all[index].field = Field::NotUsed;
                }
            }
            // "WT" beside an outside diameter, holding small figures, is the wall thickness of a pipe list.
            Field::Weight
                if all[index].text.eq_ignore_ascii_case("wt")
                    || all[index].text.eq_ignore_ascii_case("w.t.") =>
            {
                let small = figures(rows, number).all(|figure| figure < 60.0);
                if has(all, Field::Outside) && !has(all, Field::Wall) && small {
                    all[index].field = Field::Wall;
                    all[index].how = How::Inferred;
                }
            }
            // A thickness beside an outside diameter is the wall.
            Field::Thickness
                if has(all, Field::Outside)
                    && !has(all, Field::Wall)
                    && !has(all, Field::Width) =>
            {
                all[index].field = Field::Wall;
                all[index].how = How::Inferred;
            }
            // 1, 2, 3 down the column numbers the packages and does not count them.
            Field::Packages if numbered(rows, number) => all[index].field = Field::PackageId,
            Field::Size if mostly_volume(rows, number) => all[index].field = Field::Volume,
            _ => {}
        }
    }
}

/// A depth is the height where length and width have their columns and height has none; else the horizontal size that
/// is missing.
fn depth(all: &mut [Column]) {
    let has = |field: Field| all.iter().any(|column| column.field == field);
    let length = has(Field::Length) || has(Field::Outside);
    let missing = match (length, has(Field::Width), has(Field::Height)) {
        (false, true, _) => Field::Length,
        (true, false, true) => Field::Width,
        (_, _, false) => Field::Height,
        (_, _, true) => Field::NotUsed,
    };
    for column in all.iter_mut().filter(|column| column.field == Field::Depth) {
        column.field = missing;
        column.how = How::Inferred;
    }
}

/// A column of whole feet and one of less than 12 in for the same size hold one figure ("Length ft", "in").
pub(super) fn feet_and_inches(all: &mut [Column], rows: &[Row]) {
    for index in 1..all.len() {
        let [feet, inches] = [&all[index - 1], &all[index]];
        let units = (feet.length, inches.length);
        let together = feet.field.is_size()
            && feet.field == inches.field
            && units == (Some(LengthUnit::Ft), Some(LengthUnit::In))
            && figures(rows, feet.number).all(|figure| figure.fract() == 0.0)
            && figures(rows, inches.number).all(|figure| figure < 12.0);
        if together {
            all[index - 1].inches = Some(all[index].number);
            all[index].field = Field::Inches;
        }
    }
}

/// At least two figures, each one more than the one above.
fn numbered(rows: &[Row], column: u32) -> bool {
    let found: Vec<f64> = figures(rows, column).collect();
    found.len() >= 2 && found.windows(2).all(|pair| pair[1] - pair[0] == 1.0)
}

/// "Measurement" with plain small decimals is a volume, not sizes.
fn mostly_volume(rows: &[Row], column: u32) -> bool {
    let (mut plain, mut joined) = (0, 0);
    for row in rows {
        match row.cell(column).map(|cell| &cell.value) {
            Some(Value::Number(_)) => plain += 1,
            Some(Value::Text(text)) if text.contains(['x', 'X', '×', '*', '/', 'х']) => {
                joined += 1
            }
            _ => {}
        }
    }
    plain > joined
}

/// Where several columns claim one field, one of them keeps it.
pub(super) fn one_each(all: &mut [Column], table: &Table) {
    let preferred = |number: u32| {
        table
            .columns
            .iter()
            .any(|headed| headed.number == number && headed.heading.preferred)
    };
    // Handling units and packages under twin headings: the packages are the pieces.
    let packages: Vec<usize> = (0..all.len())
        .filter(|index| all[*index].field == Field::Packages)
        .collect();
    if let [_, second, ..] = packages.as_slice()
        && !all.iter().any(|column| column.field == Field::Quantity)
    {
        all[*second].field = Field::Quantity;
        let types: Vec<usize> = (0..all.len())
            .filter(|index| all[*index].field == Field::PackageType)
            .collect();
        if let [_, unit, ..] = types.as_slice()
            && !all.iter().any(|column| column.field == Field::Unit)
        {
            all[*unit].field = Field::Unit;
        }
    }
    for field in [
        Field::Quantity,
        Field::Unit,
        Field::Packages,
        Field::PackageType,
        Field::PackageId,
        Field::Length,
        Field::Width,
        Field::Height,
        Field::Thickness,
        Field::Outside,
        Field::Inside,
        Field::Wall,
        Field::Size,
        Field::Material,
        Field::Description,
        Field::Item,
        Field::Tare,
        Field::WeightUnit,
        Field::SizeUnit,
    ] {
        let mut claims: Vec<usize> = (0..all.len())
            .filter(|index| all[*index].field == field)
            .collect();
        if claims.len() < 2 {
            continue;
        }
        let keep = claims
            .iter()
            .position(|index| all[*index].how == How::Site)
            .or_else(|| {
                claims
                    .iter()
                    .position(|index| preferred(all[*index].number))
            })
            .unwrap_or(0);
        claims.remove(keep);
        for index in claims {
            // A second text column still describes the goods.
            all[index].field = if matches!(field, Field::Description) {
                Field::Material
            } else {
                Field::NotUsed
            };
        }
    }
    let materials: Vec<usize> = (0..all.len())
        .filter(|index| all[*index].field == Field::Material)
        .collect();
    for index in materials.into_iter().skip(1) {
        all[index].field = Field::NotUsed;
    }
}

/// Without a description column, the column that holds the most words describes the goods.
pub(super) fn describe(all: &mut [Column], rows: &[Row]) {
    if all.iter().any(|column| column.field == Field::Description) {
        return;
    }
    let wordy = |column: &Column| {
        texts(rows, column.number)
            .filter(|text| text.chars().filter(|sign| sign.is_alphabetic()).count() >= 2)
            .count()
    };
    let best = (0..all.len())
        .filter(|index| {
            matches!(
                all[*index].field,
                Field::Item | Field::Mark | Field::Size | Field::Material | Field::NotUsed
            )
        })
        .max_by_key(|index| (wordy(&all[*index]), std::cmp::Reverse(*index)));
    if let Some(best) = best.filter(|best| wordy(&all[*best]) > 0) {
        all[best].field = Field::Description;
        all[best].how = How::Inferred;
    }
}
