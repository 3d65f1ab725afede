//! Goods that state their own mass: so much a metre, or so much of a liquid in a known container.

use super::draft::Draft;
use super::products::Container;
use super::range::{Doubt, together};
use super::words::{Named, Words};
use super::{Estimate, Evidence, NoEstimate, Step};
use crate::understand::{Item, Size1, described, sizes};
use crate::units::written::{Decimal, scan_figure};
use crate::units::{LengthUnit, Mass, MassRange};

/// A liquid's part of its container where no fill is stated (method, section 1; common practice, no source).
const LIQUID_FILL: (f64, f64, f64) = (0.95, 0.98, 1.0);

/// "1.35 kg/m" in the description of goods whose length is stated: the supplier's own mass per length.
pub(super) fn by_stated_mass_per_length(item: &Item, words: &Words) -> Option<Estimate> {
    let per_metre = stated_mass_per_metre(&item.description)?;
    let length = item
        .sizes
        .length
        .or_else(|| wound_length(&item.description))
        .filter(|_| words.product.is_none())?;
    let mass = Mass::from_kg(per_metre * length.length.m());
    let doubt = together(&[
        Doubt::of_making(0.05, 0.05),
        Doubt::of_size(length, 1.0, false),
    ]);
    let step = Step {
        what: "one piece".to_string(),
        formula: "mass per metre x length".to_string(),
        inputs: vec![
            ("mass per metre".to_string(), per_metre),
            ("length".to_string(), length.length.m()),
        ],
        result: mass.kg(),
        unit: "kg",
        source: "mass per length in the description".to_string(),
    };
    let material = match &words.material {
        Named::Known(material, _) => Some(*material),
        _ => None,
    };
    Some(
        Draft {
            evidence: Evidence::Product,
            shape: None,
            product: None,
            material,
            goods: words.goods_name(),
            piece: MassRange::around(mass, doubt.low, doubt.high),
            block: None,
            solid: false,
            outline: None,
            steps: vec![step],
            working: format!(
                "{per_metre} kg/m in the description x {:.1} m",
                length.length.m()
            ),
        }
        .finish(item),
    )
}

/// The length of what is wound up ("500 m", "1500 FT"): no side of the load, so no size of the line.
fn wound_length(description: &str) -> Option<Size1> {
    let found = described::read(description, Decimal::Unclear);
    let single = found
        .chains
        .iter()
        .filter(|chain| chain.parts.len() == 1)
        .filter_map(|chain| chain.parts.first());
    let long =
        single.filter(|part| matches!(part.written.unit, Some(LengthUnit::M | LengthUnit::Ft)));
    long.filter_map(|part| sizes::size(part.written, None))
        .next()
}

/// The figure before `kg/m`.
fn stated_mass_per_metre(description: &str) -> Option<f64> {
    let lower = description.to_lowercase();
    let at = ["kg/m", "kg / m", "kg/mtr"]
        .iter()
        .find_map(|unit| lower.find(unit))?;
    let after = lower
        .get(at..)?
        .trim_start_matches("kg")
        .trim_start_matches([' ', '/']);
    // "kg/m2" is a mass per area.
    if after
        .trim_start_matches("mtr")
        .trim_start_matches('m')
        .starts_with(['2', '3', '²', '³'])
    {
        return None;
    }
    let before = lower.get(..at)?.trim_end();
    let start = before
        .rfind(|sign: char| !(sign.is_ascii_digit() || matches!(sign, '.' | ',')))
        .map_or(0, |at| {
            at + before[at..].chars().next().map_or(1, char::len_utf8)
        });
    let (figure, _) = scan_figure(before, start, Decimal::Unclear, false)?;
    (figure.value > 0.0 && !figure.unclear).then_some(figure.value)
}

/// A stated contents in a known container: its liquid by volume, or nothing to go by but the container.
pub(super) fn contained(
    item: &Item,
    container: &Container,
    words: &Words,
) -> Result<Estimate, NoEstimate> {
    let goods = container_goods(container);
    let Named::Known(material, word) = &words.material else {
        return Err(NoEstimate {
            why: format!("what is in the {} is not stated", container.designation),
            impossible: false,
            goods: Some(goods),
            upper: None,
            outline: Some(container.outline),
        });
    };
    let contents = material.density * container.capacity;
    let fill = Doubt::of_band(LIQUID_FILL.0, LIQUID_FILL.1, LIQUID_FILL.2);
    let doubt = together(&[Doubt::of_material(material), fill]);
    let net = MassRange::around(contents * LIQUID_FILL.1, doubt.low, doubt.high);
    let piece = net.plus(container.tare);
    let steps = vec![
        Step {
            what: "contents of one container".to_string(),
            formula: "capacity x fill x density".to_string(),
            inputs: vec![
                ("capacity".to_string(), container.capacity.m3()),
                ("fill".to_string(), LIQUID_FILL.1),
                ("density".to_string(), material.density.kg_m3()),
            ],
            result: net.likely.kg(),
            unit: "kg",
            source: format!(
                "{} ({}): {}; {}",
                material.name, word, material.source, container.source
            ),
        },
        Step {
            what: "one container, full".to_string(),
            formula: "contents + tare".to_string(),
            inputs: vec![
                ("contents".to_string(), net.likely.kg()),
                ("tare".to_string(), container.tare.likely.kg()),
            ],
            result: piece.likely.kg(),
            unit: "kg",
            source: container.source.to_string(),
        },
    ];
    let working = format!(
        "{} of {}, {:.0} to 100 % full, with its tare",
        container.designation,
        material.name,
        LIQUID_FILL.0 * 100.0
    );
    Ok(Draft {
        evidence: Evidence::Product,
        shape: None,
        product: Some(container.designation.clone()),
        material: Some(material),
        goods: Some(goods),
        piece,
        block: None,
        solid: false,
        outline: Some(container.outline),
        steps,
        working,
    }
    .finish(item))
}

fn container_goods(container: &Container) -> &'static str {
    match container.kind {
        "drum" => "drum",
        "tote" => "intermediate bulk container",
        _ => "can",
    }
}
