//! A step of the working as a clerk does it on paper: the formula, the sizes as typed, the sum in feet and pounds or metres
//! and kilograms, the source. Comes in: a step in SI. Goes out: lines. Changes no result.

use super::formula::{self, Token};
use crate::estimate::Step;
use crate::site::Units;
use crate::units::{KG_PER_LB, Length, M_PER_IN, show};

/// How near the sum on paper must come to the step's result, relative: it must be the same sum, not a similar one.
const SAME: f64 = 1e-9;
/// Metres in a foot. Exact (NIST Handbook 44, Appendix C).
const M_PER_FT: f64 = 12.0 * M_PER_IN;
/// Significant figures of a result in between.
const FIGURES: i32 = 5;

/// What an input is a quantity of.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Quantity {
    /// A size.
    Length,
    /// What a body or a room takes up.
    Volume,
    /// What something weighs.
    Mass,
    /// Mass of a length of one.
    PerLength,
    /// Mass of an area of one.
    PerArea,
    /// Mass of a volume of one.
    Density,
    /// A count, a share, an angle.
    Number,
}

/// By the names that the stages give their inputs; the sizes of a shape have names of their own. A name taken for the wrong
/// quantity spoils the sum, and the step is then shown in SI.
pub fn quantity(name: &str) -> Quantity {
    match name {
        "density" | "loose density" => Quantity::Density,
        "volume" | "capacity" | "ends" | "room in the ends" => Quantity::Volume,
        "mass per metre" => Quantity::PerLength,
        "mass per area" => Quantity::PerArea,
        "fill" | "pieces" | "packages" | "density ratio" | "angle" | "openings" => Quantity::Number,
        "one piece" | "one package" | "mass of the standard piece" | "contents" | "tare" => {
            Quantity::Mass
        }
        // The lines of a package: "row 7".
        _ if name.starts_with("row ") => Quantity::Mass,
        _ => Quantity::Length,
    }
}

/// What a result in this unit of a step is a quantity of.
pub fn of_result(unit: &str) -> Option<Quantity> {
    match unit {
        "m3" => Some(Quantity::Volume),
        "kg" => Some(Quantity::Mass),
        "kg/m" => Some(Quantity::PerLength),
        "kg/m2" => Some(Quantity::PerArea),
        "kg/m3" => Some(Quantity::Density),
        _ => None,
    }
}

impl Quantity {
    /// What an SI figure is multiplied by, and the unit it is then in. The units of a system go together without a factor.
    pub fn shown(self, units: Units) -> (f64, &'static str) {
        let ft = M_PER_FT;
        match (self, units) {
            (Quantity::Number, _) => (1.0, ""),
            (Quantity::Length, Units::Us) => (1.0 / ft, "ft"),
            (Quantity::Volume, Units::Us) => (1.0 / ft.powi(3), "ft3"),
            (Quantity::Mass, Units::Us) => (1.0 / KG_PER_LB, "lb"),
            (Quantity::PerLength, Units::Us) => (ft / KG_PER_LB, "lb/ft"),
            (Quantity::PerArea, Units::Us) => (ft.powi(2) / KG_PER_LB, "lb/ft2"),
            (Quantity::Density, Units::Us) => (ft.powi(3) / KG_PER_LB, "lb/ft3"),
            (Quantity::Length, Units::Si) => (1.0, "m"),
            (Quantity::Volume, Units::Si) => (1.0, "m3"),
            (Quantity::Mass, Units::Si) => (1.0, "kg"),
            (Quantity::PerLength, Units::Si) => (1.0, "kg/m"),
            (Quantity::PerArea, Units::Si) => (1.0, "kg/m2"),
            (Quantity::Density, Units::Si) => (1.0, "kg/m3"),
        }
    }
}

/// The lines of a step: its formula, its sizes where they need turning into feet or metres, its sum with the result.
pub fn lines(step: &Step, units: Units) -> Vec<String> {
    let words = in_words(&step.formula, units);
    if step.inputs.is_empty() {
        return vec![format!("{words}: {}", result(step, units))];
    }
    let mut lines = vec![words];
    match sum(step, units) {
        Some(sum) => {
            let sizes = sizes(step, units);
            if !sizes.is_empty() {
                lines.push(sizes.join(", "));
            }
            lines.push(format!("= {sum} = {}", result(step, units)));
        }
        None => {
            let inputs = step.inputs.iter();
            let inputs: Vec<String> = inputs
                .map(|(name, value)| format!("{name} {}", significant(*value)))
                .collect();
            lines.push(format!("{} (SI units)", inputs.join(", ")));
            lines.push(format!("= {}", result(step, units)));
        }
    }
    lines
}

/// The formula speaks of metres; a sum in feet does not.
fn in_words(formula: &str, units: Units) -> String {
    match units {
        Units::Us => formula.replace("mass per metre", "mass per foot"),
        Units::Si => formula.to_string(),
    }
}

fn result(step: &Step, units: Units) -> String {
    match of_result(step.unit) {
        Some(quantity) => figure(step.result, quantity, units),
        None => format!("{} {}", significant(step.result), step.unit),
    }
}

/// A figure of five places with its unit.
fn figure(si: f64, quantity: Quantity, units: Units) -> String {
    let (factor, unit) = quantity.shown(units);
    format!("{} {unit}", significant(si * factor))
        .trim_end()
        .to_string()
}

/// The formula with figures for the names; nothing where it does not come to the step's result.
fn sum(step: &Step, units: Units) -> Option<String> {
    let tokens = formula::tokens(step)?;
    let quantities: Vec<Quantity> = step.inputs.iter().map(|(name, _)| quantity(name)).collect();
    let values: Vec<f64> = step
        .inputs
        .iter()
        .zip(&quantities)
        .map(|((_, value), quantity)| value * quantity.shown(units).0)
        .collect();
    let expected = step.result * of_result(step.unit)?.shown(units).0;
    let value = formula::value(&tokens, &values)?;
    if (value - expected).abs() > SAME * expected.abs() {
        return None;
    }
    let mut text = String::new();
    for token in &tokens {
        match token {
            Token::Input(at) => {
                let quantity = *quantities.get(*at)?;
                let figure = significant(*values.get(*at)?);
                text.push_str(&figure);
                // Powers and brackets are of lengths: a unit behind each would only hide the sum.
                if quantity != Quantity::Length && quantity != Quantity::Number {
                    text.push_str(&format!(" {}", quantity.shown(units).1));
                }
            }
            Token::Number(number) => text.push_str(&significant(*number)),
            Token::Pi => text.push_str("pi"),
            Token::Sign('*') => text.push_str(" x "),
            Token::Sign(sign @ ('(' | ')' | '^')) => text.push(*sign),
            Token::Sign(sign) => text.push_str(&format!(" {sign} ")),
        }
    }
    let lengths = quantities.contains(&Quantity::Length);
    let unit = Quantity::Length.shown(units).1;
    Some(if lengths {
        format!("{text} ({unit})")
    } else {
        text
    })
}

/// The lengths of a step, each as people write it and as it goes into the sum.
fn sizes(step: &Step, units: Units) -> Vec<String> {
    let lengths = step
        .inputs
        .iter()
        .filter(|(name, _)| quantity(name) == Quantity::Length);
    let (factor, unit) = Quantity::Length.shown(units);
    lengths
        .map(|(name, metres)| {
            let written = length(Length::from_m(*metres), units);
            let summed = format!("{} {unit}", significant(metres * factor));
            if written == summed {
                format!("{name} {written}")
            } else {
                format!("{name} {written} = {summed}")
            }
        })
        .collect()
}

/// A length as it is typed: inches below four feet and where no whole inches stand beside the feet, else feet and inches;
/// millimetres.
pub fn length(length: Length, units: Units) -> String {
    if units == Units::Si {
        return format!("{} mm", significant(length.mm()));
    }
    let inches = length.inches();
    let feet = (inches / 12.0 + SAME).floor();
    let beside = inches - feet * 12.0;
    if inches < 48.0 * (1.0 - SAME) {
        format!("{} in", significant(inches))
    } else if beside.abs() < 1e-6 {
        format!("{} ft", show::figure(feet))
    } else {
        format!("{} ft {} in", show::figure(feet), significant(beside))
    }
}

/// Five significant figures, whole numbers whole, commas between the thousands.
fn significant(value: f64) -> String {
    if value == 0.0 || !value.is_finite() {
        return format!("{value}");
    }
    let before = value.abs().log10().floor() as i32 + 1;
    let decimals = (FIGURES - before).clamp(0, 9) as usize;
    let text = format!("{value:.decimals$}");
    let (whole, after) = text.split_once('.').unwrap_or((&text, ""));
    let whole = whole.parse().map_or(whole.to_string(), show::figure);
    let after = after.trim_end_matches('0');
    let point = if after.is_empty() { "" } else { "." };
    format!("{whole}{point}{after}")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn step(formula: &str, inputs: &[(&str, f64)], result: f64, unit: &'static str) -> Step {
        Step {
            what: "a test".into(),
            formula: formula.into(),
            inputs: inputs
                .iter()
                .map(|(name, value)| (name.to_string(), *value))
                .collect(),
            result,
            unit,
            source: "worked by hand".into(),
        }
    }

    /// By hand: pi / 4 x (2.5^2 - 2^2) x 8 = 14.137 ft3, 0.40032 m3 (1 ft = 0.3048 m).
    #[test]
    fn a_pipe_in_feet_and_in_metres() {
        let (d, i, l) = (0.762, 0.6096, 2.4384);
        let volume = std::f64::consts::PI / 4.0 * (d * d - i * i) * l;
        let pipe = step(
            "pi / 4 x (outside^2 - inside^2) x length",
            &[("outside", d), ("inside", i), ("length", l)],
            volume,
            "m3",
        );
        assert_eq!(
            lines(&pipe, Units::Us),
            [
                "pi / 4 x (outside^2 - inside^2) x length",
                "outside 30 in = 2.5 ft, inside 24 in = 2 ft, length 8 ft",
                "= pi / 4 x (2.5^2 - 2^2) x 8 (ft) = 14.137 ft3",
            ]
        );
        assert_eq!(
            lines(&pipe, Units::Si)[1..],
            [
                "outside 762 mm = 0.762 m, inside 609.6 mm = 0.6096 m, length 2,438.4 mm = 2.4384 m",
                "= pi / 4 x (0.762^2 - 0.6096^2) x 2.4384 (m) = 0.40032 m3",
            ]
        );
    }

    /// A W12x26 is 26 lb/ft, 38.692 kg/m (ASTM A6/A6M): 20 ft weigh 520 lb.
    #[test]
    fn a_beam_by_its_foot() {
        let (per_metre, l) = (26.0 * KG_PER_LB / M_PER_FT, 20.0 * M_PER_FT);
        let beam = step(
            "mass per metre x length",
            &[("mass per metre", per_metre), ("length", l)],
            per_metre * l,
            "kg",
        );
        assert_eq!(
            lines(&beam, Units::Us),
            [
                "mass per foot x length",
                "length 20 ft",
                "= 26 lb/ft x 20 (ft) = 520 lb",
            ]
        );
    }

    #[test]
    fn a_name_that_spoils_the_sum_is_shown_in_si() {
        let odd = step(
            "bulk x density",
            &[("bulk", 2.0), ("density", 1000.0)],
            2000.0,
            "kg",
        );
        assert_eq!(
            lines(&odd, Units::Us),
            [
                "bulk x density",
                "bulk 2, density 1,000 (SI units)",
                "= 4,409.2 lb"
            ]
        );
    }

    #[test]
    fn lengths_as_typed() {
        for (inches, text) in [
            (30.0, "30 in"),
            (0.28, "0.28 in"),
            (0.4375, "0.4375 in"),
            (48.0, "4 ft"),
            (96.0, "8 ft"),
            (246.5, "20 ft 6.5 in"),
            (1200.0, "100 ft"),
        ] {
            assert_eq!(length(Length::from_in(inches), Units::Us), text);
        }
        assert_eq!(length(Length::from_m(6.0), Units::Si), "6,000 mm");
    }
}
