//! How many of it there are: the count that a typed text begins or ends with.

use super::product;
use crate::estimate::materials::{Found, Vocabulary};
use crate::estimate::products::Measure;
use crate::tables::goods;
use crate::tables::packages::{self, Counts};
use crate::understand::described::{self, Chain};
use crate::understand::sizes;
use crate::units::Length;
use crate::units::spelling;
use crate::units::written::Decimal;

/// The count of a text as a quantity cell, and the text without it; nothing where it counts nothing at either end.
///
/// # Errors
/// Where a figure may count or be a size, with what to type.
pub(super) fn taken(text: &str) -> Result<Option<(String, String)>, String> {
    match leading(text) {
        Some(counted) => Ok(Some(counted)),
        None => match elsewhere(text)? {
            None if let Some(number) = left_over(text) => Err(format!(
                "whether \"{number}\" counts the goods is not clear: type \"{number} pcs\" for pieces, or the unit of the size"
            )),
            counted => Ok(counted),
        },
    }
}

/// A whole number at the front that no size, name or grade claims: "90 hollow CMU 8x8x16", "4 bulk bags of sand".
fn left_over(text: &str) -> Option<String> {
    let (first, rest) = text.split_once(' ')?;
    let number = count(first)?;
    let second = rest.split(' ').next()?;
    let claimed = !second.chars().all(char::is_alphabetic)
        || is_joiner(second)
        || spelling::length(second).is_some()
        || spelling::mass(second).is_some()
        || described::names_a_size(second)
        || described::names_it(second)
        || is_material(&number);
    let name = |text: &str| product(text).map(|product| product.designation);
    let of_goods = |word: &str| {
        word.len() > 1
            && (word.ends_with('s') && !word.ends_with("ss")
                || goods::in_description(word).is_some()
                || packages::of_word(word).is_some())
    };
    let mut words = rest.split(' ').take(4);
    (!claimed && name(text) == name(rest) && words.any(of_goods)).then_some(number)
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
            let known = goods_word || is_material(second) || described::counts_goods(rest);
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
fn elsewhere(text: &str) -> Result<Option<(String, String)>, String> {
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
        (!is_joiner(previous)).then_some((number, before))
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
    let product = product(before);
    let by_length = product
        .as_ref()
        .is_some_and(|product| matches!(product.measure, Measure::PerLength { .. }));
    // "Rundstahl 50 mm x 3000": the one size is the section's own, so the length is still to come.
    let own = |length: Length| {
        let sides = product.as_ref().and_then(|product| product.outline);
        sides.is_some_and(|(high, wide)| length == high || length == wide)
    };
    let complete = match parts {
        [only]
            if by_length
                && sizes::size(only.written, None).is_some_and(|size| own(size.length)) =>
        {
            false
        }
        [only] => only.label.is_some() || product.is_some(),
        _ => parts.len() >= 3,
    };
    match (united, complete) {
        (true, true) => Ok(true),
        // "48 x 96 x 0.5 x 3": no fourth size is possible, yet nothing says that it counts.
        (false, true) if parts.len() >= 3 && !by_length => Err(asked(number)),
        (true, false) if by_length && number.len() > 3 => Ok(false),
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
    matches!(Vocabulary::built_in().in_column(word), Found::Known { .. })
}
