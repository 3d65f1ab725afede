//! The tables people maintain: CSV with a source column, embedded in the binary.

pub mod goods;
pub mod headings;
pub mod materials;
pub mod packages;
pub mod phrases;
pub mod priors;
pub mod products;
pub mod register_headings;
pub mod road_limits;
pub mod row_words;
pub mod title_words;

use serde::de::DeserializeOwned;

/// Spellings of units.
pub const UNITS: &str = include_str!("tables/units.csv");

/// Kinds of goods.
pub const GOODS: &str = include_str!("tables/goods.csv");
/// Words that name goods.
pub const GOODS_WORDS: &str = include_str!("tables/goods_words.csv");
/// Words of column headings.
pub const HEADINGS: &str = include_str!("tables/headings.csv");
/// Densities of materials.
pub const MATERIALS: &str = include_str!("tables/materials.csv");
/// Words that name or do not name materials.
pub const MATERIAL_WORDS: &str = include_str!("tables/material_words.csv");
/// Words of a fleet register's headings.
pub const REGISTER_HEADINGS: &str = include_str!("tables/register_headings.csv");
/// Words for packages and units of count.
pub const PACKAGES: &str = include_str!("tables/packages.csv");
/// How often each kind of slip is the cause of a mismatch.
pub const PRIORS: &str = include_str!("tables/priors.csv");
/// How heavy a road vehicle with its load may be, by country.
pub const ROAD_LIMITS: &str = include_str!("tables/road_limits.csv");
/// Labels of title rows.
pub const TITLE_WORDS: &str = include_str!("tables/title_words.csv");
/// Words of rows and cells that are not goods.
pub const ROW_WORDS: &str = include_str!("tables/row_words.csv");

/// All rows of an embedded table.
///
/// # Panics
/// When an embedded table is malformed: a fault of the build, caught by the tests of each table, never of the input.
pub fn rows<T: DeserializeOwned>(table: &str) -> Vec<T> {
    csv::Reader::from_reader(table.as_bytes())
        .deserialize()
        .map(|row| row.expect("an embedded table is well formed"))
        .collect()
}

/// What the rows of a table rest on, the surest first, each with the words that its basis or source then holds. A row
/// rests on the least sure of what it names; one that names none of these has a published source.
const KINDS: [(&str, &[&str]); 5] = [
    ("published source", &["published"]),
    ("worked out from published rules", &["computed", "rule"]),
    ("from memory", &["from memory"]),
    ("common practice, no source", &["common practice"]),
    ("invented, no source", &["invented"]),
];

/// How many rows of a table rest on what: "257 published source, 88 from memory".
fn rest_on(table: &str) -> String {
    #[derive(serde::Deserialize)]
    struct Sourced {
        source: String,
        basis: Option<String>,
    }
    let mut counts = [0usize; KINDS.len()];
    for row in rows::<Sourced>(table) {
        let text = row.basis.unwrap_or(row.source);
        let holds = |words: &[&str]| words.iter().any(|word| text.contains(word));
        let kind = KINDS.iter().rposition(|(_, words)| holds(words));
        counts[kind.unwrap_or(0)] += 1;
    }
    let said: Vec<String> = KINDS
        .iter()
        .zip(counts)
        .filter(|(_, count)| *count > 0)
        .map(|((kind, _), count)| format!("{count} {kind}"))
        .collect();
    said.join(", ")
}

/// Name and text of every embedded table.
pub fn all() -> impl Iterator<Item = (String, &'static str)> {
    let named = [
        ("units", UNITS),
        ("goods", GOODS),
        ("goods words", GOODS_WORDS),
        ("headings", HEADINGS),
        ("packages", PACKAGES),
        ("priors of causes", PRIORS),
        ("road limits", ROAD_LIMITS),
        ("title words", TITLE_WORDS),
        ("row words", ROW_WORDS),
        ("materials", MATERIALS),
        ("material words", MATERIAL_WORDS),
        ("register headings", REGISTER_HEADINGS),
    ];
    named
        .into_iter()
        .map(|(name, table)| (name.to_string(), table))
        .chain(
            products::ALL
                .iter()
                .map(|(name, table)| (format!("products: {name}"), *table)),
        )
}

/// Name, size with hash, and what the rows rest on, of every embedded table, for the Basis sheet.
pub fn sources() -> Vec<(String, String, String)> {
    all()
        .map(|(name, table)| {
            let hash = crate::hash::short(table.as_bytes());
            (
                name,
                format!(
                    "{} rows, SHA-256 begins {hash}",
                    table.lines().count().saturating_sub(1)
                ),
                rest_on(table),
            )
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_table_says_what_its_rows_rest_on() {
        let of = |name: &str| {
            let found = sources().into_iter().find(|(table, ..)| table == name);
            found.map(|(_, _, said)| said).unwrap_or_default()
        };
        assert!(of("headings").ends_with(" common practice, no source"));
        assert!(!of("headings").contains("published"), "{}", of("headings"));
        assert!(of("priors of causes").ends_with(" invented, no source"));
        let materials = of("materials");
        for kind in [
            "published source",
            "worked out",
            "from memory",
            "common practice",
        ] {
            assert!(materials.contains(kind), "{materials}");
        }
        assert_eq!(
            rest_on("source,basis\nmill rule,rule\nA,published\nB,published\n"),
            "2 published source, 1 worked out from published rules"
        );
        // The least sure of what a row names.
        assert_eq!(
            rest_on("source\n29 CFR 1910.178; the rest common practice\n"),
            "1 common practice, no source"
        );
        for (name, size, said) in sources() {
            let counted: usize = said
                .split(|sign: char| !sign.is_ascii_digit())
                .filter_map(|figure| figure.parse::<usize>().ok())
                .sum();
            assert!(
                size.starts_with(&format!("{counted} rows,")),
                "{name}: {said}"
            );
        }
    }
}
