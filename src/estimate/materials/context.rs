//! Whether a material named in a text is what the goods are made of, or something beside them.
//! Wrong material is worse than none: where the words around it leave a doubt, the hit does not count.

use super::fold::Folded;
use super::index::{GRAMMAR, Hit, Index, Meaning};
use super::wood;
use crate::tables::materials::Material;
use crate::tables::materials::words::Kind;
use std::cmp::Reverse;

/// Lightest solid stone of the table; what is lighter in that group is soil, sand or broken stone (common practice, no source).
const SOLID_STONE_KG_M3: f64 = 2_300.0;

/// For each word of a description whether it belongs to something beside the goods: from "for" or "with" up to the
/// next comma, dash or bracket, and from "in" when a package follows.
pub fn beside(text: &Folded) -> Vec<bool> {
    let mut aside = false;
    let flags = text.tokens.iter().enumerate().map(|(at, token)| {
        let word = text.word(at);
        let packed = || {
            (at + 1..=at + 3).any(|next| GRAMMAR.is(text.word(next), &[Kind::Package, Kind::Crate]))
        };
        aside = (aside && !token.breaks)
            || GRAMMAR.is(word, &[Kind::Aside])
            || (GRAMMAR.is(word, &[Kind::Inside]) && packed());
        aside
    });
    flags.collect()
}

/// Whether the word after the material says that it only covers the goods or serves them ("zinc plated", "zinc oxide").
pub fn only_covers(text: &Folded, to: usize) -> bool {
    GRAMMAR.is(text.next_word(to), &[Kind::Cover, Kind::Takeover])
}

/// Whether a material met in a description can be what the goods are made of. `to` is one past its last word; `loose` says
/// whether the text leaves room for loose goods.
fn is_of_goods(text: &Folded, material: &Material, to: usize, loose: bool) -> bool {
    let next = text.next_word(to);
    if only_covers(text, to) || (material.group != "metal" && GRAMMAR.is(next, &[Kind::Tool])) {
        return false;
    }
    if !is_loose(material) {
        return !GRAMMAR.is(next, &[Kind::Crate]);
    }
    // Loose goods lend their name to machines and vessels ("water pump", "sand filter", "diesel engine").
    let plain = next.len() < 3
        || next.bytes().any(|b| b.is_ascii_digit())
        || GRAMMAR.is(
            next,
            &[
                Kind::Neutral,
                Kind::Package,
                Kind::Crate,
                Kind::Volume,
                Kind::Aside,
                Kind::Inside,
            ],
        );
    plain && loose
}

/// Material that is shipped in something: liquids, powders, grain, soil, textiles.
pub fn is_loose(material: &Material) -> bool {
    match material.group {
        "liquid" | "bulk solid" | "textile" => true,
        "stone and soil" => material.density.kg_m3() < SOLID_STONE_KG_M3,
        _ => false,
    }
}

/// Whether the text names a container or a volume.
fn contained(text: &Folded) -> bool {
    (0..text.tokens.len()).any(|at| {
        let unit = text
            .word(at)
            .trim_start_matches(|c: char| c.is_ascii_digit());
        GRAMMAR.is(unit, &[Kind::Package, Kind::Crate, Kind::Volume])
    })
}

/// The most telling of the materials named: more words before fewer, then the first; but a species before "timber".
pub fn most_telling(named: &[(Hit, &'static Material)]) -> Option<(Hit, &'static Material)> {
    // `min_by_key` keeps the first of equals.
    let best = named.iter().min_by_key(|(hit, _)| Reverse(hit.rank))?;
    let species = named
        .iter()
        .find(|(_, material)| material.group == "wood" && !wood::is_generic(material));
    Some(*species.filter(|_| wood::is_generic(best.1)).unwrap_or(best))
}

/// The material of the goods that a description names.
pub fn of_goods(
    index: &Index,
    text: &Folded,
    product_matched: bool,
) -> Option<(Hit, &'static Material)> {
    let beside = beside(text);
    let contained = contained(text);
    let hits = index.hits(text, false).into_iter();
    let named = hits.filter_map(|hit| match hit.meaning {
        Meaning::One(material) => Some((hit, material)),
        Meaning::NotOne(_) => None,
    });
    let counts = |(hit, material): &(Hit, &'static Material)| {
        let loose = contained || !(product_matched || material.group == "liquid");
        !beside.get(hit.from).is_some_and(|aside| *aside)
            && is_of_goods(text, material, hit.to, loose)
    };
    most_telling(&named.filter(counts).collect::<Vec<_>>())
}

/// What a container holds: the loose material that the text names, never the steel or plastic of the container itself.
pub fn of_contents(index: &Index, text: &Folded) -> Option<(Hit, &'static Material)> {
    let hits = index.hits(text, false).into_iter();
    let loose = hits.filter_map(|hit| match hit.meaning {
        Meaning::One(material) if is_loose(material) => Some((hit, material)),
        _ => None,
    });
    let counts =
        |(hit, material): &(Hit, &'static Material)| is_of_goods(text, material, hit.to, true);
    most_telling(&loose.filter(counts).collect::<Vec<_>>())
}
