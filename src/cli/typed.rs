//! One load as typed at the dock: the text of a description cell, perhaps with a number of pieces and a declared weight.
//! Comes in: text. Goes out: the cells it would be in a list. What may mean two things is asked about, never guessed.

mod counts;
#[cfg(test)]
mod tests;
mod units;

use crate::estimate::products::{self, Product};
use crate::units::written::{Decimal, MassText, mass, tidy};

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
    let (quantity, description) = match counts::taken(&goods)? {
        Some((quantity, rest)) => (Some(quantity), rest),
        None => (None, goods),
    };
    if !description.chars().any(char::is_alphanumeric) {
        return Err(
            "say what the load is: its shape or product, its sizes with their units, its material"
                .to_string(),
        );
    }
    if let Some(sizes) = units::unclear(&description) {
        return Err(format!(
            "the unit of \"{sizes}\" is not clear: type it behind each figure (\"2 m x 2 m x 1 m\", \"12 in x 12 in x 8 ft\")"
        ));
    }
    Ok(Typed {
        us: units::us(&description, declared.as_deref()),
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

/// The standard product that a text names.
fn product(text: &str) -> Option<Product> {
    products::named(text, None).product
}
