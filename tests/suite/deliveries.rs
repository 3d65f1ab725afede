//! Fourteen invented deliveries in tricky layouts, read row by row as a careful clerk reads them
//! (`fixtures/deliveries/expected.csv`). Invented data: they show that nothing is dropped or misread, not that the figures are true.

use crate::helper::audit_file;
use dockheft::audit::{Audit, Delivery, Package};
use dockheft::understand::{Item, Size1, Why};
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

fn folder() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("fixtures/deliveries")
}

/// A row of expected.csv by its headings.
pub type Expected = BTreeMap<String, String>;

pub fn expected() -> BTreeMap<String, Vec<Expected>> {
    let mut reader = csv::Reader::from_path(folder().join("expected.csv")).expect("the list");
    let headings = reader.headers().expect("headings").clone();
    let mut files: BTreeMap<String, Vec<Expected>> = BTreeMap::new();
    for record in reader.records() {
        let record = record.expect("a row");
        let row: Expected = headings
            .iter()
            .zip(&record)
            .map(|(heading, cell)| (heading.to_string(), cell.to_string()))
            .collect();
        files.entry(row["file"].clone()).or_default().push(row);
    }
    files
}

pub fn audited(file: &str) -> Audit {
    audit_file(&folder().join(file))
}

/// Every difference between what was read and what stands in the list, with file and row.
#[test]
fn fourteen_deliveries_read_as_listed() {
    let mut differences = Vec::new();
    let files = expected();
    assert_eq!(files.len(), 14);
    let mut rows = 0;
    for (file, list) in &files {
        let audit = audited(file);
        rows += list.len();
        for row in list {
            let delivery = audit
                .deliveries
                .iter()
                .find(|delivery| *delivery.reading.place.sheet == *row["sheet"]);
            let number: u32 = row["row"].parse().expect("a row number");
            let mut differ = |what: String| {
                differences.push(format!("{file} › {} row {number}: {what}", row["sheet"]))
            };
            let Some(delivery) = delivery else {
                differ("the sheet was not read".to_string());
                continue;
            };
            match row["kind"].as_str() {
                "item" => item(delivery, number, row, &mut differ),
                "group" => group(delivery, number, row, &mut differ),
                kind => skipped(delivery, number, kind, &mut differ),
            }
        }
        for delivery in &audit.deliveries {
            nothing_more(file, delivery, list, &mut differences);
        }
    }
    assert!(rows > 250, "{rows} rows compared");
    assert!(
        differences.is_empty(),
        "{} differences:\n{}",
        differences.len(),
        differences.join("\n")
    );
}

fn item(delivery: &Delivery, number: u32, row: &Expected, differ: &mut impl FnMut(String)) {
    let Some(line) = delivery
        .lines
        .iter()
        .find(|line| line.item.place.row == number)
    else {
        let skipped = delivery
            .reading
            .skipped
            .iter()
            .find(|skipped| skipped.row == number);
        differ(format!(
            "no line (skipped as {:?})",
            skipped.map(|skipped| skipped.why)
        ));
        return;
    };
    if line.item.description != row["description"] {
        differ(format!(
            "description {:?}, not {:?}",
            line.item.description, row["description"]
        ));
    }
    if row["quantity"].parse() != Ok(line.item.pieces) {
        differ(format!(
            "{} pieces, not {}",
            line.item.pieces, row["quantity"]
        ));
    }
    sizes(&line.item, row, differ);
    let declared = line.declared.as_ref().map(|declared| declared.mass.kg());
    match (declared, row["declared_total_kg"].parse::<f64>()) {
        (Some(kg), Ok(expected)) if (kg - expected).abs() <= 0.02 + expected * 1e-4 => {}
        (None, Err(_)) => {}
        (kg, expected) => differ(format!("declared {kg:?} kg, not {expected:?}")),
    }
    let shared = line.item.shared_with.is_some();
    if shared == row["weight_group"].is_empty() {
        differ(format!("shares a package: {shared}, not {}", !shared));
    }
}

/// Sizes as written; an inside diameter may be told by outside and wall. Where the list gives a carton's or crate's sizes,
/// they are the package's.
fn sizes(item: &Item, row: &Expected, differ: &mut impl FnMut(String)) {
    let of_package = row["note"].contains("dims are one carton")
        || row["note"].contains("dims are of one crate")
        || row["note"].contains("od/width are the reel");
    let (own, package) = (&item.sizes, &item.package_sizes);
    let inside = own.inside.or_else(|| {
        let (outside, wall) = (own.outside?, own.wall?);
        Some(Size1 {
            length: outside.length - wall.length * 2.0,
            ..outside
        })
    });
    for (heading, own, package) in [
        ("length_mm", own.length, package.length),
        ("width_mm", own.width, package.width),
        ("height_mm", own.height, package.height),
        ("od_mm", own.outside, package.outside),
        ("id_mm", inside, package.inside),
        ("wall_mm", own.wall, package.wall),
    ] {
        let near = |size: Option<Size1>, mm: f64| {
            size.is_some_and(|size| (size.length.mm() - mm).abs() <= 0.06 + mm * 1e-4)
        };
        let shown = |size: Option<Size1>| size.map(|size| size.length.mm());
        match row[heading].parse::<f64>() {
            Ok(mm) if near(own, mm) || ((of_package || own.is_none()) && near(package, mm)) => {}
            Ok(mm) => differ(format!(
                "{heading} {:?} (package {:?}), not {mm}",
                shown(own),
                shown(package)
            )),
            // Told by outside and wall, though the list leaves it out.
            Err(_)
                if own.is_none()
                    || of_package
                    || (heading == "id_mm" && item.sizes.inside.is_none()) => {}
            Err(_) => differ(format!("{heading} {:?}, not stated", shown(own))),
        }
    }
}

pub fn holds(package: &Package, number: u32) -> bool {
    package.shared.place.row == number || package.shared.rows.contains(&number)
}

fn group(delivery: &Delivery, number: u32, row: &Expected, differ: &mut impl FnMut(String)) {
    let Some(package) = delivery
        .packages
        .iter()
        .find(|package| holds(package, number))
    else {
        differ("no package".to_string());
        return;
    };
    let kg = package.declared.as_ref().map(|declared| declared.mass.kg());
    match (kg, row["declared_total_kg"].parse::<f64>()) {
        (Some(kg), Ok(expected)) if (kg - expected).abs() <= 0.02 + expected * 1e-4 => {}
        (None, Err(_)) => {}
        (kg, expected) => differ(format!("package declared {kg:?} kg, not {expected:?}")),
    }
    for (heading, size) in [
        ("length_mm", package.shared.sizes.length),
        ("width_mm", package.shared.sizes.width),
        ("height_mm", package.shared.sizes.height),
    ] {
        let mm = size.map(|size| size.length.mm());
        match (mm, row[heading].parse::<f64>()) {
            (Some(mm), Ok(expected)) if (mm - expected).abs() <= 0.06 => {}
            (_, Err(_)) => {}
            (mm, expected) => differ(format!("package {heading} {mm:?}, not {expected:?}")),
        }
    }
}

fn skipped(delivery: &Delivery, number: u32, kind: &str, differ: &mut impl FnMut(String)) {
    let why = match kind {
        "title" => Why::Title,
        "heading" => Why::Heading,
        "units" => Why::Units,
        "section" => Why::Section,
        "blank" => Why::Blank,
        "subtotal" => Why::Subtotal,
        "total" => Why::Total,
        "carried" => Why::Carried,
        "summary" => Why::Summary,
        "note" => Why::Note,
        "directive" => Why::Directive,
        "hidden" => Why::Hidden,
        "hidden_sheet" => Why::HiddenSheet,
        other => panic!("a kind of the list that no reason stands for: {other}"),
    };
    let found = delivery
        .reading
        .skipped
        .iter()
        .find(|skipped| skipped.row == number)
        .map(|skipped| skipped.why);
    if found != Some(why) {
        differ(format!("skipped as {found:?}, not {why:?}"));
    }
}

/// No line that the list does not have, and no package.
fn nothing_more(file: &str, delivery: &Delivery, list: &[Expected], differences: &mut Vec<String>) {
    let here = |row: &&Expected| row["sheet"] == *delivery.reading.place.sheet;
    let rows = |kind: &str| -> Vec<u32> {
        list.iter()
            .filter(here)
            .filter(|row| row["kind"] == kind)
            .filter_map(|row| row["row"].parse().ok())
            .collect()
    };
    let items = rows("item");
    for line in delivery
        .lines
        .iter()
        .filter(|line| !items.contains(&line.item.place.row))
    {
        differences.push(format!(
            "{file} row {}: read as goods: {}",
            line.item.place.row, line.item.description
        ));
    }
    let groups = rows("group");
    for package in delivery
        .packages
        .iter()
        .filter(|package| !groups.iter().any(|row| holds(package, *row)))
    {
        differences.push(format!(
            "{file} row {}: read as a package: {}",
            package.shared.place.row, package.shared.name
        ));
    }
}
