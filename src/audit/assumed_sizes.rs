//! Size columns whose unit was only assumed, and whether the weights beside them bear it out.

use crate::estimate::{Estimate, NoEstimate};
use crate::understand::{ColumnReading, How, Item, Size1, Sizes};

/// Lines whose weights must agree with their sizes before an assumed unit counts as found: as many as settle a weight column
/// (method, section 2).
const LEAST_AGREEING: usize = 5;

type Estimated = Result<Estimate, NoEstimate>;

/// The size columns that items take figures from, whose unit nothing states and too few weights bear out. `borne_out` says
/// whether the weight of a line agrees with its sizes.
pub(super) fn columns<'a>(
    columns: &'a [ColumnReading],
    items: &[Item],
    estimates: &[Estimated],
    borne_out: impl Fn(&Item, &Estimated) -> bool,
) -> Vec<&'a ColumnReading> {
    // A column beside them gives the unit of each row.
    let by_row = columns
        .iter()
        .any(|column| column.layout.field == Some("unit of the sizes"));
    // The unit under another heading of the table was taken: a reading, not a guess.
    let stated = |unit: &Option<String>| {
        columns.iter().any(|column| {
            column.layout.is_size()
                && column.unit == *unit
                && matches!(column.how, How::Stated | How::Site)
        })
    };
    let open = columns.iter().filter(|column| {
        column.layout.is_size() && column.how == How::Assumed && !by_row && !stated(&column.unit)
    });
    open.filter(|column| {
        let mut from = items
            .iter()
            .zip(estimates)
            .filter(|(item, _)| takes_from(item, column))
            .peekable();
        let agrees = |(item, estimate): &(&Item, &Estimated)| {
            works_with(estimate, item) && borne_out(item, estimate)
        };
        from.peek().is_some() && from.filter(agrees).take(LEAST_AGREEING).count() < LEAST_AGREEING
    })
    .collect()
}

/// Whether a line takes a size from a column.
pub(super) fn takes_from(item: &Item, column: &ColumnReading) -> bool {
    let Some(first) = &item.sizes_from else {
        return false;
    };
    let filled = |of: fn(&Sizes) -> Option<Size1>| {
        of(&item.sizes).is_some() || of(&item.package_sizes).is_some()
    };
    first.column == column.column
        || match column.layout.field {
            Some("length") => filled(|sizes| sizes.length),
            Some("width") => filled(|sizes| sizes.width),
            Some("height" | "thickness") => filled(|sizes| sizes.height),
            Some("outside diameter") => filled(|sizes| sizes.outside),
            Some("inside diameter") => filled(|sizes| sizes.inside),
            Some("wall thickness") => filled(|sizes| sizes.wall),
            _ => false,
        }
}

/// Whether the estimate was worked out with a size of the line.
fn works_with(estimate: &Estimated, item: &Item) -> bool {
    let sizes = [&item.sizes, &item.package_sizes].map(|sizes| sizes.all());
    let mut sizes = sizes.as_flattened().iter().flatten();
    estimate
        .as_ref()
        .is_ok_and(|estimate| sizes.any(|size| estimate.works_with(size)))
}
