//! What could not be understood of a typed load, the nearest things known, and what to type.

use crate::audit::{Audit, Line};
use crate::estimate::materials::{Found, Vocabulary};
use crate::estimate::products;
use crate::report::plain_table::labelled;
use crate::report::words;
use crate::site::Units;
use crate::tables::{goods, packages};
use crate::understand::described;
use crate::units::{show, spelling};

/// A shorter word is more often a code than a name.
const SHORTEST: usize = 4;

/// Why there is no estimate, the words that are not known, what to type.
pub(super) fn write(
    text: &mut String,
    line: &Line,
    vocabulary: &Vocabulary,
    units: Units,
    width: usize,
) {
    text.push_str("\nNo estimate\n");
    let Err(no) = &line.estimate else { return };
    let mut points = vec![words::sentence(&no.why)];
    for (word, nearest) in unknown(&line.item.description, vocabulary) {
        let nearest = if nearest.is_empty() {
            String::new()
        } else {
            format!("; the nearest material known: {}", nearest.join(", "))
        };
        points.push(format!("Not understood: \"{word}\"{nearest}."));
    }
    if let Some(upper) = no.upper {
        points.push(format!(
            "All of it can weigh no more than {}, solid lead of that size: a bound, no estimate.",
            show::planning(upper, units)
        ));
    }
    points.push(
        "Type the shape with all its sizes and their units and the material (\"steel plate 10 mm x 1 m x 2 m\"), or the \
         standard product with its length (\"W12x26 20 ft\"); dockheft tables shows what is known."
            .to_string(),
    );
    for point in points {
        text.push_str(&labelled("  -", 4, &point, width));
    }
}

/// The text gave no goods line at all.
pub(super) fn no_goods(text: &mut String, audit: &Audit, width: usize) {
    let skipped = audit
        .deliveries
        .iter()
        .flat_map(|delivery| &delivery.reading.skipped)
        .rfind(|skipped| skipped.row > 1);
    let read_as = skipped.map_or("nothing", |skipped| words::skipped(skipped.why));
    text.push('\n');
    text.push_str(&labelled(
        "",
        0,
        &format!(
            "No goods: in a list this would be read as a row that is no goods line ({read_as}). Begin with what the load \
             is: its shape or product, its sizes with their units, its material."
        ),
        width,
    ));
}

/// Words that name nothing the tables know, with the nearest materials.
fn unknown<'t>(description: &'t str, vocabulary: &Vocabulary) -> Vec<(&'t str, Vec<&'static str>)> {
    let known = known_words(description, vocabulary);
    description
        .split(|sign: char| !(sign.is_alphabetic() || sign == '-'))
        .filter(|word| word.chars().count() >= SHORTEST)
        .filter(|word| !known.iter().any(|known| known == &word.to_lowercase()))
        .filter_map(|word| {
            let nearest = match vocabulary.in_column(word) {
                Found::Known { .. } => return None,
                Found::Unknown { nearest, .. } => nearest,
                Found::Nothing => Vec::new(),
            };
            let named = goods::in_description(word).is_some()
                || packages::of_word(word).is_some()
                || spelling::length(word).is_some()
                || described::names_a_size(word)
                || products::named(word, None).product.is_some();
            (!named).then_some((word, nearest))
        })
        .collect()
}

/// Words that were understood together with others ("reinforced concrete"), and those of a form.
fn known_words(description: &str, vocabulary: &Vocabulary) -> Vec<String> {
    const FORM: [&str; 12] = [
        "with", "ends", "flat", "dished", "full", "filled", "empty", "hollow", "solid", "section",
        "across", "flats",
    ];
    let found = match vocabulary.in_description(description, false) {
        Found::Known { word, .. } => word,
        _ => String::new(),
    };
    let words = found.split_whitespace().map(str::to_lowercase);
    words.chain(FORM.map(String::from)).collect()
}
