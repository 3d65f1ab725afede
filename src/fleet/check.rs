//! Whether the plate rows of one truck can stand together.

use super::PlatePoint;
use super::cells::{Words, words};
use super::show;
use super::words::attachment_key;
use crate::place::Place;
use crate::site::Units;
use crate::units::{Length, Mass};

/// Faults among the plate rows: one point given twice; a capacity that rises with load centre or height.
pub(super) fn plate(points: &[PlatePoint], units: Units) -> Vec<(Place, Words)> {
    let mut faults = Vec::new();
    for (at, point) in points.iter().enumerate() {
        let earlier = points.iter().take(at);
        if let Some(first) = earlier.clone().find(|first| same_point(first, point)) {
            faults.push((
                point.place.clone(),
                words(
                    format!(
                        "this load centre, lift height and attachment are already given in {}",
                        first.place.cell()
                    ),
                    "keep the row that the plate shows",
                ),
            ));
        } else if let Some(easier) = points.iter().find(|easier| rises(easier, point)) {
            faults.push((
                point.place.clone(),
                words(
                    format!(
                        "capacity rises to {} at {} from {} at {} in {}",
                        show::down(point.capacity, units),
                        at_point(point, units),
                        show::down(easier.capacity, units),
                        at_point(easier, units),
                        easier.place.cell()
                    ),
                    "a plate never gives more further out or higher up: compare both rows with it",
                ),
            ));
        }
    }
    faults
}

/// The load centre that trucks of a capacity are usually rated at, in words: a hint for the person with the plate in
/// front of them, never taken.
///
/// Source: US text 24 in up to 20,000 lb, larger ones from memory (ANSI/ITSDF B56.1); metric EN 1726-1 / ISO 22915
/// family, table of standard load centre distances, the columns above 10 t from memory.
pub(super) fn usual_load_centre(capacity: Mass, units: Units) -> &'static str {
    match units {
        Units::Us if capacity.fits(Mass::from_lb(20_000.0)) => "24 in",
        Units::Us => "36 or 48 in",
        Units::Si => match capacity.kg() {
            kg if kg < 1_000.0 => "400 mm",
            kg if kg < 5_000.0 => "500 mm",
            kg if kg <= 10_000.0 => "600 mm",
            kg if kg < 20_000.0 => "600, 900 or 1200 mm",
            kg if kg < 25_000.0 => "900 or 1200 mm",
            _ => "1200 or 1500 mm",
        },
    }
}

fn same_point(a: &PlatePoint, b: &PlatePoint) -> bool {
    let equal = |a: Length, b: Length| a.fits(b) && b.fits(a);
    let heights = match (a.lift_height, b.lift_height) {
        (Some(a), Some(b)) => equal(a, b),
        (None, None) => true,
        _ => false,
    };
    heights && equal(a.load_centre, b.load_centre) && same_attachment(a, b)
}

/// `harder` asks no less in load centre and height and still gives more.
fn rises(easier: &PlatePoint, harder: &PlatePoint) -> bool {
    let higher = match (easier.lift_height, harder.lift_height) {
        (Some(easier), Some(harder)) => easier.fits(harder),
        (None, None) => true,
        // A blank height is not known here: it covers the site's default height, whatever that is.
        _ => false,
    };
    higher
        && easier.load_centre.fits(harder.load_centre)
        && !harder.capacity.fits(easier.capacity)
        && same_attachment(easier, harder)
        && !same_point(easier, harder)
}

fn same_attachment(a: &PlatePoint, b: &PlatePoint) -> bool {
    attachment_key(a.attachment.as_deref()) == attachment_key(b.attachment.as_deref())
}

fn at_point(point: &PlatePoint, units: Units) -> String {
    let centre = show::length(point.load_centre, units);
    match point.lift_height {
        Some(height) => format!("{centre} up to {}", show::length(height, units)),
        None => centre,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// EN 1726-1 / ISO 22915 family, standard load centre distances; 24 in: 29 CFR 1910.178 App. A and OSHA eTool.
    #[test]
    fn usual_load_centres() {
        for (kg, words) in [
            (999.0, "400 mm"),
            (1_000.0, "500 mm"),
            (4_999.0, "500 mm"),
            (5_000.0, "600 mm"),
            (10_000.0, "600 mm"),
        ] {
            assert_eq!(usual_load_centre(Mass::from_kg(kg), Units::Si), words);
        }
        assert_eq!(
            usual_load_centre(Mass::from_lb(5_000.0), Units::Us),
            "24 in"
        );
    }
}
