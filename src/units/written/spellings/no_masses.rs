//! Weight cells that hold no usable weight. What is written is common practice, no source; that zero and minus are never
//! a weight follows from physics.

use crate::units::written::Decimal::{Point, Unclear};
use crate::units::written::{MassText, mass};

const NOT_STATED: &[&str] = &[
    "",
    " ",
    "-",
    "–",
    "—",
    "－",
    "−",
    "--",
    ".",
    "/",
    "x",
    "X",
    "?",
    "??",
    "***",
    "N/A",
    "NA",
    "n.a.",
    "n/a",
    "TBA",
    "T.B.A.",
    "T.B.A",
    "TBC",
    "tbd",
    "N/C",
    "n.d.",
    "pending",
    "a confirmar",
    "pendiente",
    "folgt",
    "as agreed",
    "To follow",
    "volgt",
    "à préciser",
    "待定",
    "TBD.",
    "nil",
    "NIL",
    "none",
    "TBN",
    "to be weighed",
    "No weight",
    "nicht bekannt",
    "- - -",
    "????",
    "…",
];

const ERRORS: &[&str] = &[
    "#REF!",
    "#N/A",
    "#VALUE!",
    "#DIV/0!",
    "#NAME?",
    "#NUM!",
    "#NULL!",
    "#BEZUG!",
    "#NV",
    "#¡REF!",
    "#DZIEL/0!",
    "#SPILL!",
    "Err:502",
];

const ZEROS: &[&str] = &["0", "0.00", "0,00 kg", "0 lbs", "(0)", "-0"];

const NEGATIVES: &[&str] = &[
    "-12",
    "−12",
    "–12 kg",
    "(1,200)",
    "(1,200 kg)",
    "49.03-",
    "49.03 -",
    "49.03- kg",
    "49.03 kg-",
];

const TWO_FIGURES: &[&str] = &[
    "450-500",
    "450 – 500 kg",
    "450 to 500",
    "450~500",
    "450...500",
    "450/500",
    "26kgs/30.5kgs",
    "33 /38 kg",
    "@25.3\n1,012.0",
    "1,012.0 @25.3",
    "2 x 450 kg",
    "12 * 45",
    "12+45",
    "450 & 500",
    "1200 (2)",
    "1 lb 8 oz",
    "450 kg (500 lb)",
    "1 of 6",
    "450 kg 2 pcs",
    "1200 to 1300 kg",
    "1200 bis 1300",
    "1200 +/- 5%",
    "5-6 1/2",
    "1 2345",
    "45 0",
    "1_200 kg",
];

const NOT_WEIGHTS: &[&str] = &[
    "see note",
    "2 pallets",
    "4.10E+08",
    "3E1045",
    "2E310 kg",
    // Gross or grams, grams or year.
    "450 grs",
    "450 г",
    "2.5E3",
    "2.5E+03",
    "≤1200",
    "12 kips",
    "450 kN",
    "450 kg?",
    "1,000,00",
    "85 %",
    "500+",
    "<500",
    "max 500",
    "450 EUR",
    "450 €",
    "12 st",
    "12 pcs",
    "12 ea",
    "450 kg/m",
    "1.2.3",
    "1,200,5",
    "DN200",
    "S355",
    "450 mm",
    "T 5",
    "450 K",
];

#[test]
fn cells_without_a_usable_weight() {
    for (texts, expected) in [
        (NOT_STATED, MassText::NotStated),
        (ERRORS, MassText::Error),
        (ZEROS, MassText::Zero),
        (NEGATIVES, MassText::Negative),
        (TWO_FIGURES, MassText::TwoFigures),
        (NOT_WEIGHTS, MassText::NotAWeight),
    ] {
        for text in texts {
            for habit in [Point, Unclear] {
                assert_eq!(mass(text, habit), expected, "{text:?}");
            }
        }
    }
}
