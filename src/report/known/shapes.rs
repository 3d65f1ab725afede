//! The shapes as a table: asked of the shapes themselves, so that it can name none that is not there.

use super::Table;
use crate::estimate::details::Details;
use crate::estimate::shapes::{self, ends::Ends};
use crate::understand::{Size1, Sizes};
use crate::units::Length;

/// Sizes that go together, each with others of the same solid: enough to find every way a shape is given.
fn samples() -> Vec<Sizes> {
    let mm = |mm: f64| {
        Some(Size1 {
            length: Length::from_mm(mm),
            half_digit: Length::ZERO,
            fine: true,
        })
    };
    let (long, wide, high) = (mm(1000.0), mm(200.0), mm(150.0));
    let (outside, inside, wall) = (mm(100.0), mm(80.0), mm(10.0));
    let none = Sizes::default();
    vec![
        Sizes {
            length: long,
            width: wide,
            height: high,
            ..none
        },
        Sizes {
            length: long,
            width: wide,
            height: high,
            wall,
            ..none
        },
        Sizes {
            length: long,
            outside,
            ..none
        },
        Sizes {
            length: long,
            outside,
            inside,
            ..none
        },
        Sizes {
            length: long,
            outside,
            wall,
            ..none
        },
        Sizes {
            length: long,
            inside,
            wall,
            ..none
        },
        Sizes {
            length: long,
            width: wide,
            ..none
        },
    ]
}

/// Details that go with the sizes: none, those of a section, of a bend and a tapered piece with and without a second side at the
/// top, and an opening.
fn details() -> Vec<Details> {
    let mm = |mm: f64| Size1 {
        length: Length::from_mm(mm),
        half_digit: Length::ZERO,
        fine: true,
    };
    let none = Details::default();
    let section = Details {
        flange_thickness: Some(mm(12.0)),
        web: Some(mm(8.0)),
        section: Some(mm(30.0)),
        ends: Some(Ends::Flat),
        angle: Some(90.0),
        ..none.clone()
    };
    let round = Details {
        radius: Some(mm(150.0)),
        top: Some(mm(60.0)),
        top_width: Some(mm(50.0)),
        ..section.clone()
    };
    let opening = Details {
        openings: vec![(mm(20.0), Some(mm(30.0)))],
        times: 1,
        ..none.clone()
    };
    vec![none, section, round, opening]
}

/// Shape, the sizes it is given by, its volume, and where the formula comes from.
pub(super) fn table() -> Table {
    let mut rows: Vec<Vec<String>> = Vec::new();
    for (sizes, details) in samples()
        .iter()
        .flat_map(|sizes| details().into_iter().map(move |details| (sizes, details)))
    {
        let solids = shapes::NAMES
            .iter()
            .filter_map(|name| shapes::solid(name, sizes, &details).ok());
        rows.extend(solids.map(|solid| {
            let terms = solid.terms.iter().map(|term| term.name);
            let names = terms.chain(solid.numbers.iter().map(|(name, _)| *name));
            vec![
                solid.shape.to_string(),
                names.collect::<Vec<_>>().join(", "),
                solid.formula,
                solid.source.to_string(),
            ]
        }));
    }
    rows.sort();
    rows.dedup();
    Table {
        name: "shapes".to_string(),
        headings: ["shape", "sizes", "volume", "source"]
            .map(String::from)
            .to_vec(),
        rows,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_way_to_give_a_pipe_is_listed() {
        let table = table();
        let pipes: Vec<&str> = table
            .rows
            .iter()
            .filter(|row| row[0] == "pipe")
            .map(|row| row[1].as_str())
            .collect();
        assert_eq!(
            pipes,
            [
                "inside, wall, length",
                "outside, inside, length",
                "outside, wall, length"
            ]
        );
        for shape in shapes::NAMES {
            assert!(table.rows.iter().any(|row| row[0] == shape), "{shape}");
        }
    }
}
