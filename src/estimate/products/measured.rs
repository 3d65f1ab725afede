//! Sizes of a description with what the words beside them say they are: "48 IN DIA x 4 FT, 5 IN WALL".

use super::scan::{Dim, Kind, Scene, Unit};
use crate::units::Length;

/// What a size says it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Role {
    /// Inside diameter; of precast rings and pipe a plain diameter too.
    Inside,
    /// Outside diameter.
    Outside,
    /// Wall.
    Wall,
    /// Length along the piece, also a height.
    Length,
}

/// A size where it stands.
#[derive(Clone, Copy, Debug)]
pub struct Measured {
    /// The size; its unit may be the one behind a later size of its chain.
    pub dim: Dim,
    /// What it says it is.
    pub role: Option<Role>,
    /// Its figure stands beside the name of the goods: directly behind or before this word.
    pub beside: [Option<usize>; 2],
    /// A size follows behind an `x` or a stroke.
    pub joined: bool,
}

impl Measured {
    /// By its unit; a bare figure counts `bare` metres a unit.
    pub fn length(&self, bare: Option<f64>) -> Option<Length> {
        match self.dim.unit {
            Some(_) => self.dim.length(),
            None => bare.map(|unit| Length::from_m(self.dim.value() * unit)),
        }
    }
}

/// Words before a figure that make it a name: "ASTM C76", "CL 3".
const NAMING: &[&str] = &[
    "class", "cl", "type", "grade", "gr", "astm", "en", "din", "no", "nr", "sch", "c", "m",
];

fn role(word: &str) -> Option<Role> {
    Some(match word {
        "id" | "dia" | "diam" | "diameter" | "inside" | "dn" | "di" | "nw" => Role::Inside,
        "od" | "outside" | "da" => Role::Outside,
        "wall" | "walls" | "thk" | "thick" | "wand" | "wandstärke" => Role::Wall,
        "long" | "lg" | "l" | "length" | "high" | "h" | "ht" | "height" | "tall" | "höhe"
        | "lang" | "länge" => Role::Length,
        _ => return None,
    })
}

/// The role word at a place. The wall of "wall B" and "B wall" is the name of a class.
fn role_at(scene: &Scene, at: usize) -> Option<Role> {
    let found = role(scene.word(at)?)?;
    let letter = |at: usize| matches!(scene.word(at), Some("a" | "b" | "c"));
    let class = found == Role::Wall
        && (letter(scene.after_joiner(at + 1)) || at.checked_sub(1).is_some_and(letter));
    (!class).then_some(found)
}

/// The sizes of a description in their order.
pub fn measured(scene: &Scene) -> Vec<Measured> {
    let mut found: Vec<Measured> = Vec::new();
    let (mut at, mut free) = (0, 0);
    while at < scene.tokens.len() {
        let Some((dim, mut end)) = size(scene, at) else {
            at += 1;
            continue;
        };
        let joiner = at.checked_sub(1).filter(|before| {
            ['=', ':', '.']
                .iter()
                .any(|sign| scene.sign(*before, *sign))
        });
        let before = joiner
            .unwrap_or(at)
            .checked_sub(1)
            .filter(|before| *before >= free);
        let mut said = before.and_then(|before| role_at(scene, before));
        if said.is_none()
            && let Some(behind) = role_at(scene, end)
        {
            said = Some(behind);
            end += 1;
        }
        free = end;
        let joined = matches!(
            scene.tokens.get(end).map(|token| &token.kind),
            Some(Kind::Times | Kind::Sign('/'))
        );
        found.push(Measured {
            dim,
            role: said,
            beside: [at.checked_sub(1), Some(end)],
            joined,
        });
        at = end;
    }
    spread(&mut found);
    found
}

/// The size whose figure stands at a place and is no part of a name.
fn size(scene: &Scene, at: usize) -> Option<(Dim, usize)> {
    let before = at.checked_sub(1).and_then(|before| scene.word(before));
    let glued = scene.tokens.get(at)?.glued;
    let named =
        before.is_some_and(|word| NAMING.contains(&word) || (glued && role(word).is_none()));
    let found = scene.size(at).filter(|_| !named)?;
    let weight = matches!(found.0.unit, Some(Unit::Pound | Unit::Kilogram));
    let chained = matches!(
        scene.tokens.get(found.1).map(|token| &token.kind),
        Some(Kind::Times)
    );
    (!weight && (chained || scene.ends(found.1))).then_some(found)
}

/// "4 x 4 ft": the unit behind a pair covers the bare figure before it. Of three and more the name has units of its own ("8x4x8 x
/// 6 ft" is feet, feet, inches and the length); inches do not cover feet.
fn spread(found: &mut [Measured]) {
    for at in 1..found.len() {
        if found[at].joined || at > 1 && found[at - 2].joined {
            continue;
        }
        let (before, here) = found.split_at_mut(at);
        if let (Some(before), Some(here)) = (before.last_mut(), here.first())
            && before.joined
            && before.dim.unit.is_none()
            && here.dim.unit.is_some_and(|unit| unit != Unit::Inch)
        {
            before.dim.unit = here.dim.unit;
        }
    }
}
