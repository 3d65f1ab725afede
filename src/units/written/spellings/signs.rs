//! One figure in every sign that stands for a digit, a separator or a blank (the Unicode Standard, general categories Nd
//! and Zs; NFKC of UAX 15), with every unit of mass and length that the table knows.

use crate::units::written::Decimal::Unclear;
use crate::units::written::{MassText, length, mass};
use crate::units::{LengthUnit, spelling};
use serde::Deserialize;

#[derive(Deserialize)]
struct Row {
    spelling: String,
    quantity: String,
}

/// Every spelling of the table is read behind a figure, glued on or set apart, in small and capital letters; what the
/// table says is ambiguous keeps its own kind.
#[test]
fn every_spelling_of_the_table_is_read() {
    let mut seen = 0;
    for Row {
        spelling: spelled,
        quantity,
    } in crate::tables::rows::<Row>(crate::tables::UNITS)
    {
        for text in [
            format!("12 {spelled}"),
            format!("12{spelled}"),
            format!("12 {spelled} "),
        ] {
            if quantity == "mass" {
                match mass(&text, Unclear) {
                    MassText::Figure { figure, unit, .. } => {
                        assert_eq!(figure.value, 12.0, "{text}");
                        assert_eq!(unit, spelling::mass(&spelled), "{text}");
                    }
                    other => panic!("{text}: {other:?}"),
                }
            } else if !spelled.contains('-') {
                let found = length(&text, Unclear, Some(LengthUnit::Mm));
                let expected = spelling::length(&spelled).map(|unit| unit.length(12.0));
                assert_eq!(
                    found.and_then(|found| found.in_unit(None)),
                    expected,
                    "{text}"
                );
            }
            seen += 1;
        }
    }
    assert!(seen > 300, "{seen}");
}

#[test]
fn blanks_and_apostrophes_between_thousands() {
    let blanks = [
        '\u{20}', '\u{a0}', '\u{2007}', '\u{2008}', '\u{2009}', '\u{200a}', '\u{202f}', '\u{205f}',
        '\u{3000}', '\'', '’', '′', '＇',
    ];
    for blank in blanks {
        let text = format!("12{blank}345,5");
        match mass(&text, Unclear) {
            MassText::Figure { figure, .. } => assert_eq!(figure.value, 12_345.5, "{blank:?}"),
            other => panic!("{blank:?}: {other:?}"),
        }
    }
}

#[test]
fn dashes_before_a_weight_are_minus_and_after_feet_are_joiners() {
    for dash in [
        '-', '\u{2010}', '\u{2011}', '\u{2012}', '\u{2013}', '\u{2014}', '\u{2015}', '\u{2212}',
        '－', '\u{fe63}',
    ] {
        assert_eq!(
            mass(&format!("{dash}12"), Unclear),
            MassText::Negative,
            "{dash:?}"
        );
        let found =
            length(&format!("6'{dash}3\""), Unclear, None).and_then(|found| found.in_unit(None));
        assert!(
            found.is_some_and(|found| (found.inches() - 75.0).abs() < 1e-9),
            "{dash:?}"
        );
    }
}
