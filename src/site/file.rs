//! Finding and reading `site.toml`.

use super::{Site, named, supplier};
use crate::error::Error;
use crate::tables::materials;
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
    super::materials::check(&site.material)?;
    supplier::check(&site.supplier)?;
    Ok(site)
}

/// Every key that a site file may hold.
pub fn keys() -> Vec<String> {
    let whole = Site {
        fleet: Some(String::new()),
        ledger: Some(String::new()),
        place: Some(String::new()),
        country: Some(String::new()),
        dock_rating_kg: Some(crate::units::Mass::ZERO),
        material: vec![materials::OwnMaterial::default()],
        vehicle_floor_kg: Some(crate::units::Mass::ZERO),
        ..Site::default()
    };
    toml::Table::try_from(&whole)
        .map(|table| table.keys().cloned().collect())
        .unwrap_or_default()
}

/// What was found, and what to do about it.
pub(super) type Refused = (String, String);

/// Settings that would make the judgement worthless are refused. The bounds are common practice, no source.
fn check(site: &Site) -> Result<(), Refused> {
    let part = "of the weight, such as 0.10 for 10 %";
    within("tolerance", site.tolerance, 0.0, 0.5, part)?;
    within("margin", site.margin, 0.0, 1.0, part)?;
    let scale = "of the weight, such as 0.02 for 2 %";
    within("scale_error", site.scale_error, 0.0, 0.1, scale)?;
    let months = "months; 0 leaves earlier weighings out";
    let count = f64::from(site.weighings_months);
    within("weighings_months", count, 0.0, 120.0, months)?;
    let capacity = "of a truck's capacity: it is never used above it";
    within("use_limit", site.use_limit, 0.1, 1.0, capacity)?;
    let light = "kg; a weight this near to the expected range is not asked about";
    within("floor_kg", site.floor_kg.kg(), 0.0, 50.0, light)?;
    // A load on the ground is lifted too, and a load centre of a few millimetres would make every truck strong enough.
    within("lift_height_m", site.lift_height_m.m(), 0.1, 20.0, "m")?;
    let half = "m; half of it is the load centre of a load of unknown size";
    within("default_depth_m", site.default_depth_m.m(), 0.5, 15.0, half)?;
    within("load_gap_m", site.load_gap_m.m(), 0.0, 2.0, "m")?;
    within("operator_kg", site.operator_kg.kg(), 0.0, 500.0, "kg")?;
    let alone = "kg; lighter pieces are lifted together";
    within("hand_piece_kg", site.hand_piece_kg.kg(), 0.0, 100.0, alone)?;
    for (key, rating) in [
        ("dock_rating_kg", site.dock_rating_kg),
        ("vehicle_floor_kg", site.vehicle_floor_kg),
    ] {
        if let Some(rating) = rating {
            within(key, rating.kg(), 100.0, 200_000.0, "kg")?;
        }
    }
    named::check(site)
}

/// A figure between bounds, both of them allowed.
pub(super) fn within(
    key: &str,
    value: f64,
    least: f64,
    most: f64,
    of: &str,
) -> Result<(), Refused> {
    if (least..=most).contains(&value) {
        return Ok(());
    }
    Err((
        format!("{key} = {value}"),
        format!(
            "it must be from {least} to {most} {of}; write another figure, or take the key out for the default"
        ),
    ))
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

    #[test]
    fn a_setting_out_of_bounds_says_what_is_expected() {
        for (text, found, remedy) in [
            ("floor_kg = 1e6", "floor_kg = 1000000", "0 to 50 kg"),
            ("floor_kg = -1.0", "floor_kg = -1", "0 to 50 kg"),
            ("floor_kg = nan", "floor_kg = NaN", "0 to 50 kg"),
            ("tolerance = 1.0", "tolerance = 1", "0 to 0.5 "),
            ("margin = 1.5", "margin = 1.5", "0 to 1 "),
            ("scale_error = 0.2", "scale_error = 0.2", "0 to 0.1 "),
            (
                "weighings_months = 600",
                "weighings_months = 600",
                "0 to 120 months",
            ),
            (
                "default_depth_m = 0.001",
                "default_depth_m = 0.001",
                "0.5 to 15 m",
            ),
            ("lift_height_m = 0.0", "lift_height_m = 0", "0.1 to 20 m"),
            ("lift_height_m = inf", "lift_height_m = inf", "0.1 to 20 m"),
            ("load_gap_m = 3.0", "load_gap_m = 3", "0 to 2 m"),
            (
                "hand_piece_kg = 500.0",
                "hand_piece_kg = 500",
                "0 to 100 kg",
            ),
            ("operator_kg = 1e9", "operator_kg", "0 to 500 kg"),
            (
                "dock_rating_kg = 0.0",
                "dock_rating_kg = 0",
                "100 to 200000 kg",
            ),
            ("use_limit = 0.0", "use_limit = 0", "0.1 to 1 "),
            (
                "[tolerance_by_group]\nwood = 0.9",
                "\"wood\" = 0.9",
                "0 to 0.5 ",
            ),
            (
                "[tolerance_by_group]\nwod = 0.1",
                "\"wod\": no material",
                "\"wood\"",
            ),
            (
                "vehicle_floor_kg = 0.0",
                "vehicle_floor_kg = 0",
                "100 to 200000 kg",
            ),
            (
                "[attachment_by_goods]\ndrums = \"drum clamp\"",
                "\"drums\": no kind",
                "\"drum\"",
            ),
            (
                "[attachment_by_goods]\ncoil = \" \"",
                "\"coil\" is empty",
                "as the register does",
            ),
            (
                "place = \"outdor\"",
                "\"outdor\" is no place",
                "\"outdoor\"",
            ),
            (
                "place = \"indoor, moon\"",
                "\"moon\" is no place",
                "\"both\"",
            ),
            ("place = \"\"", "\"\" is no place", "\"both\""),
        ] {
            let (said, to_do) = parse(text).expect_err(text);
            assert!(
                said.contains(found) && to_do.contains(remedy),
                "{text}: {said}; {to_do}"
            );
        }
        for (text, found, remedy) in [
            ("country = \"Atlantis\"", "\"Atlantis\"", "GB"),
            ("[priors]\nkg-lbs = 0.2", "\"kg-lbs\"", "\"kg-lb\""),
            ("[priors]\nkg-lb = 0.0", "kg-lb", "0.001 to 1 "),
        ] {
            let (said, to_do) = parse(text).expect_err(text);
            assert!(
                said.contains(found) && to_do.contains(remedy),
                "{text}: {said}; {to_do}"
            );
        }
        for text in [
            "country = \"gb\"",
            "[priors]\nkg-lb = 0.3\n\"no single slip\" = 0.2",
            "tolerance = 0.5",
            "floor_kg = 50.0",
            "default_depth_m = 0.5",
            "lift_height_m = 0.1",
            "dock_rating_kg = 100.0",
            "[attachment_by_goods]\ndrum = \"drum clamp\"\ncoil = \"ram\"",
            "[tolerance_by_group]\n\"bulk solid\" = 0.2",
            "place = \"Indoor and outdoor\"",
            "place = \"innen / aussen\"",
        ] {
            assert_eq!(parse(text).err(), None, "{text}");
        }
    }
}
