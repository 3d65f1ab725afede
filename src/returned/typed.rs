//! What people type when they decide: the words of a decision, a weight. The command line and the workbook take the same.

use crate::history::{DECISIONS, DecisionKind};
use crate::units::written::{Decimal, MassText, mass, tidy};
use crate::units::{Mass, MassUnit};

/// A decision in its words, whatever the letters and the signs between them.
///
/// # Errors
/// The known words.
pub fn decision(text: &str) -> Result<DecisionKind, String> {
    let said = tidy(&text.to_lowercase().replace(['-', '_'], " "));
    let found = DECISIONS.iter().find(|(_, words)| *words == said);
    found.map(|(kind, _)| *kind).ok_or_else(|| {
        let known = DECISIONS.map(|(_, words)| format!("\"{words}\""));
        format!("it is one of {}", known.join(", "))
    })
}

/// A weight of a whole line or package with its unit.
///
/// # Errors
/// What it needs.
pub fn weight(text: &str) -> Result<Mass, String> {
    let needed = || {
        "a weight is a figure above zero with its unit, of the whole line: \"2040 lb\", \"925.5 kg\"".to_string()
    };
    // Pounds are written with points for parts: "4,700 lb" has a sign for thousands (common practice, no source).
    let decimal = match mass(text, Decimal::Unclear) {
        MassText::Figure {
            unit: Some(unit), ..
        } if unit.unit(None) == Some(MassUnit::Lb) && !text.contains('.') => Decimal::Point,
        _ => Decimal::Unclear,
    };
    match mass(text, decimal) {
        MassText::Figure { figure, .. } if figure.unclear => Err(format!(
            "\"{text}\" may mean two things: write it without a sign for thousands"
        )),
        MassText::Figure { of: Some(_), .. } => Err(needed()),
        MassText::Figure {
            gross: Some(false), ..
        } => Err(format!(
            "\"{text}\" leaves the packaging out, and the truck lifts it too: write the weight with all packaging, without \"net\""
        )),
        MassText::Figure {
            figure,
            unit: Some(unit),
            approximate: false,
            ..
        } => {
            let unit = unit.unit(None).ok_or("which ton? write kg or lb")?;
            Ok(unit.mass(figure.value))
        }
        _ => Err(needed()),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_weight_needs_its_unit() {
        for (text, kg) in [
            ("1000 kg", Some(1_000.0)),
            ("100 lb", Some(45.359_237)),
            // As the reports print it; a comma before three digits may be a decimal one in kilograms.
            ("4,700 lb", Some(4_700.0 * 0.453_592_37)),
            ("4.700 lb", None),
            ("4,700 kg", None),
            ("1000", None),
            ("0 kg", None),
            ("ca. 90 kg", None),
            ("90 kg each", None),
            ("2 ton", None),
            ("500 kg net", None),
            ("net 500 kg", None),
            ("500 kg gross", Some(500.0)),
        ] {
            let read = weight(text).ok().map(Mass::kg);
            assert_eq!(read, kg, "{text}");
        }
    }

    #[test]
    fn a_decision_is_taken_as_people_type_it() {
        assert_eq!(
            decision("Supplier-corrected"),
            Ok(DecisionKind::SupplierCorrected)
        );
        assert!(decision("yes").is_err_and(|known| known.contains("\"use estimate\"")));
    }
}
