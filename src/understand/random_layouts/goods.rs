//! The known lines: what is in them before anybody writes them down.

use super::chance::Chance;
use super::figure::Figure;
use super::layout::{Layout, Shapes};
use crate::understand::MassUnit;

/// Plain goods words, some of which also stand in total rows, notes and packaging. No figures: sizes in descriptions are
/// not what is tested here.
const GOODS: [&str; 24] = [
    "Bearing pad",
    "Cover slab",
    "Kerb",
    "Base plate, machined",
    "Sleeve",
    "Spacer block",
    "Guard rail post",
    "Duct",
    "Battery box cover",
    "Cable drum stand",
    "Report board, enamelled",
    "Transport frame",
    "Page frame",
    "Note board",
    "Total stop bracket",
    "Sum gauge",
    "Chair support; painted",
    "Gleitstück",
    "Plaque d'appui",
    "Viga de apoyo",
    "Blok oporowy \"S\"",
    "Piastra | fissaggio",
    "Weight block",
    "Signature plate",
];
const MATERIALS: [&str; 6] = [
    "steel",
    "concrete",
    "oak",
    "aluminium",
    "cast iron",
    "S355J2",
];

/// One line of goods.
pub struct Line {
    pub description: &'static str,
    pub material: &'static str,
    pub pieces: u32,
    /// Length, width, height, outside, inside, wall.
    pub sizes: [Option<Figure>; 6],
    /// In the layout's unit of mass. None: blank or "TBA".
    pub line_weight: Option<Figure>,
    pub piece_weight: Option<Figure>,
}

/// Between one and twelve lines.
pub fn lines(chance: &mut Chance, layout: &Layout) -> Vec<Line> {
    let count = chance.between(1, 12);
    (0..count)
        .map(|index| line(chance, layout, index == 0))
        .collect()
}

fn line(chance: &mut Chance, layout: &Layout, first: bool) -> Line {
    let round = match layout.shapes {
        Shapes::Blocks => false,
        Shapes::Round => true,
        Shapes::Both => chance.percent(50),
    };
    let size = |place: usize, mm: i64| layout.size_figure(place, mm);
    let length = size(0, chance.between(300, 9_000));
    let sizes = if round {
        [
            length,
            None,
            None,
            size(3, chance.between(60, 1_200)),
            None,
            size(5, chance.between(3, 25)),
        ]
    } else {
        [
            length,
            size(1, chance.between(60, 2_400)),
            size(2, chance.between(3, 600)),
            None,
            None,
            None,
        ]
    };
    // The first line's weight has a decimal that can be read in one way only: in a file without any such figure nothing
    // tells "1,200" from "1.200", and no clerk could.
    let stated = first || chance.percent(92);
    let tonnes = layout.mass == MassUnit::Tonne;
    let mut weight = |most: i64| stated.then(|| Figure::of_weight(chance, most, tonnes, first));
    let (line_weight, piece_weight) = (weight(9_000), weight(900));
    Line {
        description: chance.one(&GOODS),
        material: chance.one(&MATERIALS),
        pieces: if chance.percent(8) {
            chance.between(1_000, 4_000)
        } else {
            chance.between(1, 40)
        } as u32,
        sizes,
        line_weight,
        piece_weight,
    }
}
