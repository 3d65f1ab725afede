//! How quantities are shown in the site's units, rounded once and to the safe side: a planning weight, a load centre and
//! a share of capacity up, a capacity down; a declared weight or a best estimate to the nearest, the ends of a range
//! outwards. The `*_value` functions give the rounded figure (for a number cell), the others the figure with its unit.
//! Comes in: quantities. Goes out: figures and words. Never changes what is compared or planned with.

use super::{Length, Mass, MassRange, TIE};
use crate::site::Units;

/// Which way a figure is rounded.
#[derive(Clone, Copy)]
enum Side {
    Up,
    Down,
    Nearest,
}

/// The name of the unit of mass that people see.
pub fn mass_unit(units: Units) -> &'static str {
    match units {
        Units::Us => "lb",
        Units::Si => "kg",
    }
}

/// The name of the unit of short lengths that people see.
pub fn length_unit(units: Units) -> &'static str {
    match units {
        Units::Us => "in",
        Units::Si => "mm",
    }
}

/// A planning weight in whole units, rounded up; a figure within 1e-9 of a whole one is that one.
pub fn planning_value(mass: Mass, units: Units) -> f64 {
    rounded(mass_in(mass, units), Side::Up, 0)
}

/// A capacity in whole units, rounded down; a figure within 1e-9 of a whole one is that one.
pub fn capacity_value(mass: Mass, units: Units) -> f64 {
    rounded(mass_in(mass, units), Side::Down, 0)
}

/// A declared weight or a best estimate, to the nearest: whole units from 10 up, tenths from 1, hundredths below.
pub fn weight_value(mass: Mass, units: Units) -> f64 {
    fine(mass_in(mass, units), Side::Nearest)
}

/// The low end of a range, rounded down; as fine as [`weight_value`].
pub fn low_value(mass: Mass, units: Units) -> f64 {
    fine(mass_in(mass, units), Side::Down)
}

/// The high end of a range, rounded up; as fine as [`weight_value`].
pub fn high_value(mass: Mass, units: Units) -> f64 {
    fine(mass_in(mass, units), Side::Up)
}

/// A load centre or the depth of a load, rounded up: tenths of an inch or whole millimetres.
pub fn load_centre_value(length: Length, units: Units) -> f64 {
    length_rounded(length, units, Side::Up)
}

/// A load centre or height on a capacity plate, rounded down, because a plate holds up to that figure.
pub fn plate_length_value(length: Length, units: Units) -> f64 {
    length_rounded(length, units, Side::Down)
}

/// A share of capacity (0.82), rounded up to a hundredth.
pub fn share_value(share: f64) -> f64 {
    rounded(share, Side::Up, 2)
}

/// A planning weight: `2,401 lb`.
pub fn planning(mass: Mass, units: Units) -> String {
    with_unit(planning_value(mass, units), mass_unit(units))
}

/// A capacity: `2,400 lb`.
pub fn capacity(mass: Mass, units: Units) -> String {
    with_unit(capacity_value(mass, units), mass_unit(units))
}

/// A declared weight or a best estimate: `1,235 kg`, `4.5 kg`; of what is too small for that, `under 0.01 kg`.
pub fn weight(mass: Mass, units: Units) -> String {
    let value = weight_value(mass, units);
    if value == 0.0 && mass > Mass::ZERO {
        return format!("under 0.01 {}", mass_unit(units));
    }
    with_unit(value, mass_unit(units))
}

/// A figure in the site's unit with the other one behind it: `346 lb (157 kg)`.
pub fn both(shown: impl Fn(Units) -> String, units: Units) -> String {
    let other = match units {
        Units::Us => Units::Si,
        Units::Si => Units::Us,
    };
    format!("{} ({})", shown(units), shown(other))
}

/// A range from end to end: `150 to 181 kg`.
pub fn range(range: MassRange, units: Units) -> String {
    let low = figure(low_value(range.low, units));
    format!(
        "{low} to {}",
        with_unit(high_value(range.high, units), mass_unit(units))
    )
}

/// A load centre or depth: `23.7 in`, `600 mm`.
pub fn load_centre(length: Length, units: Units) -> String {
    with_unit(load_centre_value(length, units), length_unit(units))
}

/// Any other length, to the nearest: `30 in`, from 4 ft up `5 ft 6 in`; `1,676 mm`.
pub fn length(length: Length, units: Units) -> String {
    let value = length_rounded(length, units, Side::Nearest);
    if units == Units::Us && value >= 48.0 {
        let feet = (value / 12.0).floor();
        // The remainder of two figures of tenths is one of tenths again, but for the last binary digit.
        let inches = rounded(value - feet * 12.0, Side::Nearest, 1);
        format!("{} ft {} in", figure(feet), figure(inches))
    } else {
        with_unit(value, length_unit(units))
    }
}

/// A share of capacity: `82 %`, rounded up.
pub fn share(share: f64) -> String {
    format!("{:.0} %", share_value(share) * 100.0)
}

/// A figure with commas between the thousands and no more than two decimals: `1,234.5`.
pub fn figure(value: f64) -> String {
    let plain = format!("{:.2}", value.abs());
    let (whole, decimals) = plain.split_once('.').unwrap_or((&plain, ""));
    let mut text = String::with_capacity(plain.len() + 4);
    if value < 0.0 {
        text.push('-');
    }
    for (at, digit) in whole.chars().enumerate() {
        if at > 0 && (whole.len() - at) % 3 == 0 {
            text.push(',');
        }
        text.push(digit);
    }
    let decimals = decimals.trim_end_matches('0');
    if !decimals.is_empty() {
        text.push('.');
        text.push_str(decimals);
    }
    text
}

fn with_unit(value: f64, unit: &str) -> String {
    format!("{} {unit}", figure(value))
}

fn mass_in(mass: Mass, units: Units) -> f64 {
    match units {
        Units::Us => mass.lb(),
        Units::Si => mass.kg(),
    }
}

fn length_rounded(length: Length, units: Units, side: Side) -> f64 {
    match units {
        Units::Us => rounded(length.inches(), side, 1),
        Units::Si => rounded(length.mm(), side, 0),
    }
}

fn fine(value: f64, side: Side) -> f64 {
    let decimals = match value.abs() {
        v if v >= 10.0 => 0,
        v if v >= 1.0 => 1,
        _ => 2,
    };
    rounded(value, side, decimals)
}

fn rounded(value: f64, side: Side, decimals: i32) -> f64 {
    let scale = 10f64.powi(decimals);
    let scaled = value * scale;
    let slack = TIE * scaled.abs();
    let whole = match side {
        Side::Up => (scaled - slack).ceil(),
        Side::Down => (scaled + slack).floor(),
        Side::Nearest => scaled.round(),
    };
    whole / scale
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Figures: NIST Handbook 44, Appendix C (1 lb = 0.45359237 kg, 1 in = 25.4 mm), worked by hand.
    #[test]
    fn weights_are_rounded_to_the_safe_side() {
        let lb = Mass::from_lb;
        let kg = Mass::from_kg;
        for (shown, expected) in [
            (planning(lb(2_400.000_000_1), Units::Us), "2,400 lb"),
            (planning(lb(2_400.001), Units::Us), "2,401 lb"),
            (planning(kg(0.2), Units::Si), "1 kg"),
            (planning(kg(1_000.0), Units::Us), "2,205 lb"),
            (capacity(lb(2_399.999_999_9), Units::Us), "2,400 lb"),
            (capacity(lb(2_399.99), Units::Us), "2,399 lb"),
            (capacity(kg(1_500.0), Units::Us), "3,306 lb"),
            (capacity(lb(3_000.0) * (24.0 / 30.0), Units::Us), "2,400 lb"),
            (weight(kg(1_234.5), Units::Si), "1,235 kg"),
            (weight(kg(4.46), Units::Si), "4.5 kg"),
            (weight(kg(0.4), Units::Si), "0.4 kg"),
            (weight(kg(0.0001), Units::Si), "under 0.01 kg"),
            (weight(kg(0.0001), Units::Us), "under 0.01 lb"),
            (weight(kg(0.0), Units::Si), "0 kg"),
            (weight(kg(1_234_567.0), Units::Si), "1,234,567 kg"),
        ] {
            assert_eq!(shown, expected);
        }
    }

    #[test]
    fn a_range_is_rounded_outwards() {
        let seen = MassRange {
            low: Mass::from_kg(150.7),
            likely: Mass::from_kg(165.0),
            high: Mass::from_kg(180.1),
        };
        assert_eq!(range(seen, Units::Si), "150 to 181 kg");
    }

    #[test]
    fn lengths() {
        for (shown, expected) in [
            (load_centre(Length::from_mm(600.0), Units::Us), "23.7 in"),
            (load_centre(Length::from_in(24.0), Units::Us), "24 in"),
            (load_centre(Length::from_in(24.0), Units::Si), "610 mm"),
            (load_centre(Length::from_mm(600.0), Units::Si), "600 mm"),
            (length(Length::from_in(30.0), Units::Us), "30 in"),
            (length(Length::from_in(66.0), Units::Us), "5 ft 6 in"),
            (length(Length::from_in(59.97), Units::Us), "5 ft 0 in"),
            (length(Length::from_in(66.3), Units::Us), "5 ft 6.3 in"),
            (length(Length::from_in(66.0), Units::Si), "1,676 mm"),
        ] {
            assert_eq!(shown, expected);
        }
        assert_eq!(plate_length_value(Length::from_mm(600.0), Units::Us), 23.6);
    }

    #[test]
    fn a_share_is_rounded_up_and_a_full_one_stays_full() {
        assert_eq!(share(0.821), "83 %");
        assert_eq!(share(0.82), "82 %");
        assert_eq!(share(1.0), "100 %");
        assert_eq!(share(1.0 + 1e-12), "100 %");
    }
}
