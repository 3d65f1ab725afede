//! Finding and reading `site.toml`.

use super::{Site, supplier};
use crate::error::Error;
use std::path::{Path, PathBuf};

/// The settings of `named`, else of `site.toml` in this folder, else the defaults; and the file they came from.
///
/// # Errors
/// [`Error::Site`] when the file cannot be read, or says something that is not understood.
pub fn find(named: Option<&Path>) -> Result<(Site, Option<PathBuf>), Error> {
    let path = match named {
        Some(path) => path.to_path_buf(),
        None if Path::new("site.toml").is_file() => PathBuf::from("site.toml"),
        None => return Ok((Site::default(), None)),
    };
    let text = std::fs::read_to_string(&path).map_err(|error| Error::Site {
        file: path.clone(),
        found: format!("cannot be read ({error})"),
        remedy: "check the name, or leave out --site for the defaults".to_string(),
    })?;
    let site = parse(&text).map_err(|(found, remedy)| Error::Site {
        file: path.clone(),
        found,
        remedy,
    })?;
    Ok((site, Some(path)))
}

/// Settings from text; what was found and what to do when they are not understood.
pub(super) fn parse(text: &str) -> Result<Site, (String, String)> {
    let table: toml::Table = text.parse().map_err(|error: toml::de::Error| {
        (
            format!("is no valid TOML: {}", error.message()) + &line(text, error.span()),
            "mend that line".to_string(),
        )
    })?;
    let known = keys();
    for key in table.keys() {
        if !known.contains(key) {
            let known: Vec<&str> = known.iter().map(String::as_str).collect();
            let nearest = supplier::nearest(key, &known);
            return Err((
                format!("the key \"{key}\" is not known"),
                format!("the nearest known key is \"{nearest}\""),
            ));
        }
    }
    let site: Site = toml::from_str(text).map_err(|error: toml::de::Error| {
        (
            format!("{}{}", error.message(), line(text, error.span())),
            "see the table of keys in README.md".to_string(),
        )
    })?;
    check(&site)?;
    supplier::check(&site.supplier)?;
    Ok(site)
}

/// Every key that a site file may hold.
pub fn keys() -> Vec<String> {
    let whole = Site {
        fleet: Some(String::new()),
        place: Some(String::new()),
        dock_rating_kg: Some(crate::units::Mass::ZERO),
        ..Site::default()
    };
    toml::Table::try_from(&whole)
        .map(|table| table.keys().cloned().collect())
        .unwrap_or_default()
}

/// Settings that would make the judgement worthless are refused.
fn check(site: &Site) -> Result<(), (String, String)> {
    let bad = |key: &str, found: String, expected: &str| {
        Err((format!("{key} = {found}"), format!("it must be {expected}")))
    };
    let part = |value: f64| value.is_finite() && (0.0..=1.0).contains(&value);
    if !part(site.tolerance) {
        return bad(
            "tolerance",
            site.tolerance.to_string(),
            "a part from 0 to 1, such as 0.10",
        );
    }
    if let Some((group, value)) = site
        .tolerance_by_group
        .iter()
        .find(|(_, value)| !part(**value))
    {
        return bad(
            &format!("tolerance_by_group.{group}"),
            value.to_string(),
            "a part from 0 to 1, such as 0.15",
        );
    }
    if !part(site.margin) {
        return bad(
            "margin",
            site.margin.to_string(),
            "a part from 0 to 1, such as 0.10",
        );
    }
    if !(site.use_limit > 0.0 && site.use_limit <= 1.0) {
        return bad(
            "use_limit",
            site.use_limit.to_string(),
            "above 0 and at most 1: a truck is never used above its capacity",
        );
    }
    for (key, value) in [
        ("floor_kg", site.floor_kg.kg()),
        ("lift_height_m", site.lift_height_m.m()),
        ("default_depth_m", site.default_depth_m.m()),
        ("load_gap_m", site.load_gap_m.m()),
        ("operator_kg", site.operator_kg.kg()),
        ("hand_piece_kg", site.hand_piece_kg.kg()),
        (
            "dock_rating_kg",
            site.dock_rating_kg.map_or(0.0, |rating| rating.kg()),
        ),
    ] {
        if !value.is_finite() || value < 0.0 {
            return bad(key, value.to_string(), "a figure of 0 or more");
        }
    }
    if site.default_depth_m.m() <= 0.0 {
        return bad(
            "default_depth_m",
            site.default_depth_m.m().to_string(),
            "above 0",
        );
    }
    Ok(())
}

fn line(text: &str, span: Option<std::ops::Range<usize>>) -> String {
    span.and_then(|span| text.get(..span.start))
        .map_or(String::new(), |before| {
            format!(" (line {})", before.matches('\n').count() + 1)
        })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_unknown_key_names_the_nearest() {
        let (found, remedy) = parse("tolerence = 0.2").expect_err("refused");
        assert!(
            found.contains("tolerence") && remedy.contains("\"tolerance\""),
            "{found}; {remedy}"
        );
    }

    #[test]
    fn a_truck_is_never_used_above_its_capacity() {
        assert!(parse("use_limit = 1.2").is_err());
        assert!(parse("use_limit = 0.9").is_ok());
    }

    #[test]
    fn a_wrong_type_names_its_line() {
        let (found, _) = parse("name = \"yard\"\nmargin = \"ten\"").expect_err("refused");
        assert!(found.contains("line 2"), "{found}");
    }

    #[test]
    fn a_faulty_supplier_layout_is_refused() {
        for (text, expected) in [
            (
                "[supplier.\"Bramble\".columns]\n\"Wt\" = { unit = \"lbs\" }",
                "\"lb\" (line 2)",
            ),
            (
                "[supplier.\"Bramble\".columns]\n\"Wt\" = { feild = \"tare\" }",
                "\"field\" (line 2)",
            ),
            ("[supplier.\"Bramble\"]\nheading = [\"Wt\"]", "`headings`"),
            ("[supplier.\"Bramble\"]\nheadings = [\"Wt\"]", "single"),
            (
                "[supplier.\"Bramble\"]\n[supplier.\"BRAMBLE\"]",
                "there twice",
            ),
            (
                "[supplier.\"Bramble\".columns]\n\"Wt\" = { unit = \"kg\" }\n\"wt\" = { unit = \"lb\" }",
                "there twice",
            ),
        ] {
            let (found, _) = parse(text).expect_err(text);
            assert!(found.contains(expected), "{text}\n{found}");
        }
    }

    #[test]
    fn a_full_file_is_read() {
        let site = parse("name = \"yard\"\nunits = \"us\"\ntolerance = 0.08\n[tolerance_by_group]\nwood = 0.15\n").expect("read");
        assert_eq!(
            (site.tolerance, site.tolerance_by_group.get("wood")),
            (0.08, Some(&0.15))
        );
    }
}
