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
    /// What else to know; often empty.
    pub note: &'static str,
    /// Other words and grades for it, in several languages.
    pub synonyms: Vec<&'static str>,
}

/// A row as the file holds it.
#[derive(Deserialize)]
struct Row {
    material: &'static str,
    group: &'static str,
    density_kg_m3: f64,
    low_kg_m3: f64,
    high_kg_m3: f64,
    synonyms: &'static str,
    source: &'static str,
    basis: &'static str,
    note: &'static str,
}

static ALL: LazyLock<Vec<Material>> = LazyLock::new(|| {
    rows(super::MATERIALS)
        .map(|row: Row| Material {
            name: row.material,
            group: row.group,
            density: Density::from_kg_m3(row.density_kg_m3),
            low: Density::from_kg_m3(row.low_kg_m3),
            high: Density::from_kg_m3(row.high_kg_m3),
            source: row.source,
            basis: row.basis,
            note: row.note,
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

/// The rows of an embedded file. Its records live as long as the program, so that rows can borrow from them.
fn rows<T: Deserialize<'static>>(text: &'static str) -> impl Iterator<Item = T> {
    let mut reader = csv::Reader::from_reader(text.as_bytes());
    let headers: &'static csv::StringRecord = match reader.headers() {
        Ok(headers) => Box::leak(Box::new(headers.clone())),
        Err(error) => unreachable!("embedded table without headings: {error}"),
    };
    reader.into_records().map(move |record| {
        let parsed = record.and_then(|record| {
            let record: &'static csv::StringRecord = Box::leak(Box::new(record));
            record.deserialize(Some(headers))
        });
        match parsed {
            Ok(row) => row,
            // The tests read every row of the file that is compiled in.
            Err(error) => unreachable!("embedded table with a bad row: {error}"),
        }
    })
}

/// The parts of a cell that holds several values.
fn list(cell: &'static str) -> Vec<&'static str> {
    cell.split(';')
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

    #[test]
    fn no_brand_words_and_no_addresses() {
        // Names that only one maker may use; a standard's name for the same thing stands in the table instead.
        let forbidden = "lexan makrolon plexigl perspex lucite teflon delrin kynar visqueen bakelite tufnol formica pyrex \
            styrofoam kooltherm foamglas fesco kaowool sheetrock gyproc densglass marmoleum wolmanized tanalised zamak monel \
            inconel incoloy hastelloy corten cor-ten densalloy rockwool tarmac masonite homasote parallam microlam ytong hebel \
            poroton hardie silestone besser mylar plyform coolprop python http www. .com .org .gov scribd";
        let text = [
            include_str!("materials.csv"),
            include_str!("material_words.csv"),
        ]
        .concat()
        .to_lowercase();
        for word in forbidden.split_whitespace() {
            assert!(!text.contains(word), "{word}");
        }
    }
}
