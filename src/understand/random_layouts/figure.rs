//! Figures and how a locale writes them.

use super::chance::Chance;
use crate::units::LengthUnit;

/// A figure as it is written down.
#[derive(Clone, Copy, Debug)]
pub struct Figure {
    /// The digits without a separator; of fractions, sixteenths of an inch.
    digits: i64,
    decimals: u32,
    fraction: bool,
    unit: Option<LengthUnit>,
}

impl Figure {
    /// So many of the last decimal, without a unit of length.
    pub fn new(digits: i64, decimals: u32) -> Figure {
        Figure {
            digits,
            decimals,
            fraction: false,
            unit: None,
        }
    }

    /// About so many millimetres, written in a unit with at most three decimals; inches and feet perhaps with fractions.
    pub fn of_size(mm: i64, unit: LengthUnit, sixteenths: bool) -> Figure {
        let (digits, decimals, fraction) = match unit {
            LengthUnit::Mm => (mm, 0, false),
            LengthUnit::Cm => (mm, 1, false),
            LengthUnit::M => (mm, 3, false),
            LengthUnit::In | LengthUnit::Ft if sixteenths => (mm * 10 / 16 + 1, 0, true),
            LengthUnit::In => (mm * 4, 2, false),
            LengthUnit::Ft | LengthUnit::Yd => (mm / 3 + 1, 2, false),
        };
        Figure {
            digits,
            decimals,
            fraction,
            unit: Some(unit),
        }
    }

    /// A weight; `sure` where its decimals must be readable in one way only.
    pub fn of_weight(chance: &mut Chance, most: i64, tonnes: bool, sure: bool) -> Figure {
        let decimals = match (tonnes, sure) {
            (true, true) => 2,
            (true, false) => 3,
            (false, true) => 1,
            (false, false) => chance.one(&[0, 0, 1, 2]),
        };
        let scale = if tonnes { 1 } else { 10_i64.pow(decimals) };
        Figure::new(chance.between(1, most * scale), decimals)
    }

    /// Thousandths, for sums of weights.
    pub fn thousandths(&self) -> i64 {
        self.digits * 10_i64.pow(3 - self.decimals)
    }

    /// Its value in its unit, read from its decimal form as any reader would.
    pub fn value(&self) -> f64 {
        format!("{}e-{}", self.digits, self.decimals)
            .parse()
            .expect("digits")
    }

    /// As a spreadsheet holds it; none for fractions, which it cannot hold as such.
    pub fn number(&self) -> Option<f64> {
        (!self.fraction).then(|| self.value())
    }

    /// Its length in metres.
    pub fn m(&self) -> f64 {
        match self.unit {
            Some(_) if self.fraction => LengthUnit::In.m() * self.digits as f64 / 16.0,
            unit => unit.map_or(f64::NAN, |unit| unit.m() * self.value()),
        }
    }

    /// Whether the text carries its own marks (`12'-5 3/8"`).
    pub fn marked(&self) -> bool {
        self.fraction && self.unit == Some(LengthUnit::Ft)
    }

    /// As written.
    pub fn text(&self, locale: Locale) -> String {
        if self.fraction {
            fraction(self.digits, self.marked())
        } else {
            locale.number(self.digits, self.decimals)
        }
    }
}

/// `5 3/8`, or with feet `12'-5 3/8"`.
fn fraction(sixteenths: i64, feet: bool) -> String {
    let (whole, mut over, mut under) = (sixteenths / 16, sixteenths % 16, 16);
    while over > 0 && over % 2 == 0 {
        (over, under) = (over / 2, under / 2);
    }
    let mixed = |whole: i64| match (whole, over) {
        (whole, 0) => whole.to_string(),
        (0, over) => format!("{over}/{under}"),
        (whole, over) => format!("{whole} {over}/{under}"),
    };
    if feet {
        format!("{}'-{}\"", whole / 12, mixed(whole % 12))
    } else {
        mixed(whole)
    }
}

/// Decimal sign and what stands between thousands.
#[derive(Clone, Copy, Debug)]
pub struct Locale {
    decimal: char,
    thousands: &'static str,
}

/// The locales that lists come in.
pub const LOCALES: [Locale; 8] = [
    Locale {
        decimal: '.',
        thousands: "",
    },
    Locale {
        decimal: '.',
        thousands: ",",
    },
    Locale {
        decimal: '.',
        thousands: "'",
    },
    Locale {
        decimal: '.',
        thousands: " ",
    },
    Locale {
        decimal: ',',
        thousands: "",
    },
    Locale {
        decimal: ',',
        thousands: ".",
    },
    Locale {
        decimal: ',',
        thousands: "\u{a0}",
    },
    Locale {
        decimal: ',',
        thousands: " ",
    },
];

impl Locale {
    /// A number of so many digits, the last of them decimals.
    pub fn number(self, digits: i64, decimals: u32) -> String {
        let unit = 10_i64.pow(decimals);
        let whole = (digits / unit).to_string();
        let mut text = String::new();
        for (at, digit) in whole.chars().enumerate() {
            if at > 0 && (whole.len() - at).is_multiple_of(3) {
                text.push_str(self.thousands);
            }
            text.push(digit);
        }
        if decimals > 0 {
            text.push(self.decimal);
            text.push_str(&format!(
                "{:0width$}",
                digits % unit,
                width = decimals as usize
            ));
        }
        text
    }

    /// A number of thousandths without the noughts at its end.
    pub fn thousandths(self, digits: i64) -> String {
        let (mut digits, mut decimals) = (digits, 3);
        while decimals > 0 && digits % 10 == 0 {
            (digits, decimals) = (digits / 10, decimals - 1);
        }
        self.number(digits, decimals)
    }
}
