//! A site's own materials: what a row must say before anything is weighed by it.

use super::file::Refused;
use super::supplier;
use crate::tables::materials::{self, OwnMaterial};

/// Lightest and heaviest density that is believed, kg/m3: loose glass wool and tungsten (materials table).
const BELIEVED: (f64, f64) = (5.0, 20_000.0);
/// Widest band of a row, highest over lowest: that of the widest built-in rows (materials table).
const WIDEST: f64 = 10.0;

/// Refuses rows that are incomplete, contradict themselves or take a word that stands for something else.
pub(super) fn check(own: &[OwnMaterial]) -> Result<(), Refused> {
    for (at, row) in own.iter().enumerate() {
        let refuse = |found: &str, remedy: String| {
            Err((format!("material \"{}\": {found}", row.name), remedy))
        };
        let blank = |text: &str| text.trim().is_empty();
        if blank(&row.name) {
            return refuse("it has no name", "give it one".to_string());
        }
        if own.iter().skip(at + 1).any(|other| other.name == row.name) {
            return refuse(
                "it stands there twice",
                "take one of the rows out".to_string(),
            );
        }
        if blank(&row.source) {
            return refuse(
                "source is empty",
                "write where the figures come from, so that an auditor can follow them".to_string(),
            );
        }
        let (low, likely, high) = (row.low_kg_m3, row.density_kg_m3, row.high_kg_m3);
        let ordered = BELIEVED.0 <= low && low <= likely && likely <= high && high <= BELIEVED.1;
        if !ordered || high > low * WIDEST {
            return refuse(
                &format!("low_kg_m3 = {low}, density_kg_m3 = {likely}, high_kg_m3 = {high}"),
                format!(
                    "write them in kg/m3 from low to high, between {} and {}, the highest at most {WIDEST} times the lowest",
                    BELIEVED.0, BELIEVED.1
                ),
            );
        }
        group(row)?;
        for word in row.words.iter().chain([&row.name]) {
            let taken = materials::of_word(word).filter(|known| known.name != row.name);
            if let Some(known) = taken {
                return refuse(
                    &format!("the word \"{word}\" already stands for {}", known.name),
                    format!(
                        "choose another word, or write a row with name = \"{}\" to give it other figures",
                        known.name
                    ),
                );
            }
            let other = own.iter().find(|other| {
                other.name != row.name && other.words.iter().any(|said| same(said, word))
            });
            if blank(word) || other.is_some() {
                return refuse(
                    &format!("the word \"{word}\" is empty or stands for another material too"),
                    "each word stands for one material".to_string(),
                );
            }
        }
    }
    Ok(())
}

/// A new material names its group; a known one has its own.
fn group(row: &OwnMaterial) -> Result<(), Refused> {
    let groups = materials::groups();
    let known = materials::by_name(&row.name).map(|known| known.group);
    match (&row.group, known) {
        (None, Some(_)) => Ok(()),
        (Some(group), Some(known)) if group == known => Ok(()),
        (Some(_), Some(known)) => Err((
            format!("material \"{}\": it is of the group \"{known}\"", row.name),
            "take the line with the group out".to_string(),
        )),
        (Some(group), None) if groups.contains(&group.as_str()) => Ok(()),
        (group, None) => {
            let said = group.as_deref().unwrap_or("");
            let names: Vec<&str> = materials::all().iter().map(|known| known.name).collect();
            Err((
                format!(
                    "material \"{}\" is new and its group \"{said}\" is not known",
                    row.name
                ),
                format!(
                    "the nearest group is \"{}\"; the groups are {}; the nearest name of the table is \"{}\"",
                    supplier::nearest(said, &groups),
                    groups.join(", "),
                    supplier::nearest(&row.name, &names)
                ),
            ))
        }
    }
}

fn same(one: &str, other: &str) -> bool {
    one.trim().to_lowercase() == other.trim().to_lowercase()
}

#[cfg(test)]
mod tests {
    use super::super::file::parse;
    use crate::estimate::materials::{Found, Vocabulary};
    use crate::site::Site;

    const MIX: &str = "name = 'yard mix'\ngroup = 'concrete and masonry'\ndensity_kg_m3 = 2300\nlow_kg_m3 = 2250\n\
        high_kg_m3 = 2350\nwords = ['ballast mix']\nsource = 'twelve blocks weighed at Kestrel Junction'\n";

    fn site(rows: &[&str]) -> Result<Site, (String, String)> {
        parse(
            &rows
                .iter()
                .map(|row| format!("[[material]]\n{row}"))
                .collect::<String>(),
        )
    }

    /// Name, density and basis of what a text is of, by the site's materials.
    fn of(site: &Site, text: &str) -> Option<(&'static str, f64, &'static str)> {
        match Vocabulary::with(&site.material).in_description(text, false) {
            Found::Known { material, .. } => {
                Some((material.name, material.density.kg_m3(), material.basis))
            }
            _ => None,
        }
    }

    #[test]
    fn a_new_material_is_known_by_its_words() {
        let site = site(&[MIX]).expect("a site");
        for text in ["Yard mix block", "BALLAST MIX 600x600x1200"] {
            assert_eq!(
                of(&site, text),
                Some(("yard mix", 2300.0, "the site's own"))
            );
        }
        assert_eq!(of(&Site::default(), "Yard mix block"), None);
    }

    #[test]
    fn a_row_of_a_known_name_replaces_its_figures_and_keeps_its_words() {
        let row = "name = 'oak'\ndensity_kg_m3 = 800\nlow_kg_m3 = 700\nhigh_kg_m3 = 1000\nsource = 'weighed here'\n";
        let site = site(&[row]).expect("a site");
        assert_eq!(
            of(&site, "Traverse chêne"),
            Some(("oak", 800.0, "the site's own"))
        );
        // Another row is as it was: Wood Handbook, Table 5-3a, 0.63 x 1.12.
        let (name, density, _) = of(&site, "red oak board").expect("red oak");
        assert!(name == "red oak" && (density - 705.6).abs() < 0.1);
    }

    /// "whitewood" is left open by the table; a yard that only ever gets one may say which.
    #[test]
    fn a_site_may_say_what_an_ambiguous_word_means() {
        let row = "name = 'European spruce'\ndensity_kg_m3 = 460\nlow_kg_m3 = 370\nhigh_kg_m3 = 670\nwords = ['whitewood']\nsource = 'the yard'\n";
        let site = site(&[row]).expect("a site");
        assert_eq!(
            of(&site, "whitewood post 100x100").map(|found| found.0),
            Some("European spruce")
        );
        assert_eq!(of(&Site::default(), "whitewood post 100x100"), None);
    }

    #[test]
    fn what_cannot_be_is_refused_with_what_to_do() {
        let changed = |from: &str, to: &str| MIX.replace(from, to);
        for (rows, found, remedy) in [
            (
                vec![changed("2350", "2200")],
                "high_kg_m3 = 2200",
                "from low to high",
            ),
            (
                vec![changed("2350", "23500")],
                "high_kg_m3 = 23500",
                "between 5 and 20000",
            ),
            (
                vec![changed("2250", "nan")],
                "low_kg_m3 = NaN",
                "from low to high",
            ),
            (
                vec![changed("concrete and masonry", "concrete")],
                "group \"concrete\"",
                "the groups are",
            ),
            (
                vec![changed("ballast mix", "béton")],
                "already stands for concrete",
                "name = \"concrete\"",
            ),
            (vec![changed("ballast mix", " ")], "is empty", "each word"),
            (
                vec![changed("twelve blocks weighed at Kestrel Junction", "")],
                "source is empty",
                "auditor",
            ),
            (vec![MIX.into(), MIX.into()], "twice", "take one"),
            (
                vec![MIX.into(), changed("yard mix", "other mix")],
                "another material too",
                "each word",
            ),
            (
                vec![changed("group = 'concrete and masonry'\n", "")],
                "is not known",
                "the groups are",
            ),
            (
                vec![changed("'yard mix'", "'oak'")],
                "of the group \"wood\"",
                "take the line",
            ),
        ] {
            let rows: Vec<&str> = rows.iter().map(String::as_str).collect();
            let (said, to_do) = site(&rows).expect_err(found);
            assert!(said.contains(found), "{said}");
            assert!(to_do.contains(remedy), "{to_do}");
        }
    }
}
