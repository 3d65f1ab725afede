//! The materials: densities with the band a real shipment may show, and the words suppliers use for them.
//! Comes in: `materials.csv`, embedded. Goes out: one static list, sorted by name.

pub mod words;

use crate::units::Density;
use serde::Deserialize;
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
    /// `published`, `from memory`, `common practice` or `computed`.
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

static ALL: LazyLock<Vec<Material>> = LazyLock::new(|| {
    super::rows(super::MATERIALS)
        .into_iter()
        .map(|row: Row| Material {
            name: row.material.leak(),
            group: row.group.leak(),
            density: Density::from_kg_m3(row.density_kg_m3),
            low: Density::from_kg_m3(row.low_kg_m3),
            high: Density::from_kg_m3(row.high_kg_m3),
            source: row.source.leak(),
            basis: row.basis.leak(),
            synonyms: list(row.synonyms),
        })
        .collect()
});

static BY_NAME: LazyLock<HashMap<&'static str, &'static Material>> = LazyLock::new(|| {
    all()
        .iter()
        .map(|material| (material.name, material))
        .collect()
});

/// Every material, sorted by name without regard to case.
pub fn all() -> &'static [Material] {
    &ALL
}

/// The material of exactly that name.
pub fn by_name(name: &str) -> Option<&'static Material> {
    BY_NAME.get(name).copied()
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
