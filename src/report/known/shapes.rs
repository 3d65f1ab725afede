//! The shapes as a table: asked of the shapes themselves, so that it can name none that is not there.

use super::Table;
use crate::estimate::shapes;
use crate::tables;
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
    ]
}

/// Shape, the sizes it is given by, its volume, and where the formula comes from.
pub(super) fn table() -> Table {
    let kinds = super::embedded("goods".to_string(), tables::GOODS);
    let at = kinds.headings.iter().position(|heading| heading == "shape");
    let shape = |row: &'_ Vec<String>| row.get(at?).cloned();
    let mut words: Vec<String> = kinds.rows.iter().filter_map(shape).collect();
    words.sort_unstable();
    words.dedup();
    let mut rows: Vec<Vec<String>> = Vec::new();
    for solid in samples()
        .iter()
        .flat_map(|sizes| words.iter().map(|word| shapes::solid(word, sizes)))
        .flatten()
    {
        let sizes: Vec<&str> = solid.terms.iter().map(|term| term.name).collect();
        rows.push(vec![
            solid.shape.to_string(),
            sizes.join(", "),
            solid.formula.to_string(),
            "geometry".to_string(),
        ]);
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
        for shape in ["box", "cylinder", "plate", "rectangular tube"] {
            assert!(table.rows.iter().any(|row| row[0] == shape), "{shape}");
        }
    }
}
