//! Rolled and welded sections from depth, flange and web: I section, channel, tee, angle. Root fillets count where their radius is
//! stated; without it the sharp corners weigh too little, a one-sided bias (how much: measured against the AISC shapes
//! database v16.0 and the European tables, design notes on products, on file).

use super::{NoSolid, Solid, made, need, term};
use crate::estimate::details::Details;
use crate::understand::{Size1, Sizes};
use std::f64::consts::PI;

/// What sets the sections apart.
struct Kind {
    shape: &'static str,
    flanges: f64,
    /// Root fillets.
    fillets: f64,
    /// How far sharp corners may be too light.
    sharp: f64,
    formula: &'static str,
    with_radius: &'static str,
}

/// How much root fillets add at most: IPE, HEA, HEB 2.4 to 6.4 %; W 0.5 to 2.6 %.
pub const FILLETS: f64 = 0.064;
const I_SECTION: Kind = Kind {
    shape: "I section",
    flanges: 2.0,
    fillets: 4.0,
    sharp: FILLETS,
    formula: "(2 x flange x flange thickness + (depth - 2 x flange thickness) x web) x length",
    with_radius: "(2 x flange x flange thickness + (depth - 2 x flange thickness) x web + (4 - pi) x radius^2) x length",
};
/// C, MC and UPN: up to 2.6 % light.
const CHANNEL: Kind = Kind {
    shape: "channel",
    flanges: 2.0,
    fillets: 2.0,
    sharp: 0.026,
    formula: I_SECTION.formula,
    with_radius: "(2 x flange x flange thickness + (depth - 2 x flange thickness) x web + (4 - pi) / 2 x radius^2) x length",
};
/// Half of an I section.
const TEE: Kind = Kind {
    shape: "tee",
    flanges: 1.0,
    fillets: 2.0,
    sharp: FILLETS,
    formula: "(flange x flange thickness + (depth - flange thickness) x web) x length",
    with_radius: "(flange x flange thickness + (depth - flange thickness) x web + (4 - pi) / 2 x radius^2) x length",
};
/// L: up to 1.5 % light.
const ANGLE_SHARP: f64 = 0.015;

pub(super) fn i_section(sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    flanged(&I_SECTION, sizes, details)
}

pub(super) fn channel(sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    flanged(&CHANNEL, sizes, details)
}

pub(super) fn tee(sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    flanged(&TEE, sizes, details)
}

/// Area of a flanged section: depth, flange width, web, flange thickness and root radius in one unit, with so many flanges and root
/// fillets; in that unit squared.
pub fn flanged_area([d, b, web, flange, root]: [f64; 5], flanges: f64, fillets: f64) -> f64 {
    let roots = fillets * (1.0 - PI / 4.0) * root * root;
    flanges * b * flange + (d - flanges * flange) * web + roots
}

fn flanged(kind: &Kind, sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    let depth = need(details.depth.or(sizes.height), "depth")?;
    let flange = need(details.flange.or(sizes.width), "width of the flange")?;
    let thickness = need(details.flange_thickness, "thickness of the flange")?;
    let web = need(details.web.or(sizes.wall), "thickness of the web")?;
    let length = need(sizes.length, "length")?;
    let (d, b, tf, tw, l) = (
        depth.length.m(),
        flange.length.m(),
        thickness.length.m(),
        web.length.m(),
        length.length.m(),
    );
    if kind.flanges * tf > d || tw > b {
        return Err(NoSolid::Impossible(
            "flange or web is thicker than the section".to_string(),
        ));
    }
    let (r, fillets) = fillets(details.radius, kind.fillets);
    let root = r.map_or(0.0, |radius| radius.length.m());
    let area = flanged_area([d, b, tw, tf, root], kind.flanges, kind.fillets);
    let mut terms = vec![
        term("depth", depth, d * tw / area),
        term("flange", flange, kind.flanges * b * tf / area),
        term(
            "flange thickness",
            thickness,
            kind.flanges * tf * (b - tw) / area,
        ),
        term("web", web, (d - kind.flanges * tf) * tw / area),
        term("length", length, 1.0),
    ];
    terms.extend(r.map(|radius| term("radius", radius, 2.0 * fillets / area)));
    let formula = if r.is_some() {
        kind.with_radius
    } else {
        kind.formula
    };
    let outline = [length.length, flange.length, depth.length];
    let bias = if r.is_some() { 0.0 } else { kind.sharp };
    Ok(open(made(kind.shape, formula, area * l, terms, outline)).biased(0.0, bias))
}

/// Legs from height and width, `(height + width - thickness) x thickness x length`.
pub(super) fn angle(sizes: &Sizes, details: &Details) -> Result<Solid, NoSolid> {
    let height = need(details.depth.or(sizes.height), "first leg")?;
    let width = need(details.flange.or(sizes.width), "second leg")?;
    let thickness = need(
        sizes.wall.or(details.flange_thickness).or(details.web),
        "thickness",
    )?;
    let length = need(sizes.length, "length")?;
    let (a, b, t) = (height.length.m(), width.length.m(), thickness.length.m());
    if t > a.min(b) {
        return Err(NoSolid::Impossible(
            "the thickness is more than a leg".to_string(),
        ));
    }
    let (r, fillets) = fillets(details.radius, 1.0);
    let area = (a + b - t) * t + fillets;
    let mut terms = vec![
        term("height", height, a * t / area),
        term("width", width, b * t / area),
        term("thickness", thickness, (a + b - 2.0 * t) * t / area),
        term("length", length, 1.0),
    ];
    terms.extend(r.map(|radius| term("radius", radius, 2.0 * fillets / area)));
    let formula = if r.is_some() {
        "((height + width - thickness) x thickness + (4 - pi) / 4 x radius^2) x length"
    } else {
        "(height + width - thickness) x thickness x length"
    };
    let outline = [length.length, width.length, height.length];
    let volume = area * length.length.m();
    // The toes are rounded too, so that a fillet alone weighs a little too much.
    let bias = match r {
        Some(_) => (fillets / area, 0.0),
        None => (0.0, ANGLE_SHARP),
    };
    Ok(open(made("angle", formula, volume, terms, outline)).biased(bias.0, bias.1))
}

/// The root radius and the area of so many fillets.
fn fillets(radius: Option<Size1>, number: f64) -> (Option<Size1>, f64) {
    let area = |radius: Size1| number * (1.0 - PI / 4.0) * radius.length.m().powi(2);
    (radius, radius.map_or(0.0, area))
}

/// The outline of a section is not its own volume.
fn open(solid: Solid) -> Solid {
    Solid {
        solid: false,
        ..solid
    }
}
