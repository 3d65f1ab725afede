//! Weights and lengths as a fault or a clause words them: in the site's units, rounded to the safe side.

use crate::site::Units;
use crate::units::{Length, Mass, TIE};

/// A capacity, rounded down to a whole pound or kilogram: `2,400 lb`.
pub(super) fn down(mass: Mass, units: Units) -> String {
    worded(whole_down(mass, units), units)
}

/// A weight, rounded up to a whole pound or kilogram.
pub(super) fn up(mass: Mass, units: Units) -> String {
    worded(whole_up(mass, units), units)
}

/// How far a weight goes beyond what may be lifted, so that the three figures of a clause add up; at least one.
pub(super) fn short(weight: Mass, limit: Mass, units: Units) -> String {
    let gap = whole_up(weight, units) - whole_down(limit, units);
    worded(gap.max(1.0), units)
}

/// A length, rounded up to a tenth of an inch or a millimetre: `30 in`, `600 mm`.
pub(super) fn length(length: Length, units: Units) -> String {
    match units {
        Units::Us => {
            let tenths = (length.inches() * 10.0 * (1.0 - TIE)).ceil();
            format!("{} in", tenths / 10.0)
        }
        Units::Si => format!("{} mm", grouped((length.mm() * (1.0 - TIE)).ceil())),
    }
}

fn in_units(mass: Mass, units: Units) -> f64 {
    match units {
        Units::Us => mass.lb(),
        Units::Si => mass.kg(),
    }
}

/// The slack keeps 2,400 lb that floating point holds as 2,399.999… from reading 2,399.
fn whole_down(mass: Mass, units: Units) -> f64 {
    (in_units(mass, units) * (1.0 + TIE)).floor()
}

fn whole_up(mass: Mass, units: Units) -> f64 {
    (in_units(mass, units) * (1.0 - TIE)).ceil()
}

fn worded(whole: f64, units: Units) -> String {
    let unit = match units {
        Units::Us => "lb",
        Units::Si => "kg",
    };
    format!("{} {unit}", grouped(whole))
}

fn grouped(whole: f64) -> String {
    let digits = format!("{:.0}", whole.abs());
    let mut text = String::new();
    for (at, digit) in digits.chars().enumerate() {
        if at > 0 && (digits.len() - at).is_multiple_of(3) {
            text.push(',');
        }
        text.push(digit);
    }
    if whole < 0.0 {
        text.insert(0, '-');
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn rounds_to_the_safe_side() {
        // OSHA eTool, load composition: 5000 lb at 24 in carried out to 28 in is printed as 4285, 4000 at 36 as 2666.
        for (lb, text) in [
            (5000.0 * 24.0 / 28.0, "4,285 lb"),
            (4000.0 * 24.0 / 36.0, "2,666 lb"),
            (3000.0 * 24.0 / 30.0, "2,400 lb"),
        ] {
            assert_eq!(down(Mass::from_lb(lb), Units::Us), text);
        }
        assert_eq!(up(Mass::from_kg(1_234.1), Units::Si), "1,235 kg");
        assert_eq!(up(Mass::from_lb(2_401.0), Units::Us), "2,401 lb");
        assert_eq!(
            short(Mass::from_lb(2_401.0), Mass::from_lb(2_400.0), Units::Us),
            "1 lb"
        );
        assert_eq!(length(Length::from_in(30.0), Units::Us), "30 in");
        assert_eq!(length(Length::from_in(30.02), Units::Us), "30.1 in");
        assert_eq!(length(Length::from_mm(1_200.0), Units::Si), "1,200 mm");
    }
}
