//! The materials: densities with the band a real shipment may show, and the words suppliers use for them.
//! Comes in: `materials.csv`, embedded, and a site's own rows. Goes out: a list sorted by name.

pub mod words;

use super::register_headings::fold;

use crate::units::Density;
use serde::{Deserialize, Serialize};
use std::collections::HashMap;
use std::sync::LazyLock;

/// One material of the table.
#[derive(Clone, Debug, PartialEq)]
pub struct Material {
    /// The name reports use; unique.
    pub name: &'static str,
    /// Group of materials (`metal`, `wood`, `liquid` ...), as the site's tolerances name it.
    pub group: &'static str,
    /// The density to use when nothing better is known.
    pub density: Density,
    /// Lowest density a real shipment may show.
    pub low: Density,
    /// Highest density a real shipment may show.
    pub high: Density,
    /// Standard, agency or publication with the figure as printed, or what it rests on instead.
    pub source: &'static str,
    /// `published`, `from memory`, `common practice`, `computed` or `the site's own`.
    pub basis: &'static str,
    /// Other words and grades for it, in several languages.
    pub synonyms: Vec<&'static str>,
}

/// A row as the file holds it.
#[derive(Deserialize)]
struct Row {
    material: String,
    group: String,
    density_kg_m3: f64,
    low_kg_m3: f64,
    high_kg_m3: f64,
    synonyms: String,
    source: String,
    basis: String,
}

/// A site's own row: a new material, or other figures for one that the table has.
#[derive(Clone, Debug, Default, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct OwnMaterial {
    /// Name of a new material, or of the row that is replaced.
    pub name: String,
    /// Group of a new material, as the table names groups.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub group: Option<String>,
    /// The density to use, kg/m3.
    pub density_kg_m3: f64,
    /// Lowest density a real shipment may show, kg/m3.
    pub low_kg_m3: f64,
    /// Highest density a real shipment may show, kg/m3.
    pub high_kg_m3: f64,
    /// Words that stand for it, besides its name.
    #[serde(default)]
    pub words: Vec<String>,
    /// Where the figures come from.
    pub source: String,
}

/// A table of materials: the built-in rows, or a site's rows beside and instead of them.
#[derive(Debug)]
pub struct Materials {
    rows: Vec<&'static Material>,
    by_name: HashMap<&'static str, &'static Material>,
}

static BUILT_IN: LazyLock<Materials> = LazyLock::new(|| {
    let rows = super::rows(super::MATERIALS).into_iter().map(|row: Row| {
        let material = Material {
            name: row.material.leak(),
            group: row.group.leak(),
            density: Density::from_kg_m3(row.density_kg_m3),
            low: Density::from_kg_m3(row.low_kg_m3),
            high: Density::from_kg_m3(row.high_kg_m3),
            source: row.source.leak(),
            basis: row.basis.leak(),
            synonyms: list(row.synonyms),
        };
        &*Box::leak(Box::new(material))
    });
    Materials::of(rows.collect())
});

impl Materials {
    fn of(rows: Vec<&'static Material>) -> Materials {
        let by_name = rows.iter().map(|row| (row.name, *row)).collect();
        Materials { rows, by_name }
    }

    /// The rows every site has.
    pub fn built_in() -> &'static Materials {
        &BUILT_IN
    }

    /// The built-in rows with a site's own, checked ones: a row of a known name is replaced and keeps its words.
    /// Own rows live as long as the program, like the built-in ones.
    pub fn with(own: &[OwnMaterial]) -> Materials {
        let mut rows = BUILT_IN.rows.clone();
        for row in own {
            let known = rows.iter().position(|known| known.name == row.name);
            let before = known.and_then(|at| rows.get(at));
            let words = row.words.iter().map(|word| &*word.clone().leak());
            let material = Material {
                name: row.name.clone().leak(),
                group: before.map_or_else(
                    || &*row.group.clone().unwrap_or_default().leak(),
                    |before| before.group,
                ),
                density: Density::from_kg_m3(row.density_kg_m3),
                low: Density::from_kg_m3(row.low_kg_m3),
                high: Density::from_kg_m3(row.high_kg_m3),
                source: row.source.clone().leak(),
                basis: OWN_BASIS,
                synonyms: words
                    .chain(
                        before
                            .into_iter()
                            .flat_map(|before| before.synonyms.clone()),
                    )
                    .collect(),
            };
            let material = &*Box::leak(Box::new(material));
            match known {
                Some(at) => rows[at] = material,
                None => rows.push(material),
            }
        }
        rows.sort_by_key(|row| row.name.to_lowercase());
        Materials::of(rows)
    }

    /// Every material, sorted by name without regard to case.
    pub fn all(&self) -> &[&'static Material] {
        &self.rows
    }

    /// The material of exactly that name.
    pub fn by_name(&self, name: &str) -> Option<&'static Material> {
        self.by_name.get(name).copied()
    }
}

/// Basis of a row that a site states itself.
pub const OWN_BASIS: &str = "the site's own";

/// Every built-in material.
pub fn all() -> &'static [&'static Material] {
    Materials::built_in().all()
}

/// The built-in material of exactly that name.
pub fn by_name(name: &str) -> Option<&'static Material> {
    Materials::built_in().by_name(name)
}

/// The groups that materials have, sorted.
pub fn groups() -> Vec<&'static str> {
    let mut groups: Vec<&str> = all().iter().map(|material| material.group).collect();
    groups.sort_unstable();
    groups.dedup();
    groups
}

/// The built-in material that exactly this word or name stands for, whatever its case, accents and signs.
pub fn of_word(word: &str) -> Option<&'static Material> {
    let word = fold(word);
    let mut all = all().iter().copied();
    all.find(|material| {
        let mut words = material.synonyms.iter().chain([&material.name]);
        words.any(|known| fold(known) == word)
    })
}

/// The parts of a cell that holds several values.
fn list(cell: String) -> Vec<&'static str> {
    cell.leak()
        .split(';')
        .map(str::trim)
        .filter(|part| !part.is_empty())
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn sorted_unique_and_complete() {
        // 362 rows came from the reference; nothing may be lost.
        assert!(all().len() >= 362, "{}", all().len());
        for pair in all().windows(2) {
            assert!(
                pair[0].name.to_lowercase() < pair[1].name.to_lowercase(),
                "{} before {}",
                pair[0].name,
                pair[1].name
            );
        }
    }

    #[test]
    fn figures_are_in_order_and_plausible() {
        for m in all() {
            assert!(m.low <= m.density && m.density <= m.high, "{}", m.name);
            // Lightest: loose glass wool, 8 kg/m3; heaviest: tungsten, 19,300 kg/m3 (its row's source).
            assert!(
                m.low.kg_m3() >= 5.0 && m.high.kg_m3() <= 20_000.0,
                "{}",
                m.name
            );
            assert!(m.high / m.low <= 10.0, "{}", m.name);
        }
    }

    #[test]
    fn sources_are_stated() {
        for m in all() {
            assert!(
                !m.source.trim().is_empty() && !m.group.is_empty(),
                "{}",
                m.name
            );
            assert!(
                ["published", "from memory", "common practice", "computed"].contains(&m.basis),
                "{}",
                m.name
            );
            assert_eq!(
                m.basis == "common practice",
                m.source.contains("common practice, no source"),
                "{}",
                m.name
            );
        }
    }

    #[test]
    fn figures_of_the_sources() {
        for (name, kg_m3, source) in [
            (
                "carbon steel",
                490.0 * 16.018_463_37,
                "Iowa DOT IM 569: 490 lb/ft3",
            ),
            (
                "reinforced concrete",
                150.0 * 16.018_463_37,
                "rigging figure: 150 lb/ft3",
            ),
            (
                "cast iron",
                450.0 * 16.018_463_37,
                "Iowa DOT IM 569: 450 lb/ft3",
            ),
            (
                "copper",
                556.0 * 16.018_463_37,
                "HUD Residential Structural Design Guide, Table 3.3: 556 lb/ft3",
            ),
            (
                "Douglas fir",
                1_000.0 * 0.48 * 1.12,
                "USDA Wood Handbook, Table 5-3a and Eq. 4-14",
            ),
            (
                "red oak",
                1_000.0 * 0.63 * 1.12,
                "USDA Wood Handbook, Table 5-3a and Eq. 4-14",
            ),
            (
                "water",
                62.316_4 * 16.018_463_37,
                "US Navy S0300-A8-HBK-010, App. E: 62.3164 lb/ft3 at 20 C",
            ),
        ] {
            let found = by_name(name).map(|m| m.density.kg_m3());
            assert!(
                found.is_some_and(|d| (d / kg_m3 - 1.0).abs() < 5e-4),
                "{name}: {found:?}, {source}"
            );
        }
    }
}
