//! One load as typed at the dock: the text of a description cell, perhaps with a number of pieces and a declared weight.
//! Comes in: text. Goes out: the cells it would be in a list. What may mean two things is asked about, never guessed.

use crate::estimate::materials::{self, Found};
use crate::estimate::products::{self, Measure};
use crate::tables::goods;
use crate::tables::packages::{self, Counts};
use crate::understand::described::{self, Chain};
use crate::units::written::{Decimal, MassText, mass, tidy};
use crate::units::{LengthUnit, MassUnit, spelling};

/// A load as typed.
#[derive(Clone, Debug, PartialEq)]
pub struct Typed {
    /// The whole text.
    pub text: String,
    /// What a list would have in its description cell.
    pub description: String,
    /// What a list would have in its quantity cell ("3", "2 pallets"), where the text begins or ends with it.
    pub quantity: Option<String>,
    /// What a list would have in its weight cell: all of the weight after the word "declared".
    pub declared: Option<String>,
    /// US lengths only (`Some(true)`), metric ones only (`Some(false)`), both or none.
    pub us: Option<bool>,
}

/// Reads a typed load.
///
/// # Errors
/// What may mean two things, or is missing, with what to type instead.
pub fn parse(text: &str) -> Result<Typed, String> {
    let text = tidy(text);
    let (goods, declared) = declared(&text)?;
    let counted = match leading(&goods) {
        Some(counted) => Some(counted),
        None => trailing(&goods)?,
    };
    let (quantity, description) = match counted {
        Some((quantity, rest)) => (Some(quantity), rest),
        None => (None, goods),
    };
    if !description.chars().any(char::is_alphanumeric) {
        return Err(
            "say what the load is: its shape or product, its sizes with their units, its material"
                .to_string(),
        );
    }
    if let Some(sizes) = unclear(&description) {
        return Err(format!(
            "the unit of \"{sizes}\" is not clear: type it behind each figure (\"2 m x 2 m x 1 m\", \"12 in x 12 in x 8 ft\")"
        ));
    }
    Ok(Typed {
        us: us(&description, declared.as_deref()),
        text,
        description,
        quantity,
        declared,
    })
}

/// Words between "declared" and its weight that say nothing.
const BETWEEN: [&str; 4] = ["weight", "wt", "at", "as"];
/// A weight is at most so many words ("2,040 lb each").
const LONGEST_WEIGHT: usize = 4;

/// The text without "declared ..." and the weight that stands there.
fn declared(text: &str) -> Result<(String, Option<String>), String> {
    let words: Vec<&str> = text.split(' ').collect();
    let is_word = |word: &&str| {
        word.trim_matches([':', ','])
            .eq_ignore_ascii_case("declared")
    };
    let Some(at) = words.iter().position(is_word) else {
        return Ok((text.to_string(), None));
    };
    let filler = |word: &&&str| BETWEEN.contains(&word.trim_end_matches(':'));
    let start = at + 1 + words.iter().skip(at + 1).take_while(filler).count();
    let longest = words.len().min(start + LONGEST_WEIGHT);
    let weight = (start + 1..=longest).rev().find_map(|end| {
        let text = words.get(start..end)?.join(" ");
        let text = text.trim_end_matches([',', ';']).to_string();
        let is_weight = matches!(
            mass(&text, Decimal::Unclear),
            MassText::Figure { unit: Some(_), .. }
        );
        is_weight.then_some((end, text))
    });
    let Some((end, weight)) = weight else {
        return Err(
            "no weight with its unit stands after \"declared\": type it as \"declared 2040 lb\" or \"declared 925 kg each\""
                .to_string(),
        );
    };
    let rest = [&words[..at], &words[end..]].concat().join(" ");
    Ok((
        rest.trim_end_matches([',', ';', ' ']).to_string(),
        Some(weight),
    ))
}

/// A count at the front: "3 x ...", "3x ...", "2 pallets ...", "6 steel plates ...".
fn leading(text: &str) -> Option<(String, String)> {
    let (first, rest) = text.split_once(' ')?;
    let (second, after) = rest.split_once(' ').unwrap_or((rest, ""));
    if let Some(number) = first.strip_suffix(JOINERS).and_then(count) {
        return begins_goods(rest).then(|| (number, rest.to_string()));
    }
    let number = count(first)?;
    if is_joiner(second) {
        return begins_goods(after).then(|| (number, after.to_string()));
    }
    let goods_word = goods::in_description(second).is_some();
    // "12 No. 16 rebar": the word names the size behind it.
    let naming = second.to_lowercase().starts_with("no");
    let word = packages::of_word(second)
        .filter(|word| word.counts != Counts::Measure && second.len() > 1 && !naming);
    let after = after.strip_prefix("of ").unwrap_or(after);
    match word {
        Some(word) if word.name == "piece" && !goods_word => Some((number, after.to_string())),
        Some(word) if word.name == "piece" => Some((number, rest.to_string())),
        Some(word) => {
            let each = after.split_once(' ').and_then(|(each, _)| count(each));
            let packed = each.filter(|_| word.counts == Counts::Package && packed(after));
            Some(match packed {
                // "1 pallet of 40 bags ...": so many of so many.
                Some(each) => {
                    let (_, goods) = after.split_once(' ')?;
                    (
                        format!("{number} {second} of {each}"),
                        format!("{second} {goods}"),
                    )
                }
                None => (format!("{number} {second}"), rest.to_string()),
            })
        }
        None => {
            let known = goods_word || is_material(second);
            // "304 stainless plate": a grade is no count.
            (known && !is_material(&number)).then(|| (number, rest.to_string()))
        }
    }
}

/// A number and what it counts stand at the front: "40 bags".
fn packed(text: &str) -> bool {
    let word = text.split(' ').nth(1).and_then(packages::of_word);
    word.is_some_and(|word| word.counts == Counts::Piece)
}

/// Goods stand there, or the contents of one of them ("25 kg bags"), not another size of a chain.
fn begins_goods(text: &str) -> bool {
    const VOLUMES: [&str; 8] = [
        "gal", "gallon", "gallons", "l", "liter", "litre", "ltr", "m3",
    ];
    let letter = |sign: char| sign.is_alphabetic() || matches!(sign, 'Ø' | '#');
    let figure = |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',');
    let unit = text.trim_start_matches(figure).trim_start();
    let unit = unit.split(' ').next().unwrap_or("");
    text.starts_with(letter)
        || spelling::mass(unit).is_some()
        || VOLUMES.contains(&unit.to_lowercase().as_str())
}

/// A count elsewhere: "... x 3", "... 3 x", "... qty 3", "... 40 bags", "water, 4 drums, 55 gal".
fn trailing(text: &str) -> Result<Option<(String, String)>, String> {
    let Some((before, last)) = text.rsplit_once(' ') else {
        return Ok(None);
    };
    let (earlier, previous) = before.rsplit_once(' ').unwrap_or(("", before));
    let joined = match last.strip_prefix(JOINERS).and_then(count) {
        Some(number) => Some((number, before)),
        None if is_joiner(previous) => count(last).map(|number| (number, earlier)),
        None => None,
    };
    if let Some((number, before)) = joined {
        return Ok(is_count(before, &number)?.then(|| (number, before.to_string())));
    }
    let in_chain = earlier.rsplit(' ').next().is_some_and(is_joiner);
    let quantity = previous.trim_end_matches([':', '.']).to_lowercase();
    let counted = if let Some(number) = last.strip_suffix(JOINERS).and_then(count) {
        (!is_joiner(previous)).then(|| (number, before))
    } else if is_joiner(last) && !in_chain {
        count(previous).map(|number| (number, earlier))
    } else if matches!(quantity.as_str(), "qty" | "quantity") {
        count(last).map(|number| (number, earlier))
    } else {
        return packages_within(text);
    };
    let counted = counted.filter(|(_, rest)| !rest.trim().is_empty());
    Ok(counted.map(|(number, rest)| (number, rest.to_string())))
}

/// Counted packages, bags or drums in the text; the words stay, for they say what the goods are in.
fn packages_within(text: &str) -> Result<Option<(String, String)>, String> {
    let words: Vec<&str> = text.split(' ').collect();
    let plain = |word: &str| word.trim_end_matches([',', ';', ':', '.']).to_string();
    let counted = |at: &usize| {
        let before = at.checked_sub(1).and_then(|before| words.get(before));
        let number = words.get(*at).copied().and_then(count);
        let word = words.get(at + 1).map(|word| plain(word));
        let word = word.as_deref().and_then(packages::of_word);
        let counts =
            |word: &packages::PackageWord| word.counts != Counts::Measure && word.name != "piece";
        !before.is_some_and(|before| is_joiner(before))
            && number.is_some()
            && word.is_some_and(counts)
    };
    let found: Vec<usize> = (0..words.len()).filter(counted).collect();
    match found[..] {
        [] => Ok(None),
        [at] => {
            let rest = [&words[..at], &words[at + 1..]].concat().join(" ");
            Ok(Some((format!("{} {}", words[at], plain(words[at + 1])), rest)))
        }
        _ => Err(
            "the text counts twice: begin with what is lifted, as \"2 pallets of 40 bags cement 25 kg\""
                .to_string(),
        ),
    }
}

/// Whether a figure behind `before` and an x counts pieces (`true`) or is one more size (`false`).
fn is_count(before: &str, number: &str) -> Result<bool, String> {
    let united = match end_of(before) {
        End::Words => return Ok(true),
        End::Figure => false,
        End::Length => true,
    };
    let found = described::read(before, Decimal::Unclear);
    let parts = found
        .chains
        .last()
        .map_or(&[][..], |chain: &Chain| &chain.parts);
    let product = products::recognise(before, None);
    let by_length = product
        .as_ref()
        .is_some_and(|product| matches!(product.measure, Measure::PerLength { .. }));
    let complete = match parts {
        [only] => only.label.is_some() || product.is_some(),
        _ => parts.len() >= 3,
    };
    match (united, complete) {
        (true, true) => Ok(true),
        // "48 x 96 x 0.5 x 3": no fourth size is possible, yet nothing says that it counts.
        (false, true) if parts.len() >= 3 && !by_length => Err(asked(number)),
        (true, false) => Err(asked(number)),
        (false, _) => Ok(false),
    }
}

fn asked(number: &str) -> String {
    format!(
        "\"x {number}\" at the end may be a size or a number of pieces: type \"{number} pcs\" for pieces, or the unit of the size"
    )
}

/// What a text ends with.
enum End {
    /// A length with its unit.
    Length,
    /// A figure without a unit.
    Figure,
    /// Anything else.
    Words,
}

fn end_of(text: &str) -> End {
    let (before, last) = text.rsplit_once(' ').unwrap_or(("", text));
    let figures = |sign: char| sign.is_ascii_digit() || matches!(sign, '.' | ',' | '/' | '-');
    let unit = last.rsplit(figures).next().unwrap_or(last);
    let glued = unit.len() < last.len();
    match spelling::length(unit) {
        _ if last.ends_with(|sign: char| sign.is_ascii_digit()) => End::Figure,
        Some(_) if glued || before.ends_with(|sign: char| sign.is_ascii_digit()) => End::Length,
        _ if last.ends_with(['"', '\'', '″', '′', '”', '’']) => End::Length,
        _ => End::Words,
    }
}

/// A figure below this before a length in metres or feet may be in that unit too (common practice, no source).
const SMALL: f64 = 15.0;

/// Small figures without a unit before a length in metres or feet ("2 x 2 x 1 m"): millimetres or metres, inches or feet.
/// A list would read them as the finer unit; a wrong light weight is worse than a question. The name of a product
/// ("2x10x16 ft") says its own.
fn unclear(text: &str) -> Option<String> {
    let named = products::recognise(text, None).is_some_and(|product| match product.measure {
        Measure::PerLength { .. } => true,
        Measure::Dressed { .. } => is_wood(text),
        Measure::PerArea { .. } | Measure::PerPiece { .. } => false,
    });
    if named {
        return None;
    }
    let found = described::read(text, Decimal::Unclear);
    let chain = found.chains.iter().find(|chain| {
        let long = chain.parts.last().and_then(|part| part.written.unit);
        let long = matches!(long, Some(LengthUnit::M | LengthUnit::Ft | LengthUnit::Yd));
        let small = chain.parts.iter().any(|part| {
            let figure = part.written.figure;
            part.written.unit.is_none() && !figure.fraction && figure.value < SMALL
        });
        chain.parts.len() > 1 && long && small
    })?;
    let figures = chain
        .parts
        .iter()
        .map(|part| part.written.figure.value.to_string());
    Some(figures.collect::<Vec<_>>().join(" x "))
}

/// Lumber, or goods of wood: "3 x 4" is the name of a dressed size there only.
fn is_wood(text: &str) -> bool {
    let goods = goods::in_description(text).map(|word| word.goods.name.as_str());
    let wood = match materials::in_description(text, false) {
        Found::Known { material, .. } => material.group == "wood",
        _ => false,
    };
    matches!(goods, None | Some("lumber")) && wood || goods == Some("lumber")
}

/// Signs that join sizes, and a count to its goods.
const JOINERS: [char; 4] = ['x', 'X', '×', '*'];

fn is_joiner(word: &str) -> bool {
    let mut signs = word.chars();
    signs.next().is_some_and(|sign| JOINERS.contains(&sign)) && signs.next().is_none()
}

/// A whole number of at most six digits, above zero.
fn count(word: &str) -> Option<String> {
    let number: u32 = word.parse().ok()?;
    let plain = word.bytes().all(|byte| byte.is_ascii_digit());
    (plain && (1..1_000_000).contains(&number)).then(|| number.to_string())
}

fn is_material(word: &str) -> bool {
    matches!(materials::in_column(word), Found::Known { .. })
}

/// The country of the units that stand in the text.
fn us(text: &str, declared: Option<&str>) -> Option<bool> {
    let found = described::read(text, Decimal::Unclear);
    let parts = found.chains.iter().flat_map(|chain| &chain.parts);
    let lengths = parts
        .filter_map(|part| part.written.unit)
        .map(LengthUnit::is_us);
    let weight = declared.and_then(|text| match mass(text, Decimal::Unclear) {
        MassText::Figure { unit, .. } => unit?.unit(None),
        _ => None,
    });
    let weight = weight.map(|unit| !matches!(unit, MassUnit::Kg | MassUnit::G | MassUnit::Tonne));
    let (mut us, mut metric) = (false, false);
    for is_us in lengths.chain(weight) {
        us |= is_us;
        metric |= !is_us;
    }
    (us != metric).then_some(us)
}

#[cfg(test)]
mod tests {
    use super::*;

    /// (typed, quantity, description): spellings of the trade, common practice.
    #[test]
    fn counts_at_either_end() {
        for (text, quantity, description) in [
            (
                "pipe OD 30 in ID 24 in L 8 ft reinforced concrete x 3",
                Some("3"),
                "pipe OD 30 in ID 24 in L 8 ft reinforced concrete",
            ),
            (
                "pipe OD 30 in ID 24 in L 8 ft x 3",
                Some("3"),
                "pipe OD 30 in ID 24 in L 8 ft",
            ),
            ("3 x pipe OD 30 in", Some("3"), "pipe OD 30 in"),
            ("3x W12x26 L 20 ft", Some("3"), "W12x26 L 20 ft"),
            ("W12x26 20 ft x3", Some("3"), "W12x26 20 ft"),
            ("W12x26 x 20 ft x 3", Some("3"), "W12x26 x 20 ft"),
            ("rebar #5 20 ft 100 x", Some("100"), "rebar #5 20 ft"),
            ("rebar #5 20 ft qty 100", Some("100"), "rebar #5 20 ft"),
            (
                "PL 1/2\" x 60\" x 120\" x 6",
                Some("6"),
                "PL 1/2\" x 60\" x 120\"",
            ),
            (
                "6 steel plates 1/2 x 60 x 120 in",
                Some("6"),
                "steel plates 1/2 x 60 x 120 in",
            ),
            ("3 pcs of pipe OD 30 in", Some("3"), "pipe OD 30 in"),
            (
                "6 plates 10x1000x2000 S235",
                Some("6"),
                "plates 10x1000x2000 S235",
            ),
            (
                "4 drums diesel 55 gal",
                Some("4 drums"),
                "drums diesel 55 gal",
            ),
            (
                "water, 4 drums, 55 gal",
                Some("4 drums"),
                "water, drums, 55 gal",
            ),
            ("40 x 25 kg bags cement", Some("40"), "25 kg bags cement"),
            ("4 x 55 gal drum diesel", Some("4"), "55 gal drum diesel"),
            (
                "1 pallet of 40 bags cement 25 kg",
                Some("1 pallet of 40"),
                "pallet bags cement 25 kg",
            ),
            ("cement 25 kg 40 bags", Some("40 bags"), "cement 25 kg bags"),
            // No counts: sizes, grades, names and what the list's own reader finds.
            (
                "steel plate 10 x 1000 x 2000",
                None,
                "steel plate 10 x 1000 x 2000",
            ),
            ("30 x 40 x 50 in box", None, "30 x 40 x 50 in box"),
            (
                "304 stainless plate 10 x 1000 x 2000",
                None,
                "304 stainless plate 10 x 1000 x 2000",
            ),
            (
                "4 inch steel pipe sch 40 20 ft",
                None,
                "4 inch steel pipe sch 40 20 ft",
            ),
            ("rebar No. 16 12 m", None, "rebar No. 16 12 m"),
            ("RHS 150x100x6.3 x 6000", None, "RHS 150x100x6.3 x 6000"),
            ("HSS 6 x 4 x 1/4 x 20", None, "HSS 6 x 4 x 1/4 x 20"),
            ("24 pcs 2x10x16' spruce", Some("24"), "2x10x16' spruce"),
        ] {
            let typed = parse(text).unwrap_or_else(|why| panic!("{text}: {why}"));
            assert_eq!(
                (typed.quantity.as_deref(), typed.description.as_str()),
                (quantity, description),
                "{text}"
            );
        }
    }

    #[test]
    fn what_may_be_a_size_or_a_count_is_asked() {
        for text in [
            "steel plate 10 mm x 3 m x 2",
            "concrete slab 4 ft x 8 ft x 6",
            "steel plate 0.5 x 48 x 96 x 3",
        ] {
            let why = parse(text).expect_err(text);
            assert!(why.contains("pcs\" for pieces"), "{text}: {why}");
        }
        let twice = parse("cement 25 kg, 2 pallets, 40 bags");
        assert!(twice.is_err_and(|why| why.contains("counts twice")));
    }

    #[test]
    fn a_small_figure_before_metres_or_feet_is_asked_about() {
        for text in [
            "concrete block 2 x 2 x 1 m",
            "box 3 x 4 x 5 ft",
            "steel plate 1.2 x 2 m",
        ] {
            let why = parse(text).expect_err(text);
            assert!(why.contains("is not clear"), "{text}: {why}");
        }
        for text in [
            "round bar 50 x 3 m",
            "2x10x16' spruce",
            "W12x26 x 20 ft",
            "concrete block 2 m x 2 m x 1 m",
            "plate 1/2 x 4 ft x 8 ft",
            "concrete block 24 x 24 x 4 ft",
        ] {
            assert!(parse(text).is_ok(), "{text}");
        }
    }

    #[test]
    fn a_declared_weight_has_its_unit() {
        for (text, declared, description) in [
            (
                "cast iron block declared 2,040 lb",
                Some("2,040 lb"),
                "cast iron block",
            ),
            (
                "pipe declared weight 925 kg each x 3",
                Some("925 kg each"),
                "pipe",
            ),
            (
                "pipe, declared: 2040 lb, OD 30 in",
                Some("2040 lb"),
                "pipe, OD 30 in",
            ),
            ("undeclared pump", None, "undeclared pump"),
        ] {
            let typed = parse(text).unwrap_or_else(|why| panic!("{text}: {why}"));
            assert_eq!(
                (typed.declared.as_deref(), typed.description.as_str()),
                (declared, description),
                "{text}"
            );
        }
        for text in ["pump declared 2040", "pump declared", "pump declared heavy"] {
            assert!(parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn nothing_is_no_load() {
        for text in ["", "  ", "-", "declared 20 kg"] {
            assert!(parse(text).is_err(), "{text}");
        }
    }

    #[test]
    fn the_units_typed_are_known() {
        for (text, us) in [
            ("pipe OD 30 in L 8 ft", Some(true)),
            ("plate 10 mm x 1 m x 2 m", Some(false)),
            ("plate 10 mm x 4 ft x 8 ft", None),
            ("W12x26", None),
            ("IPE 200 L=6000 declared 135 kg", Some(false)),
            ("plate 10 mm x 1 m x 2 m declared 300 lb", None),
        ] {
            assert_eq!(parse(text).map(|typed| typed.us), Ok(us), "{text}");
        }
    }
}
