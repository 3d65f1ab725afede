//! The end of a load's working: the range of its line, and what the declared weight is compared with.

use super::VALUE;
use super::block::{Row, figure};
use super::places::{At, has_packing};
use crate::estimate::{Estimate, Evidence, Step};
use crate::report::loads::Load;
use crate::report::on_paper::Quantity;
use crate::report::workbook::live;
use crate::site::Units;
use crate::understand::WeightKind;
use crate::units::Mass;

/// The expected range of the line: the last step, and its parts below and above.
pub(super) fn of_line<'a>(
    rows: &mut Vec<Row<'a>>,
    estimate: &'a Estimate,
    at: &impl Fn(usize) -> At,
    units: Units,
) {
    let line = estimate.line;
    let top = rows.len();
    let [likely, low_part, low, high_part, high] =
        [top, top + 1, top + 2, top + 3, top + 4].map(at);
    let last = estimate.steps.last();
    let by_steps = last
        .is_some_and(|step: &Step| step.unit == "kg" && live::same(step.result, line.likely.kg()));
    let formula = by_steps.then(|| format!("={}", at(top - 1).cell(VALUE, likely)));
    let how = if by_steps {
        "the last step"
    } else {
        "as the record has it"
    };
    let mass = |what, mass, formula, here, how| mass_row(what, mass, formula, (here, units), how);
    rows.push(mass("line, likely", line.likely, formula, likely, how));
    let why = match estimate.evidence {
        Evidence::Envelope => "how much of the outline is material, and its band",
        Evidence::Weighed => "error of the scale or spread of the weighings; packaging",
        _ => "band of material or product, making, sizes",
    };
    let ends = [
        (
            "low, as a part of likely",
            "line, low",
            line.low,
            low_part,
            low,
        ),
        (
            "high, as a part of likely",
            "line, high",
            line.high,
            high_part,
            high,
        ),
    ];
    for (part_name, name, end, part, here) in ends {
        let ratio = end / line.likely;
        // Nothing is a part of no mass at all.
        let known = ratio.is_finite();
        rows.push(Row {
            step: None,
            what: part_name.into(),
            bold: false,
            figure: known.then(|| figure(ratio, None, "", None, part, units)),
            how: "".into(),
            source: why.into(),
        });
        let formula = known.then(|| {
            let (whole, part) = (likely.cell(VALUE, here), part.cell(VALUE, here));
            format!("={whole}*{part}")
        });
        rows.push(mass(name, end, formula, here, "likely x its part"));
    }
}

/// What the declared weight is compared with, where it holds packing or may: below the line's range, for each end of it the
/// packing and the sum.
pub(super) fn with_packing<'a>(
    rows: &mut Vec<Row<'a>>,
    load: Load<'_>,
    estimate: &Estimate,
    at: &impl Fn(usize) -> At,
    units: Units,
) {
    let (Some(expected), true) = (load.expected(), has_packing(load)) else {
        return;
    };
    let line = estimate.line;
    let why = match load.declared().map(|declared| declared.kind) {
        Some(WeightKind::Gross) => {
            "the declared weight is gross; tare stated or by the table of packages"
        }
        _ => {
            "the declared weight may be gross or net: packing none for low, half for likely, all for high"
        }
    };
    let top = rows.len();
    let ends = [
        (
            "packing, likely",
            "expected, likely",
            line.likely,
            expected.likely,
            5,
        ),
        ("packing, low", "expected, low", line.low, expected.low, 3),
        (
            "packing, high",
            "expected, high",
            line.high,
            expected.high,
            1,
        ),
    ];
    for (part_name, name, goods, sum, above) in ends {
        let (part, here) = (at(rows.len()), at(rows.len() + 1));
        let line = at(top - above);
        let packing = Mass::from_kg(sum.kg() - goods.kg());
        rows.push(Row {
            bold: false,
            source: why.into(),
            ..mass_row(part_name, packing, None, (part, units), "")
        });
        let formula = format!("={}+{}", line.cell(VALUE, here), part.cell(VALUE, here));
        rows.push(mass_row(
            name,
            sum,
            Some(formula),
            (here, units),
            "line + packing",
        ));
    }
}

/// A mass as a result.
fn mass_row(
    what: &'static str,
    mass: Mass,
    formula: Option<String>,
    (here, units): (At, Units),
    how: &'static str,
) -> Row<'static> {
    let mass = figure(mass.kg(), formula, "kg", Some(Quantity::Mass), here, units);
    Row {
        step: None,
        what: what.into(),
        bold: true,
        figure: Some(mass),
        how: how.into(),
        source: "".into(),
    }
}
