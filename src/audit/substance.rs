//! What a decision on a load rests on: it stays good for the same list as long as the load says, and is worked out to be, the
//! same. What was decided or weighed before is no part of it, nor is the plan: a decision must outlast the audit that used it.

use super::short_hash;
use crate::estimate::{Estimate, NoEstimate};
use crate::history::on_list;
use crate::settle::Declared;
use crate::understand::{Item, SharedWeight, Sizes};
use crate::units::MassRange;

type Estimated = Result<Estimate, NoEstimate>;

/// Where a line stands on its list.
pub(super) fn place_of_line(item: &Item) -> String {
    on_list(
        &item.place.sheet,
        item.place.row,
        item.item.as_deref(),
        false,
    )
}

/// Where a package stands on its list.
pub(super) fn place_of_package(shared: &SharedWeight) -> String {
    let place = &shared.place;
    on_list(&place.sheet, place.row, Some(&shared.name), true)
}

/// Of a line: 16 hexadecimal digits.
pub(super) fn of_line(item: &Item, declared: Option<&Declared>, estimate: &Estimated) -> String {
    let mut parts = vec![item.description.clone(), item.pieces.to_string()];
    parts.extend([&item.sizes, &item.package_sizes].map(size));
    whole(parts, declared, estimate)
}

/// Of a package: 16 hexadecimal digits.
pub(super) fn of_package(
    shared: &SharedWeight,
    declared: Option<&Declared>,
    estimate: &Estimated,
) -> String {
    let parts = vec![
        shared.name.clone(),
        format!("{:?}", shared.rows),
        size(&shared.sizes),
        format!("{:?}", shared.tare.map(|tare| tare.kg())),
    ];
    whole(parts, declared, estimate)
}

fn whole(mut parts: Vec<String>, declared: Option<&Declared>, estimate: &Estimated) -> String {
    parts.push(declared.map_or(String::new(), |declared| {
        let kg = declared.mass.kg();
        format!(
            "{kg:?} {:?} {:?} {}",
            declared.of, declared.kind, declared.text
        )
    }));
    parts.push(estimate.as_ref().map_or(String::new(), |estimate| {
        let MassRange { low, likely, high } = estimate.line;
        format!(
            "{:?} {:?}",
            estimate.evidence,
            [low, likely, high].map(|mass| mass.kg())
        )
    }));
    short_hash(parts.iter().map(String::as_str))
}

fn size(sizes: &Sizes) -> String {
    let all = [
        sizes.length,
        sizes.width,
        sizes.height,
        sizes.outside,
        sizes.inside,
        sizes.wall,
    ];
    format!("{:?}", all.map(|size| size.map(|size| size.length.m())))
}
