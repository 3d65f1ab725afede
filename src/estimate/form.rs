//! The shape that a line's goods are taken as: from a word, or from the sizes given; and whether a word that names a solid may mean
//! other goods ("traffic cone", "ball valve").

use super::words::{Named, Words};
use crate::tables::goods::GoodsWord;
use crate::tables::materials::Material;
use crate::tables::packages;
use crate::tables::phrases;
use crate::understand::{Sizes, described};
use crate::units::spelling;

/// Kind of goods that only their shape names ("cone").
pub(super) const SHAPED: &str = "shaped piece";
/// A metal piece without a word for its kind that is thinner than this part of its width is a plate (common practice, no source).
const THIN: f64 = 0.125;

/// What a piece is taken as.
#[derive(Debug, Default)]
pub(super) struct Form {
    /// One of the shapes, or empty.
    pub shape: &'static str,
    /// A thin piece of metal that no word names.
    pub thin: bool,
    /// Where the shape comes from, as it goes on behind the source of the formula.
    pub from: String,
}

/// The shape that words and sizes say.
pub(super) fn of(words: &Words, sizes: &Sizes, material: Option<&Material>) -> Form {
    let said = words.goods.filter(|word| shape_of(word, sizes).is_some());
    if let Some(word) = said {
        return Form {
            shape: shape_of(&word, sizes).unwrap_or(""),
            thin: false,
            from: format!("; shape from the word \"{}\"", word.word.trim_matches('*')),
        };
    }
    let named = words.goods.is_some();
    let thin = sizes
        .height
        .zip(sizes.width)
        .is_some_and(|(height, width)| height.length.m() <= THIN * width.length.m());
    let (shape, thin, from) = match material.map(|material| material.group) {
        Some("metal") if thin && !named => ("plate", true, "the sizes given"),
        Some("wood" | "engineered wood") if !named => ("box", false, "the material"),
        _ => ("", false, "the sizes given"),
    };
    Form {
        shape,
        thin,
        from: format!("; shape from {from}"),
    }
}

/// The shape that a word says. A drum whose wall is not stated is what is in it.
fn shape_of(word: &GoodsWord, sizes: &Sizes) -> Option<&'static str> {
    let walled = sizes.wall.or(sizes.inside).is_some();
    (!word.shape.is_empty() && (word.shape != "drum" || walled)).then_some(word.shape)
}

/// Words that change nothing about a solid, in a description of one.
const NEUTRAL: [&str; 67] = [
    "thin",
    "solid",
    "massive",
    "massiv",
    "hollow",
    "full",
    "half",
    "empty",
    "of",
    "with",
    "and",
    "the",
    "in",
    "each",
    "per",
    "one",
    "single",
    "forged",
    "cast",
    "machined",
    "turned",
    "welded",
    "seamless",
    "rolled",
    "hot",
    "cold",
    "drawn",
    "galvanised",
    "galvanized",
    "painted",
    "primed",
    "black",
    "bright",
    "mild",
    "plain",
    "round",
    "square",
    "right",
    "triangular",
    "truncated",
    "conical",
    "regular",
    "base",
    "bottom",
    "end",
    "ends",
    "long",
    "short",
    "deg",
    "degree",
    "degrees",
    "across",
    "flats",
    "section",
    "outer",
    "inner",
    "outside",
    "inside",
    "overall",
    "total",
    "approx",
    "ca",
    "about",
    "steel",
    "dim",
    "size",
    "sizes",
];

/// Whether a word for a solid stands beside words that are not understood, or the solid would be of a stuff that is mostly made
/// hollow (plastic, rubber): what is meant may be other goods.
pub(super) fn may_be_other(description: &str, words: &Words, material: &Material) -> bool {
    let Some(word) = words.goods.filter(|word| word.goods.name == SHAPED) else {
        return false;
    };
    let massive = matches!(
        material.group,
        "metal" | "wood" | "engineered wood" | "concrete and masonry" | "stone and soil"
    );
    let of_material = match &words.material {
        Named::Known(_, word) => phrases::words(word),
        _ => Vec::new(),
    };
    let own = phrases::words(word.word);
    let known = |text: &phrases::Word| {
        let plain = text.plain.as_str();
        !plain.chars().any(char::is_alphabetic)
            || plain.chars().any(|sign| sign.is_ascii_digit())
            || plain.chars().count() < 2
            || NEUTRAL.contains(&plain)
            || own
                .iter()
                .chain(&of_material)
                .any(|known| known.plain == plain)
            || described::names_a_size(&text.raw)
            || spelling::length(plain).is_some()
            || packages::of_word(plain).is_some()
    };
    !massive || !phrases::words(description).iter().all(known)
}
