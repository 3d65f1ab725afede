//! The estimate of a package: the sum of its lines', with its own tare.

use super::sheet::Worked;
use crate::estimate::{Estimate, Evidence, LEAD_KG_M3, NoEstimate, Step};
use crate::plan::Basics;
use crate::understand::{Item, SharedWeight, Size1};
use crate::units::{Length, Mass, MassRange};

/// Sums the estimates of a package's lines.
///
/// # Errors
/// When a line of the package has no estimate: which.
pub(super) fn estimate(
    shared: &SharedWeight,
    members: &[(&Item, &Result<Estimate, NoEstimate>)],
) -> Result<Estimate, NoEstimate> {
    let outline = outline(shared);
    let unknown: Vec<String> = members
        .iter()
        .filter_map(|(item, estimate)| {
            estimate
                .as_ref()
                .err()
                .map(|no| format!("row {}: {}", item.place.row, no.why))
        })
        .collect();
    if !unknown.is_empty() || members.is_empty() {
        let why = if members.is_empty() {
            "what is in it is not stated".to_string()
        } else {
            unknown.join("; ")
        };
        return Err(NoEstimate {
            why,
            impossible: false,
            goods: None,
            upper: outline.and_then(solid_lead),
            outline,
        });
    }
    let mut line = MassRange {
        low: Mass::ZERO,
        likely: Mass::ZERO,
        high: Mass::ZERO,
    };
    let mut block = Mass::ZERO;
    let mut evidence = Evidence::Weighed;
    let mut shape = None;
    let mut inputs = Vec::new();
    for (item, estimate) in members {
        let Ok(estimate) = estimate else { continue };
        line = line.plus(estimate.line);
        block += estimate.block.unwrap_or(estimate.line.high);
        evidence = evidence.max(estimate.evidence);
        // However well it is known what they weigh, where the weight lies is not.
        if estimate.is_outline() && estimate.evidence == Evidence::Weighed {
            shape = estimate.shape;
        }
        inputs.push((format!("row {}", item.place.row), estimate.line.likely.kg()));
    }
    let group = members
        .iter()
        .filter_map(|(_, estimate)| estimate.as_ref().ok()?.group)
        .max_by_key(|group| *group == "wood");
    let formula = inputs
        .iter()
        .map(|(name, _)| name.as_str())
        .collect::<Vec<_>>()
        .join(" + ");
    let step = Step {
        what: format!("contents of {}", shared.name),
        formula,
        inputs,
        result: line.likely.kg(),
        unit: "kg",
        source: "sum of the lines' estimates".to_string(),
    };
    Ok(Estimate {
        evidence,
        shape,
        product: None,
        material: None,
        group,
        goods: None,
        piece: line,
        line,
        tare: Basics::of_package(shared).tare,
        block: Some(block),
        otherwise: None,
        solid: false,
        outline,
        steps: vec![step],
        working: format!(
            "sum of {} lines with the tare of a {}",
            members.len(),
            shared.packed_as.unwrap_or("pallet")
        ),
    })
}

/// The weight that the plan of a package may not go below: what weighings that prove nothing make of its lines, the others as
/// they are likely.
pub(super) fn not_below(package: &Result<Estimate, NoEstimate>, lines: &[&Worked]) -> Mass {
    let doubted = |line: &&Worked| line.not_below() > Mass::ZERO;
    let (Ok(package), true) = (package, lines.iter().any(doubted)) else {
        return Mass::ZERO;
    };
    let of_line = |line: &&Worked| {
        let likely = line.estimate.as_ref().map(|estimate| estimate.line.likely);
        line.not_below().max(likely.unwrap_or(Mass::ZERO))
    };
    lines.iter().map(of_line).sum::<Mass>() + package.tare.high
}

/// What the outline weighs if it is solid lead; none where a side is not known.
fn solid_lead(sides: [Length; 3]) -> Option<Mass> {
    let volume: f64 = sides.iter().map(|side| side.m()).product();
    (volume > 0.0).then(|| Mass::from_kg(LEAD_KG_M3 * volume))
}

fn outline(shared: &SharedWeight) -> Option<[Length; 3]> {
    let side = |size: Option<Size1>| size.map(|size| size.length);
    Some([
        side(shared.sizes.length)?,
        side(shared.sizes.width)?,
        side(shared.sizes.height).unwrap_or(Length::ZERO),
    ])
}
