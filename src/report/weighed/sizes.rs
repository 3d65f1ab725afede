//! The sizes of a typed load, and those that have no unit.

use crate::audit::Line;
use crate::estimate::Evidence;
use crate::report::on_paper;
use crate::site::Units;
use crate::tables::goods;
use crate::understand::{Item, Size1, Sizes, described, sizes};
use crate::units::LengthUnit;
use crate::units::written::Decimal;

/// Whether the figures of the description are only the name of a standard product, whose sizes the working gives.
pub(super) fn are_a_name(line: &Line) -> bool {
    line.estimate.as_ref().is_ok_and(|estimate| {
        let sizes = line.item.sizes.all();
        let mut sizes = sizes.iter().flatten();
        estimate.evidence == Evidence::Product && !sizes.any(|size| estimate.works_with(size))
    })
}

/// The sizes as understood; a package's after those of its pieces. `third` is what the goods' height is called.
pub(super) fn told(item: &Item, third: &str, units: Units) -> String {
    let (piece, package) = (
        named(&item.sizes, third, units),
        named(&item.package_sizes, "height", units),
    );
    match (piece.is_empty(), package.is_empty()) {
        (_, true) => piece,
        (true, false) => format!("package: {package}"),
        (false, false) => format!("{piece}; package: {package}"),
    }
}

fn named(sizes: &Sizes, third: &str, units: Units) -> String {
    let named: [(&str, Option<Size1>); 6] = [
        ("length", sizes.length),
        ("width", sizes.width),
        (third, sizes.height),
        ("outside", sizes.outside),
        ("inside", sizes.inside),
        ("wall", sizes.wall),
    ];
    let told = named.into_iter().filter_map(|(name, size)| {
        Some(format!("{name} {}", on_paper::length(size?.length, units)))
    });
    told.collect::<Vec<_>>().join(", ")
}

/// What to know where a figure without a unit was taken as a size: it reads otherwise in the other kind of units.
pub(super) fn without_unit(description: &str, units: Units) -> Option<String> {
    let spaced = sizes::apart(description);
    let found = described::read(&spaced, Decimal::Unclear);
    let goods = goods::in_description(description);
    let read_as = |bare| {
        let own = sizes::described(&spaced, &found, goods, bare);
        (own, sizes::further(&found, bare))
    };
    let unit = match units {
        Units::Us => "inches, or feet where the trade writes feet",
        Units::Si => "millimetres",
    };
    (read_as(LengthUnit::In) != read_as(LengthUnit::Mm)).then(|| {
        format!(
            "a size without a unit was taken as {unit}: compare the sizes above with the load (type the unit, or give --units)"
        )
    })
}
