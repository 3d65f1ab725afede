//! What a number format does to a number: shows it as a date, adds a unit, divides it by a thousand.

/// A number format as far as reading needs it.
#[derive(Clone, Debug, Default, PartialEq)]
pub(super) struct NumberFormat {
    /// The number is a date or a time of day.
    pub(super) date: bool,
    /// The unit or scale that only the format shows (`kg`, `t`, `thousands`); the stored number does not hold it.
    pub(super) shows: Option<&'static str>,
}

/// Units that a format may show; the longest first.
const UNITS: [&str; 12] = [
    "tonne", "kgs", "lbs", "mm", "cm", "kg", "lb", "ft", "mt", "to", "t", "m",
];

/// A format that has a number but no code of its own (ECMA-376 part 1, 18.8.30, with the East Asian ones).
pub(super) fn built_in(id: u32) -> NumberFormat {
    NumberFormat {
        date: matches!(id, 14..=22 | 27..=36 | 45 | 47 | 50..=58),
        shows: None,
    }
}

/// A format by its code: only the first section counts, which is the one for positive numbers.
pub(super) fn of_code(code: &str) -> NumberFormat {
    let mut plain = String::new();
    let mut literal = String::new();
    let mut signs = code.chars();
    while let Some(sign) = signs.next() {
        match sign {
            ';' => break,
            '"' => literal.extend(signs.by_ref().take_while(|sign| *sign != '"')),
            '\\' => literal.extend(signs.next()),
            // The next sign only sets a width or fills the cell.
            '_' | '*' => drop(signs.next()),
            '[' => {
                let inside: String = signs.by_ref().take_while(|sign| *sign != ']').collect();
                if inside.starts_with('$') {
                    literal.extend(inside.chars().skip(1).take_while(|sign| *sign != '-'));
                }
                // Elapsed hours (`[h]:mm`) are a number of hours, not a date; colours and conditions are neither.
                if !inside.is_empty() && inside.chars().all(|sign| "hmsHMS".contains(sign)) {
                    return NumberFormat::default();
                }
            }
            sign => plain.push(sign),
        }
    }
    let lower = plain.to_lowercase().replace("general", "");
    let date = lower.contains(['d', 'm', 'y', 'h', 's']);
    let word = literal.trim().to_lowercase();
    let word = word
        .trim_start_matches(['(', '['])
        .trim_end_matches([')', ']', '.']);
    let shows = match UNITS.into_iter().find(|unit| word == *unit) {
        _ if date => None,
        // A comma after the last digit divides by a thousand (ECMA-376 part 1, 18.8.31).
        None if lower.trim_end().ends_with(',') => Some("thousands"),
        unit => unit,
    };
    NumberFormat { date, shows }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Codes and their meaning: ECMA-376 part 1, 18.8.30 and 18.8.31.
    #[test]
    fn a_format_says_what_it_does() {
        for (code, date, shows) in [
            ("General", false, None),
            ("0.00", false, None),
            ("#,##0.00;[Red]-#,##0.00", false, None),
            ("0.00E+00", false, None),
            ("yyyy-mm-dd", true, None),
            ("d-mmm", true, None),
            ("[$-409]h:mm AM/PM", true, None),
            ("[h]:mm:ss", false, None),
            ("0\" days\"", false, None),
            ("0.0\" kg\"", false, Some("kg")),
            ("#,##0.000\\ \\t", false, Some("t")),
            ("0.0,", false, Some("thousands")),
            ("#,##0", false, None),
            ("0_m", false, None),
            ("0*d", false, None),
        ] {
            assert_eq!(of_code(code), NumberFormat { date, shows }, "{code}");
        }
        assert!(built_in(14).date && !built_in(4).date);
    }
}
