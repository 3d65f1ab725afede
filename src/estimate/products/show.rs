//! Tidy figures for designations and workings.

/// A figure without needless zeros.
pub fn figure(value: f64) -> String {
    let rounded = (value * 1_000.0).round() / 1_000.0;
    format!("{rounded}")
}

/// Kilograms per metre with three significant figures or one decimal.
pub fn per_metre(value: f64) -> String {
    let places = if value < 10.0 { 2 } else { 1 };
    format!("{value:.places$} kg/m")
}

/// Inches as the trade writes them: a fraction where it is an exact sixteenth or 32nd, else a decimal.
pub fn inches(value: f64) -> String {
    let parts = value * 32.0;
    if (parts - parts.round()).abs() > 1e-6 || value <= 0.0 {
        return figure(value);
    }
    let (mut above, mut below) = (parts.round() as u64, 32u64);
    while above.is_multiple_of(2) && below > 1 {
        (above, below) = (above / 2, below / 2);
    }
    let (whole, rest) = (above / below, above % below);
    match (whole, rest) {
        (whole, 0) => format!("{whole}"),
        (0, rest) => format!("{rest}/{below}"),
        (whole, rest) => format!("{whole}-{rest}/{below}"),
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn inches_are_fractions_where_the_trade_writes_fractions() {
        // Arithmetic.
        for (value, text) in [
            (0.5, "1/2"),
            (1.25, "1-1/4"),
            (6.0, "6"),
            (0.28, "0.28"),
            (0.3125, "5/16"),
            (2.375, "2-3/8"),
        ] {
            assert_eq!(super::inches(value), text);
        }
    }
}
