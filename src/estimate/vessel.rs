//! A tank or drum by its sizes: shell and ends, and the liquid in it.

use super::contents::LIQUID_FILL;
use super::details::Details;
use super::form::Form;
use super::materials::{Found, is_loose};
use super::range::{Doubt, together};
use super::shaped::{of_solid, whole};
use super::shapes::ends::Ends;
use super::shapes::tank::{Room, room};
use super::shapes::{NoSolid, Solid};
use super::words::Words;
use super::{Estimate, NoEstimate, Step};
use crate::tables::goods::Goods;
use crate::tables::materials::{Material, by_name};
use crate::tables::phrases::{self, Word};
use crate::understand::Item;
use crate::units::{Mass, MassRange};

/// Words for what has ends and is no tank or drum by its name.
const VESSELS: [&str; 8] = [
    "vessel",
    "vessels",
    "boiler",
    "heater",
    "receiver",
    "accumulator",
    "autoclave",
    "calorifier",
];

/// Whether the line speaks of the contents or the ends of something hollow, which a shape that is open at both ends leaves out.
pub(super) fn holds(item: &Item, words: &Words, details: &Details) -> bool {
    let open = words.goods.is_some_and(|word| word.shape == "pipe");
    let says = |word: &Word| VESSELS.contains(&word.plain.as_str());
    // "Pipe for water" is not said to hold it.
    let closed = || {
        let contents = words
            .vocabulary
            .of_contents(item.material.as_deref(), &item.description);
        matches!(contents, Found::Known { .. })
            || phrases::words(&item.description).iter().any(says)
    };
    filled(details) || details.ends.is_some() || !open && closed()
}

/// Whether the words say that something is in it.
pub(super) fn filled(details: &Details) -> bool {
    details.fill.full || details.fill.unclear || details.level.is_some()
}

/// Estimates a tank whose sizes are all known.
///
/// # Errors
/// What is in it is not stated, or the level is above the tank.
pub(super) fn vessel(
    item: &Item,
    words: &Words,
    kind: Option<&'static Goods>,
    material: &'static Material,
    form: &Form,
    solid: &Solid,
    details: &Details,
) -> Result<Estimate, NoEstimate> {
    let no = |why: String, impossible| NoEstimate {
        why,
        impossible,
        goods: words.goods_name(),
        upper: None,
        outline: Some(solid.outline),
    };
    if details.fill.unclear {
        let why = "whether it is full, partly filled or empty is not clear";
        return Err(no(why.to_string(), false));
    }
    let found = words
        .vocabulary
        .of_contents(item.material.as_deref(), &item.description);
    // The liquid that is named first is what is in it, not what it is made of.
    let implied = words.goods.and_then(|word| word.material).and_then(by_name);
    let shell = if is_loose(material) {
        implied.ok_or_else(|| {
            no(
                format!("what the {} is made of is not stated", solid.shape),
                false,
            )
        })?
    } else {
        material
    };
    let (empty, _, mut steps) = of_solid(words, kind, shell, solid, form);
    let contents = match found {
        Found::Known { material, word } => Some((material, word)),
        _ if details.fill.empty => None,
        _ => {
            let why = format!(
                "what is in the {} is not stated (\"empty\", \"80 % full of diesel\")",
                solid.shape
            );
            return Err(no(why, false));
        }
    };
    let Some((liquid, word)) = contents.filter(|_| !details.fill.empty) else {
        return Ok(whole(item, kind, shell, solid, empty, 1.0, steps));
    };
    let inside = room(solid.shape, &item.sizes, details).map_err(|why| match why {
        NoSolid::Missing(name) => no(format!("the {name} is not stated"), false),
        NoSolid::Impossible(how) => no(format!("the sizes cannot be: {how}"), true),
    })?;
    let capacity = inside.volume();
    let fill = fill(inside, details)
        .ok_or_else(|| no("the liquid stands higher than the tank".to_string(), true))?;
    let net = liquid.density.kg_m3() * capacity * fill.likely;
    let sizes = [("outside", 2.0), ("length", 1.0)].map(|(name, sensitivity)| {
        let term = solid.terms.iter().find(|term| term.name == name);
        term.map_or(Doubt::default(), |term| {
            Doubt::of_size(term.size, sensitivity, false)
        })
    });
    let doubt = together(&[
        Doubt::of_material(liquid),
        Doubt::of_band(fill.low, fill.likely, fill.high),
        Doubt::of_band(fill.room_low, 1.0, fill.room_high),
        sizes[0],
        sizes[1],
    ]);
    let contents = MassRange::around(Mass::from_kg(net), doubt.low, doubt.high);
    let piece = empty.plus(contents);
    if let Some(last) = steps.last_mut() {
        last.what = format!("mass of one {}, empty", solid.shape);
    }
    steps.extend([
        Step {
            what: "room inside".to_string(),
            formula: "pi / 4 x inside^2 x length inside + room in the ends".to_string(),
            inputs: inputs(&[
                ("inside", inside.diameter),
                ("length inside", inside.length),
                (
                    "room in the ends",
                    2.0 * inside.ends.volume(inside.diameter),
                ),
            ]),
            result: capacity,
            unit: "m3",
            source: format!("geometry; {}", told(inside.ends)),
        },
        Step {
            what: "contents".to_string(),
            formula: "capacity x fill x density".to_string(),
            inputs: inputs(&[
                ("capacity", capacity),
                ("fill", fill.likely),
                ("density", liquid.density.kg_m3()),
            ]),
            result: net,
            unit: "kg",
            source: format!(
                "{} ({word}): {}, {}; fill: {}",
                liquid.name, liquid.source, liquid.basis, fill.source
            ),
        },
        Step {
            what: format!("one {} with its contents", solid.shape),
            formula: "contents + tare".to_string(),
            inputs: inputs(&[("contents", net), ("tare", empty.likely.kg())]),
            result: piece.likely.kg(),
            unit: "kg",
            source: "sum".to_string(),
        },
    ]);
    let estimate = whole(item, kind, shell, solid, piece, 1.0, steps);
    // A full tank may weigh more than its box of air and steel alone; the box of the heavier stuff is the bound.
    let heaviest = estimate.block.map(|block| block.max(estimate.line.high));
    Ok(Estimate {
        block: heaviest,
        working: format!(
            "{}; {:.0} % full of {}",
            estimate.working,
            fill.likely * 100.0,
            liquid.name
        ),
        ..estimate
    })
}

/// How much of the room is filled, and how far the room itself may differ.
struct Fill {
    low: f64,
    likely: f64,
    high: f64,
    room_low: f64,
    room_high: f64,
    source: &'static str,
}

/// The fill that a level or a share says, else that of a liquid as it is shipped. None where the level is above the tank.
fn fill(inside: Room, details: &Details) -> Option<Fill> {
    let room = inside.volume();
    let (low, likely, high, source) = match (details.level, details.fill.part) {
        (Some(level), _) => {
            let part = |m: f64| inside.below(m) / room;
            let (level, half) = (level.length.m(), level.half_digit.m());
            if level > inside.height() * 1.01 {
                return None;
            }
            let low = part((level - half).max(level / 2.0)).max(1e-3);
            (
                low,
                part(level).max(low),
                part(level + half).max(low),
                "from the level, by slices",
            )
        }
        // A share of the height holds another share of the room: both readings are inside the range.
        (None, Some(share)) => {
            let by_height = inside.below(share * inside.height()) / room;
            (share.min(by_height), share, share.max(by_height), "stated")
        }
        (None, None) => {
            let (low, likely, high) = LIQUID_FILL;
            (
                low,
                likely,
                high,
                "none stated, 95 to 100 %: common practice, no source",
            )
        }
    };
    // "Dished" says neither how deep, nor whether the length is the whole one.
    let with = |ends: Ends| Room { ends, ..inside }.volume() / room;
    let dished = inside.ends == Ends::DISHED;
    let over = 2.0 * inside.ends.depth(inside.diameter);
    let shorter = Room {
        length: (inside.length - over).max(0.0),
        ..inside
    };
    Some(Fill {
        low,
        likely,
        high,
        room_low: (shorter.volume() / room).min(if dished { with(Ends::FLATTEST) } else { 1.0 }),
        room_high: if dished { with(Ends::Elliptical) } else { 1.0 },
        source,
    })
}

fn told(ends: Ends) -> &'static str {
    match ends {
        Ends::Flat => "flat ends, length over all",
        Ends::Torispherical { .. } => {
            "dished ends with the diameter as crown radius and a tenth of it as knuckle (DIN 28011, from memory); length between the ends"
        }
        Ends::Elliptical => "elliptical ends 2 : 1; length between the ends",
        Ends::Hemispherical => "hemispherical ends; length between the ends",
    }
}

fn inputs(named: &[(&str, f64)]) -> Vec<(String, f64)> {
    named
        .iter()
        .map(|(name, value)| (name.to_string(), *value))
        .collect()
}
