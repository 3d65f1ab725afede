//! The first goods lines as they were understood, to be compared with the list.

use super::WIDTH;
use crate::audit::{Delivery, Line, Package};
use crate::report::plain_table::{labelled, table};
use crate::report::words;
use crate::settle::Declared;
use crate::site::Units;
use crate::understand::{Basis, How, Item, Size1, Sizes, WeightKind};
use crate::units::{Length, show};

/// Lines that are shown.
const FIRST: usize = 3;

/// Writes the first lines.
pub(super) fn write(text: &mut String, delivery: &Delivery, units: Units) {
    if delivery.lines.is_empty() {
        return;
    }
    text.push('\n');
    text.push_str(&labelled(
        "",
        2,
        "First goods lines as read; compare them with the list",
        WIDTH,
    ));
    let rows: Vec<Vec<String>> = delivery
        .lines
        .iter()
        .take(FIRST)
        .map(|line| cells(line, delivery, units))
        .collect();
    text.push_str(&table(
        &["row", "pieces", "description", "sizes", "declared weight"],
        &[5, 7, 28, 24, 26],
        &rows,
    ));
}

fn cells(line: &Line, delivery: &Delivery, units: Units) -> Vec<String> {
    let item = &line.item;
    let number = match item.item.as_deref() {
        Some(number) if number != item.description => format!("{number}: "),
        _ => String::new(),
    };
    let material = item
        .material
        .as_deref()
        .map_or(String::new(), |material| format!(" ({material})"));
    vec![
        item.place.row.to_string(),
        pieces(item),
        format!("{number}{}{material}", item.description),
        all_sizes(item, delivery, units),
        weight(line, delivery, units),
    ]
}

fn pieces(item: &Item) -> String {
    let counted = show::figure(f64::from(item.pieces));
    if item.pieces_how == How::Assumed {
        format!("{counted} ASSUMED")
    } else {
        counted
    }
}

fn all_sizes(item: &Item, delivery: &Delivery, units: Units) -> String {
    // In the list's own kind of units, so that they can be compared.
    let units = match delivery.reading.us {
        Some(true) => Units::Us,
        Some(false) => Units::Si,
        None => units,
    };
    // Height and thickness are one size; it is called as the list calls it.
    let thick = delivery
        .reading
        .columns
        .iter()
        .any(|column| column.layout.field == Some("thickness"));
    let piece = sizes(
        &item.sizes,
        if thick { "thickness" } else { "height" },
        units,
    );
    let package = sizes(&item.package_sizes, "height", units);
    match (piece.is_empty(), package.is_empty()) {
        (true, true) => "none".to_string(),
        (false, true) => piece,
        (true, false) => format!("package: {package}"),
        (false, false) => format!("{piece}; package: {package}"),
    }
}

fn sizes(sizes: &Sizes, height: &str, units: Units) -> String {
    let named: [(&str, Option<Size1>); 6] = [
        ("length", sizes.length),
        ("width", sizes.width),
        (height, sizes.height),
        ("outside", sizes.outside),
        ("inside", sizes.inside),
        ("wall", sizes.wall),
    ];
    let told: Vec<String> = named
        .into_iter()
        .filter_map(|(name, size)| Some(format!("{name} {}", fine(size?.length, units))))
        .collect();
    told.join(", ")
}

/// A length as fine as lists state it: to 0.1 mm or 0.001 in.
fn fine(length: Length, units: Units) -> String {
    let (value, decimals) = match units {
        Units::Us => (length.inches(), 3),
        Units::Si => (length.mm(), 1),
    };
    let rounded = format!("{value:.decimals$}");
    let (whole, after) = rounded.split_once('.').unwrap_or((&rounded, ""));
    let whole = whole.parse().map_or(whole.to_string(), show::figure);
    let after = after.trim_end_matches('0');
    let point = if after.is_empty() { "" } else { "." };
    format!("{whole}{point}{after} {}", show::length_unit(units))
}

/// The declared weight of a line, of its package, or why there is none.
fn weight(line: &Line, delivery: &Delivery, units: Units) -> String {
    if let Some(package) = line
        .item
        .shared_with
        .and_then(|index| delivery.packages.get(index))
    {
        return of_package(package, units);
    }
    if let Some(declared) = &line.declared {
        return told(declared, "the line", units);
    }
    match line.item.unusable.first() {
        Some(cell) => format!(
            "none: \"{}\" in {} {}",
            cell.text,
            cell.place.cell(),
            cell.why
        ),
        None => "none stated".to_string(),
    }
}

fn of_package(package: &Package, units: Units) -> String {
    let rows = &package.shared.rows;
    let together = if rows.len() > 1 { " together" } else { "" };
    let lines = format!("{}{together} ({})", words::rows(rows), package.shared.name);
    match &package.declared {
        Some(declared) => told(declared, &lines, units),
        None => format!("none for {lines}"),
    }
}

/// `1,364 kg gross for the line, from J9: "113.7 kg" of one piece`.
fn told(declared: &Declared, what: &str, units: Units) -> String {
    let of = match declared.of {
        Basis::Line => "",
        Basis::Piece => " of one piece",
        Basis::Package => " of one package",
        Basis::PerMetre => " of one metre",
        Basis::PerFoot => " of one foot",
    };
    let kind = match declared.kind {
        WeightKind::Net => " net",
        WeightKind::Gross => " gross",
        WeightKind::Unstated => "",
    };
    let doubt = match declared.how {
        How::Assumed => "ASSUMED ",
        How::Contradicted => "CONTRADICTED ",
        How::Stated | How::Inferred | How::Site => "",
    };
    let mass = show::weight(declared.mass, units);
    format!(
        "{doubt}{mass}{kind} for {what}, from {}: \"{}\"{of}",
        declared.place.cell(),
        declared.text
    )
}
