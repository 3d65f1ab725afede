//! Lengths alone in a cell. The unit is that of the heading; spellings: common practice, no source; factors: NIST
//! Handbook 44, Appendix C.

use crate::units::LengthUnit::{self, Cm, Ft, In, M, Mm};
use crate::units::written::Decimal::{self, Comma, Point, Unclear};
use crate::units::written::length;

/// Text, decimal habit, unit of the heading, millimetres.
type Row = (&'static str, Decimal, Option<LengthUnit>, f64);

const FEET_AND_INCHES: &[Row] = &[
    ("12'-6 1/2\"", Point, None, 3_822.7),
    ("12' 6-1/2\"", Point, None, 3_822.7),
    ("12'6-1/2\"", Point, None, 3_822.7),
    ("12'-6-1/2\"", Point, None, 3_822.7),
    ("12' - 6 1/2\"", Point, None, 3_822.7),
    ("12'-6½\"", Point, None, 3_822.7),
    ("12-6 1/2", Point, Some(Ft), 3_822.7),
    ("12-6", Point, Some(Ft), 3_810.0),
    ("20-0", Point, Some(Ft), 6_096.0),
    ("6ft 3in", Point, None, 1_905.0),
    ("6ft3in", Point, None, 1_905.0),
    ("6 ft. 3 in.", Point, None, 1_905.0),
    ("6 feet 3 inches", Point, None, 1_905.0),
    ("6'3", Point, None, 1_905.0),
    ("6' 3", Point, None, 1_905.0),
    ("6 ft 3", Point, None, 1_905.0),
    ("6' 3''", Point, None, 1_905.0),
    ("6′ 3″", Point, None, 1_905.0),
    ("6’ 3”", Point, None, 1_905.0),
    ("6'–3\"", Point, None, 1_905.0),
    ("6'\u{2011}3\"", Point, None, 1_905.0),
    ("10'-0½\"", Point, None, 3_060.7),
    ("10' 1/2\"", Point, None, 3_060.7),
    ("8'6\"", Point, None, 2_590.8),
    ("8'-0", Point, None, 2_438.4),
    ("6'-6.5\"", Point, None, 1_993.9),
    ("6'-6,5\"", Comma, None, 1_993.9),
    ("40'", Point, None, 12_192.0),
    ("40' ", Point, None, 12_192.0),
    ("20 FT", Point, None, 6_096.0),
    ("20FT.", Point, None, 6_096.0),
    ("8 feet", Point, None, 2_438.4),
    ("10.5'", Point, None, 3_200.4),
    ("10 1/2'", Point, None, 3_200.4),
    ("21' long", Point, None, 6_400.8),
    ("20'", Point, Some(In), 6_096.0),
    ("12 ft 6", Point, None, 3_810.0),
    ("12 ft. 6", Point, Some(In), 3_810.0),
    ("12ft.6in.", Point, None, 3_810.0),
    ("12ft-6in", Point, None, 3_810.0),
    ("12FT 6IN", Point, None, 3_810.0),
    ("12` 6\"", Point, None, 3_810.0),
    ("12' 6 ½\"", Point, None, 3_822.7),
    ("5-6 1/2", Point, Some(Ft), 1_689.1),
    ("20-ft", Point, None, 6_096.0),
    ("20-foot", Point, None, 6_096.0),
    ("20 pies", Point, None, 6_096.0),
    ("3 yds", Point, None, 2_743.2),
];

const INCHES: &[Row] = &[
    ("3/4\"", Point, None, 19.05),
    ("3⁄4\"", Point, None, 19.05),
    ("¾″", Point, None, 19.05),
    ("⅝\"", Point, None, 15.875),
    ("5½", Point, Some(In), 139.7),
    ("5 1/2", Point, Some(In), 139.7),
    ("5-1/2", Point, Some(In), 139.7),
    ("5 1⁄2 in", Point, None, 139.7),
    ("5 - 1/2\"", Point, None, f64::NAN),
    ("1 11/16\"", Point, None, 42.862_5),
    ("9 1/4 in.", Point, None, 234.95),
    ("96\"", Point, None, 2_438.4),
    ("96''", Point, None, 2_438.4),
    ("96′′", Point, None, 2_438.4),
    ("96 ″", Point, None, 2_438.4),
    ("96 in", Point, None, 2_438.4),
    ("96in.", Point, None, 2_438.4),
    ("96 INS", Point, None, 2_438.4),
    ("96 inches", Point, None, 2_438.4),
    (".75\"", Point, None, 19.05),
    (".280", Point, Some(In), 7.112),
    ("4.500 OD", Point, Some(In), 114.3),
    ("12\" dia", Point, None, 304.8),
    ("0,75\"", Comma, None, 19.05),
    ("6⅜\"", Point, None, 161.925),
    ("96-inch", Point, None, 2_438.4),
    ("40 pulg.", Point, None, 1_016.0),
    ("40 英寸", Point, None, 1_016.0),
];

const METRIC: &[Row] = &[
    ("6000", Unclear, Some(Mm), 6_000.0),
    ("6000mm", Unclear, Some(M), 6_000.0),
    ("6000 mm.", Unclear, None, 6_000.0),
    ("6000.", Unclear, Some(Mm), 6_000.0),
    ("L=6000", Unclear, Some(Mm), 6_000.0),
    ("L = 6000 mm", Unclear, None, 6_000.0),
    ("L6000", Unclear, Some(Mm), 6_000.0),
    ("Länge: 6000", Unclear, Some(Mm), 6_000.0),
    ("Lg.6000", Unclear, Some(Mm), 6_000.0),
    ("ép. 12", Unclear, Some(Mm), 12.0),
    ("Ø 60", Unclear, Some(Mm), 60.0),
    ("⌀219.1", Point, Some(Mm), 219.1),
    ("φ60", Unclear, Some(Mm), 60.0),
    ("ca. 6000", Unclear, Some(Mm), 6_000.0),
    ("approx. 6 m", Unclear, None, 6_000.0),
    ("~6000", Unclear, Some(Mm), 6_000.0),
    ("6mts", Unclear, Some(Mm), 6_000.0),
    ("7.5mts", Point, Some(Mm), 7_500.0),
    ("7,5 mtrs", Comma, None, 7_500.0),
    ("6 MTR", Unclear, None, 6_000.0),
    ("6M", Unclear, None, 6_000.0),
    ("2.5m", Point, None, 2_500.0),
    ("2,5 m", Comma, None, 2_500.0),
    ("2,5 m", Point, None, 2_500.0),
    ("2.500", Comma, Some(Mm), 2_500.0),
    ("2.500", Point, Some(M), 2_500.0),
    ("6.000,00", Unclear, Some(Mm), 6_000.0),
    ("6,000.00", Unclear, Some(Mm), 6_000.0),
    ("6,3", Comma, Some(Mm), 6.3),
    ("45 cm", Unclear, None, 450.0),
    ("45CMS", Unclear, None, 450.0),
    ("120", Unclear, Some(Cm), 1_200.0),
    ("6 米", Unclear, None, 6_000.0),
    ("600毫米", Unclear, None, 600.0),
    ("600ミリ", Unclear, None, 600.0),
    ("'30", Unclear, Some(Mm), 30.0),
    ("６０００ｍｍ", Unclear, None, 6_000.0),
    ("6\u{202f}000", Unclear, Some(Mm), 6_000.0),
    ("6'000 mm", Unclear, None, 6_000.0),
    ("1 200,5 mm", Unclear, None, 1_200.5),
    ("1,200.5 mm", Unclear, None, 1_200.5),
    ("6000 мм", Unclear, None, 6_000.0),
    ("6000 approx", Unclear, Some(Mm), 6_000.0),
];

const NO_LENGTH: &[&str] = &[
    "",
    "-",
    "–",
    "TBA",
    "n/a",
    "48 x 40",
    "120/100/55",
    "100/60",
    "6000/7000",
    "6000-6500",
    "-6000",
    "10 m2",
    "M24",
    "M24x130",
    "DN200",
    "200nb",
    "NPS 8",
    "SCH 40",
    "10 ga",
    "see drawing 4",
    "4.10E+08",
    "3E1045",
    "2026-01-02",
    "2.1.2026",
    "1.2.3",
    "#DIV/0!",
    "2m50",
    "6 尺",
    "12 pcs",
    "6000+",
    "6000 +/-5",
    "6 to 7 m",
    "1-Feb",
    "Jan-2",
    "6.5E3",
    "12'-14\"",
    "12', 6\"",
    "5-M",
    "nil",
];

#[test]
fn lengths_in_cells() {
    for (text, habit, default, mm) in FEET_AND_INCHES.iter().chain(INCHES).chain(METRIC) {
        let found = length(text, *habit, *default);
        let read = found
            .and_then(|found| found.in_unit(*default))
            .map(|length| length.mm());
        if mm.is_nan() {
            assert_eq!(found, None, "{text}");
            continue;
        }
        assert!(
            read.is_some_and(|read| (read - mm).abs() < 1e-9),
            "{text}: {read:?}, not {mm} mm"
        );
        assert!(
            found.is_some_and(|found| !found.figure.unclear),
            "{text} can be read in one way only"
        );
    }
}

#[test]
fn what_is_no_length() {
    for text in NO_LENGTH {
        assert_eq!(length(text, Point, Some(Mm)), None, "{text}");
    }
}

#[test]
fn lengths_that_can_be_read_in_two_ways_say_so() {
    for (text, default) in [
        ("1,200", Mm),
        ("1.200", Mm),
        ("2,500 mm", Mm),
        ("2.500 m", M),
        ("12-6 1/2", In),
    ] {
        assert!(
            length(text, Unclear, Some(default)).is_some_and(|found| found.figure.unclear),
            "{text}"
        );
    }
}
