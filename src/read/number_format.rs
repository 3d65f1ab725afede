//! What only a number format shows of a number: its unit, or that it is divided by a thousand.
//! Dates are told by calamine.

/// Units that a format may show; the longest first.
const UNITS: [&str; 12] = [
    "tonne", "kgs", "lbs", "mm", "cm", "kg", "lb", "ft", "mt", "to", "t", "m",
];

/// The unit or scale that only a format shows (`kg`, `t`, `thousands`), by the format's code; the stored number does not
/// hold it. Only the first section counts, which is the one for positive numbers.
pub(super) fn shown_unit(code: &str) -> Option<&'static str> {
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
    match UNITS.into_iter().find(|unit| word == *unit) {
        _ if date => None,
        // A comma after the last digit divides by a thousand (ECMA-376 part 1, 18.8.31).
        None if lower.trim_end().ends_with(',') => Some("thousands"),
        unit => unit,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Codes and their meaning: ECMA-376 part 1, 18.8.30 and 18.8.31.
    #[test]
    fn a_format_says_which_unit_it_shows() {
        for (code, shows) in [
            ("General", None),
            ("0.00", None),
            ("#,##0.00;[Red]-#,##0.00", None),
            ("0.00E+00", None),
            ("yyyy-mm-dd", None),
            ("d-mmm", None),
            ("[$-409]h:mm AM/PM", None),
            ("[h]:mm:ss", None),
            ("0\" days\"", None),
            ("0.0\" kg\"", Some("kg")),
            ("#,##0.000\\ \\t", Some("t")),
            ("0.0,", Some("thousands")),
            ("#,##0", None),
            ("0_m", None),
            ("0*d", None),
        ] {
            assert_eq!(shown_unit(code), shows, "{code}");
        }
    }
}
