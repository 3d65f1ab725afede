//! Standard products: recognised by name in a supplier's description, with the mass their standard gives them.
//! Comes in: a description and whether the file is metric. Goes out: a product, or nothing. A name that could be read in
//! two ways is not recognised: a wrong narrow answer is worse than none.

mod angle;
mod bar;
mod dressed;
mod drums;
mod european;
mod hbeam;
mod hollow;
mod imperial;
mod inches;
mod masonry;
mod measured;
mod nonferrous;
mod packages;
mod panel;
mod pieces;
mod pipe;
mod precast;
mod rail;
mod rebar;
mod rope;
mod scan;
mod serial;
mod sheet;
mod show;
mod volume;
mod words;

#[cfg(test)]
mod checks;
#[cfg(test)]
mod descriptions;
#[cfg(test)]
mod geometry;
mod glass;
#[cfg(test)]
mod testing;
#[cfg(test)]
mod values;

pub use packages::Container;

use crate::units::{Length, Mass, MassRange, Volume};
use scan::{Chain, Scene};
use words::Classes;

/// Density of steel for every rule of a section, kg/m3: EN 10365 and EN 10219 compute with 7,850.
pub(crate) const STEEL_KG_M3: f64 = 7_850.0;
/// 1 lb/ft in kg/m: 0.453 592 37 / 0.3048, exact.
pub(crate) const KG_M_PER_LB_FT: f64 = crate::units::KG_PER_LB / 0.3048;
/// 1 lb/ft2 in kg/m2: 0.453 592 37 / 0.3048^2, exact.
pub(crate) const KG_M2_PER_PSF: f64 = KG_M_PER_LB_FT / 0.3048;
/// Making tolerance of rolled sections (method, section 1).
pub(crate) const SECTION: f64 = 0.04;
/// Making tolerance of pipe, tube and reinforcing bar (method, section 1; ASTM A615 for a single bar).
pub(crate) const TUBE: f64 = 0.06;
/// Making tolerance of steel pipe: ASTM A53 allows +-10 % (from memory), and what a mill must not leave is read as three
/// standard deviations, the range as two (common practice, no source).
pub(crate) const PIPE: f64 = 0.067;
/// Making tolerance of bar: EN 10060 allows 0.4 mm on 12 mm and 1 mm on 80 mm, either way (from memory), read as for pipe.
pub(crate) const BAR: f64 = 0.04;
/// Making tolerance of what has no other (method, section 1).
pub(crate) const OTHER: f64 = 0.02;

/// How the standard states a product's mass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Measure {
    /// Kilograms per metre of length; the length of the piece comes from the line.
    PerLength {
        /// Nominal mass, kg/m.
        kg_per_m: f64,
    },
    /// The whole piece; the making tolerance is already inside the range.
    PerPiece {
        /// Low, likely and high.
        piece: MassRange,
    },
    /// Kilograms per square metre (sheet goods).
    PerArea {
        /// Nominal mass, kg/m2.
        kg_per_m2: f64,
    },
    /// Only the true section is known; the density comes from the material.
    Dressed {
        /// The smaller true dimension.
        thickness: Length,
        /// The larger true dimension.
        width: Length,
        /// The words say lumber. Where they do not ("4x4x6'"), only a line whose material is wood is about it.
        said: bool,
    },
}

/// A standard product found in a description.
#[derive(Clone, Debug, PartialEq)]
pub struct Product {
    /// Family as the trade names it (`W`, `UB`, `IPE`, `rebar`, `rail`, `lumber`, `pipe`).
    pub family: &'static str,
    /// Tidy name (`W12x26`, `UB 203x133x25`).
    pub designation: String,
    /// Group of goods (`section`, `hollow section`, `rebar`, `rail`, `pipe`, `lumber`, `panel`, `bag`, `flat bar`, `round bar`).
    pub goods: &'static str,
    /// The nominal mass, or the true section.
    pub measure: Measure,
    /// How far a piece may be below the nominal mass, relative.
    pub make_low: f64,
    /// How far a piece may be above it, relative; a known one-sided bias of the rule included.
    pub make_high: f64,
    /// Material by its name in the materials table, where the product implies one.
    pub material: Option<&'static str>,
    /// Length of a piece, where the designation itself carries one (`2x10x16'`).
    pub length: Option<Length>,
    /// A last figure behind the section may be its length in more than one unit (`1/2 x 6 x 20`: feet or inches).
    pub length_unclear: bool,
    /// Outside height and width of the section, where known.
    pub outline: Option<(Length, Length)>,
    /// One clause for a clerk: "the last number of UB 203x133x25 is 25 kg/m".
    pub working: String,
    /// Standard and edition or table.
    pub source: &'static str,
    /// Not in the table: worked out by the rule of the standard.
    pub extrapolated: bool,
}

impl Product {
    /// A steel product by the metre with the making tolerance of its kind on both sides.
    fn steel(
        family: &'static str,
        goods: &'static str,
        designation: String,
        kg_per_m: f64,
        make: f64,
    ) -> Product {
        Product {
            family,
            designation,
            goods,
            measure: Measure::PerLength { kg_per_m },
            make_low: make,
            make_high: make,
            material: Some("carbon steel"),
            length: None,
            length_unclear: false,
            outline: None,
            working: String::new(),
            source: "",
            extrapolated: false,
        }
    }
}

/// What must not stand in the description of a bare steel product.
const NOT_BARE_STEEL: Classes = Classes::ACCESSORY
    .and(Classes::MADE)
    .and(Classes::FOREIGN)
    .and(Classes::LINED);

/// What a description names.
#[derive(Debug, Default)]
pub struct Named {
    /// The one standard product.
    pub product: Option<Product>,
    /// The drum, pail or tote.
    pub container: Option<Container>,
    /// What the freight container it begins with may weigh with its load, where nothing says that it is empty.
    pub loaded: Option<Mass>,
    /// The volume of goods that come loose.
    pub volume: Option<Volume>,
    /// Glass of several lites or plies, without how many and how thick.
    pub several_lites: bool,
}

/// What a description names: a standard product, a container, a volume.
///
/// `metric_hint` is what the file shows about its units: `Some(true)` metric, `Some(false)` inch and pound, `None` nothing.
pub fn named(description: &str, metric_hint: Option<bool>) -> Named {
    Scene::of(description).map_or(Named::default(), |scene| Named {
        product: recognise(&scene, metric_hint),
        container: packages::container(&scene),
        loaded: pieces::loaded_container(&scene),
        volume: volume::volume(&scene),
        several_lites: glass::of_several(&scene),
    })
}

/// The container a description names.
pub fn container(description: &str) -> Option<Container> {
    packages::container(&Scene::of(description)?)
}

/// The one standard product. None is returned for accessories, for what is made from a product, for a name that two systems
/// share when nothing tells them apart, and for a description that names two products.
fn recognise(scene: &Scene, metric_hint: Option<bool>) -> Option<Product> {
    let mut found: Option<Product> = None;
    for at in 0..scene.tokens.len() {
        if scene.relation.is_some_and(|relation| relation < at) || !scene.starts(at) {
            continue;
        }
        let Some(product) = named_at(scene, at, metric_hint) else {
            continue;
        };
        match &found {
            Some(other) if other.designation != product.designation => return None,
            _ => found = Some(product),
        }
    }
    if found.is_none() && scene.relation.is_none() {
        found = by_words(scene, metric_hint);
    }
    found.map(|product| {
        if scene.classes.any(Classes::GALVANISED) {
            galvanised(product)
        } else {
            product
        }
    })
}

/// A product whose name starts at this token.
fn named_at(scene: &Scene, at: usize, hint: Option<bool>) -> Option<Product> {
    if scene.classes.any(NOT_BARE_STEEL) {
        return None;
    }
    if scene.word(at).is_some_and(|word| word == "pl") {
        return bar::plate(scene, at, hint);
    }
    if scene.classes.any(Classes::PLATE) {
        return None;
    }
    imperial::named(scene, at, hint)
        .or_else(|| serial::named(scene, at))
        .or_else(|| european::named(scene, at))
        .or_else(|| hbeam::named(scene, at))
        .or_else(|| rail::named(scene, at))
        .or_else(|| angle::named(scene, at, hint))
        .or_else(|| hollow::named(scene, at, hint))
        .or_else(|| bar::named(scene, at, hint))
}

/// A product that words spread over the description name together: "SCH 40 ... PIPE 6".
fn by_words(scene: &Scene, hint: Option<bool>) -> Option<Product> {
    pieces::find(scene)
        .or_else(|| precast::find(scene, hint))
        .or_else(|| rebar::find(scene, hint))
        .or_else(|| pipe::find(scene, hint))
        .or_else(|| nonferrous::find(scene))
        .or_else(|| panel::find(scene, hint))
        .or_else(|| masonry::find(scene, hint))
        .or_else(|| glass::glass(scene, hint))
        .or_else(|| sheet::gauged(scene, hint))
        .or_else(|| rope::find(scene))
        .or_else(|| dressed::find(scene, hint))
        .or_else(|| packages::bag(scene))
        .or_else(|| packages::pallet(scene))
}

/// Zinc adds to a steel product, most to thin walls: 3 to 6 % (common practice, no source).
fn galvanised(mut product: Product) -> Product {
    if product.material == Some("carbon steel") && product.goods != "plate" {
        product.make_high += 0.06;
        product.working.push_str("; zinc may add up to 6 %");
    }
    product
}

/// A bare last figure up to this may be feet or metres, whatever the section is in: the longest stock length in feet
/// (common practice, no source).
const LONGEST_BARE: f64 = 60.0;

/// The length that follows the `needed` sizes of a name in the same chain, none where none is written, and whether a figure
/// there may be a length in more than one unit. None: the chain has more numbers than the name can explain.
fn trailing_length(chain: &Chain, needed: usize) -> Option<(Option<Length>, bool)> {
    let last = match chain.dims.len().checked_sub(needed)? {
        0 => return Some((None, false)),
        1 => chain.dims.last()?,
        _ => return None,
    };
    match last.length() {
        Some(length) => Some((Some(length), false)),
        None => last.bare_up_to(LONGEST_BARE).then_some((None, true)),
    }
}
