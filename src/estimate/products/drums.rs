//! What a steel drum weighs empty by the gauge of its sheet: a drum of 1.5 mm is half as heavy again as one of 0.9 mm.
//!
//! Source: drums table, row by row. No shell is worked out from sheet: chimes, hoops and fittings are 13 to 17 % of a drum.

use super::scan::{Scene, Unit};
use crate::tables::products::{Drum, drums, gauge};
use crate::units::M_PER_IN;

/// Two thicknesses so near, relative, are one gauge: 18 gauge is 1.21 mm (common practice, no source).
const SAME: f64 = 0.04;
/// Sheet that drums are made of, mm: other millimetres are sizes (common practice, no source).
const SHEET_MM: std::ops::RangeInclusive<f64> = 0.5..=3.0;

/// The drums of this capacity (US gallons) that the description's gauge and head leave; none where it states no gauge, or one that the
/// table does not have.
pub(super) fn by_gauge(scene: &Scene, gallons: f64) -> Vec<&'static Drum> {
    let Some(sheet) = thicknesses(scene) else {
        return Vec::new();
    };
    let code = |last: f64| {
        (0..scene.tokens.len()).any(|at| {
            scene.value(at) == Some(1.0)
                && scene.glued_word(at + 1) == Some("a")
                && scene.value(at + 2) == Some(last)
        })
    };
    // 1A1 and 1A2: steel drums of the United Nations' recommendations, with a closed and an open head.
    let (tight, open) = (
        scene.says(&["tight", "closed"]) || code(1.0),
        scene.says(&["open"]) || code(2.0),
    );
    let near = |one: f64, other: f64| (one / other - 1.0).abs() <= SAME;
    let is = |row: &&Drum| {
        let own = [row.top_mm, row.body_mm, row.bottom_mm];
        near(row.capacity_us_gal, gallons)
            && match sheet[..] {
                // One figure is the body's.
                [body] => near(body, row.body_mm),
                _ => sheet.iter().zip(own).all(|(one, other)| near(*one, other)),
            }
            && (tight == open || row.head == if tight { "tight" } else { "open" })
    };
    drums().iter().filter(is).collect()
}

/// Top, body and bottom, or one figure, mm: "1.2/0.9/1.2 mm", "18/20/18 ga", "16 gauge".
fn thicknesses(scene: &Scene) -> Option<Vec<f64>> {
    let mut found = None;
    for at in 1..scene.tokens.len() {
        let gauged = matches!(scene.word(at), Some("ga" | "gauge" | "gage"));
        if !gauged && !matches!(scene.unit(at), Some((Unit::Millimetre, _))) {
            continue;
        }
        let mm = |at: usize| match (scene.number(at).filter(|number| !number.fraction), gauged) {
            (Some(number), true) => {
                gauge("sheet", number.value).map(|row| row.thickness_in * M_PER_IN * 1e3)
            }
            (number, _) => number.map(|number| number.value),
        };
        let mut first = at - 1;
        let mut sheet = vec![mm(first)];
        while first >= 2 && scene.sign(first - 1, '/') {
            first -= 2;
            sheet.insert(0, mm(first));
        }
        let sheet: Vec<f64> = sheet.into_iter().collect::<Option<_>>()?;
        if !sheet.iter().all(|mm| SHEET_MM.contains(mm)) {
            continue;
        }
        if found.is_some() || !matches!(sheet.len(), 1 | 3) {
            return None;
        }
        found = Some(sheet);
    }
    found
}
