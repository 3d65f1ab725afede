//! Words for packages and units of count, and what an empty package weighs.

use super::products;
use crate::units::{Mass, MassRange};
use serde::Deserialize;
use std::collections::HashMap;
use std::sync::LazyLock;

/// What a unit of quantity counts.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Counts {
    /// Packages that hold pieces.
    Package,
    /// Pieces (a drum, a bag and a reel are pieces).
    Piece,
    /// No pieces at all: metres, kilograms.
    Measure,
}

/// A word of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct PackageWord {
    /// Its plain name (`pallet`, `crate`, `piece`, `metre`).
    pub name: &'static str,
    /// What it counts.
    pub counts: Counts,
    /// Tare of one.
    pub tare: MassRange,
}

#[derive(Deserialize)]
struct RowOfTable {
    word: String,
    package: String,
    counts: Counts,
    tare_low_kg: Option<f64>,
    tare_likely_kg: Option<f64>,
    tare_high_kg: Option<f64>,
}

static WORDS: LazyLock<HashMap<String, PackageWord>> = LazyLock::new(|| {
    super::rows::<RowOfTable>(super::PACKAGES)
        .into_iter()
        .map(|row| {
            let kg = |value: Option<f64>| Mass::from_kg(value.unwrap_or(0.0));
            let tare = container(&row.package).unwrap_or(MassRange {
                low: kg(row.tare_low_kg),
                likely: kg(row.tare_likely_kg),
                high: kg(row.tare_high_kg),
            });
            // One small text a row for the whole run, so that items can name their package without owning it.
            (
                row.word,
                PackageWord {
                    name: String::leak(row.package),
                    counts: row.counts,
                    tare,
                },
            )
        })
        .collect()
});

/// Tare of a container whose size and stuff nothing says: from the lightest of its kind to the heaviest, most likely the
/// first one listed for any stuff. The table of containers is its one source.
fn container(package: &str) -> Option<MassRange> {
    let kind = match package {
        "drum" => "drum",
        "intermediate bulk container" => "tote",
        _ => return None,
    };
    let all = || products::containers().iter().filter(|row| row.kind == kind);
    let likely = all().find(|row| row.stuff == "any")?.tare_lb;
    Some(MassRange {
        low: Mass::from_lb(all().map(|row| row.tare_low_lb).fold(likely, f64::min)),
        likely: Mass::from_lb(likely),
        high: Mass::from_lb(all().map(|row| row.tare_high_lb).fold(likely, f64::max)),
    })
}

/// The word of a unit column or package column, compared without case; a trailing dot is allowed.
pub fn of_word(text: &str) -> Option<&'static PackageWord> {
    let lower = text.trim().to_lowercase();
    WORDS
        .get(lower.as_str())
        .or_else(|| WORDS.get(lower.trim_end_matches(['.', ':'])))
}

/// A word with its number before it ("2 crates", "1 pallet"), or the word alone.
pub fn of_text(text: &str) -> Option<(Option<u32>, &'static PackageWord)> {
    let text = text.trim();
    let word = text.trim_start_matches(|sign: char| sign.is_ascii_digit());
    let number = text
        .get(..text.len() - word.len())
        .and_then(|digits| digits.parse().ok());
    let found = of_word(word).or_else(|| of_word(word.split_whitespace().next()?))?;
    Some((number.filter(|number| *number > 0), found))
}

/// One word of each plain name; a test holds that all of a name say the same.
static NAMES: LazyLock<HashMap<&'static str, &'static PackageWord>> =
    LazyLock::new(|| WORDS.values().map(|word| (word.name, word)).collect());

/// A package by its plain name.
pub fn by_name(name: &str) -> Option<&'static PackageWord> {
    NAMES.get(name).copied()
}

/// Tare of a kind of package; none where the name is no package.
pub fn tare(name: &str) -> MassRange {
    by_name(name).map_or(
        MassRange {
            low: Mass::ZERO,
            likely: Mass::ZERO,
            high: Mass::ZERO,
        },
        |word| word.tare,
    )
}

/// Packages that lift as a whole however many pieces they hold.
pub fn lifts_whole(name: &str) -> bool {
    matches!(
        name,
        "pallet"
            | "crate"
            | "box"
            | "carton"
            | "bundle"
            | "pack"
            | "stack"
            | "stillage"
            | "rack"
            | "reel"
            | "coil"
    )
}

/// Packages that forks carry whatever stands in them.
pub fn on_forks(name: &str) -> bool {
    matches!(
        name,
        "pallet" | "crate" | "box" | "carton" | "stillage" | "rack"
    )
}

/// Packages and goods that are wound: their length is what is on the reel, no side of the load.
pub fn wound(name: &str) -> bool {
    matches!(name, "reel" | "coil" | "cable")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn words_of_unit_columns() {
        assert_eq!(of_word("PLT").map(|word| word.name), Some("pallet"));
        assert_eq!(of_word("Stk.").map(|word| word.counts), Some(Counts::Piece));
        assert_eq!(of_word("m").map(|word| word.counts), Some(Counts::Measure));
        assert!(of_word("banana").is_none());
        for name in [
            "pallet", "crate", "carton", "bundle", "pack", "stack", "stillage", "rack", "reel",
            "coil", "drum", "bag", "loose", "piece",
        ] {
            assert!(by_name(name).is_some(), "{name}");
        }
    }

    #[test]
    fn all_words_of_a_name_say_the_same() {
        for word in WORDS.values() {
            assert_eq!(by_name(word.name), Some(word));
        }
    }

    #[test]
    fn a_full_package_has_its_tare() {
        assert_eq!(of_word("Sack.").map(|word| word.name), Some("bag"));
        for name in ["stillage", "rack"] {
            let tare = tare(name);
            assert!(tare.likely >= Mass::from_kg(50.0), "{name}: {tare:?}");
            assert!(tare.low <= tare.likely && tare.likely <= tare.high);
            assert!(lifts_whole(name), "{name}");
        }
    }

    #[test]
    fn a_container_weighs_what_the_table_of_containers_says() {
        // Drums from 16 US gal plastic, 5 lb, to 55 US gal steel, 65 lb; totes to 330 US gal, 165 lb (their rows' sources).
        for (name, low, likely, high) in [
            ("drum", 5.0, 40.0, 65.0),
            ("intermediate bulk container", 120.0, 135.0, 165.0),
        ] {
            let [low, likely, high] = [low, likely, high].map(Mass::from_lb);
            assert_eq!(tare(name), MassRange { low, likely, high }, "{name}");
        }
    }
}
