//! What the words of a line say: goods, standard product, material.

use super::materials::{Found, Vocabulary};
use super::products::{self, Container, Measure, Product};
use crate::tables::goods::{self, GoodsWord};
use crate::tables::materials::Material;
use crate::tables::packages;
use crate::understand::{Item, Size1, described, sizes};
use crate::units::written::Decimal;
use crate::units::{LengthUnit, Mass, Volume};

/// What the words of a line say.
pub(super) struct Words<'v> {
    /// The materials and their words.
    pub vocabulary: &'v Vocabulary,
    /// Kind of goods.
    pub goods: Option<GoodsWord>,
    /// Standard product.
    pub product: Option<Product>,
    /// Drum, pail or tote.
    pub container: Option<Container>,
    /// What the freight container may weigh with its load, where nothing says that it is empty.
    pub loaded: Option<Mass>,
    /// Volume of goods that come loose.
    pub volume: Option<Volume>,
    /// Glass of several lites or plies, without how many and how thick.
    pub several_lites: bool,
    /// Material.
    pub material: Named,
}

/// The material, or why none.
pub(super) enum Named {
    Known(&'static Material, String),
    Unknown(String, Vec<&'static str>),
    Nothing,
}

/// Reads the words of a line. `metric` says what the file's signs are.
pub(super) fn read<'v>(item: &Item, metric: Option<bool>, vocabulary: &'v Vocabulary) -> Words<'v> {
    let goods = goods::in_description(&item.description);
    let named = products::named(&item.description, metric);
    let product = named
        .product
        .filter(|product| goods.is_none_or(|word| may_be(product, word)))
        .filter(|product| product.goods != "shingle bundle" || counts_bundles(item));
    let mut material = material(item, product.as_ref(), goods, vocabulary);
    let product = product.filter(|product| may_be_of(product, &material));
    if product.is_none() {
        material = self::material(item, None, goods, vocabulary);
    }
    let goods = goods.map(|word| reconciled(word, &material));
    Words {
        vocabulary,
        goods,
        product,
        container: named.container,
        loaded: named.loaded,
        volume: named.volume,
        several_lites: named.several_lites,
        material,
    }
}

/// A size like lumber's is that of any goods: a block, a machine. Other names are their own evidence.
fn may_be(product: &Product, word: GoodsWord) -> bool {
    !matches!(product.measure, Measure::Dressed { .. }) || word.goods.name == "lumber"
}

/// Whether the line's number counts bundles: the mass of one is that of no single shingle, no square and no pallet of them, and a
/// number in the description that is not the line's leaves open what it counts.
fn counts_bundles(item: &Item) -> bool {
    let is = |word: &str, names: &[&str]| {
        packages::of_word(word).is_some_and(|found| names.contains(&found.name))
    };
    let unit = item.unit.as_deref();
    let words: Vec<&str> = item
        .description
        .split(|sign: char| !sign.is_alphanumeric())
        .filter(|word| !word.is_empty())
        .collect();
    let said = words.iter().any(|word| is(word, &["bundle"]));
    let counted = words
        .windows(2)
        .filter(|pair| is(pair[1], &["bundle"]))
        .filter_map(|pair| pair[0].parse::<u32>().ok());
    let own = |number: u32| number == item.pieces || Some(number) == item.packages;
    (said || unit.is_some_and(|unit| is(unit, &["bundle"])))
        && unit.is_none_or(|unit| is(unit, &["bundle", "piece"]))
        && counted.into_iter().all(own)
}

/// Lumber is of wood; where no material is named, the words must have spoken of lumber. Beside a vessel of steel any other material is
/// what may be in it, or another vessel.
fn may_be_of(product: &Product, material: &Named) -> bool {
    if matches!(product.goods, "freight container" | "gas cylinder") {
        return match material {
            Named::Known(material, _) => material.name.ends_with("steel"),
            Named::Unknown(..) => false,
            Named::Nothing => true,
        };
    }
    match (&product.measure, material) {
        (Measure::Dressed { .. }, Named::Known(material, _)) => material.group == "wood",
        (Measure::Dressed { said, .. }, _) => *said,
        _ => true,
    }
}

/// A beam of cast iron is a casting and a wall panel of concrete is precast, whatever the word alone would say: what they are
/// made of decides how they come and how they lift.
fn reconciled(word: GoodsWord, material: &Named) -> GoodsWord {
    let Named::Known(material, _) = material else {
        return word;
    };
    let woody = matches!(word.goods.name.as_str(), "lumber" | "panel");
    let name = match material.group {
        // "Pipe ..., reinforced concrete" comes singly, unlike pipe of metal.
        "concrete and masonry" if word.goods.name == "pipe" => "concrete pipe",
        "concrete and masonry"
            if woody || matches!(word.goods.name.as_str(), "section" | "solid block") =>
        {
            "concrete"
        }
        "stone and soil" if woody || word.goods.name == "solid block" => "stone",
        "metal" if woody && material.name.contains("iron") => "casting",
        "metal" if woody => "fabrication",
        _ => return word,
    };
    let shape = match name {
        "concrete" | "stone" => "box",
        "concrete pipe" => "pipe",
        _ => "",
    };
    goods::by_name(name).map_or(word, |goods| GoodsWord {
        goods,
        shape,
        ..word
    })
}

fn material(
    item: &Item,
    product: Option<&Product>,
    goods: Option<GoodsWord>,
    vocabulary: &Vocabulary,
) -> Named {
    if let Some(text) = &item.material {
        match vocabulary.in_column(text) {
            Found::Known { material, word } => {
                return Named::Known(vocabulary.in_condition(material, &item.description), word);
            }
            Found::Unknown { word, nearest } => {
                // A grade the table does not know stands beside words it does: the words are evidence, the grade is not.
                return match vocabulary.in_description(&item.description, product.is_some()) {
                    Found::Known { material, word } => Named::Known(material, word),
                    _ => Named::Unknown(word, nearest),
                };
            }
            Found::Nothing => {}
        }
    }
    if let Found::Known { material, word } =
        vocabulary.in_description(&item.description, product.is_some())
    {
        // A "concrete ring" is of reinforced concrete: the kind of goods says which.
        let special = goods
            .and_then(|goods| vocabulary.table.by_name(goods.material?))
            .filter(|own| {
                own.name
                    .strip_suffix(material.name)
                    .is_some_and(|first| first.ends_with(' '))
            });
        return Named::Known(special.unwrap_or(material), word);
    }
    if let Some(species) = species_in_short(item, product, vocabulary) {
        return species;
    }
    let implied = product
        .and_then(|product| product.material)
        .or(goods.and_then(|word| word.material));
    match implied.and_then(|name| vocabulary.table.by_name(name)) {
        Some(material) => {
            let said = if product.is_some() {
                "implied by the standard"
            } else {
                "implied by the kind of goods"
            };
            Named::Known(material, said.to_string())
        }
        None => Named::Nothing,
    }
}

/// Species that lumber is named by in short. Elsewhere such words do not count in a description; beside a dressed size they mean
/// nothing else.
const SPECIES_IN_SHORT: [&str; 5] = ["DF", "DFL", "SPF", "SYP", "WRC"];

fn species_in_short(
    item: &Item,
    product: Option<&Product>,
    vocabulary: &Vocabulary,
) -> Option<Named> {
    if !matches!(product?.measure, Measure::Dressed { .. }) {
        return None;
    }
    let words = item.description.split(|sign: char| !sign.is_alphanumeric());
    let mut species = words.filter(|word| {
        SPECIES_IN_SHORT
            .iter()
            .any(|short| short.eq_ignore_ascii_case(word))
    });
    match vocabulary.in_column(species.next()?) {
        Found::Known { material, word } => Some(Named::Known(
            vocabulary.in_condition(material, &item.description),
            word,
        )),
        _ => None,
    }
}

/// Whether the sizes of a piece stand in columns of their own. Else they are figures of the description, like the name of a
/// product; so they are where the size columns are the package's.
pub(super) fn sizes_in_columns(item: &Item) -> bool {
    item.sizes_from.is_some() && item.package_sizes.is_empty()
}

/// A single length in metres or feet in the description ("500 m", "1500 FT", "IPE 200 12m"); the longest where there are more.
/// Of what is wound up it is no side of the load, so it is no size of the line.
pub(super) fn length_in_words(description: &str) -> Option<Size1> {
    let found = described::read(description, Decimal::Unclear);
    let single = found.chains.iter().filter(|chain| chain.parts.len() == 1);
    single
        .filter_map(|chain| chain.parts.first())
        .filter(|part| matches!(part.written.unit, Some(LengthUnit::M | LengthUnit::Ft)))
        .filter_map(|part| sizes::size(part.written, None))
        .max_by(|one, other| one.length.m().total_cmp(&other.length.m()))
}

impl Words<'_> {
    /// Name of the kind of goods: the product's, else the word's.
    pub fn goods_name(&self) -> Option<&'static str> {
        let product = self
            .product
            .as_ref()
            .and_then(|product| goods::by_name(product.goods));
        product
            .or(self.goods.map(|word| word.goods))
            .map(|goods| goods.name.as_str())
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Method, section 4: pipe of metal comes bundled, concrete singly.
    #[test]
    fn pipe_of_concrete_is_concrete_pipe() {
        let pipe = goods::in_description("pipe").expect("a goods word");
        for (material, name) in [
            ("reinforced concrete", "concrete pipe"),
            ("carbon steel", "pipe"),
        ] {
            let material = crate::tables::materials::by_name(material).expect("a material");
            let word = reconciled(pipe, &Named::Known(material, String::new()));
            assert_eq!((word.goods.name.as_str(), word.shape), (name, "pipe"));
        }
    }
}
