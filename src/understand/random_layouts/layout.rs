//! How a table is laid out: its columns in order, headings, units, locale. Chosen by chance, but never so that a careful
//! clerk could not read it: every unit is stated, and every heading says what it is.

use super::chance::Chance;
use super::figure::{Figure, LOCALES, Locale};
use super::goods::Line;
use super::words::{LANGUAGES, Language};
use crate::understand::{Basis, MassUnit};
use crate::units::LengthUnit;

/// What the table's goods are.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Shapes {
    Blocks,
    Round,
    Both,
}

/// Where units stand.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum UnitsAt {
    Brackets,
    Square,
    Comma,
    Blank,
    LineBreak,
    Slash,
    SecondRow,
    SecondRowBrackets,
    /// `Dimensions (mm)` over the size columns, their names in the second row.
    Group,
    /// Beside each figure.
    Cell,
}

const UNITS_AT: [UnitsAt; 10] = [
    UnitsAt::Brackets,
    UnitsAt::Square,
    UnitsAt::Comma,
    UnitsAt::Blank,
    UnitsAt::LineBreak,
    UnitsAt::Slash,
    UnitsAt::SecondRow,
    UnitsAt::SecondRowBrackets,
    UnitsAt::Group,
    UnitsAt::Cell,
];

/// What a column holds.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Holds {
    LineNo,
    ItemNo,
    Description,
    Material,
    Pieces,
    /// Place in the sizes of a line: length, width, height, outside, inside, wall.
    Size(usize),
    LineWeight,
    PieceWeight,
    Remarks,
}

/// One column.
#[derive(Clone, Debug)]
pub struct Column {
    pub holds: Holds,
    /// Heading, without its unit.
    pub heading: String,
    /// The unit as spelled.
    pub unit: Option<&'static str>,
    /// The unit of a size.
    pub length: LengthUnit,
    /// What the heading says a weight is of.
    pub basis: Option<Basis>,
}

/// A whole layout.
#[derive(Clone, Debug)]
pub struct Layout {
    pub language: &'static Language,
    pub shapes: Shapes,
    pub units_at: UnitsAt,
    pub locale: Locale,
    pub mass: MassUnit,
    pub columns: Vec<Column>,
    /// Inches and feet with fractions.
    pub sixteenths: bool,
}

/// A weight that must be read.
pub struct Weight {
    pub figure: f64,
    pub unit: MassUnit,
    pub basis: Option<Basis>,
}

impl Layout {
    /// By chance.
    pub fn random(chance: &mut Chance) -> Layout {
        let language = &LANGUAGES[chance.between(0, LANGUAGES.len() as i64 - 1) as usize];
        let us = chance.percent(30);
        let mut layout = Layout {
            language,
            shapes: chance.one(&[
                Shapes::Blocks,
                Shapes::Round,
                if language.wall.is_empty() {
                    Shapes::Round
                } else {
                    Shapes::Both
                },
            ]),
            units_at: chance.one(&UNITS_AT),
            locale: chance.one(&LOCALES),
            mass: if us {
                MassUnit::Lb
            } else {
                chance.one(&[MassUnit::Kg, MassUnit::Kg, MassUnit::Tonne])
            },
            columns: Vec::new(),
            sixteenths: us && chance.percent(50),
        };
        let lengths: &[LengthUnit] = if us {
            &[LengthUnit::In, LengthUnit::Ft]
        } else {
            &[LengthUnit::Mm, LengthUnit::Cm, LengthUnit::M]
        };
        let second = chance
            .percent(15)
            .then(|| &LANGUAGES[chance.between(0, LANGUAGES.len() as i64 - 1) as usize]);
        let mut texts = vec![Holds::Description, Holds::Pieces, Holds::LineWeight];
        for (holds, percent) in [
            (Holds::LineNo, 50),
            (Holds::ItemNo, 40),
            (Holds::Material, 60),
            (Holds::PieceWeight, 40),
            (Holds::Remarks, 25),
        ] {
            if chance.percent(percent) {
                texts.push(holds);
            }
        }
        let mut sizes: Vec<Holds> = match layout.shapes {
            Shapes::Blocks => [0, 1, 2].as_slice(),
            Shapes::Round => &[3, 5, 0],
            Shapes::Both => &[0, 1, 2, 3, 5],
        }
        .iter()
        .map(|place| Holds::Size(*place))
        .collect();
        chance.shuffle(&mut texts);
        chance.shuffle(&mut sizes);
        // The sizes stand together under a common heading, anywhere without one.
        let grouped = layout.units_at == UnitsAt::Group;
        let at = chance.between(0, texts.len() as i64) as usize;
        texts.splice(at..at, sizes);
        if !grouped {
            chance.shuffle(&mut texts);
        }
        let one_unit = (grouped || chance.percent(60)).then(|| chance.one(lengths));
        for holds in texts {
            let length = one_unit.unwrap_or_else(|| chance.one(lengths));
            let column = layout.column(chance, holds, length, second);
            layout.columns.push(column);
        }
        layout
    }

    fn column(
        &self,
        chance: &mut Chance,
        holds: Holds,
        length: LengthUnit,
        second: Option<&Language>,
    ) -> Column {
        let (word, basis) = self.language.heading(chance, holds, self.shapes);
        let other = second.map(|second| second.heading(chance, holds, self.shapes));
        let joint = chance.one(&[" ", " / ", "\n"]);
        let heading = match other {
            // Two languages in one heading say the same thing.
            Some((other, its_basis)) if other != word && its_basis == basis => {
                format!("{word}{joint}{other}")
            }
            _ => word.to_string(),
        };
        // "WT/ft" is the weight of a foot by custom, whatever stands beside it.
        let heading = match self.units_at {
            UnitsAt::Slash if holds == Holds::Size(5) => {
                heading.replace("W.T.", "Wall").replace("WT", "Wall")
            }
            _ => heading,
        };
        let unit = match holds {
            Holds::Size(_) => Some(length_word(chance, length)),
            Holds::LineWeight | Holds::PieceWeight => Some(mass_word(chance, self.mass)),
            _ => None,
        };
        Column {
            holds,
            heading,
            unit,
            length,
            basis,
        }
    }

    /// The weights of a line that must be read, in the order of the columns.
    pub fn weights(&self, line: &Line) -> Vec<Weight> {
        let figure = |holds: Holds| match holds {
            Holds::LineWeight => line.line_weight,
            Holds::PieceWeight => line.piece_weight,
            _ => None,
        };
        let of = |column: &Column| {
            Some(Weight {
                figure: figure(column.holds)?.value(),
                unit: self.mass,
                basis: column.basis,
            })
        };
        self.columns.iter().filter_map(of).collect()
    }

    /// The first column that holds something.
    pub fn place(&self, holds: Holds) -> Option<usize> {
        self.columns.iter().position(|column| column.holds == holds)
    }

    /// A size of about so many millimetres as its column writes it.
    pub fn size_figure(&self, place: usize, mm: i64) -> Option<Figure> {
        let column = &self.columns[self.place(Holds::Size(place))?];
        Some(Figure::of_size(mm, column.length, self.sixteenths))
    }

    /// In words, to show what failed.
    pub fn shown(&self) -> String {
        format!(
            "{} {:?} {:?} {:?}",
            self.language.name, self.shapes, self.units_at, self.locale
        )
    }
}

fn length_word(chance: &mut Chance, unit: LengthUnit) -> &'static str {
    match unit {
        LengthUnit::Mm => chance.one(&["mm", "mm", "MM"]),
        LengthUnit::Cm => chance.one(&["cm", "CM"]),
        LengthUnit::M => chance.one(&["m", "m", "mtr", "mts"]),
        LengthUnit::In => chance.one(&["in", "in", "inch", "IN", "inches"]),
        LengthUnit::Ft | LengthUnit::Yd => chance.one(&["ft", "ft", "FT", "feet"]),
    }
}

fn mass_word(chance: &mut Chance, unit: MassUnit) -> &'static str {
    match unit {
        MassUnit::Lb => chance.one(&["lb", "lbs", "LBS", "LB"]),
        MassUnit::Tonne => chance.one(&["t", "t", "MT", "to"]),
        _ => chance.one(&["kg", "kg", "KG", "kgs", "KGS", "Kg"]),
    }
}
